import { type Place, widthsOf } from "@tapeworthy/core";
import type { ProjectError } from "./error.ts";
import { shapeOf, short } from "./read.ts";
import type { MapSource, Source, SourceFile } from "./source.ts";

/** The widths a unit file serves, and what it says of each. */
export interface Served {
  readonly widths: readonly number[];
  /** False for a width that is named elsewhere although the file does not serve it. */
  serves(key: string): boolean;
}
export function servedWidths(source: SourceFile, tree: MapSource, errors: ProjectError[]): Served {
  const serves = tree.entries.get("serves")?.value;
  const at = serves?.kind === "map" ? serves.entries.get("W") : undefined;
  const list = at?.value;
  const known = widthsOf("embossed");
  // Without a list of widths, which is an error of its own, the rest is read at the widths the file speaks of.
  const spoken = (): Served => {
    const built = tree.entries.get("built for")?.value;
    const widths = built?.kind === "map" ? [...built.entries.keys()].map(Number).filter((w) => known.includes(w)) : [];
    return { widths: widths.length > 0 ? widths : [known[0]!], serves: () => true };
  };
  if (list?.kind !== "list") return spoken();
  if (list.items.length === 0)
    errors.push(
      source.error(at!.keyPlace, "no width", "at least one width", `Widths of the catalogue: ${known.join(", ")}.`),
    );
  const widths: number[] = [];
  const named = new Set<string>();
  for (const item of list.items) {
    if (item.kind === "broken") continue;
    const text = item.kind === "scalar" ? item.text : "";
    const width = Number(text);
    const bare = text.replace(/\s*mm$/, "");
    named.add(text).add(bare).add(`${width}`);
    if (known.includes(width) && `${width}` === text) {
      if (widths.includes(width))
        errors.push(source.error(item.place, `the width ${width} a second time`, "each width once"));
      else widths.push(width);
      continue;
    }
    const hint = bare !== text ? `Widths are the standard's names, without a unit: ${bare}.` : undefined;
    errors.push(source.error(item.place, shapeOf(item), `a width of the catalogue: ${known.join(", ")}`, hint));
  }
  if (widths.length === 0) return spoken();
  return { widths, serves: (key) => named.has(key) };
}
const notServed = (source: SourceFile, place: Place, key: string, widths: readonly number[]): ProjectError =>
  source.error(place, `the width "${short(key)}"`, `one of the widths it serves: ${widths.join(", ")}`);

/** `per width:` as a map from width to the paths it replaces. */
export function overridesByWidth(
  source: SourceFile,
  at: Source | undefined,
  served: Served,
  errors: ProjectError[],
): Map<number, MapSource> {
  const out = new Map<number, MapSource>();
  if (!at || at.kind === "broken") return out;
  if (at.kind !== "map") {
    errors.push(
      source.error(
        at.place,
        "no widths",
        "widths, each with the paths it changes",
        'For example "24: {nip.preload: 7 ±1 N}".',
      ),
    );
    return out;
  }
  for (const { key, keyPlace, value } of at.entries.values()) {
    if (!served.serves(key)) errors.push(notServed(source, keyPlace, key, served.widths));
    else if (value.kind === "map") out.set(Number(key), value);
    else if (value.kind !== "broken")
      errors.push(
        source.error(
          value.place,
          "no paths",
          "paths into this file, each with its value",
          'For example "{nip.preload: 7 ±1 N}".',
        ),
      );
  }
  return out;
}

/** What a width is built for; `missing` says where it ought to stand, undefined that its lack has been reported. */
export type BuiltFor = { readonly value: Source } | { readonly missing: Place } | undefined;
export function builtForByWidth(
  source: SourceFile,
  at: Source | undefined,
  missing: Place,
  served: Served,
  errors: ProjectError[],
): { at(width: number): BuiltFor } {
  if (!at) return { at: () => ({ missing }) };
  if (at.kind === "broken") return { at: () => undefined };
  if (at.kind !== "map") {
    errors.push(
      source.error(
        at.place,
        "no widths",
        "widths, each with the pocket it is cut to",
        'For example "24: {A0: 10.9 mm, B0: 16.0 mm, K0: 3.2 mm, P1: 12 mm, T: 0.35 mm}".',
      ),
    );
    return { at: () => undefined };
  }
  let faults = 0;
  for (const { key, keyPlace } of at.entries.values()) {
    if (served.serves(key)) continue;
    errors.push(notServed(source, keyPlace, key, served.widths));
    faults++;
  }
  return {
    at: (width) => {
      const value = at.entries.get(`${width}`)?.value;
      return value ? { value } : faults > 0 ? undefined : { missing };
    },
  };
}
