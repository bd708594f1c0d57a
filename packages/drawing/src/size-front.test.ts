import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { elementsOf, pointsOf } from "./example.fixture.ts";
import { expectClear, expectSound, letteringOf } from "./pick-lettering.fixture.ts";
import { toSvg } from "./scene.ts";
import { type SizeFrontInput, sayGap, sizeFront, sizeFrontWords } from "./size-front.ts";

const input: SizeFrontInput = {
  unit: "dunlin",
  gapIn: "sd",
  made: 2,
  moves: [
    { key: "0", name: "as it is", open: 9, leastGap: -2.9 },
    { key: "g", name: "film outside the band", open: 3, leastGap: -0.31, cost: "prints again" },
    { key: "p", name: "and preload", open: 0, leastGap: 0.42 },
    { key: "r", name: "and radius of the bend", open: 0, leastGap: 0.42 },
  ],
};
const elements = (width = 600) => elementsOf(toSvg(sizeFront(input, { width }), { prefix: "f" }));
const marks = (width = 600) => elements(width).filter((e) => e.attributes["data-move"] !== undefined);

describe("the stair", () => {
  test("puts each move at its count of cells, down the moves", () => {
    const x = marks().map((e) => Number(e.attributes.cx));
    const y = marks().map((e) => Number(e.attributes.cy));
    // 3 of 9 is a third of the way. [derived]
    expect((x[1]! - x[2]!) / (x[0]! - x[2]!)).toBeCloseTo(1 / 3, 4);
    expect(x[3]).toBe(x[2]);
    expect(y).toEqual([...y].sort((a, b) => a - b));
  });
  test("goes down at the old count and across at the new move, through every mark", () => {
    const d = pointsOf(elements().find((e) => e.attributes["data-stair"])!.attributes.d!);
    for (const m of marks()) expect(d).toContainEqual([Number(m.attributes.cx), Number(m.attributes.cy)]);
    for (const [i, q] of d.slice(1).entries()) expect(q[0] === d[i]![0] || q[1] === d[i]![1]).toBe(true);
  });
  test("has the counts over its lines, not on them", () => {
    const svg = toSvg(sizeFront(input, { width: 600 }), { prefix: "f" });
    const counts = letteringOf(svg).filter((l) => /^\d+$/.test(l.words) && l.x0 > Number(marks()[2]!.attributes.cx));
    expect(counts.map((l) => l.words)).toEqual(["9", "3", "0", "0"]);
    for (const [i, l] of counts.entries()) expect(l.y1).toBeLessThan(Number(marks()[i]!.attributes.cy));
  });
  test("fills the step that stands, and only that", () => {
    expect(marks().map((e) => e.attributes.class === "of-hand")).toEqual([false, false, true, false]);
  });
  test("says of a move that changes nothing that it buys none", () => {
    const words = letteringOf(toSvg(sizeFront(input, { width: 600 }), { prefix: "f" })).map((l) => l.words);
    expect(words.filter((w) => w === "buys none")).toHaveLength(1);
    expect(words).toContain("prints again");
  });
  test.each([340, 600, 1000])("keeps its words apart and on the sheet at %i px", (width) => {
    expectClear(sizeFront(input, { width }));
    const long = input.moves.map((m) => ({
      ...m,
      name: `${m.name} and all that hangs on it`,
      cost: "a new frame and another roller",
    }));
    expectClear(sizeFront({ ...input, moves: long }, { width }));
  });
});

test("a gap is told to a hundredth, with a true minus, and no nought has a sign", () => {
  expect([-1.3, 0.149, -0.004, 12, Number.NEGATIVE_INFINITY].map(sayGap)).toEqual([
    "−1.30",
    "0.15",
    "0.00",
    "12.00",
    "no answer",
  ]);
});
test("the words tell the trade move by move", () => {
  expect(sizeFrontWords(input)).toBe(
    "As dunlin is, 9 cells of the map do not feed; the least gap is minus 2.90 sd. Film outside the band: 3 cells of the map do not feed, least gap minus 0.31 sd, prints again. And preload: every cell feeds, least gap 0.42 sd. And radius of the bend: buys none. Made up to and preload.",
  );
});

test("any counts and gaps still make a drawing, and no move at all says so", () => {
  fc.assert(
    fc.property(
      fc.array(fc.record({ open: fc.oneof(fc.nat(1e6), fc.constant(Number.NaN)), leastGap: fc.double() }), {
        maxLength: 7,
      }),
      fc.constantFrom(340, 900),
      (moves, width) => {
        const one = { ...input, moves: moves.map((m, i) => ({ ...m, key: `${i}`, name: `move ${i}` })) };
        const drawing = sizeFront(one, { width });
        expect(toSvg(drawing, { prefix: "f" })).not.toMatch(/="[^"]*(NaN|Infinity)/);
        expectClear(drawing);
      },
    ),
  );
  expect(expectSound(sizeFront({ ...input, moves: [] }, { width: 340 }))).toContain("nothing moves");
});
