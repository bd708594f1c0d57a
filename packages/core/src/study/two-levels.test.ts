import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { phi, phiInverse } from "../quantity/law.ts";
import { pointwise } from "./limit-states.ts";
import { meanOver, placesOf, twoLevels, weightedQuantile } from "./two-levels.ts";

/** g = b + sT T + sU U + sW W. Closed forms: unpublished working notes, derived. */
const linear = (b: number, sT: number, sU: number, sW: number) =>
  pointwise(5, { g: (z) => b + sT * z[0]! + sU * z[1]! + (sW * (z[2]! + z[3]! + z[4]!)) / Math.sqrt(3) });

describe("two levels of a plane", () => {
  test("have the mean, median, quantiles and shares of the closed form, whatever its slopes", () => {
    const sd = fc.double({ min: 0.3, max: 1.2, noNaN: true });
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 5.5, noNaN: true }),
        sd,
        sd,
        fc.double({ min: 0.8, max: 1.2, noNaN: true }),
        fc.integer({ min: 1, max: 1e6 }),
        (b, sT, sU, sW, seed) => {
          const two = twoLevels(linear(b, sT, sU, sW), { seed, reel: [0], unit: [1], limit: 0.01, places: 1200 });
          const outer = Math.hypot(sT, sU);
          const mean = phi(-b / Math.hypot(outer, sW));
          expect(Math.abs(two.mean / mean - 1)).toBeLessThan(Math.max(0.1, 4 * two.meanCov));
          // In distances, for a chance of 1e-12 is known to fewer digits.
          const beta = (p: number) => -phiInverse(Math.max(p, 1e-300));
          expect(Math.abs(beta(two.median) - b / sW)).toBeLessThan(0.12 * (outer / sW) + 0.15);
          const pairs = phi(-(b + phiInverse(0.01) * sW) / outer);
          expect(Math.abs(two.pairsOver! - pairs)).toBeLessThan(0.01 + 0.25 * pairs);
          const units = phi(-(b + phiInverse(0.01) * Math.hypot(sW, sT)) / sU);
          expect(Math.abs(two.unitsOver! - units)).toBeLessThan(0.01 + 0.25 * units);
        },
      ),
      { seed: 5, numRuns: 12 },
    );
  });
  // E[(1 - p)^n] of b = 4, 0.8, 0.6, 1: 0.76388 at 1000. [one integral, derived; unpublished working notes]
  test("run 1000 indexes clean with 0.764, where pairs all alike would with 0.096", () => {
    const two = twoLevels(linear(4, 0.8, 0.6, 1), { seed: 1, reel: [0], unit: [1] });
    expect(two.clean(1000)).toBeCloseTo(0.7638803, 1);
    expect(Math.exp(1000 * Math.log1p(-two.mean))).toBeLessThan(0.13);
    expect(two.pairsOver).toBeUndefined();
  });
});

describe("places", () => {
  test("weigh one in the mean, though half of them are shifted", () => {
    const places = placesOf(linear(4, 0.8, 0.6, 1), [0, 1], { seed: 2, places: 2000 });
    expect(places.w.reduce((a, b) => a + b, 0) / 2000).toBeCloseTo(1, 1);
    expect(meanOver(places, () => 1)).toBe(1);
  });
  // With no inner coordinate a pair always fails or never: the mean is the share that does, Phi(-2).
  test("of a chance without an index level are 0 or 1", () => {
    const places = placesOf(pointwise(1, { g: ([a]) => 2 - a! }), [0], { seed: 2, places: 4000 });
    expect([...new Set(places.p)].sort()).toEqual([0, 1]);
    expect(meanOver(places, (p) => p)).toBeCloseTo(phi(-2), 2);
  });
  test("of a chance without outer levels are all alike", () => {
    const two = twoLevels(pointwise(1, { g: ([a]) => 3 - a! }), {
      seed: 2,
      reel: [],
      unit: [],
      places: 50,
      draws: 2000,
    });
    expect(Math.abs(two.mean / phi(-3) - 1)).toBeLessThan(0.05);
    expect(Math.abs(two.p99 / two.median - 1)).toBeLessThan(0.3);
  });
  test("with two ways to fail count both", () => {
    const both = pointwise(2, { a: ([t, w]) => 3 + t! * 0.5 + w!, b: ([t, w]) => 3 + t! * 0.5 - w! });
    const two = twoLevels(both, { seed: 3, reel: [0], unit: [], places: 1000 });
    expect(Math.abs(two.mean / (2 * phi(-3 / Math.hypot(1, 0.5))) - 1)).toBeLessThan(0.15);
  });
});
test("a weighted quantile is the least value with that share of weight at or below it", () => {
  const values = Float64Array.of(3, 1, 2);
  expect(weightedQuantile(values, Float64Array.of(1, 1, 1), 0.5)).toBe(2);
  expect(weightedQuantile(values, Float64Array.of(8, 1, 1), 0.5)).toBe(3);
  expect(weightedQuantile(values, Float64Array.of(1, 8, 1), 0.5)).toBe(1);
});
