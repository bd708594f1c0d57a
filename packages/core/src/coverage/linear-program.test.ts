import fc from "fast-check";
import { expect, test } from "vitest";
import { bestStep } from "./linear-program.ts";

// Two lines through (0, 1) rising and (0, 3) falling meet at d = 1 on 2. [derived]
test("the step stands where a rising and a falling line meet", () => {
  const { step, least } = bestStep([1, 3], [[1], [-1]], [-5], [5]);
  expect(step[0]).toBeCloseTo(1, 12);
  expect(least).toBeCloseTo(2, 12);
});
test("it goes to the end of the box where nothing falls", () => {
  const { step, least } = bestStep([0], [[2, -3]], [-1, -1], [1, 0.5]);
  expect([...step]).toEqual([1, -1]);
  expect(least).toBeCloseTo(5, 12);
});
test("it stays within a box that does not hold nought", () => {
  const { step } = bestStep([0], [[-1]], [2], [3]);
  expect(step[0]).toBe(2);
});
test("no step beats it, of a thousand tried at random, and its least is what it says", () => {
  const size = fc.double({ min: -4, max: 4, noNaN: true });
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 5 }),
      fc.array(fc.tuple(size, fc.array(size, { minLength: 5, maxLength: 5 })), { minLength: 1, maxLength: 12 }),
      fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 5000, maxLength: 5000 }),
      (k, functions, tries) => {
        const values = functions.map(([f]) => f);
        const slopes = functions.map(([, g]) => g.slice(0, k));
        const [low, high] = [Array(k).fill(-0.7), Array(k).fill(1.3)];
        const at = (d: ArrayLike<number>): number =>
          Math.min(...values.map((f, j) => f + slopes[j]!.reduce((sum, g, i) => sum + g * d[i]!, 0)));
        const { step, least } = bestStep(values, slopes, low, high);
        expect(at(step)).toBeCloseTo(least, 9);
        for (let i = 0; i < k; i++) expect(step[i]! >= -0.7 - 1e-12 && step[i]! <= 1.3 + 1e-12).toBe(true);
        for (let n = 0; n + k <= tries.length; n += k)
          expect(at(Array.from({ length: k }, (_, i) => -0.7 + 2 * tries[n + i]!))).toBeLessThanOrEqual(least + 1e-9);
      },
    ),
    { seed: 5, numRuns: 60 },
  );
});
