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

/** Share of belief as a person reads it: never 100 or 0 where it is not all or nothing. */
export function showShare(share: number): string {
  if (share >= 1 - 1e-12) return "100 %";
  if (share <= 1e-12) return "0 %";
  const percent = share * 100;
  if (percent > 99) return "over 99 %";
  if (percent < 1) return "under 1 %";
  // Never rounded across the 95 % or the 5 % that decide a verdict.
  const rounded = Math.round(percent);
  return `${rounded === 95 && percent < 95 ? 94 : rounded === 5 && percent > 5 ? 6 : rounded} %`;
}
export const showVerdict = (verdict: Verdict, share: number | null): string =>
  verdict === "depends" ? `depends ${showShare(share!)}` : verdict;
