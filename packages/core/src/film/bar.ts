import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { guidesToNip } from "../unit/unit.ts";
import { notLedToNip } from "./friction.ts";
import { filmOuter } from "./laminate.ts";

/**
 * Strain of the film's stretched layer over the smallest bar: beyond the elastic limit the film keeps a curl and may roll up.
 *
 *     e = c/r
 *
 * c  neutral line to the far face of the stretched layer, m, 5e-6 .. 40e-6;  r  radius of the bar, m, 0.2e-3 .. 20e-3
 */
const tightest = (radii: readonly number[]): number => radii.reduce((at, r, i) => (r < radii[at]! ? i : at), 0);

export const barStrain = model({
  id: "film.bar-strain",
  symbol: "e",
  unit: "1",
  shownIn: "%",
  title: "strain of the film over its smallest bar",
  equation: "c/r at the smallest bar",
  form: "solved",
  origin: { cite: "bending of a laminate over a cylinder", how: "derived" },
  reads: (scene) => {
    const guides = guidesToNip(scene.unit);
    const { peel } = scene.unit.film;
    if (notLedToNip(scene) || !guides || !peel) return undefined;
    return {
      c: filmOuter,
      r: [peel["edge radius"], ...guides.map((g) => g.radius)],
      names: ["peel edge", ...guides.map((g) => g.name)],
    };
  },
  value: ({ c, r }) => c / r[tightest(r)]!,
  where: ({ r, names }) => `${names[tightest(r)]}, radius ${(r[tightest(r)]! * 1e3).toFixed(2)} mm`,
});
export const checkBar: Check = {
  id: "film.bar",
  station: 4,
  severity: "N",
  status: "established",
  title: "no bar curls the film",
  value: barStrain,
  atMost: ({ requirement }) => requirement.assume["film elastic limit"],
  absent: notLedToNip,
  because: (say, { requirement }) =>
    `Over its smallest bar the film strains by ${say(barStrain)}; beyond ${say(requirement.assume["film elastic limit"])} it stays curled.`,
};
