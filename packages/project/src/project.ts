import {
  type Assumption,
  assumed,
  assumptionNames,
  assumptions,
  asWritten,
  type BenchCosts,
  belief,
  type Given,
  type KnownCount,
  type Place,
  quantity,
  Realiser,
  type Requirement,
  type Scene,
  tabled,
} from "@tapeworthy/core";
import { benchCostsOf } from "./bench-costs.ts";
import { didYouMean, eachOnce, type ProjectError } from "./error.ts";
import { GivenStore } from "./given-store.ts";
import { emptyLedger, type Ledger, ledgerPath, readLedger } from "./ledger-read.ts";
import { checkLimits, type Limit, longestOfUnit } from "./limits.ts";
import { isTrialPath, readTrial, type Trial } from "./log/trial.ts";
import { type KnownData, knownFields, type ProjectData, projectFields } from "./project-fields.ts";
import { FieldReader, plainSetting, short } from "./read.ts";
import { type MapSource, parseSource, type Source, SourceFile } from "./source.ts";
import { readTapeFile, type TapeFile } from "./tape-file.ts";
import { checkTogether, fellowships, togetherLines } from "./together.ts";
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
/** What a record counts; where it gives no count, one reel that did as stated. */
export const countOf = ({ unit, tape, result, reelsRun, reelsRefused }: KnownRecord): KnownCount => ({
  unit,
  tape,
  result,
  run: reelsRun ?? 1,
  refused: reelsRefused ?? (result === "fails" ? (reelsRun ?? 1) : 0),
});

/** A folder's files, read. */
export interface Project {
  readonly name: string;
  readonly requirement: Requirement;
  /** What trials and mistakes cost in this shop, working days. */
  readonly benchCosts: BenchCosts;
  readonly units: ReadonlyMap<string, UnitFile>;
  readonly tapes: ReadonlyMap<string, TapeFile>;
  /** For every unit the tapes it should feed, both by file name. */
  readonly wanted: ReadonlyMap<string, readonly string[]>;
  readonly known: readonly KnownRecord[];
  readonly ladder: readonly string[] | undefined;
  /** Trials of the bench by name. */
  readonly trials: ReadonlyMap<string, Trial>;
  readonly ledger: Ledger;
  readonly files: ReadonlyMap<string, SourceFile>;
  /** Every number somebody gave in these files, by address. */
  readonly givens: ReadonlyMap<string, Given>;
}

/** Text files of a project folder by their path in it: "units/plover.yaml". */
export type Texts = ReadonlyMap<string, string>;
/** Folders of a project that hold texts of it. */
export const projectFolders = ["units", "tapes", "bench"] as const;
/** Paths of the design: what is asked, what is drawn, what is known to run. */
export const isDesignPath = (path: string): boolean =>
  /^(project|known)\.yaml$|^(units|tapes)\/[^/]+\.yaml$/.test(path);
/** Paths that belong to a project, its trials and its ledger with it; anything else in the folder is left alone. */
export const isProjectPath = (path: string): boolean => isDesignPath(path) || isTrialPath(path) || path === ledgerPath;

