import {
  asWritten,
  type BuiltForLetter,
  builtForLetters,
  type Given,
  given,
  type Names,
  nominalOf,
  quantitiesIn,
  type Quantity,
  type QuantityField,
  Realiser,
  type RowLetter,
  markNames,
  markPosition,
  parseQuantity,
  quantity,
  rowLetter,
  rowLetters,
  type Scene,
  type TapeKind,
  tabled,
  type Unit,
  type UnitData,
  unitFields,
  unitOf,
  widthsOf,
} from "@tapeworthy/core";
import { didYouMean, type ProjectError, sameError } from "./error.ts";
import type { GivenStore } from "./given-store.ts";
import { FieldReader, join, type Setting } from "./read.ts";
import { type MapSource, parseSource, type Source, type SourceFile } from "./source.ts";

/** A unit file read: a family, cut into one variant a width. */
export interface UnitFile {
  readonly name: string;
  readonly stem: string;
  readonly kinds: readonly TapeKind[];
  readonly widths: readonly number[];
  readonly variants: ReadonlyMap<number, Unit>;
  readonly source: SourceFile;
}
/** Numbers of a tape file that a variant may be built for, by the tape's name: A0, B0, K0, P1, T. */
export type PocketsOf = (tape: string) => Readonly<Partial<Record<BuiltForLetter, Quantity>>> | undefined;

const pi = tabled("bound/pi", "pi", "3.141592653589793", [0, 0, 0, 0, 0], { cite: "by definition", how: "derived" });
const free: QuantityField = quantity("any", "a name of your own");

/**
 * Reads a unit file: every width it serves becomes a variant. All errors of the file come back together; a file with errors has no
 * variants. `pockets` finds the tape files that `built for` may name.
 */
export function readUnitFile(source: SourceFile, stem: string, pockets: PocketsOf, tapeNames: readonly string[], store: GivenStore): { unit?: UnitFile; errors: ProjectError[] } {
  const { tree, errors } = parseSource(source);
  if (!tree) return { errors };
  if (tree.kind !== "map") return { errors: [source.error(tree.place, "no members", "a unit: name, tape, film and the rest")] };
  const entry = (name: string): Source | undefined => tree.entries.get(name)?.value;
  const rest = without(tree, ["built for", "let", "per width"]);

  const widths = servedWidths(source, entry("serves"), errors);
  const overrides = overridesByWidth(source, entry("per width"), widths, errors);
  const built = builtForByWidth(source, entry("built for"), widths, errors);
  const variants = new Map<number, Unit>();
  const found: ProjectError[] = [];
  let name = stem;
  let kinds: readonly TapeKind[] = ["embossed"];
  for (const width of widths) {
    const mine: ProjectError[] = [];
    const variant = readVariant({ source, stem, rest, width, lets: entry("let"), built: built.get(width), instead: overrides.get(width) ?? new Map(), pockets, tapeNames, store, errors: mine });
    for (const e of mine) if (!found.some((known) => sameError(known, e))) found.push(e);
    if (variant) {
      name = variant.name;
      kinds = variant.serves.kind;
      variants.set(width, variant);
    }
  }
  if (widths.length === 0 && errors.length === 0) errors.push(source.error(tree.place, "no width", "at least one width under serves"));
  // The first width's reading names every member that is wrong, whatever the widths' letters are.
  const all = [...errors, ...found].sort((a, b) => a.place.line - b.place.line || a.place.column - b.place.column);
  if (all.length > 0) return { errors: all };
  return { unit: { name, stem, kinds, widths, variants, source }, errors: [] };
}

const without = (tree: MapSource, names: readonly string[]): MapSource => ({ ...tree, entries: new Map([...tree.entries].filter(([key]) => !names.includes(key))) });

