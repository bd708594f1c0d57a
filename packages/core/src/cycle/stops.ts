import type { Check } from "../quantity/check.ts";
import { type Model, model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { pi, pitchRadius } from "../sprocket/wheel.ts";
import { noIndex } from "./of-scene.ts";
import {
  type Approach,
  approachReads,
  type RigidNumbers,
  rigidDrive,
  rigidIndex,
  rigidReads,
  rigidStop,
} from "./rigid.ts";

/**
 * How far the stop of an index shifts while the firmware's lead stays what it was learned as.
 *
 *     e   = e_v + e_d + e_c
 *     e_v = |x(least volts, hot) - S|        x where the wheel stops with the lead that stops it on S at the rail's volts, cold
 *     e_d = |x(drag (1 + h)) - S|            h share by which the tape's drag swings within a run
 *     e_c = pi r_p/c                         half a count where the wheel is counted, c a turn; else 0
 *
 * x from the rigid index (rigid.ts), m. Ways of stopping: open loop, braked at one lead for all; two speeds, the last stretch at a share of the
 * volts; count at the wheel, slow as well, with backlash out of the count. The lead is taken as learned on every unit: what differs
 * between units (friction torque, gears) is then in it. A lead written once for all units is off by far more (firmware.ts states by how much). What moves
 * the tape on its teeth after the wheel stands is tape.seat's. An index that does not finish in one of the states shifts by its whole travel.
 */
/** Shift of the stop from one state of the drive to another, m. */
function shift(
  learned: RigidNumbers,
  now: RigidNumbers,
  radius: number,
  S: number,
  slow: Approach | undefined,
): number {
  const cold = rigidDrive(learned, radius);
  const base = rigidIndex(cold, S, slow);
  const stop = base && rigidStop(rigidDrive(now, radius), S, base.lead, slow);
  return stop === undefined ? S : Math.min(S, Math.abs(stop - S));
}
const origin = {
  cite: "Sprocket, drive and index cycle, section 6 (unpublished working notes)",
  how: "derived",
} as const;
const common = (scene: Scene) => ({
  r_p: pitchRadius,
  S: scene.tape.letters.P1,
  slow: approachReads(scene),
});
export const shiftByVolts: Model = model({
  id: "cycle.shift-by-volts",
  symbol: "e_v",
  unit: "m",
  shownIn: "um",
  title: "shift of the stop from the rail's volts, cold, to the least volts, hot",
  equation: "abs(x(least volts, hot) - S)",
  form: "solved",
  costly: "coarse",
  origin,
  reads: (scene) => {
    const cold = rigidReads(scene, "cold");
    const hot = rigidReads(scene, "hot");
    return cold && hot && { cold, hot, ...common(scene) };
  },
  value: ({ cold, hot, r_p, S, slow }) => shift(cold, hot, r_p, S, slow || undefined),
});
export const shiftByDrag: Model = model({
  id: "cycle.shift-by-drag",
  symbol: "e_d",
  unit: "m",
  shownIn: "um",
  title: "shift of the stop as the drag swings",
  equation: "abs(x(drag*(1 + h)) - S)",
  form: "solved",
  costly: "coarse",
  origin,
  reads: (scene) => {
    const cold = rigidReads(scene, "cold");
    return cold && { cold, h: scene.requirement.assume["force ripple"], ...common(scene) };
  },
  value: ({ cold, h, r_p, S, slow }) => shift(cold, { ...cold, M: cold.M * (1 + h) }, r_p, S, slow || undefined),
});
export const countError: Model = model({
  id: "cycle.count-error",
  symbol: "e_c",
  unit: "m",
  shownIn: "um",
  title: "half a count of the wheel at the tape",
  equation: "pi*r_p/c",
  form: "closed",
  origin: { cite: "definition of a count", how: "derived" },
  reads: (scene) => {
    const c = scene.unit.index?.stop === "count at the wheel" && scene.unit.index["wheel counts"];
    return c && scene.unit.sprocket ? { pi, r_p: pitchRadius, c } : undefined;
  },
  value: ({ pi, r_p, c }) => (pi * r_p) / c,
});
const openError: Model = model({
  id: "cycle.stop-error",
  symbol: "e",
  unit: "m",
  shownIn: "um",
  title: "how far the stop of an index shifts",
  equation: "e_v + e_d",
  form: "closed",
  origin,
  reads: (scene) => (noIndex(scene) ? undefined : { e_v: shiftByVolts, e_d: shiftByDrag }),
  value: ({ e_v, e_d }) => e_v + e_d,
});
const countedError: Model = model({
  id: "cycle.counted-stop-error",
  symbol: "e",
  unit: "m",
  shownIn: "um",
  title: "how far the stop of an index shifts, counted at the wheel",
  equation: "e_v + e_d + e_c",
  form: "closed",
  origin,
  reads: (scene) =>
    noIndex(scene) || !countError.reads(scene) ? undefined : { e_v: shiftByVolts, e_d: shiftByDrag, e_c: countError },
  value: ({ e_v, e_d, e_c }) => e_v + e_d + e_c,
});
/** The model that fits the unit: with the wheel's counts or without. */
export const stopError = (scene: Scene): Model => (countError.reads(scene) ? countedError : openError);
const words = {
  "open loop": "Braked at one lead for all",
  "two speeds": "Slowed down and braked at one lead",
  "count at the wheel": "Slowed down and braked by the wheel's count",
} as const;
export const checkStops: Check = {
  id: "drive.stops",
  station: 8,
  severity: "A",
  status: "established",
  title: "the firmware's way of stopping holds the stop",
  value: stopError,
  atMost: ({ requirement }) => requirement.assume["stop allowance"],
  absent: noIndex,
  because: (say, scene) =>
    `${words[scene.unit.index?.stop ?? "open loop"]}, the stop shifts by ${say(stopError(scene))}: ${say(shiftByVolts)} down to the least volts, hot, and ${say(shiftByDrag)} as the drag swings.`,
  beside: () => [countError],
};
