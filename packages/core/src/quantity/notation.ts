import { anything, customaryUnit, type Dimension, dimensionInWords, none, sameDimension } from "./dimension.ts";
import { dimensionOf, ExpressionReader, type Node, NotationError, type Token, tokens } from "./expression.ts";
import { didYouMean } from "./nearest.ts";
import { toSI, unitNamed, unitOf } from "./units.ts";

/**
 * Quantities as they stand on a drawing.
 *
 *     quantity  = expression [tolerance] {scatter} [status] | number ".." number unit {scatter} [status]
 *     tolerance = "±" num [unit] | "+" num "/-" num [unit] | "-" num "/+" num [unit]
 *     scatter   = ["per" ("reel" | "unit" | "index")] "sd" num ("%" | unit)
 *     status    = "guess" | "measured"
 *
 * A unit belongs to its number and, through a tolerance or a scatter, to that number's centre: `W + 0.45 ±0.10 mm`. Centre is the
 * last number of the expression where it is a whole term; a factor, a divisor or an exponent (`b/2 ±0.1 mm`) stays as it is.
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
  if (reader.peek().kind !== "end") refuseRest(reader, written);
  return written;
}

/** Something is left behind a quantity: says what may stand there, and what was meant if that can be seen. */
function refuseRest(r: ExpressionReader, { status, scatters, ...written }: Written): never {
  const left = r.peek();
  const { text } = left;
  const toleranced = written.form === "expression" && written.tolerance !== undefined;
  const theEnd = "the end of the quantity";
  if (text === "..") r.fail(theEnd, 'A range is two plain numbers and a unit: "0.2..0.5 N guess".');
  if (text === ",") r.fail(theEnd, "The decimal sign is a point: 24.2. Several values make a list: [1 mm, 2 mm].");
  if (status) r.fail(theEnd, left.kind === "name" ? `"${status}" is the last word of a quantity.` : undefined);
  if (text === "±" || oneSidedAt(r)) {
    if (written.form === "range") r.fail(theEnd, "A range has no tolerance: its ends say how far it goes.");
    r.fail(theEnd, toleranced ? "A quantity has one tolerance." : "A tolerance stands before the scatter.");
  }
  if (left.kind === "name") {
    const unit = unitNamed(text) ? `A unit stands right after its number: "2 ${text}".` : undefined;
    const may =
      toleranced || scatters.length > 0 || written.form === "range"
        ? "a scatter, guess, measured or the end"
        : "a tolerance, a scatter, guess, measured or the end";
    r.fail(may, unit ?? didYouMean(text, ["guess", "measured", "per", "sd"]));
  }
  if (text === "(") r.fail(theEnd, 'A product is written with a star: "2 * (W + 1 mm)".');
  if (text === ")") r.fail(theEnd, 'There is no "(" that it closes.');
  if (text === "%") r.fail(theEnd, "A percent sign stands right after its number: 2 %");
  if (left.kind === "sign") r.fail(theEnd, "What is added or multiplied stands before the tolerance and the scatter.");
  r.fail(theEnd);
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
    r.peek(3).text === (first === "+" ? "-" : "+") &&
    r.peek(4).kind === "number"
  );
}

