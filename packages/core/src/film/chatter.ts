import { one } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { pressureSensitive } from "../tape/served.ts";
import { notLedToNip } from "./friction.ts";
import { filmEh } from "./laminate.ts";
import { pathLength } from "./path.ts";

/**
 * Does the seal part in jerks?
 *
 *     v_p = q_p v          speed at which a pressure-sensitive seal parts, m/s; 0 where the seal is heat activated
 *     k_f = Eh b/L         stiffness of the free ribbon, N/m: the softer, the longer each jerk
 *
 * v speed of the film relative to the tape, m/s, 0.001 .. 0.3; q_p 1 for a pressure-sensitive seal, 0 for a heat-activated one, a belief
 * where the tape file does not say; Eh N/m, b, L width and length of the film up to the nip, m.
 *
 * Over a span of speeds the energy to part such a seal falls with speed and the ribbon is the spring (Cortet et al., Dalbe et al., read in
 * abstract). For one office tape the span goes from about 0.01 to 2.5 m/s (memory); no figure was found for cover film. Onset moves with
 * the ribbon's length, angle and pull, which this threshold does not know. Of heat-activated seals no stick-slip is known: not applicable.
 */
export const stickSlipSpeed = model({
  id: "film.sensitive-speed",
  symbol: "v_p",
  unit: "m/s",
  title: "speed at which a pressure-sensitive seal parts",
  equation: "q_p*v",
  form: "closed",
  origin: { cite: "only pressure-sensitive seals are known to part in jerks", how: "judgement" },
  valid: { v: [0.001, 0.3] },
  reads: ({ tape, requirement }) => ({
    q_p: tape.film.sealed === undefined ? pressureSensitive : one,
    v: requirement.filmSpeed,
  }),
  value: ({ q_p, v }) => q_p * v,
});
export const ribbonStiffness = model({
  id: "film.ribbon-stiffness",
  symbol: "k_f",
  unit: "N/m",
  title: "stiffness of the free film from the peel line to the nip",
  equation: "Eh*b/L",
  form: "closed",
  origin: { cite: "strip in tension", how: "derived" },
  valid: { Eh: [60e3, 240e3], L: [5e-3, 0.5] },
  reads: (scene) => (notLedToNip(scene) ? undefined : { Eh: filmEh, b: scene.tape.film.width, L: pathLength }),
  value: ({ Eh, b, L }) => (Eh * b) / L,
});
export const checkChatter: Check = {
  id: "film.chatter",
  station: 4,
  severity: "N",
  status: "judgement",
  title: "the seal parts without jerks",
  value: stickSlipSpeed,
  atMost: ({ requirement }) => requirement.assume["stick-slip speed"],
  absent: (scene) =>
    notLedToNip(scene) ??
    (scene.tape.film.sealed === "heat activated"
      ? "the seal is heat activated, and no stick-slip is known of such a seal"
      : undefined),
  because: (say, { tape, requirement }) =>
    `The film parts from the tape at ${say(requirement.filmSpeed)}; ${tape.film.sealed ? "a" : "if it is pressure sensitive, its"} seal may part in jerks from ${say(requirement.assume["stick-slip speed"])} on, over ${say(pathLength)} of free film.`,
  beside: () => [ribbonStiffness],
};
