import { expect, test } from "vitest";
import { isRange } from "../tape/figures/figure.ts";
import { creepPA66, springMaterials, steel301, steel14310, steelC75S, thicknessClass } from "./figures.ts";

// Data page of 1.4310 strip; property page of 301; page of high-carbon strip. [read]
test("spot figures are the printed ones", () => {
  expect(steel14310.E).toMatchObject({ low: 179_000, high: 185_000, how: "read" });
  expect(steel14310.tempers["+c1500"]).toMatchObject({ low: 1500, high: 1700 });
  expect([steel301.strength.value, steel301.yield.value, steel301.density.value]).toEqual([1276, 965, 8.03]);
  expect(steelC75S.words).toContain("1.1248");
  expect([thicknessClass.upTo015.A.value, thicknessClass.upTo015.B.value, thicknessClass.upTo015.C.value]).toEqual([
    0.01, 0.008, 0.005,
  ]);
});
// Creep modulus of a conditioned polyamide, 1400 and 930 MPa at 1 and 1000 h: ln(1400/930)/ln 1000. [read, derived]
test("a polyamide's exponent lies in the span its material gives", () => {
  const n = Math.log(creepPA66.hour.value / creepPA66.thousandHours.value) / Math.log(1000);
  expect(n).toBeCloseTo(0.059215, 5);
  const PA66 = springMaterials.find((m) => m.words[0] === "pa66")!;
  expect(PA66.relaxation).toSatisfy((r: { low: number; high: number }) => r.low < n && n < r.high);
});
test("every material says how stiff and how strong it is, and no two share a word", () => {
  const words = springMaterials.flatMap((m) => m.words as readonly string[]);
  expect(new Set(words).size).toBe(words.length);
  for (const {
    E,
    strength,
    words: [name],
  } of springMaterials) {
    for (const figure of [E, strength]) if (isRange(figure)) expect(figure.low, name).toBeLessThan(figure.high);
    const most = isRange(E) ? E.high : E.value;
    const strong = isRange(strength) ? strength.high : strength.value;
    expect(most / strong, name).toBeGreaterThan(10);
  }
});
test("words are in small letters, as they are looked for", () => {
  for (const { words } of springMaterials) for (const word of words) expect(word).toBe(word.toLowerCase());
});
