/**
 * A rate believed by the model, and what a count makes of it.
 *
 *     ln p ~ N(ln median, sd^2) before;   times C(n, k) p^k (1 - p)^(n-k)
 *
 * median  rate the model gives     sd  how far it is trusted, 1.5 unless told: a factor of 12 either way at 90 %     k failures in n cycles
 *
 * By equal steps in z = ln(p/median)/sd over -10..10; quantiles straight between steps: good to about 1e-6 of themselves. It is a mix of belief and evidence and
 * goes beyond the test: never show it without what the test alone says.
 */
import type { UnitCount } from "./alike.ts";
import { checkRate } from "./clean-runs.ts";
import { checkConfidence, checkCount } from "./count-interval.ts";

export const trustInModel = 1.5;
export function rateWithModel(
  { median, sd = trustInModel }: { median: number; sd?: number | undefined },
  { failed, run }: UnitCount,
  confidence = 0.95,
): { median: number; atMost: number } {
  checkRate(median);
  checkCount(failed, run);
  checkConfidence(confidence);
  if (!(sd > 0 && sd < 10))
    throw new RangeError(`trust in the model is a log sd of ${sd}; it must lie between 0 and 10`);
  const steps = 8000;
  const z = (i: number): number => -10 + (20 * i) / steps;
  const log = new Float64Array(steps + 1);
  let top = Number.NEGATIVE_INFINITY;
  for (let i = 0; i <= steps; i++) {
    const lnRate = Math.log(median) + sd * z(i);
    log[i] =
      lnRate < 0
        ? -0.5 * z(i) ** 2 + failed * lnRate + (run - failed) * Math.log1p(-Math.exp(lnRate))
        : Number.NEGATIVE_INFINITY;
    if (Number.isNaN(log[i])) log[i] = Number.NEGATIVE_INFINITY;
    top = Math.max(top, log[i]!);
  }
  const upTo = new Float64Array(steps + 1);
  for (let i = 1; i <= steps; i++) upTo[i] = upTo[i - 1]! + (Math.exp(log[i - 1]! - top) + Math.exp(log[i]! - top)) / 2;
  const at = (share: number): number => {
    const wanted = share * upTo[steps]!;
    let low = 0;
    let high = steps;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (upTo[middle]! < wanted) low = middle;
      else high = middle;
    }
    return median * Math.exp(sd * (z(low) + ((wanted - upTo[low]!) / (upTo[high]! - upTo[low]!)) * (z(high) - z(low))));
  };
  return { median: at(0.5), atMost: at(confidence) };
}
