import type { DimensionWindow, SizingResult } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { movesBought, sizeFrontInput, sizeRowsInput, sizeStep } from "./size-input.ts";

const preload = {
  path: "nip.preload",
  symbol: "N",
  shownIn: "N",
  least: -2,
  most: 4,
  drawn: [
    { W: 12, value: 5 },
    { W: 24, value: 6 },
  ],
};
const window: DimensionWindow = {
  path: "nip.preload",
  at: Float64Array.of(-2, 0, 4),
  least: Float64Array.of(-1, 0.5, -0.2),
  runs: [
    { from: -1.5, to: -1, above: { tape: "b", check: "nip.slips" } },
    { from: -0.5, to: 3, below: { tape: "a", check: "nip.pulls" } },
  ],
};

test("a row counts from what the first width has drawn, and has the run about where it stands", () => {
  const [row] = sizeRowsInput("dunlin", [preload], [1], [window]).rows;
  expect(row).toMatchObject({ least: 3, most: 9, was: 5, now: 6, window: { from: 4.5, to: 8 }, station: 7 });
  expect(row!.ends?.from).toMatchObject({ tape: "a" });
  expect(row!.ends?.to).toBeUndefined();
  expect(row!.note).toContain("12 mm");
  expect(row!.curve.map(({ at, gap }) => [at, gap])).toEqual([
    [3, -1],
    [5, 0.5],
    [9, -0.2],
  ]);
});
test("where no value feeds all there is no run, and without a window no curve", () => {
  expect(sizeRowsInput("dunlin", [preload], [0], [{ ...window, runs: [] }]).rows[0]!.window).toBeNull();
  expect(sizeRowsInput("dunlin", [preload], [0], []).rows[0]!.curve).toEqual([]);
});
test("moves stand in the order in which they buy, those that buy none after what is made", () => {
  const result = {
    unit: "dunlin",
    front: [
      { path: undefined, least: -1, open: 9 },
      { path: "nip.preload", least: 0.2, open: 3 },
    ],
    before: { least: -1.3 },
    after: { least: 0.15 },
    dimensions: [
      { path: "nip.preload", by: 1 },
      { path: "reel.drag", by: 0, idle: 0.1 },
      { path: "let.rin", by: 0 },
    ],
  } as unknown as SizingResult;
  const { moves, made } = sizeFrontInput(result);
  expect(moves.map(({ key, open }) => `${key} ${open}`)).toEqual(["as drawn 9", "nip.preload 3", "reel.drag 3"]);
  expect(made).toBe(1);
  expect(moves.map(({ leastGap }) => leastGap)).toEqual([-1.3, 0.15, 0.15]);
});
test("the first and the last step have the least gap that is told as before and after, those between the quick one", () => {
  const front = [-1.47, -0.28, 0.1].map((least, open) => ({ path: open === 0 ? undefined : `p${open}`, least, open }));
  const told = { before: { least: -1.3 }, after: { least: 0.15 } } as SizingResult;
  expect(movesBought({ ...told, front }).map(({ least }) => least)).toEqual([-1.3, -0.28, 0.15]);
  // Where nothing moves, it is as drawn before and after.
  expect(movesBought({ ...told, front: front.slice(0, 1) }).map(({ least }) => least)).toEqual([-1.3]);
});
test("a hand steps by what is written, or by a two hundredth of wide bounds", () => {
  expect(sizeStep(preload, 0.1)).toBe(0.1);
  expect(sizeStep(preload, 0.001)).toBeCloseTo(0.03, 12);
});
