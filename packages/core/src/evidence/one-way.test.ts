import { expect, test } from "vitest";
import { oneWay } from "./one-way.ts";

// NIST StRD SmLs01: nine groups of 21, F = 21; the same above 1e6 is SmLs04. [read; data from their rule]
test.each([
  [0, 10],
  [1e6, 6],
])("nine groups above %f give F 21 to %i digits", (base, digits) => {
  const groups = [14, 13, 15, 13, 15, 13, 15, 13, 15].map((m) => [
    base + m / 10,
    ...Array.from({ length: 20 }, (_, i) => base + (m + (i % 2 ? 1 : -1)) / 10),
  ]);
  const got = oneWay(groups);
  expect(Math.abs(got.F / 21 - 1)).toBeLessThan(10 ** -digits);
  expect(got.degrees).toEqual([8, 180]);
});
// F(1, 2) = 12.5 for 1,2 against 3.5,4.5: t^2 of a two-sample test; p = 1 - sqrt(F/(F + 2)). [derived]
test("two groups of two have the p of a t test", () => {
  const got = oneWay([
    [1, 2],
    [3.5, 4.5],
  ]);
  expect(got.F).toBeCloseTo(12.5, 12);
  expect(got.p).toBeCloseTo(1 - Math.sqrt(12.5 / 14.5), 12);
  // (6.25 - 0.5)/2
  expect(got.between).toBeCloseTo(Math.sqrt((6.25 - 0.5) / 2), 12);
});
test("groups that differ by less than their scatter have no spread between them", () =>
  expect(
    oneWay([
      [1, 3],
      [1.1, 3],
    ]).between,
  ).toBe(0));
test("one group, an empty one and single readings are refused", () => {
  expect(() => oneWay([[1, 2]])).toThrow("at least 2");
  expect(() => oneWay([[1, 2], []])).toThrow("no readings");
  expect(() => oneWay([[1], [2]])).toThrow("single reading");
});
