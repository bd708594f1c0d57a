import { describe, expect, test } from "vitest";
import { columnsFor, pointwise } from "./limit-states.ts";
import { scaled, slopeFrom } from "./scaled.ts";

describe("a scaled limit state", () => {
  // sd of 3 a + 4 b is 5, whatever its unit.
  test("of a plane is divided by the plane's own sd", () => {
    const both = scaled(
      pointwise(2, { mm: ([a, b]) => 10 + 3 * a! + 4 * b!, um: ([a, b]) => 1e4 + 3e3 * a! + 4e3 * b! }),
    );
    expect(both.by[0]).toBeCloseTo(5, 12);
    expect(both.by[1]! / both.by[0]!).toBeCloseTo(1000, 9);
    expect([...both.middle]).toEqual([expect.closeTo(2, 12), expect.closeTo(2, 12)]);
    expect([...both.slopes[0]!]).toEqual([expect.closeTo(0.6, 12), expect.closeTo(0.8, 12)]);
    const values = both.at([Float64Array.of(1, -1), Float64Array.of(0, 2)], 2);
    expect(values[0]![1]).toBeCloseTo(3, 12);
    expect(values[1]![1]).toBeCloseTo(3, 12);
  });
  test("that hardly moves is divided by an eighth of what it is, one that nothing moves and is nothing by 1", () => {
    const s = scaled(pointwise(1, { stiff: ([a]) => 8 + 1e-6 * a!, none: () => 0 }));
    expect(s.by[0]).toBeCloseTo(1, 9);
    expect(s.by[1]).toBe(1);
  });
  // A kink 0.5 from the middle: 0.2/0.7 of the slope on one side.
  test("sees a kink within 0.7 of the middle", () => {
    const s = scaled(pointwise(1, { kink: ([a]) => 1 - Math.max(0, a! - 0.5) }));
    expect(s.by[0]).toBeCloseTo(0.2 / 1.4, 12);
  });
});
test("a slope is taken from one side where the other has no answer, and is none where neither has", () => {
  expect(slopeFrom(1, 3, -1, 0.5)).toBe(4);
  expect(slopeFrom(1, 3, Number.NEGATIVE_INFINITY, 0.5)).toBe(4);
  expect(slopeFrom(1, Number.NaN, 0, 0.5)).toBe(2);
  expect(slopeFrom(Number.NaN, Number.NaN, 0, 0.5)).toBe(0);
  expect(slopeFrom(1, Number.NaN, Number.NaN, 0.5)).toBe(0);
});
test("no coordinates at all leave the limit states as they are", () =>
  expect(scaled(pointwise(0, { g: () => -3 })).at(columnsFor(0, 1), 1)[0]![0]).toBeLessThan(0));
