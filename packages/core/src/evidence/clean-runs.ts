/**
 * How many cycles without a failure, or with few, show that the rate is below a promise.
 *
 *     none failed:  (1 - p)^n <= 1 - C,   n = ln(1 - C)/ln(1 - p)
 *     k allowed:    P(X <= k | n, p) <= 1 - C,   X binomial
 *
 * p  rate to be excluded, above 0 and below 1     C  confidence     n  cycles
 *
 * Algebra of the binomial law: cycles that fail alike and each by itself. n is the least whole number that does it.
 */
import { betaAbove } from "./beta.ts";
import { checkConfidence } from "./count-interval.ts";

/** Cycles that show a rate below `rate` when no more than `allowed` of them fail. */
export function cyclesToShow(rate: number, confidence = 0.95, allowed = 0): number {
  checkRate(rate);
  checkConfidence(confidence);
  if (!(Number.isInteger(allowed) && allowed >= 0))
    throw new RangeError(`${allowed} failures are allowed; it takes a whole number`);
  const out = 1 - confidence;
  // The chance of an apparent pass falls with n: halve between a run too short and one long enough. A hair of rounding is let through.
  const passes = (n: number): boolean => chanceToPass(rate, n, allowed) <= out * (1 + 1e-12);
  let short = allowed;
  let enough = Math.max(allowed + 1, Math.ceil(Math.log(out) / Math.log1p(-rate)));
  while (!passes(enough)) {
    short = enough;
    enough *= 2;
    if (!Number.isSafeInteger(enough)) throw new RangeError(`a rate of ${rate} is too small to be shown by counting`);
  }
  while (enough - short > 1) {
    const middle = Math.floor((short + enough) / 2);
    if (passes(middle)) enough = middle;
    else short = middle;
  }
  return enough;
}
/** Chance that a unit with that rate shows at most `allowed` failures in n cycles. */
export function chanceToPass(rate: number, n: number, allowed = 0): number {
  if (!(rate >= 0 && rate <= 1)) throw new RangeError(`a rate is ${rate}; it must lie from 0 to 1`);
  if (!(Number.isInteger(n) && n >= 0)) throw new RangeError(`${n} cycles; it takes a whole number`);
  if (!(Number.isInteger(allowed) && allowed >= 0))
    throw new RangeError(`${allowed} failures are allowed; it takes a whole number`);
  if (allowed >= n) return 1;
  if (allowed === 0) return Math.exp(n * Math.log1p(-rate));
  return betaAbove(rate, allowed + 1, n - allowed);
}
/** The rate that n cycles without a failure exclude: `1 - (1 - C)^(1/n)`, about 3/n at 95 %. The same bounds the share of bad units among n good ones. */
export function rateShownByClean(n: number, confidence = 0.95): number {
  if (!(Number.isInteger(n) && n > 0)) throw new RangeError(`${n} clean cycles show nothing; it takes 1 or more`);
  checkConfidence(confidence);
  return -Math.expm1(Math.log1p(-confidence) / n);
}

export function checkRate(rate: number): void {
  if (!(rate > 0 && rate < 1)) throw new RangeError(`a rate is ${rate}; it must lie between 0 and 1`);
}
