import { ChangeSet, Text } from "@codemirror/state";
import { changed } from "@tapeworthy/project";
import { describe, expect, test } from "vitest";
import { Gesture } from "./gesture.ts";
import type { NumberView } from "./state.ts";

const file = "units/a.yaml";
const text = 'a: 7 mm   # one\nb: "W + 2.2 mm"\nc: 1..2 mm guess\n';
const mm = 1e-3;
function number(text: string, find: string, more: Partial<NumberView> = {}): NumberView {
  const at = text.indexOf(find);
  const before = text.slice(0, at).split("\n");
  return {
    address: find,
    path: find,
    symbol: "a",
    means: "",
    text: find.replace(/"/g, ""),
    place: { file, line: before.length, column: before.at(-1)!.length + 1, length: find.length },
    value: 7 * mm,
    unit: "m",
    shownIn: "mm",
    letter: "d",
    least: undefined,
    most: undefined,
    step: 0.05 * mm,
    coarse: mm,
    draggable: true,
    guess: undefined,
    onlyWidth: undefined,
    widths: [],
    names: [],
    ...more,
  };
}
const texts = new Map([[file, text]]);
/** Takes the gesture's own edits as the page does. */
function moveTo(gesture: Gesture, by: number, texts: Map<string, string>): void {
  gesture.by = by;
  for (const { file, changes } of gesture.edits(by, texts)!) {
    texts.set(file, changed(texts.get(file)!, changes));
    gesture.follow(file, changes, texts.get(file), true);
  }
}

describe("a hand on numbers", () => {
  test("writes each from its text as it was taken hold of, however many steps it takes, and back to the byte", () => {
    const now = new Map(texts);
    const gesture = new Gesture("g", [number(text, "7 mm"), number(text, '"W + 2.2 mm"')], now);
    for (const by of [0.1, 2.71234, -9, 0.35]) moveTo(gesture, by * mm, now);
    expect(now.get(file)).toBe('a: 7.35 mm   # one\nb: "W + 2.55 mm"\nc: 1..2 mm guess\n');
    moveTo(gesture, 0, now);
    expect(now.get(file)).toBe(text);
  });
  test("moves along with what others write around it", () => {
    const now = new Map(texts);
    const gesture = new Gesture("g", [number(text, "7 mm")], now);
    moveTo(gesture, mm, now);
    const outside = ChangeSet.of(
      [
        { from: 0, insert: Text.of(["# new", ""]) },
        { from: 12, to: 15, insert: "(1)" },
      ],
      now.get(file)!.length,
    );
    now.set(file, changed(now.get(file)!, outside));
    gesture.follow(file, outside, now.get(file), false);
    moveTo(gesture, 2 * mm, now);
    expect(now.get(file)!.split("\n").slice(0, 2)).toEqual(["# new", "a: 9 mm   # (1)"]);
  });
  test("holds nothing any more where somebody has written over its number", () => {
    const now = new Map(texts);
    const gesture = new Gesture("g", [number(text, "7 mm")], now);
    const outside = ChangeSet.of({ from: 3, to: 7, insert: "5 cm" }, text.length);
    now.set(file, changed(text, outside));
    gesture.follow(file, outside, now.get(file), false);
    expect(gesture.edits(mm, now)).toBeUndefined();
  });
  test("keeps to the grid, and to the narrowest of its numbers' bounds without leaving the grid", () => {
    const narrow = { least: 6.93 * mm, most: 9.47 * mm };
    const gesture = new Gesture(
      "g",
      [number(text, "7 mm", narrow), number(text, '"W + 2.2 mm"', { most: 9 * mm })],
      texts,
    );
    const at = (by: number, grid: "fine" | "coarse" | "free") => +(gesture.onGrid(by * mm, grid) / mm).toFixed(9);
    expect([at(0.32, "fine"), at(0.33, "fine"), at(1.4, "coarse"), at(0.333, "free")]).toEqual([0.3, 0.35, 1, 0.333]);
    expect([at(50, "fine"), at(50, "coarse"), at(-50, "fine"), at(-50, "free")]).toEqual([2, 2, -0.05, -0.07]);
  });
  test("of a guess takes hold of nothing", () => {
    const guess = number(text, "1..2 mm guess", { draggable: false, step: 0 });
    const gesture = new Gesture("g", [guess], texts);
    expect([gesture.onGrid(mm, "fine"), gesture.edits(mm, texts)]).toEqual([0, []]);
  });
  test("trusts slopes for forty steps", () => {
    expect(new Gesture("g", [number(text, "7 mm")], texts).reach).toBeCloseTo(2 * mm, 12);
  });
});
