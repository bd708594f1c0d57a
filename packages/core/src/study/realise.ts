import { functions, fold, type Node, namesIn, parseExpression } from "../quantity/expression.ts";
import type { Given } from "../quantity/given.ts";
import { believed, scattered } from "../quantity/law.ts";
import { isFact, isQuantity, type Model, type Quantity, type Read, type Reads } from "../quantity/model.ts";
import { unitNamed, unitOf } from "../quantity/units.ts";
import type { Scene } from "../scene.ts";

/** One number for all draws, or one a draw. */
export type Column = number | Float64Array;
/** Where every input stands in a run of n draws: coordinates of the laws in quantity/law.ts; undefined leaves a scatter as written. */
export interface Pick {
  readonly n: number;
  unknown(given: Given): Column;
  scatter(given: Given, which: number): Column | undefined;
  /** Another centre than the text's, SI: a setting tried, a dimension moved. Its scatters stay. */
  centre?(given: Given): Column | undefined;
}
/** Everything as written, unknowns at their medians. */
export const asWritten: Pick = { n: 1, unknown: () => 0, scatter: () => undefined };

type Any = Given | Model<unknown>;
interface Slot {
  readonly q: Any;
  /** Slots of what it reads, by name (closed models and givens) or in the order the template meets them (solved models). */
  readonly inputs: readonly number[];
  readonly run: (values: readonly unknown[], pick: Pick, scratch: Scratch) => unknown;
}

/**
 * A scene's quantities laid out flat, each after what it reads, ready to be evaluated for many draws at once.
 *
 * Closed models and givens are evaluated from their expression, column by column (a test holds expression and code together);
 * solved models call their code once a draw. A quantity gets one value a draw, so what two checks share is the same number in both.
 * A draw in which code throws a RangeError counts as not a number: no check holds there.
 */
export class Realiser {
  readonly scene: Scene;
  private readonly slots: Slot[] = [];
  private readonly at = new Map<Any, number>();
  private readonly scratch = new Scratch();

  constructor(scene: Scene, wanted: Iterable<Any>) {
    this.scene = scene;
    for (const q of wanted) this.lay(q, new Set());
  }

  /** Givens of the layout, in a fixed order. */
  get givens(): Given[] {
    return this.slots.flatMap(({ q }) => (q.kind === "given" ? [q] : []));
  }
  get models(): Model<unknown>[] {
    return this.slots.flatMap(({ q }) => (q.kind === "model" ? [q] : []));
  }

  /** Evaluates all quantities for the pick's n draws. Columns in the result stay valid until the next run. */
  run(pick: Pick): Realised {
    this.scratch.begin(pick.n);
    const values: unknown[] = [];
    for (const slot of this.slots) values.push(slot.run(values, pick, this.scratch));
    return new Realised(values, this.at, pick.n);
  }

  private lay(q: Any, above: Set<Any>): number {
    const known = this.at.get(q);
    if (known !== undefined) return known;
    if (above.has(q)) throw new RangeError(`${nameOf(q)} reads itself`);
    above.add(q);
    const reads = q.reads(this.scene);
    if (!reads) throw new RangeError(`${nameOf(q)} is not applicable here`);
    const slot = q.kind === "given" ? this.layGiven(q, reads, above) : q.form === "closed" ? this.layClosed(q, reads, above) : this.laySolved(q, reads, above);
    above.delete(q);
    this.slots.push(slot);
    this.at.set(q, this.slots.length - 1);
    return this.slots.length - 1;
  }