function readRange(r: ExpressionReader): WrittenRange {
  const start = r.peek();
  const low = signedNumber(r);
  r.take();
  const high = signedNumber(r);
  const last = r.list[r.i - 1]!;
  const unit = compoundUnit(r);
  const range = { form: "range" as const, low, high, unit, ...readTail(r) };
  if (!(low < high))
    throw new NotationError(
      start.at,
      last.at + last.text.length - start.at,
      `${low}..${high}`,
      low === high ? "two ends" : "the lower end first",
      low === high
        ? `Both ends are ${low}: write "${low}${unitBehind(unit)}".`
        : `Write "${printQuantity({ ...range, low: high, high: low })}".`,
    );
  finite(r, [low, high], unit, start);
  return range;
}
/** Refuses numbers that are endless in SI. */
function finite(r: ExpressionReader, numbers: readonly number[], unit: string, at: Token): void {
  if (!numbers.every((v) => Number.isFinite(toSI(v, unitOf(unit))))) r.fail("a finite number", undefined, at);
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
  let text = "1";
  if (r.peek().text !== "/") {
    text = r.take().text;
    text += r.exponentOfUnit(text);
  }
  while (["*", "/"].includes(r.peek().text) && r.peek(1).kind === "name" && unitNamed(r.peek(1).text) !== undefined) {
    const sign = r.take().text;
    const symbol = r.take().text;
    text += sign + symbol + r.exponentOfUnit(symbol);
  }
  return text;
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
/** The bare number right before a tolerance takes the tolerance's unit, where it is a whole term of the sum. */
function centreWithUnit(n: Node, unit: string, at: number): Node {
  if (n.op === "num") return n.at === at && n.unit === "" ? { ...n, unit } : n;
  if (n.op === "neg") return { ...n, a: centreWithUnit(n.a, unit, at) };
  if (n.op === "+" || n.op === "-") return { ...n, b: centreWithUnit(n.b, unit, at) };
  return n;
}

function readTolerance(r: ExpressionReader): WrittenTolerance | undefined {
  const start = r.peek();
  let minus: number;
  let plus: number;
  if (start.text === "±") {
    r.take();
    const hint =
      r.peek().kind === "name"
        ? "A tolerance is a number; a letter can't be one."
        : r.peek().text === "-"
          ? "±0.1 goes both ways without a sign."
          : undefined;
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
  finite(r, [minus, plus], unit, r.list[r.list.indexOf(start) + 1]!);
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
    const number = r.peek();
    const sd = plain(r, "a number", 'For example "sd 0.03 mm" or "sd 8 %".');
    const unit = compoundUnit(r);
    const last = r.list[r.i - 1]!;
    const length = last.at + last.text.length - start.at;
    finite(r, unit === "%" ? [sd * sd] : [sd], unit, number);
    if (sd <= 0)
      throw new NotationError(
        start.at,
        length,
        `sd ${sd}`,
        "a scatter above nought",
        "Leave it out where nothing scatters.",
      );
    scatters.push({ level, sd, unit, at: start.at, length });
  }
  const word = r.peek().text;
  if (word !== "guess" && word !== "measured") return { scatters };
  r.take();
  return { scatters, status: word };
}

/** What a field takes, as far as a way out depends on it. */
export interface FieldKind {
  /** A number may follow the letters of the tape. */
  readonly follows?: boolean;
  /** A range without a status is a set. */
  readonly set?: boolean;
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
  field: FieldKind = {},
): Dimension {
  const seen = written.form === "range" ? unitOf(written.unit).dimension : dimensionOf(written.node, names);
  const found = seen === anything ? none : seen;
  if (wanted && !sameDimension(found, wanted)) {
    const bare = isBare(written);
    throw new NotationError(
      0,
      text.length,
      bare ? `${text} without a unit` : dimensionInWords(found),
      dimensionInWords(wanted),
      bare ? wayOut(text, written, customaryUnit(wanted), field) : undefined,
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
        t.unit === ""
          ? "Write the unit after the tolerance; it counts for both: 4.00 ±0.10 mm."
          : sameDimension(found, none)
            ? "Give the numbers before it their units too."
            : undefined,
      );
  }
  for (const s of written.scatters) {
    if (s.unit === "%") continue;
    const d = unitOf(s.unit).dimension;
    if (!sameDimension(d, found))
      throw new NotationError(
        s.at,
        s.length,
        `a scatter of ${dimensionInWords(d)}`,
        dimensionInWords(found),
        s.unit === "" ? 'Give it a unit, or a share: "sd 8 %".' : undefined,
      );
  }
  return found;
}

/** A number or a range with no unit at all: 24.2, -5, 0.2..0.5, 4 ±0.1. */
export function isBare(w: Written): boolean {
  if (w.form === "range") return w.unit === "";
  const number = w.node.op === "neg" ? w.node.a : w.node;
  return number.op === "num" && number.unit === "";
}
/** The same quantity with a unit behind its bare numbers. */
function withUnit(w: Written, unit: string): Written {
  const scatters = w.scatters.map((s) => (s.unit === "" ? { ...s, unit } : s));
  if (w.form === "range") return { ...w, unit, scatters };
  const number = (n: Node): Node =>
    n.op === "num" && n.unit === "" ? { ...n, unit } : n.op === "neg" ? { ...n, a: number(n.a) } : n;
  return {
    ...w,
    node: number(w.node),
    scatters,
    ...(w.tolerance ? { tolerance: { ...w.tolerance, unit: w.tolerance.unit || unit } } : {}),
  };
}
/** How a bare quantity is written with a unit; undefined where no unit is customary. */
export function wayOut(
  text: string,
  written: Written,
  unit: string,
  { follows = true, set = false }: FieldKind = {},
): string | undefined {
  if (unit === "") return undefined;
  const whole = withUnit(written, unit);
  const quantity = /^[\d.]+$/.test(text) ? text + unitBehind(unit) : printQuantity(whole);
  const status = whole.form === "range" && !whole.status && !set ? " guess" : "";
  const follow = unit === "mm" && follows && whole.form === "expression" ? ', or "W + 0.2 mm" to follow the tape' : "";
  return `Write "${quantity}${status}"${follow}.`;
}

const digits = (v: number): string => String(v);
/** A unit behind its number; "1/m" is written "/m". */
export const unitBehind = (unit: string): string => (unit === "" ? "" : ` ${unit.replace(/^1\//, "/")}`);

/** Writes a quantity out; parseQuantity reads the same quantity back. */
export function printQuantity(w: Written): string {
  const parts: string[] = [];
  if (w.form === "range") parts.push(`${digits(w.low)}..${digits(w.high)}${unitBehind(w.unit)}`);
  else {
    parts.push(printExpression(w.node, w.tolerance?.unit ?? w.scatters.find((s) => s.unit !== "%")?.unit ?? ""));
    if (w.tolerance) {
      const { minus, plus, unit } = w.tolerance;
      parts.push(
        minus === plus
          ? `±${digits(minus)}${unitBehind(unit)}`
          : `+${digits(plus)}/-${digits(minus)}${unitBehind(unit)}`,
      );
    }
  }
  for (const s of w.scatters) parts.push(`${s.level ? `per ${s.level} ` : ""}sd ${digits(s.sd)}${unitBehind(s.unit)}`);
  if (w.status) parts.push(w.status);
  return parts.join(" ");
}

/**
 * An expression as text with no more brackets than it needs. `lent` is the unit that a tolerance behind the text lends to its last
 * number, which is then written bare.
 */
export function printExpression(n: Node, lent = ""): string {
  const wrap = (inner: Node, least: number, unit = ""): string =>
    rank(inner) < least ? `(${printExpression(inner)})` : printExpression(inner, unit);
  switch (n.op) {
    case "num":
      return n.unit === "" || n.unit === lent ? digits(n.v) : `${digits(n.v)}${unitBehind(n.unit)}`;
    case "sym":
      return n.name;
    case "neg":
      return `-${wrap(n.a, 3, lent)}`;
    case "call":
      return `${n.f}(${n.args.map((a) => printExpression(a)).join(", ")})`;
    case "^":
      return `${wrap(n.a, 5)}^${wrap(n.b, 3)}`;
    case "/":
      // A sign right behind the stroke could be read as a tolerance: W + 3/-4.
      return `${wrap(n.a, 2)} / ${wrap(n.b, 4)}`;
    case "*":
      return `${wrap(n.a, 2)} * ${wrap(n.b, 3)}`;
    default:
      return `${wrap(n.a, 1)} ${n.op} ${wrap(n.b, 2, lent)}`;
  }
}
/** How tightly an expression holds together. A power behind a number with a unit would be the unit's, so that one is no atom. */
function rank(n: Node): number {
  if (n.op === "num") return n.unit === "" ? 5 : 4;
  return n.op === "+" || n.op === "-"
    ? 1
    : n.op === "*" || n.op === "/"
      ? 2
      : n.op === "neg"
        ? 3
        : n.op === "^"
          ? 4
          : 5;
}

/** Two quantities say the same, wherever their parts stand in the text. */
export const sameQuantity = (a: Written, b: Written): boolean => bare(a) === bare(b);
const bare = (w: Written): string =>
  JSON.stringify(w, (key, value) => (key === "at" || key === "length" ? undefined : value));
