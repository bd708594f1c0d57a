import { type Given, type Letter, worstLetter } from "../quantity/given.ts";
import { endsOfGuess, phi, phiInverse } from "../quantity/law.ts";
import { rootsOf } from "../quantity/model.ts";
import { beliefColumn, beliefDraws, Cell, scatterColumn, scatterKey } from "./cell.ts";
import { mixtures } from "./correlated.ts";
import type { Deviates } from "./deviates.ts";
import { finished, type Steps } from "./steps.ts";

/** Draws over belief and scatter together, for the margin and the letters. */
const jointDraws = 4000;
const fewest = 20;
const cap = 6;

/** How far one check is from failing over belief and scatter, and what it rests on. Display; verdicts come from shares. */
export interface Margin {
  /** -Phi^-1 of the chance of failing, within -6 and 6. */
  readonly margin: number;
  readonly how: "drawn" | "first order" | "cannot fail as drawn";
  /** Worst letter among inputs that carry at least 10 % of the gap's variance; how many more inputs there are. */
  readonly letter: Letter;
  readonly more: number;
  /** Gap with every unknown at its kind and unkind end, scatter as written. */
  readonly best: number;
  readonly worst: number;
}

/** What a margin stands on before belief is weighed. It may be kept for as long as nothing the check rests on changes. */
export interface MarginBasis {
  /** Gaps of the check over belief and scatter together. */
  readonly gaps: Float64Array;
  readonly seen: Pick<Margin, "letter" | "more" | "best" | "worst">;
  /** The margin where too few of the draws fail to count them. */
  beyondDraws(): Steps<Pick<Margin, "margin" | "how">>;
}

export const marginOf = (
  cell: Cell,
  deviates: Deviates,
  c: number,
  gaps: Float64Array,
  weights: Float64Array,
): Margin => finished(marginBy(marginBasis(new Cell(cell.scene, [cell.checks[c]!]), deviates, gaps), weights));

/** The basis of a margin; `alone` is a cell of the one check. */
export function marginBasis(alone: Cell, deviates: Deviates, gaps: Float64Array): MarginBasis {
  const { letter, more, signs } = restsOn(alone, deviates, gaps);
  const ends = alone.gaps({
    n: 2,
    unknown: (given) => {
      const s = (signs.get(given.address) ?? 1) * endsOfGuess;
      return Float64Array.of(s, -s);
    },
  })[0]!;
  let beyond: Pick<Margin, "margin" | "how"> | undefined;
  return {
    gaps,
    seen: { letter, more, best: Math.max(ends[0]!, ends[1]!), worst: Math.min(ends[0]!, ends[1]!) },
    *beyondDraws() {
      if (beyond) return beyond;
      beyond = cannotFail(alone)
        ? { margin: cap, how: "cannot fail as drawn" }
        : { margin: Math.max(-cap, Math.min(cap, yield* firstOrderInSteps(alone))), how: "first order" };
      return beyond;
    },
  };
}

/** The margin by the weights of belief. */
export function* marginBy(basis: MarginBasis, weights: Float64Array): Steps<Margin> {
  const { gaps, seen } = basis;
  let total = 0;
  let failing = 0;
  let count = 0;
  for (let k = 0; k < gaps.length; k++) {
    const w = weights[k % beliefDraws]!;
    total += w;
    if (gaps[k]! >= 0) continue;
    failing += w;
    count++;
  }
  if (count < fewest) return { ...seen, ...(yield* basis.beyondDraws()) };
  return {
    ...seen,
    margin: Math.max(-cap, Math.min(cap, -phiInverse(Math.min(1 - 1e-12, failing / total)))),
    how: "drawn",
  };
}
/** Gaps of all checks of a cell over belief and scatter together. */
export const jointGaps = (cell: Cell, deviates: Deviates): Float64Array[] =>
  cell.gaps({
    n: jointDraws,
    unknown: (given) => jointBelief(deviates, given),
    scatter: (given, which) => scatterColumn(deviates, given, which, jointDraws),
  });
const repeated = new WeakMap<Float64Array, Float64Array>();
function jointBelief(deviates: Deviates, given: Given): Float64Array {
  const z = beliefColumn(deviates, given);
  const known = repeated.get(z);
  if (known) return known;
  const out = Float64Array.from({ length: jointDraws }, (_, k) => z[k % beliefDraws]!);
  repeated.set(z, out);
  return out;
}

