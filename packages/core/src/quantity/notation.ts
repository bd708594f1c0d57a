import { anything, type Dimension, dimensionInWords, none, sameDimension } from "./dimension.ts";
import { dimensionOf, ExpressionReader, fold, type Node, NotationError, type Token, tokens } from "./expression.ts";
import { unitNamed, unitOf } from "./units.ts";

/**
 * Quantities as they stand on a drawing.
 *
 *     quantity  = expression [tolerance] {scatter} [status] | number ".." number unit {scatter} [status]
 *     tolerance = "±" num [unit] | "+" num "/-" num [unit] | "-" num "/+" num [unit]
 *     scatter   = ["per" ("reel" | "unit" | "index")] "sd" num ("%" | unit)
 *     status    = "guess" | "measured"
 *
 * A unit belongs to its number and, through a tolerance, to that number's centre: `W + 0.45 ±0.10 mm`.
 */
export type Level = "reel" | "unit" | "index";
export type Status = "guess" | "measured";
export interface WrittenTolerance {
  readonly minus: number;
  readonly plus: number;
  readonly unit: string;
  readonly at: number;
  readonly length: number;
}
export interface WrittenScatter {
  readonly level: Level | undefined;
  readonly sd: number;
  /** "%" for a share of the value, else a unit. */
  readonly unit: string;
  readonly at: number;
  readonly length: number;
}
export interface WrittenExpression {
  readonly form: "expression";
  readonly node: Node;
  readonly tolerance?: WrittenTolerance;
  readonly scatters: readonly WrittenScatter[];
  readonly status?: Status;
}
export interface WrittenRange {
  readonly form: "range";
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly scatters: readonly WrittenScatter[];
  readonly status?: Status;
}
export type Written = WrittenExpression | WrittenRange;

const levels: readonly string[] = ["reel", "unit", "index"];

/** Parses one quantity. Throws NotationError with offset, length, found, expected and, where there is one, a way out. */
export function parseQuantity(text: string): Written {
  const list = tokens(text);
  const reader = new ExpressionReader(list, (r) => oneSidedAt(r));
  if (reader.peek().kind === "end") reader.fail("a quantity");
  const written = rangeAt(reader) ? readRange(reader) : readExpression(reader);
  const left = reader.peek();
  if (left.kind !== "end") {
    if (left.text === "..")
      reader.fail("the end of the quantity", 'A range is two plain numbers and a unit: "0.2..0.5 N guess".');
    if (left.text === ",")
      reader.fail("the end of the quantity", "The decimal sign is a point: 24.2. Several values make a list: [1 mm, 2 mm].");
    if (left.kind === "name")
      reader.fail(
        "a tolerance, a scatter, guess, measured or the end",
        unitNamed(left.text) ? `A unit stands right after its number: "2 ${left.text}".` : undefined,
      );
    if (left.text === "±") reader.fail("the end of the quantity", "A quantity has one tolerance.");
    reader.fail("the end of the quantity");
  }
  return written;
}

function rangeAt(r: ExpressionReader): boolean {
  const signed = r.peek().text === "-" ? 1 : 0;
  return r.peek(signed).kind === "number" && r.peek(signed + 1).text === "..";
}
function oneSidedAt(r: ExpressionReader): boolean {
  const first = r.peek().text;
  return (
    (first === "+" || first === "-") &&
    r.peek(1).kind === "number" &&
    r.peek(2).text === "/" &&
    r.peek(3).text === (first === "+" ? "-" : "+")
  );
}

function readRange(r: ExpressionReader): WrittenRange {
  const start = r.peek();
  const low = signedNumber(r);
  r.take();
  const high = signedNumber(r);
  const last = r.list[r.i - 1]!;
  const text = `${low}..${high}`;
  if (!(low < high))
    throw new NotationError(
      start.at,
      last.at + last.text.length - start.at,
      text,
      "the lower end first",
      low === high ? `Both ends are ${low}: write "${low}".` : `Write "${high}..${low}".`,
    );
  const unit = compoundUnit(r);
  return { form: "range", low, high, unit, ...readTail(r) };
}
function signedNumber(r: ExpressionReader): number {
  const sign = r.peek().text === "-" ? -1 : 1;
  if (sign < 0) r.take();
  return sign * plain(r, "a number", 'A range is two plain numbers and a unit: "0.2..0.5 N guess".');
}
function plain(r: ExpressionReader, expected: string, hint?: string): number {
  const t = r.peek();
  if (t.kind !== "number") r.fail(expected, hint);
  r.take();
  const v = Number(t.text);
  if (!Number.isFinite(v)) r.fail("a finite number", undefined, t);
  return v;
}

