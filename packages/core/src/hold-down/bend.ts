import { stiffness } from "../entry/stiffness.ts";
import type { Check } from "../quantity/check.ts";
import { model, type Quantity } from "../quantity/model.ts";
import { setCurvature } from "../reel/set.ts";
import type { Scene } from "../scene.ts";
import { toothLift } from "./down.ts";
import { dragBudget, holdFriction } from "./drag.ts";
import { holdDownOf, notHeldBy } from "./members.ts";

/**
 * A run-off bend: the route turns away behind the wheel, and the tape's own stiffness presses it onto the teeth.
 *
 *     N   = 3 EI g/a^2,  g = d/a         press on the wheel's side, N
 *     d   = (s_2 - s_1)^2/(2 r)          from a bend of radius r that begins at s_1 and ends at s_2, where the file gives no d
 *     a   = s_2 - s_w
 *     N_min = F_z + 3 EI kappa/(2 a)     a flank lifts, and so does the set of a tail of that length
 *     N_max = F_a/(2 mu)                 friction on the wheel's side and at the guide takes what it may
 *
 * EI stiffness of the tape, N m2; d how far the guide pushes the tape off its tangent at the distance a past its last contact, m; g = d/a up to
 * 0.3: beyond it the small-slope law is outside its range. kappa curvature off the reel, 1/m; F_z lift of a leaning flank, N; F_a drag budget, N.
 *
 * N goes with W T^3: a bend made for paper of 0.75 mm gives plastic of 0.3 mm a tenth to a fortieth of the press. That is why the method
 * stops at one kind of tape. The tail's set: a cantilever of length a with natural curvature ends kappa a^2/2 above its tangent, and 3 EI/a^3 times
 * that is the force that holds it there.
 */
const lever = model({
  id: "hold.bend-reach",
  symbol: "a",
  unit: "m",
  title: "last contact on the wheel to where the bend pushes the tape",
  equation: "s_2 - s_w",
  form: "closed",
  origin: { cite: "place along the tape", how: "derived" },
  reads: ({ unit }) => {
    const to = unit["hold-down"]?.to;
    return unit.sprocket && to && { s_2: to, s_w: unit.sprocket.at };
  },
  value: ({ s_2, s_w }) => s_2 - s_w,
});
const offset = model({
  id: "hold.bend-push",
  symbol: "d",
  unit: "m",
  title: "how far the bend pushes the tape off its tangent",
  equation: "(s_2 - s_1)^2/(2*r)",
  form: "closed",
  origin: { cite: "arc off its tangent, small angle", how: "derived" },
  reads: ({ unit }) => {
    const held = unit["hold-down"];
    return held?.from && held.to && held.radius && { s_2: held.to, s_1: held.from, r: held.radius };
  },
  value: ({ s_2, s_1, r }) => (s_2 - s_1) ** 2 / (2 * r),
});
/** Distance to the push and its height; undefined where the file does not say them. */
function bendOf(scene: Scene): { readonly a: Quantity; readonly d: Quantity } | undefined {
  const held = holdDownOf(scene);
  const a = held?.reach ?? (lever.reads(scene) ? lever : undefined);
  const d = held?.push ?? (offset.reads(scene) ? offset : undefined);
  return a && d && { a, d };
}
export const bendSlope = model({
  id: "hold.bend-slope",
  symbol: "g",
  unit: "1",
  title: "slope to which the bend pushes the tape",
  equation: "d/a",
  form: "closed",
  origin: { cite: "geometry", how: "derived" },
  reads: (scene) => bendOf(scene),
  value: ({ d, a }) => d / a,
});
export const bendPress = model({
  id: "hold.bend-press",
  symbol: "N",
  unit: "N",
  title: "press of the tape's own stiffness onto the wheel",
  equation: "3*EI*g/a^2",
  form: "closed",
  origin: { cite: "cantilever pushed at its end", how: "derived" },
  valid: { g: [0, 0.3], a: [1e-3, 0.2] },
  reads: (scene) => {
    const bend = bendOf(scene);
    return bend && { EI: stiffness(scene), g: bendSlope, a: bend.a };
  },
  value: ({ EI, g, a }) => (3 * EI * g) / a ** 2,
});
export const bendNeeded = model({
  id: "hold.bend-needed",
  symbol: "N_min",
  unit: "N",
  title: "press that keeps the tape on the teeth over the bend",
  equation: "F_z + 3*EI*kappa/(2*a)",
  form: "closed",
  origin: { cite: "cantilever with natural curvature; wedge", how: "derived" },
  reads: (scene) => {
    const bend = bendOf(scene);
    return (
      bend && scene.unit.sprocket && { F_z: toothLift, EI: stiffness(scene), kappa: setCurvature(scene), a: bend.a }
    );
  },
  value: ({ F_z, EI, kappa, a }) => F_z + (3 * EI * kappa) / (2 * a),
});
export const bendAllowed = model({
  id: "hold.bend-allowed",
  symbol: "N_max",
  unit: "N",
  title: "press whose friction the tape may bear",
  equation: "F_a/(2*mu)",
  form: "closed",
  origin: { cite: "Coulomb friction on both faces", how: "derived" },
  reads: (scene) => (bendOf(scene) ? { F_a: dragBudget(scene), mu: holdFriction(scene) } : undefined),
  value: ({ F_a, mu }) => F_a / (2 * mu),
});
export const checkBend: Check = {
  id: "hold.bend",
  station: 3,
  severity: "S",
  status: "established",
  title: "the run-off bend presses the tape onto its teeth, and not too hard",
  value: bendPress,
  atLeast: bendNeeded,
  atMost: bendAllowed,
  absent: (scene) =>
    notHeldBy(scene, "run-off bend") ??
    (bendOf(scene) ? undefined : "how far the bend pushes the tape, and where, is not given"),
  because: (say, scene) =>
    `Over the bend the tape's own stiffness of ${say(stiffness(scene))} presses it on with ${say(bendPress)}; it takes ${say(bendNeeded)}, and above ${say(bendAllowed)} its friction is too much.`,
  beside: (scene) => [bendSlope, stiffness(scene)],
};
