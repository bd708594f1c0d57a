import { columnsFor, type LimitStates, leastOf } from "./limit-states.ts";
import { finished, type Steps } from "./steps.ts";
import type { Stream } from "./stream.ts";

/** What one run of subset simulation found. */
export interface Subset {
  /** Estimated chance; where nothing failed, the chance down to which was looked. */
  readonly p: number;
  /** Coefficient of variation of p, by the usual rule for dependent draws. */
  readonly cov: number;
  readonly found: boolean;
  /** The failing points of the last level, column by column, and how many they are. */
  readonly points: readonly Float64Array[];
  readonly count: number;
}
export interface SubsetOptions {
  readonly size?: number;
  /** Only this limit state; any of them where left out. */
  readonly only?: number;
  /** Chance below which nothing is looked for. */
  readonly least?: number;
}
const share = 0.1;
/** Variance of a level from draws of chains, over that of independent ones (measured, on the reliability set of validation/). */
const dependent = 3;
const aimed = 0.44;

/**
 * Subset simulation with adaptive conditional sampling: a rare event as a chain of frequent ones.
 *
 *     p = product over levels of P(g < b_l | g < b_(l-1)),   b_l the 10 % point of g on its level,   the last b is 0
 *     z' = sqrt(1 - t^2) z + t e,   t_i = min(1, lambda s_i),   e ~ N(0, 1),   kept where g(z') <= b
 *
 * s_i deviation of coordinate i over the level's seeds; lambda goes with the share of moves kept, towards 0.44. Au and Beck 2001,
 * Papaioannou et al. 2015 (memory). It needs no slopes, so it finds what first-order points miss; but it follows the level sets of g, so an
 * early slope that points the wrong way leads it astray. Slightly biased upwards, by about cov^2. A level that does not come nearer
 * to failing ends it: what is left cannot fail as far as it was looked.
 */
export function* subsetInSteps(limits: LimitStates, stream: Stream, options: SubsetOptions = {}): Steps<Subset> {
  const { size = 1000, only, least = 1e-12 } = options;
  const d = limits.dimensions;
  const chains = Math.round(size * share);
  const long = Math.round(1 / share);
  let z = columnsFor(d, size);
  let next = columnsFor(d, size);
  let g = new Float64Array(size);
  let gNext = new Float64Array(size);
  const now = columnsFor(d, chains);
  const gNow = new Float64Array(chains);
  const moved = columnsFor(d, chains);
  const gMoved = new Float64Array(chains);
  const s = new Float64Array(d);
  const order = new Uint32Array(size);
  for (const column of z) for (let i = 0; i < size; i++) column[i] = stream.normal();
  leastOf(limits.at(z, size), size, g, only);
  let p = 1;
  let variance = 0;
  let lambda = 0.6;
  let before = Number.POSITIVE_INFINITY;
  for (let level = 0; ; level++) {
    yield;
    const factor = level > 0 ? dependent : 1;
    for (let i = 0; i < size; i++) order[i] = i;
    const values = g;
    order.sort((a, b) => values[a]! - values[b]!);
    const b = g[order[chains - 1]!]!;
    let failing = 0;
    for (let i = 0; i < size; i++) if (g[i]! < 0) failing++;
    if (failing >= chains) {
      const q = failing / size;
      const points = z.map((column) => Float64Array.from(order.subarray(0, failing), (i) => column[i]!));
      return {
        p: p * q,
        cov: Math.sqrt(variance + ((1 - q) / (q * size)) * factor),
        found: true,
        points,
        count: failing,
      };
    }
    variance += ((1 - share) / (share * size)) * factor;
    p *= share;
    if (p < least || !(b < before)) {
      const points = z.map((column) => Float64Array.from(order.subarray(0, failing), (i) => column[i]!));
      // A few that fail, where no level comes nearer: their share is all that can be said.
      if (failing > 0 && !(b < before)) {
        const q = failing / size;
        return { p: (p / share) * q, cov: Math.sqrt(variance + factor / failing), found: true, points, count: failing };
      }
      return { p, cov: Math.sqrt(variance), found: false, points, count: failing };
    }
    before = b;
    for (let i = chains - 1; i > 0; i--) {
      const j = Math.floor(stream.uniform() * (i + 1));
      const kept = order[i]!;
      order[i] = order[j]!;
      order[j] = kept;
    }
    for (let i = 0; i < d; i++) {
      const column = z[i]!;
      let sum = 0;
      let squares = 0;
      for (let c = 0; c < chains; c++) {
        const v = column[order[c]!]!;
        now[i]![c] = v;
        sum += v;
        squares += v * v;
      }
      s[i] = Math.sqrt(Math.max(1e-12, squares / chains - (sum / chains) ** 2));
    }
    for (let c = 0; c < chains; c++) gNow[c] = g[order[c]!]!;
    for (let step = 0; step < long; step++) {
      if (step > 0) {
        for (let i = 0; i < d; i++) {
          const t = Math.min(1, lambda * s[i]!);
          const r = Math.sqrt(1 - t * t);
          const [from, to] = [now[i]!, moved[i]!];
          for (let c = 0; c < chains; c++) to[c] = r * from[c]! + t * stream.normal();
        }
        leastOf(limits.at(moved, chains), chains, gMoved, only);
        let accepted = 0;
        for (let c = 0; c < chains; c++) {
          if (!(gMoved[c]! <= b)) continue;
          accepted++;
          gNow[c] = gMoved[c]!;
          for (let i = 0; i < d; i++) now[i]![c] = moved[i]![c]!;
        }
        lambda *= Math.exp((accepted / chains - aimed) / Math.sqrt(step));
        lambda = Math.min(3, Math.max(0.02, lambda));
        if (step % 3 === 0) yield;
      }
      for (let i = 0; i < d; i++) next[i]!.set(now[i]!, step * chains);
      gNext.set(gNow, step * chains);
    }
    [z, next] = [next, z];
    [g, gNext] = [gNext, g];
  }
}
export const subset = (limits: LimitStates, stream: Stream, options?: SubsetOptions): Subset =>
  finished(subsetInSteps(limits, stream, options));
