import { describe, expect, test } from "vitest";
import { parseSource, type Source, SourceFile } from "./source.ts";

const file = (text: string) => new SourceFile("a.yaml", text);
/** A tree as plain data, without places. */
function plain(s: Source): unknown {
  if (s.kind === "scalar") return s.text;
  if (s.kind === "list") return s.items.map(plain);
  if (s.kind === "map") return Object.fromEntries([...s.entries].map(([key, e]) => [key, plain(e.value)]));
  return "(broken)";
}
const tree = (text: string) => plain(parseSource(file(text)).tree!);
const errors = (text: string) =>
  parseSource(file(text)).errors.map((e) => `${e.place.line}:${e.place.column}+${e.place.length} ${e.message}`);

describe("a place in a file", () => {
  const source = file("one\ntwo three\r\n\nlast");
  test.each([
    [0, 3, 1, 1, 3],
    [4, 7, 2, 1, 3],
    [8, 13, 2, 5, 5],
    [8, 99, 2, 5, 5],
    [13, 15, 2, 10, 1],
    [15, 16, 3, 1, 1],
    [16, 20, 4, 1, 4],
    [20, 21, 4, 5, 1],
    [99, 120, 4, 5, 1],
  ])(
    "from %i to %i is at line %i, column %i, %i long, and never goes into the next line",
    (from, to, line, column, length) => {
      expect(source.place(from, to)).toEqual({ file: "a.yaml", line, column, length });
    },
  );
  test("leads back to its offset", () => {
    for (let i = 0; i <= source.text.length; i++) expect(source.offset(source.place(i, i + 1))).toBe(i);
  });
  test("has its line without what ends it", () => {
    expect([1, 2, 3, 4, 5].map((line) => source.lineText(line))).toEqual([
      "one",
      "two three",
      "",
      "last",
      "one\ntwo three\r\n\nlast".split("\n")[0],
    ]);
  });
});

describe("a file's text", () => {
  test("keeps every value as it stands: no number, date or truth is read into it", () => {
    expect(tree("a: 4.00\nb: 1e3\nc: true\nd: 2024-01-01\ne: 0x10\nf: ~\ng: null\nh: no\ni: 007\n")).toEqual({
      a: "4.00",
      b: "1e3",
      c: "true",
      d: "2024-01-01",
      e: "0x10",
      f: "~",
      g: "null",
      h: "no",
      i: "007",
    });
  });
  test("may quote, fold and comment", () => {
    expect(
      tree("# first\na: \"x: \\\"y\\\"\" # why\nb: 'it''s'\nc: >\n  one\n  two\nd: |\n  one\n  two\ne: one\n  two\n"),
    ).toEqual({
      a: 'x: "y"',
      b: "it's",
      c: "one two\n",
      d: "one\ntwo\n",
      e: "one two",
    });
  });
  test("may have number-like keys and keys in quotes", () => {
    expect(tree("8: a\n'12': b\n\"tape / board\": c\n1.5: d\ntrue: e\n")).toEqual({
      8: "a",
      12: "b",
      "tape / board": "c",
      "1.5": "d",
      true: "e",
    });
  });
  test("may have a byte order mark, carriage returns, a document's head and foot", () => {
    expect(tree("\ufeffa: 1\r\nb: [2, 3]\r\n")).toEqual({ a: "1", b: ["2", "3"] });
    expect(tree("---\na: 1\n...\n")).toEqual({ a: "1" });
  });
  test("may have a key named as what every object has", () => {
    const { tree: t } = parseSource(file("__proto__: {a: 1}\nconstructor: 2\n"));
    expect(t?.kind === "map" && [...t.entries.keys()]).toEqual(["__proto__", "constructor"]);
    expect(({} as Record<string, unknown>).a).toBeUndefined();
  });
  test("has its values' places with their quotes, and the offsets of what is within", () => {
    const text = "a: 'x y'\nb: [ 1 mm ,\n  2]\n";
    const { tree: t } = parseSource(file(text));
    if (t?.kind !== "map") throw new Error("no map");
    const a = t.entries.get("a")!.value;
    expect(a).toMatchObject({ place: { line: 1, column: 4, length: 5 }, from: 4, to: 7 });
    const b = t.entries.get("b")!.value;
    expect(b.place).toEqual({ file: "a.yaml", line: 2, column: 4, length: 8 });
    expect(b.kind === "list" && b.items.map((i) => i.place)).toEqual([
      { file: "a.yaml", line: 2, column: 6, length: 4 },
      { file: "a.yaml", line: 3, column: 3, length: 1 },
    ]);
    expect(t.entries.get("b")!.keyPlace).toEqual({ file: "a.yaml", line: 2, column: 1, length: 1 });
  });
});

