import {
  anything,
  customaryUnit,
  type Dimension,
  dimensionInWords,
  isPure,
  none,
  over,
  power as powerOf,
  sameDimension,
  times,
} from "./dimension.ts";
import { didYouMean } from "./nearest.ts";
import { power } from "./power.ts";
import { toSI, unitNamed, unitNames, unitOf } from "./units.ts";

/**
 * The one small grammar that design files and model equations share: sums, products, powers, a handful of functions, names.
 *
 *     sum     = product { ("+" | "-") product }
 *     product = unary { ("*" | "/") unary }
 *     unary   = "-" unary | power
 *     power   = atom [ "^" unary ]
 *     atom    = number [unit ["^" whole number]] | name [ "(" sum { "," sum } ")" ] | "(" sum ")"
 *
 * A name right after a number is its unit, and a power behind that unit is the unit's: 5 mm^2 is an area. Any other name is a
 * letter or a `let` name and, only where there is none such, a unit (`1.9 g*W/mm`). If a law does not fit this grammar the model
 * is `solved`; the grammar does not grow.
 */
export type Node =
  | { readonly op: "num"; readonly v: number; readonly unit: string; readonly at: number; readonly length: number }
  | { readonly op: "sym"; readonly name: string; readonly at: number; readonly length: number }
  | { readonly op: "neg"; readonly a: Node; readonly at: number; readonly length: number }
  | {
      readonly op: "call";
      readonly f: FunctionName;
      readonly args: readonly Node[];
      readonly at: number;
      readonly length: number;
    }
  | { readonly op: Operator; readonly a: Node; readonly b: Node; readonly at: number; readonly length: number };
export type Operator = "+" | "-" | "*" | "/" | "^";

/** What is wrong with a text, and where in it: offset and length in characters from the text's start. */
export class NotationError extends Error {
  override readonly name = "NotationError";
  readonly at: number;
  readonly length: number;
  readonly found: string;
  readonly expected: string;
  readonly hint: string | undefined;
  constructor(at: number, length: number, found: string, expected: string, hint?: string) {
    super(`found ${found}, expected ${expected}`);
    this.at = at;
    this.length = Math.max(1, length);
    this.found = found;
    this.expected = expected;
    this.hint = hint;
  }
}

interface Signature {
  readonly least: number;
  readonly most: number;
  readonly of: (...x: number[]) => number;
  /** Dimension of the result; throws a message where the arguments do not go together. */
  readonly dimension: (args: readonly Dimension[]) => Dimension;
}
const alike = (args: readonly Dimension[]): Dimension => {
  const kind = args.find((d) => d !== anything) ?? none;
  const odd = args.find((d) => !sameDimension(d, kind));
  if (odd) throw new RangeError(`${dimensionInWords(kind)} beside ${dimensionInWords(odd)}`);
  return kind;
};
const pure = (args: readonly Dimension[]): Dimension => {
  const odd = args.find((d) => !isPure(d));
  if (odd) throw new RangeError(dimensionInWords(odd));
  return none;
};
const fn = (least: number, most: number, of: Signature["of"], dimension: Signature["dimension"]): Signature => ({
  least,
  most,
  of,
  dimension,
});
export const functions = {
  max: fn(2, 8, Math.max, alike),
  min: fn(2, 8, Math.min, alike),
  hypot: fn(2, 2, Math.hypot, alike),
  abs: fn(1, 1, Math.abs, alike),
  sqrt: fn(1, 1, Math.sqrt, (a) => powerOf(a[0]!, 0.5)),
  sin: fn(1, 1, Math.sin, pure),
  cos: fn(1, 1, Math.cos, pure),
  tan: fn(1, 1, Math.tan, pure),
  asin: fn(1, 1, Math.asin, pure),
  acos: fn(1, 1, Math.acos, pure),
  atan: fn(1, 1, Math.atan, pure),
  exp: fn(1, 1, Math.exp, pure),
} as const satisfies Record<string, Signature>;
export type FunctionName = keyof typeof functions;
/** "max" of "maximum". */
const functionIn = (word: string): string | undefined =>
  Object.keys(functions).find((f) => word.toLowerCase().startsWith(f));
const isFunction = (name: string): name is FunctionName => Object.hasOwn(functions, name);

/** A piece of text as the reader sees it. `space` tells whether white space stood before it. */
export interface Token {
  readonly kind: "number" | "name" | "sign" | "end";
  readonly text: string;
  readonly at: number;
  readonly space: boolean;
}