function servedWidths(source: SourceFile, serves: Source | undefined, errors: ProjectError[]): number[] {
  const list = serves?.kind === "map" ? serves.entries.get("W")?.value : undefined;
  if (list?.kind !== "list") return [8];
  const known = widthsOf("embossed");
  const out: number[] = [];
  for (const item of list.items) {
    const width = item.kind === "scalar" ? Number(item.text) : Number.NaN;
    if (known.includes(width)) {
      if (out.includes(width)) errors.push(source.error(item.place, `the width ${width} a second time`, "each width once"));
      else out.push(width);
    } else
      errors.push(source.error(item.place, item.kind === "scalar" ? `"${item.text}"` : "something else", `a width of the catalogue: ${known.join(", ")}`, item.kind === "scalar" && /mm$/.test(item.text) ? `Widths are the standard's names, without a unit: ${item.text.replace(/\s*mm$/, "")}.` : undefined));
  }
  return out;
}

/** `per width:` as a map from width to the paths it replaces. */
function overridesByWidth(source: SourceFile, at: Source | undefined, widths: readonly number[], errors: ProjectError[]): Map<number, Map<string, Source>> {
  const out = new Map<number, Map<string, Source>>();
  if (!at) return out;
  if (at.kind !== "map") {
    errors.push(source.error(at.place, "no widths", "widths, each with the paths it changes", 'For example "24: {nip.preload: 7 ±1 N}".'));
    return out;
  }
  for (const { key, keyPlace, value } of at.entries.values()) {
    const width = Number(key);
    if (!widths.includes(width)) {
      errors.push(source.error(keyPlace, `the width "${key}"`, `one of the widths it serves: ${widths.join(", ")}`));
      continue;
    }
    if (value.kind !== "map") {
      errors.push(source.error(value.place, "no paths", "paths into this file, each with its value", 'For example "{nip.preload: 7 ±1 N}".'));
      continue;
    }
    out.set(width, new Map([...value.entries.values()].map((e) => [e.key, e.value])));
  }
  return out;
}

function builtForByWidth(source: SourceFile, at: Source | undefined, widths: readonly number[], errors: ProjectError[]): Map<number, Source> {
  const out = new Map<number, Source>();
  if (!at) return out;
  if (at.kind !== "map") {
    errors.push(source.error(at.place, "no widths", "widths, each with the pocket it is cut to", 'For example "24: {A0: 10.9 mm, B0: 16.0 mm, K0: 3.2 mm, P1: 12 mm, T: 0.35 mm}".'));
    return out;
  }
  for (const { key, keyPlace, value } of at.entries.values()) {
    if (widths.includes(Number(key))) out.set(Number(key), value);
    else errors.push(source.error(keyPlace, `the width "${key}"`, `one of the widths it serves: ${widths.join(", ")}`));
  }
  return out;
}

interface VariantInput {
  readonly source: SourceFile;
  readonly stem: string;
  readonly rest: MapSource;
  readonly width: number;
  readonly lets: Source | undefined;
  readonly built: Source | undefined;
  readonly instead: ReadonlyMap<string, Source>;
  readonly pockets: PocketsOf;
  readonly tapeNames: readonly string[];
  readonly store: GivenStore;
  readonly errors: ProjectError[];
}

