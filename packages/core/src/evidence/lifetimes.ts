import { power } from "../quantity/power.ts";
/**
 * How long parts last: Weibull's law fitted by greatest likelihood, and the share that survives (Kaplan and Meier).
 *
 *     S(t) = exp(-(t/eta)^beta);   log-likelihood = sum over failed [ln beta - beta ln eta + (beta-1) ln t - (t/eta)^beta] - sum over stopped (t/eta)^beta
 *     eta^beta = sum t^beta/r,   1/beta + sum over failed ln t/r = sum t^beta ln t/sum t^beta
 *
 * eta  life that 63.2 % do not reach     beta  1 chance, above it wear, below it early faults     r  number failed     sums over failed and stopped together
 *
 * Stopped units were still whole when their test ended, for a reason that had nothing to do with them. Fewer than about 10 failures leave beta too high by some
 * tenths. Survival: product over failure times of 1 - d/at risk. Equations: memory.
 */
import { rootBetween } from "../study/root.ts";
import { lnGamma } from "./gamma.ts";

export interface WeibullFit {
  readonly eta: number;
  readonly beta: number;
  readonly logLikelihood: number;
  readonly mean: number;
  readonly sd: number;
  readonly warnings: readonly string[];
}
export function weibullFit(failed: readonly number[], stopped: readonly number[] = []): WeibullFit {
  const all = [...failed, ...stopped];
  for (const t of all)
    if (!(t > 0 && t < Number.POSITIVE_INFINITY)) throw new RangeError(`a life is ${t}; it must be above 0 and finite`);
  const r = failed.length;
  if (r < 2) throw new RangeError(`${r} failed; a law of lifetimes takes at least 2 failures`);
  if (all.every((t) => t === all[0]))
    throw new RangeError("all lives are equal: no law of lifetimes has so little scatter");
  const top = Math.max(...all);
  const logs = all.map((t) => Math.log(t / top));
  const meanLog = failed.reduce((sum, t) => sum + Math.log(t / top), 0) / r;
  // Falls through its only root as beta grows: 1/beta falls and the weighted mean of ln t rises.
  const f = (beta: number): number => {
    let powers = 0;
    let weighted = 0;
    for (const l of logs) {
      const p = Math.exp(beta * l);
      powers += p;
      weighted += p * l;
    }
    return 1 / beta + meanLog - weighted / powers;
  };
  let high = 1;
  while (f(high) > 0 && high < 1e6) high *= 2;
  const beta = rootBetween(f, 1e-3, high, 1e-14 * high);
  if (beta === undefined) throw new RangeError("these lives fit no Weibull law: its shape runs off beyond all bounds");
  const powers = logs.reduce((sum, l) => sum + Math.exp(beta * l), 0);
  const eta = top * power(powers / r, 1 / beta);
  const logLikelihood = r * (Math.log(beta) - beta * Math.log(eta)) + (beta - 1) * (meanLog + Math.log(top)) * r - r;
  const gamma = (k: number): number => Math.exp(lnGamma(1 + k / beta));
  const warnings = r < 10 ? [`${r} failures: below about 10 the shape comes out too high`] : [];
  return { eta, beta, logLikelihood, mean: eta * gamma(1), sd: eta * Math.sqrt(gamma(2) - gamma(1) ** 2), warnings };
}
/** Share that survives past each time of failure, in order. A unit stopped at a time of failure counts as at risk there. */
export function survival(
  failed: readonly number[],
  stopped: readonly number[] = [],
): { time: number; share: number }[] {
  for (const t of [...failed, ...stopped])
    if (!(t >= 0)) throw new RangeError(`a life is ${t}; it must not be below 0`);
  if (failed.length + stopped.length === 0) throw new RangeError("no unit was tested: nothing is known of survival");
  let share = 1;
  return [...new Set(failed)]
    .sort((a, b) => a - b)
    .map((time) => {
      const died = failed.filter((t) => t === time).length;
      const atRisk = failed.filter((t) => t >= time).length + stopped.filter((t) => t >= time).length;
      share *= 1 - died / atRisk;
      return { time, share };
    });
}
