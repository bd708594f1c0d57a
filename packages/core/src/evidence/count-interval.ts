/**
 * What a count of failures shows of the rate, by the binomial law alone (Clopper and Pearson 1934; memory).
 *
 *     low:  P(X >= k | p) = (1 - C)/2,  p = beta quantile of k, n - k + 1
 *     high: P(X <= k | p) = (1 - C)/2,  p = beta quantile of k + 1, n - k
 *
 * n cycles, k of them failed, C confidence of both bounds together (one bound alone: 1 - C outside it). Exact in that it holds the true rate in at
 * least the share C of all series, whatever the rate; more than C, since counts are whole. It holds for cycles that fail alike and
 * each by itself; where units or reels differ it promises too much (unlike.ts, promise.ts).
 */
import { betaQuantile } from "./beta.ts";

/** Both bounds: each leaves out (1 - confidence)/2. */
export function countInterval(failed: number, run: number, confidence = 0.95): readonly [low: number, high: number] {
  checkCount(failed, run);
  checkConfidence(confidence);
  const out = (1 - confidence) / 2;
  return [lowest(failed, run, out), highest(failed, run, out)];
}
/** The rate that is not exceeded, at a confidence. */
export function rateAtMost(failed: number, run: number, confidence = 0.95): number {
  checkCount(failed, run);
  checkConfidence(confidence);
  return highest(failed, run, 1 - confidence);
}
/** The rate that is reached at least, at a confidence. */
export function rateAtLeast(failed: number, run: number, confidence = 0.95): number {
  checkCount(failed, run);
  checkConfidence(confidence);
  return lowest(failed, run, 1 - confidence);
}
const lowest = (k: number, n: number, out: number): number => (k === 0 ? 0 : betaQuantile(out, k, n - k + 1));
const highest = (k: number, n: number, out: number): number => (k === n ? 1 : betaQuantile(1 - out, k + 1, n - k, out));

export function checkCount(failed: number, run: number): void {
  if (!(Number.isInteger(run) && run > 0))
    throw new RangeError(`${run} cycles were run; it takes a whole number above 0`);
  if (!(Number.isInteger(failed) && failed >= 0 && failed <= run))
    throw new RangeError(`${failed} of ${run} cycles failed; it takes a whole number from 0 to ${run}`);
}
export function checkConfidence(confidence: number): void {
  if (!(confidence > 0 && confidence < 1))
    throw new RangeError(`a confidence of ${confidence} is asked; it must lie between 0 and 1`);
}
