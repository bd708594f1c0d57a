import type { Check } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import type { Model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { type Deciding, decideInSteps } from "../study/allowance.ts";
import { beliefColumn, beliefDraws, Cell, oneSd, type Standing, scatterKey } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";
import { asWritten, type Column, Realiser } from "../study/realise.ts";
import type { Steps } from "../study/steps.ts";
import type { Free } from "./free.ts";
import { lowPoint } from "./low-point.ts";

/**
 * One tape of a family while several dimensions of its unit move: the deciding gaps of the hard checks that rest on them, quickly.
 *
 *     G_c(u, x) = (g_c(u, x) - a_c(u) r_c(x) + e_c(u)) / s_c
 *
 * u    400 belief draws of this tape: the 240 with the least gaps at the place that was last decided in full, one by one, and 160 for all others, each
 *      for a stratum. So its 5 % point is exact there and good as far as the draws below it do not come from others
 * g_c  gap of check c with scatter as written, at the distances x;  a_c  its scatter allowance as drawn
 * r_c  standard deviation over scatter at x over that as drawn, by first differences at three of the draws
 * s_c  standard deviation of the gap over belief and scatter as drawn: gaps of different units are compared in it, and it stays as it is while
 *      x moves, so that G is continuous and has no cap
 * e_c  what full draws at a place have shown G to be off by; nought before that
 *
 * Costly models stand as drawn, shifted by what the move does to them as written, computed at x. So it is exact at x = 0, and at the last place
 * that was decided in full.
 */
export const sizingDraws = 400;
/** The draws with the least gaps that stand for themselves alone. */
const oneByOne = 240;
const spreadDraws = 3;
/** Gaps beyond this many standard deviations are as far as this. */
const far = 1000;

export interface SizingTape {
  readonly tape: string;
  readonly scene: Scene;
}
/** What full draws have shown of each touched check; undefined where that was not asked. */
export type Partly = readonly (Deciding | undefined)[];
export interface SizingBelief {
  readonly deviates: Deviates;
  readonly weights: Float64Array;
  readonly contradicted: ReadonlySet<string>;
}

/** Makes a tape ready for sizing: decides all its hard checks as drawn, a run of its cell or less a step. */
export function* sizedTapeInSteps(
  { tape, scene }: SizingTape,
  checks: readonly Check[],
  free: readonly Free[],
  belief: SizingBelief,
): Steps<SizedTape> {
  const hard = checks.filter(({ id, severity }) => severity === "S" && !belief.contradicted.has(id));
  const all = new Cell(scene, hard);
  yield;
  const deciding = yield* decideInSteps(all, belief.deviates);
  all.letGo();
  const members = new Set(free.flatMap((f) => f.members));
  const touched = all.checks.filter((check) => {
    const { addresses } = new Cell(scene, [check]);
    return [...members].some((address) => addresses.has(address));
  });
  const one = new SizedTape(tape, scene, all.checks, deciding, touched, free, belief);
  yield* one.ready();
  return one;
}

export class SizedTape {
  readonly tape: string;
  readonly scene: Scene;
  readonly W: number;
  /** All hard checks, with their deciding gaps as drawn. */
  readonly hard: readonly Check[];
  readonly deciding: readonly Deciding[];
  /** Those that rest on a free dimension, in order. */
  readonly touched: readonly Check[];
  /** Of each touched check what its gap is measured in, and the dimensions it rests on. */
  readonly sd: readonly number[];
  readonly restsOn: readonly ReadonlySet<number>[];
  /** Belief draws that stand for all. */
  draws: readonly number[] = [];
  /** What each of them stands for; together 1. */
  weight: Float64Array = new Float64Array(sizingDraws);
  /** Touched checks that are left out of the least gap. */
  readonly aside = new Set<string>();
  private readonly belief: SizingBelief;
  private readonly cell: Cell;
  private readonly spreadCell: Cell;
  private readonly exactly: Realiser;
  private readonly costly: readonly Model<unknown>[];
  private readonly dimensionOf: ReadonlyMap<string, number>;
  private stood: readonly ReadonlyMap<Model<unknown>, Column>[] = [];
  private shifted: readonly Map<Model<unknown>, Column>[] = [];
  private begun = new Map<Model<unknown>, number>();
  private standing: Standing = { n: 0 };
  private spreadStanding: Standing = { n: 0 };
  private spread: readonly number[] = [];
  private takes: readonly (readonly Float64Array[])[] = [];
  private readonly off: Float64Array[];
  private readonly gaps: Float64Array[] = [];
  private readonly spreadGaps: Float64Array[] = [];

  constructor(
    tape: string,
    scene: Scene,
    hard: readonly Check[],
    deciding: readonly Deciding[],
    touched: readonly Check[],
    free: readonly Free[],
    belief: SizingBelief,
  ) {
    this.tape = tape;
    this.scene = scene;
    this.W = scene.tape.row;
    this.hard = hard;
    this.deciding = deciding;
    this.touched = touched;
    this.belief = belief;
    this.cell = new Cell(scene, touched);
    this.spreadCell = new Cell(scene, touched);
    this.dimensionOf = new Map(free.flatMap(({ members }, i) => members.map((address) => [address, i] as const)));
    this.restsOn = touched.map((check) => {
      const { addresses } = new Cell(scene, [check]);
      return new Set(free.flatMap(({ members }, i) => (members.some((m) => addresses.has(m)) ? [i] : [])));
    });
    const mine = touched.map((check) => deciding[hard.indexOf(check)]!);
    this.sd = mine.map((one) => spreadOf(one, belief.weights));
    this.off = touched.map(() => new Float64Array(sizingDraws));
    const models = new Realiser(scene, this.cell.quantities).models.filter((m) => m.costly);
    this.costly = models;
    this.exactly = new Realiser(scene, models);
  }

  /** Takes draws spread over the rank of the least gap where these were decided: as drawn, or at distances `x`, where it is exact from then on. */
  *ready(decided?: Partly, x: readonly number[] = []): Steps<void> {
    const mine = decided ?? this.touched.map((check) => this.deciding[this.hard.indexOf(check)]!);
    const inQuestion = [...this.touched.keys()].filter((c) => !this.aside.has(this.touched[c]!.id));
    ({ draws: this.draws, weight: this.weight } = drawsOver(
      inQuestion.flatMap((c) => mine[c] ?? []),
      inQuestion.map((c) => this.sd[c]!),
      this.belief.weights,
    ));
    for (const column of this.off) column.fill(0);
    yield* this.asDrawn();
    if (!decided) return;
    const quick = this.at(x);
    decided.forEach((one, c) => {
      if (!one) return;
      this.draws.forEach((k, row) => {
        const off = one.gap[k]! - quick[c]![row]! * this.sd[c]!;
        if (Number.isFinite(off) && Math.abs(quick[c]![row]!) < far) this.off[c]![row] = off;
      });
    });
    yield;
  }
  /** What stands as drawn at the draws. */
  private *asDrawn(): Steps<void> {
    const rows = this.rowsOf(sizingDraws, (row) => this.draws[row]!);
    yield* this.cell.prepare(rows);
    this.stood = this.cell.costlyColumns(rows);
    this.shifted = this.stood.map((part) => new Map([...part].map(([m, c]) => [m, copyOf(c)])));
    this.standing = { ...rows, ...this.instead(this.shifted) };
    yield;
    const written = this.cell.sideGaps(this.standing, this.gaps);
    const { scatters } = this.spreadCell;
    const each = 1 + scatters.length;
    const at = (row: number): number => Math.min(spreadDraws - 1, Math.floor(row / each));
    const rowOf = (j: number): number => Math.floor(((j + 0.5) * sizingDraws) / spreadDraws);
    const steps = new Map(
      scatters.map(({ given, which }, s) => {
        const column = new Float64Array(spreadDraws * each).fill(unmoved(given, which));
        for (let j = 0; j < spreadDraws; j++) column[j * each + 1 + s] = oneSd(given, which);
        return [scatterKey(given, which), column];
      }),
    );
    const spreadRows = this.rowsOf(spreadDraws * each, (row) => this.draws[rowOf(at(row))]!);
    // What is costly stands there as at the middle row of each draw: how it scatters is part of the allowance as drawn.
    const costlyAt = this.stood.map(
      (part) =>
        new Map(
          [...part].map(([m, c]) => [
            m,
            typeof c === "number"
              ? c
              : Float64Array.from({ length: spreadDraws * each }, (_, row) => c[rowOf(at(row))]!),
          ]),
        ),
    );
    this.spreadStanding = {
      ...spreadRows,
      scatter: (given, which) => steps.get(scatterKey(given, which)),
      ...this.instead(costlyAt),
    };
    this.spread = this.spreadCell.sideGaps(this.spreadStanding, this.spreadGaps).map((side) => spreadIn(side, each));
    const run = this.exactly.run(asWritten);
    this.begun = new Map(this.costly.map((m) => [m, run.number(m as Model)]));
    this.takes = this.touched.map((check, c) => {
      const { gap, kappa, sides } = this.deciding[this.hard.indexOf(check)]!;
      const takes = sides.map(({ written: w, sd }, i) =>
        Float64Array.from(this.draws, (k) => (sd[k]! > 0 && Number.isFinite(w[k]!) ? kappa[i]!(w[k]!) * sd[k]! : 0)),
      );
      this.draws.forEach((k, row) => {
        const left = takes.map((t, i) => written[this.cell.sidesOf[c]![i]!]![row]! - t[row]!);
        const nearer = left.length > 1 && left[1]! < left[0]! ? 1 : 0;
        const off = left[nearer]! - gap[k]!;
        if (Number.isFinite(off)) takes[nearer]![row]! += off;
      });
      return takes;
    });
    yield;
  }
  private instead(parts: readonly ReadonlyMap<Model<unknown>, Column>[]): Pick<Standing, "instead"> {
    return this.costly.length > 0 ? { instead: (m, part) => parts[part]!.get(m)! } : {};
  }
  private rowsOf(n: number, drawAt: (row: number) => number): Standing {
    const at = Array.from({ length: n }, (_, row) => drawAt(row));
    const unknowns = new Map<string, Float64Array>();
    return {
      n,
      unknown: (given) => {
        const known = unknowns.get(given.address);
        if (known) return known;
        const column = beliefColumn(this.belief.deviates, given);
        const made = Float64Array.from(at, (k) => column[k]!);
        unknowns.set(given.address, made);
        return made;
      },
    };
  }
  /** How far each number stands off at distances x. */
  moves(x: readonly number[]): (given: Given) => number | undefined {
    return (given) => {
      const i = this.dimensionOf.get(given.address);
      return i === undefined || x[i] === 0 ? undefined : x[i];
    };
  }

  /** Gaps of the touched checks at distances x, in their standard deviations, one row a draw; written into `out`. */
  at(
    x: readonly number[],
    out: Float64Array[] = this.touched.map(() => new Float64Array(sizingDraws)),
  ): Float64Array[] {
    const moved = this.moves(x);
    if (this.costly.length > 0) {
      const run = this.exactly.run({ ...asWritten, moved });
      for (const [p, part] of this.stood.entries())
        for (const [m, column] of part) {
          const [from, to] = [this.begun.get(m)!, run.number(m as Model)];
          if (typeof column === "number") this.shifted[p]!.set(m, to);
          else shiftInto(this.shifted[p]!.get(m) as Float64Array, column, from, to);
        }
    }
    const sides = this.cell.sideGaps({ ...this.standing, moved }, this.gaps);
    const { scatters } = this.spreadCell;
    const ratios =
      scatters.length === 0
        ? sides.map(() => 1)
        : this.spreadCell.sideGaps({ ...this.spreadStanding, moved }, this.spreadGaps).map((side, i) => {
            const r = spreadIn(side, 1 + scatters.length) / this.spread[i]!;
            return Number.isFinite(r) ? r : 1;
          });
    for (let c = 0; c < this.touched.length; c++) {
      const [mine, off, sd] = [out[c]!, this.off[c]!, this.sd[c]!];
      mine.fill(far);
      for (const [i, side] of this.cell.sidesOf[c]!.entries()) {
        const [gap, takes, r] = [sides[side]!, this.takes[c]![i]!, ratios[side]!];
        for (let k = 0; k < sizingDraws; k++) {
          const g = Math.max(-far, (gap[k]! - takes[k]! * r + off[k]!) / sd);
          if (g < mine[k]!) mine[k] = g;
        }
      }
    }
    return out;
  }

  /**
   * Deciding gaps at distances x by full draws: of the touched checks in question; with `known`, where those stand already, of the ones set aside too,
   * which some verdicts rest on but no search.
   */
  *decided(x: readonly number[], known?: Partly): Steps<Partly> {
    const wanted = this.touched.filter(({ id }, c) => (known ? !known[c] : !this.aside.has(id)));
    const cell = new Cell(this.scene, wanted);
    const fresh = wanted.length > 0 ? yield* decideInSteps(cell, this.belief.deviates, { moved: this.moves(x) }) : [];
    return this.touched.map((check, c) => known?.[c] ?? fresh[wanted.indexOf(check)]);
  }
  /** The least of the gaps in question at each draw. */
  least(gaps: readonly Float64Array[], into = new Float64Array(sizingDraws)): Float64Array {
    into.fill(far);
    for (const [c, gap] of gaps.entries()) {
      if (this.aside.has(this.touched[c]!.id)) continue;
      for (let k = 0; k < sizingDraws; k++) if (gap[k]! < into[k]!) into[k] = gap[k]!;
    }
    return into;
  }
  /** The touched check that has the least gap where 5 % of belief lie below. */
  binding(gaps: readonly Float64Array[]): string | undefined {
    const least = this.least(gaps);
    const point = lowPoint(least, this.weight);
    const k = least.indexOf(point);
    return this.touched.find((check, c) => gaps[c]![k]! === point && !this.aside.has(check.id))?.id;
  }
}
const copyOf = (c: Column): Column => (typeof c === "number" ? c : c.slice());
/** The coordinate at which a scatter leaves its number as written. */
function unmoved(given: Given, which: number): number {
  const scatter = given.scatters[which]!;
  return scatter.law === "uniform" ? -(scatter.from + scatter.to) / (scatter.to - scatter.from) : 0;
}
/** Root of the summed squares of first differences over scatter: a row as written, then one a scatter. */
function spreadIn(side: Float64Array, each: number): number {
  let squares = 0;
  for (let j = 0; j < spreadDraws; j++)
    for (let s = 1; s < each; s++) {
      const d = side[j * each + s]! - side[j * each]!;
      if (Number.isFinite(d)) squares += d * d;
    }
  return Math.sqrt(squares);
}
function shiftInto(into: Float64Array, column: Float64Array, from: number, to: number): void {
  const by = to - from;
  for (let k = 0; k < column.length; k++) {
    const v = column[k]! + by;
    into[k] = Number.isFinite(v) || !Number.isFinite(to) ? v : to;
  }
}
/** Standard deviation of a gap over belief and scatter together; where neither moves it, the gap itself. */
function spreadOf({ gap, sides }: Deciding, weights: Float64Array): number {
  let [total, sum, squares, scatter] = [0, 0, 0, 0];
  for (let k = 0; k < gap.length; k++) {
    if (!Number.isFinite(gap[k]!)) continue;
    const w = weights[k]!;
    total += w;
    sum += w * gap[k]!;
    squares += w * gap[k]! ** 2;
    scatter += w * Math.max(...sides.map(({ sd: s }) => s[k]!)) ** 2;
  }
  const mean = sum / total;
  const sd = Math.sqrt(Math.max(0, squares / total - mean ** 2) + scatter / total);
  return sd > 1e-12 * Math.abs(mean) ? sd : Math.abs(mean) || 1;
}
/** Belief draws with what each stands for: those of the least gaps one by one, the others in strata of one weight, a draw each. */
function drawsOver(
  deciding: readonly Deciding[],
  sd: readonly number[],
  weights: Float64Array,
): { readonly draws: number[]; readonly weight: Float64Array } {
  const rank = Float64Array.from({ length: beliefDraws }, (_, k) =>
    Math.min(...deciding.map(({ gap }, c) => gap[k]! / sd[c]!), far),
  );
  const order = Array.from(rank.keys())
    .filter((k) => weights[k]! > 0)
    .sort((a, b) => rank[a]! - rank[b]! || a - b);
  const total = order.reduce((sum, k) => sum + weights[k]!, 0);
  const draws = order.slice(0, oneByOne);
  const weight = new Float64Array(sizingDraws);
  let tail = 0;
  for (const [row, k] of draws.entries()) {
    weight[row] = weights[k]! / total;
    tail += weight[row]!;
  }
  const strata = sizingDraws - draws.length;
  let below = tail;
  for (const k of order.slice(oneByOne)) {
    below += weights[k]! / total;
    while (draws.length < sizingDraws && tail + ((draws.length - oneByOne + 0.5) / strata) * (1 - tail) < below) {
      weight[draws.length] = (1 - tail) / strata;
      draws.push(k);
    }
  }
  // Where there are fewer draws than rows, rows that weigh nothing.
  while (draws.length < sizingDraws) draws.push(order.at(-1)!);
  return { draws, weight };
}
