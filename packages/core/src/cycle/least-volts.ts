import { dutyOf, unitStart } from "../drive/current.ts";
import { one } from "../quantity/bound.ts";
import { tabled } from "../quantity/given.ts";
import { model } from "../quantity/model.ts";
import { unitOf } from "../quantity/units.ts";
import { barResistance, cableResistance, contactResistance } from "../supply/volts.ts";

/**
 * Least volts at a unit, for the index that must still be over in time.
 *
 *     V_l = V - I_t (R_f + R_r) - 2 I_1 R_c/n_p
 *     I_t = n_s I_1 + (n - n_s) d I_1/4
 *
 * V volts of the rail, with their tolerance; n units on it, n_s of which start together, at its far end; I_1 current of a unit as its motors
 * start, A; d share of the time in which the others run; R_f cable, R_r conductors along the units, both ways, R_c a contact, ohm; n_p contacts each way.
 *
 * The others are taken to run at a quarter of their starting current, the load up to which a motor user's note would have them run (read): a
 * simpler stand-in than supply/volts.ts, whose own run currents rest on the film's path. All of the rail's length counts for all (safe side), and
 * the starting current lasts the whole index (safe side).
 */
const noResistance = tabled("bound/no wire", "0", "0 ohm", unitOf("ohm").dimension, {
  cite: "no such conductor is given",
  how: "derived",
});
export const leastVolts = model({
  id: "cycle.least-volts",
  symbol: "V_l",
  unit: "V",
  title: "least volts at the unit during an index",
  equation: "V - (min(n_s, n)*I_1 + max(0, n - n_s)*d*I_1/4)*(R_f + R_r) - 2*I_1*R_c/n_p",
  form: "closed",
  origin: { cite: "Ohm's law", how: "derived" },
  reads: (scene) => {
    const { supply } = scene.requirement;
    return (
      supply &&
      unitStart.reads(scene) && {
        V: supply.volts,
        n: supply.units ?? one,
        n_s: supply.together ?? supply.units ?? one,
        I_1: unitStart,
        d: dutyOf(scene),
        R_f: supply.cable ? cableResistance : noResistance,
        R_r: supply.bar ? barResistance : noResistance,
        R_c: contactResistance(scene),
        n_p: scene.unit.supply?.connector?.pins ?? one,
      }
    );
  },
  value: ({ V, n, n_s, I_1, d, R_f, R_r, R_c, n_p }) =>
    V - (Math.min(n_s, n) * I_1 + (Math.max(0, n - n_s) * d * I_1) / 4) * (R_f + R_r) - (2 * I_1 * R_c) / n_p,
});
