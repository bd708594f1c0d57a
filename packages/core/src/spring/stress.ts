import { materialFigure } from "../material/catalogue.ts";
import type { Check } from "../quantity/check.ts";
import { tabled } from "../quantity/given.ts";
import { model } from "../quantity/model.ts";
import { windowInWords } from "./arms.ts";
import { leafHighest, leafMaterial, leafStress, leafStroke, noLeaf } from "./held.ts";
import { forceSwing } from "./thickness.ts";

/**
 * Does the leaf keep its shape?
 *
 *     S_max <= q_s q_y R_m
 *
 * S_max greatest stress while a splice passes, Pa (held.ts: 6 M/(b t^2) where narrow, less where wide); R_m strength, Pa; q_y yield or Rp0.2 over
 * strength, 0.7 .. 1; q_s share that may be used: 0.75 of steel strip across its rolling direction, 0.5 of a plastic, which beyond half of its
 * strength creeps out of proportion (read for printed PETG).
 *
 * Static set only. Strip yields earlier in compression along its rolling direction (793 against 965 MPa of 301 full hard, read), and a window's
 * corner raises the stress by 1.3 to 2: neither is counted.
 */
export const stressShare = tabled("catalogue/share of yield", "q_s", "0.75", [0, 0, 0, 0, 0], {
  cite: "judgement: room for uneven edges and for the rolling direction",
  how: "judgement",
});
export const plasticShare = tabled("catalogue/share of yield of a plastic", "q_s", "0.5", [0, 0, 0, 0, 0], {
  cite: "judgement: printed PETG creeps in proportion up to half of its strength (Polymers 17:2075, read in abstract)",
  how: "judgement",
});
export const stressAllowed = model({
  id: "leaf.stress-allowed",
  symbol: "S_lim",
  unit: "Pa",
  shownIn: "MPa",
  title: "stress that leaves no set",
  equation: "q_s*q_y*R_m",
  form: "closed",
  origin: { cite: "share of the yield strength", how: "judgement" },
  valid: { q_s: [0.3, 1], q_y: [0.5, 1], R_m: [20e6, 2.3e9] },
  reads: (scene) => {
    const named = leafMaterial(scene);
    const R_m = named && materialFigure(named, "strength");
    const q_y = named && materialFigure(named, "yieldShare");
    return R_m && q_y && { q_s: named.material.kind === "steel" ? stressShare : plasticShare, q_y, R_m };
  },
  value: ({ q_s, q_y, R_m }) => q_s * q_y * R_m,
});
export const checkLeafStress: Check = {
  id: "leaf.stress",
  station: 3,
  severity: "S",
  status: "established",
  title: "the leaf springs back",
  value: leafStress,
  atMost: stressAllowed,
  absent: noLeaf,
  because: (say, scene) =>
    `Pressed by ${say(leafStroke)} the leaf bears ${say(leafStress)} while a splice passes; ${leafMaterial(scene)!.name} keeps its shape up to ${say(stressAllowed)}.${windowInWords(say, scene)}`,
  beside: () => [leafHighest, forceSwing],
};
