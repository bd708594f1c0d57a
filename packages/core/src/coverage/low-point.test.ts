import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { beliefPoints } from "../study/points.ts";
import { lowPoint, lowPointBelow, smoothLowPoint } from "./low-point.ts";

const columns = fc
  .array(fc.tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: 0, max: 9 })), { minLength: 1, maxLength: 300 })
  .filter((list) => list.some(([, w]) => w > 0))
  .map((list) => {
    const total = list.reduce((sum, [, w]) => sum + w, 0);
    return { column: Float64Array.from(list, ([v]) => v), weights: Float64Array.from(list, ([, w]) => w / total) };
  });

describe("the point that 5 % of belief lie below", () => {
  test("is the one that verdicts are told by, whatever the weights", () => {
    fc.assert(
      fc.property(columns, ({ column, weights }) => {
        expect(lowPoint(column, weights)).toBe(beliefPoints(column, weights).low);
      }),
      { seed: 2, numRuns: 500 },
    );
  });
  test("lies below a value just where more than 5 % do", () => {
    fc.assert(
      fc.property(columns, fc.integer({ min: -21, max: 21 }), ({ column, weights }, v) => {
        expect(lowPointBelow(column, weights, v)).toBe(lowPoint(column, weights) < v);
      }),
      { seed: 3, numRuns: 500 },
    );
  });
  // 0 to 999, alike: 30 to 69.99 from 3 to 7 %, the mean of 30 to 69. [derived]
  test("smoothed is the mean from 3 to 7 % of belief, in any order", () => {
    const column = Float64Array.from({ length: 1000 }, (_, k) => (k * 617) % 1000);
    expect(smoothLowPoint(column, new Float64Array(1000).fill(1e-3))).toBeCloseTo(49.5, 6);
  });
  test("smoothed of one draw is that draw", () => {
    expect(smoothLowPoint(Float64Array.of(3), Float64Array.of(1))).toBeCloseTo(3, 12);
  });
});
