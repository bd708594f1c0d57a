import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { changed, toJson } from "./changes.ts";
import { lineDiff } from "./line-diff.ts";
import { touchedBy } from "./lines.ts";
import { anyText } from "./text.fixture.ts";

const lines = (text: string): string[] => text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
/** Length of the longest common subsequence by the table of Wagner and Fischer 1974 [memory]: slow, and another way than the one tested. */
function longestCommon(a: readonly string[], b: readonly string[]): number {
  let row = new Array<number>(b.length + 1).fill(0);
  for (const line of a) {
    const next = [0];
    for (let j = 1; j <= b.length; j++)
      next.push(line === b[j - 1] ? row[j - 1]! + 1 : Math.max(row[j]!, next[j - 1]!));
    row = next;
  }
  return row[b.length]!;
}
/** How many lines a change between two texts keeps. */
function keptLines(before: string, after: string): number {
  let kept = lines(before).length;
  lineDiff(before, after).iterChanges((from, to) => {
    kept -= lines(before.slice(from, to)).length;
  }, true);
  return kept;
}

test("the difference of two texts leads from one to the other", () => {
  fc.assert(
    fc.property(anyText, anyText, (a, b) => {
      expect(changed(a, lineDiff(a, b))).toBe(b);
    }),
    { seed: 3, numRuns: 3000 },
  );
});
test("no way of whole lines keeps more lines than the difference does", () => {
  fc.assert(
    fc.property(anyText, anyText, (a, b) => {
      expect(keptLines(a, b)).toBe(longestCommon(lines(a), lines(b)));
    }),
    { seed: 4, numRuns: 3000 },
  );
});
test("one changed line of many is one changed line", () => {
  const before = Array.from({ length: 2000 }, (_, i) => `line ${i % 7}\n`).join("");
  const after = before.replace(/^((?:.*\n){900}).*\n/, "$1other\n");
  const diff = lineDiff(before, after);
  expect(touchedBy(diff, before)).toEqual([{ from: 1801, to: 1801 }]);
});
test("equal texts differ in nothing", () => {
  expect(lineDiff("a\nb", "a\nb").empty).toBe(true);
  expect(toJson(lineDiff("", ""))).toEqual([]);
});
describe("texts that have nothing in common", () => {
  const [a, b] = ["a", "b"].map((letter) => Array.from({ length: 5000 }, (_, i) => `${letter}${i}\n`).join(""));
  test("are replaced whole", () => {
    const diff = lineDiff(a!, b!);
    expect(changed(a!, diff)).toBe(b);
  });
  test("but for their ends keep those", () => {
    const diff = lineDiff(`first\n${a}last\n`, `first\n${b}last\n`);
    expect(touchedBy(diff, `first\n${a}last\n`)).toEqual([{ from: 3, to: 2 * 5000 + 1 }]);
  });
});
