import type { Scene } from "../scene.ts";
import type { Blend } from "./between.ts";
import { customaryUnit, type Dimension, dimensionInUnits, sameDimension } from "./dimension.ts";
import { evaluate, type Node, namesIn } from "./expression.ts";
import { believed, type Scatter, sdOfLogarithm, type Unknown, unknownBetween } from "./law.ts";
import type { Quantity, Reads } from "./model.ts";
import { type Level, parseQuantity, type Written } from "./notation.ts";
import { toSI, unitNamed, unitOf } from "./units.ts";

/** Where a number stands: in a file, or in a published source. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly length: number;
}
export type How = "read" | "derived" | "memory" | "judgement";
export interface Cite {
  readonly cite: string;
  readonly how: How;
}
export type Origin = Place | Cite;
export const isPlace = (origin: Origin): origin is Place => "file" in origin;

/** What a number stands on: measured here, a drawing or a figure read in a standard, a guess or memory. */
export type Letter = "m" | "d" | "g";
export const worstLetter = (letters: Iterable<Letter>): Letter => {
  const all = new Set(letters);
  return all.has("g") ? "g" : all.has("d") ? "d" : "m";
};

/**
 * A number somebody gave. Its value in one realisation is its centre (what its text says, or the believed value of an unknown),
 * moved by its own scatters. A text that names other things reads them, so a tolerance in `let` reaches every use and two uses
 * share one draw.
 */
export interface Given {
  readonly kind: "given";
  readonly address: string;
  readonly symbol: string;
  /** Coherent SI unit, as text: "m", "kg*m/s^2", "1". */
  readonly unit: string;
  /** Unit its text is written in; the customary one where the text is a formula. */
  readonly shownIn: string;
  readonly dimension: Dimension;
  readonly text: string;
  readonly origin: Origin;
  readonly letter: Letter;
  readonly scatters: readonly Scatter[];
  readonly unknown?: Unknown;
  /** The expression that gives the centre; absent for an unknown. */
  readonly expression?: Node;
  /** What the names in the text stand for, under the names used there. */
  reads(scene: Scene): Readonly<Record<string, Quantity>>;
  /** Bounds between which a cure may move it, SI; absent where it is no lever. */
  readonly lever?: readonly [low: number, high: number];
  /** A person can set it on a finished unit. */
  readonly settable?: true;
  /** For a number between two others: its draws are a blend of theirs. */
  readonly blend?: Blend;
}

export interface GivenSpec {
  readonly address: string;
  readonly symbol: string;
  readonly text: string;
  readonly origin: Origin;
  readonly dimension: Dimension;
  readonly written: Written;
  /** Level of a scatter or tolerance that names none. */
  readonly level: Level;
  readonly letter?: Letter;
  readonly reads?: (scene: Scene) => Readonly<Record<string, Quantity>>;
  readonly lever?: readonly [low: number, high: number];
  readonly settable?: true;
}
const nothing: Reads & Readonly<Record<string, Quantity>> = {};

/** A given from its parsed text. Letters and ranges: VERDICT of the notation; a status decides the letter where it is written. */
export function given(spec: GivenSpec): Given {
  const { written, level, lever } = spec;
  const status = written.status;
  const letter =
    status === "measured" ? "m" : (spec.letter ?? (status === "guess" || written.form === "range" ? "g" : "d"));
  const scatters = scattersOf(written, level);
  const base = {
    kind: "given" as const,
    address: spec.address,
    symbol: spec.symbol,
    unit: dimensionInUnits(spec.dimension),
    shownIn: shownUnitOf(written, spec.dimension),
    dimension: spec.dimension,
    text: spec.text,
    origin: spec.origin,
    letter: status === "guess" ? "g" : letter,
    scatters,
    reads: spec.reads ?? (() => nothing),
    ...(lever ? { lever } : {}),
    ...(spec.settable ? { settable: spec.settable } : {}),
  };
  if (written.form === "expression") return { ...base, expression: written.node };
  const unit = unitOf(written.unit);
  return { ...base, unknown: unknownBetween(toSI(written.low, unit), toSI(written.high, unit)) };
}

