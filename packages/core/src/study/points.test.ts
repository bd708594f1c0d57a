import fc from "fast-check";
import { expect, test } from "vitest";
import { shareHolding, verdictOf } from "../coverage/verdict.ts";
import { alike } from "./plain.fixture.ts";
import { beliefPoints } from "./points.ts";

// Of 1 to 100, each a hundredth: more than five lie at or below 6; half at or below 50; ninety-five at or below 95. By hand. [derived]
test("of the numbers from 1 to 100 the points are 6, 50 and 95, in whatever order they come", () => {
  const column = Float64Array.from({ length: 100 }, (_, k) => ((k * 37) % 100) + 1);
  expect(beliefPoints(column, alike(100))).toEqual({ low: 6, middle: 50, high: 95 });
});
test("weight counts, not number", () => {
  const column = Float64Array.of(1, 2, 3);
  expect(beliefPoints(column, Float64Array.of(0.98, 0.01, 0.01))).toEqual({ low: 1, middle: 1, high: 1 });
  expect(beliefPoints(column, Float64Array.of(1, 1, 98))).toEqual({ low: 3, middle: 3, high: 3 });
});
test("what has no answer lies lowest", () => {
  const column = Float64Array.of(1, Number.NEGATIVE_INFINITY, 2, 3);
  expect(beliefPoints(column, alike(4)).low).toBe(Number.NEGATIVE_INFINITY);
});
test("the low point is nought or more just where the share feeds, the high one below nought just where it stops", () => {
  const gap = fc.oneof(fc.integer({ min: -3, max: 3 }), fc.double({ min: -1, max: 1, noNaN: true }));
  const draw = fc.tuple(gap, fc.double({ min: 0, max: 1, noNaN: true }));
  fc.assert(
    fc.property(fc.array(draw, { minLength: 1, maxLength: 60 }), (draws) => {
      const column = Float64Array.from(draws, ([g]) => g);
      const weights = Float64Array.from(draws, ([, w]) => w + 1e-3);
      const verdict = verdictOf(shareHolding([column], weights));
      const { low, middle, high } = beliefPoints(column, weights);
      expect(low >= 0).toBe(verdict === "feeds");
      expect(high < 0).toBe(verdict === "stops");
      expect(low <= middle && middle <= high).toBe(true);
    }),
    { seed: 812, numRuns: 400 },
  );
});
// The 950th and 951st of 1000: the limits of VERDICT 4 belong to the verdict. [derived]
test("a share of exactly 95 % feeds and of exactly 5 % stops", () => {
  const holding = (count: number) => Float64Array.from({ length: 1000 }, (_, k) => (k < count ? 1 : -1));
  expect(beliefPoints(holding(950), alike(1000)).low).toBe(1);
  expect(beliefPoints(holding(949), alike(1000)).low).toBe(-1);
  expect(beliefPoints(holding(50), alike(1000)).high).toBe(-1);
  expect(beliefPoints(holding(51), alike(1000)).high).toBe(1);
});
