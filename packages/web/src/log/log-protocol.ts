import type { RunSummary } from "@tapeworthy/core";
import type { Thinned } from "@tapeworthy/drawing";
import type {
  ChangesJson,
  ColumnMapping,
  CountedRow,
  Dialect,
  ReadingRow,
  RemarkKind,
  Role,
  Wish,
} from "@tapeworthy/project";
import type { FileError } from "../engine/state.ts";

/** What came of a piece of work; `stopped`: nobody waited for it any more, or a newer one took its place. */
export type Outcome<T> =
  | { readonly done: T }
  | { readonly errors: readonly FileError[] }
  /** Why it can't be done, in a sentence. */
  | { readonly why: string }
  | { readonly stopped: true };

/** The texts of a project as they stand, and the trial in question. */
export interface TrialAbout {
  readonly texts: readonly (readonly [file: string, text: string])[];
  readonly trial: string;
  /** What a trial is for that has no file yet. */
  readonly fresh?: {
    readonly unit: string;
    readonly tape: string;
    readonly question: string;
    readonly built?: string;
  };
}
export interface ReadProgress {
  readonly bytes: number;
  readonly of: number;
}

/** A log, read: what it holds, what it was taken for, what was odd. */
export interface LogLook {
  readonly file: string;
  readonly rows: number;
  readonly bytes: number;
  readonly sha: string;
  /** Names and units of its columns: a log with the same header is read the same way. */
  readonly header: string;
  readonly dialect: Dialect;
  readonly columns: readonly ColumnLook[];
  readonly mapping: readonly ColumnMapping[];
  /** Name of the mapping it was read by before; absent where it was guessed. */
  readonly remembered?: string;
  /** Run of this trial that holds the same bytes. */
  readonly twin?: number;
  /** What is wrong with this mapping. */
  readonly faults: readonly FileError[];
  readonly remarks: readonly RemarkView[];
  readonly preamble: readonly { readonly key: string; readonly value: string }[];
}
export interface ColumnLook {
  readonly name: string;
  readonly unit: string;
  readonly kind: "number" | "text";
  readonly gaps: number;
  readonly clock: boolean;
  /** Its first cells, a gap as an empty text. */
  readonly first: readonly string[];
}
export interface RemarkView {
  readonly about: RemarkKind;
  readonly count: number;
  readonly rows: readonly number[];
  readonly error: FileError;
}

export interface MapAsked {
  /** Of which column statistics are worked out; the likeliest where it is left out. */
  readonly of?: Role;
  /** Flags that a hand has set: m of travel, else s of time. */
  readonly plateau?: readonly [from: number, to: number];
}
export interface LogResult {
  readonly columns: readonly ColumnMapping[];
  readonly remarks: readonly RemarkView[];
  readonly what:
    | TraceView
    | { readonly kind: "counts"; readonly rows: readonly CountedRow[]; readonly running: boolean }
    | { readonly kind: "readings"; readonly rows: readonly ReadingRow[]; readonly unit: string };
}
/** A trace with its statistics, SI, and its lines thinned to what a screen shows. */
export interface TraceView {
  readonly kind: "trace";
  readonly of: Role;
  readonly along: "travel" | "time" | "row";
  readonly partedBy: "index" | "command" | "travel" | undefined;
  /** Least and greatest place along it. */
  readonly extent: readonly [least: number, greatest: number];
  /** Pitches of the tape that may come again in it, m. */
  readonly pitches: { readonly P1: number | undefined; readonly P0: number | undefined };
  readonly summary: RunSummary;
  /** What the statistics are of comes first. */
  readonly lanes: readonly Lane[];
}
export interface Lane {
  readonly role: Role;
  /** The unit it is shown in; empty for a bare number. */
  readonly unit: string;
  readonly trace: Thinned;
  readonly outliers: readonly Outlier[];
}
export interface Outlier {
  readonly along: number;
  readonly value: number;
  readonly row: number;
}
/** A run that was kept. */
export interface RunView extends TraceView {
  readonly trial: string;
  readonly run: number;
  readonly file: string;
  readonly rows: number;
}
/** The statistics between other flags. */
export interface PlateauView {
  readonly plateau: readonly [from: number, to: number];
  readonly summary: RunSummary;
  readonly outliers: readonly Outlier[];
  /** What it took, ms. */
  readonly ms: number;
}

/** An edit of one file's text. */
export interface TextEdit {
  readonly file: string;
  /** The text it is made for; undefined makes a new file, and the changes are for the empty text. */
  readonly base: string | undefined;
  readonly changes: ChangesJson;
  /** The text after it. */
  readonly text: string;
}
/** Flags that rest: the edit, and where they stand once it is read back. */
export interface Settled extends TextEdit {
  readonly plateau: readonly [from: number, to: number];
}
/** How a log is kept; the day as 2026-03-01. */
export interface KeepHow {
  readonly date: string;
  readonly reel?: string;
  readonly piece?: string;
  /** Why the run does not count. */
  readonly setAside?: string;
  /** Names under which raw rows lie that the texts know nothing of. */
  readonly taken?: readonly string[];
}
/** All that keeping a log would write. */
export interface KeepPlan {
  readonly files: readonly { readonly at: string; readonly bytes: Uint8Array }[];
  readonly edit: TextEdit;
  readonly run: number;
  readonly raw: string;
  readonly indexes: string | undefined;
}

/** A log as a browser gives it. */
export type LogFile = Pick<Blob, "size" | "slice"> & { readonly name: string };

export type LogJob =
  | { readonly do: "read"; readonly file: LogFile; readonly about: TrialAbout; readonly wish: Wish }
  | {
      readonly do: "map";
      readonly wishes: readonly ColumnMapping[];
      readonly asked: MapAsked;
      readonly width: number;
    }
  | { readonly do: "plan"; readonly how: KeepHow; readonly about: TrialAbout }
  | {
      readonly do: "open";
      readonly file: string;
      readonly bytes: Uint8Array;
      readonly about: TrialAbout;
      readonly run: number;
      readonly width: number;
    }
  | { readonly do: "plateau"; readonly from: number; readonly to: number }
  | { readonly do: "lanes"; readonly from: number; readonly to: number; readonly width: number }
  | { readonly do: "settle"; readonly from: number; readonly to: number; readonly about: TrialAbout };
export type ToLog = (LogJob & { readonly id: number }) | { readonly stop: true };
export type FromLog =
  | { readonly id: number; readonly progress: ReadProgress }
  | { readonly id: number; readonly outcome: Outcome<unknown> }
  | { readonly id: number; readonly bug: string };
