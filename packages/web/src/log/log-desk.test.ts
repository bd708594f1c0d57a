import { createHash } from "node:crypto";
import { finished } from "@tapeworthy/core";
import { imported, openRaw, plateauIn, readLog } from "@tapeworthy/project";
import { describe, expect, test } from "vitest";
import {
  aboutTrial,
  benchBytes,
  benchFile,
  benchText,
  done,
  fileOf,
  freshTrial,
  said,
  withText,
} from "./log.fixture.ts";
import { LogDesk, type Rest } from "./log-desk.ts";
import type { ReadProgress, TraceView } from "./log-protocol.ts";

const on: Rest = () => undefined;
const traceOf = ({ what }: { readonly what: { readonly kind: string } }): TraceView => {
  if (what.kind !== "trace") throw new Error(`no trace but ${what.kind}`);
  return what as TraceView;
};
/** Opens a run of the example's trial of film pull. */
const opened = async (run = 1, about = aboutTrial("T-03")) => {
  const desk = new LogDesk();
  const file = `T-03/raw${run === 1 ? "" : `-${run}`}.parquet`;
  const view = await desk.open(
    { do: "open", file: `bench/${file}`, bytes: benchBytes(file), about, run, width: 300 },
    on,
  );
  return { desk, view, about };
};

