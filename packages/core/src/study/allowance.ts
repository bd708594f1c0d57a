import type { Given } from "../quantity/given.ts";
import { beliefColumn, beliefDraws, Cell, oneSd, type Standing, scatterColumn, scatterDraws } from "./cell.ts";
import type { Deviates } from "./deviates.ts";
import type { Column } from "./realise.ts";
import { finished, type Steps } from "./steps.ts";

/**
 * Deciding gaps of a cell over belief: at every belief draw the allowance quantile of each check's gap over scatter.
 *
 * The true quantile at all belief draws would cost beliefDraws times scatterDraws evaluations. The cheap way, for each side of a window:
 * the gap with scatter as written, minus a scatter allowance `kappa s`. s is the gap's standard deviation by first differences at every belief
 * draw; kappa, the allowance over s, comes from true draws at 20 spread belief draws: the three nearest to the 5, 50 and 95 % points of the
 * gap fit it (interpolated in the gap), the other 17 test it. Belief draws near 0 get their true quantile: those within three times the
 * greatest error where the rms error is more than 10 % of the spread of the deciding gap; else those within twice the greatest error over s,
 * where by the errors seen 5 or more of the belief draws would stand on the wrong side of 0. A dear check gets its true quantiles from a quarter of the
 * scatter draws.
 */
export interface Deciding {
  /** Deciding gap at each belief draw. */
  readonly gap: Float64Array;
  /** Chance over scatter that the window breaks, at each belief draw. */
  readonly chance: Float64Array;
  /** Scatter allowance over the gap's standard deviation, for each side at that side's gap as written. */
  readonly kappa: readonly ((gap: number) => number)[];
  /** Largest error of the cheap way where it was tested, in the gap's unit; 0 where draws near 0 are true. */
  readonly error: number;
  /** Belief draws that got their true quantile. */
  readonly drawn: number;
  /** For each side, at each belief draw: the gap with scatter as written, and its standard deviation over scatter. */
  readonly sides: readonly { readonly written: Float64Array; readonly sd: Float64Array }[];
}

const tests = 20;
/** Belief draws of 1000 that may stand on the wrong side of 0. */
const fewWrong = 5;
const fitted = [0.05, 0.5, 0.95] as const;

interface Knot {
  readonly gap: number;
  readonly s: number;
  readonly sorted: Float64Array;
  readonly quantile: number;
}

export interface Supposing {
  /** Stands at its median in every belief draw. */
  readonly measured?: Given;
  /** How far a number's centre stands from what its text says, SI. */
  readonly moved?: Standing["moved"];
}
export const decide = (cell: Cell, deviates: Deviates, supposing: Supposing = {}): Deciding[] =>
  finished(decideInSteps(cell, deviates, supposing));

