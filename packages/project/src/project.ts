import {
  type Assumption,
  assumed,
  assumptionNames,
  assumptions,
  asWritten,
  belief,
  type Given,
  quantity,
  Realiser,
  type Requirement,
  type Scene,
  tabled,
  unitOf,
} from "@tapeworthy/core";
import { didYouMean, type ProjectError } from "./error.ts";
import { GivenStore } from "./given-store.ts";
import { type KnownData, knownFields, type ProjectData, projectFields } from "./project-fields.ts";
import { FieldReader } from "./read.ts";
import { type MapSource, parseSource, type Source, SourceFile } from "./source.ts";
import { readTapeFile, type TapeFile } from "./tape-file.ts";
import { readUnitFile, type UnitFile } from "./unit-file.ts";

export type KnownResult = "runs" | "fails" | "not good enough";
/** What a unit is known to do on a tape. Counts are of reels; undefined where only the result is known. */
export interface KnownRecord {
  readonly unit: string;
  readonly tape: string;
  readonly result: KnownResult;
  readonly reelsRun: number | undefined;
  readonly reelsRefused: number | undefined;
  readonly note: string | undefined;
}

/** A folder's files, read. */
export interface Project {
  readonly name: string;
  readonly requirement: Requirement;
  readonly units: ReadonlyMap<string, UnitFile>;
  readonly tapes: ReadonlyMap<string, TapeFile>;
  /** For every unit the tapes it should feed, both by file name. */
  readonly wanted: ReadonlyMap<string, readonly string[]>;
  readonly known: readonly KnownRecord[];
  readonly ladder: readonly string[] | undefined;
  readonly files: ReadonlyMap<string, SourceFile>;
  /** Every number somebody gave in these files, by address. */
  readonly givens: ReadonlyMap<string, Given>;
}

/** Text files of a project folder by their path in it: "units/plover.yaml". */
export type Texts = ReadonlyMap<string, string>;
/** Paths that belong to a project; anything else in the folder is left alone. */
export const isProjectPath = (path: string): boolean => /^(project|known)\.yaml$|^(units|tapes)\/[^/]+\.yaml$/.test(path);