describe("what is broken in a text", () => {
  test("is one value where the rest can be read, and the rest is there", () => {
    const text = "a: *x\nb: &y 1\nc: !z 2\nd:\ne: 5\nf: [1, &q 2, 3]\n? [g]\n: 6\ne: 7\n";
    const read = parseSource(file(text));
    expect(plain(read.tree!)).toEqual({
      a: "(broken)",
      b: "(broken)",
      c: "(broken)",
      d: "(broken)",
      e: "5",
      f: ["1", "(broken)", "3"],
    });
    expect(errors(text)).toEqual([
      '1:4+2 found the reference "*x", expected a value',
      '2:4+2 found the anchor "&y", expected a value',
      '3:4+2 found the tag "!z", expected a value',
      '4:1+1 found "d" without a value, expected a value after the colon',
      '6:8+2 found the anchor "&q", expected a value',
      "7:3+3 found a key that is no word, expected a word and a colon",
      '9:1+1 found the key "e" a second time, expected each key once',
    ]);
  });
  test("ends the reading where the structure is lost, and what follows from it is not said", () => {
    for (const text of [
      "a: {b: 1\nc: 2\nd: [\n",
      "a: 1\n  b: 2\n c: 3\n",
      "a: 'x\nb: 1\nc: 2\n",
      "a: [1\nb]: 2\nc: }\n",
    ]) {
      const read = parseSource(file(text));
      expect(read.tree).toBeUndefined();
      expect(read.errors).toHaveLength(1);
    }
  });
  test("is a key given twice, in whatever quotes, and the first one holds", () => {
    expect(errors("a: 1\n'a': 2\n\"b\": 3\nb: 4\n1.0: 5\n1: 6\n")).toEqual([
      '2:1+3 found the key "a" a second time, expected each key once',
      '4:1+1 found the key "b" a second time, expected each key once',
    ]);
    expect(tree("a: 1\na: 2\n")).toEqual({ a: "1" });
  });
  test("is named by its tag as written", () => {
    expect(errors("a: !!float 1\nb: !<tag:x> 2\nc: ! 3\nd: !!map {e: 1}\n")).toEqual([
      '1:4+7 found the tag "!!float", expected a value',
      '2:4+8 found the tag "!<tag:x>", expected a value',
      '3:4+1 found the tag "!", expected a value',
      '4:4+5 found the tag "!!map", expected a value',
    ]);
  });
  test("is refused in a key as in a value", () => {
    expect(errors("&k a: 1\n!t b: 2\n*k : 3\n")).toEqual([
      '1:1+2 found the anchor "&k", expected a value',
      '2:1+2 found the tag "!t", expected a value',
      '3:1+2 found the reference "*k", expected a value',
    ]);
  });
  test.each([
    ["brackets", "[".repeat(50_000)],
    ["braces", "a: " + "{b: ".repeat(20_000)],
    ["dashes", "- ".repeat(50_000)],
    ["closed brackets", `a: ${"[".repeat(200)}${"]".repeat(200)}`],
    ["indents", Array.from({ length: 60 }, (_, i) => `${" ".repeat(i)}a:\n`).join("")],
  ])("is one error for %s nested without end", (_, text) => {
    const read = parseSource(file(text));
    expect(read.errors.map((e) => e.message)).toEqual(["found values nested very deeply, expected at most 40 levels"]);
  });
  test("is a control character wherever it stands, but not a tab between words", () => {
    for (const code of [0, 1, 8, 11, 12, 27, 31, 127, 0x85, 0x9f]) {
      const name = code.toString(16).padStart(4, "0").toUpperCase();
      expect(errors(`a: 1\nb: "x${String.fromCharCode(code)}"\n`)).toEqual([
        `2:6+1 found the control character U+${name}, expected plain text`,
      ]);
    }
    expect(tree("a: 1\t# one\n")).toEqual({ a: "1" });
  });
  test("is a text without anything in it", () => {
    for (const text of ["", "\n\n", "# later\n", "---\n", "\ufeff"])
      expect(errors(text)).toEqual(['1:1+1 found an empty file, expected a design file that begins with "format: 1"']);
  });
});
