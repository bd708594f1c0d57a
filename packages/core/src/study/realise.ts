import { fold, functions, type Node, namesIn, parseExpression } from "../quantity/expression.ts";
import type { Given } from "../quantity/given.ts";
import { believing, type Scatter, scattering } from "../quantity/law.ts";
import { isFact, isQuantity, type Model, type Quantity, type Read, type Reads } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import { toSI, unitNamed, unitOf } from "../quantity/units.ts";
import type { Scene } from "../scene.ts";
import { Deviates } from "./deviates.ts";
import {
  type Differences,
  differencesInSteps,
  goodEnough,
  goodEnoughCoarse,
  sampleDraws,
  standingOver,
} from "./differences.ts";
import { finished, type Steps } from "./steps.ts";

/** One number for all draws, or one a draw. */
export type Column = number | Float64Array;
/** Where every input stands in a run of n draws: coordinates of the laws in quantity/law.ts; undefined leaves a scatter as written. */
export interface Pick {
  readonly n: number;
  unknown(given: Given): Column;
  scatter(given: Given, which: number): Column | undefined;
  /** How far its centre stands from what the text says, SI: a setting tried, a dimension moved. Its scatters stay, and what it reads goes on moving it. */
  moved?(given: Given): Column | undefined;
  /** What stands for a model, for every costly one at least; where it is given, no costly model is computed, nor what only they read. */
  instead?(model: Model<unknown>): Column | undefined;
}
/** Everything as written, unknowns at their medians. */
export const asWritten: Pick = { n: 1, unknown: () => 0, scatter: () => undefined };

type Any = Given | Model<unknown>;
interface Slot {
  readonly q: Any;
  /** Slots of what it reads, by name (closed models and givens) or in the order the template meets them (solved models). */
  readonly inputs: readonly number[];
  readonly run: (values: readonly unknown[], pick: Pick, scratch: Scratch) => Piece<unknown>;
  /** A solved model's result for one draw, the inputs' values standing in a list of slots. */
  readonly once?: (values: readonly unknown[]) => unknown;
}
/** What a costly model rests on: numbers, and the solvers' results between them and it. */
interface Rest {
  readonly numbers: readonly number[];
  readonly between: readonly number[];
  readonly givens: readonly Given[];
}
/** What the last run with so many draws left: a slot whose inputs stand as they stood is not evaluated again. */
class State {
  readonly scratch: Scratch;
  readonly values: unknown[] = [];
  readonly own: boolean[] = [];
  /** Counts up whenever the slot's value changes. */
  readonly stamps: number[] = [];
  readonly seen: (readonly number[] | undefined)[] = [];
  readonly keys: unknown[][] = [];
  constructor(n: number) {
    this.scratch = new Scratch(n);
  }
}

/**
 * A scene's quantities laid out flat, each after what it reads, ready to be evaluated for many draws at once.
 *
 * Closed models and givens are evaluated from their expression, column by column (a test holds expression and code together);
 * solved models call their code once a draw. A quantity gets one value a draw, so what two checks share is the same number in both.
 * A draw in which code throws a RangeError counts as not a number: no check holds there. A costly model stands as its first differences
 * where many draws are wanted and those are good enough (differences.ts).
 */
export class Realiser {
  readonly scene: Scene;
  private readonly slots: Slot[] = [];
  private readonly at = new Map<Any, number>();
  private readonly states = new Map<number, State>();
  /** For every costly slot what it rests on. */
  private readonly rests = new Map<number, Rest>();
  /** Results of solvers that only costly models read: not wanted where those stand as differences. */
  private readonly spared = new Set<number>();
  /** Costly slots and what rests on them. */
  private readonly after = new Set<number>();
  /** What costly slots rest on, all the way down: costly slots among it are computed where others are sampled. */
  private readonly below = new Set<number>();
  /** Slots of the quantities that were asked for. */
  private readonly wanted: ReadonlySet<number>;
  /** Kept within a run: what `moved` answers may be something else in the next one. */
  private sampledLast:
    | { readonly moved: Pick["moved"]; readonly written: readonly unknown[]; readonly sample: readonly unknown[] }
    | undefined;

