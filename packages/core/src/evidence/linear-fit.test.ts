import fc from "fast-check";
import { expect, test } from "vitest";
import { linearFit } from "./linear-fit.ts";

// 1..5 against 2, 4, 5, 4, 5: slope 0.6, constant 2.2, rss 2.4; sd of the slope sqrt(0.8/10). [derived]
test("a line through five points comes out as by hand", () => {
  const got = linearFit(
    [
      [1, 1, 1, 1, 1],
      [1, 2, 3, 4, 5],
    ],
    [2, 4, 5, 4, 5],
  );
  expect(got.b[0]).toBeCloseTo(2.2, 13);
  expect(got.b[1]).toBeCloseTo(0.6, 13);
  expect(got.rss).toBeCloseTo(2.4, 13);
  expect(got.sd[1]).toBeCloseTo(Math.sqrt(0.08), 13);
  expect(got.sd[0]).toBeCloseTo(Math.sqrt(0.8 * 1.1), 13);
});
test("a law of degree 6 is found again from its own values, to 9 digits", () => {
  const coefficient = fc.array(fc.double({ min: 1, max: 3, noNaN: true }), { minLength: 7, maxLength: 7 });
  fc.assert(
    fc.property(coefficient, (c) => {
      const x = Array.from({ length: 15 }, (_, i) => i / 5);
      const columns = c.map((_, j) => x.map((v) => v ** j));
      const y = x.map((v) => c.reduce((s, k, j) => s + k * v ** j, 0));
      const { b } = linearFit(columns, y);
      for (const [j, k] of c.entries()) expect(Math.abs(b[j]! / k - 1)).toBeLessThan(1e-9);
    }),
    { seed: 10, numRuns: 50 },
  );
});
test("residuals are square to every column", () => {
  const columns = [
    [1, 1, 1, 1],
    [1, 2, 4, 8],
  ];
  const y = [3, 1, 4, 1];
  const { b } = linearFit(columns, y);
  for (const c of columns)
    expect(c.reduce((s, v, i) => s + v * (y[i]! - columns[0]![i]! * b[0]! - columns[1]![i]! * b[1]!), 0)).toBeCloseTo(
      0,
      11,
    );
});
test("columns that follow from each other and too few readings are refused", () => {
  expect(() =>
    linearFit(
      [
        [1, 2, 3],
        [2, 4, 6],
      ],
      [1, 2, 4],
    ),
  ).toThrow("cannot tell these parameters apart");
  expect(() => linearFit([[1], [2]], [1])).toThrow("at least as many readings");
  expect(() => linearFit([[1, Number.NaN]], [1, 2])).toThrow("must be finite");
});
