import { finished } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { isRefused } from "../bench.ts";
import { applied } from "../edit.ts";
import { flagsAsWritten, imported, statisticsItem, traceAt } from "./import-log.ts";
import { logOf } from "./log.fixture.ts";
import { guessedMapping } from "./mapping.ts";
import { openRaw } from "./raw.ts";
import { openRun, settleEdit, traceOfRun } from "./settle.ts";
import { takingLog } from "./taking-log.ts";
import { readTrial } from "./trial.ts";
import { memberSet, newTrial } from "./trial-edit.ts";

const path = "bench/T-04.yaml";
const asked = { P1: 0.012, P0: 0.004 };
/** An invented pull that grows along the travel, with a bump at 127 mm and gaps; speeds and a note beside it. */
const rows = Array.from({ length: 2401 }, (_, i) => {
  const s = i / 10;
  const F = 200 + s / 4 + 20 * Math.sin((2 * Math.PI * s) / 12) + (Math.abs(s - 127) < 0.5 ? 95 : 0) + (i % 7);
  return `${i};${s.toFixed(1)};${i % 900 === 899 ? "" : F.toFixed(1)};80;${i === 1270 ? "bump" : ""}\n`;
});
const log = `t [ms];travel [mm];pull [cN];speed [mm/s];note\n${rows.join("")}`;

async function keptRun() {
  const read = await logOf(log);
  const { imported: first } = finished(imported(read, guessedMapping(read), asked));
  const text = newTrial({ trial: "T-04", unit: "plover", tape: "so20-24", question: "film.pull" });
  const { trial } = readTrial(path, text);
  const plan = finished(
    takingLog({
      trial: trial!,
      before: text,
      text,
      imported: first!,
      sha: "1".repeat(64),
      read: "2026-03-01",
      exists: () => false,
    }),
  );
  if (isRefused(plan)) throw new Error(plan.why);
  const after = applied(plan.edit, text);
  const { raw } = openRaw(plan.raw, plan.files[0]!.bytes);
  const run = readTrial(path, after).trial!.runs[0]!;
  const { columns } = await openRun(raw!, run.raw, run, asked);
  return { read, text: after, run, raw: raw!, columns: columns! };
}

describe("other flags for a run that was read", () => {
  test("give what a fresh reading with these flags gives, to the last bit", async () => {
    const { read, columns } = await keptRun();
    for (const plateau of [
      [0.04, 0.2],
      [0.1, 0.13],
      [0, 0.24],
    ] as const) {
      const { trace } = finished(traceAt(columns, plateau));
      const fresh = finished(imported(read, guessedMapping(read), { ...asked, plateau })).imported!.what;
      if (fresh.kind !== "trace") throw new Error(fresh.kind);
      expect(trace!.summary).toEqual(fresh.summary);
      expect(statisticsItem(trace!)).toEqual(statisticsItem(fresh));
    }
  });
  test("change the run's plateau and statistics in the trial's text, and nothing else", async () => {
    const { text, columns } = await keptRun();
    const own = text.replace("    sha:", "    # checked by Ada\n    sha:");
    const { trace } = finished(traceAt(columns, [0.04, 0.2]));
    const after = applied(settleEdit(own, path, 1, trace!), own);
    const lines = (t: string) => t.split("\n").filter((l) => !/^ {4}(plateau|statistics):/.test(l));
    expect(lines(after)).toEqual(lines(own));
    const { trial, errors } = readTrial(path, after);
    expect(errors).toEqual([]);
    expect(trial!.runs[0]).toMatchObject({ plateau: [0.04, 0.2], statistics: { rows: trace!.summary.rows } });
    // Set back to where they were, the text is the one that was read.
    const { trace: back } = finished(traceAt(columns, undefined));
    expect(applied(settleEdit(after, path, 1, back!), after)).toBe(own);
  });
  test("that leave no row between them are refused", async () => {
    const { columns } = await keptRun();
    const { trace, errors } = finished(traceAt(columns, [5, 6]));
    expect(trace).toBeUndefined();
    expect(errors[0]!.message).toContain("no number between the flags 5 and 6");
    expect(errors[0]!.hint).toBe("Set the flags within the log.");
  });
  test("need the columns that were mapped: raw rows of another log are refused", async () => {
    const { raw, run } = await keptRun();
    const other = {
      ...run,
      mapping: { ...run.mapping, columns: run.mapping.columns.map((c) => ({ ...c, column: `${c.column}2` })) },
    };
    const { columns, errors } = await openRun(raw, run.raw, other, asked);
    expect(columns).toBeUndefined();
    expect(errors[0]!.message).toContain('no column "');
    expect(errors[0]!.hint).toContain("There are: t, travel, pull");
  });
});
describe("a member of a run", () => {
  const text =
    "runs:\n  - log: a.csv\n    statistics:\n      of: force\n      rows: 3   # few\n    raw: b\ncounts:\n  - {indexes: 5, misfeeds: 0}   # one\n";
  const set = (...args: [key: "runs" | "counts", number: number, member: string, value: string]) =>
    applied(memberSet(text, path, ...args), text);
  test("written over several lines is replaced whole, and what follows stays", () => {
    expect(set("runs", 1, "statistics", "none")).toBe(text.replace(/statistics:\n.*\n.*\n/, "statistics: none\n"));
  });
  test("that is not there yet is added behind the last one, on its line where the item has one", () => {
    expect(set("runs", 1, "reel", "C")).toBe(text.replace("    raw: b\n", "    raw: b\n    reel: C\n"));
    expect(set("counts", 1, "mode", "no part")).toBe(text.replace("misfeeds: 0}", "misfeeds: 0, mode: no part}"));
  });
  test("of an item that is not there is a fault of the caller", () => {
    expect(() => set("runs", 2, "reel", "C")).toThrow('has no 2. of "runs"');
  });
});

describe("a run opened again", () => {
  test("with flags that nobody moved says what its file says, though a row lies at the very edge of its plateau", async () => {
    const { columns, run, read } = await keptRun();
    // 240 mm less 5 mm is 0.235 m, the row there lies at 235 . 0.001 m: the flag as it is written takes that row in, the trace itself did not.
    const fresh = finished(imported(read, guessedMapping(read), asked)).imported!.what;
    if (fresh.kind !== "trace") throw new Error(fresh.kind);
    const { trace } = finished(traceOfRun(columns, run));
    expect(trace!.summary).toEqual(fresh.summary);
    expect(trace!.summary.rows).toBe(run.statistics!.rows);
  });
  test("with flags that were moved is read between these", async () => {
    const { columns } = await keptRun();
    const { trace } = finished(traceOfRun(columns, { plateau: [0.04, 0.2] }));
    expect(trace!.summary).toEqual(finished(traceAt(columns, [0.04, 0.2])).trace!.summary);
  });
  test("has its flags where a file with six figures gives them back", () => {
    expect(flagsAsWritten("travel", [0.0519999999997, 0.1333333333333])).toEqual([0.052, 0.133333]);
    expect(flagsAsWritten("time", [1 / 3, 2])).toEqual([0.333333, 2]);
    expect(flagsAsWritten("row", [1.25, 7])).toEqual([1.25, 7]);
    const once = flagsAsWritten("travel", [0.0123456789, 0.987654321]);
    expect(flagsAsWritten("travel", once)).toEqual(once);
  });
});