const number = /\d+(?:\.(?!\.)\d*)?(?:e[-+]?\d+(?![A-Za-z_]))?/y;
const name = /[A-Za-zµμ_][A-Za-z_0-9µμ]*/y;
const sign = /\.\.|±|[-+*/^(),%]/y;
/** What a word processor or a keyboard puts in the place of a sign of the notation. */
const lookalikes: readonly (readonly [signs: string, hint: string])[] = [
  [".", "Write a nought before the point: 0.5"],
  ["=", "A formula is written without its equals sign."],
  ["−–—", 'Write the minus sign as "-".'],
  ["×·⋅∙", 'Write the multiplication sign as "*".'],
  ["÷∕", 'Write the division sign as "/".'],
  ["°", 'Write degrees as "deg".'],
  ["Ω", 'Write ohms as "ohm".'],
  ["²", 'Write the square as "^2".'],
  ["³", 'Write the cube as "^3".'],
  ["…", 'Write a range as "0.2..0.5 N guess".'],
  ["≤≥<>~≈", "An unknown is written as a range: 0.2..0.5 N guess"],
];
/** Longer than any formula a person writes, and short enough to be walked. */
const longest = 2000;

/** Splits a text into tokens. Throws NotationError at the first character that can't stand in a quantity. */
export function tokens(text: string): Token[] {
  const out: Token[] = [];
  if (text.length > longest)
    throw new NotationError(0, 1, `${text.length} characters`, `a quantity of at most ${longest}`);
  let i = 0;
  const take = (r: RegExp): string | undefined => {
    r.lastIndex = i;
    return r.exec(text)?.[0];
  };
  while (i < text.length) {
    const start = i;
    while (i < text.length && /\s/.test(text[i]!)) i++;
    if (i >= text.length) break;
    const space = i > start || i === 0;
    const digits = take(number);
    const word = digits === undefined ? take(name) : undefined;
    const mark = digits === undefined && word === undefined ? take(sign) : undefined;
    const found = digits ?? word ?? mark;
    if (found === undefined) {
      const ch = String.fromCodePoint(text.codePointAt(i)!);
      const hint = lookalikes.find(([signs]) => signs.includes(ch))?.[1];
      throw new NotationError(i, ch.length, `"${ch}"`, "a number, a letter or an operator", hint);
    }
    out.push({ kind: digits ? "number" : word ? "name" : "sign", text: found, at: i, space });
    i += found.length;
  }
  out.push({ kind: "end", text: "", at: text.length, space: true });
  return out;
}

const nesting = 64;

