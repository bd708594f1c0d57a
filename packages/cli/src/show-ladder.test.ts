import type { Comparison, Ladder, LadderLine, VerdictSpan } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { type Paint, paintFor } from "./paint.ts";
import { showCompare } from "./show-compare.ts";
import { bar, ladderLines, scale } from "./show-ladder.ts";

const plain = paintFor({ isTTY: false });
const letters: Paint = { ...plain, feeds: (t) => `F${t}`, depends: (t) => `D${t}`, stops: (t) => `S${t}` };
const span = (from: number, to: number, verdict: VerdictSpan["verdict"], by: string[] = []): VerdictSpan => ({
  from,
  to,
  verdict,
  by,
});

describe("a bar", () => {
  const spans = [span(8, 12, "feeds"), span(12, 16, "depends"), span(16, 20, "n/a"), span(20, 24, "stops")];
  test("has a mark a place, each for the verdict in its middle", () => {
    expect(bar(spans, 8, 24, 16, plain)).toBe("====????    ####");
    expect(bar(spans, 8, 24, 4, plain)).toBe("=? #");
  });
  test("is blank where another unit goes on and this one does not", () => {
    expect(bar(spans, 8, 40, 16, plain)).toBe("==??  ##        ");
  });
  test("is coloured verdict by verdict, and its marks stand without colour", () => {
    expect(bar(spans, 8, 24, 8, letters)).toBe("F==D??  S##");
  });
});
describe("the scale over it", () => {
  test("has the catalogue's widths where they lie, the first at its own place", () => {
    const text = scale([8, 12, 16, 24], 8, 24, 32);
    expect(text.indexOf("8")).toBe(0);
    expect(text.indexOf("12")).toBe(6);
    expect(text.indexOf("16")).toBe(14);
    expect(text.indexOf("24")).toBe(30);
  });
  test("leaves out a width that has no room", () => {
    expect(scale([8, 12, 16, 24, 200], 8, 200, 24).trim().split(/ +/)).not.toContain("12");
  });
});

const line = (check: string, spans: VerdictSpan[], more: Partial<LadderLine> = {}): LadderLine => ({
  check,
  station: 4,
  severity: "S",
  title: `${check} holds`,
  unit: "1",
  contradicted: false,
  spans,
  turns: [],
  median: [],
  points: [],
  ...more,
});
const ladder: Ladder = {
  unit: "plover",
  name: "Plover",
  from: 8,
  to: 24,
  allowed: 2.05,
  rows: [8, 12, 16, 24],
  tapes: [
    { W: 8, tape: "chip" },
    { W: 24, tape: "coil" },
  ],
  leftOut: [{ W: 12, why: "no tape of 12 mm: the ladder runs straight through it" }],
  spans: [span(8, 13, "feeds"), span(13, 16, "depends", ["film.mismatch"]), span(16, 24, "stops", ["entry.pockets"])],
  turns: [
    { W: 13, where: "between 12 and 16 (about 13)", before: "feeds", after: "depends", step: null },
    { W: 16, where: "above 16 (P1 8 to 12 mm)", before: "depends", after: "stops", step: "P1 8 to 12 mm" },
  ],
  points: [],
  lines: [
    line("film.mismatch", [span(8, 13.2, "feeds"), span(13.2, 24, "depends")], {
      turns: [{ W: 13.2, where: "between 12 and 16 (about 13.2)", before: "feeds", after: "depends", step: null }],
      median: [{ W: 17, where: "between 16 and 24 (about 17)" }],
    }),
    line("entry.pockets", [span(8, 16, "feeds"), span(16, 24, "stops")], {
      turns: [{ W: 16, where: "above 16 (P1 8 to 12 mm)", before: "feeds", after: "stops", step: "P1 8 to 12 mm" }],
    }),
    line("film.kern", [span(8, 24, "stops")], { severity: "L" }),
    line("nip.pulls", [span(8, 24, "feeds")]),
    line("clear.lifting", [span(8, 24, "n/a", ["nothing lifts"])]),
  ],
  steps: [
    { W: 8, step: "R 25 to 30 mm", moves: [] },
    { W: 16, step: "P1 8 to 12 mm", moves: ["entry.pockets"] },
  ],
};
describe("a ladder in the terminal", () => {
  const text = ladderLines(ladder, plain, 100).join("\n");
  test("begins with the sentence, and what turns first", () => {
    expect(text).toContain("Depends from 13, stops at 16. First turn between 12 and 16 (about 13): film.mismatch.");
  });
  test("has a bar for what does not feed throughout, the first to turn first, apart what stops no tape, and names the rest", () => {
    const places = ["whole unit", "film.mismatch", "entry.pockets", "these stop no tape:", "film.kern"].map((name) =>
      text.indexOf(`\n  ${name}`),
    );
    expect([...places].sort((a, b) => a - b)).toEqual(places);
    expect(places[0]).toBeGreaterThan(0);
    expect(text).toContain("Feeds throughout: nip.pulls.");
    expect(text).toContain("Not applicable: clear.lifting.");
  });
  test("says where each hard check turns, the step that turns it, and where the median does", () => {
    expect(text).toContain("entry.pockets: stops above 16 (P1 8 to 12 mm).");
    expect(text).toContain(
      "film.mismatch: depends between 12 and 16 (about 13.2); at the median of belief between 16 and 24\n    (about 17).",
    );
  });
  test("lists the steps that move something, the tapes, and widths left out", () => {
    expect(text).toContain("Steps: P1 8 to 12 mm at 16.");
    expect(text).toContain("Tapes, linear between them: chip 8, coil 24.");
    expect(text).toContain("12 mm: no tape of 12 mm: the ladder runs straight through it.");
  });
  test.each([60, 80, 110, 160])("keeps within %i columns", (width) => {
    for (const one of ladderLines(ladder, plain, width)) expect(one.length).toBeLessThanOrEqual(width);
  });
});

