import { stiffness } from "../entry/stiffness.ts";
import { tapeWeight } from "../entry/weight.ts";
import { notLedToNip } from "../film/friction.ts";
import { peelAngle } from "../film/path.ts";
import { runningPeel } from "../film/peel-force.ts";
import { tapeHold } from "../film/seat.ts";
import type { Check } from "../quantity/check.ts";
import { noForce } from "../quantity/force.ts";
import { tabled } from "../quantity/given.ts";
import { model } from "../quantity/model.ts";
import { setCurvature } from "../reel/set.ts";
import type { Scene } from "../scene.ts";
import { windowInWords } from "../spring/arms.ts";
import { leafForce, noLeafForce } from "./leaf-force.ts";
import { notHeldBy, spanOf } from "./members.ts";

/**
 * What the hold-down must press with, so that the tape lies flat on its ledges at the wheel.
 *
 *     F_k = 6 EI kappa/L                                   flattens the coil set in the middle of its span, N
 *     F_z = F_h max(0, tan phi - mu)/(1 + mu tan phi)      a leaning flank pushes the tape off the tooth that pulls it, N
 *     F_p = q_l P sin theta                                share of the film's upward pull that reaches the hold-down, N
 *     G   = w L                                            weight of the span, N
 *     F_n = max(0, F_k + F_z + F_p - G)
 *
 * EI stiffness of the tape, N m2; kappa curvature that it keeps off the reel, 1/m; L span between its rests, m; F_h friction and reel drag that the
 * tooth pulls against, N; phi half angle of the flank, rad, 0 .. 0.7, mu friction of tape on tooth; P peel force, theta peel angle, q_l share: a
 * peel edge bears on the tape and takes most of it itself; w weight per length, N/m.
 *
 * 48 EI/L^3 times kappa L^2/8: a beam with natural curvature, its middle pressed to zero between two rests; exact for small slopes. Which span: members.ts.
 * Whatever else lifts (a splice, a burr) is not in it.
 */
export const flattenForce = model({
  id: "hold.flatten",
  symbol: "F_k",
  unit: "N",
  title: "force that flattens the tape's set",
  equation: "6*EI*kappa/L",
  form: "closed",
  origin: { cite: "beam with natural curvature on two rests, pressed flat in the middle", how: "derived" },
  valid: { kappa: [0, 60], L: [1e-3, 0.3] },
  reads: (scene) => ({ EI: stiffness(scene), kappa: setCurvature(scene), L: spanOf(scene) }),
  value: ({ EI, kappa, L }) => (6 * EI * kappa) / L,
});
const straightFlank = tabled("bound/straight flank", "phi", "0 rad", [0, 0, 0, 0, 0], {
  cite: "a flank without an angle in the file stands upright",
  how: "derived",
});
export const toothLift = model({
  id: "hold.tooth-lift",
  symbol: "F_z",
  unit: "N",
  title: "force with which a leaning flank lifts the tape",
  equation: "F_h*max(0, tan(phi) - mu)/(1 + mu*tan(phi))",
  form: "closed",
  origin: { cite: "wedge with friction", how: "derived" },
  valid: { phi: [0, 0.7], mu: [0.02, 0.8] },
  reads: ({ unit, requirement }) =>
    unit.sprocket && {
      F_h: tapeHold,
      phi: unit.sprocket.tooth.flank ?? straightFlank,
      mu: requirement.assume["wall friction"],
    },
  value: ({ F_h, phi, mu }) => (F_h * Math.max(0, Math.tan(phi) - mu)) / (1 + mu * Math.tan(phi)),
});
export const peelLift = model({
  id: "hold.peel-lift",
  symbol: "F_p",
  unit: "N",
  title: "share of the film's upward pull that reaches the hold-down",
  equation: "q_l*P*sin(theta)",
  form: "closed",
  origin: { cite: "statics; the share is a judgement", how: "judgement" },
  reads: (scene) =>
    notLedToNip(scene)
      ? undefined
      : { q_l: scene.requirement.assume["peel lift share"], P: runningPeel, theta: peelAngle },
  value: ({ q_l, P, theta }) => q_l * P * Math.sin(theta),
});
export const spanWeight = model({
  id: "hold.span-weight",
  symbol: "G",
  unit: "N",
  title: "weight of the span",
  equation: "w*L",
  form: "closed",
  origin: { cite: "weight per length", how: "derived" },
  reads: (scene) => ({ w: tapeWeight, L: spanOf(scene) }),
  value: ({ w, L }) => w * L,
});
export const neededForce = model({
  id: "hold.needed",
  symbol: "F_n",
  unit: "N",
  title: "force that holds the tape flat at the wheel",
  equation: "max(0, F_k + F_z + F_p - G)",
  form: "closed",
  origin: { cite: "sum of forces", how: "derived" },
  reads: (scene) =>
    scene.unit.sprocket
      ? { F_k: flattenForce, F_z: toothLift, F_p: notLedToNip(scene) ? noForce : peelLift, G: spanWeight }
      : undefined,
  value: ({ F_k, F_z, F_p, G }) => Math.max(0, F_k + F_z + F_p - G),
});
export const absentLeaf = (scene: Scene): string | undefined => notHeldBy(scene, "leaf") ?? noLeafForce(scene);

export const checkDown: Check = {
  id: "hold.down",
  station: 3,
  severity: "S",
  status: "established",
  title: "the hold-down presses the tape flat",
  value: (scene) => leafForce(scene),
  atLeast: neededForce,
  absent: absentLeaf,
  because: (say, scene) =>
    `The leaf presses with ${say(leafForce(scene))}; it takes ${say(neededForce)} to hold the tape flat, ${say(flattenForce)} of it against the set that the reel gave it.${windowInWords(say, scene)}`,
  beside: (scene) => [
    flattenForce,
    spanOf(scene),
    toothLift,
    ...(notLedToNip(scene) ? [] : [peelLift]),
    stiffness(scene),
    setCurvature(scene),
  ],
};
