import type { Ladder, LadderLine, LadderPoint } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { elementsOf, pointsOf } from "./example.fixture.ts";
import { ladder } from "./ladder.ts";
import { ladderInput } from "./ladder-input.ts";
import { toSvg } from "./scene.ts";

const at = (W: number, middle: number, above = false): LadderPoint => ({
  W,
  above,
  gap: { low: null, middle: null, high: null },
  margin: { low: middle - 1, middle, high: middle + 1 },
  share: 1,
});
const line = (check: string, more: Partial<LadderLine>): LadderLine => ({
  check,
  station: 4,
  severity: "S",
  title: check,
  unit: "1",
  contradicted: false,
  spans: [{ from: 8, to: 32, verdict: "feeds", by: [] }],
  turns: [],
  median: [],
  points: [at(8, 5), at(16, 4), at(32, 3)],
  ...more,
});
const mismatch = line("film.mismatch", {
  spans: [
    { from: 8, to: 12.4, verdict: "feeds", by: [] },
    { from: 12.4, to: 16, verdict: "depends", by: [] },
    { from: 16, to: 32, verdict: "stops", by: [] },
  ],
  turns: [
    { W: 12.4, where: "between 12 and 16 (about 12.4)", before: "feeds", after: "depends", step: null },
    { W: 16, where: "above 16 (P1 8 to 12 mm)", before: "depends", after: "stops", step: "P1 8 to 12 mm" },
  ],
  points: [at(8, 6), at(12, 3), at(16, 2.1), at(16, 1, true), at(32, -3)],
});
const gone = line("entry.pockets", {
  spans: [
    { from: 8, to: 12, verdict: "stops", by: [] },
    { from: 12, to: 16, verdict: "n/a", by: ["no pockets"] },
    { from: 16, to: 32, verdict: "feeds", by: [] },
  ],
  turns: [
    { W: 12, where: "at 12", before: "stops", after: "n/a", step: null },
    { W: 16, where: "at 16", before: "n/a", after: "feeds", step: null },
  ],
  points: [at(8, 1), at(12, 1.5), at(16, 4), at(32, 5)],
});
const climbed: Ladder = {
  unit: "plover",
  name: "Plover",
  from: 8,
  to: 32,
  allowed: 2.0537,
  rows: [8, 12, 16, 24, 32],
  tapes: [],
  leftOut: [],
  spans: [],
  turns: [],
  points: [],
  lines: [
    mismatch,
    gone,
    line("film.kern", { severity: "L" }),
    line("nip.pulls", { contradicted: true }),
    line("nip.slips", {}),
    line("mount.slots", { points: [] }),
  ],
  steps: [
    { W: 8, step: "R 25 to 30 mm", moves: [] },
    { W: 16, step: "P1 8 to 12 mm", moves: ["film.mismatch"] },
    { W: 16, step: "F ±0.05 to ±0.1 mm", moves: ["film.mismatch", "film.kern"] },
    { W: 24, step: "P2 ±0.1 to ±0.15 mm", moves: ["film.kern"] },
  ],
};
const input = ladderInput(climbed, [16, 24]);

describe("a climbed ladder becomes a drawing's input", () => {
  test("with a line for each hard check that can stop a tape, by its short name", () => {
    expect(input.lines.map((l) => l.check)).toEqual(["film.mismatch", "entry.pockets", "nip.slips"]);
    expect(input.lines[0]!.name).toBe("mismatch");
  });
  test("with margins at the median and the two points of belief, both sides of a step", () => {
    expect(input.lines[0]!.points.map((p) => [p.W, p.value, p.low, p.high])).toEqual([
      [8, 6, 5, 7],
      [12, 3, 2, 4],
      [16, 2.1, 1.1, 3.1],
      [16, 1, 0, 2],
      [32, -3, -4, -2],
    ]);
    expect([input.kind, input.allowed, input.widths, input.wanted]).toEqual(["margin", 2.0537, climbed.rows, [16, 24]]);
  });
  test("with what turns where, in the ladder's own words; what fails the least width does so from there", () => {
    expect(input.crossings).toEqual([
      { check: "film.mismatch", W: 12.4, label: "between 12 and 16 (about 12.4)", from: "depends" },
      { check: "film.mismatch", W: 16, label: "above 16 (P1 8 to 12 mm)", from: "stops" },
      { check: "entry.pockets", W: 8, label: "from 8", from: "stops" },
      { check: "entry.pockets", W: 16, label: "at 16", from: "feeds" },
    ]);
  });
  test("with the steps that move a line, those of one width together", () => {
    expect(input.jumps).toEqual([{ W: 16, step: "P1 8 to 12 mm, F ±0.05 to ±0.1 mm" }]);
  });
  test("with a line that is broken where the check does not apply", () => {
    expect(input.lines[1]!.points.map((p) => p.anew ?? false)).toEqual([false, false, true, false]);
    expect(input.lines[0]!.points.some((p) => p.anew)).toBe(false);
  });
});

describe("drawn", () => {
  const elements = elementsOf(toSvg(ladder(input, { width: 560, height: 440 }), { prefix: "l" }));
  test("a broken line has a gap: two strokes that begin where the check applies", () => {
    const d = elements.find((e) => e.attributes["data-check"] === "entry.pockets")!.attributes.d!;
    expect(d.match(/M/g)).toHaveLength(2);
    expect(pointsOf(d)).toHaveLength(4);
  });
  test("the check that fails from the least width is the first to stop", () => {
    const words = elements.find((e) => e.attributes["data-crossing"] === "entry.pockets");
    expect(words!.attributes["data-w"]).toBe("8");
  });
  test("a check that feeds again is marked and is no first trouble", () => {
    const feeds = elements.filter((e) => e.attributes["data-crossing"] === "entry.pockets");
    expect(feeds.map((e) => e.attributes["data-w"])).toEqual(["8", "16"]);
    const calm = ladder(
      { ...input, crossings: [{ check: "nip.slips", W: 16, label: "at 16", from: "feeds" }] },
      { width: 560, height: 440 },
    );
    expect(toSvg(calm, { prefix: "c" })).toContain("no check crosses the line");
  });
});
