import type { Check } from "../quantity/check.ts";
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
  /** Checks that are asked about, all where left out. */
  readonly asked?: (check: Check) => boolean;
}
export const decide = (cell: Cell, deviates: Deviates, supposing: Supposing = {}): Deciding[] =>
  finished(decideInSteps(cell, deviates, supposing));

/** The same, a run of the cell or less a step. */
export function* decideInSteps(
  cell: Cell,
  deviates: Deviates,
  supposing: Omit<Supposing, "asked"> = {},
): Steps<Deciding[]> {
  const [deciding] = yield* decideEachInSteps(cell, deviates, [supposing]);
  return deciding as Deciding[];
}

/**
 * Deciding gaps under each of several suppositions, to the bit what each would give alone; undefined for a check that it does not ask about.
 *
 * At one belief draw all are evaluated one after the other: what none of them touches is evaluated once.
 */
export function* decideEachInSteps(
  cell: Cell,
  deviates: Deviates,
  supposings: readonly Supposing[],
): Steps<(Deciding | undefined)[][]> {
  const allow = cell.scene.requirement.allowPairs;
  const each = supposings.map(({ measured, moved, asked }) => ({
    also: moved ? { moved } : {},
    belief: (given: Given): Column => (given.address === measured?.address ? 0 : beliefColumn(deviates, given)),
    asked: cell.checks.map((check) => asked?.(check) ?? true),
  }));
  const whole: Float64Array[][] = [];
  for (const { belief, also } of each) {
    yield* cell.prepare({ n: beliefDraws, unknown: belief, ...also });
    whole.push(cell.sideGaps({ n: beliefDraws, unknown: belief, ...also }));
    yield;
  }
  if (cell.scatters.length === 0)
    return each.map(({ asked }, s) =>
      cell.lesser(whole[s]!).map((gap, c) =>
        asked[c]
          ? {
              gap,
              chance: gap.map((g) => (g < 0 ? 1 : 0)),
              kappa: cell.sidesOf[c]!.map(() => () => 0),
              error: 0,
              drawn: 0,
              sides: cell.sidesOf[c]!.map((i) => ({ written: whole[s]![i]!, sd: new Float64Array(beliefDraws) })),
            }
          : undefined,
      ),
    );

  const all = scatterStanding(deviates);
  const quarter = scatterStanding(deviates, scatterDraws / 4);
  const at = (part: Cell, s: number, draw: number, over?: Float64Array[], n = scatterDraws): Float64Array[] => {
    const { belief, also } = each[s]!;
    return part.sideGaps(
      { n, unknown: (given) => atDraw(belief(given), draw), scatter: n === scatterDraws ? all : quarter, ...also },
      over,
    );
  };
  const draws = Array.from({ length: tests }, (_, i) => Math.floor(((i + 0.5) * beliefDraws) / tests));
  const studies: Study[] = [];
  for (const [s, { belief, asked, also }] of each.entries()) {
    const written = whole[s]!;
    const spread = yield* spreadInSteps(cell, beliefDraws, belief, written, also.moved);
    // Which of the draws fit a side's allowance is known beforehand, so only their scatter is kept whole.
    const fitting = written.map((w, i) => {
      const usable = draws
        .filter((draw) => spread[i]![draw]! > 0 && Number.isFinite(w[draw]!))
        .sort((a, b) => w[a]! - w[b]!);
      return new Set(
        usable.length === 0
          ? []
          : fitted.map((p) => usable[Math.min(usable.length - 1, Math.floor(p * usable.length))]!),
      );
    });
    studies.push({ written, spread, fitting, asked, knotsOf: written.map(() => []), truth: [] });
  }
  const columns: Float64Array[] = [];
  for (const draw of draws)
    for (const [s, { written, spread, fitting, asked, knotsOf, truth }] of studies.entries()) {
      const sides = at(cell, s, draw, columns);
      for (const [c, mine] of cell.sidesOf.entries())
        for (const i of asked[c] ? mine : []) {
          if (!fitting[i]!.has(draw)) continue;
          const sorted = sides[i]!.slice().sort();
          const q = quantileOf(sorted, allow);
          if (Number.isFinite(q))
            knotsOf[i]!.push({ gap: written[i]![draw]!, s: spread[i]![draw]!, sorted, quantile: q });
        }
      const checks = cell.lesser(sides).map((column, c) => (asked[c] ? quantile(column, allow) : Number.NaN));
      truth.push({ draw, checks });
      yield;
    }

  const found = studies.map((study) =>
    cell.checks.map((_, c) => (study.asked[c] ? cheaply(cell.sidesOf[c]!, c, study) : undefined)),
  );
  for (const [c, check] of cell.checks.entries()) {
    const n = check.dear ? scatterDraws / 4 : scatterDraws;
    let alone: Cell | undefined;
    for (let k = 0; k < beliefDraws; k++)
      for (const [s, of] of found.entries()) {
        const one = of[c];
        if (!one || !(Math.abs(one.gap[k]!) < one.near(k))) continue;
        alone ??= new Cell(cell.scene, [check]);
        const column = alone.lesser(at(alone, s, k, undefined, n))[0]!;
        let below = 0;
        for (let j = 0; j < column.length; j++) if (column[j]! < 0) below++;
        one.chance[k] = below / column.length;
        one.gap[k] = quantile(column, allow);
        one.drawn++;
        yield;
      }
  }
  return found.map((of, s) =>
    of.map((one, c) =>
      one
        ? {
            gap: one.gap,
            chance: one.chance,
            kappa: one.kappa,
            error: one.drawn > 0 || one.error <= dust * farthest(one.gap) ? 0 : one.error,
            drawn: one.drawn,
            sides: cell.sidesOf[c]!.map((i) => ({ written: whole[s]![i]!, sd: studies[s]!.spread[i]! })),
          }
        : undefined,
    ),
  );
}

