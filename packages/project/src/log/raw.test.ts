import { finished } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { showError } from "../error.ts";
import { logOf } from "./log.fixture.ts";
import { guessedMapping } from "./mapping.ts";
import { openRaw, rawOf } from "./raw.ts";

const rows = Array.from(
  { length: 20_000 },
  (_, i) => `${i};${i % 7 === 3 ? "" : (i % 11) / 8};${i % 1000 === 5 ? "bump" : ""}\n`,
);
const kept = async () => {
  const log = await logOf(`Rig: 2\n\nt [ms];pull [N];note\n${rows.join("")}`);
  const mapping = guessedMapping(log);
  const meta = {
    source: "run.csv",
    sha: "a".repeat(64),
    read: "2026-03-01",
    mapping,
    marks: [{ about: "outlier" as const, count: 1, rows: [17] }],
  };
  return { log, meta, bytes: finished(rawOf(log, meta)) };
};
const refused = (bytes: Uint8Array): string =>
  openRaw("T-01/raw.parquet", bytes)
    .errors.map(showError)
    .join("\n")
    .split("\n")
    .filter((_, i) => i === 0 || i === 3)
    .join("\n");

describe("the raw rows of a log", () => {
  test("come back column by column, with gaps, texts and where they came from", async () => {
    const { log, meta, bytes } = await kept();
    const { raw } = openRaw("raw.parquet", bytes);
    expect(raw!.meta).toMatchObject({ ...meta, rows: 20_000, preamble: [{ key: "Rig", value: "2" }] });
    for (const c of log.columns) {
      const back = await raw!.column(c.name);
      expect({ ...back, ...(back.kind === "text" ? { words: [] } : {}) }).toEqual({
        ...c,
        ...(c.kind === "text" ? { words: [] } : {}),
      });
      if (c.kind === "text" && back.kind === "text") expect(back.words).toEqual(c.words);
    }
  });
  test("are the same bytes each time they are written", async () => {
    expect((await kept()).bytes).toEqual((await kept()).bytes);
  });
  test("are refused where the file is empty, no Parquet or cut off anywhere", async () => {
    const { bytes } = await kept();
    const again = "Read the log it came from again; the trial's file names it with its SHA-256.";
    expect(refused(new Uint8Array(0))).toBe(
      `T-01/raw.parquet:1:1: found an empty file, expected the raw rows of a log, as Parquet\n${again}`,
    );
    expect(refused(new Uint8Array(50).fill(65))).toBe(
      `T-01/raw.parquet:1:1: found a file that does not begin with PAR1, expected the raw rows of a log, as Parquet\n${again}`,
    );
    for (const share of [0.0001, 0.3, 0.9, 0.999]) {
      const n = Math.floor(bytes.length * share) + 4;
      expect(refused(bytes.slice(0, n))).toBe(
        `T-01/raw.parquet:1:1: found a Parquet file cut off after ${n} bytes, expected PAR1 at its end\n${again}`,
      );
    }
  });
  test("are refused where the foot is damaged", async () => {
    const { bytes } = await kept();
    const worse = bytes.slice();
    worse.fill(0xff, worse.length - 40, worse.length - 8);
    expect(refused(worse)).toMatch(/foot can't be read|cut off|another program|can't be read/);
    const long = bytes.slice();
    new DataView(long.buffer, long.byteOffset).setUint32(long.length - 8, 0x7fffffff, true);
    expect(refused(long)).toMatch(/found a Parquet file whose foot can't be read \(.+\), expected what was written/);
  });
  test("of another program are refused with the way out", async () => {
    const { parquetWriteBuffer } = await import("hyparquet-writer");
    const foreign = new Uint8Array(parquetWriteBuffer({ columnData: [{ name: "x", data: [1, 2], type: "DOUBLE" }] }));
    expect(refused(foreign)).toBe(
      'T-01/raw.parquet:1:1: found a Parquet file of another program, with the columns x, expected one that holds "tapeworthy.log" in its foot\nExport that table as CSV and read it as a log.',
    );
  });
  test("say so where a page is damaged or a column is not there", async () => {
    const { bytes } = await kept();
    const worse = bytes.slice();
    worse.fill(0xee, 4, 400);
    const { raw } = openRaw("raw.parquet", worse);
    await expect(raw!.column("t")).rejects.toThrow(
      /^found damaged pages in "t" \(.+\), expected the rows as they were written$/,
    );
    await expect(raw!.column("F")).rejects.toThrow('found no column "F", expected a column of this log');
  });
});
