import { asWritten, checks, chosen, type Quantity, Realiser, typesetText } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { elementsOf, pairs, sceneOf } from "./example.fixture.ts";
import { equationMl, expressionMl, expressionOf, symbolMl } from "./mathml.ts";

/** Every closed equation behind a check on the example. */
const equations = new Map<string, string>();
for (const [unit, tape] of pairs) {
  const scene = sceneOf(unit, tape);
  for (const check of checks) {
    if (check.absent(scene) !== undefined) continue;
    const wanted = [
      chosen(check.value, scene),
      chosen<Quantity>(check.atLeast, scene),
      chosen<Quantity>(check.atMost, scene),
    ].filter((q) => q !== undefined);
    const realiser = new Realiser(scene, wanted);
    realiser.run(asWritten);
    for (const m of realiser.models) if (m.form === "closed") equations.set(m.id, m.equation);
  }
}

test("there are equations to read", () => expect(equations.size).toBeGreaterThan(15));
test.each([...equations])("%s: its printed text leads back to its expression", (_, equation) => {
  const printed = typesetText(equation);
  const tree = expressionOf(printed);
  expect(tree).toBeDefined();
  expect(typesetText(tree!)).toBe(printed);
});
test.each([...equations])("%s: its MathML is well formed and keeps its text beside it", (id, equation) => {
  const printed = typesetText(equation);
  const ml = equationMl("x", printed)!;
  expect(elementsOf(ml)[0]).toMatchObject({ name: "math" });
  expect(ml, id).toContain("alttext=");
});

describe("what an expression becomes", () => {
  const body = (text: string): string => expressionMl(text).replace(/^<math>|<\/math>$/g, "");
  test.each([
    ["a + b", "<mrow><mi>a</mi><mo>+</mo><mi>b</mi></mrow>"],
    ["a/b", "<mfrac><mi>a</mi><mi>b</mi></mfrac>"],
    ["sqrt(x)", "<msqrt><mi>x</mi></msqrt>"],
    ["x^2", "<msup><mi>x</mi><mn>2</mn></msup>"],
    ["exp(mu)", '<msup><mi mathvariant="normal">e</mi><mi>μ</mi></msup>'],
    ["2 mm", '<mrow><mn>2</mn><mspace width="0.17em"/><mi mathvariant="normal">mm</mi></mrow>'],
  ])("%s", (text, ml) => {
    expect(body(text)).toBe(ml);
  });
  test("a sum is bracketed inside a product and under a power, never inside a fraction", () => {
    expect(body("a*(b + c)").match(/stretchy/g)).toHaveLength(2);
    expect(body("(b + c)^2").match(/stretchy/g)).toHaveLength(2);
    expect(body("(a + b)/(c + d)")).not.toContain("stretchy");
  });
  test("taking away a sum or a negative keeps its brackets", () => {
    expect(body("a - (b + c)").match(/stretchy/g)).toHaveLength(2);
    expect(body("a - (-b)").match(/stretchy/g)).toHaveLength(2);
    expect(body("a + (b + c)")).not.toContain("stretchy");
  });
  test("a fraction under a power is bracketed, for its bar would not hold it", () => {
    expect(body("(a/b)^2").match(/stretchy/g)).toHaveLength(2);
  });
});
test("a symbol's index stands below it, its Greek letter is its letter, words stand upright", () => {
  expect(symbolMl("theta_ref")).toBe('<msub><mi>θ</mi><mi mathvariant="normal">ref</mi></msub>');
  expect(symbolMl("mu_1")).toBe("<msub><mi>μ</mi><mn>1</mn></msub>");
  expect(symbolMl("drop")).toBe('<mi mathvariant="normal">drop</mi>');
  expect(symbolMl("K0")).toBe('<mi mathvariant="normal">K0</mi>');
  expect(symbolMl("W")).toBe("<mi>W</mi>");
});
test("the governing equation of a solver is no expression, and is left to the text", () => {
  expect(expressionOf("integral of Eh·max(0, l(y)/l_0 - 1) over the width = F")).toBeUndefined();
  expect(equationMl("x", "angle between the travel and the first span")).toBeUndefined();
});
test("a long sum is written in lines of whole terms, which are the same terms in the same order", () => {
  const long = "V - I_t*R_f - min(n_s, n)*I_1*(1 - (min(n_s, n) - 1)/(2*n))*R_b - 2*I_1*R_c/n_p";
  const ml = equationMl("V_u", long)!;
  expect(ml.match(/<mtr>/g)!.length).toBeGreaterThan(1);
  const plain = (text: string) => text.replace(/<[^>]*>/g, "");
  const whole = `${plain(expressionMl(long))}`;
  expect(plain(ml)).toBe(`Vu=${whole}`);
});
test("a short equation stays in one line", () => {
  expect(equationMl("F", "a + b - c")).not.toContain("<mtable>");
});
test("what is taken away and is a sum itself keeps its brackets where lines are broken", () => {
  const ml = equationMl(
    "x",
    "alpha_1*beta_2*gamma_3*delta_4*epsilon_5 - (zeta_6*eta_7*theta_8*kappa_9 - lambda_0*mu_1)",
  )!;
  expect(ml).toContain("<mtable>");
  expect(ml.replace(/<[^>]*>/g, "")).toMatch(/−\(.*−.*\)$/);
});
