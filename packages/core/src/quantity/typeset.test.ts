import { describe, expect, test } from "vitest";
import { parseExpression } from "./expression.ts";
import { symbolInPrint, typesetText } from "./typeset.ts";

describe("an equation in print", () => {
  test.each([
    ["mu * N * (1 + n)^2", "μ·N·(1 + n)²"],
    [
      "P_ref * (1 - cos(theta_ref)) / (1 - cos(theta)) * (v / v_ref)^n * a",
      "P_ref·(1 − cos(θ_ref))/(1 − cos(θ))·(v/v_ref)^n·a",
    ],
    ["K_0 + t_w - T", "K_0 + t_w − T"],
    ["A_0 + 2*t_w", "A_0 + 2·t_w"],
    ["sqrt(r^2 - a^2)", "√(r² − a²)"],
    ["abs(x - y)", "|x − y|"],
    ["max(a, b, 2 mm)", "max(a, b, 2 mm)"],
    ["exp(mu*phi)", "exp(μ·φ)"],
    ["a - (b - c)", "a − (b − c)"],
    ["a - (b + c)", "a − (b + c)"],
    ["a + (b - c)", "a + b − c"],
    ["a / (b * c)", "a/(b·c)"],
    ["a / b * c", "a/b·c"],
    ["a * (b / c)", "a·b/c"],
    ["a - -b", "a − (−b)"],
    ["a * -b", "a·(−b)"],
    ["-(a + b)", "−(a + b)"],
    ["(-a)^2", "(−a)²"],
    ["-a^2", "−a²"],
    ["a^3 + b^4 + c^5", "a³ + b⁴ + c^5"],
    ["a^-1", "a^(−1)"],
    ["a^(b + 1)", "a^(b + 1)"],
    ["(a^b)^2", "(a^b)²"],
    ["(2 mm)^2", "(2 mm)²"],
    ["5 % * x", "5 %·x"],
  ])("%s is set as %s", (equation, text) => {
    expect(typesetText(equation)).toBe(text);
  });
  test("takes a tree as well as a text", () => {
    expect(typesetText(parseExpression("2*pi*r"))).toBe("2·π·r");
  });
  test("has numbers filled in where they are given, bracketed where a power or a sign asks for it", () => {
    const shown = (name: string) => ({ mu: "0.45", N: "4 N", n: "0.2", x: "−3 mm" })[name] ?? name;
    expect(typesetText("mu*N*(1 + n)^2", shown)).toBe("0.45·4 N·(1 + 0.2)²");
    expect(typesetText("N^2", shown)).toBe("(4 N)²");
    expect(typesetText("a - x", shown)).toBe("a − (−3 mm)");
    expect(typesetText("x + a", shown)).toBe("−3 mm + a");
    expect(typesetText("x^2", shown)).toBe("(−3 mm)²");
  });
});

test.each([
  ["theta", "θ"],
  ["theta_ref", "θ_ref"],
  ["mu_lambda", "μ_λ"],
  ["mumble", "mumble"],
  ["P_ref", "P_ref"],
  ["E1", "E1"],
  ["alpha2", "α2"],
  ["constructor", "constructor"],
])("the symbol %s is printed %s", (name, printed) => {
  expect(symbolInPrint(name)).toBe(printed);
});
