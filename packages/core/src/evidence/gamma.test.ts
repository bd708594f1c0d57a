import fc from "fast-check";
import { expect, test } from "vitest";
import { chiSquareQuantile, gammaAbove, gammaBelow, gammaQuantile, lnGamma, stirlingRest } from "./gamma.ts";

// Factorials, sqrt(pi), e^-x and chi-square tables. [derived]; the table's 3.841, 18.307, 8.907 [memory]
test("closed forms come out to the last digits", () => {
  expect(lnGamma(11) / Math.log(3628800)).toBeCloseTo(1, 14);
  expect(lnGamma(0.5)).toBeCloseTo(Math.log(Math.sqrt(Math.PI)), 13);
  expect(gammaAbove(30, 1) / Math.exp(-30)).toBeCloseTo(1, 12);
  expect(gammaBelow(1e-5, 1) / -Math.expm1(-1e-5)).toBeCloseTo(1, 13);
  expect(gammaQuantile(0.5, 1)).toBeCloseTo(Math.LN2, 14);
  expect(chiSquareQuantile(0.95, 1)).toBeCloseTo(3.841, 3);
  expect(chiSquareQuantile(0.95, 10)).toBeCloseTo(18.307, 3);
  expect(chiSquareQuantile(0.025, 19)).toBeCloseTo(8.907, 3);
});
test("Stirling's remainder joins on at 15", () => {
  expect(stirlingRest(15 - 1e-9)).toBeCloseTo(stirlingRest(15), 12);
  expect(stirlingRest(14)).toBeCloseTo(stirlingRest(14 + 1e-9), 12);
});
test("a quantile has its share below it, from shapes of 0.03 to 100 000", () => {
  const lg = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((x) => 10 ** x);
  fc.assert(
    fc.property(lg(-12, -0.001), lg(-1.5, 5), (p, a) => {
      const x = gammaQuantile(p, a);
      if (x > 1e-280) expect(gammaBelow(x, a) / p).toBeCloseTo(1, 8);
      expect(gammaAbove(gammaQuantile(1 - p, a, p), a) / p).toBeCloseTo(1, 8);
    }),
    { seed: 33, numRuns: 500 },
  );
});
test("no shape or share outside its range passes", () => {
  expect(() => gammaQuantile(0.5, 0)).toThrow("shape above 0");
  expect(() => gammaQuantile(1, 2)).toThrow("below 1");
  expect(() => gammaBelow(-1, 2)).toThrow("at 0 and above");
  expect(() => lnGamma(0)).toThrow("above 0 only");
});