const comparison: Comparison = {
  from: 8,
  to: 44,
  rows: [8, 12, 16, 24, 44],
  units: [
    {
      unit: "plover",
      name: "Plover",
      revision: "C",
      feedsTo: 13.04,
      endedBy: [{ check: "film.mismatch", W: 13.2 }],
      says: "",
      ladder,
    },
    {
      unit: "dunlin",
      name: "Dunlin",
      revision: "A",
      feedsTo: null,
      endedBy: [{ check: "clear.tape", W: 12 }],
      says: "",
      ladder: { ...ladder, from: 12, to: 44 },
    },
    { unit: "curlew", name: "Curlew", revision: "", feedsTo: null, endedBy: [], says: "one tape alone", ladder: null },
  ],
  tapes: [
    {
      tape: "coil-12",
      W: 12,
      cells: [
        { unit: "plover", verdict: "depends", share: 0.41, first: "film.mismatch", because: "It folds." },
        { unit: "dunlin", verdict: "feeds", share: 1, first: null, because: null },
        null,
      ],
    },
  ],
  separates: [
    {
      check: "film.room",
      title: "room is left",
      tape: "coil-12",
      W: 12,
      values: [
        { unit: "plover", verdict: "stops", value: -1.2e-4, in: "m", ratio: null },
        { unit: "dunlin", verdict: "feeds", value: 3, in: "1", ratio: null },
        null,
      ],
    },
  ],
  mount: [
    {
      check: "mount.slots",
      title: "it fits",
      tape: "coil-12",
      values: [
        { unit: "plover", value: 0.0192, in: "m", says: "it takes 2." },
        { unit: "dunlin", value: null, in: "", says: "it takes 1." },
        { unit: "curlew", value: null, in: "", says: "no mount." },
      ],
    },
  ],
};
describe("a comparison in the terminal", () => {
  const text = showCompare(comparison, plain, 110);
  test("says of each unit where it feeds to and what ends it", () => {
    expect(text).toContain("Plover feeds to 13 mm; what ends it: film.mismatch from 13.2.");
    expect(text).toContain("Dunlin does not feed its least width, 12 mm: clear.tape.");
    expect(text).toContain("Curlew has no ladder: one tape alone");
  });
  test("has a line a tape with every unit's verdict and first stopper", () => {
    expect(text).toMatch(/coil-12 {2}12 {2}depends 41 % film\.mismatch +feeds +not served/);
  });
  test("gives the values that part them in the unit a person reads", () => {
    expect(text).toContain(
      "film.room (room is left), coil-12: Plover stops at −0.12 mm; Dunlin feeds at 3.0; Curlew not applicable.",
    );
  });
  test("ends with the room in the machine", () => {
    expect(text).toContain("Dunlin, mount.slots: it takes 1.");
  });
  test.each([60, 110, 160])("keeps within %i columns", (width) => {
    for (const one of showCompare(comparison, plain, width).split("\n")) expect(one.length).toBeLessThanOrEqual(width);
  });
});
