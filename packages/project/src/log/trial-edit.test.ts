import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { applied, type Edit, inverse } from "../edit.ts";
import type { Mapping } from "./mapping.ts";
import { added, type Item, inOne, mappingItem, memberSet, newTrial, setAside } from "./trial-edit.ts";

const file = "bench/T-07.yaml";
/** Every scalar as its text: an independent reader's word for what an edit has written. */
const read = (text: string) => parse(text, { schema: "failsafe" });
const head = "format: 1\ntrial: T-07\n";
const after = (text: string, edit: Edit): string => applied(edit, text);
/** Lists of either notation, with a comment on whatever can have one. */
const blockList = `${head}runs:
  - log: a.csv     # the first
    note: "dry: cold"
  # about b
  - log: b.csv
    plateau: [1 mm, 2 mm]
# what follows
built: edge
`;
const flowList = `${head}runs: [{log: a.csv, note: "dry: cold"}, {log: b.csv}] # both\nbuilt: edge\n`;
/** Words that mean something to the notation, and any others that can be printed. */
const words = fc.oneof(
  fc.string({ maxLength: 12 }),
  fc
    .array(
      fc.constantFrom(
        "- ",
        ": ",
        " #",
        ",",
        "{",
        "}",
        "[",
        "]",
        '"',
        "'",
        "\\",
        "&a",
        "*",
        "!",
        "|",
        "null",
        "1",
        "é",
        " ",
        "\n",
      ),
      {
        maxLength: 5,
      },
    )
    .map((parts) => parts.join("")),
);

describe("a value that a person types", () => {
  test("is read back letter by letter, in lists of either notation", () => {
    fc.assert(
      fc.property(words, fc.constantFrom(blockList, flowList), fc.constantFrom(1, 2), (reason, text, number) => {
        const run = read(after(text, setAside(text, file, "runs", number, reason))).runs[number - 1];
        expect(run).toEqual({ ...read(text).runs[number - 1], "set aside": reason });
      }),
      { seed: 1, numRuns: 100 },
    );
  });
  test("is read back from an item that is added, and from the head of a new trial", () => {
    fc.assert(
      fc.property(words, words, fc.constantFrom(blockList, flowList), (a, b, text) => {
        const item: Item = { log: a, note: b, plateau: [a, b], settings: { angle: b } };
        expect(read(after(text, added(text, file, "runs", item))).runs).toEqual([...read(text).runs, item]);
        expect(read(newTrial({ trial: "T-07", unit: "plover", tape: "so8-12", question: a, built: b }))).toEqual({
          format: "1",
          trial: "T-07",
          unit: "plover",
          tape: "so8-12",
          question: a,
          built: b,
        });
      }),
      { seed: 1, numRuns: 60 },
    );
  });
});

describe("a member of an item", () => {
  test("gets another value where it stands, and its comment stays", () => {
    const text = after(blockList, memberSet(blockList, file, "runs", 1, "log", "c.csv"));
    expect(text).toBe(blockList.replace("log: a.csv ", "log: c.csv "));
  });
  test("that is a list or a group goes on one line, whatever it stood on", () => {
    const text = blockList.replace("[1 mm, 2 mm]", "\n      - 1 mm\n      - 2 mm");
    expect(after(text, memberSet(text, file, "runs", 2, "plateau", ["3 mm", "4 mm"]))).toBe(
      blockList.replace("[1 mm, 2 mm]", "[3 mm, 4 mm]"),
    );
    expect(after(blockList, memberSet(blockList, file, "runs", 2, "plateau", { from: "3 mm", to: undefined }))).toBe(
      blockList.replace("[1 mm, 2 mm]", "{from: 3 mm}"),
    );
  });
  test("that is not there is added below the last, before the comments of what follows", () => {
    const line = "    reel: A\n";
    expect(after(blockList, memberSet(blockList, file, "runs", 1, "reel", "A"))).toBe(
      blockList.replace("  # about b\n", `${line}  # about b\n`),
    );
    expect(after(blockList, memberSet(blockList, file, "runs", 2, "reel", "A"))).toBe(
      blockList.replace("# what follows\n", `${line}# what follows\n`),
    );
    expect(after(flowList, memberSet(flowList, file, "runs", 1, "reel", "A"))).toBe(
      flowList.replace('"dry: cold"', '"dry: cold", reel: A'),
    );
  });
  test("is added at the end of a file whose last line does not end", () => {
    const text = `${head}counts:\n  - indexes: 3`;
    expect(after(text, memberSet(text, file, "counts", 1, "misfeeds", "0"))).toBe(`${text}\n    misfeeds: 0\n`);
  });
  test("of an item that is not there is refused with its number and list", () => {
    for (const [text, key, number] of [
      [blockList, "runs", 3],
      [blockList, "runs", 0],
      [blockList, "counts", 1],
      ["", "runs", 1],
    ] as const)
      expect(() => memberSet(text, file, key, number, "reel", "A")).toThrow(
        new RangeError(`bench/T-07.yaml has no ${number}. of "${key}"`),
      );
  });
});

