import fc from "fast-check";
import { expect, test } from "vitest";
import { chanceToPass, cyclesToShow, rateShownByClean } from "./clean-runs.ts";

// Success-run tables. [memory]
test.each([
  [0.1, 0.95, 0, 29],
  [0.01, 0.95, 0, 299],
  [0.01, 0.99, 0, 459],
  [1e-5, 0.95, 0, 299_572],
  [0.01, 0.95, 1, 473],
  [0.01, 0.95, 3, 773],
])("a rate of %f at %f with %i allowed takes %i cycles", (p, C, k, n) => expect(cyclesToShow(p, C, k)).toBe(n));
test("one cycle fewer would not do", () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-4, max: 0.5, noNaN: true }), fc.integer({ min: 0, max: 6 }), (p, k) => {
      const n = cyclesToShow(p, 0.95, k);
      expect(chanceToPass(p, n, k)).toBeLessThanOrEqual(0.05 * (1 + 1e-9));
      expect(chanceToPass(p, n - 1, k)).toBeGreaterThan(0.05);
    }),
    { seed: 7, numRuns: 200 },
  );
});
// 0.99^100. [derived]
test("a unit that misfeeds one in a hundred passes a hundred feeds with a chance of 0.37", () => {
  expect(chanceToPass(0.01, 100)).toBeCloseTo(0.99 ** 100, 12);
  expect(rateShownByClean(100)).toBeCloseTo(1 - 0.05 ** 0.01, 12);
});
test("nothing run, no rate and no confidence are refused", () => {
  expect(() => rateShownByClean(0)).toThrow("show nothing");
  expect(() => cyclesToShow(0)).toThrow("between 0 and 1");
  expect(() => cyclesToShow(Number.NaN)).toThrow(RangeError);
  expect(() => cyclesToShow(0.1, 1)).toThrow("confidence");
  expect(() => cyclesToShow(0.1, 0.9, -1)).toThrow("whole number");
});
