import { expect, test } from "vitest";
import { swingSd, swung } from "./chain.ts";

// Mean square of t, of sin(pi t) and of a sign, t even in [-1, 1]: 1/3, 1/2, 1. [by hand]
test.each([
  ["even", 1 / 3],
  ["turn", 1 / 2],
  ["either", 1],
] as const)("places of a swing that is %s scatter by the sd that the closed form takes for it", (swing, square) => {
  const n = 4000;
  const places = Array.from({ length: n }, (_, k) => swung(swing, (2 * k + 1) / n - 1));
  const mean = places.reduce((sum, p) => sum + p, 0) / n;
  const drawn = places.reduce((sum, p) => sum + p * p, 0) / n;
  expect(mean).toBeCloseTo(0, 12);
  expect(drawn).toBeCloseTo(square, 6);
  expect(swingSd[swing] ** 2).toBeCloseTo(square, 12);
});
