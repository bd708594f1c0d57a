import { phi } from "../quantity/law.ts";
import { dot, length } from "./first-order.ts";
import { columnsFor, type LimitStates } from "./limit-states.ts";
import { finished, type Steps } from "./steps.ts";
import type { Stream } from "./stream.ts";

/** What draws about failing points say of the chance of failing. */
export interface Mixture {
  readonly p: number;
  readonly cov: number;
  /** Effective number of failing draws, (sum w)^2 / sum w^2. */
  readonly effective: number;
  /** Chance that limit state k fails, alone or with others; and the coefficient of variation of each. */
  readonly each: Float64Array;
  readonly eachCov: Float64Array;
  /** Share of p by the limit state that is deepest in failure. */
  readonly split: Float64Array;
  readonly draws: number;
}
export interface MixtureOptions {
  /** Coefficient of variation at which it stops. */
  readonly cov?: number;
  readonly most?: number;
  readonly batch?: number;
}
const fewest = 1000;
/** After that many draws with an effective number of failing ones under 6 the weights are starved. */
const hopeless = 6000;
/** Share and width of the draws that go everywhere, so that no weight runs away. */
const everywhere = 0.1;
const wide = 1.5;

/**
 * Importance sampling from a mixture about failing points:
 *
 *     h = 0.1 N(0, 1.5^2 I) + 0.9 sum over j of pi_j N(c_j, I),   pi_j ~ 0.6 Phi(-|c_j|)/sum + 0.4/m
 *     p = mean of [any g_k < 0] phi/h
 *
 * Unbiased whatever the centres; where they miss a region, its rare heavy weights seldom come, and p reads low. So it is never believed
 * alone (rare.ts). Works to some 100 coordinates where failing is decided by few directions; weights starve where it is decided by all.
 */
export function* mixtureInSteps(
  limits: LimitStates,
  centres: readonly Float64Array[],
  stream: Stream,
  options: MixtureOptions = {},
): Steps<Mixture> {
  const { cov = 0.05, most = 20_000, batch = 500 } = options;
  const d = limits.dimensions;
  const m = centres.length;
  const tails = centres.map((c) => phi(-length(c)));
  const total = tails.reduce((a, b) => a + b, 0);
  const rest = m > 0 ? 1 - everywhere : 0;
  const pi = tails.map((t) => rest * (total > 0 ? (0.6 * t) / total + 0.4 / m : 1 / m));
  const broad = 1 - rest;
  const halves = centres.map((c) => 0.5 * dot(c, c));
  const narrow = 0.5 * (1 - 1 / (wide * wide));
  const logWide = -d * Math.log(wide);
  const states = limits.names.length;
  const z = columnsFor(d, batch);
  const point = new Float64Array(d);
  const each = new Float64Array(states);
  const eachSquares = new Float64Array(states);
  const split = new Float64Array(states);
  let n = 0;
  let sum = 0;
  let squares = 0;
  while (n < most) {
    for (let b = 0; b < batch; b++) {
      let u = stream.uniform();
      if (u < broad) for (let i = 0; i < d; i++) z[i]![b] = wide * stream.normal();
      else {
        u -= broad;
        let j = 0;
        while (j < m - 1 && u > pi[j]!) u -= pi[j++]!;
        const c = centres[j]!;
        for (let i = 0; i < d; i++) z[i]![b] = c[i]! + stream.normal();
      }
    }
    n += batch;
    const values = limits.at(z, batch);
    for (let b = 0; b < batch; b++) {
      let deepest = -1;
      let least = 0;
      for (let k = 0; k < states; k++) {
        const g = values[k]![b]!;
        if (g >= 0) continue;
        if (deepest < 0 || !(g >= least)) {
          deepest = k;
          least = Number.isNaN(g) ? Number.NEGATIVE_INFINITY : g;
        }
      }
      if (deepest < 0) continue;
      for (let i = 0; i < d; i++) point[i] = z[i]![b]!;
      let h = broad * Math.exp(logWide + narrow * dot(point, point));
      for (let j = 0; j < m; j++) h += pi[j]! * Math.exp(dot(centres[j]!, point) - halves[j]!);
      const w = 1 / h;
      sum += w;
      squares += w * w;
      split[deepest]! += w;
      for (let k = 0; k < states; k++)
        if (!(values[k]![b]! >= 0)) {
          each[k]! += w;
          eachSquares[k]! += w * w;
        }
    }
    const mean = sum / n;
    if (n >= fewest && mean > 0 && spread(sum, squares, n) < cov) break;
    if (n >= hopeless && sum * sum <= 6 * squares) break;
    yield;
  }
  return {
    // A mean of weights may come out a little over 1 where nearly all fails.
    p: Math.min(1, sum / n),
    cov: spread(sum, squares, n),
    effective: squares > 0 ? (sum * sum) / squares : 0,
    each: each.map((s) => Math.min(1, s / n)),
    eachCov: each.map((s, k) => spread(s, eachSquares[k]!, n)),
    split: split.map((s) => (sum > 0 ? s / sum : 0)),
    draws: n,
  };
}
const spread = (sum: number, squares: number, n: number): number => {
  const mean = sum / n;
  return mean > 0 ? Math.sqrt(Math.max(0, squares / n - mean * mean) / n) / mean : Number.POSITIVE_INFINITY;
};
export const mixture = (
  limits: LimitStates,
  centres: readonly Float64Array[],
  stream: Stream,
  options?: MixtureOptions,
): Mixture => finished(mixtureInSteps(limits, centres, stream, options));
