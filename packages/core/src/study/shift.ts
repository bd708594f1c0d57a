import type { Given } from "../quantity/given.ts";
import { type Model, type Quantity, rootsOf } from "../quantity/model.ts";
import type { Deciding } from "./allowance.ts";
import { beliefColumn, Cell, oneSd, type Standing, scatterKey } from "./cell.ts";
import type { Deviates } from "./deviates.ts";
import { type Allowance, type Decided, lessAllowance } from "./quick.ts";
import { asWritten, type Column, Realiser } from "./realise.ts";
import type { Steps } from "./steps.ts";

/**
 * Deciding gaps at a few belief draws while a number is moved, from those drawn where it stood.
 *
 *     g(u, x) = g_w(u, x) - a(u) r(x)
 *
 * x    how far the number stands off;  u  some of the belief draws
 * g_w  gap with scatter as written, computed at x;  a  the scatter allowance as drawn at u
 * r    standard deviation of the gap over scatter over that as drawn, both from first differences at `spreadDraws` of the draws, taken at a place
 *      within a quarter of the reach of x
 *
 * A costly model, and the value of a dear check, stands as it stood at every draw, shifted by what the move does to it with every number as written; that by its slope on
 * either side of a place within the reach of x, or where `exact` is asked for, and beyond the reach, by its value at x. So at x = 0 the deciding
 * gaps are the drawn ones. Away from it two things are lost: how the move changes what belief and scatter do to a costly model, and how it
 * changes the shape of the scatter (kappa). Held against full draws on random models in the test.
 */
export interface Shift {
  /** Deciding gaps of the cell's checks at the draws, and its quantities with every number as written: with the members moved so far, SI. */
  at(by: number, exact?: boolean): { readonly decided: readonly Decided[]; readonly nominal: Nominal };
  /** Takes the slopes of costly models, and the scatter, afresh about that place, where it is not near the last one: a value of each a step. */
  renew(by: number): Steps<void>;
}
/** A number of the cell with every input as written. */
export interface Nominal {
  number(q: Quantity): number;
}
export interface Shifting {
  /** Of every check of the cell, as drawn. */
  readonly deciding: readonly Deciding[];
  /** Addresses of the numbers that move, all by one distance. */
  readonly members: readonly string[];
  /** How far slopes may be trusted, SI. */
  readonly reach: number;
  readonly draws: readonly number[];
  readonly deviates: Deviates;
}
const spreadDraws = 6;
/** With fewer rows the costly models would be computed in each. */
const fewestRows = 200;

/** Makes ready for moving numbers, a run of the cell or less a step. */
export function* shiftInSteps(cell: Cell, { deciding, members, reach, draws, deviates }: Shifting): Steps<Shift> {
  const isMoved = (g: Given): boolean => members.includes(g.address);
  const rows = rowsOf(cell, draws, deviates);
  yield* cell.prepare(rows);
  const stood = cell.costlyColumns(rows, true);
  yield;
  const costly = [...new Set(stood.flatMap((part) => [...part.keys()]))];
  const slopes = new Slopes(cell, costly, isMoved, reach);
  yield* slopes.renew(0);
  const moving = new Moving(cell, rows, stood, 0, draws.length, isMoved);
  const written = moving.begun;
  const spread = new Spread(cell, rows, stood, draws.length, isMoved);
  const allowances = allowancesAt(cell, deciding, draws, written);
  yield;
  let place = { by: 0, ratios: written.map(() => 1) };
  const renewRatios = (by: number, nominal: Costly): void => {
    place = { by, ratios: by === 0 ? written.map(() => 1) : spread.ratios(by, nominal) };
  };
  return {
    *renew(by) {
      yield* slopes.renew(by);
      if (Math.abs(by - place.by) < reach / 8) return;
      renewRatios(by, slopes.costlyAt(by, false));
      yield;
    },
    at(by, exact = false) {
      const nominal = slopes.at(by, exact);
      if (by === 0 || Math.abs(by - place.by) > reach / 4) renewRatios(by, nominal.costly);
      const gaps = moving.at(by, nominal.costly);
      const { ratios } = place;
      const scaled = allowances.map(({ sides }, c): Allowance => {
        const r = cell.sidesOf[c]!.map((side) => ratios[side]!);
        return { sides: sides.map(({ takes, sd }, i) => ({ takes: times(takes, r[i]!), sd: times(sd, r[i]!) })) };
      });
      return { decided: lessAllowance(cell, gaps, scaled, draws.length), nominal };
    },
  };
}
/** What a move did to each costly model with every number as written. */
type Costly = ReadonlyMap<Model<unknown>, { readonly begun: number; readonly now: number }>;
type Rows = Required<Pick<Standing, "n" | "unknown" | "scatter">>;

