import fc from "fast-check";
import { expect, test } from "vitest";
import { fisherExact, lnFactorial } from "./contingency.ts";

// Fisher 1935: of 70 ways, 1 + 16 have 3 or more right. [derived]
test("the tea: 3 of 4 right is 17/70, 4 of 4 is 1/70", () => {
  expect(fisherExact(3, 1, 1, 3)).toMatchObject({
    higher: expect.closeTo(17 / 70, 13),
    twoSided: expect.closeTo(34 / 70, 13),
  });
  expect(fisherExact(4, 0, 0, 4)).toMatchObject({
    higher: expect.closeTo(1 / 70, 13),
    twoSided: expect.closeTo(2 / 70, 13),
  });
});
// Hypergeometric law by scipy. [derived]
test("0 of 300 against 5 of 300 happens by chance 3 times in 100", () =>
  expect(fisherExact(5, 295, 0, 300).higher).toBeCloseTo(0.030729607973087474, 13));
test("the sides swapped swap higher and lower, and both count the table itself", () => {
  const n = fc.integer({ min: 0, max: 60 });
  fc.assert(
    fc.property(n, n, n, n, (a, b, c, d) => {
      fc.pre(a + b + c + d > 0);
      const one = fisherExact(a, b, c, d);
      const other = fisherExact(c, d, a, b);
      expect(one.higher).toBeCloseTo(other.lower, 10);
      expect(one.higher + one.lower).toBeGreaterThan(1 - 1e-10);
      expect(one.twoSided).toBeGreaterThanOrEqual(Math.min(one.higher, one.lower) - 1e-10);
    }),
    { seed: 9, numRuns: 200 },
  );
});
test("factorials join on at 170", () => expect(lnFactorial(171) - lnFactorial(170)).toBeCloseTo(Math.log(171), 12));
test("an empty table and counts that are none are refused", () => {
  expect(() => fisherExact(0, 0, 0, 0)).toThrow("compares nothing");
  expect(() => fisherExact(-1, 2, 3, 4)).toThrow("whole numbers");
  expect(() => fisherExact(Number.NaN, 2, 3, 4)).toThrow("whole numbers");
});
