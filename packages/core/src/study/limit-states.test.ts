import { expect, test } from "vitest";
import { Counted, columnsFor, leastOf, pointwise } from "./limit-states.ts";

const two = pointwise(2, { sum: ([a, b]) => a! + b!, odd: ([a]) => (a! > 1 ? Number.NaN : a!) });

test("limit states given point by point have a column each", () => {
  const out = two.at([Float64Array.of(1, 2), Float64Array.of(10, 20)], 2);
  expect([...out[0]!.subarray(0, 2)]).toEqual([11, 22]);
  expect(two.names).toEqual(["sum", "odd"]);
});
test("the least of several counts what is not a number as failing", () => {
  const least = new Float64Array(2);
  leastOf(two.at([Float64Array.of(1, 2), Float64Array.of(10, 20)], 2), 2, least);
  expect([...least]).toEqual([1, Number.NEGATIVE_INFINITY]);
  leastOf(two.at([Float64Array.of(1, 2), Float64Array.of(10, 20)], 2), 2, least, 0);
  expect([...least]).toEqual([11, 22]);
});
test("every point asked for is counted", () => {
  const counted = new Counted(two);
  counted.at(columnsFor(2, 7), 7);
  counted.at(columnsFor(2, 3), 3);
  expect(counted.points).toBe(10);
});
