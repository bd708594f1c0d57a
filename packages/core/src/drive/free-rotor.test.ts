import { describe, expect, test } from "vitest";
import { driven, embossedTape, nominal, scene, sideCrossing } from "../scene.fixture.ts";
import { freeRotorSpeed, rotorPoles, runUps, timesOf } from "./free-rotor.ts";

// A university's tutorial on motor control: J 0.01, b 0.1, K 0.01, R 1, L 0.5. [memory]
test("the tutorial's motor has its poles at -9.9975 and -2.0025", () => {
  expect(rotorPoles(1, 0.5, 0.01, 0.01, 0.1).real.map((p) => p.toFixed(4))).toEqual(["-9.9975", "-2.0025"]);
});
describe("a free rotor at 10 V", () => {
  // Steps in time, validation/independent/drive.py. [derived]
  test("of 16 ohm, 1.5 mH, 3 mV s, 10 g mm2 turns at 2251.864 rad/s after 20 ms", () => {
    expect(freeRotorSpeed(10, 16, 1.5e-3, 3e-3, 1e-8, 0.02)).toBeCloseTo(2251.864, 3);
  });
  test("of 2 ohm, 4 mH, 6 mV s, 4 g mm2 rings, and turns at 1382.793 rad/s after 5 ms", () => {
    expect(rotorPoles(2, 4e-3, 6e-3, 4e-9).ringing).toBeGreaterThan(0);
    expect(freeRotorSpeed(10, 2, 4e-3, 6e-3, 4e-9, 0.005)).toBeCloseTo(1382.793, 3);
  });
  test("stands at first and ends at volts over constant, ringing or not", () => {
    for (const [R, L, k, J] of [
      [16, 1.5e-3, 3e-3, 1e-8],
      [2, 4e-3, 6e-3, 4e-9],
    ] as const) {
      expect(freeRotorSpeed(10, R, L, k, J, 0)).toBeCloseTo(0, 9);
      expect(freeRotorSpeed(10, R, L, k, J, 2)).toBeCloseTo(10 / k, 6);
    }
  });
  test("where both poles fall together has no jump", () => {
    const [R, k, J] = [8, 4e-3, 2e-9];
    const L = (R * R * J) / (4 * k * k);
    const at = (l: number) => freeRotorSpeed(10, R, l, k, J, 1e-3);
    expect(at(L)).toBeCloseTo(at(L * (1 + 1e-9)), 2);
    expect(at(L)).toBeCloseTo(at(L * (1 - 1e-9)), 2);
  });
});
test("a motor of 16 ohm, 3 mN m/A and 10 g mm2 runs up in 17.8 ms, its current of 1.5 mH in 94 us", () => {
  expect(runUps.feed.mechanical.value({ J: 1e-8, R: 16, k: 3e-3 })).toBeCloseTo(17.78e-3, 5);
  expect(runUps.feed.electrical.value({ L: 1.5e-3, R: 16 })).toBeCloseTo(93.75e-6, 9);
});
test("a unit whose motor nobody knows has no times", () => {
  expect(timesOf(scene(sideCrossing(), embossedTape(12)), "feed")).toEqual([]);
  const sheet = driven.sheetScene();
  for (const m of timesOf(sheet, "peel")) expect(nominal(sheet, m)).toBeGreaterThan(0);
});
