import type { Given } from "../quantity/given.ts";
import { phiInverse } from "../quantity/law.ts";
import { quantile, scatterStanding, spreadOver } from "./allowance.ts";
import { beliefColumn, beliefDraws, type Cell, scatterDraws } from "./cell.ts";
import type { Deviates } from "./deviates.ts";

/**
 * Deciding gaps where many cells lie side by side, as along a width: the gap as written less an allowance kappa s at every belief draw, as in
 * allowance.ts, but without its tests.
 *
 * s is the gap's standard deviation by first differences, kappa the allowance over it, from true draws at five spread belief draws. The
 * allowance changes slowly along a width: it is fitted at two cells and linear between them. The error is a few hundredths of s. Where that
 * could turn a verdict, `decide` has the word; where the gap is nought, `corrected`.
 */
export interface Allowance {
  /** For every side of a check, at each belief draw: what scatter takes from the gap as written, and the gap's standard deviation. */
  readonly sides: readonly { readonly takes: Float64Array; readonly sd: Float64Array }[];
}
/** One check over belief: its deciding gap, and its gap's standard deviation over scatter on the nearer side. */
export interface Decided {
  readonly gap: Float64Array;
  readonly sd: Float64Array;
}
const belief =
  (deviates: Deviates) =>
  (given: Given): Float64Array =>
    beliefColumn(deviates, given);
/** Gaps of a cell's sides with scatter as written, at each belief draw. */
export const gapsAsWritten = (cell: Cell, deviates: Deviates): Float64Array[] =>
  cell.sideGaps({ n: beliefDraws, unknown: belief(deviates) });

const fits = 5;
/** kappa of every side of every check, by the check's id, as a function of the side's gap. */
export type Kappas = ReadonlyMap<string, readonly ((gap: number) => number)[]>;
/** The kappas of a cell, of which the gaps as written and their spread are given. */
export function kappasOf(
  cell: Cell,
  written: readonly Float64Array[],
  spread: readonly Float64Array[],
  deviates: Deviates,
): Kappas {
  const knots = written.map(() => [] as { gap: number; kappa: number }[]);
  const scatter = scatterStanding(deviates);
  const columns: Float64Array[] = [];
  for (let i = 0; i < fits && cell.scatters.length > 0; i++) {
    const draw = Math.floor(((i + 0.5) * beliefDraws) / fits);
    const unknown = (given: Given): number => beliefColumn(deviates, given)[draw]!;
    cell.sideGaps({ n: scatterDraws, unknown, scatter }, columns).forEach((column, side) => {
      const [gap, s] = [written[side]![draw]!, spread[side]![draw]!];
      const kappa = (gap - quantile(column, cell.scene.requirement.allowPairs)) / s;
      if (Number.isFinite(kappa)) knots[side]!.push({ gap, kappa });
    });
  }
  for (const list of knots) list.sort((a, b) => a.gap - b.gap);
  return new Map(cell.checks.map((check, c) => [check.id, cell.sidesOf[c]!.map((side) => along(knots[side]!))]));
}
/** Linear between the knots, constant beyond them. */
function along(knots: readonly { readonly gap: number; readonly kappa: number }[]): (gap: number) => number {
  return (gap) => {
    const at = knots.findIndex((k) => k.gap >= gap);
    if (at <= 0) return (at < 0 ? knots.at(-1)?.kappa : knots[0]!.kappa) ?? 0;
    const [a, b] = [knots[at - 1]!, knots[at]!];
    return a.kappa + ((b.kappa - a.kappa) * (gap - a.gap)) / (b.gap - a.gap);
  };
}
/** The spread of a cell's gaps, for `kappasOf` and `allowancesBy`. */
export const spreadAsWritten = (cell: Cell, written: readonly Float64Array[], deviates: Deviates): Float64Array[] =>
  spreadOver(cell, beliefDraws, belief(deviates), written);
