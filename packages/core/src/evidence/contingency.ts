/**
 * Do two counts differ by more than chance: Fisher's exact test of a table of two by two.
 *
 *     P(X = x) = C(r, x) C(n - r, c - x)/C(n, c)     X failures on the first side, given c in all, r cycles of n on that side
 *
 * one-sided: P(X >= a). Two-sided: the sum over all tables no more likely than the one seen (Fisher 1935; the two-sided rule as common programs have it,
 * memory). Whole counts; each cycle by itself.
 */
import { stirlingRest } from "./gamma.ts";

export interface TwoByTwo {
  /** Chance of a first count as high or higher, were both sides alike. */
  readonly higher: number;
  /** The same for as low or lower. */
  readonly lower: number;
  /** Of a table no more likely than this one. */
  readonly twoSided: number;
}
/** Table [[a, b], [c, d]]: first side a failed and b good, second side c failed and d good. */
export function fisherExact(a: number, b: number, c: number, d: number): TwoByTwo {
  for (const count of [a, b, c, d])
    if (!(Number.isInteger(count) && count >= 0))
      throw new RangeError(`a count is ${count}; it takes whole numbers from 0`);
  const n = a + b + c + d;
  if (n === 0) throw new RangeError("a table without a single count compares nothing");
  const side = a + b;
  const failed = a + c;
  const from = Math.max(0, failed - (n - side));
  const to = Math.min(side, failed);
  const log = (x: number): number => lnChoose(side, x) + lnChoose(n - side, failed - x) - lnChoose(n, failed);
  const seen = log(a);
  let higher = 0;
  let lower = 0;
  let twoSided = 0;
  for (let x = from; x <= to; x++) {
    const l = log(x);
    if (l < -750) continue;
    const p = Math.exp(l);
    if (x >= a) higher += p;
    if (x <= a) lower += p;
    // Equal tables may differ in their last digits.
    if (l <= seen + 1e-7) twoSided += p;
  }
  return { higher: Math.min(1, higher), lower: Math.min(1, lower), twoSided: Math.min(1, twoSided) };
}

const lnFactorials: number[] = [0];
/** ln n!: sums of logarithms while small, Stirling beyond. */
export function lnFactorial(n: number): number {
  if (n > 170) return (n + 0.5) * Math.log(n) - n + 0.5 * Math.log(2 * Math.PI) + stirlingRest(n);
  while (lnFactorials.length <= n) {
    let product = 1;
    for (let i = 2; i <= lnFactorials.length; i++) product *= i;
    lnFactorials.push(Math.log(product));
  }
  return lnFactorials[n]!;
}
const lnChoose = (n: number, k: number): number => lnFactorial(n) - lnFactorial(k) - lnFactorial(n - k);
