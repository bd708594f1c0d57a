import fc from "fast-check";
import { expect, test } from "vitest";
import { ticks } from "./ticks.ts";

test("steps are 1, 2 or 5 by a power of ten, and both ends that are round are among them", () => {
  expect(ticks(0, 10)).toEqual([0, 2, 4, 6, 8, 10]);
  expect(ticks(-0.3, 0.3)).toEqual([-0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3]);
  expect(ticks(0, 1, 2)).toEqual([0, 0.5, 1]);
  // 3.3 a step is rounded up to 5, never down to 2.
  expect(ticks(0, 10, 3)).toEqual([0, 5, 10]);
});
test("of so many as there is room for there are never more than one above, and no fewer than two in five", () => {
  fc.assert(
    fc.property(
      fc.double({ min: -100, max: 100, noNaN: true }),
      fc.double({ min: 1e-4, max: 1e4, noNaN: true }),
      fc.integer({ min: 2, max: 14 }),
      (from, span, most) => {
        const n = ticks(from, from + span, most).length;
        expect(n).toBeLessThanOrEqual(most + 1);
        expect(n).toBeGreaterThanOrEqual(Math.floor(most / 2.5));
      },
    ),
    { seed: 12 },
  );
});
test.each([
  [1, 1],
  [2, 1],
  [0, Number.POSITIVE_INFINITY],
  [Number.NaN, 1],
])("from %d to %d there is nothing to number", (from, to) => {
  expect(ticks(from, to)).toEqual([]);
});
