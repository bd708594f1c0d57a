import { describe, expect, test } from "vitest";
import { inventedDesign } from "./drives.ts";
import { type LaneName, type Lanes, laneNames } from "./lanes.ts";
import { measuresOf } from "./measures.ts";
import type { IndexRun } from "./run.ts";
import { at, stateSize } from "./step.ts";

const { peel: _p, film: _f, ...bare } = inventedDesign();
const design = { ...bare, commands: { ...bare.commands, feedStart: 5e-3, travel: 4e-3 } };
const end = 40;
/** A run of 41 samples, one a millisecond, of lanes that are nought but for those given. */
function made(lanes: Partial<Record<LaneName, (ms: number) => number>>, more: Partial<IndexRun> = {}): IndexRun {
  const lane = (name: LaneName): Float64Array =>
    Float64Array.from({ length: end + 1 }, (_, i) => (name === "t" ? i / 1000 : (lanes[name]?.(i) ?? 0)));
  return {
    lanes: Object.fromEntries(laneNames.map((name) => [name, lane(name)])) as unknown as Lanes,
    marks: [
      { what: "feed on", t: 5e-3 },
      { what: "brake", t: 20e-3 },
    ],
    energy: { feed: 0.03, peel: 0, feedHeat: 0.01, peelHeat: 0 },
    end: new Float64Array(stateSize),
    steps: { taken: 40, newton: 90, repeated: 0, unsolved: 0, forced: 0, forcedError: 0 },
    ...more,
  } as IndexRun;
}
/** 3.9 mm by 20 ms at an even speed, then 0.1 mm more by 30 ms, then nothing. */
const tape = (ms: number): number => (ms < 20 ? 0.195e-3 * ms : ms < 30 ? 3.9e-3 + 10e-6 * (ms - 20) : 4e-3);
const tapeSpeed = (ms: number): number => (ms < 20 ? 0.195 : ms < 30 ? 0.01 : 0);
const r = design.wheel.radius;

describe("an index laid out by hand", () => {
  const run = made({
    tape,
    tapeSpeed,
    wheel: (ms) => (1.01 * tape(ms)) / r,
    hole: (ms) => (ms === 7 ? 3 : ms === 9 ? -1 : 0),
  });
  const m = measuresOf(design, run);
  // 10 um before its end at 29 ms, and the feed motor came on at 5 ms. By hand. [derived]
  test("is over 24 ms after its command, when the tape is within 10 um of its end", () => {
    expect(m.time).toBeCloseTo(24e-3, 12);
  });
  // The wheel's last 101 um take 10 ms, 10 um of it 0.99 ms. By hand. [derived]
  test("has its wheel in place a little later, 40 um past the pitch", () => {
    expect(m.wheelTime).toBeCloseTo(25e-3 - (10 / 10.1) * 1e-3, 9);
    expect(m.stopError).toBeCloseTo(40e-6, 12);
    expect(m.travel).toBeCloseTo(4e-3, 12);
  });
  test("keeps pushes and pulls of a tooth apart, and the speed without its sign", () => {
    expect([m.hole, m.holeAhead]).toEqual([3, 1]);
    expect(m.speed).toBeCloseTo(0.195, 12);
    expect(measuresOf(design, made({ tapeSpeed: (ms) => -tapeSpeed(ms) })).speed).toBeCloseTo(0.195, 12);
  });
  test("adds up what both motors took from the rail", () => {
    const both = measuresOf(design, made({}, { energy: { feed: 0.03, peel: 0.02, feedHeat: 0.01, peelHeat: 0 } }));
    expect([m.energy, both.energy]).toEqual([0.03, 0.05]);
  });
  test("warns of nothing", () => expect(m.warnings).toEqual([]));
});
// 0.195 to 0.01 m/s from one sample to the next, 1 ms. By hand. [derived]
test("the jolt is the greatest change within a millisecond, and begins where the change does", () => {
  const { jolt, joltAt } = measuresOf(design, made({ tape, tapeSpeed }));
  expect(jolt).toBeCloseTo(0.185, 9);
  expect(joltAt).toBeCloseTo(19e-3, 9);
  // A speed that grows evenly by 0.1 m/s over 20 ms changes by 5 mm/s in any millisecond. By hand. [derived]
  expect(measuresOf(design, made({ tapeSpeed: (ms) => Math.min(0.1, 0.005 * ms) })).jolt).toBeCloseTo(0.005, 9);
});
test("the seat is 0 behind, 1 ahead and 0.5 between its teeth, and never beyond", () => {
  const { lo, hi } = design.wheel.play;
  const seat = (off: number): number => {
    const state = new Float64Array(stateSize);
    state[at.tape] = off;
    return measuresOf(design, made({}, { end: state })).seat;
  };
  expect([seat(lo[0]!), seat((lo[0]! + hi[0]!) / 2), seat(hi[0]!)]).toEqual([0, 0.5, 1]);
  expect([seat(-1), seat(1)]).toEqual([0, 1]);
});
describe("what a reader must know first", () => {
  test("a brake that never came leaves the index without an end", () => {
    const m = measuresOf(design, made({ tape, tapeSpeed }, { marks: [] }));
    expect([m.time, m.wheelTime, m.brakeSpeed]).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 0]);
    expect(m.warnings[0]).toMatch(/^The index does not finish/);
  });
  test("a tape that still moves at the end of the run has not arrived", () => {
    const m = measuresOf(design, made({ tape: (ms) => 1e-4 * ms, tapeSpeed: () => 0.1 }));
    expect(m.time).toBe(Number.POSITIVE_INFINITY);
    expect(m.warnings).toEqual(["The tape still moves at the end of the run, 100 ms."]);
  });
  test("steps that Newton missed, or that were kept too rough, are told with their number", () => {
    const steps = { taken: 40, newton: 90, repeated: 0, unsolved: 2, unsolvedAt: 7e-3, forced: 3, forcedError: 12.34 };
    expect(measuresOf(design, made({ tape, tapeSpeed }, { steps })).warnings).toEqual([
      "Newton missed in 2 of 40 steps, first at 7.00 ms: the run rests on its last guess there.",
      "3 of 40 steps were kept at the shortest length with an error of up to 12 tolerances.",
    ]);
  });
});
