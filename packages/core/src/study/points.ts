/** Points of belief, weighted: where 5, 50 and 95 % of it lie below. */
export interface BeliefPoints {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}
const dust = 1e-12;

/**
 * The 5, 50 and 95 % points of a column over belief.
 *
 * The low one is the least value with more than 5 % of the weight at or below it, the high one the least with 95 %: so a deciding gap's
 * low point is nought or more just where its share feeds, and its high point is less than nought just where its share stops.
 */
export function beliefPoints(column: Float64Array, weights: Float64Array): BeliefPoints {
  const order = Array.from(column.keys()).sort((a, b) => column[a]! - column[b]!);
  const total = weights.reduce((sum, w) => sum + w, 0);
  const out = { low: Number.NaN, middle: Number.NaN, high: Number.NaN };
  let below = 0;
  for (const k of order) {
    below += weights[k]! / total;
    if (Number.isNaN(out.low) && below > 0.05 + dust) out.low = column[k]!;
    if (Number.isNaN(out.middle) && below >= 0.5 - dust) out.middle = column[k]!;
    if (Number.isNaN(out.high) && below >= 0.95 - dust) out.high = column[k]!;
  }
  return out;
}
