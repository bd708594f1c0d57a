import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { openRaw, readTrial, showError } from "@tapeworthy/project";
import { describe, expect, test } from "vitest";
import { exampleFolder, inNewFolder, tapeworthy } from "./cli.fixture.ts";

/** An invented peel of 240 mm of film: 2 N with a wave at the pocket pitch of 12 mm, and a seal overlap at 127 mm. */
const peel = (gain = 1): string => {
  const rows = Array.from({ length: 2401 }, (_, i) => {
    const s = i * 0.1;
    const F =
      gain * (200 * (1 + 0.1 * Math.sin((2 * Math.PI * s) / 12)) + (Math.abs(s - 127) < 0.5 ? 95 : 0) + (i % 7) - 3);
    return `${i};${s.toFixed(1)};${F.toFixed(1)};${i === 1270 ? "Naht" : ""}`.replaceAll(".", ",");
  });
  return `Prüfer: Ada\nRolle;C\n\nZeit (ms);Weg [mm];Kraft [cN];Bemerkung\n${rows.join("\n")}\n`;
};
const begin = ["--unit", "plover", "--tape", "so20-24", "--question", "film.pull", "--date", "2026-03-01"];
/** A project of one's own with logs beside it. */
function inProject(
  use: (at: {
    folder: string;
    log: (name: string, text: string | Uint8Array) => string;
    read: (...args: string[]) => ReturnType<typeof tapeworthy>;
    yaml: () => string;
  }) => void,
): void {
  inNewFolder((top) => {
    const folder = join(top, "shop");
    // Without the trials that the example has already.
    cpSync(exampleFolder, folder, { recursive: true, filter: (path) => !/[\\/](bench|ledger\.yaml)$/.test(path) });
    use({
      folder,
      log: (name, text) => {
        const path = join(top, name);
        writeFileSync(path, text);
        return path;
      },
      read: (...args) => tapeworthy(["read", folder, ...args]),
      yaml: () => readFileSync(join(folder, "bench/T-01.yaml"), "utf8"),
    });
  });
}
/** Every file of a folder with its bytes. */
const all = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((e) => e.isFile())
      .map((e) => [join(e.parentPath, e.name), readFileSync(join(e.parentPath, e.name), "latin1")]),
  );

