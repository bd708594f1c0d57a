import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import { driven, embossedTape, nominal, overhead, scene } from "../scene.fixture.ts";
import {
  checkHeats,
  greatestTorqueCurrent,
  heats,
  hotter,
  runawayCurrent,
  setCurrentRise,
  setTorqueRise,
  setVoltsRise,
  twoNodes,
} from "./heats.ts";

const [R, R_t, a, b] = [16, 65, 0.00393, 0.002];
// A review of the working notes, and validation/independent/drive.py by repetition of the balance. [derived]
describe("16 ohm behind 65 K/W", () => {
  test("at a set current of 0.25 A is 87.3 K warm, and has no end from 0.495 A on", () => {
    expect(setCurrentRise(0.25, R, R_t, a)).toBeCloseTo(87.301, 3);
    expect(runawayCurrent(R, R_t, a)).toBeCloseTo(0.4946, 4);
    expect(setCurrentRise(0.495, R, R_t, a)).toBe(Number.POSITIVE_INFINITY);
  });
  test("held fast at 6 V is 104 K warm: volts never run away", () => {
    expect(setVoltsRise(6, R, R_t, a)).toBeCloseTo(103.8586, 4);
    expect(Number.isFinite(setVoltsRise(1000, R, R_t, a))).toBe(true);
  });
  test("at a set torque of 0.15, 0.20 and 0.21 A cold is 29.5, 73.9 and 99.2 K warm, and 0.213 A has no end", () => {
    for (const [I, x] of [
      [0.15, 29.48709],
      [0.2, 73.93949],
      [0.21, 99.21491],
    ] as const)
      expect(setTorqueRise(R_t * R * I * I, a, b)).toBeCloseTo(x, 4);
    expect(greatestTorqueCurrent(R, R_t, a, b)).toBeCloseTo(0.21292, 5);
  });
  test("without magnets that fade the greatest torque is the greatest current", () => {
    expect(greatestTorqueCurrent(R, R_t, a, 0)).toBe(runawayCurrent(R, R_t, a));
    expect(setTorqueRise(65, a, 0)).toBeCloseTo(65 / (1 - a * 65), 9);
  });
});
test("more heat always makes it warmer, beyond the greatest torque too, without a jump", () => {
  const power = fc.double({ min: 0, max: 400, noNaN: true });
  fc.assert(
    fc.property(power, power, (p, q) => {
      const [less, more] = [Math.min(p, q), Math.max(p, q)];
      expect(setTorqueRise(more, a, b)).toBeGreaterThanOrEqual(setTorqueRise(less, a, b) - 1e-7);
    }),
    { seed: 421, numRuns: 300 },
  );
  const most = R_t * R * greatestTorqueCurrent(R, R_t, a, b) ** 2;
  expect(setTorqueRise(most * (1 + 1e-12), a, b) - setTorqueRise(most * (1 - 1e-12), a, b)).toBeLessThan(0.01);
});
// The balance repeated until it stands, validation/independent/drive.py. [derived]
test("20 K of starts and stops make 29.5 K of a set torque to 56.3 K, more than their sum", () => {
  expect(setTorqueRise(R_t * R * 0.15 ** 2, a, b, 20)).toBeCloseTo(56.28585, 4);
});
test("a heating below nothing is refused", () => {
  expect(() => setTorqueRise(-1, a, b)).toThrow("a heating of -1 K is none");
  expect(() => setTorqueRise(Number.NaN, a, b)).toThrow("a heating of NaN K is none");
});
// Eigenvalues of the two balances, validation/independent/drive.py. [derived]
test("winding and case of 20 and 45 K/W, 1.5 and 8 J/K answer in 25 s and 433 s", () => {
  expect(twoNodes(20, 45, 1.5, 8).map((t) => t.toFixed(2))).toEqual(["24.97", "432.53"]);
});
describe("held fast", () => {
  const held = (more: object) => heats.feed.heldFast.value({ R_t, R, V: 10, a, ...more }) as number;
  // 100/16 W for 0.2 s into 1.5 J/K, by hand. [derived]
  test("for 0.2 s at 10 V a winding of 1.5 J/K warms by 0.83 K", () => {
    expect(held({ t_s: 0.2, C_w: 1.5 })).toBeCloseTo(0.8333, 4);
  });
  test("for an hour it warms no more than for good, and a limit of the bridge never makes it warmer", () => {
    expect(held({ t_s: 3600, C_w: 1.5 })).toBe(held({}));
    expect(held({ I_m: 0.3 })).toBeLessThan(held({}));
    expect(held({ I_m: 0.6 })).toBe(held({}));
  });
});
describe("in a scene", () => {
  const sheet = driven.sheetScene();
  test("a motor that is driven against a stop for good burns, one that is let go after 200 ms does not", () => {
    expect(chosen(checkHeats.value, sheet)).toBe(hotter);
    expect(nominal(sheet, hotter)).toBeGreaterThan(0);
    expect(hotter.where!({ o_f: 100, o_p: -60 })).toBe("the feed drive");
    const said = checkHeats.because(() => "x", sheet);
    expect(said).toContain("held fast for good (no stall time is given)");
    expect(said).toMatch(
      /^The feed drive's winding .*; the peel drive's winding .*held fast for x: x, where it stands x\.$/,
    );
    expect(nominal(driven.windingScene(), chosen(checkHeats.value, driven.windingScene())!)).toBeLessThan(0);
  });
  test("it lasts or not, and stops no tape", () => expect(checkHeats.severity).toBe("L"));
  test("a stated stall torque says nothing of heat", () => {
    expect(checkHeats.absent(scene(overhead(24), embossedTape(24)))).toBe(
      "the unit has no feed drive; the peel drive gives neither its motor's sheet nor its winding, so its resistance is not known",
    );
  });
  test("a quarter of the time warms by a quarter nearly: by less, for less heat fades magnets less", () => {
    const rise = (d: number) =>
      heats.feed.running.value({ R_t, R, I: 0.15, d, a, b, f: 0, J: 1e-8, V: 10, k: 3e-3 }) as number;
    expect(rise(0.25)).toBeLessThan(rise(1) / 4);
    expect(rise(0.25)).toBeGreaterThan(rise(1) / 6);
  });
});
