import { entryPull, reelDrag } from "../entry/pull.ts";
import { absentLeaf } from "../hold-down/down.ts";
import { holdDrag } from "../hold-down/drag.ts";
import type { Check } from "../quantity/check.ts";
import { noForce } from "../quantity/force.ts";
import { tabled } from "../quantity/given.ts";
import { model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { holeStrength } from "../sprocket/bears.ts";
import { pi } from "../sprocket/wheel.ts";

/**
 * The reel's drag between two dangers: too little and the reel runs on and spills the loop, too much and the snatch of a used-up loop tears a hole.
 *
 *     m     = rho_w W pi (R_o^2 - R_h^2)          mass as wound, kg, where the tape file gives none
 *     m_eq  = m (1 + (R_h/R_o)^2)/2               inertia seen at the outer turn, kg
 *     F_s   = v sqrt(k m_eq)                      snatch when the loop is used up, N
 *     F_min = m_eq (2 v)^2/(2 x_l)                drag that stops a reel, snatched to 2 v, within the loop's room, N
 *     F_max = F_hole - F_s - (T_e - F_d) - F_f    drag that the hole bears on top of snatch, route and hold-down, N
 *
 * rho_w mass by volume as wound, kg/m3; W width of the tape, R_o outer turn, R_h hub, m; v speed of the tape, m/s; k stiffness of the tape from
 * the reel to the wheel, N/m; x_l room of the loop, m; F_hole what a sprocket hole bears under the one tooth that carries, T_e pull at the wheel, F_d drag, F_f hold-down's friction, N.
 *
 * A mass snatched by a spring at v runs on at up to 2 v once it slackens (no loss; checked against the differential equation). The full reel
 * is the worst; its drag is taken at the tape. The whole snatch is taken while the wheel pulls at its mean speed; a driver that ramps down before
 * the loop is empty sees less.
 */
const rim = tabled("catalogue/rim", "x_r", "5 mm", [1, 0, 0, 0, 0], {
  cite: "flange over the outer turn of a full reel: common practice, no source",
  how: "memory",
});
export const outerTurn = model({
  id: "reel.outer-turn",
  symbol: "R_o",
  unit: "m",
  title: "radius of the outer turn of a full reel",
  equation: "A/2 - x_r",
  form: "closed",
  origin: { cite: "geometry of the reel", how: "derived" },
  valid: { A: [0.05, 0.7] },
  reads: ({ tape }) => ({ A: tape.reel.diameter, x_r: rim }),
  value: ({ A, x_r }) => A / 2 - x_r,
});
export const woundMass = model({
  id: "reel.mass",
  symbol: "m",
  unit: "kg",
  title: "mass of the tape on a full reel, with its parts",
  equation: "rho_w*W*pi*max(0, R_o^2 - (N/2)^2)",
  form: "closed",
  origin: { cite: "hollow cylinder", how: "derived" },
  valid: { rho_w: [50, 1500] },
  reads: ({ tape, requirement }) => ({
    rho_w: requirement.assume["wound density"],
    W: tape.letters.W,
    pi,
    R_o: outerTurn,
    N: tape.reel.hub,
  }),
  value: ({ rho_w, W, pi: p, R_o, N }) => rho_w * W * p * Math.max(0, R_o ** 2 - (N / 2) ** 2),
});
const massOf = ({ tape }: Scene): Quantity => tape.reel.mass ?? woundMass;
export const reelInertia = model({
  id: "reel.inertia",
  symbol: "m_eq",
  unit: "kg",
  title: "inertia of the full reel, seen at its outer turn",
  equation: "m*(1 + (N/2/R_o)^2)/2",
  form: "closed",
  origin: { cite: "hollow cylinder about its axis", how: "derived" },
  reads: (scene) => ({ m: massOf(scene), N: scene.tape.reel.hub, R_o: outerTurn }),
  value: ({ m, N, R_o }) => (m * (1 + (N / 2 / R_o) ** 2)) / 2,
});
export const snatch = model({
  id: "reel.snatch",
  symbol: "F_s",
  unit: "N",
  title: "snatch of the reel when the loop is used up",
  equation: "v*sqrt(k*m_eq)",
  form: "closed",
  origin: { cite: "mass met by a spring at a speed", how: "derived" },
  valid: { v: [0.001, 0.3], k: [100, 50e3] },
  reads: ({ requirement }) => ({
    v: requirement.filmSpeed,
    k: requirement.assume["loop stiffness"],
    m_eq: reelInertia,
  }),
  value: ({ v, k, m_eq }) => v * Math.sqrt(k * m_eq),
});
export const spillDrag = model({
  id: "reel.spill-drag",
  symbol: "F_min",
  unit: "N",
  title: "drag that stops the reel before its loop spills",
  equation: "m_eq*(2*v)^2/(2*x_l)",
  form: "closed",
  origin: { cite: "energy of the reel over the room of its loop", how: "derived" },
  valid: { v: [0.001, 0.3] },
  reads: ({ unit, requirement }) => ({
    m_eq: reelInertia,
    v: requirement.filmSpeed,
    x_l: unit.reel?.["loop room"] ?? requirement.assume["loop room"],
  }),
  value: ({ m_eq, v, x_l }) => (m_eq * (2 * v) ** 2) / (2 * x_l),
});
export const mostDrag = model({
  id: "reel.most-drag",
  symbol: "F_max",
  unit: "N",
  title: "drag that a sprocket hole bears on top of the snatch, the route and the hold-down",
  equation: "F_hole - F_s - (T_e - F_d) - F_f",
  form: "closed",
  origin: { cite: "sum of forces at the hole", how: "derived" },
  reads: (scene) =>
    scene.unit.sprocket && {
      F_hole: holeStrength,
      F_s: snatch,
      T_e: entryPull,
      F_d: reelDrag(scene),
      F_f: absentLeaf(scene) ? noForce : holdDrag,
    },
  value: ({ F_hole, F_s, T_e, F_d, F_f }) => F_hole - F_s - (T_e - F_d) - F_f,
});
/** The drag itself, as a model: what the window is about. */
export const dragOfReel = model({
  id: "reel.drag",
  symbol: "F_d",
  unit: "N",
  title: "drag of the full reel at the tape",
  equation: "F_0",
  form: "closed",
  origin: { cite: "the unit file, else assumed", how: "judgement" },
  reads: (scene) => ({ F_0: reelDrag(scene) }),
  value: ({ F_0 }) => F_0,
});
export const checkJerks: Check = {
  id: "reel.jerks",
  station: 1,
  severity: "S",
  status: "established",
  title: "the reel neither spills its loop nor tears a hole",
  value: dragOfReel,
  atLeast: spillDrag,
  atMost: mostDrag,
  absent: ({ unit }) => (unit.sprocket ? undefined : "the unit has no sprocket"),
  because: (say) =>
    `The reel drags with ${say(dragOfReel)}; below ${say(spillDrag)} a full one spills its loop, and above ${say(mostDrag)} its snatch of ${say(snatch)} is too much for a hole.`,
  beside: (scene) => [massOf(scene), reelInertia, snatch, entryPull],
};
