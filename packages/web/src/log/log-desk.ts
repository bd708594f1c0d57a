import type { RunSummary, Steps } from "@tapeworthy/core";
import { thinned } from "@tapeworthy/drawing";
import {
  type Asked,
  applied,
  askedOfLog,
  type ColumnMapping,
  type Edit,
  faultsOf,
  flagsAsWritten,
  GivenStore,
  guessedMapping,
  headerOf,
  type Imported,
  imported,
  type Log,
  type LogColumn,
  type Mapping,
  mapped,
  newTrial,
  openRaw,
  openRun,
  type Project,
  ProjectError,
  type Remark,
  type Role,
  readBefore,
  readLog,
  readProject,
  readTrial,
  rememberedMapping,
  runOfLog,
  sameColumn,
  settleEdit,
  type TraceColumns,
  type Trial,
  takingLog,
  toJson,
  traceAt,
  traceColumns,
  traceOfRun,
  trialPath,
  unitOfRole,
  type Wish,
  whyNoTrialName,
  withWishes,
} from "@tapeworthy/project";
import { errorView } from "../engine/views.ts";
import type {
  ColumnLook,
  KeepHow,
  KeepPlan,
  Lane,
  LogFile,
  LogJob,
  LogLook,
  LogResult,
  MapAsked,
  Outcome,
  Outlier,
  PlateauView,
  ReadProgress,
  RemarkView,
  RunView,
  Settled,
  TextEdit,
  TraceView,
  TrialAbout,
} from "./log-protocol.ts";
import { Sha256 } from "./sha256.ts";

/** Asked between two pieces of work: undefined to go on at once, or what to wait for; it rejects where nobody waits for the work any more. */
export type Rest = () => Promise<void> | undefined;

/** A log of more bytes would not fit into a page's memory once its columns are numbers. */
const mostBytes = 1_000_000_000;
const chunk = 1 << 18;
/** Rows shown of a column; marks shown in a trace. */
const firstRows = 8;
const mostMarks = 500;
/** Lanes of a trace. */
const mostLanes = 2;
/** What may stand under a trace, beside what its statistics are of: the first that the log has. */
const beside: readonly Role[] = ["force", "edge", "current", "torque", "speed", "volts", "temperature", "humidity"];

const failed = (errors: readonly ProjectError[]): Outcome<never> => ({ errors: errors.map(errorView) });

/**
 * Where logs are read, mapped and kept, and kept runs opened again. It holds one log and one trace at a time, all rows in memory; what it hands out
 * is plain and small. What anything means is told by the project package; here it is called in the right order, with pauses.
 */
export class LogDesk {
  private readonly store = new GivenStore();
  private read: Held | undefined;
  private trace: Shown | undefined;

  work(job: LogJob, rest: Rest, tell: (progress: ReadProgress) => void): Promise<Outcome<unknown>> {
    switch (job.do) {
      case "read":
        return this.readLog(job.file, job.about, job.wish, rest, tell);
      case "map":
        return this.map(job.wishes, job.asked, job.width, rest);
      case "plan":
        return this.plan(job.how, job.about, rest);
      case "open":
        return this.open(job, rest);
      case "plateau":
        return this.plateau(job.from, job.to, rest);
      case "lanes":
        return this.lanes(job.from, job.to, job.width);
      case "settle":
        return this.settle(job.from, job.to, job.about, rest);
    }
  }

  /** Reads a log in chunks, however long it is, and proposes what its columns are. */
  async readLog(
    file: LogFile,
    about: TrialAbout,
    wish: Wish,
    rest: Rest,
    tell: (progress: ReadProgress) => void = () => {},
  ): Promise<Outcome<LogLook>> {
    this.read = undefined;
    const found = this.trialIn(about);
    if (!("trial" in found)) return found;
    const { trial, project } = found;
    if (file.size > mostBytes) return failed([tooLong(file)]);
    const hash = new Sha256();
    async function* chunks() {
      for (let at = 0; at < file.size; at += chunk) {
        const bytes = new Uint8Array(await file.slice(at, at + chunk).arrayBuffer());
        hash.update(bytes);
        yield bytes;
        tell({ bytes: Math.min(file.size, at + chunk), of: file.size });
      }
    }
    let log: Log | undefined;
    try {
      const read = await readLog(file.name, chunks(), wish, rest);
      if (!read.log) return failed(read.errors);
      log = read.log;
    } catch (e) {
      if (e instanceof DOMException) return failed([cannotRead(file, e)]);
      throw e;
    }
    const header = headerOf(log);
    const known = rememberedMapping(trial, project.trials.values(), header);
    const mapping: Mapping = known ? { header, columns: known.columns } : guessedMapping(log);
    const sha = hash.digest();
    const twin = runOfLog(trial, sha, file.name);
    this.read = { log, sha, mapping, asked: askedOfLog({ project }, trial) };
    return {
      done: {
        file: log.file,
        rows: log.rows,
        bytes: file.size,
        sha,
        header,
        dialect: log.dialect,
        columns: log.columns.map(columnLook),
        mapping: mapping.columns,
        ...(known ? { remembered: known.name } : {}),
        ...(twin === undefined ? {} : { twin }),
        faults: faultsOf(mapping, log).map(errorView),
        remarks: log.remarks.map(remarkView),
        preamble: log.preamble.map(({ key, value }) => ({ key, value })),
      },
    };
  }

