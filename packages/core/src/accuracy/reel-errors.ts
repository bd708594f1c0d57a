import { Between } from "../quantity/between.ts";
import { one } from "../quantity/bound.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import { pickOf } from "../route/pick.ts";
import type { Scene } from "../scene.ts";
import { meanPitch, singlePitchError } from "../sprocket/wheel.ts";
import { isLetterOfCatalogue, middleOf } from "./middle.ts";

/**
 * What a reel adds to the pick error: its pockets, its holes.
 *
 *     x_2 = q_t (P_2 - P_m)                      pocket from its own hole, along, m
 *     y_F = q_t (F - F_m)                        pocket from the hole line, across, m
 *     x_n = q_t n (P - P_w),  n = |s_w - s_p|/P_w  pitch of the holes, added up from the pick to the wheel, m
 *     x_D = -q_t (D_0 - D_m)/2                   a wider hole lets the tape lie farther back on its teeth, m
 *     a_1 = q_t e_1                              how far a single hole stands off at most, m
 *
 * P_2, F, D_0 as on the reel, index m the middle of their limits; P the reel's mean pitch (a tenth of the catalogue's error over ten pitches on each),
 * P_w the pitch the tape should have; e_1 error of a single pitch (sprocket/wheel.ts); s_w, s_p wheel and pick along the tape, m.
 * q_t share of the catalogue's limits that tapes use: a maker who holds even limits with a Cpk of c uses 0.58/c of them. Limits that a
 * tape file gives count in full (q_t = 1): they were measured or drawn for that tape.
 *
 * A pocket is placed from its own hole whatever the error from hole to hole, so P_2 and a hole's own error are counted once. The tooth that
 * carries is taken to stand at the wheel's top.
 */
const origin = { cite: "EIA-481-D: a pocket is placed from its own sprocket hole", how: "read" } as const;

/** Share of its limits that a letter uses; of a letter between two, part of the way from one's to the other's. */
function used(q: Quantity, scene: Scene): Quantity {
  if (q.kind === "given" && q.blend) {
    const [a, b] = q.blend.of.map((one) => used(one, scene));
    return a === b ? a! : betweenAt(q.blend.share).of(a!, b!);
  }
  return isLetterOfCatalogue(q) ? scene.requirement.assume["tape practice"] : one;
}
const betweens = new Map<number, Between>();
function betweenAt(share: number): Between {
  const known = betweens.get(share) ?? new Between(share);
  betweens.set(share, known);
  return known;
}
/** A letter's error on a reel, where it has limits to err within. */
function error(scene: Scene, q: Quantity): { q_t: Quantity; X: Quantity; X_m: Quantity } | undefined {
  const middle = middleOf(q);
  return middle && scene.unit.sprocket ? { q_t: used(q, scene), X: q, X_m: middle } : undefined;
}
export const pocketAlong: Model = model({
  id: "pick.pocket-along",
  symbol: "x_2",
  unit: "m",
  shownIn: "um",
  title: "place of the pocket from its hole along the tape, on this reel",
  equation: "q_t*(X - X_m)",
  form: "closed",
  origin,
  reads: (scene) => error(scene, scene.tape.letters.P2),
  value: ({ q_t, X, X_m }) => q_t * (X - X_m),
});
export const pocketAcross: Model = model({
  id: "pick.pocket-across",
  symbol: "y_F",
  unit: "m",
  shownIn: "um",
  title: "place of the pocket from the hole line across the tape, on this reel",
  equation: "q_t*(X - X_m)",
  form: "closed",
  origin,
  reads: (scene) => error(scene, scene.tape.letters.F),
  value: ({ q_t, X, X_m }) => q_t * (X - X_m),
});
export const widerHole: Model = model({
  id: "pick.wider-hole",
  symbol: "x_D",
  unit: "m",
  shownIn: "um",
  title: "how far a wider hole lets the tape lie back on its teeth, on this reel",
  equation: "-q_t*(X - X_m)/2",
  form: "closed",
  origin: { cite: "a tooth pushes the rear of its hole, geometry", how: "derived" },
  reads: (scene) => error(scene, scene.tape.letters.D0),
  value: ({ q_t, X, X_m }) => (-q_t * (X - X_m)) / 2,
});
export const pitchAddedUp: Model = model({
  id: "pick.pitch-added-up",
  symbol: "x_n",
  unit: "m",
  shownIn: "um",
  title: "error of the hole pitch added up from the pick to the wheel, on this reel",
  equation: "q_t*abs(s_w - s_p)/P_w*(P - P_w)",
  form: "closed",
  origin: { cite: "EIA-481-D p. 13: error over ten pitches, a tenth of it on each", how: "derived" },
  reads: (scene) => {
    const s_p = pickOf(scene);
    const { sprocket } = scene.unit;
    const P = meanPitch(scene.tape);
    const P_w = middleOf(P);
    return sprocket && s_p && P_w
      ? { q_t: used(scene.tape.letters.P0, scene), s_w: sprocket.at, s_p, P, P_w }
      : undefined;
  },
  value: ({ q_t, s_w, s_p, P, P_w }) => ((q_t * Math.abs(s_w - s_p)) / P_w) * (P - P_w),
});
export const singleHole: Model = model({
  id: "pick.single-hole",
  symbol: "a_1",
  unit: "m",
  shownIn: "um",
  title: "how far a single hole stands off its place at most",
  equation: "q_t*e_1",
  form: "closed",
  origin: { cite: "EIA-481-D, tolerance of P0", how: "read" },
  reads: (scene) =>
    scene.unit.sprocket && isLetterOfCatalogue(scene.tape.letters.P0)
      ? { q_t: scene.requirement.assume["tape practice"], e_1: singlePitchError }
      : undefined,
  value: ({ q_t, e_1 }) => q_t * e_1,
});