function readVariant(input: VariantInput): Unit | undefined {
  const { source, stem, rest, width, instead, store, errors } = input;
  const letters: Partial<Record<RowLetter | BuiltForLetter, Quantity>> = {};
  for (const letter of rowLetters) {
    const q = rowLetter("embossed", width, letter);
    if (q) letters[letter] = q;
  }
  const failed = new Set<string>();
  const setting = (names: Setting["names"], actual: boolean): Setting => ({ source, prefix: `${stem}/`, level: "unit", names, actual, instead, store, errors, failed });

  const pocket = new FieldReader(setting(() => ({ ...letters, pi }), false));
  readBuiltFor(pocket, input, letters);
  // What `built for` leaves out comes from the catalogue where a row has it.
  for (const letter of ["T1", "b"] as const) fromRow(letters, letter, width);

  const names: Record<string, Quantity> = { ...letters, pi } as Record<string, Quantity>;
  const own = new FieldReader(setting(() => names, true));
  readLets(own, input.lets, names, failed, source, errors, instead);

  // Marks lie along the route, which may use letters and lets but no marks.
  let marks: readonly [Names, Names] = [names, names];
  const body = new FieldReader(setting((field, path) => (path.startsWith("tape.route") || path.startsWith("tape.place") ? names : marks[field.marks === "x" ? 0 : 1]), true));
  const tapeEntry = rest.entries.get("tape")?.value;
  const routeOnly = tapeEntry?.kind === "map" ? readRoute(setting, names, tapeEntry) : undefined;
  if (!routeOnly) for (const mark of marksAsWritten(tapeEntry)) failed.add(mark);
  else {
    checkMarks(source, tapeEntry as MapSource, names, errors);
    const found = markNames(routeOnly.route);
    const of = (what: "x" | "route"): Names => ({ ...names, ...Object.fromEntries(found.flatMap((m) => markPosition(routeOnly, m, what)?.kind ? [[m, memoMark(store, stem, width, routeOnly, m, what)]] : [])) });
    marks = [of("x"), of("route")];
  }
  const data = body.read(unitFields, rest, "") as UnitData | undefined;

  const met = new Set([...pocket.met, ...own.met, ...body.met]);
  for (const [path, value] of instead) {
    if (met.has(path)) continue;
    const known = [...body.givens.keys(), ...own.givens.keys()].map((address) => address.slice(stem.length + 1));
    errors.push(source.error(value.place, `a value for "${path}"`, "the path of a number in this file", didYouMean(path, known) ?? 'For example "nip.preload"; list items go by their name: "film.guides.shoulder.radius".'));
  }
  if (!data || errors.length > 0) return undefined;

  const givens = new Map([...pocket.givens, ...own.givens, ...body.givens]);
  const unit: Unit = { ...data, name: data.unit, row: width, letters, givens, origin: source.place(0, 1) };
  checkNumbers(source, unit, [...pocket.limits, ...own.limits, ...body.limits], errors);
  return errors.length === 0 ? unit : undefined;
}

function readBuiltFor(reader: FieldReader, input: VariantInput, letters: Partial<Record<RowLetter | BuiltForLetter, Quantity>>): void {
  const { built, width, source, pockets, tapeNames, errors } = input;
  if (!built) return;
  const path = `built for.${width}`;
  if (built.kind === "map") {
    for (const e of built.entries.values()) {
      if (!Object.hasOwn(builtForLetters, e.key)) {
        errors.push(source.error(e.keyPlace, `"${e.key}"`, `a letter of the pocket: ${Object.keys(builtForLetters).join(" ")}`, rowLetters.includes(e.key as RowLetter) ? `"${e.key}" is the catalogue's for this width.` : undefined));
        continue;
      }
      const letter = e.key as BuiltForLetter;
      const q = reader.read(builtForLetters[letter], e.value, join(path, letter));
      if (q) letters[letter] = q as Given;
    }
  } else {
    const names = built.kind === "list" ? built.items : [built];
    const found = names.flatMap((item) => {
      const name = item.kind === "scalar" ? item.text : "";
      const pocket = pockets(name);
      if (pocket) return [pocket];
      errors.push(source.error(item.place, name === "" ? "something else" : `"${name}"`, "a tape of this project, or letters with values", didYouMean(name, tapeNames) ?? (tapeNames.length > 0 ? `Tapes here: ${tapeNames.join(", ")}.` : undefined)));
      return [];
    });
    for (const letter of Object.keys(builtForLetters) as BuiltForLetter[]) {
      const all = found.flatMap((p) => p[letter] ?? []);
      if (all.length > 0) letters[letter] = asDrawn(all.reduce((a, b) => (nominalOf(b) > nominalOf(a) ? b : a)));
    }
  }
  const wall = (symbol: "T2" | "B1", text: string, of: readonly BuiltForLetter[]): void => {
    if (letters[symbol] || of.some((l) => !letters[l])) return;
    const names = Object.fromEntries(of.map((l) => [l, letters[l]!]));
    letters[symbol] = input.store.given(
      { address: `${input.stem}/${path}.${symbol}`, symbol, text, origin: built.place, dimension: [1, 0, 0, 0, 0], written: parseQuantity(text), level: "unit" },
      names,
      [],
      (spec) => ({ ...given(spec), scatters: [] }),
    );
  };
  fromRow(letters, "T1", width);
  wall("T2", "K0 + T + T1", ["K0", "T", "T1"]);
  wall("B1", "B0 + 2*T", ["B0", "T"]);
}

