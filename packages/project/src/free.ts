import {
  asWritten,
  type FreeMark,
  freeOf,
  isFault,
  NotationError,
  type Place,
  parseQuantity,
  type Quantity,
  quantity,
  Realiser,
  type Scene,
  toSI,
  type Unit,
  unitOf,
} from "@tapeworthy/core";
import type { ProjectError } from "./error.ts";
import { type FieldReader, shapeOf } from "./read.ts";
import type { Source, SourceFile } from "./source.ts";

/** A dimension that a unit's file frees for sizing: `free: {nip.preload: 3..9 N}`. */
export interface Freed extends FreeMark {
  readonly place: Place;
}
/** Bounds of a mark at some widths, SI: numbers, or two quantities that follow the letters of each. */
export interface FreedBounds {
  readonly path: string;
  readonly keyPlace: Place;
  readonly place: Place;
  readonly unit: string | undefined;
  readonly plain: readonly [number, number] | undefined;
  readonly byWidth: Map<number, readonly [number, number]>;
}
const wanted = 'two bounds: "3..9 N", or [T + 0.2 mm, T + 0.6 mm] to follow the letters';
const bound = quantity("any", "a bound", { example: "T + 0.2 mm" });

/** The marks of a file, those with letters still without their numbers. */
export function readFree(source: SourceFile, at: Source | undefined, errors: ProjectError[]): FreedBounds[] {
  if (!at || at.kind === "broken") return [];
  if (at.kind !== "map") {
    const way = 'For example "free: {nip.preload: 3..9 N}".';
    errors.push(source.error(at.place, shapeOf(at), "paths into this file, each with two bounds", way));
    return [];
  }
  return [...at.entries.values()].flatMap(({ key, keyPlace, value }): FreedBounds[] => {
    const one = { path: key, keyPlace, place: value.place, byWidth: new Map<number, readonly [number, number]>() };
    if (value.kind === "broken") return [];
    if (value.kind === "list" && value.items.length === 2 && value.items.every((item) => item.kind === "scalar"))
      return [{ ...one, unit: undefined, plain: undefined }];
    if (value.kind !== "scalar") {
      errors.push(source.error(value.place, shapeOf(value), wanted));
      return [];
    }
    try {
      return [{ ...one, ...boundsIn(value.text) }];
    } catch (e) {
      if (!(e instanceof NotationError)) throw e;
      const from = Math.min(value.from + e.at, Math.max(value.from, value.to - 1));
      const place = source.place(from, Math.min(from + e.length, Math.max(from + 1, value.to)));
      errors.push(source.error(place, e.found, e.expected, e.hint));
      return [];
    }
  });
}
/** "3..9 N" in SI, with its unit. Throws NotationError for what is no set of two bounds. */
export function boundsIn(text: string): { readonly plain: readonly [number, number]; readonly unit: string } {
  const found = `"${text}"`;
  // Bounds of no width or the wrong way round are told of with the dimension they are meant for.
  const bare = /^\s*(-?[\d.]+(?:e[+-]?\d+)?)\s*\.\.\s*(-?[\d.]+(?:e[+-]?\d+)?)\s*([^\d\s].*)?$/i.exec(
    text.replace(/\.\.(?=\.)/, ".. "),
  );
  const ends = bare && [Number(bare[1]), Number(bare[2])];
  if (bare && ends!.every(Number.isFinite) && ends![0]! >= ends![1]!) {
    const unit = (bare[3] ?? "").trim();
    return { plain: [toSI(ends![0]!, unitOf(unit)), toSI(ends![1]!, unitOf(unit))], unit };
  }
  const read = parseQuantity(text);
  if (read.form !== "range" || read.scatters.length > 0) throw new NotationError(0, text.length, found, wanted);
  if (read.status)
    throw new NotationError(
      0,
      text.length,
      found,
      wanted,
      `Leave "${read.status}" out: bounds are what you allow, not what you believe.`,
    );
  const unit = unitOf(read.unit);
  return { plain: [toSI(read.low, unit), toSI(read.high, unit)], unit: read.unit };
}

/** Takes the numbers of marks with letters at one width; `reader` knows the letters and names of the file there. */
export function readFreeAt(
  marks: readonly FreedBounds[],
  at: Source | undefined,
  reader: FieldReader,
  width: number,
  scene: Scene,
): void {
  if (at?.kind !== "map") return;
  for (const mark of marks) {
    const value = at.entries.get(mark.path)?.value;
    if (mark.plain || value?.kind !== "list") continue;
    const ends = value.items.map((item, i) =>
      item.kind === "scalar" ? reader.number(item, `free.${mark.path}.${i + 1}`, bound) : undefined,
    );
    if (!ends[0] || !ends[1]) continue;
    const run = new Realiser(scene, ends as Quantity[]).run(asWritten);
    mark.byWidth.set(width, [run.number(ends[0]), run.number(ends[1])]);
  }
}

/** Marks as sizing takes them, held against the unit's variants; what cannot be taken is an error at its place. */
export function freedIn(
  source: SourceFile,
  marks: readonly FreedBounds[],
  variants: Iterable<Unit>,
  errors: ProjectError[],
): Freed[] {
  const scenes = [...variants].map((unit): Scene => {
    const tape = { row: unit.row, letters: { wall: unit.letters.T, ...unit.letters } };
    return { unit, tape } as unknown as Scene;
  });
  return marks.flatMap((one): Freed[] => {
    const freed: Freed = {
      path: one.path,
      place: one.keyPlace,
      ...(one.unit === undefined ? {} : { unit: one.unit }),
      bounds: (scene) => one.plain ?? one.byWidth.get(scene.unit.row) ?? [Number.NaN, Number.NaN],
    };
    const free = freeOf(scenes, freed);
    if (!isFault(free)) return [freed];
    const place = free.of === "path" ? one.keyPlace : one.place;
    errors.push(source.error(place, free.found, free.expected, free.hint));
    return [];
  });
}
