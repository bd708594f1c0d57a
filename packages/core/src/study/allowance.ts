import type { Given } from "../quantity/given.ts";
import { beliefColumn, beliefDraws, type Cell, oneSd, scatterColumn, scatterDraws, type Standing } from "./cell.ts";
import type { Deviates } from "./deviates.ts";
import type { Column } from "./realise.ts";

/**
 * Deciding gaps of a cell over belief: at every belief draw the allowance quantile of each check's gap over scatter.
 *
 * The true quantile at all belief draws would cost beliefDraws times scatterDraws evaluations. The cheap way: the gap with scatter as
 * written, minus a scatter allowance `kappa s`. s is the gap's standard deviation by first differences at every belief draw; kappa,
 * the allowance over s, comes from true draws at 20 spread belief draws: the three nearest to the 5, 50 and 95 % points of the gap fit it
 * (interpolated in the gap), the other 17 test it. Where their error matters (more than 10 % of the spread of the deciding gap, with belief
 * draws within three times the error of 0) the draws near 0 get their true quantile.
 */
export interface Deciding {
  /** Deciding gap at each belief draw. */
  readonly gap: Float64Array;
  /** Chance over scatter that the window breaks, at each belief draw. */
  readonly chance: Float64Array;
  /** Gap with scatter as written, at each belief draw. */
  readonly written: Float64Array;
  /** Scatter allowance over the gap's standard deviation, at a gap as written. */
  readonly kappa: (gap: number) => number;
  /** Largest error of the cheap way where it was tested, in the gap's unit; 0 where true draws or nothing scatters. */
  readonly error: number;
  /** Belief draws that got their true quantile. */
  readonly drawn: number;
}

const tests = 20;
const fitted = [0.05, 0.5, 0.95] as const;

export function decide(cell: Cell, deviates: Deviates): Deciding[] {
  const allow = cell.scene.requirement.allowPairs;
  const belief = (given: Given): Column => beliefColumn(deviates, given);
  const written = cell.gaps({ n: beliefDraws, unknown: belief });
  if (cell.scatters.length === 0) return written.map((w) => ({ gap: w, chance: w.map((g) => (g < 0 ? 1 : 0)), written: w, kappa: () => 0, error: 0, drawn: 0 }));

  const spread = spreadOver(cell, beliefDraws, belief, written);
  const scattered = scatterStanding(deviates);
  const at = (draw: number): Float64Array[] =>
    cell.gaps({ n: scatterDraws, unknown: (given) => beliefColumn(deviates, given)[draw]!, scatter: scattered });
  const where = Array.from({ length: tests }, (_, i) => Math.floor(((i + 0.5) * beliefDraws) / tests));
  // A check none of whose unknowns moves it has one belief point: the first stands for all.
  const points = where.map((draw) => ({ draw, columns: at(draw).map((c) => c.sort()) }));

  return written.map((w, c) => {
    const s = spread[c]!;
    const truth = points.map(({ draw, columns }) => ({
      draw,
      gap: w[draw]!,
      s: s[draw]!,
      sorted: columns[c]!,
      quantile: quantileOf(columns[c]!, allow),
    }));
    const usable = truth.filter((t) => t.s > 0 && Number.isFinite(t.quantile) && Number.isFinite(t.gap)).sort((a, b) => a.gap - b.gap);
    if (usable.length === 0) {
      return { gap: w, chance: w.map((g) => (g < 0 ? 1 : 0)), written: w, kappa: () => 0, error: 0, drawn: 0 };
    }
    const knots = [...new Set(fitted.map((p) => usable[Math.min(usable.length - 1, Math.floor(p * usable.length))]!))];
    const kappa = (g: number): number => between(knots, g, (t) => (t.gap - t.quantile) / t.s);
    const gap = w.map((g, k) => (Number.isFinite(g) ? g - kappa(g) * s[k]! : g));
    const chance = w.map((g, k) => (s[k]! > 0 && Number.isFinite(g) ? between(knots, g, (t) => shareBelow(t.sorted, t.gap - (g / s[k]!) * t.s)) : g < 0 ? 1 : 0));

    let error = 0;
    let squares = 0;
    for (const t of truth) {
      const e = gap[t.draw]! - t.quantile;
      if (!Number.isFinite(e)) continue;
      error = Math.max(error, Math.abs(e));
      squares += e * e;
    }
    const rms = Math.sqrt(squares / tests);
    let drawn = 0;
    if (rms > 0.1 * deviation(gap)) {
      for (let k = 0; k < beliefDraws; k++) {
        if (!(Math.abs(gap[k]!) < 3 * error)) continue;
        const column = at(k)[c]!.sort();
        gap[k] = quantileOf(column, allow);
        chance[k] = shareBelow(column, 0);
        drawn++;
      }
    }
    return { gap, chance, written: w, kappa, error: drawn > 0 ? 0 : error, drawn };
  });
}

/** Standard deviation of each check's gap over scatter by first differences, at every belief draw. */
export function spreadOver(cell: Cell, n: number, unknown: (given: Given) => Column, written: readonly Float64Array[], centre?: Standing["centre"]): Float64Array[] {
  const spread = written.map(() => new Float64Array(n));
  for (const { given, which } of cell.scatters) {
    const step = oneSd(given, which);
    const moved = cell.gaps({ n, unknown, scatter: (g, w) => (g === given && w === which ? step : undefined), ...(centre ? { centre } : {}) });
    moved.forEach((column, c) => {
      const s = spread[c]!;
      const w = written[c]!;
      for (let k = 0; k < n; k++) {
        const d = column[k]! - w[k]!;
        if (Number.isFinite(d)) s[k]! += d * d;
      }
    });
  }
  for (const s of spread) for (let k = 0; k < n; k++) s[k] = Math.sqrt(s[k]!);
  return spread;
}

/** Scatter coordinates of the 2000 draws, the same for every check and belief draw. */
export const scatterStanding =
  (deviates: Deviates, n = scatterDraws) =>
  (given: Given, which: number): Column =>
    scatterColumn(deviates, given, which, n);

/** The quantile of a sorted sample: the smallest value with at least that share at or below it. */
export function quantileOf(sorted: Float64Array, share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(share * sorted.length) - 1))]!;
}
/** Share of a sorted sample below x. */
function shareBelow(sorted: Float64Array, x: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (sorted[mid]! < x) low = mid + 1;
    else high = mid;
  }
  return low / sorted.length;
}
/** Linear between the knots in the gap, constant beyond the ends. */
function between<T extends { readonly gap: number }>(knots: readonly T[], g: number, f: (t: T) => number): number {
  const first = knots[0]!;
  const last = knots.at(-1)!;
  if (g <= first.gap || knots.length === 1) return f(first);
  if (g >= last.gap) return f(last);
  for (let i = 1; i < knots.length; i++) {
    const [a, b] = [knots[i - 1]!, knots[i]!];
    if (g > b.gap) continue;
    const t = b.gap > a.gap ? (g - a.gap) / (b.gap - a.gap) : 0;
    return (1 - t) * f(a) + t * f(b);
  }
  return f(last);
}
function deviation(x: Float64Array): number {
  let n = 0;
  let sum = 0;
  let squares = 0;
  for (const v of x) {
    if (!Number.isFinite(v)) continue;
    n++;
    sum += v;
    squares += v * v;
  }
  return n > 1 ? Math.sqrt(Math.max(0, squares / n - (sum / n) ** 2)) : 0;
}