function fromRow(letters: Partial<Record<RowLetter | BuiltForLetter, Quantity>>, letter: "T1" | "b", width: number): void {
  const q = letters[letter] ?? rowLetter("embossed", width, letter);
  if (q) letters[letter] = q;
}

function readLets(reader: FieldReader, lets: Source | undefined, names: Record<string, Quantity>, failed: Set<string>, source: SourceFile, errors: ProjectError[], instead: ReadonlyMap<string, Source>): void {
  if (!lets) return;
  if (lets.kind !== "map") {
    errors.push(source.error(lets.place, "no names", "names with values", 'For example "gap: 0.60 ±0.15 mm".'));
    return;
  }
  for (const { key, keyPlace, value } of lets.entries.values()) {
    if (!/^[A-Za-z_][A-Za-z_0-9]*$/.test(key) || key === "actual") {
      errors.push(source.error(keyPlace, `the name "${key}"`, "a name of letters, digits and _"));
      continue;
    }
    if (Object.hasOwn(names, key) || (rowLetters as readonly string[]).includes(key) || Object.hasOwn(builtForLetters, key)) {
      errors.push(source.error(keyPlace, `the name "${key}"`, "a name that is not taken", "Letters of the tape keep their meaning; choose another name."));
      continue;
    }
    const path = join("let", key);
    const at = instead.get(path) ?? value;
    if (at !== value) reader.met.add(path);
    if (at.kind !== "scalar") {
      errors.push(source.error(at.place, "several values", "one quantity"));
      continue;
    }
    const q = reader.number(at, path, free, undefined);
    if (q) names[key] = q;
    else failed.add(key);
  }
}

function readRoute(setting: (names: Setting["names"], actual: boolean) => Setting, names: Names, tape: MapSource): Pick<UnitData["tape"], "route" | "place"> | undefined {
  const fields = unitFields.members.tape.members;
  // Read silently: the same places are read again with the whole file, where their errors are reported.
  const quiet = new FieldReader({ ...setting(() => names, true), errors: [] });
  const route = tape.entries.get("route")?.value;
  const place = tape.entries.get("place")?.value;
  if (!route || !place) return undefined;
  const data = { route: quiet.read(fields.route, route, "tape.route"), place: quiet.read(fields.place, place, "tape.place") };
  return quiet.setting.errors.length === 0 ? (data as Pick<UnitData["tape"], "route" | "place">) : undefined;
}

/** Names of the marks, whatever else is wrong with the route. */
function marksAsWritten(tape: Source | undefined): string[] {
  const route = tape?.kind === "map" ? tape.entries.get("route")?.value : undefined;
  if (route?.kind !== "list") return ["peel", "pick"];
  return route.items.flatMap((item) => {
    const mark = item.kind === "map" ? item.entries.get("mark")?.value : undefined;
    return mark?.kind === "scalar" ? [mark.text] : [];
  });
}

function checkMarks(source: SourceFile, tape: MapSource, names: Names, errors: ProjectError[]): void {
  const route = tape.entries.get("route")!.value;
  const seen = new Set<string>();
  if (route.kind === "list")
    for (const item of route.items) {
      const mark = item.kind === "map" ? item.entries.get("mark")?.value : undefined;
      if (mark?.kind !== "scalar") continue;
      if (seen.has(mark.text)) errors.push(source.error(mark.place, `the mark "${mark.text}" a second time`, "each mark once"));
      if (!/^[A-Za-z_][A-Za-z_0-9]*$/.test(mark.text) || Object.hasOwn(names, mark.text)) errors.push(source.error(mark.place, `the mark "${mark.text}"`, "a name that is not taken, of letters, digits and _"));
      seen.add(mark.text);
    }
  const placed = tape.entries.get("place")!.value;
  const mark = placed.kind === "map" ? placed.entries.get("mark")?.value : undefined;
  if (mark?.kind === "scalar" && !seen.has(mark.text))
    errors.push(source.error(mark.place, `the mark "${mark.text}"`, "a mark of the route", didYouMean(mark.text, seen) ?? `Marks here: ${[...seen].join(", ") || "none"}.`));
}