  constructor(scene: Scene, wanted: Iterable<Any>) {
    this.scene = scene;
    const list = [...wanted];
    for (const q of list) this.lay(q, new Set());
    this.slots.forEach(({ q }, i) => {
      if (q.kind === "model" && q.costly) this.rests.set(i, this.restOf(i));
    });
    this.wanted = new Set(list.map((q) => this.at.get(q)!));
    if (this.rests.size > 0) this.sortOut(this.wanted);
  }

  /** Givens of the layout, in a fixed order. */
  get givens(): Given[] {
    return this.slots.flatMap(({ q }) => (q.kind === "given" ? [q] : []));
  }
  /** Those of them that some quantities of the layout rest on. */
  givensUnder(quantities: readonly Quantity[]): Given[] {
    const seen = new Set<number>();
    return quantities.flatMap((q) => this.givensBelow(this.at.get(q)!, seen));
  }
  get models(): Model<unknown>[] {
    return this.slots.flatMap(({ q }) => (q.kind === "model" ? [q] : []));
  }

  /**
   * Evaluates all quantities for the pick's n draws. Columns in the result stay valid until the next run; columns in the pick must not
   * be written to afterwards, because what rests on the same columns as in the last run of n is not evaluated again.
   *
   * With `only`, made by `restingOn`, nothing but that is evaluated, without looking: all else must stand as in the last run of n.
   */
  run(pick: Pick, only?: readonly number[]): Realised {
    let state = this.states.get(pick.n);
    if (!state && only) throw new TypeError(`nothing stands from an earlier run of ${pick.n}`);
    if (!state) {
      if (this.states.size >= mostStates) this.states.delete(this.states.keys().next().value!);
      state = new State(pick.n);
      this.states.set(pick.n, state);
    }
    this.sampledLast = undefined;
    this.pass(state, pick, pick.instead || pick.n >= manyDraws ? this.rests : undefined, only);
    return new Realised(state.values, this.at, pick.n);
  }

  /** What rests on these numbers, for runs in which nothing else changes; without what is read by nothing but models that something stands for. */
  restingOn(
    moved: (given: Given) => boolean,
    isStood: (model: Model<unknown>) => boolean = () => false,
  ): readonly number[] {
    const found = new Set<number>();
    this.slots.forEach(({ q, inputs }, i) => {
      if ((q.kind === "given" && moved(q)) || inputs.some((j) => found.has(j))) found.add(i);
    });
    const read = new Set(this.wanted);
    for (let i = this.slots.length - 1; i >= 0; i--) {
      const { q, inputs } = this.slots[i]!;
      if (read.has(i) && !(q.kind === "model" && isStood(q))) for (const j of inputs) read.add(j);
    }
    return [...found].filter((i) => read.has(i));
  }

  /** Works out the differences that a run like this one will want, one value of a costly model a step. */
  *prepare(pick: Pick): Steps<void> {
    if (pick.n < manyDraws) return;
    this.sampledLast = undefined;
    for (const [i, rest] of this.rests)
      if (rest.givens.some((g) => g.unknown || g.scatters.length > 0))
        yield* this.differencesOf(i, rest, this.afresh(i, rest), pick);
  }

  /** Evaluates the slots in order. `costly` holds the slots that stand as differences; "left out": neither they nor what rests on them are wanted, unless something costly rests on it. */
  private pass(
    state: State,
    pick: Pick,
    costly: ReadonlyMap<number, Rest> | "left out" | undefined,
    only?: readonly number[],
  ): void {
    const { values, own, stamps, seen, keys, scratch } = state;
    const count = only ? only.length : this.slots.length;
    for (let at = 0; at < count; at++) {
      const i = only ? only[at]! : at;
      const slot = this.slots[i]!;
      if (costly === "left out" ? this.isLeftOut(i) : costly && this.spared.has(i)) continue;
      const rest = costly === undefined || costly === "left out" ? undefined : costly.get(i);
      const inputs = rest ? rest.numbers : slot.inputs;
      const stands = pick.instead && slot.q.kind === "model" ? pick.instead(slot.q) : undefined;
      if (!only && stands === undefined) {
        const before = seen[i];
        const key = slot.q.kind === "given" ? keyOf(slot.q, pick) : undefined;
        if (before && inputs.every((j, k) => before[k] === stamps[j]) && sameKey(keys[i], key)) continue;
        if (key) keys[i] = key;
      }
      if (own[i]) scratch.give(values[i] as Float64Array);
      const piece =
        stands !== undefined
          ? { c: stands, own: false }
          : rest
            ? this.stand(i, rest, values, pick, scratch)
            : slot.run(values, pick, scratch);
      values[i] = piece.c;
      own[i] = piece.own;
      stamps[i] = (stamps[i] ?? 0) + 1;
      // What stood for it, or was evaluated without looking, is nothing that a later run could rest on.
      seen[i] = only || stands !== undefined ? undefined : inputs.map((j) => stamps[j]!);
    }
  }