/** A unit of several symbols, as after a tolerance or a range: `N*mm`, `J/m^2`. Empty where none follows. */
function compoundUnit(r: ExpressionReader): string {
  if (r.peek().text === "%") return r.take().text;
  if (r.peek().kind !== "name" || unitNamed(r.peek().text) === undefined) {
    if (r.peek().text !== "/" || r.peek(1).kind !== "name" || unitNamed(r.peek(1).text) === undefined) return "";
  }
  let text = r.peek().text === "/" ? "1" : r.take().text;
  for (;;) {
    if (r.peek().text === "^" && r.peek(1).kind === "number") {
      r.take();
      text += `^${r.take().text}`;
    } else if (["*", "/"].includes(r.peek().text) && r.peek(1).kind === "name" && unitNamed(r.peek(1).text) !== undefined) {
      text += r.take().text + r.take().text;
    } else return text;
  }
}

function readExpression(r: ExpressionReader): WrittenExpression {
  const node = r.sum();
  const tolerance = readTolerance(r);
  const tail = readTail(r);
  const unit = tolerance?.unit ?? tail.scatters.find((s) => s.unit !== "%")?.unit ?? "";
  const end = tolerance?.at ?? tail.scatters[0]?.at;
  return {
    form: "expression",
    node: unit !== "" && end !== undefined ? centreWithUnit(node, unit, lastNumberBefore(r.list, end)) : node,
    ...(tolerance ? { tolerance } : {}),
    ...tail,
  };
}
const lastNumberBefore = (list: readonly Token[], end: number): number => {
  const before = list.filter((t) => t.at < end).at(-1);
  return before?.kind === "number" ? before.at : -1;
};
/** The bare number right before a tolerance takes the tolerance's unit. */
function centreWithUnit(node: Node, unit: string, at: number): Node {
  return fold<Node>(node, {
    num: (n) => (n.at === at && n.unit === "" ? { ...n, unit } : n),
    sym: (n) => n,
    neg: (a, n) => ({ ...n, a }) as Node,
    call: (_, args, n) => ({ ...n, args }) as Node,
    bin: (_, a, b, n) => ({ ...n, a, b }) as Node,
  });
}

function readTolerance(r: ExpressionReader): WrittenTolerance | undefined {
  const start = r.peek();
  let minus: number;
  let plus: number;
  if (start.text === "±") {
    r.take();
    const hint = r.peek().kind === "name" ? "A tolerance is a number; a letter can't be one." : undefined;
    minus = plus = plain(r, "a number", hint);
  } else if (oneSidedAt(r)) {
    const upFirst = r.take().text === "+";
    const first = plain(r, "a number");
    r.take();
    r.take();
    const second = plain(r, "a number");
    [minus, plus] = upFirst ? [second, first] : [first, second];
  } else return undefined;
  const unit = compoundUnit(r);
  const last = r.list[r.i - 1]!;
  return { minus, plus, unit, at: start.at, length: last.at + last.text.length - start.at };
}

function readTail(r: ExpressionReader): { scatters: WrittenScatter[]; status?: Status } {
  const scatters: WrittenScatter[] = [];
  while (r.peek().text === "per" || r.peek().text === "sd") {
    const start = r.take();
    let level: Level | undefined;
    if (start.text === "per") {
      const word = r.peek();
      if (!levels.includes(word.text)) r.fail("reel, unit or index", 'For example "per reel sd 20 %".');
      r.take();
      level = word.text as Level;
      if (r.peek().text !== "sd") r.fail('"sd"', 'For example "per reel sd 20 %".');
      r.take();
    }
    const sd = plain(r, "a number", 'For example "sd 0.03 mm" or "sd 8 %".');
    const unit = compoundUnit(r);
    const last = r.list[r.i - 1]!;
    const length = last.at + last.text.length - start.at;
    if (sd <= 0) throw new NotationError(start.at, length, `sd ${sd}`, "a scatter above nought", "Leave it out where nothing scatters.");
    scatters.push({ level, sd, unit, at: start.at, length });
  }
  const word = r.peek().text;
  if (word !== "guess" && word !== "measured") return { scatters };
  r.take();
  return { scatters, status: word };
}

/**
 * Checks the dimensions of what was written against what the field wants (undefined: any). Throws NotationError at the spot.
 * Returns the dimension found.
 */
export function checkDimension(
  written: Written,
  wanted: Dimension | undefined,
  names: (name: string) => Dimension | undefined,
  text: string,
): Dimension {
  const whole = { at: 0, length: text.length };
  const seen = written.form === "range" ? unitOf(written.unit).dimension : dimensionOf(written.node, names);
  const found = seen === anything ? none : seen;
  if (wanted && !sameDimension(found, wanted)) {
    const bare = dimensionInWords(found) === "a plain number" && (written.form === "range" || written.node.op === "num");
    throw new NotationError(
      whole.at,
      whole.length,
      bare ? `${text} without a unit` : dimensionInWords(found),
      dimensionInWords(wanted),
      bare ? wayOut(text, written, wanted) : undefined,
    );
  }
  if (written.form === "expression" && written.tolerance) {
    const t = written.tolerance;
    const d = unitOf(t.unit).dimension;
    if (!sameDimension(d, found))
      throw new NotationError(
        t.at,
        t.length,
        `a tolerance of ${dimensionInWords(d)}`,
        dimensionInWords(found),
        t.unit === "" ? "Write the unit after the tolerance; it counts for both: 4.00 ±0.10 mm." : undefined,
      );
  }
  for (const s of written.scatters) {
    if (s.unit === "%") continue;
    if (!sameDimension(unitOf(s.unit).dimension, found))
      throw new NotationError(
        s.at,
        s.length,
        `a scatter of ${dimensionInWords(unitOf(s.unit).dimension)}`,
        dimensionInWords(found),
        s.unit === "" ? 'Give it a unit, or a share: "sd 8 %".' : undefined,
      );
  }
  return found;
}