describe("a log", () => {
  test("is shown with its columns, what they were taken for, its first cells and its hash", async () => {
    const look = done(await new LogDesk().readLog(benchFile("T-03-A.csv"), freshTrial(), {}, on));
    expect(look).toMatchObject({
      file: "T-03-A.csv",
      rows: 421,
      bytes: benchBytes("T-03-A.csv").length,
      sha: createHash("sha256").update(benchBytes("T-03-A.csv")).digest("hex"),
      header: "film [mm] | pull [cN]",
      faults: [],
    });
    expect(look.dialect).toMatchObject({ separator: ";", decimal: "," });
    expect(look.preamble).toContainEqual({ key: "Reel", value: "A" });
    expect(look.columns.map(({ name, unit, kind, gaps }) => [name, unit, kind, gaps])).toEqual([
      ["film", "mm", "number", 0],
      ["pull", "cN", "number", 0],
    ]);
    expect(look.columns[0]!.first).toEqual(["0", "0.5", "1", "1.5", "2", "2.5", "3", "3.5"]);
    expect(look.mapping.map(({ column, role, unit }) => [column, role, unit])).toEqual([
      ["film", "travel", "mm"],
      ["pull", "force", "cN"],
    ]);
    expect([look.remembered, look.twin]).toEqual([undefined, undefined]);
  });
  test("with a header that was read before is read as it was then, in this trial or another", async () => {
    // Reel C was mounted the other way round: nothing in its log says so, only the mapping that was remembered.
    const guessed = done(await new LogDesk().readLog(benchFile("T-03-C.csv"), freshTrial(), {}, on));
    expect(guessed.mapping.find((c) => c.role === "force")).toMatchObject({ reversed: false });
    const known = done(await new LogDesk().readLog(benchFile("T-03-C.csv"), freshTrial(["T-03"]), {}, on));
    expect(known.remembered).toBe("M3");
    expect(known.mapping.find((c) => c.role === "force")).toMatchObject({ column: "pull", reversed: true });
    const here = done(await new LogDesk().readLog(benchFile("T-03-C.csv"), aboutTrial("T-03"), {}, on));
    expect([here.remembered, here.twin]).toEqual(["M3", 3]);
  });
  test("that was kept and comes again under another name is known by its bytes", async () => {
    const again = fileOf("copy.csv", benchBytes("T-03-B.csv"));
    expect(done(await new LogDesk().readLog(again, aboutTrial("T-03"), {}, on)).twin).toBe(2);
    const other = fileOf("T-03-B.csv", `${benchText("T-03-B.csv")}300,1\n`);
    expect(done(await new LogDesk().readLog(other, aboutTrial("T-03"), {}, on)).twin).toBeUndefined();
  });
  test.each<[string, string | Uint8Array<ArrayBuffer>, string]>([
    ["that is empty", "", "found an empty file, expected a header and rows of numbers"],
    ["that is a table's own format", Uint8Array.of(0x50, 0x4b, 3, 4, 0, 0, 0, 0), "expected text with rows of numbers"],
    ["with a quote that is not closed", 't,F\n0,1\n1,"2\n2,3\n', "run.csv:3:3: found a quote that is not closed"],
    ["without any number", "one,two\nthree,four\nfive,six\n", "expected"],
  ])("%s is refused in the reader's own words, with the place and the way out", async (_, bytes, words) => {
    const desk = new LogDesk();
    const outcome = await desk.readLog(fileOf("run.csv", bytes), freshTrial(), {}, on);
    expect(said(outcome)).toContain(words);
    const { errors } = await readLog("run.csv", [typeof bytes === "string" ? new TextEncoder().encode(bytes) : bytes]);
    expect(
      "errors" in outcome && outcome.errors.map(({ place, found, expected, hint }) => [place, found, expected, hint]),
    ).toEqual(errors.map(({ place, found, expected, hint }) => [place, found, expected, hint]));
    // Nothing of it is used.
    expect(said(await desk.map([], {}, 100, on))).toBe("No log has been read. Read one first.");
  });
  test("too large for a page is refused before any of it is read", async () => {
    let asked = 0;
    const huge = {
      name: "huge.csv",
      size: 1_200_000_000,
      slice: () => {
        asked++;
        return new Blob();
      },
    };
    expect(said(await new LogDesk().readLog(huge, freshTrial(), {}, on))).toContain(
      "huge.csv:1:1: found a file of 1200 MB, expected at most 1000 MB",
    );
    expect(asked).toBe(0);
  });
  test("that goes while it is read is refused with what to do", async () => {
    const gone = {
      name: "gone.csv",
      size: 500_000,
      slice: () => ({
        arrayBuffer: () => Promise.reject(new DOMException("The file could not be read", "NotReadableError")),
      }),
    } as unknown as File;
    expect(said(await new LogDesk().readLog(gone, freshTrial(), {}, on))).toContain("Choose it again.");
  });
  test("for a trial without a name, a file or a readable project is refused for that", async () => {
    const desk = new LogDesk();
    const file = benchFile("T-03-A.csv");
    const none = aboutTrial("T-09");
    expect(said(await desk.readLog(file, none, {}, on))).toContain("There is no trial T-09 yet.");
    expect(said(await desk.readLog(file, { ...none, trial: "../x" }, {}, on))).toContain("no name for a trial");
    const bad = withText(freshTrial(), "project.yaml", "format: 1\nwanted: 7\n");
    expect(said(await desk.readLog(file, bad, {}, on))).toContain("project.yaml:2");
    const wrong = { ...none, fresh: { unit: "dunlim", tape: "so20-24", question: "film.pull" } };
    expect(said(await desk.readLog(file, wrong, {}, on))).toContain('the unit "dunlim"');
  });
  test("of a million bytes is told as it is read, and is as good in pieces as in one", async () => {
    const rows = Array.from({ length: 60_000 }, (_, i) => `${i / 2},${(i % 13) / 8},ä\n`);
    const text = `film [mm],pull [N],note\n${rows.join("")}`;
    const told: ReadProgress[] = [];
    const file = fileOf("long.csv", text);
    const look = done(await new LogDesk().readLog(file, freshTrial(), {}, on, (progress) => told.push(progress)));
    expect(look.rows).toBe(60_000);
    expect(told.length).toBe(Math.ceil(file.size / 262_144));
    expect(told.at(-1)).toEqual({ bytes: file.size, of: file.size });
    const { log } = await readLog("long.csv", [new TextEncoder().encode(text)]);
    expect(log!.rows).toBe(look.rows);
    expect(look.columns.map((c) => c.gaps)).toEqual(log!.columns.map((c) => c.gaps));
  });
  test("leaves room for others between its pieces, and ends where nobody waits for it", async () => {
    const text = `film [mm],pull [N]\n${Array.from({ length: 60_000 }, (_, i) => `${i / 2},${(i % 13) / 8}\n`).join("")}`;
    let asked = 0;
    const rest: Rest = () => {
      asked++;
      return asked < 20 ? undefined : Promise.reject(new Error("nobody waits"));
    };
    const desk = new LogDesk();
    await expect(desk.readLog(fileOf("long.csv", text), freshTrial(), {}, rest)).rejects.toThrow("nobody waits");
    expect(asked).toBe(20);
    expect(said(await desk.map([], {}, 100, on))).toBe("No log has been read. Read one first.");
  });
});

