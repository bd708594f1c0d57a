import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import { driven, nominal, outside } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import { brushes, checkLasts, sooner } from "./brush.ts";

// A maker's trial of one small motor: 15 h 31 at 5 V, 5 h 28 at 6 V, 1 h 44 at 7.2 V, one motor a point. [read]
test("six is the power that takes 15 h 31 at 5 V to 1 h 44 at 7.2 V, and near 5 h 28 at 6 V", () => {
  const minutes = (V: number) => brushes.feed.value({ t_b: 931, V, V_s: 5, m: 6, t_i: 1 });
  expect(Math.abs(minutes(7.2) / 104 - 1)).toBeLessThan(0.01);
  expect(Math.abs(minutes(6) / 328 - 1)).toBeLessThan(0.06);
});
// 100 h of running at 60 ms: 6 million, by hand. [derived]
test("100 h of running are 6 million indexes of 60 ms at the sheet's volts", () => {
  expect(brushes.feed.value({ t_b: 360_000, V: 12, V_s: 12, m: 6, t_i: 0.06 })).toBeCloseTo(6e6, 3);
});
test("a power of 12 is outside what was ever seen", () => {
  expect(outside(brushes.feed, { m: 12 })).toEqual(["m"]);
});
describe("in a scene", () => {
  const sheet = driven.sheetScene();
  const without = (...names: (keyof Scene["requirement"])[]): Scene => ({
    ...sheet,
    requirement: Object.fromEntries(
      Object.entries(sheet.requirement).filter(([name]) => !(names as string[]).includes(name)),
    ) as unknown as Scene["requirement"],
  });
  test("the brushes that wear first count", () => {
    expect(chosen(checkLasts.value, sheet)).toBe(sooner);
    expect(nominal(sheet, sooner)).toBe(Math.min(nominal(sheet, brushes.feed), nominal(sheet, brushes.peel)));
    expect(sooner.where!({ n_f: 1e6, n_p: 2e6 })).toBe("the feed drive");
  });
  test("what is missing is said", () => {
    expect(checkLasts.absent(without("life"))).toBe("project.yaml asks for no life of a unit");
    expect(checkLasts.absent(without("supply"))).toBe("project.yaml gives no supply");
    expect(checkLasts.absent(without("indexTime"))).toBe("project.yaml asks for no index time");
    expect(checkLasts.absent(driven.windingScene())).toBe(
      "no drive gives the sheet of its motor, with the volts it is made for",
    );
  });
});
