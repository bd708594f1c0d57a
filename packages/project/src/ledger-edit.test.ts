import type { Frozen, Score } from "@tapeworthy/core";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { applied, type Edit } from "./edit.ts";
import {
  apartEdit,
  canonicalTexts,
  frozenEdit,
  inUnitOf,
  keyedEdit,
  nextId,
  scoredEdit,
  takenEdit,
} from "./ledger-edit.ts";
import { type Ledger, readLedger } from "./ledger-read.ts";

/** An invented prediction of an invented shop. */
const frozen: Frozen = {
  id: "L-03",
  trial: "T-05",
  question: "knot/nip.preload",
  unit: "knot",
  tape: "coil",
  predicted: { median: 0.000281_46, low: 0.0002, high: 0.000412_349 },
  fails: undefined,
  share: 0.123456,
  sha: "89abcdef".repeat(8),
  date: "2026-04-01",
  seed: 12,
  version: "0.1.0",
  key: new Map([
    ["knot/let.b", "2 mm"],
    ["knot/let.a", "1 mm: # about"],
  ]),
};
const came = (of: Score["came"], agreed: boolean): Score =>
  ({ frozen: "L-03", trial: "T-05", came: of, agreed }) as unknown as Score;
const written = (edit: Edit, before = ""): string => applied(edit, before).slice(before.length);

describe("an entry of the ledger", () => {
  test("of a prediction is one line a member, four figures a number, and what it rests on in the order of its names", () => {
    expect(written(frozenEdit(undefined, frozen, "mm"))).toBe(`format: 1
ledger:
  - frozen: L-03
    trial: T-05
    question: knot/nip.preload
    unit: knot
    tape: coil
    predicted: [0.2815 mm, 0.2 mm, 0.4123 mm]
    share: 0.1235
    date: 2026-04-01
    seed: 12
    version: 0.1.0
    sha: ${frozen.sha}
    rests on:
      knot/let.a: "1 mm: # about"
      knot/let.b: 2 mm
`);
  });
  test("of a prediction of pieces has three figures, and says where it rests on nothing", () => {
    const pieces = {
      ...frozen,
      predicted: undefined,
      fails: { median: 0.013649, low: 1e-7, high: 0.99 },
      key: new Map(),
    };
    const text = written(frozenEdit(undefined, pieces, ""));
    expect(text).toContain("    fails: [0.0136, 1e-7, 0.99]\n");
    expect(text).not.toContain("predicted");
    expect(text.endsWith("    rests on: {}\n")).toBe(true);
  });
  test("of a score says what came out, with two figures of its uncertainty, and leaves out what is not known", () => {
    const value = came({ kind: "value", value: 0.00028146, uncertainty: 0.0000123 }, true);
    const more = { date: undefined, late: undefined, shownIn: "mm" };
    expect(written(scoredEdit("ledger:\n", value, more), "ledger:\n")).toBe(
      "  - scored: L-03\n    trial: T-05\n    came: 0.2815 mm\n    uncertainty: 0.012 mm\n    result: agreed\n",
    );
    const pieces = came({ kind: "pieces", run: 6, failed: 2 }, false);
    const late = { date: "2026-04-02", late: "frozen: a day later", shownIn: "" };
    expect(written(scoredEdit("ledger:\n", pieces, late), "ledger:\n")).toBe(
      '  - scored: L-03\n    trial: T-05\n    date: 2026-04-02\n    pieces: 6\n    failed: 2\n    result: missed\n    late: "frozen: a day later"\n',
    );
  });
  test("is read by others as it was meant, whatever words a person types", () => {
    const words = fc.oneof(
      fc.string({ maxLength: 12 }),
      fc
        .array(fc.constantFrom("- ", ": ", " #", ",", "{", "[", '"', "'", "null", "\n", "é"), { maxLength: 4 })
        .map((w) => w.join("")),
    );
    fc.assert(
      fc.property(words, words, words, (reason, address, stood) => {
        const key = new Map([[address, stood]]);
        const text = [
          (t: string) => apartEdit(t, "T-01", reason, undefined),
          (t: string) => keyedEdit(t, "T-02", key, "2026-04-01"),
          (t: string) => takenEdit(t, "T-03", undefined),
        ].reduce((t, make) => applied(make(t), t), "");
        expect(parse(text, { schema: "failsafe" })).toEqual({
          format: "1",
          ledger: [
            { apart: "T-01", reason },
            { keyed: "T-02", date: "2026-04-01", "rests on": { [address]: stood } },
            { taken: "T-03" },
          ],
        });
      }),
      { seed: 1, numRuns: 150 },
    );
  });
  test.each([
    ["nothing", "", "format: 1\nledger:\n"],
    ["comments alone, of which the last line does not end", "# ours: ledger:", "\nformat: 1\nledger:\n"],
    ["a ledger", "format: 1\nledger:\n  - taken: T-01\n", ""],
    ["a ledger whose last line does not end", "format: 1\nledger:\n  - taken: T-01", "\n"],
  ])("goes to the end of %s", (_, before, head) => {
    expect(written(takenEdit(before, "T-02", undefined), before)).toBe(`${head}  - taken: T-02\n`);
  });
});

