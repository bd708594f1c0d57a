import {
  customaryUnit,
  type Dimension,
  dimensionInUnits,
  fromSI,
  type IndexStatistics,
  indexesByCommand,
  indexesByNumber,
  indexesByTravel,
  indexStatistics,
  type RunSummary,
  runSummary,
  type Steps,
  toSI,
  unitBehind,
  unitOf,
} from "@tapeworthy/core";
import { ProjectError } from "../error.ts";
import { type CountedRow, countedIn, type ReadingRow, readingsIn } from "./counting.ts";
import type { Log, LogColumn, NumberColumn, Remark } from "./log.ts";
import { faultsOf, headerOf, type Mapping, mapped, type Role, remarksOf, roles } from "./mapping.ts";
import { keptDialect } from "./raw.ts";
import { type TimeLook, timeLook, timeRemarks } from "./time-look.ts";
import type { Item } from "./trial-edit.ts";
import { unitText } from "./unit-text.ts";

/** What a trial wants of a log beside its rows. */
export interface Asked {
  /** The column to work statistics out of; the first of the list below that the log has. */
  readonly of?: Role | undefined;
  /** Pocket pitch and pitch of the sprocket holes, m. */
  readonly P1?: number | undefined;
  readonly P0?: number | undefined;
  /** Flags that a person has set, in m of travel, else s of time. */
  readonly plateau?: readonly [number, number] | undefined;
}
/** Of what statistics are worked out, where nobody says. */
const first: readonly Role[] = [
  "force",
  "edge",
  "current",
  "torque",
  "volts",
  "speed",
  "angle",
  "temperature",
  "humidity",
  "count",
  "travel",
];

export interface Trace {
  readonly kind: "trace";
  readonly of: Role;
  readonly along: "travel" | "time" | "row";
  /** What parts the indexes from each other; undefined where the run is one piece. */
  readonly partedBy: "index" | "command" | "travel" | undefined;
  readonly by: IndexStatistics;
  readonly summary: RunSummary;
  readonly time: TimeLook | undefined;
}
export interface Counted {
  readonly kind: "counts";
  readonly rows: readonly CountedRow[];
  /** True where the log's counters run on, so that the last less the first counts. */
  readonly running: boolean;
}
export interface Readings {
  readonly kind: "readings";
  readonly rows: readonly ReadingRow[];
  /** Unit the readings are shown in. */
  readonly unit: string;
}
export interface Imported {
  readonly log: Log;
  readonly mapping: Mapping;
  readonly what: Trace | Counted | Readings;
  /** The reader's remarks and those on times and amounts. */
  readonly remarks: readonly Remark[];
}

/** A log with a mapping becomes a trace with its statistics, counts or readings: one door for all three. */
export function* imported(
  log: Log,
  mapping: Mapping,
  asked: Asked = {},
): Steps<{ imported?: Imported; errors: readonly ProjectError[] }> {
  const errors = faultsOf(mapping, log);
  if (errors.length > 0) return { errors };
  const has = (role: Role): boolean => mapping.columns.some((c) => c.role === role);
  const remarks = [...log.remarks];
  if (has("misfeeds")) {
    const { rows, running, errors: mine } = countedIn(log, mapping);
    return mine.length > 0
      ? { errors: mine }
      : { imported: { log, mapping, remarks, what: { kind: "counts", rows, running } }, errors: [] };
  }
  if (has("value")) {
    const rows = readingsIn(log, mapping);
    const written = mapping.columns.find((c) => c.role === "value")!.unit;
    const known = unitText(written);
    const unit = known ? shownIn(written, known.dimension) : "";
    return { imported: { log, mapping, remarks, what: { kind: "readings", rows, unit } }, errors: [] };
  }
  const { columns, errors: more } = yield* traceColumns(log, mapping, asked, remarks);
  if (!columns) return { errors: more };
  const { trace: what, errors: last } = yield* traceAt(columns, asked.plateau);
  return what ? { imported: { log, mapping, remarks, what }, errors: [] } : { errors: last };
}

