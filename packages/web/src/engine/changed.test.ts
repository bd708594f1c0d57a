import type { Finding, TapeResult, Verdict } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { changedSince, textChanges } from "./changed.ts";
import type { NumberView } from "./state.ts";

const file = "units/a.yaml";
const number = (path: string, text: string, line: number, onlyWidth?: number) =>
  ({
    address: `a/${onlyWidth ? `per width.${onlyWidth}.` : ""}${path}`,
    path,
    text,
    onlyWidth,
    place: { file, line },
  }) as NumberView;
const snapshot = (text: string, numbers: NumberView[], drawn: [string, TapeResult][] = []) => ({
  texts: new Map([[file, text]]),
  numbers,
  drawn: new Map(drawn),
});
const result = (tape: string, verdict: Verdict, check: Verdict): TapeResult =>
  ({
    unit: "a",
    tape,
    W: 8,
    verdict,
    share: 0.5,
    findings: [{ check: "c", severity: "S", verdict: check, share: 0.5 } as Finding],
  }) as unknown as TapeResult;

describe("what was changed", () => {
  test("is the number whose text is another, with both texts and its line as it is now", () => {
    const before = snapshot("x: 1 mm\ny: 2 mm\n", [number("x", "1 mm", 1), number("y", "2 mm", 2)]);
    const after = new Map([[file, "# new\nx: 1 mm\ny: 3 mm\n"]]);
    expect(textChanges(before, after, [number("x", "1 mm", 2), number("y", "3 mm", 3)])).toEqual([
      { address: "a/y", file, line: 3, before: "2 mm", after: "3 mm" },
    ]);
  });
  test("is a number for one width held against the family's", () => {
    const before = snapshot("x: 1 mm\n", [number("x", "1 mm", 1)]);
    const after = new Map([[file, "per width: {24: {x: 5 mm}}\nx: 1 mm\n"]]);
    expect(textChanges(before, after, [number("x", "5 mm", 1, 24)])).toMatchObject([
      { address: "a/per width.24.x", before: "1 mm", after: "5 mm" },
    ]);
  });
  test("is the lines themselves where they hold no number on screen", () => {
    const before = snapshot("note: old words\nx: 1 mm\n", [number("x", "1 mm", 2)]);
    const after = new Map([
      [file, "note: new words\nx: 1 mm\n"],
      ["tapes/b.yaml", "W: 8 mm\n"],
    ]);
    expect(textChanges(before, after, [number("x", "1 mm", 2)])).toEqual([
      { address: undefined, file, line: 1, before: "note: old words", after: "note: new words" },
      { address: undefined, file: "tapes/b.yaml", line: 1, before: "", after: "W: 8 mm" },
    ]);
  });
  test("is nothing where everything is as it was", () => {
    const before = snapshot("x: 1 mm\n", [number("x", "1 mm", 1)]);
    expect(textChanges(before, before.texts, before.numbers)).toEqual([]);
  });
});

test("what a change moved is told of the pairs that are drawn, worse and better counted", () => {
  const before = snapshot(
    "",
    [],
    [
      ["a p", result("p", "feeds", "feeds")],
      ["a q", result("q", "stops", "stops")],
      ["a r", result("r", "feeds", "feeds")],
    ],
  );
  const now = new Map([
    ["a p", result("p", "depends", "stops")],
    ["a q", result("q", "feeds", "feeds")],
    ["a r", before.drawn.get("a r")!],
    ["a s", result("s", "stops", "stops")],
  ]);
  const found = changedSince(before, before.texts, now, [], false);
  expect(found.flips.map((f) => [f.tape, f.check, f.worse])).toEqual([
    ["p", undefined, true],
    ["p", "c", true],
    ["q", undefined, false],
    ["q", "c", false],
  ]);
  expect([found.worse, found.better, found.settled]).toEqual([2, 2, false]);
});
