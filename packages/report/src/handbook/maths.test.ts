import { expect, test } from "vitest";
import { mathsOf, symbolMaths } from "./maths.ts";

test.each([
  [
    "P",
    "P_ref*(1 - cos(theta))/n",
    "P = \\frac{P_{\\mathrm{ref}}\\,\\left(1 - \\cos\\left(\\theta\\right)\\right)}{n}",
  ],
  ["a", "b - (c + d)", "a = b - \\left(c + d\\right)"],
  ["a", "b*(-c)", "a = b\\,\\left(-c\\right)"],
  ["a", "(b/c)^2", "a = \\left(\\frac{b}{c}\\right)^{2}"],
  ["a", "exp(-x)^2", "a = \\left(e^{-x}\\right)^{2}"],
  ["a", "max(0, abs(x))", "a = \\max\\left(0,\\ \\left|x\\right|\\right)"],
  ["a", "T - 20 degC", "a = T - 20\\ \\mathrm{degC}"],
])("%s = %s", (symbol, equation, maths) => expect(mathsOf(symbol, equation)).toBe(maths));
test("a governing equation that is no expression has no maths", () => {
  expect(mathsOf("v", "EI*w'''' + k*w = k*d")).toBeUndefined();
});
test.each([
  ["A0", "\\mathrm{A0}"],
  ["EI", "\\mathrm{EI}"],
  ["mu_w", "\\mu_{w}"],
  ["theta_ref", "\\theta_{\\mathrm{ref}}"],
  ["eps_u", "\\varepsilon_{u}"],
  ["z_1", "z_{1}"],
])("the symbol %s", (name, maths) => expect(symbolMaths(name)).toBe(maths));