describe("a mapping", () => {
  test("gives the statistics that the command line gives, and lines of at most four points a pixel", async () => {
    const desk = new LogDesk();
    await desk.readLog(benchFile("T-03-A.csv"), freshTrial(), {}, on);
    const trace = traceOf(done(await desk.map([], {}, 50, on)));
    // As examples/saltgrass/bench/T-03.yaml holds them, which the command line wrote.
    expect(trace.summary.mean).toBeCloseTo(3.58093, 5);
    expect(trace.summary.sd).toBeCloseTo(0.29843, 6);
    expect([trace.of, trace.along, trace.partedBy]).toEqual(["force", "travel", "travel"]);
    expect(trace.summary.plateau).toEqual([0.025, 0.205]);
    const [lane] = trace.lanes;
    expect(lane!.trace.x.length).toBeLessThanOrEqual(4 * 50 + 2);
    expect(Math.max(...lane!.trace.y)).toBeGreaterThanOrEqual(trace.summary.greatest);
    expect(lane!.outliers).toHaveLength(trace.summary.outliers.length);
    for (const { row, along, value } of lane!.outliers) {
      expect(trace.summary.outliers).toContain(row);
      expect(along).toBeCloseTo(row * 0.0005, 9);
      expect(value).toBeGreaterThan(trace.summary.mean);
    }
  });
  test("with a column as the user wants it changes the sign, the zero and the unit", async () => {
    const desk = new LogDesk();
    const look = done(await desk.readLog(benchFile("T-03-A.csv"), freshTrial(), {}, on));
    const pull = look.mapping.find((c) => c.column === "pull")!;
    const plain = traceOf(done(await desk.map([], {}, 100, on))).summary;
    const turned = traceOf(done(await desk.map([{ ...pull, reversed: true }], {}, 100, on))).summary;
    expect(turned.mean).toBeCloseTo(-plain.mean, 12);
    const shifted = traceOf(done(await desk.map([{ ...pull, zero: 100 }], {}, 100, on))).summary;
    expect(shifted.mean).toBeCloseTo(plain.mean - 1, 12);
    const newtons = traceOf(done(await desk.map([{ ...pull, unit: "N" }], {}, 100, on))).summary;
    expect(newtons.mean).toBeCloseTo(plain.mean * 100, 9);
  });
  test("with one column taken for what another was guessed to be makes the other a note, whatever else is sent along", async () => {
    const desk = new LogDesk();
    const rows = Array.from({ length: 50 }, (_, i) => `${i / 2};${2 + (i % 7) / 10};${3 + (i % 5) / 10}\n`);
    const log = fileOf("two.csv", `film [mm];pull [N];pull of hand [N]\n${rows.join("")}`);
    const look = done(await desk.readLog(log, freshTrial(), {}, on));
    expect(look.mapping.map((c) => c.role)).toEqual(["travel", "force", "note"]);
    const wishes = look.mapping.map((c) =>
      c.column === "pull of hand" ? { ...c, role: "force" as const, unit: "N" } : c,
    );
    const { columns, what } = done(await desk.map(wishes, {}, 100, on));
    expect(columns.map((c) => c.role)).toEqual(["travel", "note", "force"]);
    expect(traceOf({ what }).summary.least).toBe(3);
  });
  test("whose unit measures something else is refused at the header, and the log stays to be mapped again", async () => {
    const desk = new LogDesk();
    const look = done(await desk.readLog(benchFile("T-03-A.csv"), freshTrial(), {}, on));
    const pull = look.mapping.find((c) => c.column === "pull")!;
    expect(said(await desk.map([{ ...pull, unit: "mm" }], {}, 100, on))).toMatch(
      /^T-03-A\.csv:\d+:\d+: found mm for force, a unit of m, expected a unit such as N/,
    );
    expect(said(await desk.plan({ date: "2026-11-28" }, freshTrial(), on))).toBe(
      "No log has been read. Read one first.",
    );
    expect(traceOf(done(await desk.map([pull], {}, 100, on))).of).toBe("force");
  });
  test("of a counting log gives its counts, and of typed readings the readings", async () => {
    const counts = new LogDesk();
    await counts.readLog(benchFile("T-02.csv"), freshTrial(), {}, on);
    const { what } = done(await counts.map([], {}, 100, on));
    expect(what.kind).toBe("counts");
    expect(what.kind === "counts" && what.rows.reduce((sum, row) => sum + row.indexes, 0)).toBeGreaterThan(20_000);
    const readings = new LogDesk();
    await readings.readLog(benchFile("T-01.csv"), freshTrial(["T-01"]), {}, on);
    const typed = done(await readings.map([], {}, 100, on)).what;
    expect(typed.kind === "readings" && [typed.unit, typed.rows.length, typed.rows[0]!.reel]).toEqual(["mm", 20, "A"]);
    expect(said(await readings.plateau(0, 1, on))).toBe("No trace is shown. Read a log, or choose a run.");
  });
  test("of a log with a second trace puts that under the first", async () => {
    const desk = new LogDesk();
    const rows = Array.from(
      { length: 500 },
      (_, i) => `${i / 2};${2 + (i % 7) / 10};${i % 5 === 0 ? "" : (i % 11) / 100}\n`,
    );
    await desk.readLog(fileOf("two.csv", `film [mm];pull [N];edge [mm]\n${rows.join("")}`), freshTrial(), {}, on);
    const { lanes } = traceOf(done(await desk.map([], {}, 100, on)));
    expect(lanes.map(({ role, unit }) => [role, unit])).toEqual([
      ["force", "N"],
      ["edge", "mm"],
    ]);
    const other = traceOf(done(await desk.map([], { of: "edge" }, 100, on)));
    expect([other.of, other.lanes.map((l) => l.role)]).toEqual(["edge", ["edge", "force"]]);
    expect(other.summary.gaps).toBeGreaterThan(0);
  });
});

