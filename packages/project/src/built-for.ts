import {
  type BuiltForLetter,
  believed,
  builtForLetters,
  type Given,
  given,
  nominalOf,
  type Place,
  parseExpression,
  parseQuantity,
  type Quantity,
  rowLetter,
} from "@tapeworthy/core";
import { didYouMean, type ProjectError } from "./error.ts";
import type { GivenStore } from "./given-store.ts";
import { isPocketLetter, isRowLetter, type Letters, pocketLetters } from "./letters.ts";
import { type FieldReader, join, shapeOf, short } from "./read.ts";
import type { Source, SourceFile } from "./source.ts";
import type { BuiltFor } from "./widths.ts";

/** Numbers of a tape file that a variant may be built for, by the tape's name: A0, B0, K0, P1, T. */
export type PocketsOf = (tape: string) => Readonly<Partial<Record<BuiltForLetter, Quantity>>> | undefined;
/** The pocket of one width, and where to find the tapes it may name. */
export interface PocketInput {
  readonly built: BuiltFor;
  readonly width: number;
  readonly source: SourceFile;
  readonly stem: string;
  readonly pockets: PocketsOf;
  readonly tapeNames: readonly string[];
  readonly store: GivenStore;
}

/** The tapes a width is built for, for a sentence that says where a value was found. */
export const tapesBuiltFor = (built: BuiltFor): string => {
  if (!built || !("value" in built) || built.value.kind === "map") return "";
  const tapes = built.value.kind === "list" ? built.value.items : [built.value];
  return `, built for ${tapes.map((t) => (t.kind === "scalar" ? t.text : "")).join(", ")}`;
};
/** One error for all the letters that a width lacks. */
export function noPocket(source: SourceFile, place: Place, width: number, missed: readonly string[]): ProjectError {
  const letters = [...new Set(missed)].sort();
  return source.error(
    place,
    `no pocket for W = ${width} mm`,
    `"built for" to give ${letters.join(" ")} at each width`,
    `Write a tape's name, "${width}: NAME", or its letters, "${width}: {${letters.map((l) => `${l}: 1 mm`).join(", ")}}".`,
  );
}

export function readBuiltFor(
  reader: FieldReader,
  { built, width, source, stem, pockets, tapeNames, store }: PocketInput,
  letters: Letters,
): void {
  const { errors, failed } = reader.setting;
  const path = `built for.${width}`;
  /** What is not given although it was meant to be has been reported. */
  const giveUp = (): void => {
    for (const letter of pocketLetters) if (!letters[letter]) failed.add(letter);
  };
  const value = built && "value" in built ? built.value : undefined;
  if (value?.kind === "map") {
    let strange = false;
    for (const { key, keyPlace, value: given } of value.entries.values()) {
      if (isPocketLetter(key)) {
        const q = reader.read(builtForLetters[key], given, join(path, key)) as Given | undefined;
        if (q) letters[key] = q;
        else failed.add(key);
        continue;
      }
      strange = true;
      const way = isRowLetter(key) ? `"${key}" is the catalogue's for this width.` : didYouMean(key, pocketLetters);
      errors.push(source.error(keyPlace, `"${short(key)}"`, `a letter of the pocket: ${pocketLetters.join(" ")}`, way));
    }
    if (strange) giveUp();
  } else if (value && value.kind !== "broken") {
    const found = (value.kind === "list" ? value.items : [value]).map((item) =>
      pocketOf(item, source, pockets, tapeNames, errors),
    );
    for (const letter of pocketLetters) {
      const all = found.flatMap((p) => p?.[letter] ?? []);
      if (all.length > 0) letters[letter] = asDrawn(all.reduce((a, b) => (nominalOf(b) > nominalOf(a) ? b : a)));
    }
    if (found.includes(undefined)) giveUp();
  }
  // What `built for` leaves out comes from the catalogue where a row has it, and from the letters it follows from.
  for (const letter of ["T1", "b"] as const) {
    const q = letters[letter] ?? (failed.has(letter) ? undefined : rowLetter("embossed", width, letter));
    if (q) letters[letter] = q;
  }
  const follows = (letter: "T2" | "B1", text: string, of: readonly BuiltForLetter[]): void => {
    if (letters[letter] || failed.has(letter)) return;
    if (of.some((l) => failed.has(l))) failed.add(letter);
    if (of.some((l) => !letters[l])) return;
    const cite = "pocket of the carrier's thickness all round";
    letters[letter] = store.given(
      {
        address: `${stem}/${path}.${letter}`,
        symbol: letter,
        text,
        origin: { cite, how: "judgement" },
        dimension: [1, 0, 0, 0, 0],
        written: parseQuantity(text),
        level: "unit",
        letter: "d",
      },
      Object.fromEntries(of.map((l) => [l, letters[l]!])),
      [],
      source,
      given,
    );
  };
  follows("T2", "K0 + T + T1", ["K0", "T", "T1"]);
  follows("B1", "B0 + 2*T", ["B0", "T"]);
  if (!value || value.kind === "broken") giveUp();
}

/** The pocket of a tape that a width is built for; undefined where there is none to be had, which has been said. */
function pocketOf(
  item: Source,
  source: SourceFile,
  pockets: PocketsOf,
  tapeNames: readonly string[],
  errors: ProjectError[],
): ReturnType<PocketsOf> {
  if (item.kind === "broken") return undefined;
  const name = item.kind === "scalar" ? item.text : "";
  const pocket = pockets(name);
  // A tape whose own file is wrong has its errors there.
  if (pocket || tapeNames.includes(name)) return pocket;
  const way =
    didYouMean(name, tapeNames) ??
    (tapeNames.length > 0 ? `Tapes here: ${tapeNames.join(", ")}.` : "There is no tape file yet.");
  errors.push(source.error(item.place, shapeOf(item), "a tape of this project, or letters with values", way));
  return undefined;
}

/** The same number as it stands on the unit's drawing: without the reel's scatter. */
const drawn = new WeakMap<Quantity, Quantity>();
function asDrawn(q: Quantity): Quantity {
  if (q.kind !== "given" || (q.scatters.length === 0 && !q.unknown)) return q;
  const known = drawn.get(q);
  if (known) return known;
  const address = `${q.address} as drawn`;
  // A drawing has one number: where the tape's is a guess, its middle.
  const { unknown, ...plain } = q;
  const middle = unknown && `${+(believed(unknown, 0) * 1e3).toPrecision(4)} mm`;
  const made: Given = middle
    ? { ...plain, address, scatters: [], text: middle, expression: parseExpression(middle) }
    : { ...q, address, scatters: [] };
  drawn.set(q, made);
  return made;
}
