import { asWritten, type Given, Realiser, type Scene } from "@tapeworthy/core";
import { didYouMean, eachOnce, type ProjectError } from "../error.ts";
import { GivenStore } from "../given-store.ts";
import { checkLimits } from "../limits.ts";
import { FieldReader, plainSetting } from "../read.ts";
import { parseSource, type Source, SourceFile } from "../source.ts";
import type { ColumnMapping, Mapping, Role } from "./mapping.ts";
import { type TrialData, trialFields } from "./trial-fields.ts";

/** One typed reading. Its number in SI, and as it is written; `given` holds a tolerance where it has one. */
export interface Reading {
  readonly reel: string | undefined;
  readonly unit: string | undefined;
  readonly value: number;
  readonly given: Given;
  readonly by: string | undefined;
  readonly note: string | undefined;
  /** The measuring card it was read by, with the numbers as they were typed, reading after reading, and what differs from the set-up it draws. */
  readonly card?: string;
  readonly entries?: readonly number[];
  readonly settings?: Readonly<Record<string, number>>;
  /** Number of the log it came in; undefined where it was typed. */
  readonly run: number | undefined;
  /** Its own reason, or that of its log. */
  readonly setAside: string | undefined;
}
/** Indexes and misfeeds counted on one unit and reel. */
export interface Count {
  readonly unit: string | undefined;
  readonly reel: string | undefined;
  readonly indexes: number;
  readonly misfeeds: number;
  readonly mode: string | undefined;
  readonly run: number | undefined;
  readonly setAside: string | undefined;
}
export interface NamedMapping extends Mapping {
  readonly name: string;
}
/** What was worked out of a log when it was read, in SI. */
export interface RunStatistics {
  readonly of: Role;
  readonly rows: number;
  readonly mean: number;
  readonly sd: number;
  readonly greatest: number;
  readonly least: number;
  readonly ripple?: number;
  readonly rippleAtP1?: number;
  readonly rippleAtP0?: number;
  readonly trend?: number;
  readonly outliers: number;
  readonly lagOne?: number;
  readonly independent?: number;
  readonly indexes?: number;
  readonly gaps: number;
  readonly timesBack?: number;
}
/** One log of a trial. */
export interface Run {
  /** Its number in the file, from 1. */
  readonly number: number;
  readonly log: string;
  readonly raw: string;
  readonly sha: string;
  readonly read: string | undefined;
  readonly mapping: NamedMapping;
  readonly reel: string | undefined;
  readonly unit: string | undefined;
  /** Along the travel in m, else in time in s. */
  readonly plateau: readonly [from: number, to: number] | undefined;
  readonly setAside: string | undefined;
  readonly statistics: RunStatistics | undefined;
}
/** A trial: bench/NAME.yaml, read. Numbers in SI; what is set aside is in it, with the reason. */
export interface Trial {
  readonly name: string;
  readonly path: string;
  readonly unit: string;
  readonly tape: string;
  /** Address of the unknown, or id of the check. */
  readonly question: string;
  readonly built: string | undefined;
  readonly date: string | undefined;
  readonly conditions: {
    readonly temperature?: number;
    readonly humidity?: number;
    readonly speed?: number;
    readonly angle?: number;
    readonly note?: string;
  };
  readonly readings: readonly Reading[];
  readonly counts: readonly Count[];
  readonly mappings: readonly NamedMapping[];
  readonly runs: readonly Run[];
}

export const isTrialPath = (path: string): boolean => /^bench\/[^/]+\.yaml$/.test(path);
export const trialPath = (name: string): string => `bench/${name}.yaml`;

/** Names that a trial may refer to; what is left out is not checked. */
export interface TrialNames {
  readonly units?: readonly string[];
  readonly tapes?: readonly string[];
}

