import fc from "fast-check";
import { expect, test } from "vitest";
import { slopeOfLogarithms } from "./slope.ts";

test("points of a power law have its power as their slope, in any order and any units", () => {
  const x = fc.uniqueArray(fc.integer({ min: 1, max: 1000 }), { minLength: 2, maxLength: 8 });
  fc.assert(
    fc.property(
      x,
      fc.double({ min: -3, max: 3, noNaN: true }),
      fc.double({ min: 0.1, max: 100, noNaN: true }),
      (xs, n, c) => {
        const slope = slopeOfLogarithms(xs.map((v) => [c * v, 7 * v ** n]));
        expect(slope).toBeCloseTo(n, 6);
      },
    ),
    { seed: 97, numRuns: 200 },
  );
});
// Logarithms to base two (0, 0), (1, 2), (2, 1): normal equations by hand give 1/2. [derived]
test("the slope of (1, 1), (2, 4), (4, 2) is one half", () =>
  expect(
    slopeOfLogarithms([
      [1, 1],
      [2, 4],
      [4, 2],
    ]),
  ).toBeCloseTo(0.5, 12));
test("readings all at one place have no slope, and give no number", () =>
  expect(
    slopeOfLogarithms([
      [3, 1],
      [3, 2],
    ]),
  ).toBeNaN());