  /** Whether nothing costly rests on a slot that is costly itself, stands above one, or is read by those alone. */
  private isLeftOut(i: number): boolean {
    return !this.below.has(i) && (this.spared.has(i) || this.after.has(i));
  }

  /** What a costly slot rests on: the numbers below it, down through results that are none. */
  private restOf(i: number): Rest {
    const numbers: number[] = [];
    const between: number[] = [];
    const givens = new Set<Given>();
    const seen = new Set<number>();
    const visit = (j: number, inside: boolean): void => {
      if (seen.has(j)) return;
      const { q, inputs } = this.slots[j]!;
      if (inside && q.unit !== "") {
        seen.add(j);
        numbers.push(j);
        for (const g of this.givensBelow(j)) givens.add(g);
        return;
      }
      seen.add(j);
      for (const k of inputs) visit(k, true);
      if (inside) between.push(j);
    };
    visit(i, false);
    return { numbers, between, givens: [...givens] };
  }
  private givensBelow(i: number, seen = new Set<number>()): Given[] {
    if (seen.has(i)) return [];
    seen.add(i);
    const { q, inputs } = this.slots[i]!;
    return [...(q.kind === "given" ? [q] : []), ...inputs.flatMap((j) => this.givensBelow(j, seen))];
  }
  /** Which results nobody but a costly model reads, and what rests on a costly model. */
  private sortOut(wanted: ReadonlySet<number>): void {
    for (let i = this.slots.length - 1; i >= 0; i--) {
      if (this.slots[i]!.q.unit !== "" || wanted.has(i)) continue;
      const readers = this.slots.flatMap(({ inputs }, j) => (inputs.includes(i) ? [j] : []));
      if (readers.every((j) => this.rests.has(j) || this.spared.has(j))) this.spared.add(i);
    }
    const reach = (i: number): void => {
      if (this.below.has(i)) return;
      this.below.add(i);
      for (const j of this.slots[i]!.inputs) reach(j);
    };
    for (const { numbers } of this.rests.values()) for (const j of numbers) reach(j);
    this.slots.forEach(({ inputs }, i) => {
      if (this.rests.has(i) || inputs.some((j) => this.after.has(j))) this.after.add(i);
    });
  }

  /** A costly slot over many draws. */
  private stand(i: number, rest: Rest, values: readonly unknown[], pick: Pick, scratch: Scratch): Piece<unknown> {
    const columns = rest.numbers.map((j) => values[j] as Column);
    const f = this.afresh(i, rest);
    const place = new Float64Array(columns.length);
    columns.forEach((c, j) => {
      if (typeof c === "number") place[j] = c;
    });
    if (columns.every((c) => typeof c === "number")) return { c: f(place), own: false };
    const out = scratch.take();
    const known = finished(this.differencesOf(i, rest, f, pick));
    const q = this.slots[i]!.q;
    const enough = q.kind === "model" && q.costly === "coarse" ? goodEnoughCoarse : goodEnough;
    const far = known && standingOver(known, columns, pick.n, out, enough);
    if (far?.length === 0) return { c: out, own: true };
    for (let k = 0; k < pick.n; k++) {
      if (far && far[k] === 0) continue;
      columns.forEach((c, j) => {
        if (typeof c !== "number") place[j] = c[k]!;
      });
      out[k] = f(place);
    }
    return { c: out, own: true };
  }
  /** A costly slot's number at one place of the numbers it rests on. */
  private afresh(i: number, { numbers, between }: Rest): (x: Float64Array) => number {
    const values: unknown[] = [];
    return (x) => {
      numbers.forEach((j, k) => {
        values[j] = x[k]!;
      });
      for (const j of between) {
        values[j] = this.slots[j]!.once!(values);
        if (values[j] === failed) return Number.NaN;
      }
      return this.slots[i]!.once!(values) as number;
    };
  }
  /** Its differences in this scene, kept for as long as the scene; undefined where something is moved by a column. */
  private *differencesOf(
    i: number,
    rest: Rest,
    f: (x: Float64Array) => number,
    pick: Pick,
  ): Steps<Differences | undefined> {
    const moves = rest.givens.map((g) => pick.moved?.(g));
    if (moves.some((m) => typeof m === "object")) return undefined;
    const key = JSON.stringify(moves);
    const q = this.slots[i]!.q;
    const ofScene = kept.get(this.scene) ?? new Map<Any, Map<string, Differences>>();
    kept.set(this.scene, ofScene);
    const ofModel = ofScene.get(q) ?? new Map<string, Differences>();
    ofScene.set(q, ofModel);
    const known = ofModel.get(key);
    if (known) return known;
    const { written, sample: over } = this.sampledFor(pick);
    const at = rest.numbers.map((j) => written[j] as Column);
    const sample = rest.numbers.map((j) => over[j] as Column);
    const made = yield* differencesInSteps(
      f,
      Float64Array.from(at, (c) => c as number),
      sample,
    );
    if (ofModel.size >= mostMoves) ofModel.delete(ofModel.keys().next().value!);
    ofModel.set(key, made);
    return made;
  }