const stemOf = (path: string): string => path.replace(/^.*\//, "").replace(/\.yaml$/, "");

/** Names of the files that others may refer to. */
interface FileNames {
  readonly tapes: readonly string[];
  readonly units: readonly string[];
}

/**
 * Reads a project. All errors of all files come back together; there is a project only where there are none. With the store of an
 * earlier reading, a file whose text has not changed is not read again, and numbers that have not changed stay the same objects.
 */
export function readProject(texts: Texts, store = new GivenStore()): { project?: Project; errors: ProjectError[] } {
  const files = new Map(
    [...texts].filter(([path]) => isProjectPath(path)).map(([path, text]) => [path, new SourceFile(path, text)]),
  );
  const main = files.get("project.yaml");
  if (!main) return { errors: [noProject()] };
  const errors: ProjectError[] = [];
  const inFolder = (folder: string) =>
    [...files].filter(([path]) => path.startsWith(`${folder}/`)).sort(([a], [b]) => (a < b ? -1 : 1));
  const stems = (folder: string) => inFolder(folder).map(([path]) => stemOf(path));
  const names: FileNames = { tapes: stems("tapes"), units: stems("units") };

  const {
    data,
    requirement,
    givens,
    tree,
    errors: ofMain,
  } = store.kept("project.yaml", [main.text], () => readMain(main, store));
  errors.push(...ofMain);
  const lines = tree && data ? togetherLines(tree, data) : [];
  const together = store.kept(
    "goes together",
    [JSON.stringify(lines.map(({ of, by }) => [of.map(({ address, per }) => [address, per]), by]))],
    () => fellowships(lines, store),
  );
  store.together = together;
  const tapes = new Map<string, TapeFile>();
  for (const [path, source] of inFolder("tapes")) {
    const stem = stemOf(path);
    const { file, errors: mine } = store.kept(path, [source.text, together], () => readTapeFile(source, stem, store));
    errors.push(...mine);
    if (file) tapes.set(stem, file);
  }
  const units = new Map<string, UnitFile>();
  for (const [path, source] of inFolder("units")) {
    const stem = stemOf(path);
    const pocketsOf = (name: string) => tapes.get(name)?.pocket;
    // A unit is read again only for the tapes it may be built for.
    const pockets = names.tapes.filter((name) => source.text.includes(name)).map(pocketsOf);
    const parts = [source.text, together, names.tapes.join("/"), ...pockets];
    const { unit, errors: mine } = store.kept(path, parts, () =>
      readUnitFile(source, stem, pocketsOf, names.tapes, store),
    );
    errors.push(...mine);
    if (unit) units.set(stem, unit);
  }
  if (tree) checkReferences(main, tree, names, units, tapes, errors);
  const known = readKnown(files.get("known.yaml"), names, units, tapes, store, errors);
  const { trials, ledger } = readBench(inFolder("bench"), files.get(ledgerPath), names, store, errors);
  if (errors.length > 0 || !data) return { errors: eachOnce(errors) };
  for (const [kind, read] of [
    ["tapes", tapes],
    ["units", units],
  ] as const)
    for (const name of names[kind])
      if (!read.has(name))
        throw new Error(`${kind}/${name}.yaml was left out without a word; please report this with the file`);
  const wanted = new Map<string, readonly string[]>(Object.entries(data.wanted));
  checkOnTapes(wanted, units, tapes, errors);
  if (errors.length > 0) return { errors: eachOnce(errors) };

  const all = new Map(givens);
  for (const file of tapes.values()) for (const [address, g] of file.tape.givens) all.set(address, g);
  for (const file of units.values())
    for (const variant of file.variants.values()) for (const [address, g] of variant.givens) all.set(address, g);
  checkTogether(lines, all, (...fault) => errors.push(main.error(...fault)));
  if (errors.length > 0) return { errors: eachOnce(errors) };
  return {
    project: {
      name: data.project,
      requirement,
      benchCosts: benchCostsOf(data),
      units,
      tapes,
      wanted,
      known,
      ladder: data.ladder,
      trials,
      ledger,
      files,
      givens: all,
    },
    errors,
  };
}
/** Trials and ledger. A file whose text has not changed is not read again. */
function readBench(
  inBench: readonly (readonly [path: string, source: SourceFile])[],
  ledgerSource: SourceFile | undefined,
  names: FileNames,
  store: GivenStore,
  errors: ProjectError[],
): { trials: ReadonlyMap<string, Trial>; ledger: Ledger } {
  const there = JSON.stringify(names);
  const trials = new Map<string, Trial>();
  for (const [path, { text }] of inBench) {
    const { trial, errors: mine } = store.kept(path, [text, there], () => readTrial(path, text, names));
    errors.push(...mine);
    if (trial) trials.set(trial.name, trial);
  }
  const all = store.kept("bench/", [...trials.values()], () => trials);
  if (!ledgerSource) return { trials: all, ledger: emptyLedger };
  // A trial that can't be read is no trial that is not there.
  const held = trials.size === inBench.length ? all : undefined;
  const { ledger = emptyLedger, errors: mine } = store.kept(ledgerPath, [ledgerSource.text, held], () =>
    readLedger(ledgerSource.text, held),
  );
  errors.push(...mine);
  return { trials: all, ledger };
}
function noProject(): ProjectError {
  const place = { file: "project.yaml", line: 1, column: 1, length: 1 };
  return new SourceFile("project.yaml", "").error(
    place,
    "no project.yaml in this folder",
    "the file that says which tapes are wanted",
    'Begin with "tapeworthy start NAME --from EXAMPLE".',
  );
}

interface Main {
  readonly data?: ProjectData;
  readonly requirement: Requirement;
  readonly givens: ReadonlyMap<string, Given>;
  readonly tree?: MapSource;
  readonly errors: readonly ProjectError[];
}
const symbols: Readonly<Record<string, string>> = {
  "film speed": "v",
  "safety.film break": "s",
  "requirement.index time": "t_i",
  "requirement.index rate": "f_i",
  "requirement.life": "n_l",
  "requirement.ambient": "T_a",
  "requirement.pick tool": "r_t",
  "requirement.pick share": "q",
  "requirement.pick force": "F_p",
  "requirement.pick travel": "x_s",
  "supply.volts": "V",
  "supply.units": "n_u",
  "supply.together": "n_s",
  "supply.cable.length": "l_c",
  "supply.cable.area": "A_c",
  "supply.bar.length": "l_b",
  "supply.bar.area": "A_b",
};
function readMain(source: SourceFile, store: GivenStore): Main {
  const defaults = plainRequirement();
  const { tree, errors } = parseSource(source);
  if (!tree) return { requirement: defaults, givens: new Map(), errors };
  const reader = new FieldReader(
    plainSetting({ source, prefix: "project/", level: "unit", store, errors, symbol: (path) => symbols[path] }),
  );
  // `assume:` is read against each assumption's own unit.
  const rest: Source =
    tree.kind === "map" ? { ...tree, entries: new Map([...tree.entries].filter(([key]) => key !== "assume")) } : tree;
  const data = reader.read(projectFields, rest, "") as ProjectData | undefined;
  const { assume, reader: ofAssume } = readAssume(
    source,
    tree.kind === "map" ? tree.entries.get("assume")?.value : undefined,
    store,
    errors,
  );
  const limits = [...reader.limits, ...ofAssume.limits];
  checkLimits(limits, {} as Scene, "", (...fault) => errors.push(source.error(...fault)));
  const givens = new Map([...reader.givens, ...ofAssume.givens]);
  if (tree.kind !== "map") return { requirement: defaults, givens, errors };
  if (!data || errors.length > 0) return { requirement: defaults, givens, tree, errors };
  const allowed = data.requirement?.["allow pairs"];
  const misfeeds = data.requirement?.["misfeed allowance"];
  const requirement: Requirement = {
    ...defaults,
    assume: { ...defaults.assume, ...assume },
    allowPairs: allowed ? nominal(allowed) : defaults.allowPairs,
    ...(misfeeds ? { misfeeds: nominal(misfeeds) } : {}),
    filmSpeed: data["film speed"] ?? defaults.filmSpeed,
    breakSafety: data.safety?.["film break"] ?? defaults.breakSafety,
    ...asked(data),
    ...(isNotTaught(tree) ? { calibration: "none" as const } : {}),
  };
  return { data, requirement, givens, tree, errors };
}
/** `calibration: none` is a choice of its own, where "none" otherwise leaves a member out. */
function isNotTaught({ entries }: MapSource): boolean {
  const requirement = entries.get("requirement")?.value;
  const word = requirement?.kind === "map" ? requirement.entries.get("calibration")?.value : undefined;
  return word?.kind === "scalar" && word.text === "none";
}
/** What a project may ask for and need not. */
function asked({ requirement: r, supply }: ProjectData): Partial<Requirement> {
  const named = {
    indexTime: r?.["index time"],
    indexRate: r?.["index rate"],
    life: r?.life,
    ambient: r?.ambient,
    pickForce: r?.["pick force"],
    pickTravel: r?.["pick travel"],
    pickTool: r?.["pick tool"],
    pickShare: r?.["pick share"],
    calibration: r?.calibration,
    pickFamilies: r?.["pick families"]?.map(({ family, radius, turn }) => ({
      name: family,
      radius,
      ...(turn ? { turn } : {}),
    })),
    supply,
  };
  return Object.fromEntries(Object.entries(named).filter(([, q]) => q !== undefined));
}
const nominal = (g: Given): number => new Realiser({} as Scene, [g]).run(asWritten).number(g);

/** A project's own values for what is otherwise assumed. */
function readAssume(
  source: SourceFile,
  own: Source | undefined,
  store: GivenStore,
  errors: ProjectError[],
): { assume: Partial<Record<Assumption, Given>>; reader: FieldReader } {
  const assume: Partial<Record<Assumption, Given>> = {};
  const symbol = (path: string): string | undefined => (isAssumption(path) ? assumptions[path].symbol : undefined);
  const reader = new FieldReader(plainSetting({ source, prefix: "assume/", level: "unit", store, errors, symbol }));
  if (own?.kind === "scalar" || own?.kind === "list")
    errors.push(source.error(own.place, "no names", `names with values: ${firstOf(assumptionNames)}`));
  if (own?.kind !== "map") return { assume, reader };
  for (const { key, keyPlace, value } of own.entries.values()) {
    if (!isAssumption(key)) {
      errors.push(
        source.error(
          keyPlace,
          `"${short(key)}"`,
          "something that is assumed",
          didYouMean(key, assumptionNames) ??
            `Assumed are: ${firstOf(assumptionNames)}. "tapeworthy schema project" lists all.`,
        ),
      );
      continue;
    }
    const { unit, means } = assumptions[key];
    const g = reader.read(quantity(unit, means), value, key) as Given | undefined;
    if (g) assume[key] = g;
  }
  return { assume, reader };
}
const isAssumption = (name: string): name is Assumption => Object.hasOwn(assumptions, name);

let plain: Requirement | undefined;
/** What holds where project.yaml says nothing: 2 % of pairs, 80 mm/s (4 mm in 50 ms), a film break 1.5 times the pull. */
export function plainRequirement(): Requirement {
  plain ??= {
    allowPairs: 0.02,
    filmSpeed: tabled(
      "project/film speed",
      "v",
      "80 mm/s",
      [1, 0, -1, 0, 0],
      { cite: "4 mm in 50 ms, mean", how: "derived" },
      "unit",
    ),
    breakSafety: tabled(
      "project/safety.film break",
      "s",
      "1.5",
      [0, 0, 0, 0, 0],
      { cite: "common practice, no source", how: "judgement" },
      "unit",
    ),
    front: belief("assume/peel front", "s_f", ["free", "clamped"], 0.5, {
      cite: "nobody knows: both bounds of the model are believed alike",
      how: "judgement",
    }),
    assume: assumed(),
  };
  return plain;
}

/** Refers to a file by its name: undefined, and an error, where there is none. */
function referTo(
  kind: "unit" | "tape",
  at: { readonly text: string; readonly place: Place },
  names: FileNames,
  source: SourceFile,
  errors: ProjectError[],
): string | undefined {
  const known = names[`${kind}s`];
  if (known.includes(at.text)) return at.text;
  const stem = at.text.replace(/\.yaml$/, "");
  const way = known.includes(stem) ? `Write "${stem}".` : didYouMean(stem, known);
  const all =
    known.length > 0
      ? `${kind === "unit" ? "Units" : "Tapes"} here: ${known.join(", ")}.`
      : `There is no ${kind} file yet.`;
  errors.push(
    source.error(
      at.place,
      `the ${kind} "${short(at.text)}"`,
      `the name of a file in ${kind}s/, without .yaml`,
      way ?? all,
    ),
  );
  return undefined;
}

function checkReferences(
  source: SourceFile,
  tree: MapSource,
  names: FileNames,
  units: ReadonlyMap<string, UnitFile>,
  tapes: ReadonlyMap<string, TapeFile>,
  errors: ProjectError[],
): void {
  const wanted = tree.entries.get("wanted")?.value;
  for (const { key, keyPlace, value } of wanted?.kind === "map" ? wanted.entries.values() : []) {
    referTo("unit", { text: key, place: keyPlace }, names, source, errors);
    if (value.kind !== "list") continue;
    const unit = units.get(key);
    const seen = new Set<string>();
    for (const item of value.items) {
      const name = item.kind === "scalar" ? referTo("tape", item, names, source, errors) : undefined;
      if (name === undefined) continue;
      if (seen.has(name)) errors.push(source.error(item.place, `the tape "${name}" a second time`, "each tape once"));
      seen.add(name);
      checkServed(source, item.place, unit, tapes.get(name), errors);
    }
  }
  const ladder = tree.entries.get("ladder")?.value;
  const rungs = new Map<string, string>();
  for (const item of ladder?.kind === "list" ? ladder.items : []) {
    const name = item.kind === "scalar" ? referTo("tape", item, names, source, errors) : undefined;
    const tape = name === undefined ? undefined : tapes.get(name)?.tape;
    if (name === undefined || !tape) continue;
    const width = `${tape.row} mm`;
    const before = rungs.get(width);
    if (before !== undefined)
      errors.push(
        source.error(
          item.place,
          `a second tape of ${width}, "${name}"`,
          "one tape a width",
          `"${before}" stands for ${width} already.`,
        ),
      );
    else rungs.set(width, name);
  }
}

/** A unit has a variant for the tape's width, and takes its kind. */
function checkServed(
  source: SourceFile,
  place: Place,
  unit: UnitFile | undefined,
  file: TapeFile | undefined,
  errors: ProjectError[],
): void {
  if (!unit || !file) return;
  const { row, kind } = file.tape;
  if (!unit.variants.has(row))
    errors.push(
      source.error(
        place,
        `the tape "${file.stem}", ${row} mm wide`,
        `a width that ${unit.name} is made in: ${unit.widths.join(", ")}`,
        `Add ${row} to its "serves: W", with its pocket under "built for".`,
      ),
    );
  if (!unit.kinds.includes(kind))
    errors.push(
      source.error(
        place,
        `the tape "${file.stem}", ${kind}`,
        `a kind that ${unit.name} serves: ${unit.kinds.join(", ")}`,
        `Add ${kind} to its "serves: kind".`,
      ),
    );
}

/** What follows the tape on the reel has a value only with a tape: it must have one with every wanted tape. */
function checkOnTapes(
  wanted: ReadonlyMap<string, readonly string[]>,
  units: ReadonlyMap<string, UnitFile>,
  tapes: ReadonlyMap<string, TapeFile>,
  errors: ProjectError[],
): void {
  for (const [name, list] of wanted) {
    const { variants, following, source } = units.get(name)!;
    for (const tapeName of list) {
      const { tape } = tapes.get(tapeName)!;
      const limits: readonly Limit[] = following.get(tape.row)!;
      if (limits.length === 0) continue;
      const scene = { unit: variants.get(tape.row)!, tape } as Scene;
      checkLimits(
        limits,
        scene,
        ` on the tape "${tapeName}"`,
        (...fault) => errors.push(source.error(...fault)),
        longestOfUnit,
      );
    }
  }
}

function readKnown(
  source: SourceFile | undefined,
  names: FileNames,
  units: ReadonlyMap<string, UnitFile>,
  tapes: ReadonlyMap<string, TapeFile>,
  store: GivenStore,
  errors: ProjectError[],
): KnownRecord[] {
  if (!source) return [];
  const { tree, errors: mine } = parseSource(source);
  if (!tree) {
    errors.push(...mine);
    return [];
  }
  const reader = new FieldReader(plainSetting({ source, prefix: "known/", level: "reel", store, errors: mine }));
  const data = reader.read(knownFields, tree, "") as KnownData | undefined;
  checkLimits(reader.limits, {} as Scene, "", (...fault) => mine.push(source.error(...fault)));
  const list = tree.kind === "map" ? tree.entries.get("known")?.value : undefined;
  for (const item of list?.kind === "list" ? list.items : []) {
    const refer = (kind: "unit" | "tape") => {
      const at = item.kind === "map" ? item.entries.get(kind)?.value : undefined;
      const name = at?.kind === "scalar" ? referTo(kind, at, names, source, mine) : undefined;
      return at && name !== undefined ? { name, place: at.place } : undefined;
    };
    const [unit, tape] = [refer("unit"), refer("tape")];
    if (unit && tape) checkServed(source, tape.place, units.get(unit.name), tapes.get(tape.name), mine);
  }
  const out = data && mine.length === 0 ? data.known.map((record) => recordOf(record, source, mine)) : [];
  errors.push(...mine);
  return mine.length === 0 ? out : [];
}

function recordOf(record: KnownData["known"][number], source: SourceFile, errors: ProjectError[]): KnownRecord {
  const count = (key: "reels run" | "reels refused"): number | undefined => {
    const g = record[key];
    if (!g) return undefined;
    const n = nominal(g);
    if (!Number.isInteger(n)) errors.push(source.error(g.origin as Place, `${n} reels`, "a whole number of reels"));
    return n;
  };
  const reelsRun = count("reels run");
  const reelsRefused = count("reels refused");
  if (reelsRun !== undefined && reelsRefused !== undefined && reelsRefused > reelsRun)
    errors.push(
      source.error(
        record["reels refused"]!.origin as Place,
        `${reelsRefused} reels refused of ${reelsRun}`,
        "no more refused than run",
      ),
    );
  return { unit: record.unit, tape: record.tape, result: record.result, reelsRun, reelsRefused, note: record.note };
}

/** A long list by its beginning. */
const firstOf = (names: readonly string[], most = 8): string =>
  names.length <= most ? names.join(", ") : `${names.slice(0, most).join(", ")} and ${names.length - most} more`;
