import { materialFigure } from "../material/catalogue.ts";
import { laserCut } from "../material/figures.ts";
import type { Check } from "../quantity/check.ts";
import { tabled } from "../quantity/given.ts";
import { model } from "../quantity/model.ts";
import { windowInWords } from "./arms.ts";
import { leafMaterial, leafMean, leafReads, leafSwing, noLeaf } from "./held.ts";

/**
 * Does the leaf last, bent a little with every pitch that passes?
 *
 *     S_0 = min(q_f q_e R_m, q_y R_m)             amplitude borne for ever about no mean, Pa
 *     u   = S_a/S_0 + S_m/R_m <= u_max            Goodman's line
 *
 * S_a half the swing of stress between the top and the bottom of the tape's ripple, S_m its mean, Pa; R_m strength, Pa; q_f amplitude borne at
 * stress ratio -1 over strength: 0.45 with an uncertainty of 0.04 for 1.4310 strip, never above Rp0.2 (Johansson and Nordberg, read); q_e what a cut
 * edge leaves of it, 0.5 .. 0.9; q_y Rp0.2 over strength; u_max 0.8, judgement.
 *
 * Drawn from the figure at ratio -1 the line passes below the published one at 0 (0.35): on the safe side. Steel only, 1e6 to 1e7 cycles:
 * plastics creep before they tire, and no figure for printed leaves was found. The ripple of a hold-down is small, so the static set decides first.
 */
export const enduranceLimit = model({
  id: "leaf.endurance",
  symbol: "S_0",
  unit: "Pa",
  shownIn: "MPa",
  title: "amplitude of stress that the leaf bears for ever",
  equation: "min(q_f*q_e*R_m, q_y*R_m)",
  form: "closed",
  origin: { cite: "Johansson and Nordberg, fatigue properties of stainless steel; cut edge a judgement", how: "read" },
  valid: { q_f: [0.3, 0.5], q_e: [0.4, 1] },
  reads: (scene) => {
    const named = leafMaterial(scene);
    if (!named) return undefined;
    const R_m = materialFigure(named, "strength");
    const q_f = materialFigure(named, "fatigue");
    const q_y = materialFigure(named, "yieldShare");
    return R_m && q_f && q_y && { q_f, q_e: edge, q_y, R_m };
  },
  value: ({ q_f, q_e, q_y, R_m }) => Math.min(q_f * q_e * R_m, q_y * R_m),
});
const { low, high } = laserCut.edgeFatigue;
const edge = tabled("catalogue/edge of a cut leaf", "q_e", `${low}..${high} guess`, [0, 0, 0, 0, 0], {
  cite: "burr and heat of a laser's edge; memory",
  how: "memory",
});
export const fatigueUse = model({
  id: "leaf.fatigue-use",
  symbol: "u",
  unit: "1",
  title: "share of Goodman's line that the leaf uses",
  equation: "S_a/S_0 + S_m/R_m",
  form: "closed",
  origin: { cite: "Goodman's line", how: "memory" },
  reads: (scene) => {
    const named = leafMaterial(scene);
    const R_m = named && materialFigure(named, "strength");
    return leafReads(scene) && enduranceLimit.reads(scene) && R_m
      ? { S_a: leafSwing, S_0: enduranceLimit, S_m: leafMean, R_m }
      : undefined;
  },
  value: ({ S_a, S_0, S_m, R_m }) => S_a / S_0 + S_m / R_m,
});
const most = tabled("catalogue/use of Goodman's line", "u_max", "0.8", [0, 0, 0, 0, 0], {
  cite: "judgement",
  how: "judgement",
});
export const checkLeafFatigue: Check = {
  id: "leaf.fatigue",
  station: 3,
  severity: "L",
  status: "judgement",
  title: "the leaf does not tire",
  value: fatigueUse,
  atMost: most,
  absent: (scene) =>
    noLeaf(scene) ??
    (enduranceLimit.reads(scene) ? undefined : `no fatigue strength is known of ${leafMaterial(scene)!.name}`),
  because: (say, scene) =>
    `From pitch to pitch the leaf's stress swings by ${say(leafSwing)} about ${say(leafMean)}: ${say(fatigueUse)} of what it bears for ever, ${say(most)} allowed.${windowInWords(say, scene)}`,
  beside: () => [enduranceLimit],
};