describe("an item that is added", () => {
  test("takes the indent of its list, and comes before the comments of what follows", () => {
    const item = { log: "c.csv", reel: undefined, plateau: ["1 mm", "9 mm"] };
    expect(after(blockList, added(blockList, file, "runs", item))).toBe(
      blockList.replace("# what follows\n", "  - log: c.csv\n    plateau: [1 mm, 9 mm]\n# what follows\n"),
    );
    const left = `${head}runs:\n- log: a.csv\nbuilt: edge\n`;
    expect(after(left, added(left, file, "runs", { log: "c.csv" }))).toBe(left.replace("built", "- log: c.csv\nbuilt"));
  });
  test("goes between the brackets of a list that has some", () => {
    expect(after(flowList, added(flowList, file, "runs", { log: "c.csv" }))).toBe(
      flowList.replace("}] # both", "}, {log: c.csv}] # both"),
    );
  });
  test("begins its list at the end of the file, and the file where it is empty", () => {
    expect(after(flowList, added(flowList, file, "counts", { indexes: "3" }))).toBe(
      `${flowList}counts:\n  - indexes: 3\n`,
    );
    expect(after("", added("", file, "counts", { indexes: "3" }))).toBe("counts:\n  - indexes: 3\n");
  });
  test("is refused where what has the list's name is no list", () => {
    const text = `${head}runs: none\n`;
    expect(() => added(text, file, "runs", { log: "c.csv" })).toThrow(
      new RangeError('"runs" of bench/T-07.yaml is no list'),
    );
  });
  test("that is a mapping says only what is not taken for granted", () => {
    const mapping: Mapping = {
      header: "t [ms] | pull",
      columns: [
        { column: "t", role: "time", unit: "ms", reversed: false, zero: 0, because: "by its name" },
        { column: "pull", role: "force", unit: "", reversed: true, zero: -0.5, because: "" },
      ],
    };
    expect(after(head, added(head, file, "mapping", mappingItem("M1", mapping)))).toBe(
      `${head}mapping:
  - name: M1
    header: "t [ms] | pull"
    columns:
      - {column: t, is: time, unit: ms}
      - {column: pull, is: force, reversed: true, zero: -0.5}
`,
    );
  });
});

/** The same two runs, or none, in the ways that a list may be written. */
const runsInLines = (indent: string): string =>
  ["- log: a.csv", "  settings: {angle: 3 deg}", "- log: b.csv", "  note: cold"].map((l) => `${indent}${l}\n`).join("");
const ways: Readonly<Record<string, string>> = {
  "dashes without indent": `${head}runs:\n${runsInLines("")}`,
  "two blanks": `${head}runs:\n${runsInLines("  ")}`,
  "four blanks": `${head}runs:\n${runsInLines("    ")}`,
  "carriage returns": `${head}runs:\n${runsInLines("  ")}built: edge\n`.replaceAll("\n", "\r\n"),
  "comments after": `${head}runs:\n${runsInLines("  ")}    # of b\n  # of the list\n# of the file\n`,
  "a key below": `runs:\n${runsInLines("  ")}# what follows\n${head}`,
  "a comma at the end of a member": `${head}runs:\n  - {log: a.csv,}\n  - {log: b.csv, settings: {angle: 3 deg,} , } # both,\n`,
  brackets: `${head}runs: [{log: a.csv}, {log: b.csv}] # both\nbuilt: edge\n`,
  "brackets and a comma at the end": `${head}runs: [{log: a.csv,}, {log: b.csv,},]\nbuilt: edge\n`,
  "brackets within braces": "{trial: T-07, runs: [{log: a.csv}, {}, ], built: edge}\n",
  "a member a line": `${head}runs: [\n  {log: a.csv}, # a,\n  {\n    log: b.csv, # "b", ]\n    note: cold # }\n  } # b\n  ]\n`,
  "a member a line and a comma at the end": `${head}runs: [\n  {log: a.csv}, # a,\n  {\n    log: b.csv, # "b", ]\n    note: cold, # }\n  }, # b\n  ]\n`,
  "members without braces": `${head}runs: [log: a.csv, log: b.csv, ]\n`,
  "nothing in brackets": `${head}runs: [] # none yet\nbuilt: edge\n`,
  "a comment in brackets": `${head}runs: [ # none yet\n  ]\nbuilt: edge\n`,
  "nothing in brackets within braces": "{trial: T-07, runs: [], built: edge}\n",
};
const lists = fc.constantFrom(...Object.values(ways));

