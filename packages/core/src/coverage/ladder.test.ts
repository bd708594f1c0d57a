import { describe, expect, test } from "vitest";
import type { Check } from "../quantity/check.ts";
import { beliefDraws } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, number } from "../study/plain.fixture.ts";
import { nominalOf } from "../tape/served.ts";
import { climb } from "./climb.ts";
import { atMost, family, piece, sceneAt, step } from "./family.fixture.ts";
import type { WidthPiece } from "./family.ts";
import { type Ladder, ladderOf, placed, sayFirst, saySpans, type VerdictSpan } from "./ladder.ts";

const deviates = new Deviates(1);
const made = (pieces: readonly WidthPiece[], checks: readonly Check[], contradicted = new Set<string>()): Ladder => {
  const climbing = { checks, deviates, weights: alike(beliefDraws), contradicted };
  return ladderOf(
    family(pieces),
    pieces.map((p) => climb(p, climbing)),
    checks,
    contradicted,
    0.02,
  );
};
const spans = (list: readonly VerdictSpan[]) => list.map((s) => [+s.from.toFixed(1), +s.to.toFixed(1), s.verdict]);
const scatter = number("e", "0 sd 0.1");
const grows = atMost("grows", "W + e", number("limit", "13..15 guess"), { e: scatter });
const pitch = atMost("pitch", "P1", number("most", "10"));
const alone = (W: number, P1?: number) => piece(W, W, { scene: () => sceneAt(W, P1) });

describe("a unit that grows out of its limit between 12 and 16 mm", () => {
  const ladder = made([alone(8), piece(8, 12), piece(12, 16), piece(16, 24)], [grows]);
  const [line] = ladder.lines;
  test("feeds, then depends, then stops, and its spans have no gap between them", () => {
    expect(line!.spans.map((s) => s.verdict)).toEqual(["feeds", "depends", "stops"]);
    expect(line!.spans[0]!.from).toBe(8);
    expect(line!.spans.at(-1)!.to).toBe(24);
    expect(line!.spans.slice(1).map((s) => s.from)).toEqual(line!.spans.slice(0, -1).map((s) => s.to));
  });
  test("says between which catalogue widths it turns, and about where", () => {
    expect(line!.turns.map((t) => [t.before, t.after, t.step])).toEqual([
      ["feeds", "depends", null],
      ["depends", "stops", null],
    ]);
    for (const { W, where } of line!.turns) {
      expect([W > 12, W < 16]).toEqual([true, true]);
      expect(where).toBe(`between 12 and 16 (about ${+W.toPrecision(3)})`);
    }
    expect(line!.median).toHaveLength(1);
  });
  test("is in trouble where its only check is, and names it", () => {
    expect(spans(ladder.spans)).toEqual(spans(line!.spans));
    expect(ladder.spans.map((s) => s.by)).toEqual([[], ["grows"], ["grows"]]);
  });
  test("is said in a sentence", () => {
    const [a, b] = line!.turns.map((t) => `${+t.W.toPrecision(3)}`);
    expect(sayFirst(ladder)).toBe(`Depends from ${a}, stops at ${b}.`);
    expect(saySpans(ladder.spans)).toBe(`feeds to ${a}, depends to ${b}, stops above`);
  });
  test("has its points in order of width, those above a step marked", () => {
    const looked = line!.points.filter((p) => Object.values(p.gap).every((g) => g !== 0));
    expect(looked.map((p) => p.W)).toEqual([8, 8, 9, 10, 11, 12, 12, 13, 14, 15, 16, 16, 18, 20, 22, 24]);
    expect(line!.points.map((p) => p.W)).toEqual(line!.points.map((p) => p.W).sort((a, b) => a - b));
    expect(line!.points.filter((p) => p.above).map((p) => p.W)).toEqual([8, 12, 16]);
  });
  test("has a point on the allowed line at each width where a point of belief crosses it", () => {
    for (const [point, W] of [
      ["low", line!.turns[0]!.W],
      ["middle", line!.median[0]!.W],
      ["high", line!.turns[1]!.W],
    ] as const) {
      const there = line!.points.find((p) => p.W === W)!;
      expect([there.gap[point], there.margin[point]]).toEqual([0, ladder.allowed]);
      expect(there.margin.low <= there.margin.middle && there.margin.middle <= there.margin.high).toBe(true);
    }
  });
  test("draws the allowed line where an allowance of 2 % is kept", () => expect(ladder.allowed).toBeCloseTo(2.0537, 4));
});

