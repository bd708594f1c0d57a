import { Between, shifted } from "../quantity/between.ts";
import type { Given } from "../quantity/given.ts";
import { isQuantity, type Quantity, type Read } from "../quantity/model.ts";
import { rowFigure, rowLetter, widthsOf } from "./catalogue.ts";
import type { TapeLetters } from "./letters.ts";
import { nominalOf } from "./served.ts";
import type { CoverFilm, ReelOfTape, Tape, TapeKind } from "./tape.ts";

/** Letters of the catalogue that a tape's file may replace by its own. */
const rowLettersOfTape = ["W", "E1", "F", "D0", "P0", "P2"] as const;
type RowLetterOfTape = (typeof rowLettersOfTape)[number];
/** Letters that take steps: those of the row above. D0 and P0 are the same on all rows but the narrowest. */
export const stepLetters = ["R", "D0", "P0"] as const;
const isStep = (letter: string): boolean => (stepLetters as readonly string[]).includes(letter);

/** How far a width lies on the way from one row to another. */
export const shareOf = (W: number, [a, b]: readonly [number, number]): number => (a === b ? 1 : (W - a) / (b - a));

/** What a unit file's letter means at a width between two rows: linear, or the row above's. Undefined where a row has none. */
export function letterBetween(rows: readonly [number, number], W: number, letter: string): Quantity | undefined {
  const [a, b] = rows.map((row) => rowLetter("embossed", row, letter));
  if (!a || !b) return undefined;
  return isStep(letter) ? b : new Between(shareOf(W, rows)).of(a, b);
}

/**
 * A tape of a width between two tapes of one kind. What their files give is linear between them, tolerances in proportion. What the
 * catalogue gives is linear between its neighbouring rows, the tolerance the wider of the two; where one file departs from the catalogue,
 * the departure is what is linear. P1 is that of the tape above, R, D0 and P0 are those of the row above. Friction measured on one of the
 * two tapes counts in proportion to what holds without it.
 *
 * Good for a look at what grows with width. No such tape is sold: a real tape between two pockets has a pocket of its own.
 */
export function tapeBetween(below: Tape, above: Tape, W: number, rows: readonly [number, number]): Tape {
  if (below.kind !== above.kind)
    throw new RangeError(`${below.name} is ${below.kind} and ${above.name} ${above.kind}: nothing lies between them`);
  const { kind } = below;
  const ends = [below.row, above.row] as const;
  const mix = new Between(shareOf(W, ends));
  const onRows = new Between(shareOf(W, rows));
  // Rows between the two tapes: what the catalogue says there, less what a straight line would.
  const kink = (letter: string): number => {
    const at = (row: number): number => middle(rowFigure(kind, row, letter)!);
    const [x, y] = [shareOf(W, rows), mix.share];
    return (1 - x) * at(rows[0]) + x * at(rows[1]) - ((1 - y) * at(ends[0]) + y * at(ends[1]));
  };
  const skips = ends[0] !== rows[0] || ends[1] !== rows[1];
  const bent = (q: Quantity, letter: string): Quantity => (skips && q.kind === "given" ? shifted(q, kink(letter)) : q);
  const letterOf = (letter: RowLetterOfTape): Quantity => {
    const [a, b] = [below.letters[letter], above.letters[letter]];
    if (!isOfRow(a) || !isOfRow(b)) return bent(mix.of(a, b), letter);
    const [lower, upper] = rows.map((row) => rowFigure(kind, row, letter));
    if (!lower || !upper) return b;
    return isStep(letter) ? stepped(lower, upper, onRows) : onRows.of(lower, upper, "the wider");
  };
  // All of the way it is the wider tape itself, with what was measured on it.
  const isThere = mix.share === 1;
  return {
    ...measuredOnBoth(above, below, isThere),
    ...eachBetween(measuredOnBoth(below, above, false), measuredOnBoth(above, below, isThere), mix),
    reel: eachBetween(below.reel, weighedOnBoth(above.reel, below.reel, isThere), mix),
    name: `${W} mm, between ${below.name} and ${above.name}`,
    part: "",
    row: W,
    letters: {
      ...eachBetween(below.letters, above.letters, mix),
      P1: stepped(below.letters.P1, above.letters.P1, mix),
      R: rowFigure(kind, rows[1], "R")!,
      ...(Object.fromEntries(rowLettersOfTape.map((letter) => [letter, letterOf(letter)])) as Pick<
        TapeLetters,
        RowLetterOfTape
      >),
    },
    film: filmBetween(below.film, above.film, mix, (q) => bent(q, "b")),
    departures: [],
    givens: new Map(),
  };
}
/** A tape without what was measured on it alone: between a measured tape and another nothing was measured. */
function measuredOnBoth(tape: Tape, other: Tape, isThere: boolean): Tape {
  if (isThere) return tape;
  const { stiffness, setRadius, ...rest } = tape;
  return {
    ...rest,
    ...(stiffness && other.stiffness ? { stiffness } : {}),
    ...(setRadius && other.setRadius ? { setRadius } : {}),
  };
}
/** A reel without its weight, where the other was not weighed. */
function weighedOnBoth(own: ReelOfTape, other: ReelOfTape, isThere: boolean): ReelOfTape {
  if (isThere) return own;
  const { mass, ...reel } = own;
  return mass && other.mass ? { ...reel, mass } : reel;
}
/** What takes a step is b's; where both are alike it takes none, and lies between them with its draws. */
export const stepped = (a: Quantity, b: Quantity, mix: Between): Quantity =>
  nominalOf(a) === nominalOf(b) ? mix.of(a, b) : b;