describe("a list that is written in any way", () => {
  test("is read, with one more item or two, as it was and with them at its end, and nothing else has changed", () => {
    fc.assert(
      fc.property(lists, words, fc.integer({ min: 1, max: 2 }), (text, note, count) => {
        const item: Item = { log: "c.csv", note, plateau: ["1 mm", note], settings: { angle: note } };
        let now = text;
        for (let i = 0; i < count; i++) {
          const edit = added(now, file, "runs", item);
          // What is empty may give way for lines, nothing else.
          edit.changes.iterChangedRanges((from, to) => expect(now.slice(from, to).trim()).toMatch(/^(\[\])?$/));
          now = after(now, edit);
        }
        expect(read(now)).toEqual({ ...read(text), runs: [...read(text).runs, ...Array(count).fill(item)] });
      }),
      { seed: 1, numRuns: 300 },
    );
  });
  test("is read, with one more member of an item, as it was and with that member, and nothing else has changed", () => {
    fc.assert(
      fc.property(lists, words, fc.integer({ min: 0, max: 2 }), (text, value, which) => {
        const { runs } = read(text);
        fc.pre(which < runs.length);
        const edit = memberSet(text, file, "runs", which + 1, "set aside", value);
        edit.changes.iterChangedRanges((from, to) => expect(to).toBe(from));
        const wanted = runs.with(which, { ...runs[which], "set aside": value });
        expect(read(after(text, edit))).toEqual({ ...read(text), runs: wanted });
      }),
      { seed: 1, numRuns: 300 },
    );
  });
  test.each([
    ["runs: [{log: a.csv},]", "runs: [{log: a.csv}, {log: c.csv},]"],
    ["runs: [{log: a.csv}]", "runs: [{log: a.csv}, {log: c.csv}]"],
    ["runs: [\n  {log: a.csv}, # a\n]", "runs: [\n  {log: a.csv}, # a\n  {log: c.csv},\n]"],
    ["runs: [\n  {log: a.csv} # a\n]", "runs: [\n  {log: a.csv}, # a\n  {log: c.csv}\n]"],
    ["runs: [ # none\n]", "runs: [{log: c.csv} # none\n]"],
    [
      "runs:\n- log: a.csv\n  # of a\n# of what follows",
      "runs:\n- log: a.csv\n  # of a\n- log: c.csv\n# of what follows",
    ],
  ])("takes an item in its own notation: %j", (text, wanted) => {
    expect(after(text, added(text, file, "runs", { log: "c.csv" }))).toBe(wanted);
  });
  test.each([
    ["{log: a.csv,}", "{log: a.csv, reel: A,}"],
    ["{log: a.csv , }", "{log: a.csv, reel: A , }"],
    ["{}", "{reel: A}"],
    ["{\n  log: a.csv, # a\n }", "{\n  log: a.csv, # a\n  reel: A,\n }"],
    ["log: a.csv", "{log: a.csv, reel: A}"],
  ])("takes a member of an item in brackets behind its last: %j", (item, wanted) => {
    const text = `runs: [${item}]\n`;
    expect(after(text, memberSet(text, file, "runs", 1, "reel", "A"))).toBe(`runs: [${wanted}]\n`);
  });
});

test("steps that are put together give what they give one by one, and are taken back at once", () => {
  const step = fc.oneof(
    words.map((w) => (t: string) => added(t, file, "runs", { log: w })),
    words.map((w) => (t: string) => setAside(t, file, "runs", 1, w)),
    words.map((w) => (t: string) => memberSet(t, file, "runs", 2, "log", w)),
    words.map((w) => (t: string) => added(t, file, "readings", { value: w })),
  );
  fc.assert(
    fc.property(fc.array(step, { maxLength: 5 }), fc.constantFrom(blockList, flowList), (steps, text) => {
      const edit = inOne(text, file, steps);
      const oneByOne = steps.reduce<string>((t, make) => after(t, make(t)), text);
      expect(after(text, edit)).toBe(oneByOne);
      expect(after(oneByOne, inverse(edit, text))).toBe(text);
    }),
    { seed: 1, numRuns: 40 },
  );
});
