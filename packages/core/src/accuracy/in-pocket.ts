import { type Model, model } from "../quantity/model.ts";

/**
 * The part in its pocket.
 *
 *     x_b = (1 - q_p) (A_0 - l_p)/2        where it lies: against the front wall, to which the index throws it, m
 *     a_A = q_p (A_0 - l_p)/2              how far it wanders about that along the travel, m; across with B_0 and w_p
 *     a_t = q_p min((A_0 - l_p)/w_p, (B_0 - w_p)/l_p)      how far it turns, either way, rad
 *
 * A_0, B_0 pocket, l_p, w_p part along and across, m; q_p share of its room over which it wanders from index to index. Across nothing throws it:
 * its mean is the pocket's middle. The turn is that at which a rectangle's corners touch, for small angles. A part larger than its
 * pocket counts as filling it.
 */
const geometry = {
  cite: "a rectangle in a rectangular pocket, geometry; the share is a judgement",
  how: "derived",
} as const;
export const partThrown: Model = model({
  id: "pick.part-thrown",
  symbol: "x_b",
  unit: "m",
  shownIn: "um",
  title: "place of the part along its pocket, to which the index throws it",
  equation: "(1 - q_p)*max(0, A_0 - l_p)/2",
  form: "closed",
  origin: geometry,
  reads: ({ tape, requirement }) =>
    tape.partLength && { q_p: requirement.assume["part wander"], A_0: tape.letters.A0, l_p: tape.partLength },
  value: ({ q_p, A_0, l_p }) => ((1 - q_p) * Math.max(0, A_0 - l_p)) / 2,
});
export const partAlong: Model = model({
  id: "pick.part-along",
  symbol: "a_A",
  unit: "m",
  shownIn: "um",
  title: "how far the part wanders along its pocket, either way",
  equation: "q_p*max(0, A_0 - l_p)/2",
  form: "closed",
  origin: geometry,
  reads: ({ tape, requirement }) =>
    tape.partLength && { q_p: requirement.assume["part wander"], A_0: tape.letters.A0, l_p: tape.partLength },
  value: ({ q_p, A_0, l_p }) => (q_p * Math.max(0, A_0 - l_p)) / 2,
});
export const partAcross: Model = model({
  id: "pick.part-across",
  symbol: "a_B",
  unit: "m",
  shownIn: "um",
  title: "how far the part wanders across its pocket, either way",
  equation: "q_p*max(0, B_0 - w_p)/2",
  form: "closed",
  origin: geometry,
  reads: ({ tape, requirement }) =>
    tape.partWidth && { q_p: requirement.assume["part wander"], B_0: tape.letters.B0, w_p: tape.partWidth },
  value: ({ q_p, B_0, w_p }) => (q_p * Math.max(0, B_0 - w_p)) / 2,
});
export const partTurn: Model = model({
  id: "pick.part-turn",
  symbol: "a_t",
  unit: "1",
  shownIn: "mrad",
  title: "how far the part turns in its pocket, either way",
  equation: "q_p*min(max(0, A_0 - l_p)/w_p, max(0, B_0 - w_p)/l_p)",
  form: "closed",
  origin: geometry,
  reads: ({ tape, requirement }) =>
    tape.partLength &&
    tape.partWidth && {
      q_p: requirement.assume["part wander"],
      A_0: tape.letters.A0,
      l_p: tape.partLength,
      B_0: tape.letters.B0,
      w_p: tape.partWidth,
    },
  value: ({ q_p, A_0, l_p, B_0, w_p }) => q_p * Math.min(Math.max(0, A_0 - l_p) / w_p, Math.max(0, B_0 - w_p) / l_p),
});
