import type { Steps } from "@tapeworthy/core";
import { type FileMetaData, parquetMetadata, parquetRead } from "hyparquet";
import { ByteWriter, ParquetWriter, schemaFromColumnData } from "hyparquet-writer";
import { ProjectError } from "../error.ts";
import type { Dialect } from "./dialect.ts";
import type { Log, LogColumn, RemarkKind } from "./log.ts";
import type { Mapping } from "./mapping.ts";

/** What is kept beside the rows: where they come from and how they were read. */
export interface RawMeta {
  readonly format: 1;
  readonly source: string;
  readonly sha: string;
  /** The day it was read, given by whoever reads it. */
  readonly read: string;
  readonly mapping: Mapping;
  readonly rows: number;
  readonly columns: readonly {
    readonly name: string;
    readonly unit: string;
    readonly kind: "number" | "text";
    readonly clock: boolean;
  }[];
  readonly preamble: readonly { readonly key: string; readonly value: string }[];
  /** Rows that were marked: gaps named, time running back, outliers. */
  readonly marks: readonly {
    readonly about: RemarkKind | "outlier";
    readonly count: number;
    readonly rows: readonly number[];
  }[];
}
/** The dialect of what is kept as columns: a header, and rows from the second line. */
export const keptDialect: Dialect = {
  encoding: "utf-8",
  separator: ",",
  decimal: ".",
  thousands: "",
  quote: "",
  comment: "",
  header: 1,
  units: 0,
  first: 2,
  sure: 1,
};
const key = "tapeworthy.log";
/** Rows written between two pauses. */
const group = 8192;

/** A log as Parquet: numbers as they stand in it (DOUBLE, gaps NaN), texts as text; plain pages, so that any reader takes them. */
export function* rawOf(log: Log, meta: Omit<RawMeta, "format" | "rows" | "columns" | "preamble">): Steps<Uint8Array> {
  const all: RawMeta = {
    format: 1,
    ...meta,
    rows: log.rows,
    columns: log.columns.map((c) => ({
      name: c.name,
      unit: c.unit,
      kind: c.kind,
      clock: c.kind === "number" && c.clock,
    })),
    preamble: log.preamble.map(({ key: k, value }) => ({ key: k, value })),
  };
  const part = (from: number, to: number) =>
    log.columns.map((c) => ({
      name: c.name,
      nullable: c.kind === "text",
      statistics: false,
      offsetIndex: false,
      ...(c.kind === "number"
        ? { data: c.values.subarray(from, to), type: "DOUBLE" as const, encoding: "PLAIN" as const }
        : { data: textsOf(c.words, c.codes.subarray(from, to)), type: "STRING" as const }),
    }));
  const writer = new ByteWriter();
  const parquet = new ParquetWriter({
    writer,
    schema: schemaFromColumnData({ columnData: part(0, 0) }),
    statistics: false,
    createdBy: "tapeworthy",
    kvMetadata: [{ key, value: JSON.stringify(all) }],
  });
  for (let from = 0; from < log.rows; from += group) {
    parquet.write({ columnData: part(from, Math.min(log.rows, from + group)), rowGroupSize: group });
    yield undefined;
  }
  parquet.finish();
  return writer.getBytes();
}
function textsOf(words: readonly string[], codes: Int32Array): (string | null)[] {
  const out: (string | null)[] = new Array(codes.length);
  for (let i = 0; i < codes.length; i++) out[i] = words[codes[i]!] ?? null;
  return out;
}

/** A raw log that was kept; columns are read one by one. */
export interface Raw {
  readonly meta: RawMeta;
  /** Throws ProjectError where there is no such column or its pages are damaged. */
  column(name: string): Promise<LogColumn>;
}

