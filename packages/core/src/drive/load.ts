import { notLedToNip } from "../film/friction.ts";
import { peelAngle } from "../film/path.ts";
import { runningPeel } from "../film/peel-force.ts";
import { filmPull } from "../film/pull.ts";
import { tapeHold } from "../film/seat.ts";
import { grip, noNip } from "../nip/grip.ts";
import { noForce } from "../quantity/force.ts";
import { model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { pitchRadius } from "../sprocket/wheel.ts";
import { type DriveName, driveOf } from "./motor.ts";

/**
 * What tape and film ask of the drives.
 *
 *     M_f = (F_h + F_f) (r_p + 2 mu_b r_b)           torque the tape asks of the wheel, N m
 *     F_f = P max(0, -cos theta)                     backward pull of a film that folds back, its peel line free, N
 *     M_p = F r_1 + 2 mu_b N_r r_b                   torque the film asks of the lower roller
 *     M_n = S r_1 + 2 mu_b N_r r_b                   the same while the nip slips
 *
 * F_h friction and reel drag of the tape, N; r_p pitch radius of the wheel (sprocket/wheel.ts), r_b of its shaft in the bushes, m; mu_b friction there, 0.02 .. 0.6; P running
 * peel force, N; theta turn of the film at the edge, rad; F pull the film needs at the nip, S what the nip grips with, N_r force between its rollers, N;
 * r_1 radius of the driven roller, m.
 *
 * The bushes of the wheel carry the tape's pull and the worm wheel's, taken alike; a nip presses both its shafts. Once its peel line is held at the edge
 * the film draws the tape ahead: that help is left out, so a tape may ask for less than this.
 */
const statics = { cite: "torque balance of shafts in plain bearings", how: "derived" } as const;

export const filmBackPull = model({
  id: "drive.film-back-pull",
  symbol: "F_f",
  unit: "N",
  title: "backward pull of the film on the tape, its peel line free",
  equation: "P*max(0, -cos(theta))",
  form: "closed",
  origin: { cite: "component of the film's pull along the tape", how: "derived" },
  reads: (scene) => (notLedToNip(scene) ? undefined : { P: runningPeel, theta: peelAngle }),
  value: ({ P, theta }) => P * Math.max(0, -Math.cos(theta)),
});

/** Radius of a driven shaft in its bushes, and the friction there. */
const bushOf = (scene: Scene, name: DriveName) => {
  const bush = driveOf(scene, name)?.bush;
  const { assume } = scene.requirement;
  return { r_b: bush?.radius ?? assume["bush radius"], mu_b: bush?.friction ?? assume["bush friction"] };
};

/** Torque that the tape asks of the feed drive's shaft, and the film of the peel drive's. */
export const tapeTorque = model({
  id: "drive.feed-load",
  symbol: "M_f",
  unit: "N*m",
  title: "torque that the tape asks of its wheel",
  equation: "(F_h + F_f)*(r_p + 2*mu_b*r_b)",
  form: "closed",
  origin: statics,
  valid: { mu_b: [0.02, 0.6] },
  reads: (scene) =>
    scene.unit.sprocket && {
      F_h: tapeHold,
      F_f: notLedToNip(scene) ? noForce : filmBackPull,
      r_p: pitchRadius,
      ...bushOf(scene, "feed"),
    },
  value: ({ F_h, F_f, r_p, mu_b, r_b }) => (F_h + F_f) * (r_p + 2 * mu_b * r_b),
});
export const filmTorque = model({
  id: "drive.peel-load",
  symbol: "M_p",
  unit: "N*m",
  title: "torque that the film asks of the lower roller",
  equation: "F*r_1 + 2*mu_b*N_r*r_b",
  form: "closed",
  origin: statics,
  valid: { mu_b: [0.02, 0.6] },
  reads: (scene) => {
    const { nip } = scene.unit;
    const r_1 = nip?.rollers?.radius[0];
    return !notLedToNip(scene) && nip?.preload && r_1
      ? { F: filmPull, r_1, N_r: nip.preload, ...bushOf(scene, "peel") }
      : undefined;
  },
  value: ({ F, r_1, mu_b, N_r, r_b }) => F * r_1 + 2 * mu_b * N_r * r_b,
});
/** Torque of a nip that slips: what its motor is loaded with while it takes up more than the tape releases. */
export const slipTorque = model({
  id: "drive.peel-slip",
  symbol: "M_n",
  unit: "N*m",
  title: "torque at the lower roller while the nip slips",
  equation: "S*r_1 + 2*mu_b*N_r*r_b",
  form: "closed",
  origin: statics,
  valid: { mu_b: [0.02, 0.6] },
  reads: (scene) => {
    const { nip } = scene.unit;
    const r_1 = nip?.rollers?.radius[0];
    return !noNip(scene) && nip?.preload && r_1
      ? { S: grip(scene), r_1, N_r: nip.preload, ...bushOf(scene, "peel") }
      : undefined;
  },
  value: ({ S, r_1, mu_b, N_r, r_b }) => S * r_1 + 2 * mu_b * N_r * r_b,
});
