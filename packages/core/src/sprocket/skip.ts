import { roomOver } from "../channel/lips.ts";
import { tapeHold } from "../film/seat.ts";
import { liftOverTeeth } from "../hold-down/bow.ts";
import { leafRate } from "../hold-down/leaf-force.ts";
import type { Check } from "../quantity/check.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { tip } from "./engaged.ts";
import { baseRadius, flankOf, flat, noTeeth, pi } from "./wheel.ts";

/**
 * Can the tape rise over the teeth?
 *
 *     z   = z_0 + min(max(0, s_l - z_0), max(0, F tan(gamma) - N)/k)    rise of the tape, m; leaf
 *     z   = z_0                                                           rib, or no hold-down: the tape touches what holds it
 *     z_0 = bow and gap that the hold-down leaves (hold-down/bow.ts); without one b_r + s_l
 *     o   = r_t cos(max(0, d - alpha)/2) - r_b                            the highest tooth stands in the tape by at least so much, m
 *     gamma = phi + acos(r_b/r_t)                                         how steep a pushing flank can stand
 *
 * F tape pull on the carrying tooth, N; phi half angle of the flank (0 of an involute, upright at the pitch line); r_t axis to tip, r_b axis to
 * underside, m: a tooth leans by acos(r_b/r_t) where its tip comes into the tape, and none pushes from before that (safe side: most push nearer
 * to upright). N force of the leaf, k its rate, N/m; s_l room under the lips, which stop the tape; d angle from tooth to tooth, alpha wrap.
 *
 * The wedge of a flank on the hole's lower edge, without friction (safe side: friction holds the tape down up to about 15 deg). The wheel
 * moves on and the tape does not follow only if it rises over the tip of the highest tooth.
 */
const wedge = { cite: "wedge of a flank under a hole's edge, statics", how: "derived" } as const;

export const flankSlope = model({
  id: "sprocket.flank-slope",
  symbol: "gamma",
  unit: "1",
  shownIn: "deg",
  title: "steepest slope that a pushing flank can have against upright",
  equation: "min(1.5, phi + acos(min(1, r_b/r_t)))",
  form: "closed",
  origin: wedge,
  reads: (scene) => {
    const r_b = baseRadius(scene);
    return noTeeth(scene) === undefined && r_b ? { phi: flankOf(scene), r_b, r_t: tip } : undefined;
  },
  value: ({ phi, r_b, r_t }) => Math.min(1.5, phi + Math.acos(Math.min(1, r_b / r_t))),
});
const restingRise = model({
  id: "sprocket.rise-without-hold-down",
  symbol: "z_0",
  unit: "m",
  title: "rise of the tape over the teeth that the lips allow",
  equation: "b_r + max(0, s_l)",
  form: "closed",
  origin: { cite: "geometry of the section", how: "derived" },
  reads: ({ requirement }) => ({ b_r: requirement.assume["rest bow"], s_l: roomOver }),
  value: ({ b_r, s_l }) => b_r + Math.max(0, s_l),
});
/** Bow and gap over the teeth before any push. */
const resting = (scene: Scene): Model => liftOverTeeth(scene) ?? restingRise;
const leafOf = (scene: Scene): { readonly N: Quantity; readonly k: Model } | undefined => {
  const held = scene.unit["hold-down"];
  return held?.kind === "leaf" && held.preload && leafRate.reads(scene) ? { N: held.preload, k: leafRate } : undefined;
};
const pushed = model({
  id: "sprocket.rise",
  symbol: "z",
  unit: "m",
  title: "rise of the tape over the teeth under its leaf",
  equation: "z_0 + min(max(0, s_l - z_0), max(0, F*tan(gamma) - N)/k)",
  form: "closed",
  origin: wedge,
  reads: (scene) => {
    const leaf = leafOf(scene);
    return leaf && noTeeth(scene) === undefined
      ? { z_0: resting(scene), s_l: roomOver, F: tapeHold, gamma: flankSlope, ...leaf }
      : undefined;
  },
  value: ({ z_0, s_l, F, gamma, N, k }) =>
    z_0 + Math.min(Math.max(0, s_l - z_0), Math.max(0, F * Math.tan(gamma) - N) / k),
});
/** Bow, gap and what the flank lifts, all together. */
export const rise = (scene: Scene): Model => (leafOf(scene) ? pushed : resting(scene));

export const highestOverlap = model({
  id: "sprocket.highest-overlap",
  symbol: "o",
  unit: "m",
  title: "least height of the highest tooth over the tape's underside",
  equation: "r_t*cos(max(0, 2*pi/z - alpha)/2) - r_b",
  form: "closed",
  origin: { cite: "geometry", how: "derived" },
  reads: (scene) => {
    const r_b = baseRadius(scene);
    const { sprocket } = scene.unit;
    return sprocket && r_b && { r_t: tip, z: sprocket.teeth, alpha: sprocket.wrap ?? flat, r_b, pi };
  },
  value: ({ r_t, z, alpha, r_b, pi }) => r_t * Math.cos(Math.max(0, (2 * pi) / z - alpha) / 2) - r_b,
});
export const checkSkip: Check = {
  id: "tooth.skip",
  station: 6,
  severity: "S",
  status: "judgement",
  title: "the tape can't rise over the teeth",
  value: rise,
  atMost: highestOverlap,
  absent: noTeeth,
  because: (say, scene) =>
    `Bow, gap and push let the tape rise by ${say(rise(scene))}; the highest tooth stands ${say(highestOverlap)} over its underside at every angle.`,
  beside: (scene) => [flankSlope, ...(leafOf(scene) ? [resting(scene), tapeHold] : [])],
};
