import { gripFace } from "../nip/grip.ts";
import { one } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import { model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { notLedToNip } from "./friction.ts";
import { filmEh } from "./laminate.ts";
import { path, pathLength } from "./path.ts";
import { nearPull } from "./pull.ts";

/**
 * In-plane error of the guides against the error at which an edge of the film goes slack.
 *
 *     theta_net   = delta sqrt(sum (2 sin(w_i/2))^2)            error of all guides together, rad
 *     theta_slack = P L/(Eh b^2)                                first slack edge, rad
 *     q           = s min(3 f/b, theta_net/theta_slack)       0 for a face f <= b/3
 *
 * delta out of square of one guide, rad, 0.5e-3 .. 20e-3; w_i turn over it, rad; P pull, N; L length of the path, m, at least about b;
 * Eh N/m; b m; s = 1 with the peel front clamped, 0 where it can swing (nobody knows: a belief switch). The line of pull leaves the middle by
 * (b/6) theta_net/theta_slack, but never by more than half the gripped face f; an edge goes slack when it leaves the middle third. A face of
 * b/3 or less therefore keeps both edges taut whatever the error, and reads 0.
 *
 * Simple bending of a tensioned strip (Shelton 1968; Shelton & Reid 1971, read at second hand), thin limit KL << 1. L is the whole path,
 * right over fixed bars; turning rollers reset it. Shear is left out: 5 % at 70 mm, 29 % at 25 mm for 24 mm tape (on the safe side).
 */
const origin = {
  cite: "Shelton & Reid 1971, lateral dynamics of a moving web; derivation read at second hand",
  how: "derived",
} as const;

export const slackAngle = model({
  id: "film.slack-angle",
  symbol: "theta_slack",
  unit: "1",
  shownIn: "mrad",
  title: "in-plane error at which an edge of the film goes slack",
  equation: "P*L/(Eh*b^2)",
  form: "closed",
  origin,
  valid: { b: [0.003, 0.2], Eh: [60e3, 240e3] },
  reads: ({ tape }) => ({ P: nearPull, L: pathLength, Eh: filmEh, b: tape.film.width }),
  value: ({ P, L, Eh, b }) => (P * L) / (Eh * b ** 2),
});
export const turnFactor = model({
  id: "film.turn-factor",
  symbol: "q_w",
  unit: "1",
  title: "how the errors of all guides add up",
  equation: "sqrt(sum of (2*sin(w_i/2))^2)",
  form: "solved",
  origin: {
    cite: "a guide out of square by delta turns the film by 2 sin(w/2) delta; independent errors add in squares",
    how: "derived",
  },
  costly: true,
  reads: () => ({ path }),
  value: ({ path: p }) => Math.sqrt(p.wraps.reduce((sum, w) => sum + (2 * Math.sin(w / 2)) ** 2, 0)),
});
export const netError = model({
  id: "film.net-error",
  symbol: "theta_net",
  unit: "1",
  shownIn: "mrad",
  title: "in-plane error of all guides together",
  equation: "delta*q_w",
  form: "closed",
  origin,
  reads: ({ unit, requirement }) => ({
    delta: unit.film["out of square"] ?? requirement.assume["out of square"],
    q_w: turnFactor,
  }),
  value: ({ delta, q_w }) => delta * q_w,
});
export const steer = model({
  id: "film.steer-ratio",
  symbol: "q",
  unit: "1",
  title: "in-plane error over the error of the first slack edge",
  equation: "s*min(3*f/b, theta_net/theta_slack), 0 for a face of b/3 or less",
  form: "solved",
  origin,
  reads: (scene: Scene) => {
    if (notLedToNip(scene)) return undefined;
    const face: Quantity | undefined = gripFace(scene);
    return (
      face && { s: peelFront(scene), f: face, b: scene.tape.film.width, theta_net: netError, theta_slack: slackAngle }
    );
  },
  value: ({ s, f, b, theta_net, theta_slack }) =>
    f > (b / 3) * (1 + 1e-9) ? s * Math.min((3 * f) / b, theta_net / theta_slack) : 0,
});
/** 1 where the peel front is clamped, 0 where it swings; a belief switch where the unit file doesn't say. */
const peelFront = ({ unit, requirement }: Scene): Given | number =>
  unit.film.front === undefined ? requirement.front : unit.film.front === "clamped" ? 1 : 0;
export const checkSteer: Check = {
  id: "film.steer",
  station: 4,
  severity: "S",
  status: "judgement",
  title: "no edge of the film goes slack",
  value: steer,
  atMost: one,
  absent: (scene) => notLedToNip(scene) ?? (gripFace(scene) ? undefined : "the unit has no nip rollers"),
  because: (say) =>
    `The guides together stand ${say(netError)} out of square; an edge goes slack at ${say(slackAngle)} if the peel front can't swing.`,
  beside: () => [netError, slackAngle],
};

/** Displacement at the far roller over theta L, for a strip clamped upstream and entering square: 2/3 at KL = 0, 1 far out. */
export function entryRatio(KL: number): number {
  // Below 1e-3 the closed form loses its digits to cancellation; its series is 2/3 + KL^2/90.
  if (KL < 1e-2) return 2 / 3 + (KL * KL) / 90;
  if (KL > 300) return (KL - 1) / KL;
  return (KL * Math.cosh(KL) - Math.sinh(KL)) / (KL * (Math.cosh(KL) - 1));
}