const commonUnit: readonly (readonly [Dimension, string])[] = [
  [[1, 0, 0, 0, 0], "mm"],
  [[0, 1, 0, 0, 0], "g"],
  [[0, 0, 1, 0, 0], "ms"],
  [[1, 0, -1, 0, 0], "mm/s"],
  [[1, 1, -2, 0, 0], "N"],
  [[2, 1, -2, 0, 0], "N*mm"],
  [[0, 1, -2, 0, 0], "N/mm"],
  [[-1, 1, -2, 0, 0], "MPa"],
  [[2, 1, -3, -1, 0], "V"],
  [[0, 0, 0, 1, 0], "A"],
  [[2, 1, -3, -2, 0], "ohm"],
  [[-1, 0, 0, 0, 0], "1/m"],
];
/** The unit a person of the trade would write for that dimension; "" where none is common. */
export const customaryUnit = (d: Dimension): string => commonUnit.find(([known]) => sameDimension(known, d))?.[1] ?? "";

function wayOut(text: string, written: Written, wanted: Dimension): string | undefined {
  const unit = customaryUnit(wanted);
  if (unit === "") return undefined;
  if (written.form === "range") return `Write "${written.low}..${written.high} ${unit}${written.status ? ` ${written.status}` : ""}".`;
  const follow = unit === "mm" ? `, or "W + 0.2 mm" to follow the tape` : "";
  return /^[\d.]+$/.test(text) ? `Write "${text} ${unit}"${follow}.` : `Write the unit after the number: "${written.node.op === "num" ? written.node.v : 1} ${unit}".`;
}

const digits = (v: number): string => String(v);
/** A unit behind its number; "1/m" is written "/m". */
const behind = (unit: string): string => (unit === "" ? "" : ` ${unit.replace(/^1\//, "/")}`);

/** Writes a quantity out; parseQuantity reads the same quantity back. */
export function printQuantity(w: Written): string {
  const parts: string[] = [];
  if (w.form === "range") parts.push(`${digits(w.low)}..${digits(w.high)}${behind(w.unit)}`);
  else {
    parts.push(printExpression(w.node, w.tolerance?.unit ?? w.scatters.find((s) => s.unit !== "%")?.unit ?? ""));
    if (w.tolerance) {
      const { minus, plus, unit } = w.tolerance;
      parts.push(minus === plus ? `±${digits(minus)}${behind(unit)}` : `+${digits(plus)}/-${digits(minus)}${behind(unit)}`);
    }
  }
  for (const s of w.scatters) parts.push(`${s.level ? `per ${s.level} ` : ""}sd ${digits(s.sd)}${behind(s.unit)}`);
  if (w.status) parts.push(w.status);
  return parts.join(" ");
}

const binding = { "+": 1, "-": 1, "*": 2, "/": 2, "^": 4 } as const;
/**
 * An expression as text with no more brackets than it needs. `lent` is the unit that a tolerance behind the text lends to its last
 * number, which is then written bare.
 */
export function printExpression(n: Node, lent = ""): string {
  const wrap = (inner: Node, least: number, unit = ""): string =>
    rank(inner) < least ? `(${printExpression(inner)})` : printExpression(inner, unit);
  switch (n.op) {
    case "num":
      return n.unit === "" || n.unit === lent ? digits(n.v) : `${digits(n.v)} ${n.unit}`;
    case "sym":
      return n.name;
    case "neg":
      return `-${wrap(n.a, 3, lent)}`;
    case "call":
      return `${n.f}(${n.args.map((a) => printExpression(a)).join(", ")})`;
    case "^":
      return `${wrap(n.a, 5)}^${wrap(n.b, 3, lent)}`;
    default:
      return `${wrap(n.a, binding[n.op])} ${n.op} ${wrap(n.b, binding[n.op] + 1, lent)}`;
  }
}
function rank(n: Node): number {
  if (n.op === "num") return 5;
  if (n.op === "sym" || n.op === "call") return 5;
  if (n.op === "neg") return 3;
  return binding[n.op];
}

/** Two quantities say the same, wherever their parts stand in the text. */
export const sameQuantity = (a: Written, b: Written): boolean => bare(a) === bare(b);
const bare = (w: Written): string =>
  JSON.stringify(w, (key, value) => (key === "at" || key === "length" ? undefined : value));