/** Gaps of a cell's sides in some of the rows, `from` the first up to `to`, wherever the number stands. */
class Moving {
  /** Where nothing is moved. */
  readonly begun: readonly Float64Array[];
  private readonly cell: Cell;
  private readonly isMoved: (g: Given) => boolean;
  private readonly standing: Standing;
  private readonly stood: readonly ReadonlyMap<Model<unknown>, Column>[];
  private readonly shifted: readonly Map<Model<unknown>, Column>[];
  private readonly gaps: Float64Array[];

  constructor(
    cell: Cell,
    rows: Rows,
    stood: readonly ReadonlyMap<Model<unknown>, Column>[],
    from: number,
    to: number,
    isMoved: (g: Given) => boolean,
  ) {
    this.cell = cell;
    this.isMoved = isMoved;
    const cut = (c: Column): Column => (typeof c === "number" ? c : c.slice(from, to));
    const cuts = new Map<Column, Column>();
    const cutOnce = (c: Column): Column => {
      const known = cuts.get(c) ?? cut(c);
      cuts.set(c, known);
      return known;
    };
    this.stood = stood.map((part) => new Map([...part].map(([m, c]) => [m, cut(c)])));
    this.shifted = this.stood.map((part) => new Map([...part].map(([m, c]) => [m, columnLike(c)])));
    const costly = stood.some((part) => part.size > 0);
    this.standing = {
      n: to - from,
      unknown: (given) => cutOnce(rows.unknown(given)!),
      scatter: (given, which) => {
        const c = rows.scatter(given, which);
        return c === undefined ? undefined : cutOnce(c);
      },
      ...(costly ? { instead: (m: Model<unknown>, part: number) => this.shifted[part]!.get(m) } : {}),
    };
    this.begun = cell.sideGaps(this.standing);
    this.gaps = this.begun.map((side) => side.slice());
    const isStood = (m: Model<unknown>): boolean => stood.some((part) => part.has(m));
    this.standing = { ...this.standing, only: cell.restingOn(isMoved, isStood) };
  }
  /** Valid until the next call. */
  at(by: number, costly: Costly): readonly Float64Array[] {
    for (const [p, part] of this.stood.entries())
      for (const [m, { begun, now }] of costly) {
        const column = part.get(m);
        if (column !== undefined) this.shifted[p]!.set(m, shift(column, this.shifted[p]!.get(m)!, begun, now));
      }
    return this.cell.sideGaps({ ...this.standing, moved: (g) => (this.isMoved(g) ? by : undefined) }, this.gaps);
  }
}
/** The standard deviation over scatter of a cell's sides, over that where nothing is moved. A cell of its own: the runs of the other one rest on each other. */
class Spread {
  private readonly moving: Moving;
  private readonly scatters: number;
  private readonly begun: readonly number[];
  constructor(
    { scene, checks, scatters }: Cell,
    rows: Rows,
    stood: readonly ReadonlyMap<Model<unknown>, Column>[],
    draws: number,
    isMoved: (g: Given) => boolean,
  ) {
    this.scatters = scatters.length;
    const cell = new Cell(scene, checks);
    this.moving = new Moving(cell, rows, stood, draws, draws + spreadDraws * (1 + this.scatters), isMoved);
    this.begun = this.moving.begun.map((side) => spreadIn(side, this.scatters));
  }
  ratios(by: number, costly: Costly): number[] {
    return this.moving.at(by, costly).map((side, i) => {
      const r = spreadIn(side, this.scatters) / this.begun[i]!;
      return Number.isFinite(r) ? r : 1;
    });
  }
}
const times = (column: Float64Array, by: number): Float64Array => (by === 1 ? column : column.map((v) => v * by));
/** A column to write into, or the number. */
const columnLike = (c: Column): Column => (typeof c === "number" ? c : c.slice());

