import { expect, test } from "vitest";
import {
  designEffect,
  effectiveCycles,
  meanRateAtMost,
  mixedChance,
  mixedClean,
  mixedMoments,
} from "./beta-binomial.ts";

test("chances of all counts make 1, with the stated mean and variance", () => {
  const p = Array.from({ length: 101 }, (_, k) => mixedChance(k, 100, 2, 98));
  expect(p.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
  const mean = p.reduce((s, v, k) => s + v * k, 0);
  const { mean: m, variance } = mixedMoments(100, 2, 98);
  expect(mean).toBeCloseTo(m, 11);
  expect(p.reduce((s, v, k) => s + v * (k - mean) ** 2, 0)).toBeCloseTo(variance, 10);
  // 98.99.../(100...): by products of fractions. [derived]
  expect(p[0]).toBeCloseTo(0.24623115577889065, 13);
});
test("beta(1, 1) makes every count as likely", () => {
  for (const k of [0, 3, 10]) expect(mixedChance(k, 10, 1, 1)).toBeCloseTo(1 / 11, 13);
});
test("a run is clean more often where units differ than were they alike", () => {
  expect(mixedClean(1000, 0.5, 499.5)).toBeCloseTo(0.5770614095, 9);
  expect(mixedClean(1000, 0.5, 499.5)).toBeGreaterThan(0.999 ** 1000);
  // The product and the gamma functions meet at 64 cycles.
  expect(mixedClean(65, 0.5, 499.5) / mixedClean(64, 0.5, 499.5)).toBeCloseTo(1 - 0.5 / 564, 11);
});
// Kish, by hand. [derived]
test("4 units of 5000 cycles at rho 0.01 are worth 392 cycles", () => {
  expect(effectiveCycles([5000, 5000, 5000, 5000], 0.01)).toBeCloseTo(20_000 / 50.99, 9);
  expect(designEffect(1, 0.5)).toBe(1);
  expect(effectiveCycles([100, 1], 0)).toBe(101);
});
// Root found by scipy, validation/independent/counts.py. [derived]
test.each([
  [1, 9.843454834e-4],
  [4, 4.180733172e-4],
  [20, 2.160618203e-4],
])("%i units clean over 20 000 cycles at rho 0.001", (m, rate) =>
  expect(meanRateAtMost(m, 20_000 / m, 0.001) / rate).toBeCloseTo(1, 8),
);
test("rho beyond 0..1, no units and no cycles are refused", () => {
  expect(() => designEffect(10, 1.1)).toThrow("from 0 to 1");
  expect(() => effectiveCycles([], 0.1)).toThrow("no unit");
  expect(() => meanRateAtMost(0, 10, 0.1)).toThrow("above 0");
  expect(() => mixedChance(5, 4, 1, 1)).toThrow("from 0 to 4");
});