/** Reads one expression from a list of tokens; stops where it ends. The quantity reader goes on from there. */
export class ExpressionReader {
  readonly list: readonly Token[];
  i = 0;
  private depth = 0;
  /** Called before each "+" or "-": true ends the sum there, because a tolerance begins (`1.5 +0.1/-0 mm`). */
  private readonly endsBefore: (reader: ExpressionReader) => boolean;
  constructor(list: readonly Token[], endsBefore: (reader: ExpressionReader) => boolean = () => false) {
    this.list = list;
    this.endsBefore = endsBefore;
  }
  peek(ahead = 0): Token {
    return this.list[Math.min(this.i + ahead, this.list.length - 1)]!;
  }
  take(): Token {
    const t = this.peek();
    if (t.kind !== "end") this.i++;
    return t;
  }
  fail(expected: string, hint?: string, t = this.peek()): never {
    const found = t.kind === "end" ? "the end" : `"${t.text}"`;
    throw new NotationError(t.at, t.text.length, found, expected, hint);
  }
  sum(): Node {
    let a = this.product();
    while (["+", "-"].includes(this.peek().text) && this.peek().kind === "sign" && !this.endsBefore(this)) {
      const op = this.take();
      this.refuseTypedTolerance(op);
      a = join(op.text as "+" | "-", a, this.product());
    }
    return a;
  }
  /** "+-" and "+/-" are how a keyboard without ± writes a tolerance; read as signs they would be subtracted. */
  private refuseTypedTolerance(plus: Token): void {
    const minus = this.peek().text === "/" ? this.peek(1) : this.peek();
    const typed = plus.text === "+" && minus.text === "-" && (this.peek().text === "/" || !minus.space);
    if (typed)
      throw new NotationError(
        plus.at,
        minus.at + 1 - plus.at,
        this.peek().text === "/" ? '"+/-"' : '"+-"',
        'an operator, or "±"',
        'A tolerance is written "4.00 ±0.10 mm" or "4.00 +0.1/-0.2 mm".',
      );
  }
  private product(): Node {
    let a = this.unary();
    while (this.peek().kind === "sign" && ["*", "/"].includes(this.peek().text)) {
      const op = this.take().text as "*" | "/";
      a = join(op, a, this.unary());
    }
    return a;
  }
  private unary(): Node {
    const t = this.peek();
    if (t.kind === "sign" && t.text === "-") {
      if (++this.depth > nesting) this.fail("a shorter expression", "It is nested too deeply.");
      this.take();
      const a = this.unary();
      this.depth--;
      return { op: "neg", a, at: t.at, length: a.at + a.length - t.at };
    }
    return this.raised();
  }
  private raised(): Node {
    const a = this.atom();
    if (this.peek().text !== "^") return a;
    if (++this.depth > nesting) this.fail("a shorter expression", "It is nested too deeply.");
    this.take();
    const b = this.unary();
    this.depth--;
    return join("^", a, b);
  }
  private atom(): Node {
    if (++this.depth > nesting) this.fail("a shorter expression", "It is nested too deeply.");
    try {
      return this.atomOf();
    } finally {
      this.depth--;
    }
  }
  private atomOf(): Node {
    const t = this.peek();
    if (t.text === "(") {
      this.take();
      const n = this.sum();
      if (this.peek().text !== ")") this.fail('")"', this.toleranceInside());
      const close = this.take();
      return { ...n, at: t.at, length: close.at + 1 - t.at };
    }
    if (t.kind === "number") return this.numberWithUnit();
    if (t.kind === "name") return this.named();
    const hint =
      t.text === "+"
        ? "Leave the plus sign out."
        : t.text === "±"
          ? "A tolerance stands behind a number or a letter."
          : undefined;
    return this.fail("a number or a letter", hint);
  }
  private toleranceInside(): string | undefined {
    const begins = this.peek().text === "±" || this.endsBefore(this);
    return begins ? "A tolerance stands behind the whole quantity, outside its brackets." : undefined;
  }
  private numberWithUnit(): Node {
    const t = this.take();
    const v = Number(t.text);
    if (!Number.isFinite(v)) this.fail("a finite number", undefined, t);
    const next = this.peek();
    if (next.text !== "%") {
      if (next.kind !== "name" || statusWords.has(next.text))
        return { op: "num", v, unit: "", at: t.at, length: t.text.length };
      if (unitNamed(next.text) === undefined)
        throw new NotationError(
          next.at,
          next.text.length,
          `"${next.text}" right after a number`,
          "a unit",
          noUnit(t.text, next.text),
        );
    }
    this.take();
    const unit = next.text + this.exponentOfUnit(next.text);
    if (!Number.isFinite(toSI(v, unitOf(unit)))) this.fail("a finite number", undefined, t);
    const last = this.list[this.i - 1]!;
    return { op: "num", v, unit, at: t.at, length: last.at + last.text.length - t.at };
  }
  /** "^2" behind a unit: the power is the unit's, not the number's. */
  exponentOfUnit(unit: string): string {
    if (this.peek().text !== "^") return "";
    const power = this.peek(1);
    const hint = `A power behind a unit is the unit's; to raise the number with it write "(2 ${unit})^n".`;
    if (!/^[1-9]$/.test(power.text)) this.fail("a whole number from 1 to 9", hint, power);
    this.i += 2;
    if (this.peek().text === "^") this.fail("one power behind a unit", hint);
    return `^${power.text}`;
  }
  private named(): Node {
    const t = this.peek();
    if (statusWords.has(t.text))
      this.fail(
        "a number or a letter",
        t.text === "guess" || t.text === "measured"
          ? `"${t.text}" stands at the end: "0.2..0.5 N ${t.text}".`
          : 'A scatter stands behind its number: "0.4 N per reel sd 15 %".',
      );
    this.take();
    if (t.text === "actual" && this.peek().kind === "name") {
      const letter = this.take();
      return { op: "sym", name: `actual ${letter.text}`, at: t.at, length: letter.at + letter.text.length - t.at };
    }
    if (this.peek().text !== "(") return { op: "sym", name: t.text, at: t.at, length: t.text.length };
    if (!isFunction(t.text))
      throw new NotationError(
        t.at,
        t.text.length,
        `"${t.text}(...)"`,
        `one of the functions ${Object.keys(functions).join(" ")}`,
        didYouMean(functionIn(t.text) ?? t.text, Object.keys(functions)) ??
          `A product is written with a star: "${t.text} * (W + 1 mm)".`,
      );
    this.take();
    const args = [this.sum()];
    while (this.peek().text === ",") {
      this.take();
      args.push(this.sum());
    }
    if (this.peek().text !== ")") this.fail('"," or ")"', this.toleranceInside());
    const close = this.take();
    const { least, most } = functions[t.text];
    if (args.length < least || args.length > most)
      throw new NotationError(
        t.at,
        close.at + 1 - t.at,
        `${args.length} ${args.length === 1 ? "argument" : "arguments"} to ${t.text}()`,
        least === most ? `${least}` : `${least} to ${most}`,
      );
    return { op: "call", f: t.text, args, at: t.at, length: close.at + 1 - t.at };
  }
}
export const statusWords: ReadonlySet<string> = new Set(["guess", "measured", "per", "sd"]);
const join = (op: Operator, a: Node, b: Node): Node => ({ op, a, b, at: a.at, length: b.at + b.length - a.at });