  /** Everything that costly models rest on, as written and over the sample: the same for all of a run's. */
  private sampledFor({ moved }: Pick): { readonly written: readonly unknown[]; readonly sample: readonly unknown[] } {
    if (this.sampledLast?.moved !== moved || !this.sampledLast) {
      const valuesOf = (pick: Pick): readonly unknown[] => {
        const state = new State(pick.n);
        this.pass(state, moved ? { ...pick, moved } : pick, "left out");
        return state.values;
      };
      this.sampledLast = { moved, written: valuesOf(asWritten), sample: valuesOf(sampled) };
    }
    return this.sampledLast;
  }

  /** Lets the columns of earlier runs go: for whoever keeps a layout for later. */
  letGo(): void {
    this.states.clear();
    this.sampledLast = undefined;
  }
  /** Forgets earlier runs: the next one evaluates everything afresh. For measuring. */
  forget(): void {
    for (const state of this.states.values()) state.seen.length = 0;
  }

  private lay(q: Any, above: Set<Any>): number {
    const known = this.at.get(q);
    if (known !== undefined) return known;
    if (above.has(q)) throw new RangeError(`${nameOf(q)} reads itself`);
    above.add(q);
    const reads = q.reads(this.scene);
    if (!reads) throw new RangeError(`${nameOf(q)} is not applicable here`);
    const slot =
      q.kind === "given"
        ? this.layGiven(q, reads, above)
        : q.form === "closed"
          ? this.layClosed(q, reads, above)
          : this.laySolved(q, reads, above);
    above.delete(q);
    this.slots.push(slot);
    this.at.set(q, this.slots.length - 1);
    return this.slots.length - 1;
  }

  private layGiven(q: Given, reads: Reads, above: Set<Any>): Slot {
    const names = q.expression ? namesIn(q.expression).filter((name) => Object.hasOwn(reads, name)) : [];
    const inputs = names.map((name) => this.lay(reads[name] as Any, above));
    const centre = q.expression ? columnsOf(q.expression, names, inputs) : undefined;
    const believe = q.unknown && believing(q.unknown);
    return {
      q,
      inputs,
      run: (values, pick, scratch) => {
        let x: Piece = centre ? centre(values, scratch) : mapped(pick.unknown(q), scratch, believe!);
        const by = pick.moved?.(q);
        if (by !== undefined) x = zipped(x, by, scratch, (c, d) => c + d);
        for (let which = 0; which < q.scatters.length; which++) {
          const coordinate = pick.scatter(q, which);
          if (coordinate !== undefined) x = scatteredBy(q.scatters[which]!, x, coordinate, scratch);
        }
        return x;
      },
    };
  }

  private layClosed(q: Model<unknown>, reads: Reads, above: Set<Any>): Slot {
    const tree = parseExpression(q.equation);
    const names = namesIn(tree).filter((name) => Object.hasOwn(reads, name));
    const inputs = names.map((name) => this.lay(reads[name] as Any, above));
    return { q, inputs, run: columnsOf(tree, names, inputs) };
  }

