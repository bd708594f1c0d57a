import { roomOver } from "../channel/lips.ts";
import { noLength } from "../quantity/bound.ts";
import { model, type Quantity } from "../quantity/model.ts";
import { setCurvature } from "../reel/set.ts";
import type { Scene } from "../scene.ts";
import type { Unit } from "../unit/unit.ts";

/**
 * Where a hold-down presses, and between which rests.
 *
 *     c = |s_w - s_p|        tape from the last press line to the wheel, m
 *     c = max(0, s_1 - s_w, s_w - s_2)   for a rib from s_1 to s_2
 *
 *     L = sqrt(108 max(s_l, c_r)/kappa)  longest span whose rest bow has room under the lips, where the file gives no span
 *
 * s_w place of the wheel, s_p of the press line along the tape, m; s_l room under the lips, c_r running clearance, m; kappa curvature that the
 * tape keeps off its reel, 1/m. A leaf with a window presses at the window's two ends: between them the tape bows over the window's length. To hold it
 * down the leaf must flatten it between the places where it rests: a long tape rests as far apart as the lips let its bow rise, for there it
 * takes the least force. Even that is on the safe side: along a channel a tape hands its moment on from span to span, and lies flat without any.
 */
export type HoldDown = NonNullable<Unit["hold-down"]>;
export type HoldKind = HoldDown["kind"];
export const holdDownOf = ({ unit }: Scene): HoldDown | undefined => unit["hold-down"];

/** Why a check for these kinds does not apply; undefined where it does. */
export function notHeldBy(scene: Scene, ...kinds: readonly HoldKind[]): string | undefined {
  const held = holdDownOf(scene);
  if (!held) return "the unit has no hold-down over its sprocket";
  if (!scene.unit.sprocket) return "the unit has no sprocket";
  return kinds.includes(held.kind) ? undefined : otherKind[held.kind];
}
const otherKind: Readonly<Record<HoldKind, string>> = {
  leaf: "the tape is held by a leaf, which has a force of its own",
  rib: "the tape is held by a rib, which presses with whatever it takes once the tape touches it",
  "run-off bend": "the tape is held by its own stiffness over the run-off bend",
};

export const naturalSpan = model({
  id: "hold.span",
  symbol: "L",
  unit: "m",
  title: "longest span whose rest bow has room under the lips",
  equation: "sqrt(108*max(s_l, c_r)/kappa)",
  form: "closed",
  origin: { cite: "beam with natural curvature, its middle pressed flat", how: "derived" },
  valid: { kappa: [0.1, 60] },
  reads: (scene) => ({
    s_l: roomOver,
    c_r: scene.requirement.assume["running clearance"],
    kappa: setCurvature(scene),
  }),
  value: ({ s_l, c_r, kappa }) => Math.sqrt((108 * Math.max(s_l, c_r)) / kappa),
});
/** Tape between its rests on either side of the press, over which it is flattened. */
export const spanOf = (scene: Scene): Quantity => holdDownOf(scene)?.span ?? naturalSpan;
/** Tape between neighbouring press lines, over which it bows: a leaf's window, else what it is flattened over. */
export const bowSpanOf = (scene: Scene): Quantity => {
  const held = holdDownOf(scene);
  return held?.span ?? held?.opening?.x ?? naturalSpan;
};

const pressToWheel = model({
  id: "hold.press-to-wheel",
  symbol: "c",
  unit: "m",
  title: "tape from the press line to the wheel",
  equation: "abs(s_w - s_p)",
  form: "closed",
  origin: { cite: "place along the tape", how: "derived" },
  reads: ({ unit }) => {
    const at = unit["hold-down"]?.at;
    return unit.sprocket && at && { s_w: unit.sprocket.at, s_p: at };
  },
  value: ({ s_w, s_p }) => Math.abs(s_w - s_p),
});
const beyondRib = model({
  id: "hold.beyond-rib",
  symbol: "c",
  unit: "m",
  title: "tape from the rib's end to the wheel",
  equation: "max(0, s_1 - s_w, s_w - s_2)",
  form: "closed",
  origin: { cite: "place along the tape", how: "derived" },
  reads: ({ unit }) => {
    const held = unit["hold-down"];
    return unit.sprocket && held?.from && held.to && { s_1: held.from, s_w: unit.sprocket.at, s_2: held.to };
  },
  value: ({ s_1, s_w, s_2 }) => Math.max(0, s_1 - s_w, s_w - s_2),
});
/** Tape that stands out past the last press line; nothing where the hold-down presses over the wheel. */
export function overhangOf(scene: Scene): Quantity {
  const held = holdDownOf(scene);
  if (held?.overhang) return held.overhang;
  if (held?.kind === "rib") return held.from && held.to ? beyondRib : noLength;
  return held?.at ? pressToWheel : noLength;
}