  private layGiven(q: Given, reads: Reads, above: Set<Any>): Slot {
    const names = q.expression ? namesIn(q.expression).filter((name) => Object.hasOwn(reads, name)) : [];
    const inputs = names.map((name) => this.lay(reads[name] as Any, above));
    const centre = q.expression ? columnsOf(q.expression, names, inputs) : undefined;
    return {
      q,
      inputs,
      run: (values, pick, scratch) => {
        let x: Column = pick.centre?.(q) ?? (centre ? centre(values, scratch) : mapped(pick.unknown(q), scratch, (z) => believed(q.unknown!, z)));
        q.scatters.forEach((scatter, which) => {
          const coordinate = pick.scatter(q, which);
          if (coordinate !== undefined) x = zipped(x, coordinate, scratch, (v, t) => scattered(v, scatter, t));
        });
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
    // A copy of the reads with room for the numbers; the setters put them in, draw by draw.
    const setters: ((value: unknown) => void)[] = [];
    const copy = (read: Read | Reads): unknown => {
      if (isFact(read as Read)) return read;
      const holder: unknown[] | Record<string, unknown> = Array.isArray(read) ? [] : {};
      for (const [key, inner] of Object.entries(read as Reads)) {
        const target = holder as Record<string, unknown>;
        if (isQuantity(inner)) {
          inputs.push(this.lay(inner, above));
          target[key] = undefined;
          setters.push((value) => {
            target[key] = value;
          });
        } else target[key] = copy(inner);
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
      run: (values, pick, scratch) => {
        const columns = inputs.map((i) => values[i]);
        const many = columns.some((c) => isColumn(c));
        setters.forEach((set, i) => {
          if (!isColumn(columns[i])) set(columns[i]);
        });
        if (columns.includes(failed)) return none;
        if (!many) return attempt();
        const moving = setters.flatMap((set, i) => (isColumn(columns[i]) ? [{ set, column: columns[i] }] : []));
        const numbers = q.unit === "" ? undefined : scratch.take();
        const objects: unknown[] = [];
        for (let k = 0; k < pick.n; k++) {
          let whole = true;
          for (const { set, column } of moving) {
            set(column[k]);
            if (column[k] === failed) whole = false;
          }
          const value = whole ? attempt() : none;
          if (numbers) numbers[k] = value as number;
          else objects.push(value);
        }
        return numbers ?? new Results(objects);
      },
    };
  }
}

/** What stands for the result of a solver that found none. */
const failed: unique symbol = Symbol("no result");

/** Results of a solved model that are no numbers, one a draw. */
class Results {
  [k: number]: unknown;
  constructor(list: readonly unknown[]) {
    list.forEach((value, k) => {
      this[k] = value;
    });
  }
}
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

/** Columns for the results of one run, used again in the next. */
class Scratch {
  private readonly pool: Float64Array[] = [];
  private readonly free: Float64Array[] = [];
  private used = 0;
  n = 1;
  begin(n: number): void {
    if (n !== this.n) this.pool.length = 0;
    this.n = n;
    this.used = 0;
    this.free.length = 0;
  }
  take(): Float64Array {
    const again = this.free.pop();
    if (again) return again;
    const c = this.pool[this.used] ?? new Float64Array(this.n);
    this.pool[this.used++] = c;
    return c;
  }
  /** Gives a column of a step in between back for the next step. */
  give(c: Float64Array): void {
    this.free.push(c);
  }
}

function mapped(a: Column, scratch: Scratch, f: (x: number) => number): Column {
  if (typeof a === "number") return f(a);
  const out = scratch.take();
  for (let k = 0; k < scratch.n; k++) out[k] = f(a[k]!);
  return out;
}
function zipped(a: Column, b: Column, scratch: Scratch, f: (x: number, y: number) => number): Column {
  if (typeof a === "number" && typeof b === "number") return f(a, b);
  const out = scratch.take();
  if (typeof a === "number") for (let k = 0; k < scratch.n; k++) out[k] = f(a, (b as Float64Array)[k]!);
  else if (typeof b === "number") for (let k = 0; k < scratch.n; k++) out[k] = f(a[k]!, b);
  else for (let k = 0; k < scratch.n; k++) out[k] = f(a[k]!, b[k]!);
  return out;
}

/** A column and whether it was made in this expression, so that the next step may write into it. */
interface Piece {
  readonly c: Column;
  readonly own: boolean;
}
type Step = (values: readonly unknown[], scratch: Scratch) => Piece;

/** Compiles an expression to steps over columns; names are looked up among the slots given beside them. */
function columnsOf(tree: Node, names: readonly string[], inputs: readonly number[]): (values: readonly unknown[], pickOrScratch: unknown, scratch?: Scratch) => Column {
  const constant = (v: number): Step => {
    const piece: Piece = { c: v, own: false };
    return () => piece;
  };
  const step = fold<Step>(tree, {
    num: ({ v, unit }) => constant(unit === "" ? v : v * unitOf(unit).factor),
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
      if (args.length === 1) return unary(args[0]!, functions[f].of as (x: number) => number);
      if (f === "hypot" && args.length > 2) throw new RangeError("hypot of three in a model: write sqrt of squares");
      return args.reduce((a, b) => binary(a, b, f));
    },
    bin: (op, a, b, node) => {
      if (op === "^" && node.b.op === "num" && node.b.unit === "") {
        if (node.b.v === 2) return unary(a, (x) => x * x);
        if (node.b.v === 3) return unary(a, (x) => x ** 3);
      }
      return binary(a, b, op);
    },
  });
  return (values, second, third) => step(values, third ?? (second as Scratch)).c;
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
type Binary = "+" | "-" | "*" | "/" | "^" | keyof typeof functions;
/** One loop a case: a loop over a function passed in would not be inlined, and this is the hot path. */
function binary(a: Step, b: Step, op: Binary): Step {
  return (values, scratch) => {
    const left = a(values, scratch);
    const right = b(values, scratch);
    const x = left.c;
    const y = right.c;
    const n = scratch.n;
    if (typeof x === "number" && typeof y === "number") return { c: scalar(op, x, y), own: false };
    const out = left.own ? (x as Float64Array) : right.own ? (y as Float64Array) : scratch.take();
    if (typeof x === "number") scalarColumn(op, x, y as Float64Array, out, n);
    else if (typeof y === "number") columnScalar(op, x, y, out, n);
    else columnColumn(op, x, y, out, n);
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
      return x ** y;
    default:
      return (functions[op].of as (x: number, y: number) => number)(x, y);
  }
}
function scalarColumn(op: Binary, x: number, y: Float64Array, out: Float64Array, n: number): void {
  if (op === "+") for (let k = 0; k < n; k++) out[k] = x + y[k]!;
  else if (op === "-") for (let k = 0; k < n; k++) out[k] = x - y[k]!;
  else if (op === "*") for (let k = 0; k < n; k++) out[k] = x * y[k]!;
  else if (op === "/") for (let k = 0; k < n; k++) out[k] = x / y[k]!;
  else for (let k = 0; k < n; k++) out[k] = scalar(op, x, y[k]!);
}
function columnScalar(op: Binary, x: Float64Array, y: number, out: Float64Array, n: number): void {
  if (op === "+") for (let k = 0; k < n; k++) out[k] = x[k]! + y;
  else if (op === "-") for (let k = 0; k < n; k++) out[k] = x[k]! - y;
  else if (op === "*") for (let k = 0; k < n; k++) out[k] = x[k]! * y;
  else if (op === "/") for (let k = 0; k < n; k++) out[k] = x[k]! / y;
  else for (let k = 0; k < n; k++) out[k] = scalar(op, x[k]!, y);
}
function columnColumn(op: Binary, x: Float64Array, y: Float64Array, out: Float64Array, n: number): void {
  if (op === "+") for (let k = 0; k < n; k++) out[k] = x[k]! + y[k]!;
  else if (op === "-") for (let k = 0; k < n; k++) out[k] = x[k]! - y[k]!;
  else if (op === "*") for (let k = 0; k < n; k++) out[k] = x[k]! * y[k]!;
  else if (op === "/") for (let k = 0; k < n; k++) out[k] = x[k]! / y[k]!;
  else for (let k = 0; k < n; k++) out[k] = scalar(op, x[k]!, y[k]!);
}
