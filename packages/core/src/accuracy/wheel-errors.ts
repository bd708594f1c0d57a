import { noIndex } from "../cycle/of-scene.ts";
import { countError, shiftByDrag, shiftByVolts } from "../cycle/stops.ts";
import { noFilmPull, seatJump, seatMargin } from "../film/seat.ts";
import { tabled } from "../quantity/given.ts";
import { type Model, model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { transmissionError } from "../sprocket/enters.ts";
import { halfStepError } from "../sprocket/half-step.ts";
import { noTeeth } from "../sprocket/wheel.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { places } from "./places.ts";

/**
 * What wheel and drive add to the pick error along the travel.
 *
 *     a_w = e_w/2                   a wheel that runs out by e_w over a turn (greatest less least) moves the tape by a_w sin(pi t)
 *     x_r = t_r e_t/2               drive law at the angle at which the wheel rests: e_t its ripple over a pitch; whole pitches: fixed for a unit
 *     a_h = e_h/2                   half pitches: the two halves of every pitch lie e_h apart
 *     a_s = x_j/2                   the tape flips from side to side of its teeth; where it keeps to one, a calibration takes that out
 *     a_v = q_l e_v/2,  a_c = e_c   what is left of the slow shift of the stop with volts and heat, and half a count
 *     a_d = q_r e_d                 shift of the stop as the drag swings
 *
 * e_t, e_h (sprocket/), x_j (film/seat.ts), e_v, e_d, e_c (cycle/stops.ts), m. q_l share of a slow shift that a lead leaves which the firmware
 * keeps correcting by its own count after every index, 1 where it is learned once; q_r share of the drag's ripple that differs from index to index: what is
 * locked to the pockets comes back with each and is in the lead. Whether the tape flips is taken from tape.seat as written: how sure that is
 * stands there.
 *
 * t_r is taken as any place: a file does not say at which angle the wheel rests. What else a reel's pitch changes in the drive law is left out.
 * A wheel that turns once in one index, or rests at one angle alone, has its eccentricity fixed: then the calibration takes it out too.
 */
export const eccentricity: Model = model({
  id: "pick.eccentricity",
  symbol: "a_w",
  unit: "m",
  shownIn: "um",
  title: "how far an eccentric wheel moves the tape, either way, once a turn",
  equation: "e_w/2",
  form: "closed",
  origin: { cite: "a wheel turning about a point off its middle, geometry", how: "derived" },
  reads: ({ unit, requirement }) =>
    unit.sprocket && { e_w: unit.sprocket.runout ?? requirement.assume["wheel runout"] },
  value: ({ e_w }) => e_w / 2,
});
const steps = (scene: Scene): boolean => noTeeth(scene) === undefined;
export const restRipple: Model = model({
  id: "pick.rest-ripple",
  symbol: "x_r",
  unit: "m",
  shownIn: "um",
  title: "drive law at the angle at which the wheel rests",
  equation: "t_r*e_t/2",
  form: "closed",
  origin: { cite: "transmission error at an angle that no file gives", how: "derived" },
  reads: (scene) => (steps(scene) ? { t_r: places.restPhase, e_t: transmissionError } : undefined),
  value: ({ t_r, e_t }) => (t_r * e_t) / 2,
});
export const halfSteps: Model = model({
  id: "pick.half-steps",
  symbol: "a_h",
  unit: "m",
  shownIn: "um",
  title: "how far the two halves of a hole pitch lie off their mean",
  equation: "e_h/2",
  form: "closed",
  origin: { cite: "two places in turn, algebra", how: "derived" },
  reads: (scene) => (halfStepError.reads(scene) ? { e_h: halfStepError } : undefined),
  value: ({ e_h }) => e_h / 2,
});
export const seatFlips: Model = model({
  id: "pick.seat-flips",
  symbol: "a_s",
  unit: "m",
  shownIn: "um",
  title: "how far the tape flips on its teeth, either way",
  equation: "x_j/2",
  form: "closed",
  origin: { cite: "two places as often the one as the other, algebra", how: "derived" },
  reads: (scene) => (flips(scene) ? { x_j: seatJump } : undefined),
  value: ({ x_j }) => x_j / 2,
});
/** Whether the tape flips from side to side of its teeth, every number as written. */
const flipping = new WeakMap<Scene, boolean>();
function flips(scene: Scene): boolean {
  const known = flipping.get(scene);
  if (known !== undefined) return known;
  const made = flipsAsWritten(scene);
  flipping.set(scene, made);
  return made;
}
function flipsAsWritten(scene: Scene): boolean {
  if (!scene.unit.sprocket || noFilmPull(scene) !== undefined) return false;
  const h = scene.requirement.assume["force ripple"];
  const run = new Realiser(scene, [seatMargin, h]).run(asWritten);
  return run.number(seatMargin) < run.number(h);
}
export const slowStop: Model = model({
  id: "pick.slow-stop",
  symbol: "a_v",
  unit: "m",
  shownIn: "um",
  title: "what is left of the slow shift of the stop, either way",
  equation: "q_l*e_v/2",
  form: "closed",
  origin: {
    cite: "a lead corrected after every index follows slow shifts; the share is a judgement",
    how: "judgement",
  },
  reads: (scene) =>
    noIndex(scene) === undefined && shiftByVolts.reads(scene)
      ? { q_l: scene.requirement.assume["stop drift"], e_v: shiftByVolts }
      : undefined,
  value: ({ q_l, e_v }) => (q_l * e_v) / 2,
});
export const dragStop: Model = model({
  id: "pick.drag-stop",
  symbol: "a_d",
  unit: "m",
  shownIn: "um",
  title: "shift of the stop as the drag swings, either way",
  equation: "q_r*e_d",
  form: "closed",
  origin: { cite: "index of a rigid drive (unpublished working notes); the share is a judgement", how: "judgement" },
  reads: (scene) =>
    noIndex(scene) === undefined && shiftByDrag.reads(scene)
      ? { q_r: scene.requirement.assume["ripple at random"], e_d: shiftByDrag }
      : undefined,
  value: ({ q_r, e_d }) => q_r * e_d,
});
export const countStop: Model = model({
  id: "pick.count-stop",
  symbol: "a_c",
  unit: "m",
  shownIn: "um",
  title: "half a count of the wheel at the tape, either way",
  equation: "e_c",
  form: "closed",
  origin: { cite: "definition of a count", how: "derived" },
  reads: (scene) => (countError.reads(scene) ? { e_c: countError } : undefined),
  value: ({ e_c }) => e_c,
});
const settledTo = tabled("bound/settled", "a_0", "10 um", [1, 0, 0, 0, 0], {
  cite: "by definition of the index time: the tape stays within it of its end",
  how: "derived",
});
export const settling: Model = model({
  id: "pick.settling",
  symbol: "a_e",
  unit: "m",
  shownIn: "um",
  title: "what is left of the settling when the index counts as done, either way",
  equation: "a_0",
  form: "closed",
  origin: { cite: "definition of the index time", how: "derived" },
  reads: ({ unit }) => unit.sprocket && { a_0: settledTo },
  value: ({ a_0 }) => a_0,
});