/** What a move does to the costly models of a cell with every number as written. */
class Slopes {
  private readonly isMoved: (g: Given) => boolean;
  private readonly reach: number;
  private readonly moving: readonly Model<unknown>[];
  private readonly still: ReadonlyMap<Model<unknown>, number>;
  /** The costly models alone, and all that is read of the cell with them given. */
  private readonly exactly: Realiser;
  private readonly given: Realiser;
  private readonly onlyExactly: readonly number[];
  private readonly onlyGiven: readonly number[];
  private place:
    | { readonly by: number; readonly value: Values; readonly above: Values; readonly below: Values }
    | undefined;
  private readonly begun: Values;

  constructor(cell: Cell, costly: readonly Model<unknown>[], isMoved: (g: Given) => boolean, reach: number) {
    this.isMoved = isMoved;
    this.reach = reach;
    this.moving = costly.filter((m) => [...rootsOf(m, cell.scene)].some(isMoved));
    this.exactly = new Realiser(cell.scene, costly);
    this.given = new Realiser(cell.scene, cell.quantities);
    this.onlyExactly = this.exactly.restingOn(isMoved);
    this.onlyGiven = this.given.restingOn(isMoved, (m) => costly.includes(m));
    const run = this.exactly.run(asWritten);
    this.still = new Map(costly.map((m) => [m, run.number(m as Model)]));
    this.begun = this.moving.map((m) => this.still.get(m)!);
    this.given.run({ ...asWritten, instead: (m) => this.still.get(m) });
  }

  *renew(by: number): Steps<void> {
    if (this.moving.length === 0 || (this.place && Math.abs(by - this.place.by) < this.reach / 8)) return;
    const step = this.reach / 2;
    const value = by === 0 ? this.begun : this.exact(by);
    yield;
    const above = this.exact(by + step).map((v, i) => (v - value[i]!) / step);
    yield;
    const below = this.exact(by - step).map((v, i) => (value[i]! - v) / step);
    this.place = { by, value, above, below };
  }
  private exact(by: number): Values {
    const run = this.exactly.run({ ...asWritten, moved: (g) => (this.isMoved(g) ? by : undefined) }, this.onlyExactly);
    return this.moving.map((m) => run.number(m as Model));
  }

  costlyAt(by: number, exact: boolean): Costly {
    const { place, begun } = this;
    const off = place ? by - place.by : Number.NaN;
    let now = begun;
    if (by !== 0 && this.moving.length > 0) {
      if (!exact && place && Math.abs(off) <= this.reach)
        now = place.value.map((v, i) => v + (off > 0 ? place.above[i]! : place.below[i]!) * off);
      // Where a slope has no answer the place itself may have one.
      if (now === begun || now.some(Number.isNaN)) now = this.exact(by);
    }
    return new Map(this.moving.map((m, i) => [m, { begun: begun[i]!, now: now[i]! }]));
  }
  at(by: number, exact: boolean): Nominal & { readonly costly: Costly } {
    const costly = this.costlyAt(by, exact);
    const run = this.given.run(
      {
        ...asWritten,
        moved: (g) => (this.isMoved(g) ? by : undefined),
        instead: (m) => costly.get(m)?.now ?? this.still.get(m),
      },
      this.onlyGiven,
    );
    return { costly, number: (q) => run.number(q) };
  }
}
type Values = readonly number[];

