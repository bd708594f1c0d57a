import { describe, expect, test } from "vitest";
import { pooledAtMost } from "./alike.ts";
import { unlikeUnits } from "./unlike.ts";

const each = (ks: readonly number[], run: number) => ks.map((failed) => ({ failed, run }));
// Fine integrals, validation/independent/counts.py; the grid is good to 2 %. [derived]
test.each([
  [[1, 0, 2], 1, 0.0010763172768],
  [[0, 3, 1, 0, 7], 1.5, 0.0028223077327],
])("failures %o in 4000 each at a known log sd of %f", (ks, logSd, bound) => {
  expect(Math.abs(unlikeUnits(each(ks, 4000), { logSd }).atMost / bound - 1)).toBeLessThan(0.02);
});
test("known to be alike, many failures give what the pool gives", () => {
  const units = each([30, 31, 29], 10_000);
  const got = unlikeUnits(units, { logSd: 0 });
  expect(Math.abs(got.atMost / pooledAtMost(units) - 1)).toBeLessThan(0.02);
  expect(got.rho).toBe(0);
});
describe("a bound", () => {
  test("is never below the pooled one, and falls with more units of the same total", () => {
    let last = Number.POSITIVE_INFINITY;
    for (const m of [1, 2, 4, 10]) {
      const units = each(Array(m).fill(0), 20_000 / m);
      const { atMost } = unlikeUnits(units);
      expect(atMost).toBeGreaterThanOrEqual(pooledAtMost(units));
      expect(atMost).toBeLessThan(last);
      last = atMost;
    }
  });
  test("is no better for a clean run than for one with a failure", () => {
    expect(unlikeUnits(each([0, 0, 0], 6000)).atMost).toBeLessThanOrEqual(
      unlikeUnits(each([1, 0, 0], 6000)).atMost * (1 + 1e-9),
    );
  });
  test("of one unit is far above the pooled one: one unit says little of others", () => {
    const one = each([6], 20_000);
    expect(unlikeUnits(one).atMost / pooledAtMost(one)).toBeGreaterThan(10);
  });
});
test("failures that sit in one unit show a greater correlation than the same spread evenly", () => {
  expect(unlikeUnits(each([12, 0, 0, 0], 5000)).rho).toBeGreaterThan(3 * unlikeUnits(each([3, 3, 3, 3], 5000)).rho);
});
test("gamma and lognormal units of one known spread agree within a third", () => {
  const units = each([1, 0, 2, 1, 0, 0], 4000);
  const ratio = unlikeUnits(units, { law: "gamma", logSd: 0.5 }).atMost / unlikeUnits(units, { logSd: 0.5 }).atMost;
  expect(Math.abs(ratio - 1)).toBeLessThan(0.33);
});
test("no units, impossible counts and spreads are refused", () => {
  expect(() => unlikeUnits([])).toThrow("no unit");
  expect(() => unlikeUnits(each([3], 2))).toThrow("from 0 to 2");
  expect(() => unlikeUnits(each([0], 10), { logSd: -1 })).toThrow("from 0 to 10");
  expect(() => unlikeUnits(each([0], 10), { confidence: Number.NaN })).toThrow("between 0 and 1");
});
