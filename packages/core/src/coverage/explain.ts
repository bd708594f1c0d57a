import { type Check, chosen } from "../quantity/check.ts";
import { parseExpression } from "../quantity/expression.ts";
import { type Given, isPlace, type Letter, namesOf, type Origin } from "../quantity/given.ts";
import { isFact, isQuantity, type Model, type Quantity, type Read, type Reads } from "../quantity/model.ts";
import { showValue } from "../quantity/show.ts";
import { symbolInPrint, typesetText } from "../quantity/typeset.ts";
import type { Scene } from "../scene.ts";
import { asWritten, type Realised, Realiser } from "../study/realise.ts";

/** One row of the drill-down: a number, its equation with the numbers in it, and what it rests on. */
export interface Explained {
  readonly symbol: string;
  readonly title: string;
  /** Value as written, SI; null for a solver's result that is no number. */
  readonly value: number | null;
  readonly unit: string;
  readonly shown: string;
  /** Equation typeset as text, and with its numbers filled in; absent for a number somebody gave. */
  readonly equation?: string;
  readonly filled?: string;
  readonly form?: "closed" | "solved";
  readonly source?: string;
  readonly where?: string;
  /** For a number somebody gave: its text, place or source, letter, address. */
  readonly given?: {
    readonly address: string;
    readonly text: string;
    readonly origin: Origin;
    readonly letter: Letter;
    readonly unknown: boolean;
    readonly scatters: readonly string[];
  };
  readonly rests: readonly Explained[];
}

/** Explains the value and the bounds of a check, down to the numbers in the files. Nominal values. */
export function explain(
  check: Check,
  scene: Scene,
): { value: Explained; least?: Explained; most?: Explained } | undefined {
  if (check.absent(scene) !== undefined) return undefined;
  const value = chosen(check.value, scene);
  if (!value) return undefined;
  const least = chosen<Quantity>(check.atLeast, scene);
  const most = chosen<Quantity>(check.atMost, scene);
  const run = new Realiser(scene, [value, ...(least ? [least] : []), ...(most ? [most] : [])]).run(asWritten);
  const row = (q: Quantity): Explained => explained(q, q.symbol, scene, run, new Set());
  return { value: row(value), ...(least ? { least: row(least) } : {}), ...(most ? { most: row(most) } : {}) };
}

function explained(
  q: Given | Model<unknown>,
  symbol: string,
  scene: Scene,
  run: Realised,
  above: ReadonlySet<unknown>,
): Explained {
  const raw = q.unit === "" ? null : run.number(q as Quantity);
  const shown = raw === null ? "" : showValue(q as Quantity, raw, 4);
  const reads = q.kind === "given" ? namedReads(q, scene) : (q.reads(scene) ?? {});
  const inner = new Set([...above, q]);
  const rests = listed(reads).map(([name, one]) => explained(one, name, scene, run, inner));
  const head = { symbol: symbolInPrint(symbol), value: raw, unit: q.unit, shown, rests };
  if (q.kind === "given") {
    const formula =
      q.expression && rests.length > 0
        ? {
            equation: typesetText(q.expression),
            filled: typesetText(q.expression, (name) => filledIn(name, reads, run)),
          }
        : {};
    return {
      ...head,
      title: q.text,
      ...formula,
      given: {
        address: q.address,
        text: q.text,
        origin: q.origin,
        letter: q.letter,
        unknown: q.unknown !== undefined,
        scatters: q.scatters.map((s) => s.level),
      },
    };
  }
  const closed = q.form === "closed";
  return {
    ...head,
    title: q.title,
    form: q.form,
    equation: closed ? typesetText(parseExpression(q.equation)) : q.equation,
    ...(closed ? { filled: typesetText(parseExpression(q.equation), (name) => filledIn(name, reads, run)) } : {}),
    source: `${q.origin.cite} (${q.origin.how})`,
    ...(q.where && raw !== null && Number.isFinite(raw) ? { where: q.where(run.inputsOf(q, scene), scene) } : {}),
  };
}
/** What the names in a text stand for: a text may know more names than it uses. */
function namedReads(q: Given, scene: Scene): Reads {
  const known = q.reads(scene);
  return Object.fromEntries(namesOf(q).flatMap((name) => (Object.hasOwn(known, name) ? [[name, known[name]!]] : [])));
}
const filledIn = (name: string, reads: Reads, run: Realised): string => {
  const q = reads[name];
  return q !== undefined && isQuantity(q)
    ? showValue(q as Quantity, run.number(q as Quantity), 4)
    : symbolInPrint(name);
};

/** Quantities of a read with the names they are known by; lists are numbered from 1. */
function listed(reads: Read | Reads, prefix = ""): [string, Given | Model<unknown>][] {
  if (isFact(reads as Read)) return [];
  return Object.entries(reads as Reads).flatMap(([key, read]): [string, Given | Model<unknown>][] => {
    const own = Array.isArray(reads) ? `${Number(key) + 1}` : key;
    const name = prefix === "" ? own : `${prefix} ${own}`;
    return isQuantity(read) ? [[name, read]] : listed(read, name);
  });
}

/** Where a number stands: file:line:column, or its source. */
export const placeText = (origin: Origin): string =>
  isPlace(origin)
    ? `${origin.file}:${origin.line}:${origin.column}`
    : origin.cite.includes(origin.how)
      ? origin.cite
      : `${origin.cite} (${origin.how})`;
