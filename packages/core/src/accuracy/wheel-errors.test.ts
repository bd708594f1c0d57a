import { describe, expect, test } from "vitest";
import { settled } from "../cycle/measures.ts";
import { driven, halfPitchTape, nominal, scene, sideCrossing } from "../scene.fixture.ts";
import { transmissionError } from "../sprocket/enters.ts";
import { countStop, dragStop, eccentricity, halfSteps, restRipple, settling, slowStop } from "./wheel-errors.ts";

const sheet = driven.sheetScene();
// A circle that turns about a point c off its middle: its rim stands r + c cos(a) away, so it runs out by 2 c, and the tape
// is moved by r a + c sin(a). [derived]
test("a wheel that runs out by e moves the tape by e/2 either way over a turn", () => {
  const [r, c] = [15e-3, 12e-6];
  const turn = Array.from({ length: 360 }, (_, i) => (i * Math.PI) / 180);
  const rim = turn.map((a) => r + c * Math.cos(a));
  const moved = turn.map((a) => c * Math.sin(a));
  const e_w = Math.max(...rim) - Math.min(...rim);
  expect(eccentricity.value({ e_w })).toBeCloseTo(Math.max(...moved), 12);
});
test("a drive law moves the rest by no more than half its ripple, and by nothing at a tooth's own place", () => {
  const e_t = nominal(sheet, transmissionError);
  for (const t_r of [-1, -0.4, 0, 1])
    expect(Math.abs(restRipple.value({ t_r, e_t }))).toBeLessThanOrEqual(e_t / 2 + 1e-15);
  expect(nominal(sheet, restRipple)).toBe(0);
});
describe("what is not there is not counted", () => {
  test("half pitches on a tape that steps whole ones, counts on a unit without a wheel's counter, stops without a motor", () => {
    expect(halfSteps.reads(sheet)).toBeUndefined();
    expect(halfSteps.reads(scene(sideCrossing(8), halfPitchTape()))).toBeDefined();
    expect(countStop.reads(sheet)).toBeUndefined();
    const idle = scene(sideCrossing(8), halfPitchTape());
    expect([slowStop, dragStop].map((m) => m.reads(idle))).toEqual([undefined, undefined]);
  });
});
// Half of 80 um kept, half of that either way: 20 um; a tenth of 30 um of ripple: 3 um. By hand. [derived]
test("a lead that follows half of a slow shift leaves a quarter of it either way, drag its share at random", () => {
  expect(slowStop.value({ q_l: 0.5, e_v: 80e-6 })).toBeCloseTo(20e-6, 12);
  expect(dragStop.value({ q_r: 0.1, e_d: 30e-6 })).toBeCloseTo(3e-6, 12);
});
test("what is left of the settling is what the index's time counts as its end", () =>
  expect(nominal(sheet, settling)).toBe(settled));
