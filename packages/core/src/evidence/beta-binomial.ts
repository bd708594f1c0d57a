/**
 * Units that differ, in closed form: every unit has a rate of its own, drawn from a beta law.
 *
 *     P(k of n) = C(n, k) B(a + k, b + n - k)/B(a, b),   mean rate a/(a + b),   rho = 1/(a + b + 1)
 *     clean run  P(0 of n) = B(a, b + n)/B(a, b)
 *     design effect  1 + (n - 1) rho,   effective cycles  m n/(1 + (n - 1) rho)      m units of n cycles each (Kish 1965; memory)
 *
 * rho  correlation of two cycles of one unit; 0 alike, 1 a unit fails always or never. With equal units effective cycles tend to m/rho: more cycles on
 * the same units then tell nothing more. Algebra; holds for cycles that are alike within a unit.
 */
import { rootBetween } from "../study/root.ts";
import { lnBeta } from "./beta.ts";
import { checkRate } from "./clean-runs.ts";
import { lnFactorial } from "./contingency.ts";
import { checkConfidence, checkCount } from "./count-interval.ts";

/** Chance of k failures in n cycles of a unit drawn from beta(a, b). */
export function mixedChance(k: number, n: number, a: number, b: number): number {
  checkCount(k, n);
  const choose = lnFactorial(n) - lnFactorial(k) - lnFactorial(n - k);
  return Math.exp(choose + lnBeta(a + k, b + n - k) - lnBeta(a, b));
}
/** Chance that a unit drawn from beta(a, b) runs n cycles without a failure. */
export function mixedClean(n: number, a: number, b: number): number {
  checkCount(0, n);
  return Math.exp(lnMixedClean(n, a, b));
}
/** Logarithm of B(a, b + n)/B(a, b): a product over the cycles while they are few, else by gamma functions' own remainders. */
function lnMixedClean(n: number, a: number, b: number): number {
  if (n <= 64) {
    let log = 0;
    for (let i = 0; i < n; i++) log += Math.log1p(-a / (a + b + i));
    return log;
  }
  return lnBeta(a, b + n) - lnBeta(a, b);
}
/** Mean and variance of the count of one unit. */
export function mixedMoments(n: number, a: number, b: number): { mean: number; variance: number } {
  checkCount(0, n);
  const p = a / (a + b);
  return { mean: n * p, variance: n * p * (1 - p) * designEffect(n, 1 / (a + b + 1)) };
}
export function designEffect(cyclesOfUnit: number, rho: number): number {
  if (!(rho >= 0 && rho <= 1)) throw new RangeError(`a correlation within units is ${rho}; it must lie from 0 to 1`);
  if (!(cyclesOfUnit >= 1)) throw new RangeError(`${cyclesOfUnit} cycles of a unit; it takes 1 or more`);
  return 1 + (cyclesOfUnit - 1) * rho;
}
/** Independent cycles that the cycles of these units are worth. */
export function effectiveCycles(cyclesOfUnits: readonly number[], rho: number): number {
  if (cyclesOfUnits.length === 0) throw new RangeError("no unit was run: its cycles are worth nothing");
  const total = cyclesOfUnits.reduce((a, b) => a + b, 0);
  const mean = cyclesOfUnits.reduce((sum, n) => sum + n * n, 0) / total;
  return total / designEffect(Math.max(1, mean), rho);
}
/** The mean rate that is not exceeded when m units ran n cycles each without a failure, with a known rho: root of `m ln P(0 of n) = ln(1 - C)`. */
export function meanRateAtMost(units: number, cyclesEach: number, rho: number, confidence = 0.95): number {
  checkCount(0, cyclesEach);
  checkCount(0, units);
  checkConfidence(confidence);
  checkRate(rho);
  const out = Math.log1p(-confidence);
  const more = 1 / rho - 1;
  const f = (lnRate: number): number => {
    const rate = Math.exp(lnRate);
    return units * lnMixedClean(cyclesEach, rate * more, (1 - rate) * more) - out;
  };
  const root = rootBetween(f, Math.log(1e-15), Math.log1p(-1e-12), 1e-14);
  if (root === undefined)
    throw new RangeError(`${units} units at rho ${rho} bound no rate at a confidence of ${confidence}`);
  return Math.exp(root);
}