  /** What comes out of the log read last, with some columns as the user wants them. */
  async map(
    wishes: readonly ColumnMapping[],
    { of, plateau }: MapAsked,
    width: number,
    rest: Rest,
  ): Promise<Outcome<LogResult>> {
    const { read } = this;
    if (!read) return nothingRead;
    read.imported = undefined;
    // A column that is wished for as it is anyhow is no wish: it makes room for others.
    const real = wishes.filter(
      (w) =>
        !sameColumn(
          w,
          read.mapping.columns.find((c) => c.column === w.column),
        ),
    );
    const mapping = withWishes(read.mapping, real);
    const along = alongIn(mapping, of);
    const flags = plateau && flagsAsWritten(along, plateau);
    const asked: Asked = { P1: read.asked.P1, P0: read.asked.P0, of, plateau: flags };
    const { imported: found, errors } = await worked(imported(read.log, mapping, asked), rest);
    if (!found) return failed(errors);
    const { what } = found;
    let view: LogResult["what"];
    if (what.kind === "trace") {
      const { columns, errors: more } = await worked(traceColumns(read.log, mapping, { ...asked, of: what.of }), rest);
      if (!columns) return failed(more);
      const second = beside.find((role) => role !== what.of && mapping.columns.some((c) => c.role === role));
      const under = second && (await worked(mapped(read.log, mapping, second), rest));
      this.trace = shownOf(columns, under && second ? [{ role: second, values: under }] : []);
      view = traceView(this.trace, what.summary, width);
    } else view = what;
    read.imported = found;
    read.asked = asked;
    read.changed = real.length > 0;
    return { done: { columns: mapping.columns, remarks: found.remarks.map(remarkView), what: view } };
  }

  /** All that keeping the log mapped last would write. */
  async plan(how: KeepHow, about: TrialAbout, rest: Rest): Promise<Outcome<KeepPlan>> {
    const { read } = this;
    if (!read?.imported) return nothingRead;
    const found = this.trialIn(about);
    if (!("trial" in found)) return found;
    const { trial, project, before, text } = found;
    // It may have been read for a trial with another tape.
    const asked = { ...read.asked, ...askedOfLog({ project }, trial) };
    if (asked.P1 !== read.asked.P1 || asked.P0 !== read.asked.P0) {
      const again = await worked(imported(read.log, read.imported.mapping, asked), rest);
      if (!again.imported) return failed(again.errors);
      read.imported = again.imported;
      read.asked = asked;
    }
    const { mapping } = read.imported;
    const known = read.changed ? undefined : rememberedMapping(trial, project.trials.values(), mapping.header);
    const why = readBefore(trial, read.imported, read.sha, read.asked.plateau !== undefined);
    if (why !== undefined) return { why: `${why} Nothing was written.` };
    const taken = new Set(how.taken);
    const plan = await worked(
      takingLog({
        trial,
        before,
        text,
        imported: read.imported,
        sha: read.sha,
        read: how.date,
        reel: how.reel,
        piece: how.piece,
        setAside: how.setAside,
        known: known?.name,
        exists: (path) => taken.has(path),
      }),
      rest,
    );
    if ("why" in plan) return plan;
    const { files, run, raw, indexes } = plan;
    return { done: { files, run, raw, indexes, edit: textEdit(plan.edit, before) } };
  }