  private laySolved(q: Model<unknown>, reads: Reads, above: Set<Any>): Slot {
    const inputs: number[] = [];
    // A copy of the reads with room for the numbers, which are put in draw by draw: where each of the inputs goes.
    const holders: Record<PropertyKey, unknown>[] = [];
    const places: (string | number)[] = [];
    const copy = (read: Read | Reads): unknown => {
      if (isFact(read as Read)) return read;
      const isList = Array.isArray(read);
      const holder = (isList ? [] : {}) as Record<PropertyKey, unknown>;
      for (const [name, inner] of Object.entries(read as Reads)) {
        // A place in a list by its number: by its name the engine would look it up anew at every draw.
        const place = isList ? Number(name) : name;
        if (isQuantity(inner)) {
          inputs.push(this.lay(inner, above));
          // A number that is no small integer keeps lists of numbers unboxed in the engine.
          holder[place] = inner.unit === "" ? undefined : 0.5;
          holders.push(holder);
          places.push(place);
        } else holder[place] = copy(inner);
      }
      return holder;
    };
    const x = copy(reads) as Readonly<Record<string, unknown>>;
    const none = q.unit === "" ? failed : Number.NaN;
    const attempt = (): unknown => {
      try {
        return q.value(x);
      } catch (e) {
        if (e instanceof RangeError) return none;
        throw e;
      }
    };
    return {
      q,
      inputs,
      once: (values) => {
        for (let i = 0; i < inputs.length; i++) holders[i]![places[i]!] = values[inputs[i]!];
        return attempt();
      },
      run: (values, pick, scratch) => {
        const columns = inputs.map((i) => values[i]);
        const many = columns.some((c) => isColumn(c));
        columns.forEach((c, i) => {
          if (!isColumn(c)) holders[i]![places[i]!] = c;
        });
        if (columns.includes(failed)) return { c: none, own: false };
        if (!many) return { c: attempt(), own: false };
        const numbers = q.unit === "" ? undefined : scratch.take();
        const objects = new Results();
        const filling = fillingOf(columns, holders, places);
        for (let k = 0; k < pick.n; k++) {
          const value = filling(k) ? attempt() : none;
          if (numbers) numbers[k] = value as number;
          else objects.push(value);
        }
        return numbers ? { c: numbers, own: true } : { c: objects, own: false };
      },
    };
  }
}

/** Puts a draw's values where they go; false where one of them is no result. One loop for each kind of place, so that each stays quick. */
function fillingOf(
  columns: readonly unknown[],
  holders: readonly Record<PropertyKey, unknown>[],
  places: readonly (string | number)[],
): (k: number) => boolean {
  const lists: number[][] = [];
  const at: number[] = [];
  const listed: Float64Array[] = [];
  const named: {
    readonly holder: Record<PropertyKey, unknown>;
    readonly name: PropertyKey;
    readonly column: Float64Array;
  }[] = [];
  const results: {
    readonly holder: Record<PropertyKey, unknown>;
    readonly name: PropertyKey;
    readonly column: Results;
  }[] = [];
  columns.forEach((column, i) => {
    if (!isColumn(column)) return;
    const [holder, name] = [holders[i]!, places[i]!];
    if (!(column instanceof Float64Array)) results.push({ holder, name, column });
    else if (typeof name === "number") {
      lists.push(holder as unknown as number[]);
      at.push(name);
      listed.push(column);
    } else named.push({ holder, name, column });
  });
  return (k) => {
    for (let i = 0; i < lists.length; i++) lists[i]![at[i]!] = listed[i]![k]!;
    for (let i = 0; i < named.length; i++) {
      const { holder, name, column } = named[i]!;
      holder[name] = column[k]!;
    }
    let whole = true;
    for (let i = 0; i < results.length; i++) {
      const { holder, name, column } = results[i]!;
      const result = column[k];
      holder[name] = result;
      if (result === failed) whole = false;
    }
    return whole;
  };
}

/** What stands for the result of a solver that found none. */
const failed: unique symbol = Symbol("no result");

/** Results of a solved model that are no numbers, one a draw. */
class Results extends Array<unknown> {}
const isColumn = (c: unknown): c is Float64Array | Results => c instanceof Float64Array || c instanceof Results;
const nameOf = (q: Any): string => (q.kind === "given" ? q.address : q.id);

