import { describe, expect, test } from "vitest";
import { applied, inverse } from "../edit.ts";
import { showError } from "../error.ts";
import { readTrial, readTrials } from "./trial.ts";
import { added, inOne, mappingItem, newTrial, setAside } from "./trial-edit.ts";

const sha = "0123456789abcdef".repeat(4);
/** An invented trial of an invented shop. */
const text = `format: 1
trial: T-01   # the first
unit: plover
tape: so20-24
question: plover/film.friction
built: peel edge and nip, turned by hand
conditions: {temperature: 23 degC, humidity: 41 %, speed: 80 mm/s}

# typed from the card
readings:
  - {reel: A, unit: 1, value: 0.24, by: Ada}
  - {reel: B, unit: 1, value: 0.27 ±0.01, by: Ada, set aside: wet film}   # rained on
counts:
  - {unit: 1, reel: A, indexes: 20000, misfeeds: 1, mode: part turned}
mapping:
  - name: M1
    header: "t [ms] | pull [cN]"
    columns:
      - {column: t, is: time, unit: ms}
      - {column: pull, is: force, unit: cN, reversed: true, zero: 1.5}
runs:
  - log: run1.csv
    raw: bench/T-01/raw.parquet
    sha: ${sha}
    read: 2026-03-01
    mapping: M1
    reel: A
    plateau: [20 mm, 190 mm]
    statistics: {of: force, rows: 17000, mean: 1.92 N, sd: 14 mN, greatest: 2.9 N, least: 1.4 N, ripple: 7 %, outliers: 1, lag one: 0.4, independent: 18, indexes: 42, gaps: 0}
`;
const path = "bench/T-01.yaml";
const read = (t: string) => {
  const { trial, errors } = readTrial(path, t);
  if (!trial) throw new Error(errors.map(showError).join("\n"));
  return trial;
};

describe("a trial's file", () => {
  test("is read in SI", () => {
    const t = read(text);
    expect(t).toMatchObject({
      name: "T-01",
      question: "plover/film.friction",
      conditions: { temperature: 23, humidity: expect.closeTo(0.41, 12), speed: 0.08 },
      counts: [{ unit: "1", reel: "A", indexes: 20_000, misfeeds: 1, mode: "part turned", setAside: undefined }],
      mappings: [{ name: "M1", columns: [{ role: "time" }, { role: "force", unit: "cN", reversed: true, zero: 1.5 }] }],
      runs: [
        {
          number: 1,
          log: "run1.csv",
          sha,
          plateau: [0.02, 0.19],
          statistics: { of: "force", mean: 1.92, sd: 0.014, ripple: 0.07, lagOne: 0.4 },
        },
      ],
    });
    expect(t.readings.map((r) => [r.reel, r.value, r.by, r.setAside])).toEqual([
      ["A", 0.24, "Ada", undefined],
      ["B", 0.27, "Ada", "wet film"],
    ]);
    expect(t.readings[1]!.given.scatters.length).toBe(1);
  });
  const refused: readonly (readonly [string, string, string, string])[] = [
    [
      "a mapping that is not there",
      "mapping: M1\n",
      "mapping: M2\n",
      `bench/T-01.yaml:26:14: found the mapping "M2", expected a name under "mapping"\n26 |     mapping: M2\n                  ^^\nDid you mean "M1"?`,
    ],
    [
      "another name than its file's",
      "trial: T-01",
      "trial: T-02",
      `bench/T-01.yaml:2:8: found "T-02", expected the file's name, "T-01"\n2 | trial: T-02   # the first\n           ^^^^\nRename the one or the other.`,
    ],
    [
      "more misfeeds than indexes",
      "misfeeds: 1,",
      "misfeeds: 30000,",
      `bench/T-01.yaml:14:50: found 30000 misfeeds in 20000 indexes, expected no more misfeeds than indexes\n14 |   - {unit: 1, reel: A, indexes: 20000, misfeeds: 30000, mode: part turned}\n                                                      ^^^^^`,
    ],
    [
      "half an index",
      "indexes: 20000",
      "indexes: 20000.5",
      `bench/T-01.yaml:14:33: found 20000.5 indexes, expected a whole number\n14 |   - {unit: 1, reel: A, indexes: 20000.5, misfeeds: 1, mode: part turned}\n                                     ^^^^^^^`,
    ],
    [
      "a plateau that ends before it begins",
      "[20 mm, 190 mm]",
      "[190 mm, 20 mm]",
      `bench/T-01.yaml:28:14: found a plateau that ends before it begins, expected [from, to]\n28 |     plateau: [190 mm, 20 mm]\n                  ^^^^^^^^^^^^^^^`,
    ],
    [
      "a sum that is no SHA-256",
      sha,
      "0123",
      `bench/T-01.yaml:24:10: found "0123", expected 64 hexadecimal digits\n24 |     sha: 0123\n              ^^^^`,
    ],
    [
      "a misspelt member",
      "readings:",
      "reedings:",
      `bench/T-01.yaml:10:1: found "reedings", expected a member of a trial\n10 | reedings:\n     ^^^^^^^^\nDid you mean "readings"?`,
    ],
    [
      "a temperature without a unit",
      "23 degC",
      "23",
      `bench/T-01.yaml:7:27: found 23 without a unit, expected a temperature difference\n7 | conditions: {temperature: 23, humidity: 41 %, speed: 80 mm/s}\n                              ^^`,
    ],
  ];
  test.each(refused)("is refused for %s", (_, from, to, message) => {
    expect(text).toContain(from);
    const { errors } = readTrial(path, text.replace(from, to));
    expect(errors.map(showError).join("\n\n")).toBe(message);
  });
  test("is refused for a unit that the project has not", () => {
    const { errors } = readTrial(path, text, { units: ["dunlin"], tapes: ["so20-24"] });
    expect(errors.map((e) => e.message)).toEqual([
      'found the unit "plover", expected the name of a file in units/, without .yaml',
    ]);
  });
  test("is found among a folder's texts", () => {
    const { trials } = readTrials(
      new Map([
        [path, text],
        ["units/plover.yaml", "x"],
      ]),
    );
    expect([...trials.keys()]).toEqual(["T-01"]);
  });
});

