import { tabled } from "../quantity/given.ts";
import { model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";

/**
 * Weight of the tape per length, with what lies in it.
 *
 *     w = (rho W T + m/P_1) g
 *
 * rho density of the carrier, kg/m3; W, T width and thickness, m; m mass of one part, kg, 0 where the tape file gives none; P_1 pitch, m; g 9.81 m/s2.
 * The walls of the pockets weigh about what their mouths leave out; the film, a tenth of the carrier, is left out.
 */
const perCubicMetre = [-3, 1, 0, 0, 0] as const;
const plastic = tabled("catalogue/density of polystyrene", "rho", "1050 kg/m^3", perCubicMetre, {
  cite: "impact polystyrene 1.04 to 1.06 g/cm3, property tables",
  how: "read",
});
const board = tabled("catalogue/density of board", "rho", "850 kg/m^3", perCubicMetre, {
  cite: "carrier board 0.75 to 0.95 g/cm3, memory",
  how: "memory",
});
export const gravity = tabled("bound/gravity", "g", "9.80665 m/s^2", [1, 0, -2, 0, 0], {
  cite: "standard gravity, ISO 80000-4:2019, by definition",
  how: "memory",
});
const noMass = tabled("bound/no mass", "0", "0 g", [0, 1, 0, 0, 0], { cite: "no part is counted", how: "derived" });
export const carrierDensity = ({ tape }: Scene): Quantity => (tape.kind === "embossed" ? plastic : board);

export const tapeWeight = model({
  id: "tape.weight",
  symbol: "w",
  unit: "N/m",
  shownIn: "N/m",
  title: "weight of the tape per length, with its parts",
  equation: "(rho*W*T + m/P_1)*g",
  form: "closed",
  origin: { cite: "mass of a strip and what lies in it", how: "derived" },
  reads: (scene) => {
    const { W, T, P1 } = scene.tape.letters;
    return { rho: carrierDensity(scene), W, T, m: scene.tape.partMass ?? noMass, P_1: P1, g: gravity };
  },
  value: ({ rho, W, T, m, P_1, g }) => (rho * W * T + m / P_1) * g,
});