/** By check, in the order of the cell, what scatter takes. */
export function allowancesBy(
  kappas: Kappas,
  cell: Cell,
  written: readonly Float64Array[],
  spread: readonly Float64Array[],
): Allowance[] {
  return cell.checks.map((check, c) => ({
    sides: cell.sidesOf[c]!.map((side, i) => {
      const [w, sd] = [written[side]!, spread[side]!];
      const kappa = kappas.get(check.id)?.[i] ?? (() => 0);
      return { sd, takes: w.map((g, k) => (sd[k]! > 0 && Number.isFinite(g) ? kappa(g) * sd[k]! : 0)) };
    }),
  }));
}
/** Part of the way from one allowance of a check to another, at each belief draw. */
export function allowanceBetween(a: Allowance, b: Allowance, share: number): Allowance {
  if (a.sides.length !== b.sides.length) return b;
  const mean = (x: Float64Array, y: Float64Array) => x.map((v, k) => (1 - share) * v + share * y[k]!);
  return {
    sides: a.sides.map((one, i) => ({
      takes: mean(one.takes, b.sides[i]!.takes),
      sd: mean(one.sd, b.sides[i]!.sd),
    })),
  };
}
/** Deciding gaps of a cell's checks from their gaps as written and what scatter takes from them, at the first `n` draws of both. */
export function lessAllowance(
  cell: Cell,
  written: readonly Float64Array[],
  allowances: readonly Allowance[],
  n = beliefDraws,
): Decided[] {
  return cell.checks.map((_, c) => {
    const gap = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
    const sd = new Float64Array(n);
    cell.sidesOf[c]!.forEach((side, i) => {
      const w = written[side]!;
      const one = allowances[c]!.sides[i];
      for (let k = 0; k < n; k++) {
        const g = w[k]! - (one?.takes[k] ?? 0);
        if (g >= gap[k]!) continue;
        gap[k] = g;
        sd[k] = one?.sd[k] ?? 0;
      }
    });
    return { gap, sd };
  });
}

/** Belief draws that tell how far the quick way is off at one place. */
const told = 8;
/** A correction farther than this from their mean, in standard deviations, says that they tell nothing. */
const agreed = 0.2;
const rounds = 3;
/**
 * A point of belief with the allowance fitted anew where it counts. `least` makes one column of the checks' gaps, `point` picks its point:
 * true draws at the belief draws nearest to it tell by how many standard deviations each check's quick gap is off there, and all of its gaps
 * are corrected by that; again, until the point lies among the draws that tell. Undefined where they do not agree, or it never does.
 */
export function corrected(
  cell: Cell,
  quick: readonly Decided[],
  least: (list: readonly Decided[]) => Float64Array,
  point: (column: Float64Array) => number,
  deviates: Deviates,
): number | undefined {
  let column = least(quick);
  let value = point(column);
  if (cell.scatters.length === 0 || !Number.isFinite(value)) return value;
  const scatter = scatterStanding(deviates);
  for (let round = 0; round < rounds; round++) {
    const near = nearest(column, value);
    const off = quick.map(() => [] as number[]);
    for (const draw of near) {
      const unknown = (given: Given): number => beliefColumn(deviates, given)[draw]!;
      cell.gaps({ n: scatterDraws, unknown, scatter }).forEach((gaps, c) => {
        const { gap, sd } = quick[c]!;
        const by = (quantile(gaps, cell.scene.requirement.allowPairs) - gap[draw]!) / sd[draw]!;
        if (Number.isFinite(by)) off[c]!.push(by);
      });
    }
    const mean = off.map((list) => list.reduce((sum, v) => sum + v, 0) / Math.max(1, list.length));
    if (off.some((list, c) => list.some((v) => Math.abs(v - mean[c]!) > agreed))) return undefined;
    column = least(quick.map(({ gap, sd }, c) => ({ gap: gap.map((g, k) => g + mean[c]! * sd[k]!), sd })));
    value = point(column);
    const among = near.map((draw) => column[draw]!);
    if (value >= Math.min(...among) && value <= Math.max(...among)) return value;
  }
  return undefined;
}
const nearest = (column: Float64Array, value: number): number[] =>
  Array.from(column.keys())
    .sort((a, b) => Math.abs(column[a]! - value) - Math.abs(column[b]! - value))
    .slice(0, told);

/** Margins end here, as everywhere. */
const cap = 6;
/** The margin at which the allowance is just kept: 2.05 at 2 %. */
export const marginAllowed = (allowPairs: number): number => -phiInverse(allowPairs);
/**
 * Margin over scatter alone at each belief draw: the allowed one, plus the deciding gap in standard deviations. Where the gap is normal over
 * scatter that is -Phi^-1 of the chance of breaking the window; in any case it is the allowed margin where the deciding gap is nought.
 */
export function marginsOver({ gap, sd }: Decided, allowPairs: number): Float64Array {
  const allowed = marginAllowed(allowPairs);
  return gap.map((g, k) => {
    const m = sd[k]! > 0 ? allowed + g / sd[k]! : g >= 0 ? cap : -cap;
    return Math.max(-cap, Math.min(cap, m));
  });
}