/** The values of one run. */
export class Realised {
  private readonly values: readonly unknown[];
  private readonly at: ReadonlyMap<Any, number>;
  readonly n: number;
  constructor(values: readonly unknown[], at: ReadonlyMap<Any, number>, n: number) {
    this.values = values;
    this.at = at;
    this.n = n;
  }
  /** Column of a quantity. Throws RangeError for one that was not laid out. */
  column(q: Quantity): Column {
    return this.raw(q) as Column;
  }
  /** Value of a quantity in one draw. */
  number(q: Quantity, draw = 0): number {
    const c = this.column(q);
    return typeof c === "number" ? c : c[draw]!;
  }
  /** What a model reads in one draw, by its symbols; for `where` and for filling numbers in. */
  inputsOf(m: Model<unknown>, scene: Scene, draw = 0): Record<string, unknown> {
    const value = (read: Read | Reads): unknown => {
      if (isFact(read as Read)) return read;
      if (isQuantity(read as Read)) {
        const c = this.raw(read as Any);
        return isColumn(c) ? c[draw] : c;
      }
      if (Array.isArray(read)) return read.map(value);
      return Object.fromEntries(Object.entries(read as Reads).map(([k, inner]) => [k, value(inner)]));
    };
    return value(m.reads(scene) ?? {}) as Record<string, unknown>;
  }
  private raw(q: Any): unknown {
    const i = this.at.get(q);
    if (i === undefined) throw new RangeError(`${nameOf(q)} was not laid out`);
    return this.values[i];
  }
}

const mostStates = 6;
/** Draws from which on a costly model stands as its differences. */
const manyDraws = 200;
/** Differences of one costly model that are kept for different moves. */
const mostMoves = 8;
const kept = new WeakMap<Scene, Map<Any, Map<string, Differences>>>();
/** Belief and scatter together, the same sample for whoever asks: seed and addresses alone decide it. */
const sampling = new Deviates(0);
const sampled: Pick = {
  n: sampleDraws,
  unknown: (g) => sampling.normal(`sample ${g.address}`, sampleDraws),
  scatter: (g, which) => {
    const key = `sample ${g.address}#${which}`;
    const scatter = g.scatters[which]!;
    return scatter.law === "uniform" ? sampling.between(key, sampleDraws) : sampling.normal(key, sampleDraws);
  },
};
/** Everything a given's value hangs on besides what it reads. */
const keyOf = (q: Given, pick: Pick): unknown[] => [
  pick.moved?.(q),
  q.unknown ? pick.unknown(q) : 0,
  ...q.scatters.map((_, which) => pick.scatter(q, which)),
];
const sameKey = (a: readonly unknown[] | undefined, b: readonly unknown[] | undefined): boolean =>
  a === b || (a !== undefined && b !== undefined && a.every((v, i) => v === b[i]));

/** Columns for results and for the steps between, used again. */
class Scratch {
  private readonly free: Float64Array[] = [];
  readonly n: number;
  constructor(n: number) {
    this.n = n;
  }
  take(): Float64Array {
    return this.free.pop() ?? new Float64Array(this.n);
  }
  /** Gives a column back that nothing reads any more. */
  give(c: Float64Array): void {
    this.free.push(c);
  }
}

/** A value and whether its column was made in this step, so that the next step may write into it. */
interface Piece<T = Column> {
  readonly c: T;
  readonly own: boolean;
}