/** The unit that stands in the text, where the text is a number with a unit or a sum of such in one unit; else the customary one. */
function shownUnitOf(w: Written, dimension: Dimension): string {
  const unit = w.form === "range" ? w.unit : writtenUnit(w.node);
  return unit !== undefined && sameDimension(unitOf(unit).dimension, dimension) ? unit : customaryUnit(dimension);
}
/** "mm" of `4 mm`, "J/m^2" of `0.03 J/m^2`, "deg" of `-20 deg` and of `90 deg - 20 deg`. */
function writtenUnit(n: Node): string | undefined {
  if (n.op === "num") return n.unit;
  if (n.op === "neg") return writtenUnit(n.a);
  if (n.op === "+" || n.op === "-") {
    const unit = writtenUnit(n.a);
    return unit === writtenUnit(n.b) ? unit : undefined;
  }
  if (n.op !== "*" && n.op !== "/") return undefined;
  const before = writtenUnit(n.a);
  const [symbol, power] =
    n.b.op === "^" && n.b.b.op === "num" && /^[1-9]$/.test(`${n.b.b.v}`) ? [n.b.a, `^${n.b.b.v}`] : [n.b, ""];
  if (before === undefined || symbol.op !== "sym" || !unitNamed(symbol.name)) return undefined;
  const unit = `${symbol.name}${power}`;
  return before === "" && n.op === "*" ? unit : `${before || "1"}${n.op}${unit}`;
}

function scattersOf(written: Written, level: Level): Scatter[] {
  const out: Scatter[] = [];
  if (written.form === "expression" && written.tolerance) {
    const { minus, plus } = written.tolerance;
    const unit = unitOf(written.tolerance.unit);
    if (minus > 0 || plus > 0) out.push({ level, law: "uniform", from: toSI(-minus, unit), to: toSI(plus, unit) });
  }
  for (const s of written.scatters) {
    if (s.unit === "%") out.push({ level: s.level ?? level, law: "lognormal", sd: sdOfLogarithm(s.sd / 100) });
    else out.push({ level: s.level ?? level, law: "normal", sd: toSI(s.sd, unitOf(s.unit)) });
  }
  return out;
}

/** A given that stands in our own tables or defaults, written in the same notation as a file would. */
export function tabled(
  address: string,
  symbol: string,
  text: string,
  dimension: Dimension,
  origin: Cite,
  level: Level = "reel",
): Given {
  const written = parseQuantity(text);
  const letter: Letter = origin.how === "read" || origin.how === "derived" ? "d" : "g";
  return given({ address, symbol, text, origin, dimension, written, level, letter });
}

/** A belief switch between two bounds of a model: 1 with the given chance, else 0. */
export function belief(
  address: string,
  symbol: string,
  words: readonly [nought: string, one: string],
  chance: number,
  origin: Cite,
): Given {
  return {
    kind: "given",
    address,
    symbol,
    unit: "1",
    shownIn: "",
    dimension: [0, 0, 0, 0, 0],
    text: `${words[0]} or ${words[1]}, ${words[1]} with ${Math.round(chance * 100)} %`,
    origin,
    letter: "g",
    scatters: [],
    unknown: { law: "switch", chance, words },
    reads: () => nothing,
  };
}

/** Centre of a given, SI: what its text says with the names' values in `x`, or the believed value at z. */
export const centreOf = (g: Given, x: (name: string) => number | undefined, z = 0): number =>
  g.unknown ? believed(g.unknown, z) : evaluate(g.expression!, x);

/** The names a given's text uses. */
export const namesOf = (g: Given): string[] => (g.expression ? namesIn(g.expression) : []);
