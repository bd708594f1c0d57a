import fc from "fast-check";
import { expect, test } from "vitest";
import { countInterval, rateAtLeast, rateAtMost } from "./count-interval.ts";

// Table of exact limits on a calculator page. [read]
test.each([
  [3, 20, 0.95, 0.0321, 0.3789],
  [12, 30, 0.9, 0.2495, 0.5661],
  [42, 100, 0.95, 0.322, 0.5229],
])("%i of %i at %f", (k, n, C, low, high) => {
  const got = countInterval(k, n, C);
  expect(got[0]).toBeCloseTo(low, 4);
  expect(got[1]).toBeCloseTo(high, 4);
});
test("none failed: no lower bound, and 0.05^(1/n) is left", () => {
  expect(countInterval(0, 10)[0]).toBe(0);
  expect(rateAtMost(0, 1000)).toBeCloseTo(1 - 0.05 ** 0.001, 14);
  expect(rateAtLeast(7, 7)).toBeCloseTo(0.05 ** (1 / 7), 14);
  expect(countInterval(7, 7)[1]).toBe(1);
});
test("failures and successes swapped mirror the interval", () => {
  const count = fc
    .integer({ min: 1, max: 3000 })
    .chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n)));
  fc.assert(
    fc.property(count, ([k, n]) => {
      const [a, b] = countInterval(k, n);
      const [c, d] = countInterval(n - k, n);
      expect(a + d).toBeCloseTo(1, 11);
      expect(b + c).toBeCloseTo(1, 11);
      expect(a).toBeLessThanOrEqual(k / n);
      expect(b).toBeGreaterThanOrEqual(k / n);
    }),
    { seed: 8, numRuns: 300 },
  );
});
test.each([
  [0, 0, "above 0"],
  [3, 2, "from 0 to 2"],
  [-1, 2, "from 0 to 2"],
  [Number.NaN, 2, "whole number"],
  [1, Number.NaN, "whole number"],
  [1, 2.5, "whole number"],
])("%f of %f is refused", (k, n, reason) => expect(() => countInterval(k, n)).toThrow(reason));