  /** Opens a run that was kept. Its rows are read back as they were, and worked out between the flags that the trial's file holds. */
  async open(
    { file, bytes, about, run: number, width }: Extract<LogJob, { do: "open" }>,
    rest: Rest,
  ): Promise<Outcome<RunView>> {
    this.trace = undefined;
    const found = this.trialIn(about);
    if (!("trial" in found)) return found;
    const { trial, project } = found;
    const run = trial.runs[number - 1];
    if (!run) return { why: `${trial.name} has no run ${number}.` };
    const { raw, errors } = openRaw(file, bytes);
    if (!raw) return failed(errors);
    const { columns, errors: more } = await openRun(raw, file, run, askedOfLog({ project }, trial));
    if (!columns) return failed(more);
    await rest();
    const { trace, errors: last } = await worked(traceOfRun(columns, run), rest);
    if (!trace) return failed(last);
    this.trace = { ...shownOf(columns, await lanesBeside(raw, run.mapping, columns.of)), run: number };
    return {
      done: {
        ...traceView(this.trace, trace.summary, width),
        trial: trial.name,
        run: number,
        file: run.log,
        rows: raw.meta.rows,
      },
    };
  }

  /** The statistics between other flags, of what is shown: as a fresh reading with these flags gives them. */
  async plateau(from: number, to: number, rest: Rest): Promise<Outcome<PlateauView>> {
    const { trace: shown } = this;
    if (!shown) return nothingShown;
    const since = performance.now();
    const flags = flagsAsWritten(shown.columns.along, [from, to]);
    const { trace, errors } = await worked(traceAt(shown.columns, flags), rest);
    if (!trace) return failed(errors);
    const outliers = outliersOf(shown, trace.summary);
    return { done: { plateau: flags, summary: trace.summary, outliers, ms: performance.now() - since } };
  }

  /** The lines of what is shown, of a stretch of it or for another width. */
  async lanes(from: number, to: number, width: number): Promise<Outcome<readonly Lane[]>> {
    const { trace: shown } = this;
    return shown ? { done: lanesOf(shown, [], width, { from, to }) } : nothingShown;
  }

  /** Flags that rest: plateau and statistics of the run opened last, for its trial's file. */
  async settle(from: number, to: number, about: TrialAbout, rest: Rest): Promise<Outcome<Settled>> {
    const { trace: shown } = this;
    if (!shown?.run) return nothingShown;
    const found = this.trialIn(about);
    if (!("trial" in found)) return found;
    const { trial, before } = found;
    if (before === undefined || !trial.runs[shown.run - 1]) return { why: `${trial.name} has no run ${shown.run}.` };
    const flags = flagsAsWritten(shown.columns.along, [from, to]);
    const { trace, errors } = await worked(traceAt(shown.columns, flags), rest);
    if (!trace) return failed(errors);
    return { done: { ...textEdit(settleEdit(before, trial.path, shown.run, trace), before), plateau: flags } };
  }

  private trialIn({ texts, trial: name, fresh }: TrialAbout): Outcome<never> | Found {
    const why = whyNoTrialName(name);
    if (why !== undefined) return { why };
    const all = new Map(texts);
    const { project, errors } = readProject(all, this.store);
    if (!project) return failed(errors);
    const path = trialPath(name);
    const before = all.get(path);
    if (before === undefined && !fresh)
      return { why: `There is no trial ${name} yet. Say what it tries: a unit, a tape and a question.` };
    const text = before ?? newTrial({ trial: name, ...fresh! });
    const names = { units: [...project.units.keys()], tapes: [...project.tapes.keys()] };
    const { trial, errors: mine } = readTrial(path, text, names);
    return trial ? { trial, project, before, text } : failed(mine);
  }
}
interface Found {
  readonly trial: Trial;
  readonly project: Project;
  readonly before: string | undefined;
  readonly text: string;
}
/** The log that was read last. */
interface Held {
  readonly log: Log;
  readonly sha: string;
  readonly mapping: Mapping;
  /** What was asked of it last. */
  asked: Asked;
  imported?: Imported | undefined;
  /** The user wanted some columns otherwise. */
  changed?: boolean;
}
/** The trace that is shown. */
interface Shown {
  readonly columns: TraceColumns;
  /** Where every row lies: travel, time, else its number. */
  readonly place: Float64Array;
  readonly extent: readonly [number, number];
  readonly beside: readonly { readonly role: Role; readonly values: Float64Array }[];
  readonly run?: number;
}
const nothingRead: Outcome<never> = { why: "No log has been read. Read one first." };
const nothingShown: Outcome<never> = { why: "No trace is shown. Read a log, or choose a run." };