/** Opens what `rawOf` wrote. */
export function openRaw(file: string, bytes: Uint8Array): { raw?: Raw; errors: readonly ProjectError[] } {
  const refuse = (found: string, expected: string, hint: string) =>
    new ProjectError({ file, line: 1, column: 1, length: 1 }, "", found, expected, hint);
  const again = "Read the log it came from again; the trial's file names it with its SHA-256.";
  const mark = (at: number): boolean =>
    bytes[at] === 0x50 && bytes[at + 1] === 0x41 && bytes[at + 2] === 0x52 && bytes[at + 3] === 0x31;
  if (!mark(0))
    return {
      errors: [
        refuse(
          bytes.length === 0 ? "an empty file" : "a file that does not begin with PAR1",
          "the raw rows of a log, as Parquet",
          again,
        ),
      ],
    };
  if (bytes.length < 12 || !mark(bytes.length - 4))
    return { errors: [refuse(`a Parquet file cut off after ${bytes.length} bytes`, "PAR1 at its end", again)] };
  const buffer = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer;
  let metadata: FileMetaData;
  try {
    metadata = parquetMetadata(buffer);
  } catch (e) {
    return {
      errors: [
        refuse(
          `a Parquet file whose foot can't be read (${reason(e)})`,
          "what was written when the log was read",
          again,
        ),
      ],
    };
  }
  const kept = metadata.key_value_metadata?.find((kv) => kv.key === key)?.value;
  const columns = metadata.schema.slice(1).map((s) => s.name);
  if (kept === undefined)
    return {
      errors: [
        refuse(
          `a Parquet file of another program, with the columns ${columns.slice(0, 8).join(", ")}`,
          `one that holds "${key}" in its foot`,
          "Export that table as CSV and read it as a log.",
        ),
      ],
    };
  const meta = metaIn(kept);
  if (!meta) return { errors: [refuse(`"${key}" that can't be read`, "what this version wrote, format 1", again)] };
  if (Number(metadata.num_rows) !== meta.rows)
    return { errors: [refuse(`${metadata.num_rows} rows`, `${meta.rows}, as its foot says`, again)] };
  const column = async (name: string): Promise<LogColumn> => {
    const about = meta.columns.find((c) => c.name === name);
    if (!about)
      throw refuse(
        `no column "${name}"`,
        "a column of this log",
        `There are: ${meta.columns.map((c) => c.name).join(", ")}.`,
      );
    const values = new Float64Array(about.kind === "number" ? meta.rows : 0);
    const codes = new Int32Array(about.kind === "text" ? meta.rows : 0);
    const words: string[] = [];
    const known = new Map<string, number>();
    let got = 0;
    try {
      await parquetRead({
        file: buffer,
        metadata,
        columns: [name],
        onChunk: ({ columnData, rowStart }) => {
          got += columnData.length;
          if (about.kind === "number") {
            values.set(columnData as unknown as ArrayLike<number>, rowStart);
            return;
          }
          for (let i = 0; i < columnData.length; i++) {
            const text = (columnData as readonly unknown[])[i] as string | null | undefined;
            let code = text === null || text === undefined ? -1 : known.get(text);
            if (code === undefined) {
              code = words.length;
              words.push(text!);
              known.set(text!, code);
            }
            codes[rowStart + i] = code;
          }
        },
      });
    } catch (e) {
      throw refuse(`damaged pages in "${name}" (${reason(e)})`, "the rows as they were written", again);
    }
    if (got !== meta.rows) throw refuse(`${got} rows in "${name}"`, `${meta.rows}`, again);
    const shared = { name, unit: about.unit };
    if (about.kind === "text")
      return { ...shared, kind: "text", words, codes, gaps: codes.filter((c) => c < 0).length };
    let gaps = 0;
    for (let i = 0; i < values.length; i++) if (Number.isNaN(values[i]!)) gaps++;
    return { ...shared, kind: "number", values, clock: about.clock, gaps };
  };
  return { raw: { meta, column }, errors: [] };
}
const reason = (e: unknown): string => (e instanceof Error ? e.message : String(e)).slice(0, 80);
function metaIn(text: string): RawMeta | undefined {
  try {
    const meta = JSON.parse(text) as RawMeta;
    return meta.format === 1 && Array.isArray(meta.columns) && Number.isInteger(meta.rows) ? meta : undefined;
  } catch (e) {
    if (e instanceof SyntaxError) return undefined;
    throw e;
  }
}
