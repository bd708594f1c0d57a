import { notLedToNip } from "../film/friction.ts";
import { filmPull } from "../film/pull.ts";
import { forceLeft } from "../frame/relaxation.ts";
import { materialFigure, materialNamed } from "../material/catalogue.ts";
import type { Check } from "../quantity/check.ts";
import { tabled } from "../quantity/given.ts";
import { model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { frictions, noNip } from "./grip.ts";

/**
 * Does the nip still pull after a year's work?
 *
 *     N_t   = N r^(-n)                  preload that is left after r = 1000 h/1 h, N
 *     N_min = F/(mu_1 + mu_2)           preload that peels the film, N
 *
 * N preload as set, read an hour after it was set; n exponent of the spring: a printed flexure 0.03 .. 0.10, a steel coil 0.001 .. 0.0044 (less than 3 %
 * in 1000 h); F pull that the film needs, mu friction on both rollers. frame/relaxation.ts says where the law stops.
 *
 * It wears out what nip.pulls grants on the first day: it stops no tape by itself, so it counts as life.
 */
export const thousandHours = tabled("bound/1000 h", "r", "1000", [0, 0, 0, 0, 0], {
  cite: "1000 h over the first hour, by definition of the check",
  how: "derived",
});
/** Exponent of what presses the rollers together; undefined where the unit file doesn't say what does. */
export function springExponent({ unit, requirement: { assume } }: Scene): Quantity | undefined {
  const spring = unit.nip?.spring;
  if (!spring) return undefined;
  const named = spring.material === undefined ? undefined : materialNamed(spring.material);
  const tabled = named && materialFigure(named, "relaxation");
  if (tabled) return tabled;
  return spring.kind === "coil" || /steel/i.test(spring.material ?? "")
    ? assume["steel relaxation"]
    : assume["printed creep"];
}
export const preloadLeft = model({
  id: "nip.preload-left",
  symbol: "N_t",
  unit: "N",
  title: "preload of the nip after 1000 h",
  equation: "N*r^(-n)",
  form: "closed",
  origin: { cite: "power law of relaxation (Findley)", how: "memory" },
  valid: { n: [0, 0.2] },
  reads: (scene) => {
    const N = scene.unit.nip?.preload;
    const n = springExponent(scene);
    return N && n && { N, r: thousandHours, n };
  },
  value: ({ N, r, n }) => N * forceLeft(n, r),
});
export const preloadNeeded = model({
  id: "nip.preload-needed",
  symbol: "N_min",
  unit: "N",
  title: "preload that peels the film",
  equation: "F/(mu_1 + mu_2)",
  form: "closed",
  origin: { cite: "Coulomb friction", how: "derived" },
  valid: { mu_1: [0.05, 1.5], mu_2: [0.05, 1.5] },
  reads: (scene) => {
    const mu = frictions(scene);
    return mu && !notLedToNip(scene) ? { F: filmPull, mu_1: mu[0], mu_2: mu[1] } : undefined;
  },
  value: ({ F, mu_1, mu_2 }) => F / (mu_1 + mu_2),
});
export const checkRelaxes: Check = {
  id: "nip.relaxes",
  station: 7,
  severity: "L",
  status: "judgement",
  title: "the nip still pulls after 1000 h",
  value: preloadLeft,
  atLeast: preloadNeeded,
  absent: (scene) =>
    noNip(scene) ??
    notLedToNip(scene) ??
    (springExponent(scene) ? undefined : "what presses the rollers together is not given"),
  because: (say, { unit }) =>
    `After 1000 h ${say(preloadLeft)} of the nip's ${say(unit.nip!.preload!)} are left; the film needs ${say(preloadNeeded)}.`,
};