/** The same list, two entries or none of an invented shop, in the ways that a ledger may be written. */
const one = "{taken: T-11, date: 2026-03-01}";
const two = "{keyed: T-12, rests on: {knot/let.a: 1 mm}}";
const inLines = (indent: string): string =>
  ["- taken: T-11", "  date: 2026-03-01", "- keyed: T-12", "  rests on:", "    knot/let.a: 1 mm"]
    .map((line) => `${indent}${line}\n`)
    .join("");
const ways: Readonly<Record<string, string>> = {
  "dashes without indent": `format: 1\nledger:\n${inLines("")}`,
  "two blanks": `format: 1\nledger:\n${inLines("  ")}`,
  "four blanks": `format: 1\nledger:\n${inLines("    ")}`,
  "a last line that does not end": `format: 1\nledger:\n${inLines("  ")}`.trimEnd(),
  "carriage returns": `format: 1\nledger:\n${inLines("    ")}`.replaceAll("\n", "\r\n"),
  "a dash on a line of its own": `format: 1\nledger:\n  -\n    taken: T-11\n    date: 2026-03-01\n  - ${two}\n`,
  "a text over lines": `format: 1\nledger:\n  - ${one}\n  - apart: T-12\n    reason: >-\n      wet,\n      or cold\n\n`,
  "comments after": `format: 1\nledger: # ours\n  # the first\n${inLines("  ")}    # of it\n  # of the list\n\n# of the file\n`,
  "a key below": `ledger:\n${inLines("  ")}format: 1\n`,
  "a key below dashes without indent": `ledger:\n${inLines("")}\n# of the format\nformat: 1 # the first`,
  brackets: `format: 1\nledger: [${one}, ${two}]\n`,
  "brackets and a comma at the end": `format: 1\nledger: [${one}, ${two},]\n`,
  "brackets and a blank before the comma": `format: 1\nledger: [${one}, ${two} , ] # ours\n`,
  "a member a line": `ledger: [\n    ${one}, # first\n    ${two} # [last,]\n  ]\nformat: 1\n`,
  "a member a line and a comma at the end": `ledger: [\n    ${one}, # first\n    ${two}, # [last,]\n  ]\nformat: 1\n`,
  "a comma on the bracket's line": `ledger: [\n  ${one},\n  ${two}\n  , ]\nformat: 1\n`,
  "members without braces": "format: 1\nledger: [taken: T-11, taken: T-12]\n",
  "brackets within braces": `{ledger: [${one}, ${two}], format: 1}\n`,
  "nothing in brackets": "format: 1\nledger: []\n",
  "nothing in brackets, with a key below": "ledger: [ ] # nothing yet\nformat: 1\n",
  "a comment in brackets": "format: 1\nledger: [ # nothing yet\n  ]\n",
  "nothing in brackets within braces": "{format: 1, ledger: []}",
};
const lists = fc.constantFrom(...Object.entries(ways));
const readAs = (text: string): Ledger => {
  const { ledger, errors } = readLedger(text);
  expect(errors, text).toEqual([]);
  return ledger!;
};
/** Every scalar as its text: an independent reader's word for what stands in the list. */
const rows = (text: string): unknown[] => parse(text, { schema: "failsafe" }).ledger;

