import { expect, test } from "vitest";
import { studentHalfWidth } from "./student.ts";

// Printed tables of Student's law, two-sided 95 %: 1, 2, 4, 10, 30 degrees of freedom. [memory]
test.each([
  [1, 12.706],
  [2, 4.303],
  [4, 2.776],
  [10, 2.228],
  [30, 2.042],
])("with %i degrees of freedom 95 in 100 lie within %f standard deviations", (nu, t) => {
  expect(studentHalfWidth(nu)).toBeCloseTo(t, 3);
});
test("with endless freedom it is the normal law's 1.960", () => {
  expect(studentHalfWidth(Number.POSITIVE_INFINITY)).toBeCloseTo(1.96, 3);
});
