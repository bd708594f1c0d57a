import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { elementsOf } from "./example.fixture.ts";
import { expectClear, expectSound, letteringOf } from "./pick-lettering.fixture.ts";
import { type PickShare, type PickSharesInput, pickShares, pickSharesWords, sayPart } from "./pick-shares.ts";
import { toSvg } from "./scene.ts";

const rows: readonly PickShare[] = [
  { key: "wheel", name: "wheel, once a turn", share: 0.09, acts: "x", level: "unit", trims: true },
  { key: "tooth", name: "tooth in hole, play", share: 0.34, acts: "x", level: "index" },
  { key: "pitch", name: "hole pitch P0, 10 pitches", share: 0.29, acts: "x", level: "reel", together: true },
  { key: "yaw", name: "yaw of the tape in its channel", share: 0.0004, acts: "turn", level: "index" },
];
const input: PickSharesInput = { unit: "plover", tape: "soic-16", of: "the radius, squared", rows };
const elements = (one: PickSharesInput, width = 400) => elementsOf(toSvg(pickShares(one, { width }), { prefix: "s" }));
const bars = (one: PickSharesInput) => elements(one).filter((e) => e.attributes["data-bar"]);

test("a share is said in two figures, never all or nothing where it is not", () => {
  expect([0.34, 0.0099, 0.0004, 0, -0.002, 0.998, 1, 1.13, Number.NaN].map(sayPart)).toEqual([
    "34 %",
    "0.99 %",
    "under 0.1 %",
    "0 %",
    "0 %",
    "over 99 %",
    "100 %",
    "110 %",
    "no number",
  ]);
});

describe("the bars", () => {
  test("stand largest first, as long as their shares, the largest across the sheet", () => {
    expect(bars(input).map((e) => e.attributes["data-bar"])).toEqual(["tooth", "pitch", "wheel", "yaw"]);
    const long = bars(input).map((e) => Number(e.attributes.width));
    expect(long[0]).toBeCloseTo(380, 6);
    expect(long[1]! / long[0]!).toBeCloseTo(0.29 / 0.34, 4);
    expect(long[2]! / long[0]!).toBeCloseTo(0.09 / 0.34, 4);
  });
  test("tell index, reel and unit apart by fill: solid, hatched, empty", () => {
    const all = elements(input);
    const fillOf = (key: string): string => {
      const i = all.findIndex((e) => e.attributes["data-bar"] === key);
      const [before, at] = [all[i - 1]!.attributes, all[i]!.attributes];
      return at.class === "of-ink2" ? "solid" : /outside/.test(before.fill ?? "") ? "hatched" : "empty";
    };
    expect(["tooth", "pitch", "wheel"].map(fillOf)).toEqual(["solid", "hatched", "empty"]);
  });
  test("carry a mark where an input acts together with others, once beside it and once in the key", () => {
    const marks = (one: PickSharesInput) =>
      elements(one).filter((e) => e.attributes["data-mark"] === "together").length;
    expect(marks(input)).toBe(2);
    expect(marks({ ...input, rows: rows.filter((r) => !r.together) })).toBe(0);
  });
  test("beyond ten are counted, with the largest of them", () => {
    const many = Array.from(
      { length: 14 },
      (_, i): PickShare => ({ key: `k${i}`, name: `input ${i}`, share: 0.1 / (i + 1), acts: "x", level: "index" }),
    );
    const shown = letteringOf(toSvg(pickShares({ ...input, rows: many }, { width: 400 }), { prefix: "s" }));
    expect(bars({ ...input, rows: many })).toHaveLength(10);
    expect(shown.map((l) => l.words)).toContain("4 others, none above 0.91 %");
  });
  test("are links that say the whole row where they lead somewhere", () => {
    const links = elementsOf(
      toSvg(pickShares(input, { width: 400, link: (k) => `#${k}` }), { prefix: "s", role: "group" }),
    ).filter((e) => e.name === "a");
    expect(links.map((e) => e.attributes["aria-label"])).toContain(
      "hole pitch P0, 10 pitches, 29 %, along, each reel, acts together with others",
    );
    expect(links[0]!.attributes.href).toBe("#tooth");
  });
  test.each([340, 480, 900])("keep their words apart and on the sheet at %i px", (width) => {
    expectClear(pickShares(input, { width }));
    expectClear(
      pickShares(
        {
          ...input,
          rows: rows.map((r) => ({
            ...r,
            name: `${r.name} and whatever else there is to be said about it`,
            together: true,
          })),
        },
        { width },
      ),
    );
  });
});

describe("the words", () => {
  test("name every input with share, way and level", () => {
    expect(pickSharesWords(input)).toBe(
      "Shares of the radius, squared, largest first: tooth in hole, play, 34 %, along, each index; hole pitch P0, 10 pitches, 29 %, along, each reel, acts together with others; wheel, once a turn, 9.0 %, along, each unit, trims out; yaw of the tape in its channel, under 0.1 %, turning, each index.",
    );
  });
  test("say why shares add up to more than the whole", () => {
    const more = rows.map((r) => (r.together ? { ...r, share: 0.7 } : r));
    expect(pickSharesWords({ ...input, rows: more })).toContain(
      "They add up to 110 %, because hole pitch P0, 10 pitches act together with others.",
    );
  });
});

test("any shares still make a drawing, and none says that nothing is known", () => {
  fc.assert(
    fc.property(fc.array(fc.double(), { maxLength: 14 }), fc.constantFrom(340, 900), (shares, width) => {
      const one = { ...input, rows: shares.map((share, i) => ({ ...rows[i % 4]!, key: `${i}`, share })) };
      const drawing = pickShares(one, { width });
      expect(toSvg(drawing, { prefix: "s" })).not.toMatch(/="[^"]*(NaN|Infinity)/);
      expectClear(drawing);
    }),
  );
  expect(expectSound(pickShares({ ...input, rows: [] }, { width: 340 }))).toContain("nothing is known to scatter");
});