describe("a list that is written in another way", () => {
  test.each(Object.entries(ways))("is one that is read: %s", (_, text) => {
    readAs(text);
  });
  test("is read, after entries of each kind, as it was and with them at its end, and nothing of the text is lost", () => {
    const words = fc.string({ minLength: 1, maxLength: 8, unit: fc.constantFrom(..."ab -:#,[]{}'\"\\&*!|>%") });
    const came12 = came({ kind: "value", value: 0.0003, uncertainty: 0 }, true);
    fc.assert(
      fc.property(lists, words, ([, text], reason) => {
        const steps: readonly ((t: string) => Edit)[] = [
          (t) => takenEdit(t, "T-21", undefined),
          (t) => apartEdit(t, "T-22", reason, "2026-04-01"),
          (t) => keyedEdit(t, "T-23", new Map([[`knot/${reason}`, reason]]), undefined),
          (t) => keyedEdit(t, "T-24", new Map(), undefined),
          (t) => frozenEdit(t, frozen, "mm"),
          (t) => scoredEdit(t, came12, { date: undefined, late: reason, shownIn: "mm" }),
        ];
        let now = text;
        for (const [i, step] of steps.entries()) {
          const edit = step(now);
          edit.changes.iterChangedRanges((from, to) => expect(to).toBe(from));
          now = applied(edit, now);
          readAs(now);
          expect(rows(now).slice(0, -i - 1)).toEqual(rows(text));
        }
        expect(rows(now).slice(-6, -2)).toEqual([
          { taken: "T-21" },
          { apart: "T-22", reason, date: "2026-04-01" },
          { keyed: "T-23", "rests on": { [`knot/${reason}`]: reason } },
          { keyed: "T-24", "rests on": {} },
        ]);
        const [was, is] = [readAs(text), readAs(now)];
        expect(is.taken).toEqual(new Map([...was.taken, ["T-21", undefined]]));
        expect(is.apart).toEqual(new Map([...was.apart, ["T-22", reason]]));
        expect(is.frozen.at(-1)).toMatchObject({ id: "L-03", key: frozen.key });
        expect(is.scores.at(-1)).toMatchObject({ frozen: "L-03", late: reason });
      }),
      { seed: 1, numRuns: 100 },
    );
  });
  test.each([
    ["without indent", `ledger:\n${inLines("")}`, "- taken: T-13\n", "format: 1\n"],
    ["with four blanks", `ledger:\n${inLines("    ")}`, "    - taken: T-13\n", "# of the format\nformat: 1\n"],
    ["in brackets", `format: 1\nledger: [${one}`, ", {taken: T-13}", ",] # ours\n"],
    ["in brackets that are empty", "format: 1\nledger: [", "{taken: T-13}", "]\n"],
    ["with a member a line", `ledger: [\n  ${one}, # first\n`, "  {taken: T-13},\n", "]\nformat: 1\n"],
    ["with carriage returns", `format: 1\r\nledger:\r\n- ${one}\r\n`, "- taken: T-13\r\n", ""],
    ["that is not begun", "ledger: # ours\n", "  - taken: T-13\n", "format: 1\n"],
    ["that is missing", "format: 1\n", "ledger:\n  - taken: T-13\n", ""],
  ])("%s gets the entry as it is written itself", (_, above, line, below) => {
    expect(applied(takenEdit(above + below, "T-13", undefined), above + below)).toBe(above + line + below);
  });
  test("is refused where it is no list", () => {
    for (const text of ["format: 1\nledger: none\n", "- taken: T-11\n", "{format: 1}"])
      expect(() => takenEdit(text, "T-13", undefined)).toThrow(new RangeError('"ledger" of ledger.yaml is no list'));
  });
});

test("a number has so many figures in its unit, and no more than it needs", () => {
  expect(inUnitOf(0.00123456, "mm")).toBe("1.235 mm");
  expect(inUnitOf(0.00123456, "mm", 2)).toBe("1.2 mm");
  expect(inUnitOf(2, "N")).toBe("2 N");
  expect(inUnitOf(1 / 3, "")).toBe("0.3333");
  expect(inUnitOf(1 / 1800, "1/h")).toBe("2 /h");
});
test("the next name is free, whatever names there are, and in their order where none was left out", () => {
  const ids = fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { maxLength: 8 });
  fc.assert(
    fc.property(ids, (taken) => {
      const of = taken.map((n) => ({ ...frozen, id: `L-${`${n}`.padStart(2, "0")}` }));
      const id = nextId(of);
      expect(of.map((f) => f.id)).not.toContain(id);
      expect(Number(id.slice(2))).toBeGreaterThan(taken.length);
    }),
    { seed: 1, numRuns: 200 },
  );
  expect(nextId(Array.from({ length: 99 }, (_, i) => ({ ...frozen, id: `L-${i + 1}` })))).toBe("L-100");
});
test("the texts that are hashed stand in the order of their paths, each with its length", () => {
  const texts = new Map([
    ["units/b.yaml", "12"],
    ["project.yaml", "345"],
    ["ledger.yaml", "x"],
    ["units/a.yaml", ""],
  ]);
  expect(canonicalTexts(texts)).toBe("project.yaml\n3\n345\nunits/a.yaml\n0\n\nunits/b.yaml\n2\n12\n");
});
