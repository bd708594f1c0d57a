import { expect, test } from "vitest";
import { compensated, independentReadings, median, quantileAt, shortestSpan, sorted, summary } from "./summary.ts";

const inTurn = (base: number): number[] => [
  base + 0.2,
  ...Array.from({ length: 1000 }, (_, i) => base + (i % 2 ? 0.3 : 0.1)),
];
// NIST StRD NumAcc2 to 4. [memory]
test.each([[1], [1e6], [1e7]])("readings about %f keep mean and sd of a tenth", (base) => {
  const { mean, sd } = summary(inTurn(base));
  expect(mean).toBe(base + 0.2);
  expect(Math.abs(sd! / 0.1 - 1)).toBeLessThan(1e-8);
});
test("a chain of lag-one 0.9 of a thousand readings is worth 53", () => {
  expect(independentReadings(1000, 0.9)).toBeCloseTo(1000 / 19, 10);
  expect(independentReadings(1000, -0.5)).toBe(1000);
});
// Alternating a, b: every product is -(d^2): lag-one -(n-1)/n. [derived]
test("readings that alternate have a lag-one near -1, equal ones have none", () => {
  expect(summary([1, 2, 1, 2, 1, 2, 1, 2]).lagOne).toBeCloseTo(-7 / 8, 12);
  expect(summary([3, 3, 3]).lagOne).toBeUndefined();
  expect(summary([3])).toEqual({ n: 1, mean: 3, least: 3, greatest: 3, worth: 1 });
});
test("a sum carries what it loses", () => expect(compensated(3, (i) => [1e16, 1, -1e16][i]!)).toBe(1));
test("median, quantile and the narrowest span", () => {
  expect(median([4, 1, 3, 2])).toBe(2.5);
  expect(quantileAt([0, 10], 0.25)).toBe(2.5);
  expect(shortestSpan(sorted([0, 5, 5.1, 5.2, 9]), 0.6)).toEqual([5, 5.2]);
});
test("no readings, or one that is no number, are refused", () => {
  expect(() => summary([])).toThrow("nothing to summarise");
  expect(() => summary([1, Number.NaN])).toThrow("reading 2 is NaN");
  expect(() => median([])).toThrow(RangeError);
  expect(() => independentReadings(10, 1)).toThrow("between -1 and 1");
});
