import { ChangeSet } from "@codemirror/state";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { changed, textOf } from "./changes.ts";
import { lineTouchedTwice, touchedBy } from "./lines.ts";
import { anySpot, anyText, changeAt } from "./text.fixture.ts";

const text = "one\ntwo\nthree\n";
const put = (from: number, to: number, insert: string, of = text): ChangeSet =>
  ChangeSet.of({ from, to, insert: textOf(insert) }, of.length);

describe("a change touches", () => {
  test.each([
    ["the line of a character", put(5, 6, "x"), [3, 3]],
    ["both lines it begins and ends in", put(2, 5, ""), [1, 3]],
    ["a whole line that is replaced", put(4, 8, "TWO\n"), [3, 3]],
    ["a whole line that is removed", put(4, 8, ""), [3, 3]],
    ["whole lines with the gap between them", put(0, 8, "x\n"), [1, 3]],
    ["only the gap that whole lines are put into", put(4, 4, "x\ny\n"), [2, 2]],
    ["the line below too where the last line put in has no break", put(4, 8, "TWO"), [3, 5]],
    ["a line and the gap above it where characters come to its beginning", put(4, 4, "x"), [2, 3]],
    ["a line and the gap below it where characters come to its end", put(7, 7, "x"), [3, 4]],
    ["a line and the gap below it where it is broken at its end", put(7, 7, "\nx"), [3, 4]],
    ["the gap behind the last line where something comes to the end", put(14, 14, "x"), [6, 6]],
    ["the gap behind the last line where whole lines come to the end", put(14, 14, "x\n"), [6, 6]],
    ["the gap of an empty text", put(0, 0, "x", ""), [0, 0], ""],
    ["a last line without a break", put(4, 7, "x\n", "one\ntwo"), [3, 3], "one\ntwo"],
    ["a last line without a break and the gap behind it", put(7, 7, "x", "one\ntwo"), [3, 4], "one\ntwo"],
  ] as const)("%s", (_, change, [from, to], of: string = text) => {
    expect(touchedBy(change, of)).toEqual([{ from, to }]);
  });
  test("nothing where nothing changes", () => expect(touchedBy(ChangeSet.empty(text.length), text)).toEqual([]));
});

describe("two changes", () => {
  test("of one line meet in it, and it is named from 1", () => {
    expect(lineTouchedTwice(put(4, 5, "T"), put(6, 7, "O"), text)).toBe(2);
  });
  test("of neighbouring lines keep apart", () => {
    expect(lineTouchedTwice(put(4, 8, "TWO\n"), put(8, 14, "THREE\n"), text)).toBeUndefined();
    expect(lineTouchedTwice(put(0, 3, "ONE"), put(4, 7, "TWO"), text)).toBeUndefined();
  });
  test("that put lines into one gap meet", () => {
    expect(lineTouchedTwice(put(4, 4, "x\n"), put(4, 4, "y\n"), text)).toBe(2);
    expect(lineTouchedTwice(put(14, 14, "x\n"), put(14, 14, "y"), text)).toBe(4);
  });
  test("one of them none, keep apart", () => {
    expect(lineTouchedTwice(put(4, 8, ""), ChangeSet.empty(text.length), text)).toBeUndefined();
  });
});

// Two changes of whole lines, against a list of lines that knows nothing of characters. [independent way]
test("changes of different whole lines go together as a list of lines would have it", () => {
  const lines = ["a\n", "b\n", "\n", "d\n", "e\n"];
  const whole = lines.join("");
  const at = (i: number): number => lines.slice(0, i).join("").length;
  const one = fc.record({
    i: fc.nat(4),
    what: fc.constantFrom("removed", "replaced", "above"),
    with: fc.constantFrom("x\n", "x\ny\n"),
  });
  const change = ({ i, what, with: insert }: { i: number; what: string; with: string }): ChangeSet =>
    ChangeSet.of(
      { from: at(i), to: what === "above" ? at(i) : at(i + 1), insert: textOf(what === "removed" ? "" : insert) },
      whole.length,
    );
  fc.assert(
    fc.property(one, one, (a, b) => {
      fc.pre(a.i !== b.i);
      const slots = lines.map((line) => ({ above: "", line }));
      for (const { i, what, with: insert } of [a, b]) {
        if (what === "above") slots[i]!.above = insert;
        else slots[i]!.line = what === "removed" ? "" : insert;
      }
      const [p, q] = [change(a), change(b)];
      expect(lineTouchedTwice(p, q, whole)).toBeUndefined();
      const wanted = slots.map(({ above, line }) => above + line).join("");
      expect(changed(whole, p.compose(q.map(p)))).toBe(wanted);
      expect(changed(whole, q.compose(p.map(q)))).toBe(wanted);
    }),
    { seed: 5, numRuns: 600 },
  );
});
test("changes that touch no common line give the same text, whichever comes first", () => {
  let apart = 0;
  fc.assert(
    fc.property(anyText, fc.array(anySpot, { minLength: 1, maxLength: 3 }), anySpot, (of, spots, spot) => {
      const a = spots.reduce((all, one) => all.compose(changeAt(changed(of, all), one)), ChangeSet.empty(of.length));
      const b = changeAt(of, spot);
      if (lineTouchedTwice(a, b, of) !== undefined) return;
      if (!a.empty && !b.empty) apart++;
      const one = changed(of, a.compose(b.map(a)));
      expect(changed(of, b.compose(a.map(b)))).toBe(one);
      expect(changed(of, b.compose(a.map(b, true)))).toBe(one);
    }),
    { seed: 6, numRuns: 20_000 },
  );
  expect(apart).toBeGreaterThan(3000);
});
test("it does not matter which of two changes is named first", () => {
  fc.assert(
    fc.property(anyText, anySpot, anySpot, (of, p, q) => {
      const [a, b] = [changeAt(of, p), changeAt(of, q)];
      expect(lineTouchedTwice(a, b, of)).toBe(lineTouchedTwice(b, a, of));
    }),
    { seed: 7, numRuns: 3000 },
  );
});
