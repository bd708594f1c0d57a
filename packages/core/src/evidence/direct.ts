/**
 * An input that was guessed, after it has been measured directly.
 *
 *     scatter known:    1/v = 1/v0 + n/w^2,   m = v (m0/v0 + n xbar/w^2);   next unit N(m, v + w^2)
 *     scatter unknown:  k = k0 + n,   m = (k0 m0 + n xbar)/k,   nu = nu0 + n,   nu s^2 = nu0 s0^2 + SS + (k0 n/k)(xbar - m0)^2
 *                       belief in the middle: Student t, nu, scale s/sqrt(k);   next unit: Student t, nu, scale s sqrt(1 + 1/k)
 *
 * All of ln x: frictions, peel and tear forces are positive and scatter by a share. n readings of mean xbar and squares SS about it; v0, m0, s0 from the guess, which is
 * worth k0 = 1 reading and nu0 = 2 of its scatter. Normal law with a normal-inverse-chi-square belief; algebra of conjugate laws (memory).
 *
 * n counts units or reels, not readings: average the readings of one reel first. The belief in the middle shrinks with n, the scatter of the next unit does not:
 * keep both apart.
 */
import { endsOfGuess, phiInverse } from "../quantity/law.ts";
import { betaQuantile } from "./beta.ts";
import { summary } from "./summary.ts";

export interface Measured {
  /** Middle after the readings. */
  readonly median: number;
  /** Log sd of the belief in that middle; for the t law, its scale. */
  readonly sd: number;
  /** Log sd of one unit about it. */
  readonly scatter: number;
  /** Degrees of freedom; infinite where the scatter is known. */
  readonly nu: number;
  /** Holds the middle with a share of belief. */
  readonly middle: (share: number) => readonly [number, number];
  /** Holds the next unit with a share of belief. */
  readonly next: (share: number) => readonly [number, number];
  readonly warnings: readonly string[];
}
/** What a range low..high of a guess says of ln x: its ends hold 95 %. */
export function guessOf(low: number, high: number): { median: number; sd: number } {
  if (!(low > 0 && high > low))
    throw new RangeError(`a guess from ${low} to ${high}; both ends must be above 0, the first the lower`);
  return { median: Math.sqrt(low * high), sd: Math.log(high / low) / (2 * endsOfGuess) };
}
/** One reading per unit or reel, scatter between them known as a log sd. */
export function measuredWithScatter(
  guess: { readonly median: number; readonly sd: number },
  readings: readonly number[],
  scatter: number,
): Measured {
  const { n, mean } = logsOf(guess.median, readings);
  for (const [name, sd] of [
    ["guess", guess.sd],
    ["scatter", scatter],
  ] as const)
    if (!(sd > 0 && sd < Number.POSITIVE_INFINITY))
      throw new RangeError(`the log sd of the ${name} is ${sd}; it must be above 0`);
  const precision = 1 / guess.sd ** 2 + n / scatter ** 2;
  const m = (Math.log(guess.median) / guess.sd ** 2 + (n * mean) / scatter ** 2) / precision;
  const sd = 1 / Math.sqrt(precision);
  return told(m, sd, scatter, Math.hypot(sd, scatter), Number.POSITIVE_INFINITY, n);
}
/** One reading per unit or reel, scatter not known but guessed as a log sd. */
export function measured(
  guess: { readonly median: number; readonly scatter: number; readonly worth?: number; readonly scatterWorth?: number },
  readings: readonly number[],
): Measured {
  const { n, mean, squares } = logsOf(guess.median, readings);
  const { scatter: s0, worth: k0 = 1, scatterWorth: nu0 = 2 } = guess;
  if (!(s0 > 0 && k0 > 0 && nu0 > 0))
    throw new RangeError(`a guessed scatter of ${s0}, worth ${k0} and ${nu0} readings; all must be above 0`);
  const m0 = Math.log(guess.median);
  const k = k0 + n;
  const nu = nu0 + n;
  const m = (k0 * m0 + n * mean) / k;
  const s = Math.sqrt((nu0 * s0 * s0 + squares + ((k0 * n) / k) * (mean - m0) ** 2) / nu);
  return told(m, s / Math.sqrt(k), s, s * Math.sqrt(1 + 1 / k), nu, n);
}
/** Quantile of Student's t law with nu degrees of freedom; the normal law's where nu is infinite. */
export function studentQuantile(share: number, nu: number): number {
  if (!(share > 0 && share < 1)) throw new RangeError(`a share is ${share}; it must lie between 0 and 1`);
  if (!(nu > 0)) throw new RangeError(`${nu} degrees of freedom; it takes more than 0`);
  if (nu > 1e8) return phiInverse(share);
  const tail = Math.min(share, 1 - share);
  const sign = share < 0.5 ? -1 : 1;
  // t^2/(nu + t^2) is beta(1/2, nu/2); far out its complement keeps the digits.
  const near = betaQuantile(1 - 2 * tail, 0.5, nu / 2, 2 * tail);
  if (near < 0.5) return sign * Math.sqrt((nu * near) / (1 - near));
  const far = betaQuantile(2 * tail, nu / 2, 0.5, 1 - 2 * tail);
  return sign * Math.sqrt((nu * (1 - far)) / far);
}

function logsOf(median: number, readings: readonly number[]): { n: number; mean: number; squares: number } {
  if (!(median > 0 && median < Number.POSITIVE_INFINITY))
    throw new RangeError(`a guess of ${median}; it must be above 0`);
  for (const x of readings)
    if (!(x > 0 && x < Number.POSITIVE_INFINITY)) throw new RangeError(`a reading is ${x}; it must be above 0`);
  const { n, mean, sd = 0 } = summary(readings.map(Math.log));
  return { n, mean, squares: (n - 1) * sd * sd };
}
function told(m: number, sd: number, scatter: number, nextSd: number, nu: number, n: number): Measured {
  const within = (scale: number) => (share: number) => {
    const reach = scale * studentQuantile((1 + share) / 2, nu);
    return [Math.exp(m - reach), Math.exp(m + reach)] as const;
  };
  const warnings =
    n < 3
      ? [
          `${n} ${n === 1 ? "unit or reel" : "units or reels"} measured: their scatter is mostly guessed; measure at least 3`,
        ]
      : [];
  return { median: Math.exp(m), sd, scatter, nu, middle: within(sd), next: within(nextSd), warnings };
}