describe("keeping a log", () => {
  test("begins a trial with it: its rows come back from what would be written, and its text names them", async () => {
    const desk = new LogDesk();
    const about = freshTrial(["T-03"]);
    await desk.readLog(benchFile("T-03-C.csv"), about, {}, on);
    await desk.map([], {}, 100, on);
    const plan = done(await desk.plan({ date: "2026-11-28", reel: "C" }, about, on));
    expect(plan.files.map(({ at }) => at)).toEqual(["bench/T-09/raw.parquet", "bench/T-09/indexes.parquet"]);
    expect([plan.run, plan.raw, plan.indexes, plan.edit.base, plan.edit.file]).toEqual([
      1,
      "bench/T-09/raw.parquet",
      "bench/T-09/indexes.parquet",
      undefined,
      "bench/T-09.yaml",
    ]);
    const { raw } = openRaw(plan.raw, plan.files[0]!.bytes);
    expect(raw!.meta).toMatchObject({ source: "T-03-C.csv", read: "2026-11-28", rows: 421 });
    const text = plan.edit.text;
    expect(text).toContain("question: film.pull\n");
    expect(text).toMatch(/ {2}- log: T-03-C\.csv\n {4}raw: bench\/T-09\/raw\.parquet\n/);
    expect(text).toMatch(/reel: C\n/);
    // A mapping of another trial keeps its name.
    expect(text).toMatch(/mapping: M3\n/);
    // And the run can be opened from that.
    const view = done(
      await desk.open(
        {
          do: "open",
          file: plan.raw,
          bytes: plan.files[0]!.bytes,
          about: withText(about, plan.edit.file, text),
          run: 1,
          width: 100,
        },
        on,
      ),
    );
    expect(view.summary.mean).toBeCloseTo(3.75727, 5);
  });
  test("in a trial that is there adds to its text and leaves the rest of it alone", async () => {
    const desk = new LogDesk();
    const about = aboutTrial("T-03");
    const text = benchText("T-03.yaml");
    await desk.readLog(fileOf("T-03-D.csv", benchText("T-03-A.csv").replace("Reel;A", "Reel;D")), about, {}, on);
    await desk.map([], { plateau: [0.03, 0.15] }, 100, on);
    const plan = done(await desk.plan({ date: "2026-11-28", piece: "1", setAside: "the crank slipped" }, about, on));
    expect([plan.run, plan.raw, plan.edit.base]).toEqual([4, "bench/T-03/raw-4.parquet", text]);
    expect(plan.edit.text.startsWith(text.trimEnd())).toBe(true);
    const added = plan.edit.text.slice(text.trimEnd().length);
    expect(added).toContain("mapping: M1\n");
    expect(added).toContain("reel: D\n");
    expect(added).toContain("set aside: the crank slipped\n");
    expect(added).toContain("plateau: [30 mm, 150 mm]\n");
  });
  test("under a name that is taken takes the next", async () => {
    const desk = new LogDesk();
    await desk.readLog(benchFile("T-03-A.csv"), freshTrial(), {}, on);
    await desk.map([], {}, 100, on);
    const taken = ["bench/T-09/raw.parquet", "bench/T-09/raw-2.parquet"];
    const plan = done(await desk.plan({ date: "2026-11-28", taken }, freshTrial(), on));
    expect(plan.files.map(({ at }) => at)).toEqual(["bench/T-09/raw-3.parquet", "bench/T-09/indexes-3.parquet"]);
  });
  test("in another trial than it was read for takes that trial's pitches and its name for the mapping", async () => {
    const desk = new LogDesk();
    const first = { ...freshTrial(), fresh: { unit: "plover", tape: "so8-12", question: "film.pull" } };
    await desk.readLog(benchFile("T-03-A.csv"), first, {}, on);
    const mapping = done(await desk.map([], {}, 100, on));
    expect(traceOf(mapping).summary.indexes).not.toBe(14);
    const { edit } = done(await desk.plan({ date: "2026-11-28" }, freshTrial(["T-03"]), on));
    // As the run of the same log in T-03 has it, which was read for the same tape.
    const statistics = /statistics: \{.*mean: 3\.58093 N.*\}/;
    expect(edit.text.match(statistics)![0]).toBe(benchText("T-03.yaml").match(statistics)![0]);
    expect(edit.text).toContain("mapping: M1\n");
  });
  test("that the trial has already, by its bytes and its mapping, is refused; with other flags it takes the place of that run", async () => {
    const desk = new LogDesk();
    const about = aboutTrial("T-03");
    await desk.readLog(benchFile("T-03-A.csv"), about, {}, on);
    await desk.map([], {}, 100, on);
    expect(said(await desk.plan({ date: "2026-11-28" }, about, on))).toBe(
      "T-03-A.csv has been read: it is run 1 of T-03. Nothing was written.",
    );
    await desk.map([], { plateau: [0.05, 0.15] }, 100, on);
    const { edit } = done(await desk.plan({ date: "2026-11-28" }, about, on));
    expect(edit.text).toContain("set aside: read again as run 4\n");
    expect(edit.text).toContain("plateau: [50 mm, 150 mm]\n");
  });
  test("on a day that is none is refused", async () => {
    const desk = new LogDesk();
    await desk.readLog(benchFile("T-03-A.csv"), freshTrial(), {}, on);
    await desk.map([], {}, 100, on);
    expect(said(await desk.plan({ date: "yesterday" }, freshTrial(), on))).toContain('"yesterday" is no day');
  });
});

