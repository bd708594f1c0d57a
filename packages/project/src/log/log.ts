import type { ProjectError } from "../error.ts";
import type { Dialect } from "./dialect.ts";

/** A column of a log. Gaps are NaN among numbers and -1 among codes of texts, never 0. */
export type LogColumn = NumberColumn | TextColumn;
interface AnyColumn {
  /** Its name in the header, without the unit; "column 3" where there is none. */
  readonly name: string;
  /** The unit as the log writes it; empty where it writes none. */
  readonly unit: string;
  /** How many of its cells hold nothing that counts. */
  readonly gaps: number;
}
export interface NumberColumn extends AnyColumn {
  readonly kind: "number";
  readonly values: Float64Array;
  /** True where the cells are times of day or dates; the values are seconds then, since midnight or since 1970. */
  readonly clock: boolean;
}
export interface TextColumn extends AnyColumn {
  readonly kind: "text";
  /** The different texts, in the order in which they first stand there. */
  readonly words: readonly string[];
  /** For each row the number of its text. */
  readonly codes: Int32Array;
}

/** Something odd that did not stop the reading: where it first stands, how often, and the first rows it stands in, from 0. */
export interface Remark {
  readonly about: RemarkKind;
  readonly first: ProjectError;
  readonly count: number;
  readonly rows: readonly number[];
}
export type RemarkKind =
  | "gap word"
  | "over range"
  | "text"
  | "short row"
  | "long row"
  | "header again"
  | "no row"
  | "decimal"
  | "dialect"
  | "header"
  | "unit"
  | "words"
  | "cut"
  | "backwards"
  | "jump"
  | "amount";

/** What stands before the header: "key: value" lines, and any other. */
export interface PreambleLine {
  readonly line: number;
  readonly key: string;
  readonly value: string;
}

/** A log, read. */
export interface Log {
  readonly file: string;
  readonly dialect: Dialect;
  readonly preamble: readonly PreambleLine[];
  readonly comments: readonly PreambleLine[];
  readonly rows: number;
  readonly columns: readonly LogColumn[];
  readonly remarks: readonly Remark[];
  /** The line of the file that a row stands on. */
  lineOf(row: number): number;
}
/** Either a log, or what keeps it from being one. */
export interface ReadLog {
  readonly log?: Log;
  readonly errors: readonly ProjectError[];
}
