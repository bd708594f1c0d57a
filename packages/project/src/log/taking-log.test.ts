import { finished } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { isRefused } from "../bench.ts";
import { applied } from "../edit.ts";
import { example } from "../example.fixture.ts";
import { readProject } from "../project.ts";
import { imported } from "./import-log.ts";
import { logOf } from "./log.fixture.ts";
import { guessedMapping, headerOf } from "./mapping.ts";
import { openRaw } from "./raw.ts";
import {
  askedOfLog,
  type LogToTake,
  plateauIn,
  readBefore,
  rememberedMapping,
  runOfLog,
  takingLog,
} from "./taking-log.ts";
import { readTrial, type Trial } from "./trial.ts";
import { newTrial } from "./trial-edit.ts";

const [one, two] = ["1".repeat(64), "2".repeat(64)];
/** An invented pull over 200 mm of travel. */
const pull = (gain = 1): string =>
  `travel [mm];pull [cN]\n${Array.from({ length: 2001 }, (_, i) => `${(i / 10).toFixed(1)};${(gain * (200 + (i % 7))).toFixed(1)}\n`).join("")}`;
const head = { unit: "plover", tape: "so20-24", question: "film.pull" };
const begun = (trial = "T-04") => newTrial({ trial, ...head });
const trialOf = (text: string, name = "T-04"): Trial => {
  const { trial, errors } = readTrial(`bench/${name}.yaml`, text);
  if (!trial) throw new Error(errors[0]!.message);
  return trial;
};
async function planned(text: string, log: string, more: Partial<LogToTake> = {}) {
  const read = await logOf(log, {}, more.imported?.log.file ?? "run1.csv");
  const { imported: result } = finished(imported(read, guessedMapping(read), { P1: 0.012, P0: 0.004 }));
  const to: LogToTake = {
    trial: trialOf(text),
    before: text,
    text,
    imported: result!,
    sha: one,
    read: "2026-03-01",
    exists: () => false,
    ...more,
  };
  const plan = finished(takingLog(to));
  if (isRefused(plan)) throw new Error(plan.why);
  return { plan, imported: result!, after: applied(plan.edit, to.before ?? "") };
}

describe("a log on its way into a trial", () => {
  test("is kept whole, and the trial's text names where", async () => {
    const { plan, after, imported: result } = await planned(begun(), pull(), { reel: "C", piece: "D1" });
    expect(plan.files.map((f) => f.at)).toEqual(["bench/T-04/raw.parquet", "bench/T-04/indexes.parquet"]);
    expect(openRaw(plan.raw, plan.files[0]!.bytes).raw!.meta).toMatchObject({
      rows: 2001,
      sha: one,
      source: "run1.csv",
    });
    const [run] = trialOf(after).runs;
    expect(run).toMatchObject({ number: 1, raw: plan.raw, reel: "C", unit: "D1", statistics: { of: "force" } });
    if (result.what.kind !== "trace") throw new Error(result.what.kind);
    expect(run!.statistics!.mean / result.what.summary.mean).toBeCloseTo(1, 5);
  });
  test("begins the trial's file where there is none", async () => {
    const { plan, after } = await planned(begun(), pull(), { before: undefined });
    expect(plan.edit.changes.length).toBe(0);
    expect(trialOf(after)).toMatchObject({ ...head, runs: [{ number: 1 }] });
  });
  test("never takes a name that is taken, and read again sets the first reading aside", async () => {
    const first = await planned(begun(), pull());
    const taken = new Set(first.plan.files.map((f) => f.at).concat("bench/T-04/raw-2.parquet"));
    const again = await planned(first.after, pull(), { exists: (path) => taken.has(path) });
    expect(again.plan.raw).toBe("bench/T-04/raw-3.parquet");
    expect(trialOf(again.after).runs.map((r) => r.setAside)).toEqual(["read again as run 2", undefined]);
    expect(trialOf(again.after).mappings).toHaveLength(1);
  });
  test("of typed readings and counts goes into the trial's lists under its run", async () => {
    const counts = await planned(begun(), "unit,reel,indexes,misfeeds\n1,A,2000,1\n2,,1500,0\n", { reel: "B" });
    expect(trialOf(counts.after).counts.map((c) => [c.unit, c.reel, c.indexes, c.run])).toEqual([
      ["1", "A", 2000, 1],
      ["2", "B", 1500, 1],
    ]);
    expect(counts.plan.indexes).toBeUndefined();
  });
  test("on a day that is none is refused", async () => {
    await expect(planned(begun(), pull(), { read: "yesterday" })).rejects.toThrow('"yesterday" is no day');
  });
});
describe("what is known of a log", () => {
  test("is the run of its bytes, else of a name that one run alone has", async () => {
    const first = await planned(begun(), pull());
    const second = await planned(first.after, pull(1.1), { sha: two });
    const trial = trialOf(second.after);
    expect([runOfLog(trial, two, "other.csv"), runOfLog(trial, "3".repeat(64), "run1.csv")]).toEqual([2, undefined]);
    expect(runOfLog(trialOf(first.after), undefined, "run1.csv")).toBe(1);
    // Two runs bear the name.
    expect(runOfLog(trial, undefined, "run1.csv")).toBeUndefined();
    expect(readBefore(trial, second.imported, one, false)).toBe("run1.csv has been read: it is run 1 of T-04.");
    expect(readBefore(trial, second.imported, one, true)).toBeUndefined();
  });
  test("is how its header was mapped: the last time in this trial, else in another", async () => {
    const { after, imported: result } = await planned(begun(), pull());
    const [here, other] = [trialOf(after), trialOf(begun("T-05"), "T-05")];
    const header = headerOf(result.log);
    expect(rememberedMapping(here, [], header)!.name).toBe("M1");
    expect(rememberedMapping(other, [here], header)!.columns.map((c) => c.role)).toEqual(["travel", "force"]);
    expect(rememberedMapping(other, [here], "t [s]")).toBeUndefined();
  });
  test("are the pitches of the trial's tape", () => {
    const { project } = readProject(example);
    const { P1, P0 } = askedOfLog({ project: project! }, { tape: "so20-24" });
    expect(P0).toBeCloseTo(0.004, 9);
    expect(P1! % P0!).toBeCloseTo(0, 9);
  });
});
test.each([
  ["20..190 mm", [0.02, 0.19]],
  [" -0.5 .. 4 s", [-0.5, 4]],
  ["500..900 ms", [0.5, 0.9]],
])("the flags %s are read as %o", (text, is) => {
  const flags = plateauIn(text);
  if (isRefused(flags)) throw new Error(flags.why);
  expect([...flags].map((v) => +v.toPrecision(12))).toEqual(is);
});
test.each(["190..20 mm", "20-190 mm", "20..190", "20..190 N"])("the flags %s are refused with an example", (text) => {
  expect(plateauIn(text)).toEqual({ why: `"${text}" is no plateau. For example: --plateau "20..190 mm".` });
});
