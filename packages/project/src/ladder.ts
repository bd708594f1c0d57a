import {
  Between,
  type Given,
  letterBetween,
  nominalOf,
  type Quantity,
  rowFigure,
  rowLetters,
  type Scene,
  shareOf,
  stepLetters,
  stepped,
  type TapeKind,
  tapeBetween,
  type Unit,
  type WidthFamily,
  type WidthPiece,
  type WidthStep,
  widerAbove,
  widthsOf,
} from "@tapeworthy/core";
import { type Letters, pocketLetters } from "./letters.ts";
import type { Project } from "./project.ts";
import type { TapeFile } from "./tape-file.ts";
import type { UnitFile } from "./unit-file.ts";

type Ends = readonly [below: number, above: number];

/**
 * A unit's family over continuous width, from the least to the greatest width that it is made in and the ladder has a tape for. A sentence
 * where there is none.
 */
export function familyOf(project: Project, stem: string): WidthFamily | string {
  const file = project.units.get(stem);
  if (!file) return `There is no unit "${stem}".`;
  const { tapes, kind, strange } = ladderTapes(project, file);
  const both = ascending(file.widths.filter((W) => tapes.has(W)));
  const [from, to] = [both[0], both.at(-1)];
  if (from === undefined || to === undefined || from === to) {
    const have = from === undefined ? "no tape" : `a tape of ${from} mm alone`;
    return `The ladder of ${file.name} has ${have}: name one tape a width under "ladder" in project.yaml, for two widths at least that it is made in (${file.widths.join(", ")}).`;
  }
  const within = (W: number): boolean => W >= from && W <= to;
  const leftOut = file.widths
    .filter((W) => !tapes.has(W))
    .map((W) => ({
      W,
      why: `${strange.get(W) ?? `no tape of ${W} mm is wanted or stands under "ladder"`}${within(W) ? ": the ladder runs straight through it" : ""}`,
    }));
  const rows = widthsOf(kind).filter(within);
  const knots = {
    rows,
    units: ascending(file.widths.filter(within)),
    tapes: ascending([...tapes.keys()].filter(within)),
  };
  const pieces = piecesOf(project, file, tapes, knots, kind);
  const named = knots.tapes.map((W) => ({ W, tape: tapes.get(W)!.stem }));
  return { unit: stem, name: file.name, from, to, rows, tapes: named, leftOut, pieces };
}
const ascending = (list: readonly number[]): number[] => [...list].sort((a, b) => a - b);

/** One tape a width: those under `ladder`, elsewhere the wanted tape with the least pocket. */
function ladderTapes(
  project: Project,
  file: UnitFile,
): {
  readonly tapes: ReadonlyMap<number, TapeFile>;
  readonly kind: TapeKind;
  /** Why the tape named for a width is not taken. */
  readonly strange: ReadonlyMap<number, string>;
} {
  const named = (project.ladder ?? []).map((name) => project.tapes.get(name)!);
  const mine = named.find(({ tape }) => file.kinds.includes(tape.kind));
  const kind = mine?.tape.kind ?? (file.kinds.includes("embossed") ? "embossed" : "punched");
  const tapes = new Map<number, TapeFile>();
  const strange = new Map<number, string>();
  for (const one of named) {
    const { row } = one.tape;
    if (one.tape.kind === kind) tapes.set(row, one);
    else strange.set(row, `${one.stem} is ${one.tape.kind}, the ladder runs over ${kind} tape`);
  }
  const wanted = [...new Set([...project.wanted.values()].flat())].map((name) => project.tapes.get(name)!);
  const pocket = ({ tape }: TapeFile): number =>
    nominalOf(tape.letters.A0) * nominalOf(tape.letters.B0) * nominalOf(tape.letters.K0);
  const least = wanted
    .filter(({ tape }) => tape.kind === kind)
    .sort((a, b) => pocket(a) - pocket(b) || (a.stem < b.stem ? -1 : 1));
  for (const one of least) if (!tapes.has(one.tape.row) && !strange.has(one.tape.row)) tapes.set(one.tape.row, one);
  return { tapes, kind, strange };
}

