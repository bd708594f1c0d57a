import { none } from "../quantity/dimension.ts";
import { tabled } from "../quantity/given.ts";
import type { PickFamily, Scene } from "../scene.ts";

/**
 * What the pick tool forgives of the parts of a package family: how far its middle may come to lie from the part's, and how far the part may have turned.
 *
 *     radius = 0.3 of the part's shorter side, at most 0.8 mm;  turn 15 deg for chips, 5 deg for leads
 *
 * Judgement, after common practice: a nozzle about half as wide as the shorter side keeps its rim on the part while it is off by a quarter to a third
 * of that side; leads must not meet the pads of their neighbours when the turn is taken out late. Sides from package sheets. project.yaml
 * may give its own under `pick families`.
 */
const family = (name: string, shorter: number, turn: number): PickFamily => {
  const radius = +Math.min(0.8, 0.3 * shorter).toPrecision(2);
  const cite = `0.3 of a shorter side of ${shorter} mm, at most 0.8 mm: common practice, no source`;
  return {
    name,
    radius: tabled(`pick/family ${name}, radius`, "r_f", `${radius} mm`, [1, 0, 0, 0, 0], { cite, how: "judgement" }),
    turn: tabled(`pick/family ${name}, turn`, "phi_f", `${turn} deg`, none, {
      cite: "common practice, no source",
      how: "judgement",
    }),
  };
};
export const usualFamilies: readonly PickFamily[] = [
  family("chip 0201", 0.3, 15),
  family("chip 0402", 0.5, 15),
  family("chip 0603", 0.8, 15),
  family("chip 0805", 1.25, 15),
  family("SOT-23", 1.3, 10),
  family("SO-8", 3.9, 5),
  family("SO-16", 3.9, 5),
  family("QFP and modules", 7, 5),
];
export const familiesOf = ({ requirement }: Scene): readonly PickFamily[] => requirement.pickFamilies ?? usualFamilies;