/** The same, a run of the cell or less a step. */
export function* decideInSteps(cell: Cell, deviates: Deviates, { measured, moved }: Supposing = {}): Steps<Deciding[]> {
  const also = moved ? { moved } : {};
  const allow = cell.scene.requirement.allowPairs;
  const belief = (given: Given): Column => (given.address === measured?.address ? 0 : beliefColumn(deviates, given));
  yield* cell.prepare({ n: beliefDraws, unknown: belief, ...also });
  const written = cell.sideGaps({ n: beliefDraws, unknown: belief, ...also });
  yield;
  if (cell.scatters.length === 0)
    return cell.lesser(written).map((gap, c) => ({
      gap,
      chance: gap.map((g) => (g < 0 ? 1 : 0)),
      kappa: cell.sidesOf[c]!.map(() => () => 0),
      error: 0,
      drawn: 0,
      sides: cell.sidesOf[c]!.map((i) => ({ written: written[i]!, sd: new Float64Array(beliefDraws) })),
    }));

  const spread = yield* spreadInSteps(cell, beliefDraws, belief, written, moved);
  const all = scatterStanding(deviates);
  const quarter = scatterStanding(deviates, scatterDraws / 4);
  const at = (part: Cell, draw: number, over?: Float64Array[], n = scatterDraws): Float64Array[] =>
    part.sideGaps(
      { n, unknown: (given) => atDraw(belief(given), draw), scatter: n === scatterDraws ? all : quarter, ...also },
      over,
    );
  const columns: Float64Array[] = [];
  const draws = Array.from({ length: tests }, (_, i) => Math.floor(((i + 0.5) * beliefDraws) / tests));
  // Which of the draws fit a side's allowance is known beforehand, so only their scatter is kept whole.
  const fitting = written.map((w, i) => {
    const usable = draws
      .filter((draw) => spread[i]![draw]! > 0 && Number.isFinite(w[draw]!))
      .sort((a, b) => w[a]! - w[b]!);
    return new Set(
      usable.length === 0 ? [] : fitted.map((p) => usable[Math.min(usable.length - 1, Math.floor(p * usable.length))]!),
    );
  });
  const knotsOf: Knot[][] = written.map(() => []);
  const truth: { readonly draw: number; readonly checks: readonly number[] }[] = [];
  for (const draw of draws) {
    const sides = at(cell, draw, columns);
    sides.forEach((column, i) => {
      if (!fitting[i]!.has(draw)) return;
      const sorted = column.slice().sort();
      const q = quantileOf(sorted, allow);
      if (Number.isFinite(q)) knotsOf[i]!.push({ gap: written[i]![draw]!, s: spread[i]![draw]!, sorted, quantile: q });
    });
    const checks = cell.lesser(sides).map((column) => quantile(column, allow));
    truth.push({ draw, checks });
    yield;
  }

  const sides = written.map((w, i) => {
    const s = spread[i]!;
    const knots = knotsOf[i]!.sort((a, b) => a.gap - b.gap);
    const kappa = (g: number): number =>
      knots.length === 0 || !Number.isFinite(g) ? 0 : between(knots, g, (t) => (t.gap - t.quantile) / t.s);
    const gap = w.map((g, k) => g - (Number.isFinite(g) ? kappa(g) * s[k]! : 0));
    const chance = w.map((g, k) =>
      knots.length > 0 && s[k]! > 0 && Number.isFinite(g)
        ? between(knots, g, (t) => shareBelow(t.sorted, t.gap - (g / s[k]!) * t.s))
        : g < 0
          ? 1
          : 0,
    );
    return { kappa, gap, chance };
  });

  const out: Deciding[] = [];
  for (const [c, check] of cell.checks.entries()) {
    const [first, second] = cell.sidesOf[c]!;
    const mine = cell.sidesOf[c]!.map((i) => sides[i]!);
    const nearer = (k: number): number =>
      second === undefined || sides[first!]!.gap[k]! <= sides[second]!.gap[k]! ? first! : second;
    const gap = mine.length === 1 ? mine[0]!.gap : mine[0]!.gap.map((g, k) => Math.min(g, mine[1]!.gap[k]!));
    const chance =
      mine.length === 1 ? mine[0]!.chance : mine[0]!.chance.map((p, k) => Math.min(1, p + mine[1]!.chance[k]!));
    const sd = (k: number): number => spread[nearer(k)]![k]!;
    let error = 0;
    let squares = 0;
    // The same errors over the scatter's sd: a tail of the gap far from 0 would hide them in the spread.
    const ratios: number[] = [];
    for (const { draw, checks } of truth) {
      const e = gap[draw]! - checks[c]!;
      if (!Number.isFinite(e)) continue;
      error = Math.max(error, Math.abs(e));
      squares += e * e;
      if (sd(draw) > 0 && !cell.sidesOf[c]!.every((i) => fitting[i]!.has(draw))) ratios.push(e / sd(draw));
    }
    const gross = Math.sqrt(squares / tests) > 0.1 * deviation(gap);
    const ratio = gross || expectedWrong(gap, sd, ratios) < fewWrong ? 0 : Math.max(...ratios.map(Math.abs));
    let drawn = 0;
    let alone: Cell | undefined;
    for (let k = 0; k < beliefDraws; k++) {
      if (!(Math.abs(gap[k]!) < (gross ? 3 * error : 2 * ratio * sd(k)))) continue;
      alone ??= new Cell(cell.scene, [check]);
      const column = alone.lesser(at(alone, k, undefined, check.dear ? scatterDraws / 4 : scatterDraws))[0]!;
      chance[k] = column.reduce((n, g) => n + (g < 0 ? 1 : 0), 0) / column.length;
      gap[k] = quantile(column, allow);
      drawn++;
      yield;
    }
    out.push({
      gap,
      chance,
      kappa: mine.map((side) => side.kappa),
      error: drawn > 0 || error <= dust * farthest(gap) ? 0 : error,
      drawn,
      sides: cell.sidesOf[c]!.map((i) => ({ written: written[i]!, sd: spread[i]! })),
    });
  }
  return out;
}