/** What a trace's statistics are worked out of, wherever its flags stand: SI. */
export interface TraceColumns extends Omit<Trace, "kind" | "summary"> {
  readonly log: Log;
  readonly values: Float64Array;
  /** First row of each index, and behind them the row after the last. */
  readonly starts: Int32Array;
  /** Travel in m, else time in s; undefined where there are rows alone. */
  readonly place: Float64Array | undefined;
  readonly P1: number | undefined;
  readonly P0: number | undefined;
}
/** A log's columns in SI, with its indexes; what is odd is added to `remarks`. */
export function* traceColumns(
  log: Log,
  mapping: Mapping,
  asked: Asked,
  remarks: Remark[] = [],
): Steps<{ columns?: TraceColumns; errors: readonly ProjectError[] }> {
  const has = (role: Role): boolean => mapping.columns.some((c) => c.role === role);
  const of = asked.of ?? first.find((role) => has(role));
  const column = of && mapping.columns.find((c) => c.role === of);
  if (!of || !column) {
    const place = { file: log.file, line: Math.max(1, log.dialect.header), column: 1, length: 1 };
    const found = of ? `no column mapped as ${of}` : "nothing to work statistics out of";
    const names = log.columns.filter((c) => c.kind === "number").map((c) => c.name);
    const hint = `Say what the columns are: --map "${names[0] ?? "COLUMN"}=force N".`;
    return { errors: [new ProjectError(place, headerOf(log), found, "a force, an edge, a current or such", hint)] };
  }
  const values = (yield* mapped(log, mapping, of))!;
  const empty = values.every((v) => Number.isNaN(v));
  if (empty) {
    const place = { file: log.file, line: Math.max(1, log.dialect.header), column: 1, length: 1 };
    return {
      errors: [
        new ProjectError(
          place,
          headerOf(log),
          `no number in "${column.column}"`,
          `a column of ${roles[of].means}`,
          "Map another column, or export the log again.",
        ),
      ],
    };
  }
  remarks.push(...remarksOf(log, mapping, of, values));
  const time = yield* mapped(log, mapping, "time");
  const look = time && (yield* timeLook(time));
  if (look) remarks.push(...timeRemarks(look, log));
  const travel = of === "travel" ? undefined : yield* mapped(log, mapping, "travel");
  if (travel) remarks.push(...remarksOf(log, mapping, "travel", travel));
  const number = yield* mapped(log, mapping, "index");
  const command = yield* mapped(log, mapping, "command");
  const pitch = asked.P1 ?? asked.P0;
  const partedBy = number ? "index" : command ? "command" : travel && pitch ? "travel" : undefined;
  const starts = number
    ? yield* indexesByNumber(number)
    : command
      ? yield* indexesByCommand(command)
      : travel && pitch
        ? yield* indexesByTravel(travel, pitch)
        : Int32Array.of(0, values.length);
  const by = yield* indexStatistics(values, starts);
  const along = travel ? "travel" : time ? "time" : "row";
  const { P0 } = asked;
  return {
    columns: { log, of, along, partedBy, by, time: look, values, starts, place: travel ?? time, P1: pitch, P0 },
    errors: [],
  };
}
/** A trace's statistics between flags, or where it shows its plateau by itself: m of travel, else s of time. */
export function* traceAt(
  columns: TraceColumns,
  plateau: readonly [number, number] | undefined,
): Steps<{ trace?: Trace; errors: readonly ProjectError[] }> {
  const { log, of, along, partedBy, by, time, values, starts, place, P1, P0 } = columns;
  let summary: RunSummary;
  try {
    summary = yield* runSummary({ values, starts, along: place, isTravel: along === "travel", P1, P0, plateau }, by);
  } catch (e) {
    if (!(e instanceof RangeError)) throw e;
    const at = { file: log.file, line: log.lineOf(0), column: 1, length: 1 };
    const hint = plateau ? "Set the flags within the log." : "Export the log again.";
    return { errors: [new ProjectError(at, "", e.message, `${of} on a plateau`, hint)] };
  }
  return { trace: { kind: "trace", of, along, partedBy, by, summary, time }, errors: [] };
}

