/**
 * A frozen prediction held against what came out.
 *
 *     inside    low <= y <= high
 *     E = y - median,   u_val = sqrt(u_y^2 + u_p^2),   agreed where |E| <= 1.96 u_val
 *     counts    agreed where 2 min(P(X <= k | p_low), P(X >= k | p_high)) >= 0.05,   X binomial of n
 *
 * y  outcome, u_y its standard uncertainty     u_p  that of the prediction, (high - low)/3.92     k of n pieces failed
 * p_low, p_high  ends of the chance that was foretold for one piece: all pieces share one truth, so the kinder end counts on either side
 *
 * The comparison error is held against the validation uncertainty, as validation standards do (memory): a coarse reading agrees with much and shows little, so u_val
 * stands beside every score. Numbers on a log scale are compared there. Agreement of one trial shows that the trial could not tell them apart.
 */

import { lnFactorial } from "../evidence/contingency.ts";
import { endsOfGuess } from "../quantity/law.ts";
import type { Frozen } from "./frozen.ts";

/** What came out of a trial. */
export type Came =
  | { readonly kind: "value"; readonly value: number; readonly uncertainty: number }
  | { readonly kind: "pieces"; readonly failed: number; readonly run: number };
export interface Score {
  readonly frozen: string;
  readonly trial: string;
  readonly question: string;
  readonly came: Came;
  /** Whether the outcome lies in the interval that was foretold; undefined for counts. */
  readonly inside: boolean | undefined;
  /** Outcome less prediction, and the validation uncertainty, both of one standard deviation and in the same unit: shares where `log`. */
  readonly error: number | undefined;
  readonly validation: number | undefined;
  readonly log: boolean;
  /** Chance of an outcome as far out, for counts. */
  readonly chance: number | undefined;
  readonly agreed: boolean;
}

export function scored(frozen: Frozen, came: Came): Score {
  const { id, trial, question, predicted, fails } = frozen;
  const base = { frozen: id, trial, question, came };
  if (came.kind === "pieces") {
    if (!fails) throw new RangeError(`${id} foretold no pieces, so ${trial} can't be held against it by counting them`);
    const chance = tailOf(came.failed, came.run, fails);
    return {
      ...base,
      inside: undefined,
      error: undefined,
      validation: undefined,
      log: false,
      chance,
      agreed: chance >= 0.05,
    };
  }
  if (!predicted) throw new RangeError(`${id} foretold no value, so ${trial} can't be held against it by a reading`);
  const { median, low, high } = predicted;
  const { value, uncertainty } = came;
  if (!(uncertainty >= 0)) throw new RangeError(`an uncertainty of ${uncertainty}; it must not be below 0`);
  const log = low > 0 && value > 0;
  const on = (v: number): number => (log ? Math.log(v) : v);
  const error = on(value) - on(median);
  const validation = Math.hypot(log ? uncertainty / value : uncertainty, (on(high) - on(low)) / (2 * endsOfGuess));
  return {
    ...base,
    inside: value >= low && value <= high,
    error,
    validation,
    log,
    chance: undefined,
    agreed: Math.abs(error) <= endsOfGuess * validation,
  };
}
/** Chance of k of n or farther out, at whichever end of what was foretold is kinder; 1 at most. */
function tailOf(k: number, n: number, { low, high }: { readonly low: number; readonly high: number }): number {
  if (!(Number.isInteger(k) && Number.isInteger(n) && n > 0 && k >= 0 && k <= n))
    throw new RangeError(`${k} of ${n} pieces failed; both must be whole numbers, the first no greater`);
  const from = (p: number, first: number, last: number): number => {
    const power = (x: number, m: number): number => (m === 0 ? 0 : m * Math.log(x));
    let sum = 0;
    for (let j = first; j <= last; j++)
      sum += Math.exp(lnFactorial(n) - lnFactorial(j) - lnFactorial(n - j) + power(p, j) + power(1 - p, n - j));
    return sum;
  };
  return Math.min(1, 2 * Math.min(from(low, 0, k), from(high, k, n)));
}
