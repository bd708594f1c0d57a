import { describe, expect, test } from "vitest";
import { peelForModel, peelTrace, type Trace } from "./peel-trace.ts";

/** A trace of 150 mm, a reading every half millimetre; a start-up bump, then what is asked for. */
const traced = (F: (s: number) => number, mm = 150): Trace => ({
  force: Array.from({ length: 2 * mm + 1 }, (_, i) => F(i / 2) + (i < 20 ? 0.5 : 0)),
  step: 0.5e-3,
  pocketPitch: 8e-3,
  holePitch: 4e-3,
});
const wave = (s: number, period: number): number => Math.sin((2 * Math.PI * s) / period);

test("the plateau leaves out 25 mm and the last 5, and with them the bump", () => {
  const got = peelTrace(traced((s) => 0.5 + 0.1 * wave(s, 8)));
  expect(got.plateau).toEqual([50, 290]);
  expect(got.mean).toBeCloseTo(0.5, 3);
  expect(got.greatest).toBeCloseTo(0.6, 6);
  // 0.1/sqrt(2) of 0.5. [derived]
  expect(got.ripple).toBeCloseTo(0.1414, 2);
  expect([got.usable, got.findings]).toEqual([true, []]);
});
test("a ripple of the pockets' pitch is locked to them, one of another is not", () => {
  expect(peelTrace(traced((s) => 0.5 + 0.1 * wave(s, 8))).lockedToPockets).toBeCloseTo(1, 6);
  expect(peelTrace(traced((s) => 0.5 + 0.1 * wave(s, 5.3))).lockedToPockets).toBeLessThan(0.05);
  expect(peelTrace(traced((s) => 0.5 + 0.1 * wave(s, 4))).lockedToHoles).toBeCloseTo(1, 6);
  // Half of the variance each. [derived]
  expect(peelTrace(traced((s) => 0.5 + 0.1 * (wave(s, 8) + wave(s, 5.3)))).lockedToPockets).toBeCloseTo(0.5, 1);
});
test("each wave has one peak, noise adds none, and a spike is named as far", () => {
  expect(peelTrace(traced((s) => 0.5 + 0.1 * wave(s, 8))).peaks.count).toBe(15);
  const noise = (s: number): number => 0.002 * Math.sin(s * s * 7.3);
  const noisy = peelTrace(traced((s) => 0.5 + 0.1 * wave(s, 8) + noise(s)));
  expect(noisy.peaks.count).toBeGreaterThanOrEqual(15);
  expect(noisy.peaks.count).toBeLessThanOrEqual(18);
  expect(peelTrace(traced((s) => 0.5 + 0.1 * wave(s, 8) + noise(s) + (s === 82 ? 0.2 : 0))).peaks.far).toBe(1);
  expect(peelTrace(traced(() => 0.5)).peaks.count).toBe(0);
});
test("a force that climbs by a fifth is read by thirds", () => {
  const got = peelTrace(traced((s) => 0.5 * (1 + 0.2 * ((s - 85) / 120))));
  expect(got.trend).toBeCloseTo(0.2, 6);
  expect(got.thirds![2]! - got.thirds![0]!).toBeCloseTo((0.5 * 0.2 * 2) / 3, 3);
  expect(got.findings[0]).toMatch(/^trend: the force changes by 20 %/);
});
test("a slow wander is worth few readings", () => {
  const got = peelTrace(traced((s) => 0.5 + 0.05 * wave(s, 60)));
  expect(got.lagOne).toBeGreaterThan(0.95);
  expect(got.worth).toBeLessThan(10);
  expect(got.standardError).toBeCloseTo(got.sd / Math.sqrt(got.worth), 14);
});
describe("a trace that should not be believed", () => {
  test("too coarse: its peaks are lost", () => {
    const got = peelTrace({ ...traced((s) => 0.5 + 0.1 * wave(s, 8)), pocketPitch: 4e-3 });
    expect(got.usable).toBe(false);
    expect(got.findings).toEqual([
      "too coarse: a reading every 0.5 mm loses the peaks of a ripple of 4 mm, it takes one every 0.4 mm",
    ]);
  });
  test("too short", () =>
    expect(peelTrace(traced(() => 0.5, 60)).findings[0]).toMatch(/^too short: 31 mm of plateau, it takes 80 mm$/));
  test("empty, without a number, without force or step", () => {
    expect(() => peelTrace({ force: [], step: 1e-3, pocketPitch: 8e-3 })).toThrow("nothing to summarise");
    expect(() => peelTrace(traced((s) => (s === 40 ? Number.NaN : 1)))).toThrow("finite");
    expect(() => peelTrace(traced(() => -1))).toThrow("above 0");
    expect(() => peelTrace({ ...traced(() => 1), step: 0 })).toThrow("step of 0");
    expect(() => peelTrace({ force: [1, 1, 1], step: 1e-3, pocketPitch: 8e-3 })).toThrow("no plateau");
  });
});
describe("for the model", () => {
  test("three reels at two speeds give the force at the reference and the exponent", () => {
    const at = (v: number, f = 1) => ({ force: 0.5 * (v / 5e-3) ** 0.2 * f, ripple: 0.1, speed: v });
    const got = peelForModel([at(5e-3), at(0.05), at(0.5)], 5e-3);
    expect(got.P_ref).toBeCloseTo(0.5, 10);
    expect(got.n).toBeCloseTo(0.2, 10);
    expect(got.reelSd).toBeCloseTo(0, 8);
    expect(got.warnings).toEqual([]);
  });
  test("one reel at another speed says what it cannot tell", () => {
    const got = peelForModel([{ force: 0.5, ripple: 0.1, speed: 0.1 }], 5e-3);
    expect(got.reelSd).toBeUndefined();
    expect(got.warnings).toHaveLength(2);
    expect(() => peelForModel([], 5e-3)).toThrow("no reel");
  });
});