/** Work done piece by piece, with pauses where the other side wants them. */
async function worked<T>(steps: Steps<T>, rest: Rest): Promise<T> {
  for (;;) {
    const piece = steps.next();
    if (piece.done) return piece.value;
    const pause = rest();
    if (pause) await pause;
  }
}
/** What the flags of a log stand on, before it is worked out. */
function alongIn({ columns }: Mapping, of: Role | undefined): TraceView["along"] {
  const has = (role: Role): boolean => columns.some((c) => c.role === role);
  return has("travel") && of !== "travel" ? "travel" : has("time") ? "time" : "row";
}
function shownOf(columns: TraceColumns, more: Shown["beside"]): Shown {
  const place = columns.place ?? Float64Array.from(columns.values, (_, i) => i);
  let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < place.length; i++) {
    if (place[i]! < least) least = place[i]!;
    if (place[i]! > greatest) greatest = place[i]!;
  }
  return { columns, place, extent: [least, greatest], beside: more };
}
/** A second line under a kept trace; where its column can't be read, the first one stands alone. */
async function lanesBeside(
  raw: { column(name: string): Promise<LogColumn> },
  mapping: Mapping,
  of: Role,
): Promise<Shown["beside"]> {
  const second = beside.find((role) => role !== of && mapping.columns.some((c) => c.role === role));
  const m = mapping.columns.find((c) => c.role === second);
  if (!second || !m) return [];
  try {
    const column = await raw.column(m.column);
    const log = { columns: [column] } as unknown as Log;
    const values = await worked(mapped(log, mapping, second), () => undefined);
    return values ? [{ role: second, values }] : [];
  } catch (e) {
    if (e instanceof ProjectError) return [];
    throw e;
  }
}
function traceView(shown: Shown, summary: RunSummary, width: number): TraceView {
  const { of, along, partedBy, P1, P0 } = shown.columns;
  const lanes = lanesOf(shown, outliersOf(shown, summary), width);
  return { kind: "trace", of, along, partedBy, extent: shown.extent, pitches: { P1, P0 }, summary, lanes };
}
function lanesOf(
  { columns, place, beside: more }: Shown,
  outliers: readonly Outlier[],
  width: number,
  stretch: { readonly from?: number; readonly to?: number } = {},
): Lane[] {
  const pixels = Math.max(1, Math.min(8192, Math.round(width)));
  return [{ role: columns.of, values: columns.values }, ...more].slice(0, mostLanes).map(({ role, values }, i) => ({
    role,
    unit: unitOfRole(role),
    trace: thinned(place, values, pixels, stretch),
    outliers: i === 0 ? outliers : [],
  }));
}
const outliersOf = ({ columns, place }: Shown, { outliers }: RunSummary): Outlier[] =>
  outliers.slice(0, mostMarks).map((row) => ({ along: place[row]!, value: columns.values[row]!, row }));

const columnLook = (c: LogColumn): ColumnLook => ({
  name: c.name,
  unit: c.unit,
  kind: c.kind,
  gaps: c.gaps,
  clock: c.kind === "number" && c.clock,
  first:
    c.kind === "number"
      ? Array.from(c.values.subarray(0, firstRows), (v) => (Number.isNaN(v) ? "" : `${v}`))
      : Array.from(c.codes.subarray(0, firstRows), (code) => c.words[code] ?? ""),
});
const remarkView = ({ about, count, rows, first }: Remark): RemarkView => ({
  about,
  count,
  rows,
  error: errorView(first),
});
const textEdit = (edit: Edit, before: string | undefined): TextEdit => ({
  file: edit.file,
  base: before,
  changes: toJson(edit.changes),
  text: applied(edit, before ?? ""),
});
const atStart = ({ name }: LogFile) => ({ file: name, line: 1, column: 1, length: 1 });
const tooLong = (file: LogFile): ProjectError =>
  new ProjectError(
    atStart(file),
    "",
    `a file of ${Math.round(file.size / 1e6)} MB`,
    `at most ${mostBytes / 1e6} MB`,
    "Split it at an index and read the parts as runs of their own.",
  );
const cannotRead = (file: LogFile, e: DOMException): ProjectError =>
  new ProjectError(
    atStart(file),
    "",
    `a file that can't be read (${e.message})`,
    "a file that stays as it is while it is read",
    "It has changed or gone since it was chosen. Choose it again.",
  );
