import { one } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { regenerated } from "./store.ts";
import { contactResistance, noResistance } from "./volts.ts";

/**
 * A unit plugged into a live rail: its capacitors fill through a loop that rings.
 *
 *     R   = R_l + R_s + 2 R_c/n_p                    resistance of the loop, ohm
 *     z   = (R/2) sqrt(C_c/L)                        damping with the ceramic capacitors alone
 *     V_p = V (1 + exp(-pi z/sqrt(1 - z^2)))         peak on the ceramic; V where z >= 1
 *     I_p = peak current into ceramic and bulk together, no more than V/R
 *     q   = max(V_p/V_w, I_p/I_w)                    the worse of the two, where a surge current is given
 *
 * V volts of the rail; R_l, L of the loop between the rail's capacitors and the unit's, its contacts left out; R_s soft start: what a longer pin or a
 * cold thermistor puts in; R_c of a contact, n_p contacts each way; C_c ceramic, C_b bulk, F; V_w volts that the board stands, I_w current
 * that connector and capacitors bear for a moment.
 *
 * A stiff rail, capacitors empty. The bulk's own resistance damps the ringing of the ceramic, so V_p is an upper value; ceramic loses capacitance with its
 * volts, which makes it ring higher in frequency and no higher in volts. With current from both capacitors at once I_p is an upper value too.
 */
const ringing = { cite: "series circuit of L, R and C, switched on", how: "derived" } as const;

/** Greatest volts on the capacitor of a series circuit switched on to V. */
export function overshoot(V: number, R: number, L: number, C: number): number {
  const z = (R / 2) * Math.sqrt(C / L);
  return V * (1 + Math.exp((-Math.PI * z) / Math.sqrt(Math.max(1e-12, 1 - z * z))));
}
/** Greatest current of the same circuit, A: under, at and over critical damping. */
export function peakCurrent(V: number, R: number, L: number, C: number): number {
  if (!(R > 0 && L > 0 && C > 0))
    throw new RangeError("a loop needs resistance, inductance and capacitance above nothing");
  const z = (R / 2) * Math.sqrt(C / L);
  const surge = V * Math.sqrt(C / L);
  // The angle (or its hyperbolic twin) over its sine, 1 where both vanish: no jump at critical damping.
  const off = Math.sqrt(Math.abs(1 - z * z));
  if (off < 1e-6) return surge * Math.exp(-1);
  const angle = z < 1 ? Math.atan2(off, z) : Math.atanh(off / z);
  return surge * Math.exp((-z * angle) / off);
}

export const loopResistance = model({
  id: "supply.loop",
  symbol: "R",
  unit: "ohm",
  shownIn: "mohm",
  title: "resistance of the loop that fills the unit's capacitors",
  equation: "R_l + R_s + 2*R_c/n_p",
  form: "closed",
  origin: { cite: "resistances in a row", how: "derived" },
  reads: (scene) => ({
    R_l: scene.requirement.assume["loop resistance"],
    R_s: scene.unit.supply?.["soft start"] ?? noResistance,
    R_c: contactResistance(scene),
    n_p: scene.unit.supply?.connector?.pins ?? one,
  }),
  value: ({ R_l, R_s, R_c, n_p }) => R_l + R_s + (2 * R_c) / n_p,
});
/** What rings: the ceramic, or the bulk where no ceramic is given. */
const ringingCapacitor = ({ unit: { supply } }: Scene): Quantity | undefined => supply?.ceramic ?? supply?.bulk;
export const plugPeak = model({
  id: "supply.plug-peak",
  symbol: "V_p",
  unit: "V",
  title: "peak volts as the unit is plugged in",
  equation: "V*(1 + exp(-3.141592653589793*(R/2*sqrt(C/L))/sqrt(max(1e-12, 1 - (R/2)^2*C/L))))",
  form: "closed",
  origin: ringing,
  reads: (scene) => {
    const V = scene.requirement.supply?.volts;
    const C = ringingCapacitor(scene);
    return V && C && { V, R: loopResistance, C, L: scene.requirement.assume["loop inductance"] };
  },
  value: ({ V, R, C, L }) => overshoot(V, R, L, C),
});
export const plugCurrent = model({
  id: "supply.plug-current",
  symbol: "I_p",
  unit: "A",
  title: "peak current as the unit is plugged in",
  equation: "max of i in L*C*i'' + R*C*i' + i = 0, i(0) = 0, i'(0) = V/L",
  form: "solved",
  origin: ringing,
  reads: (scene) => {
    const { supply } = scene.unit;
    const V = scene.requirement.supply?.volts;
    const capacitors = [supply?.ceramic, supply?.bulk].filter((c) => c !== undefined);
    return V && capacitors.length > 0
      ? { V, R: loopResistance, C: capacitors, L: scene.requirement.assume["loop inductance"] }
      : undefined;
  },
  value: ({ V, R, C, L }) =>
    peakCurrent(
      V,
      R,
      L,
      C.reduce((sum, c) => sum + c, 0),
    ),
});
export const plugRatio = model({
  id: "supply.plug-ratio",
  symbol: "q",
  unit: "1",
  title: "volts and current of plugging in over what is borne, the worse",
  equation: "max(V_p/V_w, I_p/I_w)",
  form: "closed",
  origin: { cite: "the worse of two", how: "derived" },
  reads: (scene) => {
    const { supply } = scene.unit;
    return supply?.withstands && supply.surge && plugPeak.reads(scene)
      ? { V_p: plugPeak, V_w: supply.withstands, I_p: plugCurrent, I_w: supply.surge }
      : undefined;
  },
  value: ({ V_p, V_w, I_p, I_w }) => Math.max(V_p / V_w, I_p / I_w),
  where: ({ V_p, V_w, I_p, I_w }) => (V_p / V_w >= I_p / I_w ? "the volts" : "the current"),
});

const heldValue = ({ unit: { supply } }: Scene): Model =>
  supply?.surge && supply.withstands ? plugRatio : supply?.surge ? plugCurrent : plugPeak;
const boundOf = ({ unit: { supply } }: Scene): Quantity | undefined =>
  supply?.surge && supply.withstands ? one : (supply?.surge ?? supply?.withstands);
export const checkInrush: Check = {
  id: "supply.inrush",
  station: 9,
  severity: "S",
  status: "established",
  title: "plugging a unit into the live rail harms nothing",
  value: heldValue,
  atMost: boundOf,
  absent: (scene) => {
    if (!scene.requirement.supply) return "project.yaml gives no supply";
    if (!scene.unit.supply) return "the unit file says nothing of its board's supply";
    if (!ringingCapacitor(scene)) return "the unit's supply gives no capacitors";
    return boundOf(scene)
      ? undefined
      : "the unit's supply gives neither the volts it withstands nor the surge it bears";
  },
  because: (say, { unit: { supply }, requirement }) => {
    const volts = supply?.withstands ? `, where its board stands ${say(supply.withstands)}` : "";
    const amperes = supply?.surge ? `, where ${say(supply.surge)} are borne` : "";
    return `Plugged into ${say(requirement.supply!.volts)} through ${say(loopResistance)}, the unit sees ${say(plugPeak)}${volts}, and draws ${say(plugCurrent)} at the peak${amperes}.`;
  },
  beside: (scene) => [plugPeak, plugCurrent, loopResistance, ...(regenerated.reads(scene) ? [regenerated] : [])],
};