/** The unit of the log where it is one of ours, else the customary one of its kind. */
function shownIn(written: string, dimension: Dimension): string {
  try {
    unitOf(written);
    return written;
  } catch (e) {
    if (!(e instanceof RangeError)) throw e;
    return customaryUnit(dimension) || dimensionInUnits(dimension);
  }
}

/** A number in the unit a person reads it in, six figures. */
export function inUnit(value: number, unit: string): string {
  return `${+fromSI(value, unitOf(unit)).toPrecision(6)}${unitBehind(unit)}`;
}
export const unitOfRole = (role: Role): string => {
  const { unit } = roles[role];
  return unit === "any" || unit === "text" ? "" : unit;
};

/** The statistics of a run as a trial's file takes them. */
export function statisticsItem({ of, summary: s, time }: Trace): Item {
  const unit = unitOfRole(of);
  const plain = (v: number | undefined): string | undefined => (v === undefined ? undefined : `${+v.toPrecision(4)}`);
  return {
    of,
    rows: `${s.rows}`,
    mean: inUnit(s.mean, unit),
    sd: inUnit(s.sd, unit),
    greatest: inUnit(s.greatest, unit),
    least: inUnit(s.least, unit),
    ripple: plain(s.ripple),
    "ripple at P1": plain(s.rippleAtP1),
    "ripple at P0": plain(s.rippleAtP0),
    trend: plain(s.trend),
    outliers: `${s.outliers.length}`,
    "lag one": plain(s.lagOne),
    independent: s.indexes > 0 ? plain(s.independent) : undefined,
    indexes: `${s.indexes}`,
    gaps: `${s.gaps}`,
    "times back": time ? `${time.timesBack}` : undefined,
  };
}
/** The plateau's flags as a trial's file takes them. */
export const plateauItem = ({ along, summary }: Trace): readonly string[] | undefined =>
  along === "row" ? undefined : summary.plateau.map((v) => inUnit(v, along === "travel" ? "mm" : "s"));

/** Flags as a trial's file gives them back, with its six figures: what is worked out between these is what the file will say. */
export function flagsAsWritten(along: Trace["along"], flags: readonly [number, number]): readonly [number, number] {
  if (along === "row") return flags;
  const unit = unitOf(along === "travel" ? "mm" : "s");
  const [from, to] = flags.map((v) => toSI(+fromSI(v, unit).toPrecision(6), unit));
  return [from!, to!];
}

/** Index statistics as columns, to be kept as Parquet beside the raw rows. */
export function indexLog(file: string, { of, by }: Trace): Log {
  const number = (name: string, unit: string, values: ArrayLike<number>): NumberColumn => ({
    kind: "number",
    name,
    unit,
    clock: false,
    values: values instanceof Float64Array ? values : Float64Array.from(values),
    gaps: 0,
  });
  const unit = unitOfRole(of);
  const scaled = (x: Float64Array) => x.map((v) => fromSI(v, unitOf(unit)));
  const columns: LogColumn[] = [
    number("first row", "", by.first),
    number("rows", "", by.rows),
    number("mean", unit, scaled(by.mean)),
    number("sd", unit, scaled(by.sd)),
    number("greatest", unit, scaled(by.greatest)),
    number("least", unit, scaled(by.least)),
    number("row of the greatest", "", by.at),
  ];
  return {
    file,
    dialect: keptDialect,
    preamble: [],
    comments: [],
    rows: by.mean.length,
    columns,
    remarks: [],
    lineOf: (row) => row + 2,
  };
}
