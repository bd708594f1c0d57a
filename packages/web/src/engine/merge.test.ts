import { changed } from "@tapeworthy/project";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { merged } from "./merge.ts";

const both = (before: string, mine: string, theirs: string) => {
  const { again, clashes } = merged(before, mine, theirs);
  return { text: changed(theirs, again), clashes };
};
describe("two texts that came of one", () => {
  test("go together where they changed different lines, neighbours too", () => {
    expect(both("a\nb\nc\n", "A\nb\nc\n", "a\nB\nc\n")).toEqual({ text: "A\nB\nc\n", clashes: [] });
    expect(both("a\nb\n", "x\na\nb\n", "a\nb\ny\n")).toEqual({ text: "x\na\nb\ny\n", clashes: [] });
  });
  test("are one where both did the same", () => {
    expect(both("a\nb\n", "a\nx\n", "a\nx\n")).toEqual({ text: "a\nx\n", clashes: [] });
  });
  test("clash where both changed a line, with what each made of it and where theirs stands", () => {
    expect(both("a\nb\nc\n", "a\nmine\nc\n", "new\na\ntheirs\nc\n")).toEqual({
      text: "new\na\ntheirs\nc\n",
      clashes: [{ before: "b\n", mine: "mine\n", theirs: "theirs\n", from: 6, to: 13 }],
    });
  });
  test("clash over all lines that hang together", () => {
    expect(both("a\nb\nc\nd\n", "a\nX\nd\n", "a\nb\nY\nd\n").clashes).toEqual([
      { before: "b\nc\n", mine: "X\n", theirs: "b\nY\n", from: 2, to: 6 },
    ]);
  });
  test("clash where one removed what the other changed", () => {
    expect(both("a\nb\nc\n", "a\nc\n", "a\nB\nc\n").clashes).toEqual([
      { before: "b\n", mine: "", theirs: "B\n", from: 2, to: 4 },
    ]);
  });
});

const text = fc
  .array(fc.constantFrom("a", "b", "c", "d"), { maxLength: 7 })
  .map((list) => list.map((l) => `${l}\n`).join(""));
test("each text comes out whole where the other changed nothing", () => {
  fc.assert(
    fc.property(text, text, (before, after) => {
      expect(both(before, after, before)).toEqual({ text: after, clashes: [] });
      expect(both(before, before, after)).toEqual({ text: after, clashes: [] });
      expect(both(before, after, after)).toEqual({ text: after, clashes: [] });
    }),
    { numRuns: 300 },
  );
});
test("every line that was put in is in the text or in a clash", () => {
  const edited = (mark: string) =>
    fc.array(fc.record({ at: fc.nat(9), what: fc.constantFrom("put", "change") }), { maxLength: 3 }).map((edits) => ({
      mark,
      edits,
    }));
  const apply = (
    lines: readonly string[],
    { mark, edits }: { mark: string; edits: { at: number; what: string }[] },
  ) => {
    const out = [...lines];
    const put = edits.map(({ at, what }, i) => {
      const word = `${mark}${i}`;
      const place = at % (out.length + 1);
      if (what === "put" || place >= out.length) out.splice(place, 0, word);
      else if (!/^[mt]/.test(out[place]!)) out[place] = word;
      else return undefined;
      return word;
    });
    return { text: out.map((l) => `${l}\n`).join(""), put };
  };
  fc.assert(
    fc.property(fc.array(fc.constantFrom("a", "b", "c"), { maxLength: 8 }), edited("m"), edited("t"), (lines, m, t) => {
      const [mine, theirs] = [apply(lines, m), apply(lines, t)];
      const found = both(lines.map((l) => `${l}\n`).join(""), mine.text, theirs.text);
      const all = [found.text, ...found.clashes.flatMap((c) => [c.mine, c.theirs])].join("");
      for (const word of [...mine.put, ...theirs.put]) if (word) expect(all).toContain(`${word}\n`);
      for (const { from, to, theirs: there } of found.clashes) expect(theirs.text.slice(from, to)).toBe(there);
    }),
    { numRuns: 500 },
  );
});
