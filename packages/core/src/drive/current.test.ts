import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { driven, nominal, written } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import { currents, dutyOf, runCurrentOf, startCurrentOf, unitMean, unitStart } from "./current.ts";

const winding = driven.windingScene();
// 10 V on 16 and 0.5 ohm; 0.15 mN m and 20 N mm over 480 to 1 at a quarter, by 3 mN m/A: 105.6 mA. By hand. [derived]
describe("a motor of 16 ohm", () => {
  test("starts with 10 V over all the resistance there is", () => {
    expect(currents.feed.free.value({ V: 10, R: 16, R_b: 0.5 })).toBeCloseTo(10 / 16.5, 12);
  });
  test("runs with its friction and its load's share", () => {
    const run = currents.feed.run.value({ I_s: 0.6, T_0: 0.15e-3, M: 20e-3, N: 480, e: 0.25, k: 3e-3 });
    expect(run).toBeCloseTo(0.05 + 20e-3 / 120 / 3e-3, 12);
  });
  test("never runs with more than it starts with, whatever the load", () => {
    const load = fc.double({ min: 0, max: 10, noNaN: true });
    fc.assert(
      fc.property(load, (M) => {
        expect(currents.feed.run.value({ I_s: 0.6, T_0: 0.15e-3, M, N: 480, e: 0.25, k: 3e-3 })).toBeLessThanOrEqual(
          0.6,
        );
      }),
      { seed: 405, numRuns: 100 },
    );
  });
});
test("a bridge with a limit holds the start down to it", () => {
  expect(startCurrentOf(winding, "feed")).toBe(currents.feed.limited);
  expect(nominal(winding, currents.feed.limited)).toBe(0.5);
  expect(nominal(winding, currents.feed.free)).toBeGreaterThan(1);
});
describe("the share of the time that motors run", () => {
  const asked = (more: Partial<Scene["requirement"]>): Scene => ({
    ...winding,
    requirement: { ...winding.requirement, ...more },
  });
  test("is 100 ms by 2.5 a second, a quarter", () => expect(nominal(winding, dutyOf(winding))).toBeCloseTo(0.25, 12));
  test("is all of it where no rate is asked", () => {
    const { indexRate: _, ...rest } = winding.requirement;
    const one = { ...winding, requirement: rest };
    expect(nominal(one, dutyOf(one))).toBe(1);
  });
  test("is never more than all of it", () => {
    const one = asked({
      indexTime: written("own/index time", "t_i", "500 ms", "ms"),
      indexRate: written("own/index rate", "f_i", "2.5 /s", "1/s"),
    });
    expect(nominal(one, dutyOf(one))).toBe(1);
  });
});
describe("a unit's current", () => {
  test("is that of the drives it has: one here, and the board's where it is given", () => {
    expect(nominal(winding, unitStart)).toBeCloseTo(0.5, 12);
    const both = driven.sheetScene();
    const sum = (["feed", "peel"] as const).reduce((s, name) => s + nominal(both, startCurrentOf(both, name)!), 0.03);
    expect(nominal(both, unitStart)).toBeCloseTo(sum, 12);
  });
  test("is less on the average than as it starts", () => {
    for (const one of [driven.sheetScene(), winding])
      expect(nominal(one, unitMean)).toBeLessThan(nominal(one, unitStart));
  });
  test("is not known without a rail", () => {
    const { supply: _, ...rest } = winding.requirement;
    const one = { ...winding, requirement: rest };
    expect([startCurrentOf(one, "feed"), runCurrentOf(one, "feed"), unitStart.reads(one)]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
});
