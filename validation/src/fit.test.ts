import { describe, expect, test } from "vitest";
import { certified, digits, fitted, setNames } from "./fit.ts";

test("twenty sets are read whole: as many readings as their files say", () => {
  expect(setNames).toHaveLength(20);
  expect(certified("Nelson").y).toHaveLength(128);
  expect(certified("Nelson").x[0]).toEqual([1, 180]);
  expect(certified("Thurber").y).toHaveLength(37);
  for (const name of setNames) {
    const { b, starts, rss } = certified(name);
    expect(
      starts.every((s) => s.length === b.length && s.every(Number.isFinite)),
      name,
    ).toBe(true);
    expect(rss, name).toBeGreaterThan(0);
  }
});
describe.each(setNames)("%s", (name) => {
  const { set, result } = fitted(name);
  test("comes out to 7 digits or more from its second start", () =>
    expect(digits(result.ends[1]!.b, set.b)).toBeGreaterThanOrEqual(7));
  test("ends nowhere else from its first start without saying so", () => {
    if (digits(result.ends[0]!.b, set.b) < 4) expect(result.findings.join()).toContain("start 1");
    else expect(result.findings).toEqual([]);
  });
  test("takes the deeper of both ends", () => expect(digits([result.rss], [set.rss])).toBeGreaterThan(7));
});