/** All that two things have as quantities, between them; the rest is b's. */
function eachBetween<T extends object>(a: T, b: T, mix: Between): T {
  const of = Object.entries(b).map(([name, q]) => {
    const other = (a as Record<string, unknown>)[name];
    const both = isNumber(q) && isNumber(other);
    return [name, both ? mix.of(other, q) : q] as const;
  });
  return Object.fromEntries(of) as T;
}
const isNumber = (v: unknown): v is Quantity => typeof v === "object" && v !== null && isQuantity(v as Read);
const isOfRow = (q: Quantity): boolean => q.kind === "given" && q.address.startsWith("catalogue/");
/** Middle of a figure of the catalogue, SI. */
function middle(q: Quantity): number {
  if (q.kind === "model") return Number.NaN;
  const u = q.unknown;
  return u && u.law !== "switch" ? (u.low + u.high) / 2 : nominalOf(q);
}

function filmBetween(a: CoverFilm, b: CoverFilm, mix: Between, bent: (q: Quantity) => Quantity): CoverFilm {
  const materials = [...new Set([...Object.keys(a.friction), ...Object.keys(b.friction)])];
  const friction: Record<string, Quantity> = {};
  const frictionBeside: Record<string, (other: Quantity) => Quantity> = {};
  for (const material of materials) {
    const [x, y] = [a.friction[material], b.friction[material]];
    if (x && y) friction[material] = mix.of(x, y);
    else frictionBeside[material] = (other) => mix.of(x ?? other, y ?? other);
  }
  return {
    ...eachBetween(a, b, mix),
    width: bent(mix.of(a.width, b.width)),
    friction,
    frictionBeside,
  };
}

/** Letters whose tolerance is wider just above a catalogue width than at it, because the next row's is, and in what words. */
export function widerAbove(
  kind: TapeKind,
  row: number,
): readonly { readonly letter: RowLetterOfTape; readonly from: string; readonly to: string }[] {
  const next = widthsOf(kind).find((one) => one > row);
  return rowLettersOfTape.flatMap((letter) => {
    const [at, above] = [row, next].map((one) => (one === undefined ? undefined : rowFigure(kind, one, letter)));
    if (!at || !above || isStep(letter) || spanOf(above) < spanOf(at) + 1e-12) return [];
    return [{ letter, from: toleranceIn(at).replace(/ mm$/, ""), to: toleranceIn(above) }];
  });
}
const spanOf = ({ scatters: [s] }: Given): number => (s?.law === "uniform" ? s.to - s.from : 0);
const toleranceIn = ({ text }: Given): string => /[±+].*$/.exec(text)?.[0] ?? "no tolerance";
