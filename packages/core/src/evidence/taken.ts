/**
 * Results of trials taken into belief: weights of the belief draws, on top of those that known units leave.
 *
 *     w_k ~ w0_k prod_j L_j(y_j | x_k)^b,   effective draws (sum w)^2/sum w^2
 *     chance of a result before it was known:  2 min(sum w0 P(Y <= y), sum w0 P(Y >= y))
 *
 * w0  weights by the record of known units     L_j  likelihood of result j at belief draw k     b  1 where the draws carry the results
 *
 * The draws are those of the map, so a cell's new share is a weighted mean over what was drawn already: nothing is run again. A result with a chance below 0.01
 * contradicts: it is said and not weighed in. So is one that leaves too few draws, where even draws made for it stay too few.
 * A result that is only sharper than 1000 draws can carry is blunted: b is lowered until 200 are left, which for a normal likelihood is the same as a reading
 * less sure by 1/sqrt(b). Belief is then wider than the bench shows, never narrower; written into the design it counts whole.
 * Importance sampling; textbook. The limits 0.01 and 200 are those of the working notes (unpublished), chosen, not derived.
 */
import { effectiveDraws } from "./known.ts";

/** One result as what it says of every belief draw. */
export interface Evidence {
  readonly trial: string;
  /** Logarithm of the likelihood at each draw; a constant may be left out. */
  readonly log: Float64Array;
  /** Chance at each draw of a result as low as this one or lower, and as high or higher. */
  readonly atMost: Float64Array;
  readonly atLeast: Float64Array;
  /** Asked where the map's draws are too few: whether draws made for this result carry it. */
  readonly sharp: () => boolean;
  /** What is wrong where the result contradicts: a guess, or a check's model. */
  readonly blames: string;
}
export type EvidenceState = "taken" | "contradicts";
export interface EvidenceStanding {
  readonly trial: string;
  readonly state: EvidenceState;
  /** Chance of the result before it was known. */
  readonly chance: number;
  /** Draws that this result alone leaves. */
  readonly effective: number;
  readonly blames: string;
  readonly says: string;
}
export interface Taken {
  /** They sum to 1. */
  readonly weights: Float64Array;
  readonly effective: number;
  /** Exponent of all likelihoods; below 1 the map shows less than the bench does. */
  readonly blunt: number;
  readonly standings: readonly EvidenceStanding[];
}
export const fewestDraws = 200;
export const leastChance = 0.01;

/** Takes results in one after the other: each is held against what those before it leave. */
export function takenIn(base: Float64Array, pieces: readonly Evidence[]): Taken {
  const enough = Math.min(fewestDraws, effectiveDraws(base));
  const standings: EvidenceStanding[] = [];
  const log = new Float64Array(base.length);
  let weights: Float64Array = base.slice();
  let blunt = 1;
  for (const piece of pieces) {
    const chance = chanceOf(piece, weights);
    const effective = effectiveDraws(normed(weights, piece.log, 1));
    const starved = !(effective >= enough);
    const against = chance < leastChance || (starved && !piece.sharp());
    standings.push({
      trial: piece.trial,
      state: against ? "contradicts" : "taken",
      chance,
      effective,
      blames: piece.blames,
      says: against
        ? `the result contradicts ${piece.blames}: its chance was ${+chance.toPrecision(2)}${starved ? `, and ${Math.round(effective)} of ${base.length} draws account for it` : ""}. It is not weighed in`
        : `taken in; its chance was ${+chance.toPrecision(2)}`,
    });
    if (against) continue;
    for (let k = 0; k < log.length; k++) log[k]! += piece.log[k]!;
    blunt = bluntness(base, log, enough);
    weights = normed(base, log, blunt);
  }
  return { weights, effective: effectiveDraws(weights), blunt, standings };
}
export function chanceOf({ atMost, atLeast }: Pick<Evidence, "atMost" | "atLeast">, weights: Float64Array): number {
  let [low, high, total] = [0, 0, 0];
  for (let k = 0; k < weights.length; k++) {
    low += weights[k]! * atMost[k]!;
    high += weights[k]! * atLeast[k]!;
    total += weights[k]!;
  }
  return Math.min(1, (2 * Math.min(low, high)) / total);
}
/** base . exp(b log), summing to 1. */
function normed(base: Float64Array, log: Float64Array, b: number): Float64Array {
  let top = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < log.length; k++) if (base[k]! > 0) top = Math.max(top, b * log[k]!);
  if (top === Number.NEGATIVE_INFINITY) return base.map((w) => w);
  const out = base.map((w, k) => (w > 0 ? w * Math.exp(b * log[k]! - top) : 0));
  const sum = out.reduce((a, w) => a + w, 0);
  return out.map((w) => w / sum);
}
/** The greatest exponent up to 1 that leaves enough draws. */
function bluntness(base: Float64Array, log: Float64Array, enough: number): number {
  const leaves = (b: number): boolean => effectiveDraws(normed(base, log, b)) >= enough;
  if (leaves(1)) return 1;
  let [low, high] = [0, 1];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (leaves(middle)) low = middle;
    else high = middle;
  }
  return low;
}
