import { expect, test } from "vitest";
import { warmShift } from "../part/warms.ts";
import { driven, nominal } from "../scene.fixture.ts";
import type { Calibration, Scene } from "../scene.ts";
import { carrierShift, warmMean, warmReach } from "./warm.ts";

const sheet = driven.sheetScene();
const taught = (calibration: Calibration): Scene => ({ ...sheet, requirement: { ...sheet.requirement, calibration } });
// 70e-6 a kelvin over 40 mm and 10 K: 28 um. By hand. [derived]
test("a plastic carrier 40 mm from the wheel moves the pick by 28 um over 10 K, on whichever side", () => {
  expect(carrierShift.value({ a_t: 70e-6, s_w: 0.04, s_p: 0, dT: 10 })).toBeCloseTo(28e-6, 12);
  expect(carrierShift.value({ a_t: 70e-6, s_w: 0, s_p: 0.04, dT: 10 })).toBeCloseTo(28e-6, 12);
});
test("two points take out what the frame does, one point does not: the carrier's own shift is left", () => {
  expect(warmReach.reads(taught("one point"))!.e_x).toBe(warmShift.reads(sheet) ? warmShift : carrierShift);
  expect(warmReach.reads(taught("two points"))!.e_x).toBe(carrierShift);
  expect(nominal(taught("two points"), warmReach)).toBeCloseTo(nominal(sheet, carrierShift) / 2, 12);
});
test("mean and reach together span cold to warm from wherever it was taught, never more", () => {
  for (const t_w of [-1, -0.3, 0, 0.7, 1]) {
    const [mean, reach] = [warmMean.value({ t_w, e_x: 60e-6 }), warmReach.value({ e_x: 60e-6 })];
    expect(Math.abs(mean) + reach).toBeLessThanOrEqual(60e-6 + 1e-12);
  }
  expect(warmMean.value({ t_w: 1, e_x: 60e-6 }) + warmReach.value({ e_x: 60e-6 })).toBeCloseTo(60e-6, 12);
});
