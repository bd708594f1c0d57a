import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { capability, rectangularReach, sdOfRectangle, sdOfSum, stack } from "./capability.ts";

// Textbook exercise, formula of two method pages [read]; limits by scipy, validation/independent/counts.py. [derived]
test("50 readings of mean 16 and sd 1.2 between 10 and 20 have a Cpk of 1.11, 0.87 to 1.35", () => {
  const got = capability({ n: 50, mean: 16, sd: 1.2, low: 10, high: 20 });
  expect(got.cpk).toBeCloseTo(10 / 9, 12);
  expect(got.cp).toBeCloseTo(10 / 7.2, 12);
  expect(got.interval![0]).toBeCloseTo(0.8725113241024012, 9);
  expect(got.interval![1]).toBeCloseTo(1.3497108981198211, 9);
  expect(got.warnings).toEqual([]);
});
test("one limit gives Cpk alone; without a number of readings there is no interval", () => {
  expect(capability({ mean: 1, sd: 0.5, high: 4 })).toEqual({ cpk: 2, warnings: [] });
});
test("a mean beyond a limit has a Cpk below 0", () =>
  expect(capability({ mean: 5, sd: 1, high: 4 }).cpk).toBeLessThan(0));
test("few readings and a low Cpk are named", () => {
  expect(capability({ mean: 0, sd: 1, high: 1, n: 10 }).warnings).toEqual([
    "10 readings: below 25 the limits of Cpk hold less often than they say",
    "Cpk below 0.5: its limits hold less often than they say",
  ]);
});
test("more readings never widen the interval", () => {
  const n = fc.integer({ min: 2, max: 5000 });
  fc.assert(
    fc.property(n, n, (a, b) => {
      const width = (k: number): number => {
        const [low, high] = capability({ mean: 0, sd: 1, high: 4, n: k }).interval!;
        return high - low;
      };
      expect(width(Math.max(a, b))).toBeLessThanOrEqual(width(Math.min(a, b)));
    }),
    { seed: 5, numRuns: 100 },
  );
});
test("root of squares never exceeds the worst case", () => {
  const parts = fc.array(
    fc.record({
      size: fc.double({ min: -50, max: 50, noNaN: true }),
      by: fc.constantFrom(1, -1, 2),
      tolerance: fc.double({ min: 0, max: 1, noNaN: true }),
    }),
    { minLength: 1, maxLength: 9 },
  );
  fc.assert(
    fc.property(parts, (p) => {
      const { worst, rss } = stack(p);
      expect(rss).toBeLessThanOrEqual(worst * (1 + 1e-12));
    }),
    { seed: 6 },
  );
});
describe("even laws added", () => {
  // One: 0.95 of its half width. Two equal: a triangle, 2 t (1 - sqrt 0.05). Four: convolved, validation/independent/counts.py. [derived]
  test("one, two and four reach as far as by hand", () => {
    expect(rectangularReach([2])).toBeCloseTo(1.9, 12);
    expect(rectangularReach([1, 1])).toBeCloseTo(2 * (1 - Math.sqrt(0.05)), 12);
    const one = Math.sqrt(3);
    expect(rectangularReach([one, one, one, one])).toBeCloseTo(3.879406741397, 9);
  });
  test("a wide one and a narrow one reach further than the wide one, less than their sum", () => {
    expect(rectangularReach([1, 0.1])).toBeGreaterThan(0.95);
    expect(rectangularReach([1, 0.1])).toBeLessThan(1.1);
    expect(rectangularReach([0, 0])).toBe(0);
  });
  test("nine reach what a normal law of their sd does, to 1 %", () => {
    expect(rectangularReach(Array(9).fill(1)) / (1.959964 * sdOfSum(Array(9).fill(sdOfRectangle(1))))).toBeCloseTo(
      1,
      2,
    );
  });
});
test.each([
  [{ mean: 0, sd: 0, high: 1 }, "must be above 0"],
  [{ mean: Number.NaN, sd: 1, high: 1 }, "must be a finite number"],
  [{ mean: 0, sd: 1 }, "needs a limit"],
  [{ mean: 0, sd: 1, low: 2, high: 1 }, "not below"],
  [{ mean: 0, sd: 1, high: 1, n: 1 }, "at least 2"],
  [{ mean: 0, sd: 1, high: Number.NaN }, "leave it out"],
])("%o is refused with the reason", (readings, reason) => expect(() => capability(readings)).toThrow(reason));
test("a stack of no parts is refused", () => expect(() => stack([])).toThrow("no parts"));
