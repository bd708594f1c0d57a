import { noLength } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { type Model, model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { cornerOf, offsetAtTip, offsetDeep, opening, sidePlayOnTooth, toothMiddle } from "./opening.ts";
import { interval, noTeeth, outline, singlePitchError } from "./wheel.ts";

/**
 * Do the teeth come into the holes and out of them?
 *
 *     p   = min over theta of (hi - lo)                                      least play of the tape, m; below 0 teeth jam or climb
 *     q_t = 2 (sqrt((D_0/2 - r)^2 - (w_t - r)^2) - t_t/2 + r - y_w)          room of the tip across the tape as it comes in, m
 *     q   = min(p - e_1, q_t)
 *
 * hi, lo the feasible interval of `interval.ts`; e_1 error of a single hole; D_0 hole, w_t half of the tip along the tape, t_t tip across the
 * tape, r = min(r_c, w_t, t_t/2) its corner; y_w offset of the tip from the hole line, with the channel's play (`opening.ts`).
 *
 * Rigid teeth in holes that keep their shape. The tip meets its hole with all the offset that the channel and the tooth already in its hole
 * leave; deeper in, the tooth has pushed the tape sideways as far as the channel lets it. One bad pitch is counted once, in full, against one
 * tooth (safe side: the tape may share it). Threading is not in here.
 */
const geometry = { cite: "tooth and hole, geometry of the section and of the side view", how: "derived" } as const;
const bySweep = {
  cite: "Sprocket, drive and index cycle, section 2.2 (unpublished working notes)",
  how: "derived",
} as const;
const ofInterval = (scene: Scene) => (noTeeth(scene) === undefined ? { X: interval } : undefined);

export const leastPlay = model({
  id: "sprocket.least-play",
  symbol: "p",
  unit: "m",
  title: "least play of the tape on its teeth over the wheel's angle",
  equation: "min over theta of (hi - lo)",
  form: "solved",
  origin: bySweep,
  costly: "coarse",
  reads: ofInterval,
  value: ({ X }) => bounded(X.least().width),
  where: ({ X }) => {
    const { theta } = X.least();
    return `with a tooth ${Math.round((theta / X.step) * 100)} % of a pitch past upright`;
  },
});
/** Where no tooth ever stands in the tape there is no play to speak of: said in words, not as a number without end. */
function bounded(width: number): number {
  if (Number.isFinite(width)) return width;
  throw new RangeError("no tooth of the wheel reaches into the tape");
}
export const tipHalfWidth = model({
  id: "sprocket.tip-half-width",
  symbol: "w_t",
  unit: "m",
  title: "half length of a tooth's tip along the tape",
  equation: "w at rho = r_t",
  form: "solved",
  origin: geometry,
  reads: ({ unit }) => unit.sprocket && { outline },
  value: ({ outline: tooth }) => tooth.tipHalfWidth,
});
export const tipRoom = model({
  id: "sprocket.tip-room",
  symbol: "q_t",
  unit: "m",
  title: "room of a tip across the tape as it comes into its hole",
  equation:
    "2*(sqrt(max(0, (D_0/2 - min(r_c, w_t, t_t/2))^2 - (w_t - min(r_c, w_t, t_t/2))^2)) - t_t/2 + min(r_c, w_t, t_t/2) - y_w)",
  form: "closed",
  origin: geometry,
  reads: (scene) => {
    const tooth = scene.unit.sprocket?.tooth;
    const r_c = cornerOf(scene);
    return (
      tooth &&
      r_c &&
      toothMiddle(scene) && {
        D_0: scene.tape.letters.D0,
        w_t: tipHalfWidth,
        t_t: tooth["across at tip"] ?? tooth.across,
        r_c,
        y_w: offsetAtTip,
      }
    );
  },
  value: ({ D_0, w_t, t_t, r_c, y_w }) => {
    const r = Math.min(r_c, w_t, t_t / 2);
    return 2 * (Math.sqrt(Math.max(0, (D_0 / 2 - r) ** 2 - (w_t - r) ** 2)) - t_t / 2 + r - y_w);
  },
});
export const entryRoom = model({
  id: "sprocket.entry-room",
  symbol: "q",
  unit: "m",
  title: "room of the teeth in their holes, where it is least",
  equation: "min(p - e_1, q_t)",
  form: "closed",
  origin: geometry,
  reads: (scene) => (noTeeth(scene) === undefined ? { p: leastPlay, e_1: singlePitchError, q_t: tipRoom } : undefined),
  value: ({ p, e_1, q_t }) => Math.min(p - e_1, q_t),
  where: ({ p, e_1, q_t }) =>
    q_t < p - e_1 ? "across the tape, as a tip comes in" : "along the tape, between two teeth in their holes",
});

export const transmissionError = model({
  id: "sprocket.transmission-error",
  symbol: "e_t",
  unit: "m",
  shownIn: "um",
  title: "transmission error of the wheel: ripple of the tape's travel within a hole pitch",
  equation: "max - min over theta of (lo - P theta/d)",
  form: "solved",
  origin: bySweep,
  costly: "coarse",
  reads: ofInterval,
  value: ({ X }) => {
    const e = X.error();
    if (Number.isFinite(e)) return e;
    throw new RangeError("at some angle of the wheel no tooth stands in the tape");
  },
  where: ({ X }) => {
    const k = X.carrying(0);
    return k === undefined || k === 0
      ? "with a tooth upright, that tooth pushes"
      : `with a tooth upright, the tooth ${Math.abs(k)} ${k > 0 ? "downstream" : "upstream"} of it pushes`;
  },
});
export const checkEnters: Check = {
  id: "tooth.enters",
  station: 6,
  severity: "S",
  status: "established",
  title: "the teeth come into their holes and out of them",
  value: entryRoom,
  atLeast: noLength,
  absent: noTeeth,
  because: (say) =>
    `The teeth meet ${say(opening)} of each hole along the tape; where it is tightest ${say(leastPlay)} of play are left. A tip comes in with ${say(tipRoom)} to spare across the tape.`,
  beside: (): readonly Model[] => [
    leastPlay,
    singlePitchError,
    tipRoom,
    opening,
    offsetDeep,
    offsetAtTip,
    sidePlayOnTooth,
    transmissionError,
  ],
};