describe("a jump", () => {
  const steps = [step("P1 8 to 12 mm")];
  const pieces = [alone(8, 8), piece(8, 16, { P1: 8, joined: true }), piece(16, 24, { P1: 12, steps })];
  const ladder = made(pieces, [grows, pitch]);
  const line = ladder.lines.find((l) => l.check === "pitch")!;
  test("says what takes the step that causes it, and that the catalogue's own width is still below it", () => {
    expect(line.turns).toEqual([
      { W: 16, where: "above 16 (P1 8 to 12 mm)", before: "feeds", after: "stops", step: "P1 8 to 12 mm" },
    ]);
    expect(spans(line.spans)).toEqual([
      [8, 16, "feeds"],
      [16, 24, "stops"],
    ]);
  });
  test("is listed with the checks that it moves", () => {
    expect(ladder.steps).toEqual([{ W: 16, step: "P1 8 to 12 mm", moves: ["pitch"] }]);
  });
  test("leaves checks that do not rest on it where they were", () => {
    const other = ladder.lines.find((l) => l.check === "grows")!;
    expect(other.turns.every((t) => t.step === null)).toBe(true);
  });
});

describe("a check that does not apply everywhere", () => {
  const nip = atMost(
    "nip",
    "W",
    number("far", "99"),
    {},
    {
      absent: ({ tape }) => (nominalOf(tape.letters.P1) > 5 ? "the unit has no nip" : undefined),
    },
  );
  const word = { text: "seal heat activated to not said", gives: () => [], word: true as const };
  const ladder = made([alone(8), piece(8, 12), piece(12, 16, { P1: 8, steps: [word] })], [nip, grows]);
  const line = ladder.lines[0]!;
  test("has a gap in its line, with the reason, and is never a pass there", () => {
    expect(line.spans).toEqual([
      { from: 8, to: 12, verdict: "feeds", by: [] },
      { from: 12, to: 16, verdict: "n/a", by: ["the unit has no nip"] },
    ]);
    expect(Math.max(...line.points.map((p) => p.W))).toBe(12);
    expect(saySpans(line.spans)).toBe("feeds to 12, not applicable above");
  });
  test("turns at the word that takes it away", () =>
    expect(line.turns[0]!.where).toBe("above 12 (seal heat activated to not said)"));
});
test("where there is no unit of a width the whole unit has no verdict, and the reason is kept", () => {
  const broken = piece(12, 16, { scene: () => "units/one.yaml:3:4: found -1 mm, expected more" });
  const ladder = made([alone(8), piece(8, 12), broken], [atMost("fine", "W", number("far", "99"))]);
  expect(ladder.spans.map((s) => s.verdict)).toEqual(["feeds", "n/a"]);
  expect(ladder.lines[0]!.spans[1]!.by).toEqual(["units/one.yaml:3:4: found -1 mm, expected more"]);
});
test("a check that the record contradicts is shown and turns nothing", () => {
  const ladder = made([alone(8), piece(8, 24)], [grows, atMost("fine", "W", number("far", "99"))], new Set(["grows"]));
  expect(ladder.lines[0]).toMatchObject({ check: "grows", contradicted: true });
  expect(ladder.lines[0]!.turns.length).toBe(2);
  expect(ladder.turns).toEqual([]);
});

describe("in words", () => {
  const rows = [8, 12, 16];
  test.each([
    [13.42, "between 12 and 16 (about 13.4)"],
    [12.02, "at 12"],
    [11.95, "between 8 and 12 (about 11.9)"],
    [16, "at 16"],
  ])("%f mm is %s", (W, text) => expect(placed(W, rows)).toBe(text));
  const span = (from: number, to: number, verdict: VerdictSpan["verdict"]): VerdictSpan => ({
    from,
    to,
    verdict,
    by: [],
  });
  test.each([
    [[span(8, 32, "feeds")], "Feeds throughout."],
    [[span(8, 32, "stops")], "Stops throughout."],
    [
      [span(8, 13.04, "feeds"), span(13.04, 18.2, "depends"), span(18.2, 32, "stops")],
      "Depends from 13, stops at 18.2.",
    ],
    [[span(8, 13, "feeds"), span(13, 32, "depends")], "Depends from 13."],
    [[span(8, 13, "feeds"), span(13, 32, "stops")], "Stops from 13."],
    [[span(8, 12, "stops"), span(12, 32, "feeds")], "Stops to 12, feeds above."],
    [
      [span(8, 13, "feeds"), span(13, 16, "depends"), span(16, 32, "feeds")],
      "Feeds to 13, depends to 16, feeds above.",
    ],
  ])("%#: %s", (list, text) => expect(sayFirst({ spans: list })).toBe(text));
});