/** An error of this share of the gap is the last bit of a sum, not one of the way. */
const dust = 1e-12;
const farthest = (gap: Float64Array): number =>
  gap.reduce((m, g) => (Number.isFinite(g) ? Math.max(m, Math.abs(g)) : m), 0);

/** How many belief draws stand on the wrong side of 0, if each of the errors seen is as likely theirs. */
function expectedWrong(gap: Float64Array, sd: (k: number) => number, ratios: readonly number[]): number {
  let wrong = 0;
  for (let k = 0; k < gap.length; k++) {
    const x = gap[k]! / sd(k);
    for (const r of ratios) if (x >= 0 !== x - r >= 0) wrong++;
  }
  return wrong / Math.max(1, ratios.length);
}
const atDraw = (c: Column, draw: number): number => (typeof c === "number" ? c : c[draw]!);

/** Standard deviation of each side's gap over scatter by first differences, at every belief draw. */
export const spreadOver = (
  cell: Cell,
  n: number,
  unknown: (given: Given) => Column | undefined,
  written: readonly Float64Array[],
  moved?: Standing["moved"],
): Float64Array[] => finished(spreadInSteps(cell, n, unknown, written, moved));

function* spreadInSteps(
  cell: Cell,
  n: number,
  unknown: (given: Given) => Column | undefined,
  written: readonly Float64Array[],
  moved?: Standing["moved"],
): Steps<Float64Array[]> {
  const spread = written.map(() => new Float64Array(n));
  const stepped: Float64Array[] = [];
  for (const { given, which } of cell.scatters) {
    const step = oneSd(given, which);
    cell.sideGaps(
      { n, unknown, scatter: (g, w) => (g === given && w === which ? step : undefined), ...(moved ? { moved } : {}) },
      stepped,
    );
    stepped.forEach((column, i) => {
      const s = spread[i]!;
      const w = written[i]!;
      for (let k = 0; k < n; k++) {
        const d = column[k]! - w[k]!;
        if (Number.isFinite(d)) s[k]! += d * d;
      }
    });
    yield;
  }
  for (const s of spread) for (let k = 0; k < n; k++) s[k] = Math.sqrt(s[k]!);
  return spread;
}
/** Whether each check of a cell holds in a realisation of belief, by the allowance that was fitted for it. */
export function holding(
  cell: Cell,
  written: readonly Float64Array[],
  spread: readonly Float64Array[],
  kappa: readonly Deciding["kappa"][],
): Uint8Array[] {
  return cell.sidesOf.map((sides, c) =>
    Uint8Array.from({ length: written[0]!.length }, (_, k) =>
      sides.every((i, j) => {
        const g = written[i]![k]!;
        return g - kappa[c]![j]!(g) * spread[i]![k]! >= 0;
      })
        ? 1
        : 0,
    ),
  );
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
/** The same quantile of an unsorted sample, by selection (Hoare 1961); reorders the sample. */
export function quantile(sample: Float64Array, share: number): number {
  const k = Math.min(sample.length - 1, Math.max(0, Math.ceil(share * sample.length) - 1));
  let low = 0;
  let high = sample.length - 1;
  while (low < high) {
    const pivot = sample[(low + high) >> 1]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (sample[i]! < pivot) i++;
      while (sample[j]! > pivot) j--;
      if (i > j) break;
      const swap = sample[i]!;
      sample[i] = sample[j]!;
      sample[j] = swap;
      i++;
      j--;
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else break;
  }
  return sample[k]!;
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