interface Knots {
  readonly rows: readonly number[];
  readonly units: readonly number[];
  readonly tapes: readonly number[];
}
/** What a piece lies between, and whose overrides hold on it. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly rows: Ends;
  readonly units: Ends;
  readonly tapes: Ends;
  readonly overridesOf: number;
}
const around = (knots: readonly number[], from: number, to: number): Ends => [
  knots.findLast((k) => k <= from)!,
  knots.find((k) => k >= to)!,
];

function piecesOf(
  project: Project,
  file: UnitFile,
  tapes: ReadonlyMap<number, TapeFile>,
  knots: Knots,
  kind: TapeKind,
): WidthPiece[] {
  const { rows, units } = knots;
  const halfWay = units.slice(1).flatMap((b, i) => {
    const a = units[i]!;
    return file.overridesAt(a).size + file.overridesAt(b).size > 0 ? [(a + b) / 2] : [];
  });
  const ends = ascending([...new Set([...rows, ...halfWay])]);
  const first = ends[0]!;
  const alone: Ends = [first, first];
  const begin: Stretch = { from: first, to: first, rows: alone, units: alone, tapes: alone, overridesOf: first };
  const between = ends.slice(1).map((to, i): Stretch => {
    const from = ends[i]!;
    const [a, b] = around(units, from, to);
    return {
      from,
      to,
      rows: around(rows, from, to),
      units: [a, b],
      tapes: around(knots.tapes, from, to),
      overridesOf: to <= (a + b) / 2 ? a : b,
    };
  });
  return [begin, ...between].map((here, i, all): WidthPiece => {
    const before = all[i - 1];
    const steps = before ? stepsAt(before, here, file, tapes, kind) : [];
    const scene = (W: number): Scene | string => {
      const tape = tapeAt(tapes, here, W);
      const unit = unitAt(file, here, W);
      return typeof unit === "string" ? unit : { unit, tape, requirement: project.requirement };
    };
    const joined = before !== undefined && steps.length === 0 && sameOverrides(before, here, file);
    return { from: here.from, to: here.to, joined, steps, scene };
  });
}
/** The same width's overrides, or none on both sides. */
const sameOverrides = (before: Stretch, here: Stretch, file: UnitFile): boolean =>
  before.overridesOf === here.overridesOf ||
  file.overridesAt(before.overridesOf).size + file.overridesAt(here.overridesOf).size === 0;

function tapeAt(tapes: ReadonlyMap<number, TapeFile>, { tapes: [a, b], rows, to }: Stretch, W: number) {
  const above = tapes.get(b)!.tape;
  return W === to && to === b ? above : tapeBetween(tapes.get(a)!.tape, above, W, rows);
}
function unitAt(file: UnitFile, { units: [a, b], rows, to, overridesOf }: Stretch, W: number): Unit | string {
  if (W === to && to === b) return file.variants.get(b)!;
  const letters = lettersAt(file, [a, b], rows, W);
  const { unit, errors } = file.cutFor(W, letters, overridesOf);
  if (unit) return unit;
  const first = errors[0]!;
  return `${first.place.file}:${first.place.line}:${first.place.column}: found ${first.found}, expected ${first.expected}`;
}
/** Letters as a unit file means them at a width between two that it is made in. */
export function lettersAt(file: UnitFile, [a, b]: Ends, rows: Ends, W: number): Letters {
  const out: Letters = {};
  for (const letter of rowLetters) {
    const q = letterBetween(rows, W, letter);
    if (q) out[letter] = q;
  }
  const mix = new Between(shareOf(W, [a, b]));
  const [below, above] = [file.variants.get(a)!.letters, file.variants.get(b)!.letters];
  for (const letter of pocketLetters) {
    const [x, y] = [below[letter], above[letter]];
    if (!x || !y) continue;
    if (letter === "P1") out[letter] = stepped(x, y, mix);
    else out[letter] = (fromRow(x) && fromRow(y) && letterBetween(rows, W, letter)) || mix.of(x, y);
  }
  return out;
}
const fromRow = (q: Quantity): boolean => q.kind === "given" && q.address.startsWith("catalogue/");

