import { asWritten, type Quantity, Realiser, type Scene, type Steps, toSI, unitOf } from "@tapeworthy/core";
import type { Bench, Refused } from "../bench.ts";
import { applied, type Edit, madeAs } from "../edit.ts";
import { type Asked, type Imported, indexLog, inUnit, plateauItem, statisticsItem } from "./import-log.ts";
import type { ColumnMapping } from "./mapping.ts";
import { rawOf } from "./raw.ts";
import { type NamedMapping, readTrial, type Trial } from "./trial.ts";
import { added, type Item, inOne, mappingItem, setAside } from "./trial-edit.ts";

/** What a trial wants of a log: the pitches of its tape. */
export function askedOfLog({ project }: Pick<Bench, "project">, trial: Pick<Trial, "tape">): Asked {
  const letters = project.tapes.get(trial.tape)?.tape.letters;
  const value = (q: Quantity | undefined): number | undefined =>
    q && new Realiser({} as Scene, [q]).run(asWritten).number(q);
  return { P1: value(letters?.P1), P0: value(letters?.P0) };
}
/** "20..190 mm" in m of travel, "0.5..4 s" in s. */
export function plateauIn(text: string): readonly [from: number, to: number] | Refused {
  const m = /^\s*(-?[\d.]+)\s*\.\.\s*(-?[\d.]+)\s*(mm|m|cm|s|ms)\s*$/.exec(text);
  const [from, to] = m ? [Number(m[1]), Number(m[2])] : [Number.NaN, Number.NaN];
  if (!m || !(from < to)) return { why: `"${text}" is no plateau. For example: --plateau "20..190 mm".` };
  const unit = unitOf(m[3]!);
  return [toSI(from, unit), toSI(to, unit)];
}
/** How a log with this header was read before: the last time in this trial, else in any other. */
export const rememberedMapping = (trial: Trial, others: Iterable<Trial>, header: string): NamedMapping | undefined =>
  trial.mappings.findLast((m) => m.header === header) ??
  [...others].flatMap((t) => t.mappings).find((m) => m.header === header);

/** The run that a log is, by its bytes, else by a name that one run alone has; undefined where it has not been read. */
export function runOfLog(trial: Trial, sha: string | undefined, file: string): number | undefined {
  if (sha === undefined) {
    const byName = trial.runs.filter((r) => r.log === file && r.setAside === undefined);
    return byName.length === 1 ? byName[0]!.number : undefined;
  }
  return trial.runs.findLast((r) => r.sha === sha)?.number;
}
export const sameColumn = (a: ColumnMapping, b: ColumnMapping | undefined): boolean =>
  b !== undefined &&
  a.column === b.column &&
  a.role === b.role &&
  a.unit === b.unit &&
  a.reversed === b.reversed &&
  a.zero === b.zero;

/** Why a log is not read again: its bytes were read with the same mapping, and no flags are asked for. */
export function readBefore(
  trial: Trial,
  { mapping, log }: Pick<Imported, "mapping" | "log">,
  sha: string,
  flags: boolean,
): string | undefined {
  const twin = trial.runs.find((r) => r.sha === sha);
  return twin && !flags && twin.mapping.columns.every((c, i) => sameColumn(c, mapping.columns[i]))
    ? `${log.file} has been read: it is run ${twin.number} of ${trial.name}.`
    : undefined;
}

