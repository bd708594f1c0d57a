import { describe, expect, test } from "vitest";
import { binomialAt, coverTable, exactOfCpk, judged, poissonAt, quickCovers } from "./cover.ts";

const covers = quickCovers();

test("every interval of counts and readings holds the truth as often as it should, within 3 sd on 400 cases", () => {
  expect(covers.filter((c) => !c.ok)).toEqual([]);
  expect(covers.length).toBeGreaterThan(30);
});
test("an interval that holds 85 % where it says 95 % is found out", () => {
  expect(judged("any", "any", 340, 0.95)).toMatchObject({ ok: false });
  expect(judged("any", "any", 370, 0.95)).toMatchObject({ ok: true });
  expect(judged("any", "any", 400, 0.9, "at least")).toMatchObject({ ok: true });
});
test("the table ends by counting what holds", () => {
  expect(coverTable(covers)).toMatch(
    new RegExp(`\n${covers.length} of ${covers.length} intervals hold as often as they should$`),
  );
});
describe("synthetic counts", () => {
  const even = Array.from({ length: 20_000 }, (_, i) => (i + 0.5) / 20_000);
  test.each([0.02, 1, 30, 900])("of a Poisson law have its mean and variance at %f", (mean) => {
    const k = even.map((u) => poissonAt(u, mean));
    const got = k.reduce((a, b) => a + b) / k.length;
    expect(Math.abs(got / mean - 1)).toBeLessThan(3e-3);
    const variance = k.reduce((a, b) => a + (b - got) ** 2, 0) / k.length;
    expect(Math.abs(variance / mean - 1)).toBeLessThan(0.01);
  });
  test("of a binomial law have its mean", () => {
    const k = even.map((u) => binomialAt(u, 300, 0.01));
    expect(k.reduce((a, b) => a + b) / k.length).toBeCloseTo(3, 2);
  });
});
// By four million draws of mean and spread, numpy: 0.9550 +- 0.0001. [derived]
test("Bissell's limits of 10 readings hold a Cpk of 1 in 95.5 % of series", () => {
  expect(exactOfCpk(10, 1)).toBeCloseTo(0.955, 3);
});