describe("an edit of a trial's file", () => {
  test("adds a run behind the last, and changes no other line", () => {
    const item = {
      log: "run 2: wet.csv",
      raw: "bench/T-01/raw-2.parquet",
      sha,
      mapping: "M1",
      reel: undefined,
      plateau: ["10 mm", "20 mm"],
    };
    const after = applied(added(text, path, "runs", item), text);
    expect(after.startsWith(text)).toBe(true);
    expect(after.slice(text.length)).toBe(
      `  - log: "run 2: wet.csv"\n    raw: bench/T-01/raw-2.parquet\n    sha: ${sha}\n    mapping: M1\n    plateau: [10 mm, 20 mm]\n`,
    );
    expect(read(after).runs.map((r) => r.log)).toEqual(["run1.csv", "run 2: wet.csv"]);
  });
  test("adds a reading before the next member, behind the comment of the last", () => {
    const after = applied(added(text, path, "readings", { reel: "C", value: "0.25" }), text);
    expect(after).toContain("# rained on\n  - reel: C\n    value: 0.25\ncounts:");
    expect(after.replace("  - reel: C\n    value: 0.25\n", "")).toBe(text);
  });
  test.each([
    ["a list that is not there", "format: 1\ntrial: T-01\nunit: a\ntape: b\nquestion: c\n"],
    ["no end of the last line", "format: 1\ntrial: T-01\nunit: a\ntape: b\nquestion: c"],
    ["an empty list", "format: 1\ntrial: T-01\nunit: a\ntape: b\nquestion: c\ncounts: []\n"],
    [
      "a list in brackets",
      "format: 1\ntrial: T-01\nunit: a\ntape: b\nquestion: c\ncounts: [{indexes: 3, misfeeds: 0}]  # x\n",
    ],
    [
      "a list without indent",
      "format: 1\ntrial: T-01\nunit: a\ncounts:\n- indexes: 3\n  misfeeds: 0\ntape: b\nquestion: c\n",
    ],
  ])("adds a count to %s", (_, before) => {
    const after = applied(added(before, path, "counts", { indexes: "7", misfeeds: "1", mode: "a, b: c" }), before);
    expect(read(after).counts.at(-1)).toMatchObject({ indexes: 7, misfeeds: 1, mode: "a, b: c" });
  });
  test("sets a run aside with its reason, and again with another; nothing is deleted", () => {
    const once = applied(setAside(text, path, "runs", 1, "camera lost the edge: see note"), text);
    expect(read(once).runs[0]!.setAside).toBe("camera lost the edge: see note");
    expect(once.replace('    set aside: "camera lost the edge: see note"\n', "")).toBe(text);
    const twice = applied(setAside(once, path, "runs", 1, "wet"), once);
    expect(twice).toBe(`${text}    set aside: wet\n`);
    const flow = applied(setAside(text, path, "readings", 1, "wrong reel, sorry"), text);
    expect(flow).toContain('{reel: A, unit: 1, value: 0.24, by: Ada, set aside: "wrong reel, sorry"}');
    expect(() => setAside(text, path, "runs", 2, "x")).toThrow('bench/T-01.yaml has no 2. of "runs"');
  });
  test("readings of a log that is set aside are set aside with it", () => {
    const more = applied(added(text, path, "readings", { value: "0.3", run: "1" }), text);
    expect(read(applied(setAside(more, path, "runs", 1, "wet"), more)).readings.at(-1)!.setAside).toBe("wet");
  });
  test("of several steps is one, and is taken back at once", () => {
    const mapping = {
      header: "a | b",
      columns: [{ column: "a", role: "time" as const, unit: "s", reversed: false, zero: 0, because: "" }],
    };
    const edit = inOne(text, path, [
      (t) => added(t, path, "mapping", mappingItem("M2", mapping)),
      (t) => added(t, path, "runs", { log: "x.csv", raw: "r", sha, mapping: "M2" }),
    ]);
    const after = applied(edit, text);
    expect(read(after).runs[1]!.mapping.header).toBe("a | b");
    expect(applied(inverse(edit, text), after)).toBe(text);
  });
  test("begins a trial that reads", () => {
    const fresh = newTrial({
      trial: "T-01",
      unit: "plover",
      tape: "so20-24",
      question: "film.pull",
      built: "two rollers: nip",
    });
    expect(read(fresh)).toMatchObject({ unit: "plover", built: "two rollers: nip", runs: [], readings: [] });
  });
});