/** Words of the notation itself, which no letter or name can be. */
export const reservedWords: ReadonlySet<string> = new Set([...statusWords, "actual", ...Object.keys(functions)]);

/** The way out for a word behind a number that is no unit. */
function noUnit(number: string, word: string): string {
  const star = `"${number} * ${word}${word === "actual" ? " W" : isFunction(word) ? "(...)" : ""}"`;
  if (reservedWords.has(word)) return `A product is written with a star: ${star}.`;
  if (/^[A-Z][0-9]?$/.test(word)) return `A letter is multiplied with a star: ${star}.`;
  const [, symbol, power] = word.match(/^([A-Za-zµμ]+)([2-4])$/) ?? [];
  if (symbol && unitNamed(symbol)) return `Write the power of a unit as "${symbol}^${power}".`;
  const near = didYouMean(word, unitNames);
  if (near?.toLowerCase().includes(`"${word.toLowerCase()}"`)) return near;
  return `${near ?? "Units are mm, um, deg, N, g, s and the like."} A name is multiplied with a star: ${star}.`;
}

/** Parses a whole text as one expression. Throws NotationError. */
export function parseExpression(text: string): Node {
  const reader = new ExpressionReader(tokens(text));
  const tree = reader.sum();
  if (reader.peek().kind !== "end") reader.fail("an operator");
  return tree;
}

/** One way of walking an expression: each use of the grammar (number, column, unit, text) is one such set of answers. */
export interface Algebra<T> {
  num(node: Node & { op: "num" }): T;
  sym(node: Node & { op: "sym" }): T;
  neg(a: T, node: Node): T;
  call(f: FunctionName, args: readonly T[], node: Node): T;
  bin(op: Operator, a: T, b: T, node: Node & { a: Node; b: Node }): T;
}
export function fold<T>(n: Node, k: Algebra<T>): T {
  switch (n.op) {
    case "num":
      return k.num(n);
    case "sym":
      return k.sym(n);
    case "neg":
      return k.neg(fold(n.a, k), n);
    case "call":
      return k.call(
        n.f,
        n.args.map((a) => fold(a, k)),
        n,
      );
    default:
      return k.bin(n.op, fold(n.a, k), fold(n.b, k), n);
  }
}

export const arithmetic = {
  "+": (a: number, b: number) => a + b,
  "-": (a: number, b: number) => a - b,
  "*": (a: number, b: number) => a * b,
  "/": (a: number, b: number) => a / b,
  "^": (a: number, b: number) => power(a, b),
} as const satisfies Record<Operator, (a: number, b: number) => number>;

/** SI value of an expression, its names given by `x`. A name that `x` lacks is read as a unit, else throws RangeError. */
export const evaluate = (n: Node, x: (name: string) => number | undefined): number =>
  fold<number>(n, {
    num: ({ v, unit }) => (unit === "" ? v : toSI(v, unitOf(unit))),
    sym: ({ name: s }) => {
      const v = x(s) ?? unitNamed(s)?.factor;
      if (v === undefined) throw new RangeError(`no value for ${s}`);
      return v;
    },
    neg: (a) => -a,
    call: (f, args) => functions[f].of(...args),
    bin: (op, a, b) => arithmetic[op](a, b),
  });