describe("tapeworthy read", () => {
  test("takes a log into a new trial, keeps its rows, and knows it the second time", () => {
    inProject(({ folder, log, read, yaml }) => {
      const path = log("run1.csv", peel());
      const unsaid = read(path, "--trial", "T-01");
      expect([unsaid.code, existsSync(join(folder, "bench"))]).toEqual([2, false]);
      expect(unsaid.err).toMatch(/^There is no trial T-01 yet. Say what it tries: --unit /);
      const done = read(path, "--trial", "T-01", ...begin);
      expect([done.code, done.err]).toEqual([0, ""]);
      expect(done.out).toContain(
        "separator semicolon, decimal comma, UTF-8, header in line 4, rows from line 5 (sure)",
      );
      expect(done.out).toContain("Kraft      force in cN (by its name and unit)");
      expect(done.out).toContain("force on the plateau, 25 mm to 235 mm: mean 2");
      expect(done.out).toMatch(/1 outlier, kept and marked: line 12\d\d/);
      expect(done.out).toContain("All rows are kept in bench/T-01/raw.parquet");
      const { trial, errors } = readTrial("bench/T-01.yaml", yaml());
      expect(errors.map(showError)).toEqual([]);
      expect(trial!.runs[0]).toMatchObject({
        log: "run1.csv",
        reel: "C",
        read: "2026-03-01",
        plateau: [0.025, expect.closeTo(0.235, 9)],
        statistics: { of: "force", indexes: 16, outliers: 1 },
      });
      const { raw } = openRaw("raw.parquet", readFileSync(join(folder, trial!.runs[0]!.raw)));
      expect([raw!.meta.rows, raw!.meta.sha, raw!.meta.source]).toEqual([2401, trial!.runs[0]!.sha, "run1.csv"]);
      const before = all(folder);
      const again = read(path, "--trial", "T-01");
      expect([again.code, again.err]).toEqual([
        2,
        "run1.csv has been read: it is run 1 of T-01. Nothing was written.\n",
      ]);
      expect(all(folder)).toEqual(before);
    });
  });
  test("remembers how a header is read, in other trials too", () => {
    inProject(({ log, read, yaml }) => {
      read(log("run1.csv", peel()), "--trial", "T-01", ...begin, "--map", "Kraft=force mN, zero 5");
      const second = read(log("run2.csv", peel(1.1)), "--trial", "T-01");
      expect(second.out).toContain('Mapped as remembered under "M1".');
      expect(second.out).toContain("Kraft      force in mN, zero at 5");
      expect(yaml().match(/- name: M1/g)!.length).toBe(1);
      expect(readTrial("bench/T-01.yaml", yaml()).trial!.runs.map((r) => r.raw)).toEqual([
        "bench/T-01/raw.parquet",
        "bench/T-01/raw-2.parquet",
      ]);
      expect(read(log("run3.csv", peel(1.2)), "--trial", "T-02", ...begin, "--dry").out).toContain(
        'Mapped as remembered under "M1".',
      );
    });
  });
  test("sets a run aside with a reason and deletes nothing; read again otherwise, the first reading is set aside", () => {
    inProject(({ folder, log, read, yaml }) => {
      const path = log("run1.csv", peel());
      read(path, "--trial", "T-01", ...begin);
      const raw = all(join(folder, "bench/T-01"));
      const done = read(path, "--trial", "T-01", "--set-aside", "the camera lost the edge");
      expect([done.code, done.out]).toEqual([
        0,
        "Run 1 of T-01 is set aside: the camera lost the edge. Its rows stay in bench/T-01/raw.parquet.\n",
      ]);
      expect(all(join(folder, "bench/T-01"))).toEqual(raw);
      read(path, "--trial", "T-01", "--plateau", "40..200 mm");
      const { trial } = readTrial("bench/T-01.yaml", yaml());
      expect(trial!.runs.map((r) => [r.setAside, r.plateau])).toEqual([
        ["read again as run 2", [0.025, expect.closeTo(0.235, 9)]],
        [undefined, [0.04, 0.2]],
      ]);
    });
  });
  test("sets the flags of a run anew from its kept rows, as reading the log again would", () => {
    inProject(({ folder, log, read, yaml }) => {
      const path = log("run1.csv", peel());
      read(path, "--trial", "T-01", ...begin);
      const raw = all(join(folder, "bench/T-01"));
      const first = yaml();
      const again = ["--trial", "T-01", "--run", "1", "--plateau", "40..200 mm"];
      expect(read(...again, "--dry").out).toContain("Nothing was written.");
      expect(yaml()).toBe(first);
      const done = read(...again);
      expect([done.code, done.err]).toEqual([0, ""]);
      expect(done.out).toContain("Run 1 of T-01\n  force on the plateau, 40 mm to 200 mm: mean 2");
      expect(all(join(folder, "bench/T-01"))).toEqual(raw);
      read(path, "--trial", "T-02", ...begin, "--plateau", "40..200 mm");
      const fresh = readTrial("bench/T-02.yaml", readFileSync(join(folder, "bench/T-02.yaml"), "utf8")).trial!;
      const { runs } = readTrial("bench/T-01.yaml", yaml()).trial!;
      expect(runs).toHaveLength(1);
      expect(runs[0]).toMatchObject({ plateau: [0.04, 0.2], statistics: fresh.runs[0]!.statistics });
      expect(read("--trial", "T-01", "--run", "2", "--plateau", "40..200 mm").err).toBe(
        "T-01 has no run 2: it has 1 to 1.\n",
      );
      expect(read("--trial", "T-01", "--run", "1", "--plateau", "4..5 m").err).toContain(
        "no number between the flags 4 and 5",
      );
    });
  });
  test("with --dry shows all of it and writes nothing", () => {
    inProject(({ folder, log, read }) => {
      const before = all(folder);
      const done = read(log("run1.csv", peel()), "--trial", "T-01", ...begin, "--dry");
      expect(done.out).toContain("force on the plateau");
      expect(done.out).toContain("Nothing was written.");
      expect(all(folder)).toEqual(before);
    });
  });
  test("leaves what is there as it is, to the byte, whatever log it is given", () => {
    inProject(({ folder, log, read }) => {
      read(log("run1.csv", peel()), "--trial", "T-01", ...begin);
      const before = all(folder);
      const bad: readonly (readonly [string, string | Uint8Array, RegExp])[] = [
        ["empty.csv", "", /found an empty file/],
        ["binary.csv", Uint8Array.from({ length: 900 }, (_, i) => (i * 37) % 256), /found bytes that are no text/],
        ["long.csv", `t;F\n0;1\n${"7".repeat(1_500_000)}`, /long.csv:3:1: found a line of more than 1 MB/],
        [
          "mixed.csv",
          Buffer.concat([Buffer.from("Zeit;F;n\n0;1;ö\n"), Buffer.from("1;2;ö\n", "latin1")]),
          /which is no UTF-8, in a text of UTF-8/,
        ],
        ["unit.csv", "t [s];Kraft [mm]\n0;1\n1;2\n", /found mm for force/],
        ["page.csv", "<html></html>\n", /found a page of the web or XML/],
      ];
      for (const [name, text, message] of bad) {
        const done = read(log(name, text), "--trial", "T-01");
        expect([done.code, done.out]).toEqual([2, ""]);
        expect(done.err).toMatch(message);
        expect(done.err).toMatch(/1 error in the log. Nothing was written.\n$/);
        expect(all(folder)).toEqual(before);
      }
    });
  });
  test("takes counts and typed readings through the same door", () => {
    inProject(({ log, read, yaml }) => {
      const counts = log(
        "counts.csv",
        "unit,reel,indexes,misfeeds,mode\n1,A,20000,1,part turned\n1,B,20000,0,\n2,A,15000,2,no part\n",
      );
      expect(read(counts, "--trial", "T-01", ...begin).out).toContain(
        "unit 2, reel A, no part: 2 misfeeds in 15000 indexes",
      );
      const cards = log("card.csv", "reel;unit;reading [N];by\nA;1;0,42;Ada\nB;1;0,45;Ada\n");
      expect(read(cards, "--trial", "T-01").out).toContain("2 readings: 0.42 N, 0.45 N");
      const { trial } = readTrial("bench/T-01.yaml", yaml());
      expect(trial!.counts.map((c) => [c.unit, c.reel, c.indexes, c.misfeeds])).toEqual([
        ["1", "A", 20_000, 1],
        ["1", "B", 20_000, 0],
        ["2", "A", 15_000, 2],
      ]);
      expect(trial!.readings.map((r) => [r.reel, r.value, r.by])).toEqual([
        ["A", 0.42, "Ada"],
        ["B", 0.45, "Ada"],
      ]);
    });
  });
  test("refuses a trial's file with a mistake in it, and leaves it", () => {
    inProject(({ folder, log, read, yaml }) => {
      mkdirSync(join(folder, "bench"));
      writeFileSync(
        join(folder, "bench/T-01.yaml"),
        "format: 1\ntrial: T-01\nunit: plovr\ntape: so20-24\nquestion: film.pull\n",
      );
      const done = read(log("run1.csv", peel()), "--trial", "T-01");
      expect([done.code, done.out]).toEqual([2, ""]);
      expect(done.err).toContain('bench/T-01.yaml:3:7: found the unit "plovr", expected the name of a file in units/');
      expect(done.err).toContain('Did you mean "plover"?');
      expect(yaml()).toContain("plovr");
    });
  });
  test("answers in JSON with SI numbers", () => {
    inProject(({ log, read }) => {
      const answer = JSON.parse(read(log("run1.csv", peel()), "--trial", "T-01", ...begin, "--json").out);
      expect(answer).toMatchObject({
        trial: "T-01",
        rows: 2401,
        kind: "trace",
        of: "force",
        along: "travel",
        partedBy: "travel",
        written: { file: "bench/T-01.yaml", run: 1 },
      });
      expect(answer.summary.mean).toBeGreaterThan(1.95);
      expect(answer.summary.mean).toBeLessThan(2.05);
      expect(answer.summary.plateau).toEqual([0.025, 0.235]);
      expect(answer.columns.map((c: { role: string }) => c.role)).toEqual(["time", "travel", "force", "note"]);
    });
  });
});