/** What takes a step where one piece ends and the next begins. */
function stepsAt(
  before: Stretch,
  here: Stretch,
  file: UnitFile,
  tapes: ReadonlyMap<number, TapeFile>,
  kind: TapeKind,
): WidthStep[] {
  const out: WidthStep[] = [];
  const given = (q: Quantity | undefined): Given | undefined => (q?.kind === "given" ? q : undefined);
  const letter = (name: string, from: number, to: number, gives: WidthStep["gives"]): void => {
    if (Math.abs(from - to) < 1e-12) return;
    const text = `${name} ${+(from * 1e3).toPrecision(6)} to ${+(to * 1e3).toPrecision(6)} mm`;
    const same = out.findIndex((step) => step.text === text);
    const both = out[same];
    if (both) out[same] = { text, gives: (scene) => [...both.gives(scene), ...gives(scene)] };
    else out.push({ text, gives });
  };
  const P1 = (ends: Ends) => nominalOf(tapes.get(ends[1])!.tape.letters.P1);
  letter("P1", P1(before.tapes), P1(here.tapes), ({ tape }) => [given(tape.letters.P1)]);
  const cut = (ends: Ends) => file.variants.get(ends[1])!.letters.P1;
  const [cutBefore, cutHere] = [cut(before.units), cut(here.units)];
  if (cutBefore && cutHere) {
    // The unit's own pitch goes with its tape's where it takes the same step.
    const same = nominalOf(cutBefore) === P1(before.tapes) && nominalOf(cutHere) === P1(here.tapes);
    const name = same ? "P1" : "built for P1";
    letter(name, nominalOf(cutBefore), nominalOf(cutHere), ({ unit }) => [given(unit.letters.P1)]);
  }
  const sealed = (ends: Ends): string => tapes.get(ends[1])!.tape.film.sealed ?? "not said";
  if (sealed(before.tapes) !== sealed(here.tapes))
    out.push({ text: `seal ${sealed(before.tapes)} to ${sealed(here.tapes)}`, gives: () => [], word: true });
  for (const name of stepLetters) {
    const at = (ends: Ends) => nominalOf(rowFigure(kind, ends[1], name)!);
    letter(name, at(before.rows), at(here.rows), ({ unit, tape }) => [
      given(unit.letters[name]),
      given(tape.letters[name]),
    ]);
  }
  if (before.rows[1] === here.rows[0])
    for (const wider of widerAbove(kind, here.rows[0])) {
      const [a, b] = here.tapes.map((W) => tapes.get(W)!.tape.letters[wider.letter]);
      if (a && b && fromRow(a) && fromRow(b))
        out.push({
          text: `${wider.letter} ${wider.from} to ${wider.to}`,
          gives: ({ tape }) => [given(tape.letters[wider.letter])],
        });
    }
  if (before.overridesOf !== here.overridesOf) out.push(...overrideSteps(before, here, file));
  return out;
}

function overrideSteps(before: Stretch, here: Stretch, file: UnitFile): WidthStep[] {
  const [below, above] = [before.overridesOf, here.overridesOf];
  const [a, b] = [file.overridesAt(below), file.overridesAt(above)];
  const numberAt = (unit: Unit, W: number, path: string): Given | undefined =>
    unit.givens.get(`${file.stem}/per width.${W}.${path}`) ?? unit.givens.get(`${file.stem}/${path}`);
  const saysAt = (said: ReadonlyMap<string, string>, W: number, path: string): string =>
    said.get(path) ?? numberAt(file.variants.get(W)!, W, path)?.text ?? "as the file has it";
  return [...new Set([...a.keys(), ...b.keys()])].flatMap((path) => {
    const [from, to] = [saysAt(a, below, path), saysAt(b, above, path)];
    return from === to
      ? []
      : [{ text: `${path} ${from} to ${to}`, gives: ({ unit }: Scene) => [numberAt(unit, above, path)] }];
  });
}