/** The draws with scatter as written; then some of them again, each as written and for each scatter stepped by one standard deviation. */
function rowsOf(cell: Cell, draws: readonly number[], deviates: Deviates): Rows {
  const each = 1 + cell.scatters.length;
  const n = Math.max(fewestRows, draws.length + spreadDraws * each);
  const unknowns = new Map<Given, Float64Array>();
  const steps = new Map<string, Float64Array>();
  const drawAt = (row: number): number => {
    if (row < draws.length) return draws[row]!;
    const j = Math.floor((row - draws.length) / each);
    return j < spreadDraws ? draws[spreadAt(j, draws.length)]! : draws[0]!;
  };
  const at = Array.from({ length: n }, (_, row) => drawAt(row));
  cell.scatters.forEach(({ given, which }, s) => {
    const column = new Float64Array(n).fill(unmoved(given, which));
    for (let j = 0; j < spreadDraws; j++) column[draws.length + j * each + 1 + s] = oneSd(given, which);
    steps.set(scatterKey(given, which), column);
  });
  return {
    n,
    unknown: (given) => {
      const known = unknowns.get(given);
      if (known) return known;
      const column = beliefColumn(deviates, given);
      const made = Float64Array.from(at, (k) => column[k]!);
      unknowns.set(given, made);
      return made;
    },
    scatter: (given, which) => steps.get(scatterKey(given, which)),
  };
}
const spreadAt = (j: number, of: number): number => Math.floor(((j + 0.5) * of) / spreadDraws);
/** The coordinate at which a scatter leaves its number as written. */
function unmoved(given: Given, which: number): number {
  const scatter = given.scatters[which]!;
  return scatter.law === "uniform" ? -(scatter.from + scatter.to) / (scatter.to - scatter.from) : 0;
}
/** Root of the summed squares of a side's first differences over scatter: a row as written, then one for each scatter, and so on. */
function spreadIn(side: Float64Array, scatters: number): number {
  let squares = 0;
  for (let j = 0; j < spreadDraws; j++) {
    const first = j * (1 + scatters);
    const g = side[first]!;
    for (let s = 1; s <= scatters; s++) {
      const d = side[first + s]! - g;
      if (Number.isFinite(d)) squares += d * d;
    }
  }
  return Math.sqrt(squares);
}

/** A costly model's column, moved by as much as its value as written; all of that value where it had no answer before. */
function shift(column: Column, into: Column, from: number, to: number): Column {
  const by = to - from;
  if (typeof column === "number" || typeof into === "number") return to;
  for (let k = 0; k < column.length; k++) {
    const v = column[k]! + by;
    into[k] = Number.isFinite(v) || !Number.isFinite(to) ? v : to;
  }
  return into;
}

/** What scatter took from every side's gap where it was drawn. */
function allowancesAt(
  cell: Cell,
  deciding: readonly Deciding[],
  draws: readonly number[],
  written: readonly Float64Array[],
): Allowance[] {
  return deciding.map(({ gap, kappa, sides }, c) => {
    const sd = sides.map((one) => Float64Array.from(draws, (k) => one.sd[k]!));
    const takes = sides.map((one, i) =>
      Float64Array.from(draws, (k) =>
        one.sd[k]! > 0 && Number.isFinite(one.written[k]!) ? kappa[i]!(one.written[k]!) * one.sd[k]! : 0,
      ),
    );
    // Whatever else tells the drawn gap from this one, a true quantile among it, is the nearer side's.
    draws.forEach((k, row) => {
      const left = takes.map((t, i) => written[cell.sidesOf[c]![i]!]![row]! - t[row]!);
      const nearer = left.length > 1 && left[1]! < left[0]! ? 1 : 0;
      const off = left[nearer]! - gap[k]!;
      if (Number.isFinite(off)) takes[nearer]![row]! += off;
    });
    return { sides: takes.map((t, i) => ({ takes: t, sd: sd[i]! })) };
  });
}
