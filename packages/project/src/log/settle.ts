import { finished, type Steps } from "@tapeworthy/core";
import type { Edit } from "../edit.ts";
import { ProjectError } from "../error.ts";
import {
  type Asked,
  flagsAsWritten,
  plateauItem,
  statisticsItem,
  type Trace,
  type TraceColumns,
  traceAt,
  traceColumns,
} from "./import-log.ts";
import type { Log } from "./log.ts";
import type { Role } from "./mapping.ts";
import { keptDialect, type Raw } from "./raw.ts";
import type { Run } from "./trial.ts";
import { inOne, memberSet } from "./trial-edit.ts";

/** Roles that a trace's statistics rest on beside its own column. */
const beside: readonly Role[] = ["time", "travel", "index", "command"];

/**
 * A run that was read, opened again from its raw rows: ready for flags to be set anew (`traceAt`). Only the columns that count are read. `file` is the
 * path of the raw rows, for what can't be read of them.
 */
export async function openRun(
  raw: Raw,
  file: string,
  run: Pick<Run, "mapping" | "statistics">,
  asked: Asked,
): Promise<{ columns?: TraceColumns; errors: readonly ProjectError[] }> {
  const of = run.statistics?.of ?? asked.of;
  const { header, columns: all } = run.mapping;
  // The same column as when it was read: the other ones that a trace could be of are left out.
  const columns = all.filter((c) => c.role === of || beside.includes(c.role) || of === undefined);
  try {
    const read = await Promise.all(columns.map((c) => raw.column(c.column)));
    const log: Log = {
      file,
      dialect: keptDialect,
      preamble: [],
      comments: [],
      rows: raw.meta.rows,
      columns: read,
      remarks: [],
      lineOf: (row) => row + keptDialect.first,
    };
    return finished(traceColumns(log, { header, columns }, { ...asked, of }));
  } catch (e) {
    if (e instanceof ProjectError) return { errors: [e] };
    throw e;
  }
}

/**
 * A run as its trial's file holds it. Flags that nobody has moved stand where the trace itself put them, to the last bit: as they are written, a row
 * at the very edge of the plateau could be lost or gained.
 */
export function* traceOfRun(
  columns: TraceColumns,
  { plateau }: Pick<Run, "plateau">,
): Steps<{ trace?: Trace; errors: readonly ProjectError[] }> {
  const own = yield* traceAt(columns, undefined);
  if (!plateau) return own;
  const [from, to] = own.trace ? flagsAsWritten(columns.along, own.trace.summary.plateau) : [];
  return from === plateau[0] && to === plateau[1] ? own : yield* traceAt(columns, plateau);
}

/** A run's plateau and statistics in the trial's file, as they are between flags that were set anew. Its rows, and all else, stay. */
export function settleEdit(text: string, file: string, run: number, trace: Trace): Edit {
  const plateau = plateauItem(trace);
  return inOne(text, file, [
    ...(plateau ? [(t: string) => memberSet(t, file, "runs", run, "plateau", plateau)] : []),
    (t) => memberSet(t, file, "runs", run, "statistics", statisticsItem(trace)),
  ]);
}
