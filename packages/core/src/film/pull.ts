import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { frictionOnBars, notLedToNip } from "./friction.ts";
import { peelAngle, wrapOverBars } from "./path.ts";
import { runningPeel } from "./peel-force.ts";

/**
 * Pull the film needs at the nip: the peel force grows over every fixed bar, the peel edge included.
 *
 *     F = P exp(mu w)
 *
 * P running peel force, N; mu friction of film on bar, 0.05 .. 0.6; w turn over the edge and all fixed bars, rad, 0 .. 4 pi.
 * Euler-Eytelwein for a film without stiffness. Cover film on bars of 0.5 mm and more is limp enough; on smaller ones bending loss adds.
 * `nearPull` is the same just behind the peel edge: the least pull of the whole free path.
 */
const origin = {
  cite: "Euler-Eytelwein rope friction; worked exercises in any mechanics course",
  how: "derived",
} as const;
const valid = { mu: [0.02, 0.8] } as const;

export const filmPull = model({
  id: "film.pull-at-nip",
  symbol: "F",
  unit: "N",
  title: "pull the film needs at the nip",
  equation: "P*exp(mu*w)",
  form: "closed",
  origin,
  valid,
  reads: (scene) => ({ P: runningPeel, mu: frictionOnBars(scene), w: wrapOverBars }),
  value: ({ P, mu, w }) => P * Math.exp(mu * w),
});
export const nearPull = model({
  id: "film.pull-behind-edge",
  symbol: "F_e",
  unit: "N",
  title: "pull in the film just behind the peel edge",
  equation: "P*exp(mu*theta)",
  form: "closed",
  origin,
  valid,
  reads: (scene) => ({ P: runningPeel, mu: frictionOnBars(scene), theta: peelAngle }),
  value: ({ P, mu, theta }) => P * Math.exp(mu * theta),
});
export const bearablePull = model({
  id: "film.bearable",
  symbol: "F_max",
  unit: "N",
  title: "pull the film bears, with its safety",
  equation: "F_b/s",
  form: "closed",
  origin: { cite: "definition of the safety in project.yaml", how: "derived" },
  reads: ({ tape, requirement }) => ({ F_b: tape.film.break, s: requirement.breakSafety }),
  value: ({ F_b, s }) => F_b / s,
});

export const checkPull: Check = {
  id: "film.pull",
  station: 4,
  severity: "S",
  status: "established",
  title: "the film bears the pull it needs",
  value: filmPull,
  atMost: bearablePull,
  absent: notLedToNip,
  because: (say) => `The film needs ${say(filmPull)} at the nip and bears ${say(bearablePull)} with its safety.`,
  beside: () => [runningPeel, wrapOverBars],
};