/** Reads one trial. All errors of the file come back together. */
export function readTrial(
  path: string,
  fileText: string,
  names: TrialNames = {},
): { trial?: Trial; errors: readonly ProjectError[] } {
  const source = new SourceFile(path, fileText);
  const { tree, errors } = parseSource(source);
  if (!tree) return { errors };
  const stem = path.replace(/^.*\//, "").replace(/\.yaml$/, "");
  const prefix = `bench/${stem}/`;
  const reader = new FieldReader(plainSetting({ source, prefix, level: "unit", store: new GivenStore(), errors }));
  const data = reader.read(trialFields, tree, "") as TrialData | undefined;
  checkLimits(reader.limits, {} as Scene, "", (...fault) => errors.push(source.error(...fault)));
  if (!data || errors.length > 0 || tree.kind !== "map") return { errors: eachOnce(errors) };
  const at = (...path: readonly (string | number)[]): Source => placeIn(tree, path);
  if (data.trial !== stem)
    errors.push(
      source.error(at("trial").place, `"${data.trial}"`, `the file's name, "${stem}"`, "Rename the one or the other."),
    );
  for (const [kind, known] of [
    ["unit", names.units],
    ["tape", names.tapes],
  ] as const)
    if (known && !known.includes(data[kind]))
      errors.push(
        source.error(
          at(kind).place,
          `the ${kind} "${data[kind]}"`,
          `the name of a file in ${kind}s/, without .yaml`,
          didYouMean(data[kind], known) ?? `There are: ${known.join(", ")}.`,
        ),
      );
  for (const [i, { indexes, misfeeds }] of (data.counts ?? []).entries())
    if (nominal(misfeeds) > nominal(indexes))
      errors.push(
        source.error(
          at("counts", i, "misfeeds").place,
          `${nominal(misfeeds)} misfeeds in ${nominal(indexes)} indexes`,
          "no more misfeeds than indexes",
        ),
      );
  for (const [i, count] of (data.counts ?? []).entries())
    for (const key of ["indexes", "misfeeds"] as const)
      if (!Number.isInteger(nominal(count[key])))
        errors.push(source.error(at("counts", i, key).place, `${nominal(count[key])} ${key}`, "a whole number"));
  const mappings = (data.mapping ?? []).map(
    (m): NamedMapping => ({
      name: m.name,
      header: m.header,
      columns: m.columns.map(
        (c): ColumnMapping => ({
          column: c.column,
          role: c.is,
          unit: c.unit ?? "",
          reversed: c.reversed === "true",
          zero: c.zero ? nominal(c.zero) : 0,
          because: "",
        }),
      ),
    }),
  );
  const runs: Run[] = [];
  for (const [i, r] of (data.runs ?? []).entries()) {
    const mapping = mappings.find((m) => m.name === r.mapping);
    const known = mappings.map((m) => m.name);
    if (!mapping) {
      errors.push(
        source.error(
          at("runs", i, "mapping").place,
          `the mapping "${r.mapping}"`,
          'a name under "mapping"',
          didYouMean(r.mapping, known) ?? (known.length > 0 ? `There are: ${known.join(", ")}.` : "There is none yet."),
        ),
      );
      continue;
    }
    if (!/^[0-9a-f]{64}$/.test(r.sha))
      errors.push(source.error(at("runs", i, "sha").place, `"${r.sha.slice(0, 12)}"`, "64 hexadecimal digits"));
    const plateau = r.plateau ? ([nominal(r.plateau[0]), nominal(r.plateau[1])] as const) : undefined;
    if (plateau && !(plateau[0] < plateau[1]))
      errors.push(source.error(at("runs", i, "plateau").place, "a plateau that ends before it begins", "[from, to]"));
    runs.push({
      number: i + 1,
      log: r.log,
      raw: r.raw,
      sha: r.sha,
      read: r.read,
      mapping,
      reel: r.reel,
      unit: r.unit,
      plateau,
      setAside: r["set aside"],
      statistics: r.statistics && statisticsOf(r.statistics),
    });
  }
  for (const key of ["readings", "counts"] as const)
    for (const [i, { run }] of (data[key] ?? []).entries())
      if (run && !runs.some((r) => r.number === nominal(run)))
        errors.push(
          source.error(at(key, i, "run").place, `run ${nominal(run)}`, `the number of one of ${runs.length} runs`),
        );
  if (errors.length > 0) return { errors: eachOnce(errors) };
  const cameIn = (of: { readonly run?: Given; readonly "set aside"?: string }) => {
    const run = of.run && nominal(of.run);
    return { run, setAside: of["set aside"] ?? runs.find((r) => r.number === run)?.setAside };
  };
  const { temperature, humidity, speed, angle, note } = data.conditions ?? {};
  return {
    errors: [],
    trial: {
      name: data.trial,
      path,
      unit: data.unit,
      tape: data.tape,
      question: data.question,
      built: data.built,
      date: data.date,
      conditions: {
        ...numbersOf({ temperature, humidity, speed, angle }),
        ...(note === undefined ? {} : { note }),
      },
      readings: (data.readings ?? []).map((r) => ({
        reel: r.reel,
        unit: r.unit,
        value: nominal(r.value),
        given: r.value,
        by: r.by,
        note: r.note,
        ...(r.card === undefined ? {} : { card: r.card }),
        ...(r.entries ? { entries: r.entries.map(nominal) } : {}),
        ...(r.settings ? { settings: numbersOf(r.settings) } : {}),
        ...cameIn(r),
      })),
      counts: (data.counts ?? []).map((c) => ({
        unit: c.unit,
        reel: c.reel,
        indexes: nominal(c.indexes),
        misfeeds: nominal(c.misfeeds),
        mode: c.mode,
        ...cameIn(c),
      })),
      mappings,
      runs,
    },
  };
}
const nominal = (g: Given): number => new Realiser({} as Scene, [g]).run(asWritten).number(g);
const numbersOf = (of: Readonly<Record<string, Given | undefined>>): Record<string, number> =>
  Object.fromEntries(Object.entries(of).flatMap(([k, g]) => (g ? [[k, nominal(g)]] : [])));

type StatisticsData = NonNullable<NonNullable<TrialData["runs"]>[number]["statistics"]>;
function statisticsOf(s: StatisticsData): RunStatistics {
  const may = numbersOf({
    ripple: s.ripple,
    rippleAtP1: s["ripple at P1"],
    rippleAtP0: s["ripple at P0"],
    trend: s.trend,
    lagOne: s["lag one"],
    independent: s.independent,
    indexes: s.indexes,
    timesBack: s["times back"],
  });
  return {
    of: s.of,
    rows: nominal(s.rows),
    mean: nominal(s.mean),
    sd: nominal(s.sd),
    greatest: nominal(s.greatest),
    least: nominal(s.least),
    outliers: nominal(s.outliers),
    gaps: nominal(s.gaps),
    ...may,
  };
}

function placeIn(tree: Source, path: readonly (string | number)[]): Source {
  let at = tree;
  for (const step of path) {
    const next =
      at.kind === "map" ? at.entries.get(`${step}`)?.value : at.kind === "list" ? at.items[Number(step)] : undefined;
    if (!next) return at;
    at = next;
  }
  return at;
}

/** All trials of a folder's texts, by name. */
export function readTrials(
  texts: ReadonlyMap<string, string>,
  names: TrialNames = {},
): { trials: ReadonlyMap<string, Trial>; errors: readonly ProjectError[] } {
  const trials = new Map<string, Trial>();
  const errors: ProjectError[] = [];
  for (const [path, text] of [...texts].filter(([p]) => isTrialPath(p)).sort(([a], [b]) => (a < b ? -1 : 1))) {
    const { trial, errors: mine } = readTrial(path, text, names);
    errors.push(...mine);
    if (trial) trials.set(trial.name, trial);
  }
  return { trials, errors };
}