function mapped(a: Column, scratch: Scratch, f: (x: number) => number): Piece {
  if (typeof a === "number") return { c: f(a), own: false };
  const out = scratch.take();
  for (let k = 0; k < scratch.n; k++) out[k] = f(a[k]!);
  return { c: out, own: true };
}
/** A column moved by a scatter, by the formulas of `scattering` to the bit: one loop a law, as in `binary`. */
function scatteredBy(scatter: Scatter, x: Piece, coordinate: Column, scratch: Scratch): Piece {
  if (typeof coordinate === "number") return zipped(x, coordinate, scratch, scattering(scatter));
  const { c: a, own } = x;
  const out = own && typeof a !== "number" ? a : scratch.take();
  const n = scratch.n;
  if (scatter.law === "uniform") {
    const middle = (scatter.from + scatter.to) / 2;
    const half = (scatter.to - scatter.from) / 2;
    if (typeof a === "number") for (let k = 0; k < n; k++) out[k] = a + middle + half * coordinate[k]!;
    else for (let k = 0; k < n; k++) out[k] = a[k]! + middle + half * coordinate[k]!;
  } else if (scatter.law === "normal") {
    const { sd } = scatter;
    if (typeof a === "number") for (let k = 0; k < n; k++) out[k] = a + sd * coordinate[k]!;
    else for (let k = 0; k < n; k++) out[k] = a[k]! + sd * coordinate[k]!;
  } else {
    const { sd } = scatter;
    if (typeof a === "number") for (let k = 0; k < n; k++) out[k] = a * Math.exp(sd * coordinate[k]!);
    else for (let k = 0; k < n; k++) out[k] = a[k]! * Math.exp(sd * coordinate[k]!);
  }
  return { c: out, own: true };
}
function zipped({ c: a, own }: Piece, b: Column, scratch: Scratch, f: (x: number, y: number) => number): Piece {
  if (typeof a === "number" && typeof b === "number") return { c: f(a, b), own: false };
  const out = own ? (a as Float64Array) : scratch.take();
  if (typeof a === "number") for (let k = 0; k < scratch.n; k++) out[k] = f(a, (b as Float64Array)[k]!);
  else if (typeof b === "number") for (let k = 0; k < scratch.n; k++) out[k] = f(a[k]!, b);
  else for (let k = 0; k < scratch.n; k++) out[k] = f(a[k]!, b[k]!);
  return { c: out, own: true };
}

type Step = (values: readonly unknown[], scratch: Scratch) => Piece;

