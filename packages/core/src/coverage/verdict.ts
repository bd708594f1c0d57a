/** The words of a verdict. `n/a` where a unit has no such member, which is never a pass. */
export type Verdict = "feeds" | "depends" | "stops" | "n/a";

/** From the share of belief in which it holds: feeds from 95 %, stops to 5 %, else depends. */
export const verdictOf = (share: number): Exclude<Verdict, "n/a"> =>
  share >= 0.95 - 1e-12 ? "feeds" : share <= 0.05 + 1e-12 ? "stops" : "depends";

/** Weighted share of belief draws for which all of the columns hold (deciding gap at least 0). */
export function shareHolding(columns: readonly Float64Array[], weights: Float64Array): number {
  let total = 0;
  let held = 0;
  for (let k = 0; k < weights.length; k++) {
    total += weights[k]!;
    if (columns.every((c) => c[k]! >= 0)) held += weights[k]!;
  }
  return held / total;
}