describe("a kept run", () => {
  test("shows the statistics that its trial's file holds", async () => {
    for (const [run, mean, sd] of [
      [1, 3.58093, 0.29843],
      [2, 4.04537, 0.321802],
      [3, 3.75727, 0.30775],
    ] as const) {
      const view = done((await opened(run)).view);
      expect([view.trial, view.run, view.rows]).toEqual(["T-03", run, 421]);
      expect(view.summary.plateau).toEqual([0.025, 0.205]);
      expect(view.summary.rows).toBe(run === 2 ? 360 : 361);
      expect(view.summary.mean).toBeCloseTo(mean, 5);
      expect(view.summary.sd).toBeCloseTo(sd, 6);
      expect(view.extent[0]).toBe(0);
    }
  });
  test("says between other flags what a fresh reading with these flags says, to the last bit", async () => {
    const { desk } = await opened();
    const { log } = await readLog("T-03-A.csv", [benchBytes("T-03-A.csv")]);
    const columns = [
      { column: "film", role: "travel", unit: "mm", reversed: false, zero: 0, because: "" },
      { column: "pull", role: "force", unit: "cN", reversed: false, zero: 0, because: "" },
    ] as const;
    for (const [from, to] of [
      [50, 150],
      [25.1, 204.9],
      [0, 1000],
      [100, 104],
    ] as const) {
      const moved = done(await desk.plateau(from / 1000, to / 1000, on));
      const plateau = plateauIn(`${from}..${to} mm`);
      if ("why" in plateau) throw new Error(plateau.why);
      const fresh = finished(
        imported(log!, { header: "film [mm] | pull [cN]", columns }, { P1: 0.012, P0: 0.004, plateau }),
      ).imported!;
      expect(fresh.what.kind === "trace" && fresh.what.summary).toEqual(moved.summary);
      expect(moved.outliers.map((o) => o.row)).toEqual(moved.summary.outliers);
    }
  });
  test("says between flags what its file will say of them, however fine a hand has set them", async () => {
    const { desk, about } = await opened();
    // Neither place can be written with six figures; the first row at or behind 52 mm is a row of the trace.
    const [from, to] = [0.0519999999997, 0.1333333333333];
    const moved = done(await desk.plateau(from, to, on));
    expect(moved.plateau.map((x) => +(x * 1000).toPrecision(12))).toEqual([52, 133.333]);
    const edit = done(await desk.settle(from, to, about, on));
    expect(edit.text).toContain(`plateau: [52 mm, 133.333 mm]`);
    const again = done((await opened(1, withText(about, edit.file, edit.text))).view);
    expect(again.summary).toEqual(moved.summary);
  });
  test("says what is wrong with flags that hold nothing between them, and goes on", async () => {
    const { desk, about } = await opened();
    expect(said(await desk.plateau(0.5, 0.6, on))).toMatch(
      /no number between the flags 0\.5 and 0\.6[\s\S]*Set the flags within the log\./,
    );
    expect(said(await desk.settle(0.5, 0.6, about, on))).toContain("no number between the flags");
    expect(done(await desk.plateau(0.05, 0.15, on)).summary.rows).toBe(201);
  });
  test("settles into its trial's file: plateau and statistics of that run, and not a letter else", async () => {
    const { desk, about } = await opened(2);
    const text = benchText("T-03.yaml");
    const { summary } = done(await desk.plateau(0.05, 0.15, on));
    const edit = done(await desk.settle(0.05, 0.15, about, on));
    expect([edit.file, edit.base, edit.plateau]).toEqual(["bench/T-03.yaml", text, summary.plateau]);
    const [was, is] = [text.split("\n"), edit.text.split("\n")];
    expect(is.length).toBe(was.length);
    const changed = is.flatMap((line, i) => (line === was[i] ? [] : [[i, line] as const]));
    const second = was.indexOf("  - log: T-03-B.csv");
    expect(changed).toHaveLength(2);
    for (const [i] of changed) expect(i > second && i <= second + 8).toBe(true);
    expect(changed[0]![1].trim()).toBe("plateau: [50 mm, 150 mm]");
    expect(changed[1]![1]).toContain(`mean: ${+summary.mean.toPrecision(6)} N`);
    // Opened again, the flags stand where they were put.
    const again = done((await opened(2, withText(about, edit.file, edit.text))).view);
    expect(again.summary).toEqual(summary);
  });
  test("is drawn again for a stretch of it, with every row where there are pixels enough", async () => {
    const { desk } = await opened();
    const [lane] = done(await desk.lanes(0.1, 0.11, 2000));
    const inside = [...lane!.trace.x].filter((x) => x >= 0.1 && x <= 0.11);
    expect(inside).toHaveLength(21);
  });
  test("whose rows are damaged, cut off or of another file is refused with the way out", async () => {
    const desk = new LogDesk();
    const about = aboutTrial("T-03");
    const bytes = benchBytes("T-03/raw.parquet");
    const open = (b: Uint8Array, run = 1) =>
      desk.open({ do: "open", file: "bench/T-03/raw.parquet", bytes: b, about, run, width: 100 }, on);
    expect(said(await open(bytes.slice(0, 2000)))).toContain("found a Parquet file cut off after 2000 bytes");
    expect(said(await open(new Uint8Array(0)))).toContain("found an empty file");
    const worse = bytes.slice();
    worse.fill(0xee, 4, 400);
    expect(said(await open(worse))).toContain("found damaged pages in");
    expect(said(await open(benchBytes("T-03/indexes.parquet")))).toContain('found no column "film"');
    expect(said(await open(bytes, 7))).toBe("T-03 has no run 7.");
    expect(said(await desk.plateau(0.05, 0.15, on))).toBe("No trace is shown. Read a log, or choose a run.");
  });
});
