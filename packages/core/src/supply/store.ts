import { unitStart } from "../drive/current.ts";
import { constantOf, inertiaOf } from "../drive/motor.ts";
import { tabled } from "../quantity/given.ts";
import { model } from "../quantity/model.ts";
import { unitOf } from "../quantity/units.ts";

/**
 * What the capacitors of a unit do for its own supply.
 *
 *     dV  = I_1 t_l/C                                dip before the rail answers, V
 *     V_r = sqrt(V^2 + J (V/k)^2/C)                  volts if the energy of the feed motor's rotor came back into them
 *
 * I_1 current of the unit as its motors start, A; t_l time in which cable and supply answer, 50 us; C capacitors on the board, F; V volts of the rail; J, k of the
 * feed motor. V_r is an upper bound: nothing lost, nothing taken by other units, and a bridge that sends energy back. One that brakes by a short
 * circuit sends none. Neither decides anything: they are shown.
 */
const answer = tabled("catalogue/answer of a rail", "t_l", "50 us", unitOf("us").dimension, {
  cite: "common practice, no source",
  how: "memory",
});
export const firstDip = model({
  id: "supply.first-dip",
  symbol: "dV",
  unit: "V",
  title: "dip of the unit's volts before the rail answers",
  equation: "I_1*t_l/C",
  form: "closed",
  origin: { cite: "charge of a capacitor", how: "derived" },
  reads: (scene) => {
    const C = scene.unit.supply?.bulk;
    return C && unitStart.reads(scene) ? { I_1: unitStart, t_l: answer, C } : undefined;
  },
  value: ({ I_1, t_l, C }) => (I_1 * t_l) / C,
});
export const regenerated = model({
  id: "supply.regenerated",
  symbol: "V_r",
  unit: "V",
  title: "volts if the feed rotor's energy came back into the unit's capacitors",
  equation: "sqrt(V^2 + J*(V/k)^2/C)",
  form: "closed",
  origin: { cite: "energy of a rotor into a capacitor", how: "derived" },
  reads: (scene) => {
    const [k, V, C] = [constantOf(scene, "feed"), scene.requirement.supply?.volts, scene.unit.supply?.bulk];
    return k && V && C ? { V, J: inertiaOf(scene, "feed"), k, C } : undefined;
  },
  value: ({ V, J, k, C }) => Math.sqrt(V * V + (J * (V / k) ** 2) / C),
});
