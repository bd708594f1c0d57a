import { reelDrag } from "../entry/pull.ts";
import { grip, noNip } from "../nip/grip.ts";
import { noLength } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { frictionOnBars, notLedToNip } from "./friction.ts";
import { wrapOverBars } from "./path.ts";

/**
 * On which side of the teeth the tape seats.
 *
 *     F_f = S exp(-mu w)                        forward pull of the film on the tape behind the peel edge, N
 *     F_h = F_t + F_d                           what holds the tape back, N
 *     q_h = |F_f - F_h|/(F_f + F_h)             how far apart they lie; a run's ripple is h
 *     x_j = max(0, D_eff - t_a) + j_d           jump along the travel when the seat flips, m
 *     D_eff = 2 (r_c + sqrt((D_0/2 - r_c)^2 - (t_c/2 - r_c)^2))
 *
 * S traction limit of the nip, N; mu friction of the film on edge and bars, w its turn over them, rad, 0 .. 4 pi; F_t friction of the tape in its
 * channel, F_d drag of the reel, N; h share by which either force swings within a run; D_0 hole, t_a and t_c tooth along and across,
 * r_c its corner, j_d backlash of the drive at the pitch line, m.
 *
 * The nip goes on pulling while the tape stands, and the peel line is held at the edge, so the tape feels what the rope law leaves of S. With
 * F_f (1 - h) > F_h (1 + h) the tape always lies ahead on the teeth (hi), the other way round always behind (lo): then only ripple
 * counts. In between the seat flips and x_j adds to the pick error. One tooth in one hole, tooth in the hole's middle: with pitch errors
 * over several teeth the jump is less. Where the film drives the tape through S alone (no edge) this does not hold.
 */
export const forwardPull = model({
  id: "film.forward-pull",
  symbol: "F_f",
  unit: "N",
  title: "forward pull of the film on the tape behind the peel edge",
  equation: "S*exp(-mu*w)",
  form: "closed",
  origin: { cite: "Euler-Eytelwein rope friction, from the nip back to the peel edge", how: "derived" },
  valid: { mu: [0.02, 0.8] },
  reads: (scene) =>
    noFilmPull(scene) === undefined ? { S: grip(scene), mu: frictionOnBars(scene), w: wrapOverBars } : undefined,
  value: ({ S, mu, w }) => S * Math.exp(-mu * w),
});
export const tapeHold = model({
  id: "tape.hold-back",
  symbol: "F_h",
  unit: "N",
  title: "friction and reel drag that hold the tape back",
  equation: "F_t + F_d",
  form: "closed",
  origin: { cite: "sum of forces", how: "derived" },
  reads: (scene) => ({ F_t: scene.requirement.assume["tape friction"], F_d: reelDrag(scene) }),
  value: ({ F_t, F_d }) => F_t + F_d,
});
/** Why the film's pull on the tape is not known; undefined where it is. */
export const noFilmPull = (scene: Scene): string | undefined => notLedToNip(scene) ?? noNip(scene);

export const seatMargin = model({
  id: "tape.seat-margin",
  symbol: "q_h",
  unit: "1",
  shownIn: "%",
  title: "how far the film's pull and the tape's hold lie apart",
  equation: "abs(F_f - F_h)/(F_f + F_h)",
  form: "closed",
  origin: { cite: "two ranges of equal shares do not meet, algebra", how: "derived" },
  reads: (scene) => (noFilmPull(scene) === undefined ? { F_f: forwardPull, F_h: tapeHold } : undefined),
  value: ({ F_f, F_h }) => Math.abs(F_f - F_h) / (F_f + F_h),
  where: ({ F_f, F_h }) =>
    F_f > F_h ? "the film draws the tape ahead on its teeth" : "the tape lies behind its teeth",
});
export const seatJump = model({
  id: "tape.seat-jump",
  symbol: "x_j",
  unit: "m",
  title: "jump along the travel when the seat flips",
  equation: "max(0, 2*(r_c + sqrt(max(0, (D_0/2 - r_c)^2 - (t_c/2 - r_c)^2))) - t_a) + j_d",
  form: "closed",
  origin: { cite: "tooth with round corners in a round hole, geometry", how: "derived" },
  reads: ({ unit: { sprocket }, tape, requirement: { assume } }) =>
    sprocket && {
      r_c: sprocket.tooth.corner ?? noLength,
      D_0: tape.letters.D0,
      t_c: sprocket.tooth.across,
      t_a: sprocket.tooth.along,
      j_d: assume["drive backlash"],
    },
  value: ({ r_c, D_0, t_c, t_a, j_d }) =>
    Math.max(0, 2 * (r_c + Math.sqrt(Math.max(0, (D_0 / 2 - r_c) ** 2 - (t_c / 2 - r_c) ** 2))) - t_a) + j_d,
});
export const checkSeat: Check = {
  id: "tape.seat",
  station: 4,
  severity: "A",
  status: "judgement",
  title: "the tape keeps to one side of its teeth",
  value: seatMargin,
  atLeast: ({ requirement }) => requirement.assume["force ripple"],
  absent: (scene) => (scene.unit.sprocket ? noFilmPull(scene) : "the unit has no sprocket"),
  because: (say, { requirement }) =>
    `The film draws the tape ahead with ${say(forwardPull)}, friction and reel hold it with ${say(tapeHold)}: ${say(seatMargin)} of their sum apart, where a run swings either by ${say(requirement.assume["force ripple"])}; a flip moves the tape by ${say(seatJump)}.`,
  beside: () => [forwardPull, tapeHold, seatJump],
};