/** Compiles an expression to steps over columns; names are looked up among the slots given beside them. */
function columnsOf(
  tree: Node,
  names: readonly string[],
  inputs: readonly number[],
): (values: readonly unknown[], pickOrScratch: unknown, scratch?: Scratch) => Piece {
  const constant = (v: number): Step => {
    const piece: Piece = { c: v, own: false };
    return () => piece;
  };
  const step = fold<Step>(tree, {
    num: ({ v, unit }) => constant(unit === "" ? v : toSI(v, unitOf(unit))),
    sym: ({ name }) => {
      const i = names.indexOf(name);
      if (i < 0) {
        const unit = unitNamed(name);
        if (!unit) throw new RangeError(`no value for ${name}`);
        return constant(unit.factor);
      }
      const slot = inputs[i]!;
      return (values) => ({ c: values[slot] as Column, own: false });
    },
    neg: (a) => unary(a, (x) => -x),
    call: (f, args) => {
      if (args.length === 1)
        return (
          oftenUsed[f as keyof typeof oftenUsed]?.(args[0]!) ??
          unary(args[0]!, functions[f].of as (x: number) => number)
        );
      if (f === "hypot" && args.length > 2) throw new RangeError("hypot of three in a model: write sqrt of squares");
      return args.reduce((a, b) => binary(a, b, f));
    },
    bin: (op, a, b, node) => {
      if (op === "^" && node.b.op === "num" && node.b.unit === "") {
        if (node.b.v === 2) return oftenUsed.square(a);
        if (node.b.v === 3) return unary(a, (x) => power(x, 3));
      }
      return binary(a, b, op);
    },
  });
  return (values, second, third) => step(values, third ?? (second as Scratch));
}
function unary(a: Step, f: (x: number) => number): Step {
  return (values, scratch) => {
    const { c, own } = a(values, scratch);
    if (typeof c === "number") return { c: f(c), own: false };
    const out = own ? c : scratch.take();
    for (let k = 0; k < scratch.n; k++) out[k] = f(c[k]!);
    return { c: out, own: true };
  };
}
/** The functions that models use most, each with a loop of its own: a loop over a function passed in calls it for every draw. */
const oftenUsed = {
  square: (a: Step): Step =>
    column(
      a,
      (x) => x * x,
      (x, out, n) => {
        for (let k = 0; k < n; k++) out[k] = x[k]! * x[k]!;
      },
    ),
  sqrt: (a: Step): Step =>
    column(a, Math.sqrt, (x, out, n) => {
      for (let k = 0; k < n; k++) out[k] = Math.sqrt(x[k]!);
    }),
  sin: (a: Step): Step =>
    column(a, Math.sin, (x, out, n) => {
      for (let k = 0; k < n; k++) out[k] = Math.sin(x[k]!);
    }),
  cos: (a: Step): Step =>
    column(a, Math.cos, (x, out, n) => {
      for (let k = 0; k < n; k++) out[k] = Math.cos(x[k]!);
    }),
  exp: (a: Step): Step =>
    column(a, Math.exp, (x, out, n) => {
      for (let k = 0; k < n; k++) out[k] = Math.exp(x[k]!);
    }),
  abs: (a: Step): Step =>
    column(a, Math.abs, (x, out, n) => {
      for (let k = 0; k < n; k++) out[k] = Math.abs(x[k]!);
    }),
};
function column(
  a: Step,
  one: (x: number) => number,
  all: (x: Float64Array, out: Float64Array, n: number) => void,
): Step {
  return (values, scratch) => {
    const { c, own } = a(values, scratch);
    if (typeof c === "number") return { c: one(c), own: false };
    const out = own ? c : scratch.take();
    all(c, out, scratch.n);
    return { c: out, own: true };
  };
}
/** What has loops of its own. */
type Arithmetic = "+" | "-" | "*" | "/" | "^" | "max" | "min";
type Binary = Arithmetic | keyof typeof functions;
const isArithmetic = (op: Binary): op is Arithmetic => Object.hasOwn(columnColumn, op);
/** One loop a case: a loop over a function passed in would not be inlined, and this is the hot path. */
function binary(a: Step, b: Step, op: Binary): Step {
  const f = isArithmetic(op) ? undefined : (functions[op].of as (x: number, y: number) => number);
  const numbers = f ? undefined : scalarColumn[op as Arithmetic];
  const byNumber = f ? undefined : columnScalar[op as Arithmetic];
  const columns = f ? undefined : columnColumn[op as Arithmetic];
  return (values, scratch) => {
    const left = a(values, scratch);
    const right = b(values, scratch);
    const x = left.c;
    const y = right.c;
    if (typeof x === "number" && typeof y === "number") return { c: scalar(op, x, y), own: false };
    const n = scratch.n;
    const out = left.own ? (x as Float64Array) : right.own ? (y as Float64Array) : scratch.take();
    if (f) {
      for (let k = 0; k < n; k++) out[k] = f(typeof x === "number" ? x : x[k]!, typeof y === "number" ? y : y[k]!);
    } else if (typeof x === "number") numbers!(x, y as Float64Array, out, n);
    else if (typeof y === "number") byNumber!(x, y, out, n);
    else columns!(x, y, out, n);
    if (left.own && right.own) scratch.give(y as Float64Array);
    return { c: out, own: true };
  };
}
function scalar(op: Binary, x: number, y: number): number {
  switch (op) {
    case "+":
      return x + y;
    case "-":
      return x - y;
    case "*":
      return x * y;
    case "/":
      return x / y;
    case "^":
      return power(x, y);
    default:
      return (functions[op].of as (x: number, y: number) => number)(x, y);
  }
}
/** A loop over columns into a third; one of the two may be a number. */
type Loop<A, B> = (x: A, y: B, out: Float64Array, n: number) => void;
/** A function each, so that the engine makes each of them ready once. */
const scalarColumn: Readonly<Record<Arithmetic, Loop<number, Float64Array>>> = {
  "+": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = x + y[k]!;
  },
  "-": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = x - y[k]!;
  },
  "*": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = x * y[k]!;
  },
  "/": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = x / y[k]!;
  },
  "^": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = power(x, y[k]!);
  },
  max: (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = Math.max(x, y[k]!);
  },
  min: (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = Math.min(x, y[k]!);
  },
};
const columnScalar: Readonly<Record<Arithmetic, Loop<Float64Array, number>>> = {
  "+": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = x[k]! + y;
  },
  "-": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = x[k]! - y;
  },
  "*": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = x[k]! * y;
  },
  "/": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = x[k]! / y;
  },
  "^": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = power(x[k]!, y);
  },
  max: (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = Math.max(x[k]!, y);
  },
  min: (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = Math.min(x[k]!, y);
  },
};
const columnColumn: Readonly<Record<Arithmetic, Loop<Float64Array, Float64Array>>> = {
  "+": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = x[k]! + y[k]!;
  },
  "-": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = x[k]! - y[k]!;
  },
  "*": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = x[k]! * y[k]!;
  },
  "/": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = x[k]! / y[k]!;
  },
  "^": (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = power(x[k]!, y[k]!);
  },
  max: (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = Math.max(x[k]!, y[k]!);
  },
  min: (x, y, out, n) => {
    for (let k = 0; k < n; k++) out[k] = Math.min(x[k]!, y[k]!);
  },
};