/** Squared correlation of each input with the gap: its share of the variance, to first order. */
function restsOn(
  cell: Cell,
  deviates: Deviates,
  gaps: Float64Array,
): { letter: Letter; more: number; signs: Map<string, number> } {
  const shares = new Map<Given, number>();
  const signs = new Map<string, number>();
  const note = (given: Given, column: Float64Array, unknown: boolean): void => {
    const r = correlation(column, gaps);
    shares.set(given, (shares.get(given) ?? 0) + r * r);
    if (unknown) signs.set(given.address, r < 0 ? -1 : 1);
  };
  for (const given of cell.unknowns) note(given, jointBelief(deviates, given), true);
  for (const { given, which } of cell.scatters) note(given, scatterColumn(deviates, given, which, jointDraws), false);
  const total = [...shares.values()].reduce((a, b) => a + b, 0);
  const carrying = [...shares].filter(([, share]) => total > 0 && share >= 0.1 * total);
  const roots = new Set<Given>();
  for (const q of cell.quantities) for (const g of rootsOf(q, cell.scene)) roots.add(g);
  const letters = carrying.length > 0 ? carrying.map(([g]) => g.letter) : [...roots].map((g) => g.letter);
  return { letter: worstLetter(letters), more: Math.max(0, roots.size - carrying.length), signs };
}
function correlation(x: Float64Array, y: Float64Array): number {
  let n = 0;
  let sx = 0;
  let sy = 0;
  let sxx = 0;
  let syy = 0;
  let sxy = 0;
  for (let k = 0; k < x.length; k++) {
    const a = x[k]!;
    const b = y[k]!;
    if (!Number.isFinite(b)) continue;
    n++;
    sx += a;
    sy += b;
    sxx += a * a;
    syy += b * b;
    sxy += a * b;
  }
  const v = (sxx - (sx * sx) / n) * (syy - (sy * sy) / n);
  return v > 0 ? (sxy - (sx * sy) / n) / Math.sqrt(v) : 0;
}

/** Nothing but limits of a drawing moves the gap, and it stays open at their unkind corner (taken one by one). */
function cannotFail(cell: Cell): boolean {
  if (cell.unknowns.length > 0 || cell.scatters.some(({ given, which }) => given.scatters[which]!.law !== "uniform"))
    return false;
  const unkind = new Map<string, number>();
  for (const { given, which } of cell.scatters) {
    const [low, high] = cell.gaps({
      n: 2,
      scatter: (g, w) => (g === given && w === which ? Float64Array.of(-1, 1) : undefined),
    })[0]!;
    unkind.set(scatterKey(given, which), low! < high! ? -1 : 1);
  }
  return cell.gaps({ n: 1, scatter: (g, w) => unkind.get(scatterKey(g, w)) })[0]![0]! >= 0;
}

/**
 * Distance to the nearest failing point in standard normal space, by the iteration of Hasofer, Lind, Rackwitz and Fiessler (memory), with
 * halved steps where it overshoots. Overstates the chance of failing 2 to 5 times where inputs are limits of a drawing.
 */
export const firstOrder = (cell: Cell): number => finished(firstOrderInSteps(cell));
function* firstOrderInSteps(cell: Cell): Steps<number> {
  const axes = [
    ...cell.unknowns.map((given) => ({ given, which: -1 })),
    ...cell.scatters.map(({ given, which }) => ({ given, which })),
  ];
  if (axes.length === 0) return cell.gaps({ n: 1 })[0]![0]! >= 0 ? cap : -cap;
  const index = new Map(axes.map((a, i) => [a.which < 0 ? a.given.address : scatterKey(a.given, a.which), i]));
  const mixes = mixtures(cell.scatters);
  const first = cell.unknowns.length;
  const scoreOf = (i: number, p: readonly number[]): number =>
    mixes[i - first]?.reduce((sum, [w, j]) => sum + w * p[first + j]!, 0) ?? p[i]!;
  const step = 0.05;
  const evaluate = (points: readonly (readonly number[])[]): Float64Array => {
    const column = (i: number, map: (z: number) => number): Float64Array => {
      const out = new Float64Array(points.length);
      for (let k = 0; k < out.length; k++) out[k] = map(scoreOf(i, points[k]!));
      return out;
    };
    return cell.gaps({
      n: points.length,
      unknown: (g) => column(index.get(g.address)!, (z) => z),
      scatter: (g, w) =>
        column(index.get(scatterKey(g, w))!, g.scatters[w]!.law === "uniform" ? (z) => 2 * phi(z) - 1 : (z) => z),
    })[0]!;
  };
  let z = axes.map(() => 0);
  const atMiddle = evaluate([z])[0]!;
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 30; round++) {
    const values = evaluate([z, ...axes.map((_, i) => z.map((v, j) => (i === j ? v + step : v)))]);
    const g = values[0]!;
    const slope = axes.map((_, i) => (values[i + 1]! - g) / step);
    const square = slope.reduce((s, v) => s + v * v, 0);
    if (!(square > 0) || !Number.isFinite(square)) break;
    const target = (slope.reduce((s, v, i) => s + v * z[i]!, 0) - g) / square;
    const next = slope.map((v) => v * target);
    const move = Math.sqrt(next.reduce((s, v, i) => s + (v - z[i]!) ** 2, 0));
    const share = move > 2 ? 2 / move : round > 10 ? 0.5 : 1;
    z = z.map((v, i) => v + share * (next[i]! - v));
    best = Math.sqrt(z.reduce((s, v) => s + v * v, 0));
    if (move < 1e-3) break;
    yield;
  }
  const beta = Number.isFinite(best) ? best : cap;
  return atMiddle >= 0 ? beta : -beta;
}
