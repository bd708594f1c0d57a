/**
 * The point that 5 % of belief lie below, of a column of draws that have weights of their own.
 *
 *     low = least v with  sum of w_k over x_k <= v  >  0.05
 *
 * w_k  weight of draw k; all of them together 1. As `beliefPoints` has it, without sorting: few draws are at or below it, and those are kept in order.
 */
const point = 0.05;
const dust = 1e-9;
const values = new Float64Array(4096);
const owned = new Float64Array(4096);

/** Keeps the least values that have more than `share` of the weight together, in order; how many they are. */
function leastInOrder(column: Float64Array, weights: Float64Array, share: number): number {
  let n = 0;
  let sum = 0;
  for (let k = 0; k < column.length; k++) {
    const v = column[k]!;
    const w = weights[k]!;
    if (!(w > 0) || (sum > share && v >= values[n - 1]!)) continue;
    let i = n++;
    while (i > 0 && values[i - 1]! > v) {
      values[i] = values[i - 1]!;
      owned[i] = owned[i - 1]!;
      i--;
    }
    values[i] = v;
    owned[i] = w;
    sum += w;
    while (sum - owned[n - 1]! > share) sum -= owned[--n]!;
  }
  return n;
}
export function lowPoint(column: Float64Array, weights: Float64Array): number {
  return values[leastInOrder(column, weights, point + dust) - 1]!;
}
/** The mean of what lies from 3 to 7 % of belief: it moves more smoothly than the point, which is what a search by slopes wants. */
export function smoothLowPoint(column: Float64Array, weights: Float64Array): number {
  const n = leastInOrder(column, weights, point + beside + dust);
  let below = 0;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const from = Math.max(below, point - beside);
    below += owned[i]!;
    const to = Math.min(below, point + beside);
    if (to > from) sum += (to - from) * values[i]!;
  }
  return sum / (2 * beside);
}
const beside = 0.02;
/** Whether the point lies below a value, without looking for it. */
export function lowPointBelow(column: Float64Array, weights: Float64Array, value: number): boolean {
  let sum = 0;
  for (let k = 0; k < column.length; k++) {
    if (column[k]! >= value) continue;
    sum += weights[k]!;
    if (sum > point + dust) return true;
  }
  return false;
}