/** A mark's position keeps its identity while its route does. */
function memoMark(store: GivenStore, stem: string, width: number, tape: Pick<UnitData["tape"], "route" | "place">, mark: string, what: "x" | "route"): Quantity {
  const parts = [...tape.route.flatMap((p) => [p.line, p.arc?.radius, p.arc?.turn].filter((q) => q !== undefined)), tape.place.x, tape.place.z, tape.place.heading];
  return store.model(`${stem} ${width} ${mark} ${what} ${tape.route.map((p) => p.mark ?? (p.line ? "-" : "c")).join("")} ${tape.place.mark}`, parts, () => markPosition(tape, mark, what)!);
}

/** Every number of the variant at its nominal value: finite, within what makes sense, the route not endless. */
function checkNumbers(source: SourceFile, unit: Unit, limits: FieldReader["limits"], errors: ProjectError[]): void {
  // `actual W` stands for the catalogue's letter here; the tape on the reel comes later.
  const scene = { unit, tape: { letters: { wall: unit.letters.T, ...unit.letters } } } as unknown as Scene;
  for (const { given: one, field, place } of limits) {
    if (!readable(one, scene)) continue;
    const value = new Realiser(scene, [one]).run(asWritten).number(one);
    if (!Number.isFinite(value)) {
      errors.push(source.error(place, `a value that is not finite at W = ${unit.row} mm`, "a finite number", `Look at what it divides by: ${namesWithValues(one, scene)}.`));
      continue;
    }
    const factor = field.unit === "any" ? 1 : unitOf(field.unit).factor;
    const shown = `${+(value / factor).toPrecision(6)}${field.unit === "" || field.unit === "any" ? "" : ` ${field.unit}`} at W = ${unit.row} mm`;
    if (field.least !== undefined && value < field.least * factor * (1 - 1e-9))
      errors.push(source.error(place, shown, `at least ${field.least}${field.unit === "" ? "" : ` ${field.unit}`}: ${field.means}`));
    if (field.most !== undefined && value > field.most * factor * (1 + 1e-9))
      errors.push(source.error(place, shown, `at most ${field.most}${field.unit === "" ? "" : ` ${field.unit}`}: ${field.means}`));
    if (one.unknown === undefined && one.unit === "m" && Math.abs(value) > 2)
      errors.push(source.error(place, `${+value.toPrecision(4)} m at W = ${unit.row} mm`, "no more than 2 m: nothing of a unit is longer"));
  }
  if (errors.length === 0) {
    const pieces = unit.tape.route.flatMap((p) => (p.line ? [p.line] : p.arc ? [p.arc.radius, p.arc.turn] : []));
    const run = new Realiser(scene, pieces).run(asWritten);
    const total = unit.tape.route.reduce((sum, p) => sum + (p.line ? run.number(p.line) : p.arc ? run.number(p.arc.radius) * Math.abs(run.number(p.arc.turn)) : 0), 0);
    if (total > 2) {
      const at = unit.tape.route.find((p) => p.line || p.arc);
      const origin = (at?.line ?? at?.arc?.radius)?.origin;
      if (origin && "file" in origin) errors.push(source.error(origin, `a route of ${total.toFixed(1)} m at W = ${unit.row} mm`, "a route of at most 2 m"));
    }
  }
}
/** False where a number follows a letter of the tape on the reel that this variant is not built for. */
const readable = (q: Quantity, scene: Scene): boolean =>
  [...quantitiesIn(q.reads(scene) ?? {})].every((inner) => inner !== undefined && readable(inner as Quantity, scene));
function namesWithValues(given: Given, scene: Scene): string {
  const run = new Realiser(scene, [given]).run(asWritten);
  return Object.entries(given.reads(scene))
    .map(([name, q]) => {
      const v = run.number(q);
      return `${name} = ${q.unit === "m" ? `${+(v * 1e3).toPrecision(5)} mm` : +v.toPrecision(5)}`;
    })
    .join(", ");
}
/** The same number as it stands on the unit's drawing: without the reel's scatter. */
const drawn = new WeakMap<Quantity, Quantity>();
function asDrawn(q: Quantity): Quantity {
  if (q.kind !== "given" || (q.scatters.length === 0 && !q.unknown)) return q;
  const known = drawn.get(q);
  if (known) return known;
  const made: Given = { ...q, address: `${q.address} as drawn`, scatters: [] };
  drawn.set(q, made);
  return made;
}