const stemOf = (path: string): string => path.replace(/^.*\//, "").replace(/\.yaml$/, "");

/** Reads a project. All errors of all files come back together; there is a project only where there are none. */
export function readProject(texts: Texts, store = new GivenStore()): { project?: Project; errors: ProjectError[] } {
  const files = new Map([...texts].filter(([path]) => isProjectPath(path)).map(([path, text]) => [path, new SourceFile(path, text)]));
  const errors: ProjectError[] = [];
  const main = files.get("project.yaml");
  if (!main) {
    const place = { file: "project.yaml", line: 1, column: 1, length: 1 };
    errors.push(new SourceFile("project.yaml", "").error(place, "no project.yaml in this folder", "the file that says which tapes are wanted", 'Begin with "tapeworthy start NAME --from EXAMPLE".'));
    return { errors };
  }
  const inFolder = (folder: string) => [...files].filter(([path]) => path.startsWith(`${folder}/`)).sort(([a], [b]) => (a < b ? -1 : 1));

  const tapes = new Map<string, TapeFile>();
  for (const [path, source] of inFolder("tapes")) {
    const { file, errors: mine } = readTapeFile(source, stemOf(path), store);
    errors.push(...mine);
    if (file) tapes.set(stemOf(path), file);
  }
  const allTapes = inFolder("tapes").map(([path]) => stemOf(path));
  const units = new Map<string, UnitFile>();
  for (const [path, source] of inFolder("units")) {
    const { unit, errors: mine } = readUnitFile(source, stemOf(path), (name) => tapes.get(name)?.pocket, allTapes, store);
    errors.push(...mine);
    if (unit) units.set(stemOf(path), unit);
  }
  const allUnits = inFolder("units").map(([path]) => stemOf(path));
  const names = { tapes: allTapes, units: allUnits };

  const { data, requirement, givens, tree } = readMain(main, store, errors);
  const wanted = new Map<string, readonly string[]>();
  if (data && tree) {
    checkReferences(main, tree, names, units, tapes, errors);
    for (const [unit, list] of Object.entries(data.wanted)) wanted.set(unit, list);
  }
  const known = readKnown(files.get("known.yaml"), names, store, errors);
  if (errors.length > 0 || !data) return { errors: sorted(errors) };
  const all = new Map(givens);
  for (const file of tapes.values()) for (const [address, g] of file.tape.givens) all.set(address, g);
  for (const file of units.values()) for (const variant of file.variants.values()) for (const [address, g] of variant.givens) all.set(address, g);
  return {
    project: { name: data.project, requirement, units, tapes, wanted, known, ladder: data.ladder, files, givens: all },
    errors: [],
  };
}
const sorted = (errors: ProjectError[]): ProjectError[] =>
  [...errors].sort((a, b) => (a.place.file < b.place.file ? -1 : a.place.file > b.place.file ? 1 : a.place.line - b.place.line || a.place.column - b.place.column));

interface Main {
  readonly data?: ProjectData;
  readonly requirement: Requirement;
  readonly givens: ReadonlyMap<string, Given>;
  readonly tree?: MapSource;
}
function readMain(source: SourceFile, store: GivenStore, errors: ProjectError[]): Main {
  const defaults = plainRequirement();
  const parsed = parseSource(source);
  errors.push(...parsed.errors);
  const { tree } = parsed;
  if (!tree) return { requirement: defaults, givens: new Map() };
  const mine: ProjectError[] = [];
  const reader = new FieldReader({ source, prefix: "project/", level: "unit", names: () => ({}), actual: false, instead: new Map(), store, errors: mine });
  // `assume:` is read against each assumption's own unit below.
  const rest: Source = tree.kind === "map" ? { ...tree, entries: new Map([...tree.entries].filter(([key]) => key !== "assume")) } : tree;
  const data = reader.read(projectFields, rest, "") as ProjectData | undefined;
  const assume: Record<Assumption, Given> = { ...defaults.assume };
  const own = tree.kind === "map" ? tree.entries.get("assume")?.value : undefined;
  const assumptionReader = new FieldReader({ ...reader.setting, prefix: "assume/" });
  if (own && own.kind !== "map") mine.push(source.error(own.place, "no names", `names with values: ${assumptionNames.join(", ")}`));
  if (own?.kind === "map")
    for (const { key, keyPlace, value } of own.entries.values()) {
      if (!Object.hasOwn(assumptions, key)) {
        mine.push(source.error(keyPlace, `"${key}"`, "something that is assumed", didYouMean(key, assumptionNames) ?? `Assumed are: ${assumptionNames.join(", ")}.`));
        continue;
      }
      const name = key as Assumption;
      const { unit, means, symbol } = assumptions[name];
      const g = assumptionReader.read(quantity(unit, means), value, name) as Given | undefined;
      if (g) assume[name] = { ...g, symbol };
    }
  const limits = [...reader.limits, ...assumptionReader.limits];
  if (mine.length === 0) {
    const run = new Realiser({} as Scene, limits.map((l) => l.given)).run(asWritten);
    for (const { given, field, place } of limits) {
      const v = run.number(given);
      if (!Number.isFinite(v)) mine.push(source.error(place, "a value that is not finite", "a finite number"));
      else if ((field.least !== undefined && v < field.least * unitFactor(field.unit) * (1 - 1e-9)) || (field.most !== undefined && v > field.most * unitFactor(field.unit) * (1 + 1e-9)))
        mine.push(source.error(place, given.text, `${field.means}, ${field.least ?? "any"} to ${field.most ?? "any"}${field.unit === "" ? "" : ` ${field.unit}`}`));
    }
  }
  errors.push(...mine);
  const givens = new Map([...reader.givens, ...assumptionReader.givens]);
  if (!data || mine.length > 0 || tree.kind !== "map") return { requirement: defaults, givens };
  const allowed = data.requirement?.["allow pairs"];
  const requirement: Requirement = {
    ...defaults,
    assume,
    allowPairs: allowed ? new Realiser({} as Scene, [allowed]).run(asWritten).number(allowed) : defaults.allowPairs,
    filmSpeed: data["film speed"] ? { ...data["film speed"], symbol: "v" } : defaults.filmSpeed,
    breakSafety: data.safety?.["film break"] ? { ...data.safety["film break"], symbol: "s" } : defaults.breakSafety,
  };
  return { data, requirement, givens, tree };
}
const unitFactor = (unit: string): number => (unit === "any" || unit === "" ? 1 : unitOf(unit).factor);

/** What holds where project.yaml says nothing: 2 % of pairs, 80 mm/s (4 mm in 50 ms), a film break 1.5 times the pull. */
export function plainRequirement(): Requirement {
  return {
    allowPairs: 0.02,
    filmSpeed: tabled("project/film speed", "v", "80 mm/s", [1, 0, -1, 0, 0], { cite: "4 mm in 50 ms, mean", how: "derived" }, "unit"),
    breakSafety: tabled("project/safety.film break", "s", "1.5", [0, 0, 0, 0, 0], { cite: "common practice, no source", how: "read" }, "unit"),
    front: belief("assume/peel front", "s_f", ["free", "clamped"], 0.5, { cite: "nobody knows: both bounds of the model are believed alike", how: "judgement" }),
    assume: assumed(),
  };
}

function checkReferences(source: SourceFile, tree: MapSource, names: { tapes: readonly string[]; units: readonly string[] }, units: ReadonlyMap<string, UnitFile>, tapes: ReadonlyMap<string, TapeFile>, errors: ProjectError[]): void {
  const tape = (item: Source): string | undefined => {
    if (item.kind !== "scalar") return undefined;
    if (names.tapes.includes(item.text)) return item.text;
    errors.push(source.error(item.place, `the tape "${item.text}"`, "the name of a file in tapes/, without .yaml", didYouMean(item.text, names.tapes) ?? (names.tapes.length > 0 ? `Tapes here: ${names.tapes.join(", ")}.` : "There is no tape file yet.")));
    return undefined;
  };
  const wanted = tree.entries.get("wanted")?.value;
  if (wanted?.kind === "map")
    for (const { key, keyPlace, value } of wanted.entries.values()) {
      if (!names.units.includes(key)) errors.push(source.error(keyPlace, `the unit "${key}"`, "the name of a file in units/, without .yaml", didYouMean(key, names.units) ?? (names.units.length > 0 ? `Units here: ${names.units.join(", ")}.` : "There is no unit file yet.")));
      if (value.kind !== "list") continue;
      const seen = new Set<string>();
      for (const item of value.items) {
        const name = tape(item);
        if (name === undefined) continue;
        if (seen.has(name)) errors.push(source.error(item.place, `the tape "${name}" a second time`, "each tape once"));
        seen.add(name);
        const unit = units.get(key);
        const served = tapes.get(name)?.tape;
        if (unit && served && !unit.variants.has(served.row))
          errors.push(source.error(item.place, `the tape "${name}", ${served.row} mm wide`, `a width that ${unit.name} is made in: ${unit.widths.join(", ")}`, `Add ${served.row} to its "serves: W", with its pocket under "built for".`));
        if (unit && served && !unit.kinds.includes(served.kind))
          errors.push(source.error(item.place, `the tape "${name}", ${served.kind}`, `a kind that ${unit.name} serves: ${unit.kinds.join(", ")}`));
      }
    }
  const ladder = tree.entries.get("ladder")?.value;
  if (ladder?.kind === "list") ladder.items.forEach(tape);
}

function readKnown(source: SourceFile | undefined, names: { tapes: readonly string[]; units: readonly string[] }, store: GivenStore, errors: ProjectError[]): KnownRecord[] {
  if (!source) return [];
  const parsed = parseSource(source);
  errors.push(...parsed.errors);
  if (!parsed.tree) return [];
  const mine: ProjectError[] = [];
  const reader = new FieldReader({ source, prefix: "known/", level: "reel", names: () => ({}), actual: false, instead: new Map(), store, errors: mine });
  const data = reader.read(knownFields, parsed.tree, "") as KnownData | undefined;
  const list = parsed.tree.kind === "map" ? parsed.tree.entries.get("known")?.value : undefined;
  const out: KnownRecord[] = [];
  if (data && mine.length === 0) {
    const count = (g: Given | undefined): number | undefined => (g ? new Realiser({} as Scene, [g]).run(asWritten).number(g) : undefined);
    data.known.forEach((record, i) => {
      const item = list?.kind === "list" ? list.items[i] : undefined;
      const at = (key: string): Source => (item?.kind === "map" ? (item.entries.get(key)?.value ?? item) : parsed.tree!);
      const refer = (key: "unit" | "tape", known: readonly string[]) => {
        if (!known.includes(record[key])) mine.push(source.error(at(key).place, `the ${key} "${record[key]}"`, `the name of a file in ${key}s/, without .yaml`, didYouMean(record[key], known)));
      };
      refer("unit", names.units);
      refer("tape", names.tapes);
      const run = count(record["reels run"]);
      const refused = count(record["reels refused"]);
      for (const [key, value] of [["reels run", run], ["reels refused", refused]] as const)
        if (value !== undefined && (!Number.isFinite(value) || value < 0 || value > 1e6 || !Number.isInteger(value))) mine.push(source.error(at(key).place, `${value} reels`, "a whole number of reels, 0 to 1000000"));
      if (run !== undefined && refused !== undefined && refused > run) mine.push(source.error(at("reels refused").place, `${refused} reels refused of ${run}`, "no more refused than run"));
      out.push({ unit: record.unit, tape: record.tape, result: record.result, reelsRun: run, reelsRefused: refused, note: record.note });
    });
  }
  errors.push(...mine);
  return mine.length === 0 ? out : [];
}
