/**
 * An input that was guessed and may be nought or negative, after it has been measured directly: the same as direct.ts, in x itself.
 *
 *     k = k0 + n,   m = (k0 m0 + n xbar)/k,   nu = nu0 + n,   nu s^2 = nu0 s0^2 + SS + (k0 n/k)(xbar - m0)^2
 *     belief in the middle: Student t, nu, scale s/sqrt(k);   next unit: Student t, nu, scale s sqrt(1 + 1/k)
 *
 * n readings of mean xbar and squares SS about it, one a unit or reel; m0, s0 from the guess, worth k0 = 1 reading and nu0 = 2 of its scatter.
 * Normal law with a normal-inverse-chi-square belief; algebra of conjugate laws (memory). For what scatters by a share: direct.ts.
 */
import { studentQuantile } from "./direct.ts";
import { summary } from "./summary.ts";

export interface MeasuredPlain {
  readonly mean: number;
  /** Scale of the belief in the middle. */
  readonly sd: number;
  /** sd of one unit about it. */
  readonly scatter: number;
  readonly nu: number;
  /** Holds the middle with a share of belief. */
  readonly middle: (share: number) => readonly [number, number];
  /** Holds the next unit with a share of belief. */
  readonly next: (share: number) => readonly [number, number];
}
export function measuredPlain(
  guess: { readonly mean: number; readonly scatter: number; readonly worth?: number; readonly scatterWorth?: number },
  readings: readonly number[],
): MeasuredPlain {
  const { mean: m0, scatter: s0, worth: k0 = 1, scatterWorth: nu0 = 2 } = guess;
  if (!(Number.isFinite(m0) && s0 > 0 && k0 > 0 && nu0 > 0))
    throw new RangeError(
      `a guess of ${m0} with a scatter of ${s0}, worth ${k0} and ${nu0} readings; all but the first must be above 0`,
    );
  const { n, mean: xbar, sd = 0 } = summary(readings);
  const k = k0 + n;
  const nu = nu0 + n;
  const mean = (k0 * m0 + n * xbar) / k;
  const s = Math.sqrt((nu0 * s0 * s0 + (n - 1) * sd * sd + ((k0 * n) / k) * (xbar - m0) ** 2) / nu);
  const within = (scale: number) => (share: number) => {
    const reach = scale * studentQuantile((1 + share) / 2, nu);
    return [mean - reach, mean + reach] as const;
  };
  return {
    mean,
    sd: s / Math.sqrt(k),
    scatter: s,
    nu,
    middle: within(s / Math.sqrt(k)),
    next: within(s * Math.sqrt(1 + 1 / k)),
  };
}
