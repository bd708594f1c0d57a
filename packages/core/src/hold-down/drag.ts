import type { Check } from "../quantity/check.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { holeStrength } from "../sprocket/bears.ts";
import { absentLeaf } from "./down.ts";
import { leafForce } from "./leaf-force.ts";
import { holdDownOf } from "./members.ts";

/**
 * Friction that the leaf adds to the tape.
 *
 *     F_d = F (mu_h + mu_w)        the leaf rubs on the tape's top, the ledge on its underside, N
 *     F_a = q_d F_hole             what it may take of what a sprocket hole bears, N, where the file names no budget
 *
 * F force of the leaf on this tape, N; mu_h friction of the leaf, mu_w of the ledge on the tape; F_hole pull that one hole bears, N; q_d share.
 * Coulomb friction, the tape's set not counted twice: what the leaf presses is what both faces feel. A nose that ploughs a soft film adds more.
 */
export const holdFriction = (scene: Scene): Quantity =>
  holdDownOf(scene)?.friction ?? scene.requirement.assume["hold-down friction"];

export const holdDrag = model({
  id: "hold.drag",
  symbol: "F_d",
  unit: "N",
  title: "friction of the tape between leaf and ledge",
  equation: "F*(mu_h + mu_w)",
  form: "closed",
  origin: { cite: "Coulomb friction on both faces", how: "derived" },
  valid: { mu_h: [0.02, 1], mu_w: [0.02, 0.8] },
  reads: (scene) =>
    absentLeaf(scene)
      ? undefined
      : { F: leafForce(scene), mu_h: holdFriction(scene), mu_w: scene.requirement.assume["wall friction"] },
  value: ({ F, mu_h, mu_w }) => F * (mu_h + mu_w),
});
export const shareOfHole = model({
  id: "hold.drag-budget",
  symbol: "F_a",
  unit: "N",
  title: "friction that the hold-down may add",
  equation: "q_d*F_hole",
  form: "closed",
  origin: { cite: "share of what a hole bears", how: "judgement" },
  reads: ({ unit, requirement }) =>
    unit.sprocket && { q_d: requirement.assume["hold-down share"], F_hole: holeStrength },
  value: ({ q_d, F_hole }) => q_d * F_hole,
});
/** What the hold-down's friction may come to: from the file, else a share of what a hole bears. */
export const dragBudget = (scene: Scene): Quantity => holdDownOf(scene)?.["drag budget"] ?? (shareOfHole as Model);

export const checkDrag: Check = {
  id: "hold.drag",
  station: 3,
  severity: "S",
  status: "judgement",
  title: "the hold-down doesn't brake the tape",
  value: holdDrag,
  atMost: (scene) => dragBudget(scene),
  absent: absentLeaf,
  because: (say, scene) =>
    `Between leaf and ledge the tape rubs with ${say(holdDrag)}, from a leaf that presses with ${say(leafForce(scene))}; it may take ${say(dragBudget(scene))}.`,
};