/** What has been seen of a cell's sides under one supposition. */
interface Study {
  readonly written: readonly Float64Array[];
  readonly spread: readonly Float64Array[];
  readonly fitting: readonly ReadonlySet<number>[];
  readonly asked: readonly boolean[];
  readonly knotsOf: readonly Knot[][];
  readonly truth: { readonly draw: number; readonly checks: readonly number[] }[];
}
/** A check's gaps the cheap way, to be drawn truly where they stand nearer to 0 than `near`. */
interface Cheap {
  readonly gap: Float64Array;
  readonly chance: Float64Array;
  readonly kappa: Deciding["kappa"];
  readonly error: number;
  readonly near: (k: number) => number;
  drawn: number;
}
function cheaply(mine: readonly number[], c: number, { written, spread, fitting, knotsOf, truth }: Study): Cheap {
  const sides = mine.map((i) => {
    const w = written[i]!;
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
    return { kappa, gap, chance, s };
  });
  const [a, b] = [sides[0]!, sides[1]];
  const gap = b ? a.gap.map((g, k) => Math.min(g, b.gap[k]!)) : a.gap;
  const chance = b ? a.chance.map((p, k) => Math.min(1, p + b.chance[k]!)) : a.chance;
  const nearer = Uint8Array.from(gap, (_, k) => (b && a.gap[k]! > b.gap[k]! ? 1 : 0));
  const sd = (k: number): number => sides[nearer[k]!]!.s[k]!;
  let error = 0;
  let squares = 0;
  // The same errors over the scatter's sd: a tail of the gap far from 0 would hide them in the spread.
  const ratios: number[] = [];
  for (const { draw, checks } of truth) {
    const e = gap[draw]! - checks[c]!;
    if (!Number.isFinite(e)) continue;
    error = Math.max(error, Math.abs(e));
    squares += e * e;
    if (sd(draw) > 0 && !mine.every((i) => fitting[i]!.has(draw))) ratios.push(e / sd(draw));
  }
  const gross = Math.sqrt(squares / tests) > 0.1 * deviation(gap);
  const ratio = gross || expectedWrong(gap, sd, ratios) < fewWrong ? 0 : Math.max(...ratios.map(Math.abs));
  const near = (k: number): number => (gross ? 3 * error : 2 * ratio * sd(k));
  return { gap, chance, kappa: sides.map((side) => side.kappa), error, near, drawn: 0 };
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
