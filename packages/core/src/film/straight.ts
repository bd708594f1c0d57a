import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { pocketLength } from "../tape/pocket.ts";
import { notLedToNip } from "./friction.ts";
import { guideNames, path } from "./path.ts";

/**
 * How straight the film runs: lean of the film against the peel line and the nip, and the kink over each guide between.
 *
 *     k_i = asin(u_i . d_i) - asin(u_i . d_(i-1))
 *
 * u_i unit direction of guide i, d_i unit direction of the film after it; rad, 0 .. 0.5. A kink of 0 is the condition for a strain-free
 * wrap. A lean at the nip walks the film by tan(lean) per length fed; a lean at the peel line skews the front by b tan(lean/2), which may
 * use up the land between pockets: the bound 2 atan(land/b) is that angle, applied to all of them (judgement).
 */
const worst = (leans: readonly number[]): number =>
  leans.reduce((at, v, i) => (Math.abs(v) > Math.abs(leans[at]!) + 1e-12 ? i : at), 0);

export const greatestLean = model({
  id: "film.lean",
  symbol: "k",
  unit: "1",
  shownIn: "deg",
  title: "greatest lean or kink of the film",
  equation: "max over guides of |asin(u*d_after) - asin(u*d_before)|",
  form: "solved",
  origin: { cite: "developable strip over a smooth cylinder", how: "derived" },
  costly: true,
  reads: (scene: Scene) => (notLedToNip(scene) ? undefined : { path, names: guideNames(scene) }),
  value: ({ path: p }) => Math.abs(p.leans[worst(p.leans)]!),
  where: ({ path: p, names }) => {
    const i = worst(p.leans);
    return i === 0 || i === p.leans.length - 1 ? `lean at the ${names[i]}` : `kink over the ${names[i]}`;
  },
});
export const leanOfLand = model({
  id: "film.lean-of-land",
  symbol: "k_max",
  unit: "1",
  shownIn: "deg",
  title: "lean that uses up the land between two pockets",
  equation: "2*atan(max(0, P_1 - L)/b)",
  form: "closed",
  origin: { cite: "peel front skewed by b tan(lean/2) against the land", how: "derived" },
  reads: ({ tape }) => ({ P_1: tape.letters.P1, L: pocketLength, b: tape.film.width }),
  value: ({ P_1, L, b }) => 2 * Math.atan(Math.max(0, P_1 - L) / b),
});
export const checkStraight: Check = {
  id: "film.straight",
  station: 4,
  severity: "N",
  status: "established",
  title: "the film runs straight over its guides",
  value: greatestLean,
  atMost: leanOfLand,
  absent: notLedToNip,
  because: (say) =>
    `The film leans by ${say(greatestLean)}; ${say(leanOfLand)} would use up the land between two pockets.`,
};
