import fc from "fast-check";
import { expect, test } from "vitest";
import { guessOf, measured, measuredWithScatter, studentQuantile } from "./direct.ts";

const readings = [0.42, 0.45, 0.39, 0.47, 0.44];
// By hand on the logarithm, validation/independent/counts.py. [derived]
test("a friction guessed 0.60 and measured five times about 0.43, scatter known as 10 %", () => {
  const got = measuredWithScatter({ median: 0.6, sd: 0.5 }, readings, 0.1);
  expect(got.median).toBeCloseTo(0.4342488626093754, 13);
  expect(got.sd).toBeCloseTo(0.044543540318737404, 13);
  expect(got.next(0.95)[0]).toBeCloseTo(0.3503934041767492, 12);
  expect(got.next(0.95)[1]).toBeCloseTo(0.5381724439721891, 12);
});
// Working notes: 0.457, next unit 0.313..0.668. [derived]
test("the same with its scatter guessed as 15 %", () => {
  const got = measured({ median: 0.6, scatter: 0.15 }, readings);
  expect(got.median).toBeCloseTo(0.457, 3);
  expect(got.next(0.95)[0]).toBeCloseTo(0.313, 3);
  expect(got.next(0.95)[1]).toBeCloseTo(0.668, 3);
  expect(got.nu).toBe(7);
});
test("more readings narrow the middle and leave the next unit its scatter", () => {
  const many = Array.from({ length: 200 }, (_, i) => 0.5 * Math.exp(0.1 * Math.SQRT2 * Math.sin(i * 2.4)));
  const few = measured({ median: 0.5, scatter: 0.1 }, many.slice(0, 5));
  const all = measured({ median: 0.5, scatter: 0.1 }, many);
  expect(all.sd).toBeLessThan(few.sd / 4);
  expect(all.scatter).toBeCloseTo(0.1, 2);
  expect(all.next(0.95)[1] / all.next(0.95)[0]).toBeGreaterThan(Math.exp(0.38));
});
// Student's table: 2.776 at 4, 12.706 at 1; tan at 1; limits. [memory]
test("Student's quantiles are those of the table, in both tails and far out", () => {
  expect(studentQuantile(0.975, 4)).toBeCloseTo(2.776, 3);
  expect(studentQuantile(0.975, 1)).toBeCloseTo(12.706, 3);
  expect(studentQuantile(1e-8, 1) / (-1 / Math.tan(Math.PI * 1e-8))).toBeCloseTo(1, 9);
  expect(studentQuantile(0.501, 3)).toBeCloseTo(-studentQuantile(0.499, 3), 12);
  expect(studentQuantile(0.5, 3)).toBeCloseTo(0, 12);
  expect(studentQuantile(0.975, 1e9)).toBeCloseTo(1.959964, 6);
});
test("a quantile of 2 degrees has its closed form", () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }), (p) => {
      const u = 2 * p - 1;
      expect(studentQuantile(p, 2)).toBeCloseTo(u * Math.sqrt(2 / (1 - u * u)), 5);
    }),
    { seed: 12 },
  );
});
test("a guess's ends hold 95 %", () => {
  const { median, sd } = guessOf(0.2, 0.8);
  expect(median).toBeCloseTo(0.4, 13);
  expect(0.4 * Math.exp(1.959963984540054 * sd)).toBeCloseTo(0.8, 12);
});
test("two reels are warned of; none, and readings of 0, are refused", () => {
  expect(measured({ median: 1, scatter: 0.1 }, [1, 1.1]).warnings).toHaveLength(1);
  expect(() => measured({ median: 1, scatter: 0.1 }, [])).toThrow("no readings");
  expect(() => measured({ median: 1, scatter: 0.1 }, [0])).toThrow("above 0");
  expect(() => measuredWithScatter({ median: 1, sd: 0.5 }, [1], 0)).toThrow("log sd of the scatter");
  expect(() => guessOf(0, 1)).toThrow("above 0");
});
