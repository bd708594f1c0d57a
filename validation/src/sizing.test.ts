import { describe, expect, test } from "vitest";
import { ByForce, dunlin, type Freeing, sameEnd, settling, sizeDunlin, two } from "./sizing.ts";

describe("the second example's two levers", { timeout: 720_000 }, () => {
  const some = dunlin(["so20-24", "socket-32"]);
  const { result, free } = sizeDunlin(some, two, 4);
  const force = new ByForce(some, free, result.aside);
  test("end at the same least gap from the drawn place and three random ones", () => {
    const ends = result.starts.map((s) => s.least);
    expect(ends).toHaveLength(4);
    const best = Math.max(...ends);
    for (const end of ends) expect(Math.abs(end - best)).toBeLessThanOrEqual(sameEnd * Math.abs(best));
  });
  test("have the least gap that full draws find there", () => {
    const by = result.dimensions.map((d) => d.by);
    expect(force.at(by)).toBeCloseTo(result.after.least, 6);
    expect(force.at([0, 0])).toBeCloseTo(result.before.least, 6);
    expect(result.after.least).toBeGreaterThan(result.before.least);
  });
  test("are beaten by no place of a grid that is decided in full", () => {
    const grid = force.best(5);
    expect(result.after.least).toBeGreaterThanOrEqual(grid.least - sameEnd * Math.abs(grid.least) - settling);
  });
});
test("a lever that no window is tight on stays where it is", { timeout: 720_000 }, () => {
  const marks: readonly Freeing[] = [...two, ["tape.exit.unguided", 5e-3, 15e-3]];
  const { result } = sizeDunlin(dunlin(["socket-32"]), marks, 1);
  expect(result.dimensions[2]!.by).toBe(0);
  expect(result.lines.every(({ path }) => path !== "tape.exit.unguided")).toBe(true);
});