/** The names an expression uses that are not units by default; each once, in order of first use. */
export function namesIn(n: Node): string[] {
  const out = new Set<string>();
  fold<void>(n, {
    num: () => undefined,
    sym: ({ name: s }) => void out.add(s),
    neg: () => undefined,
    call: () => undefined,
    bin: () => undefined,
  });
  return [...out];
}

/**
 * Dimension of an expression, its names given by `x` (undefined: read as a unit). Throws NotationError at the spot where unlike
 * things are added, a function gets something with a unit, or an exponent is not a plain number.
 */
export const dimensionOf = (n: Node, x: (name: string) => Dimension | undefined): Dimension =>
  fold<Dimension>(n, {
    num: ({ v, unit }) => (unit !== "" ? unitOf(unit).dimension : v === 0 ? anything : none),
    sym: (node) => {
      const d = x(node.name) ?? unitNamed(node.name)?.dimension;
      if (!d)
        throw new NotationError(node.at, node.length, `"${node.name}"`, "a letter of the tape, a let name or a unit");
      return d;
    },
    neg: (a) => a,
    call: (f, args, node) => {
      try {
        return functions[f].dimension(args);
      } catch (e) {
        const together = f === "max" || f === "min" || f === "hypot";
        const hint = together && node.op === "call" ? unitFor(node.args, args) : undefined;
        throw new NotationError(
          node.at,
          node.length,
          `${f}() of ${(e as Error).message}`,
          together ? "things of one kind" : "a plain number",
          hint,
        );
      }
    },
    bin: (op, a, b, node) => {
      if (op === "*") return times(a, b);
      if (op === "/") return over(a, b);
      if (op === "^") {
        if (!isPure(b)) throw new NotationError(node.b.at, node.b.length, "an exponent with a unit", "a plain number");
        if (isPure(a)) return none;
        const p = plainNumber(node.b);
        if (p === undefined)
          throw new NotationError(
            node.b.at,
            node.b.length,
            `${dimensionInWords(a)} raised to something computed`,
            "a number as exponent",
          );
        if (Math.abs(p) > 9)
          throw new NotationError(
            node.b.at,
            node.b.length,
            `${dimensionInWords(a)} raised to ${p}`,
            "an exponent from -9 to 9",
          );
        return powerOf(a, p);
      }
      if (!sameDimension(a, b)) throw unlike(op, a, b, node);
      return a === anything ? b : a;
    },
  });

function plainNumber(n: Node): number | undefined {
  if (n.op === "num" && n.unit === "") return n.v;
  if (n.op === "neg") {
    const v = plainNumber(n.a);
    return v === undefined ? undefined : -v;
  }
  return undefined;
}

/** Of terms that do not go together, one is a bare number: the unit it lacks. */
function unitFor(terms: readonly Node[], dimensions: readonly Dimension[]): string | undefined {
  const bare = terms.find((n): n is Node & { op: "num" } => n.op === "num" && n.unit === "");
  const unit = dimensions.map(customaryUnit).find((u) => u !== "");
  return bare && unit ? `Give ${bare.v} a unit: "${bare.v} ${unit}".` : undefined;
}

function unlike(op: "+" | "-", a: Dimension, b: Dimension, node: { a: Node; b: Node } & Node): NotationError {
  const { a: left, b: right } = node;
  if (left.op === "num" && left.unit === "" && right.op === "num" && right.unit !== "") {
    const oneSided = op === "-" ? `+0/-${right.v}` : `+${right.v}/-0`;
    return new NotationError(
      node.at,
      node.length,
      `${left.v} ${op}${right.v} ${right.unit}`,
      `a tolerance with both sides, or a ${op === "-" ? "difference" : "sum"} with both units`,
      `For a one-sided tolerance write "${left.v} ${oneSided} ${right.unit}"; for a ${op === "-" ? "difference" : "sum"} "${left.v} ${right.unit} ${op} ${right.v} ${right.unit}".`,
    );
  }
  return new NotationError(
    node.at,
    node.length,
    `${dimensionInWords(a)} ${op === "+" ? "plus" : "minus"} ${dimensionInWords(b)}`,
    "things of one kind",
    unitFor([right, left], [a, b]),
  );
}
