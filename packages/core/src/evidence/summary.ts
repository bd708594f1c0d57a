/**
 * What a row of readings says: mean, standard deviation, lag-one correlation, and the readings it is worth.
 *
 *     mean = sum x/n,   sd^2 = sum (x - mean)^2/(n - 1),   phi = sum (x_i - mean)(x_{i-1} - mean)/sum (x - mean)^2,   n_eff = n (1 - phi)/(1 + phi)
 *
 * Sums carry their rounding along (Neumaier 1974; memory), and the deviations are taken from a first mean, so that a large offset costs no digits.
 * n_eff: Bartlett's large-n formula, for readings that follow each other as a first-order chain; a negative phi counts as 0.
 */
export interface Summary {
  readonly n: number;
  readonly mean: number;
  /** Absent for a single reading. */
  readonly sd?: number;
  readonly least: number;
  readonly greatest: number;
  /** Lag-one correlation; absent below 3 readings or where all are equal. */
  readonly lagOne?: number;
  /** Independent readings it is worth. */
  readonly worth: number;
}
export function summary(x: ArrayLike<number>): Summary {
  const n = x.length;
  checkReadings(x);
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    least = Math.min(least, x[i]!);
    greatest = Math.max(greatest, x[i]!);
  }
  const first = compensated(n, (i) => x[i]!) / n;
  const off = compensated(n, (i) => x[i]! - first) / n;
  const mean = first + off;
  if (n === 1) return { n, mean, least, greatest, worth: 1 };
  const squares = compensated(n, (i) => (x[i]! - first - off) ** 2);
  const sd = Math.sqrt(squares / (n - 1));
  if (n < 3 || !(squares > 0)) return { n, mean, sd, least, greatest, worth: n };
  const lagOne = compensated(n - 1, (i) => (x[i]! - first - off) * (x[i + 1]! - first - off)) / squares;
  return { n, mean, sd, least, greatest, lagOne, worth: independentReadings(n, lagOne) };
}
/** Independent readings that n correlated ones are worth; 1 at least. */
export function independentReadings(n: number, lagOne: number): number {
  if (!(n >= 1)) throw new RangeError(`${n} readings; it takes 1 or more`);
  if (!(lagOne > -1 && lagOne < 1))
    throw new RangeError(`a lag-one correlation is ${lagOne}; it must lie between -1 and 1`);
  const phi = Math.max(0, lagOne);
  return Math.max(1, (n * (1 - phi)) / (1 + phi));
}
/** The sum of n terms with its rounding carried along. */
export function compensated(n: number, term: (i: number) => number): number {
  let sum = 0;
  let lost = 0;
  for (let i = 0; i < n; i++) {
    const v = term(i);
    const t = sum + v;
    lost += Math.abs(sum) >= Math.abs(v) ? sum - t + v : v - t + sum;
    sum = t;
  }
  return sum + lost;
}
/** Middle reading; of an even number, half way between the two in the middle. */
export const median = (x: ArrayLike<number>): number => quantileAt(sorted(x), 0.5);
/** Quantile of readings in order, straight between neighbours: position share (n - 1). */
export function quantileAt(inOrder: ArrayLike<number>, share: number): number {
  if (inOrder.length === 0) throw new RangeError("no readings: nothing to take a quantile of");
  if (!(share >= 0 && share <= 1)) throw new RangeError(`a share is ${share}; it must lie from 0 to 1`);
  const at = share * (inOrder.length - 1);
  const i = Math.min(Math.floor(at), inOrder.length - 1);
  const a = inOrder[i]!;
  const b = inOrder[Math.min(i + 1, inOrder.length - 1)]!;
  return a + (at - i) * (b - a);
}
export function sorted(x: ArrayLike<number>): Float64Array {
  checkReadings(x);
  return Float64Array.from(x).sort();
}
/** The narrowest span that holds a share of readings in order. */
export function shortestSpan(inOrder: ArrayLike<number>, share: number): readonly [number, number] {
  const n = inOrder.length;
  if (n === 0) throw new RangeError("no readings: nothing to hold");
  if (!(share > 0 && share <= 1)) throw new RangeError(`a share is ${share}; it must lie above 0 and up to 1`);
  const held = Math.max(1, Math.ceil(share * n));
  let from = 0;
  for (let i = 1; i + held <= n; i++)
    if (inOrder[i + held - 1]! - inOrder[i]! < inOrder[from + held - 1]! - inOrder[from]!) from = i;
  return [inOrder[from]!, inOrder[from + held - 1]!];
}
export function checkReadings(x: ArrayLike<number>): void {
  if (x.length === 0) throw new RangeError("no readings: there is nothing to summarise");
  for (let i = 0; i < x.length; i++)
    if (!Number.isFinite(x[i])) throw new RangeError(`reading ${i + 1} is ${x[i]}; it must be a finite number`);
}