/** A log that was read and mapped, on its way into a trial. */
export interface LogToTake {
  readonly trial: Trial;
  /** Text of the trial's file; undefined where it is not there yet. */
  readonly before: string | undefined;
  /** The same, or that of a trial which is begun with this log (`newTrial`). */
  readonly text: string;
  readonly imported: Imported;
  /** SHA-256 of the log's bytes, hexadecimal. */
  readonly sha: string;
  /** The day it is read. */
  readonly read: string;
  readonly reel?: string | undefined;
  /** Which built unit or piece ran. */
  readonly piece?: string | undefined;
  readonly setAside?: string | undefined;
  /** Name of the mapping that was remembered. */
  readonly known?: string | undefined;
  /** Whether a path of the project's folder is taken. */
  readonly exists: (path: string) => boolean;
}
/** Everything that is to be written, before anything is: the raw rows first, then the trial's text, which names them. */
export interface LogPlan {
  /** Of the trial's file as it is, or of none. */
  readonly edit: Edit;
  readonly files: readonly { readonly at: string; readonly bytes: Uint8Array }[];
  readonly raw: string;
  readonly indexes: string | undefined;
  readonly run: number;
}
export function* takingLog(of: LogToTake): Steps<LogPlan | Refused> {
  const { trial, before, text, sha, read } = of;
  const { log, mapping, what, remarks } = of.imported;
  if (!/^\d{4}-\d\d-\d\d$/.test(read)) return { why: `"${read}" is no day. Write it as 2026-03-01.` };
  const { path } = trial;
  const source = log.file;
  let n = trial.runs.length + 1;
  const nameOf = (kind: string): string => `bench/${trial.name}/${kind}${n === 1 ? "" : `-${n}`}.parquet`;
  while (of.exists(nameOf("raw"))) n++;
  const raw = nameOf("raw");
  const marks = [
    ...remarks.map(({ about, count, rows }) => ({ about, count, rows })),
    ...(what.kind === "trace" && what.summary.outliers.length > 0
      ? [{ about: "outlier" as const, count: what.summary.outliers.length, rows: what.summary.outliers }]
      : []),
  ];
  const files = [{ at: raw, bytes: yield* rawOf(log, { source, sha, read, mapping, marks }) }];
  let indexes: string | undefined;
  if (what.kind === "trace" && what.partedBy) {
    indexes = nameOf("indexes");
    const none = { header: "", columns: [] };
    files.push({
      at: indexes,
      bytes: yield* rawOf(indexLog(indexes, what), { source, sha, read, mapping: none, marks: [] }),
    });
  }
  const edit = inOne(text, path, stepsOf(of, raw));
  const after = applied(edit, text);
  // What is written must be readable again: else it is a fault of this program, and nothing is written.
  const { errors } = readTrial(path, after);
  if (errors.length > 0)
    throw new Error(`the trial's file could not be written so that it reads again: ${errors[0]!.message}`);
  return {
    edit: before === undefined ? madeAs(path, after) : edit,
    files,
    raw,
    indexes,
    run: trial.runs.length + 1,
  };
}
/** Of the trial's text: how the log is mapped, the run, and counts or readings that came in it. A run of the same bytes is set aside for it. */
function stepsOf(of: LogToTake, raw: string): ((text: string) => Edit)[] {
  const { trial, sha, read, reel, piece, setAside: aside, known } = of;
  const { log, mapping, what } = of.imported;
  const { path, runs, mappings } = trial;
  const here = mappings.find(
    (m) => m.header === mapping.header && m.columns.every((c, i) => sameColumn(c, mapping.columns[i])),
  );
  const name = here?.name ?? nextName(mappings, known);
  const run = runs.length + 1;
  const item: Item = {
    log: log.file,
    raw,
    sha,
    read,
    mapping: name,
    reel: reel ?? preambleSays(log.preamble, /^(?:reel|rolle)$/i),
    unit: piece,
    ...(what.kind === "trace"
      ? { plateau: plateauItem(what), "set aside": aside, statistics: statisticsItem(what) }
      : { "set aside": aside }),
  };
  const twin = runs.find((r) => r.sha === sha)?.number;
  const may = (value: string): string | undefined => (value === "" ? undefined : value);
  const add = (key: "mapping" | "runs" | "counts" | "readings", one: Item) => (t: string) => added(t, path, key, one);
  return [
    ...(here ? [] : [add("mapping", mappingItem(name, mapping))]),
    ...(twin === undefined ? [] : [(t: string) => setAside(t, path, "runs", twin, `read again as run ${run}`)]),
    add("runs", item),
    ...(what.kind === "counts"
      ? what.rows.map((r) =>
          add("counts", {
            unit: may(r.unit) ?? piece,
            reel: may(r.reel) ?? reel,
            indexes: `${r.indexes}`,
            misfeeds: `${r.misfeeds}`,
            mode: may(r.mode),
            run: `${run}`,
          }),
        )
      : []),
    ...(what.kind === "readings"
      ? what.rows.map((r) =>
          add("readings", {
            reel: may(r.reel) ?? reel,
            unit: may(r.unit) ?? piece,
            value: inUnit(r.value, what.unit),
            by: may(r.by),
            run: `${run}`,
          }),
        )
      : []),
  ];
}
const preambleSays = (
  lines: readonly { readonly key: string; readonly value: string }[],
  key: RegExp,
): string | undefined => lines.find((l) => key.test(l.key) && l.value !== "")?.value.slice(0, 60);
function nextName(mappings: readonly { readonly name: string }[], known: string | undefined): string {
  const taken = new Set(mappings.map((m) => m.name));
  if (known !== undefined && !taken.has(known)) return known;
  for (let i = 1; ; i++) if (!taken.has(`M${i}`)) return `M${i}`;
}
