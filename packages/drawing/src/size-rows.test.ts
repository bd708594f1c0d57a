import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { elementsOf, pointsOf } from "./example.fixture.ts";
import { grownBy } from "./handle.ts";
import { expectClear, expectSound, letteringOf } from "./pick-lettering.fixture.ts";
import { toSvg } from "./scene.ts";
import { type SizeRow, type SizeRowsInput, sizeRows, sizeSliders, sizeWords } from "./size-rows.ts";

const curve = (f: (mm: number) => number, from: number, to: number) =>
  Array.from({ length: 91 }, (_, i) => {
    const mm = from + ((to - from) * i) / 90;
    return { at: mm * 1e-3, gap: f(mm) };
  });
const preload: SizeRow = {
  address: "dunlin/nip.preload",
  name: "Preload of the flexure",
  note: "nip.preload",
  station: 7,
  shownIn: "mm",
  least: 1.8e-3,
  most: 3.2e-3,
  was: 2.4e-3,
  now: 2.54e-3,
  curve: curve((v) => Math.min((v - 2.45) * 14, (2.73 - v) * 9, 0.6), 1.8, 3.2),
  window: { from: 2.45e-3, to: 2.73e-3 },
  ends: { from: { tape: "dpak-24", check: "nip.pulls" }, to: { tape: "0402-8", check: "nip.slips" } },
};
const groove: SizeRow = {
  ...preload,
  address: "dunlin/groove.depth",
  name: "Groove depth",
  station: 2,
  least: 3.6e-3,
  most: 8e-3,
  was: 2.7e-3,
  now: 7.3e-3,
  curve: curve((v) => v - 9, 3.6, 8),
  window: null,
  ends: {},
};
const still: SizeRow = { ...preload, address: "dunlin/bend", name: "Radius of the bend", was: 2.54e-3 };
const input: SizeRowsInput = { unit: "dunlin", gapIn: "sd", rows: [preload, groove, still] };
const svgOf = (one: SizeRowsInput, width = 800) => toSvg(sizeRows(one, { width }), { prefix: "z" });
const elements = (one: SizeRowsInput, width = 800) => elementsOf(svgOf(one, width));
const find = (key: string, value: string, width = 800) =>
  elements(input, width).find((e) => e.attributes[`data-${key}`] === value)!.attributes;
/** Ends of the axis of a row, from its brackets. */
const axisOf = (row: SizeRow, width = 800) => {
  const d = pointsOf(find("bounds", row.address, width).d!);
  return { x0: d[1]![0], x1: d[5]![0] };
};

describe("a row", () => {
  test.each([340, 800])("puts diamond, caret and window on one axis between its bounds at %i px", (width) => {
    const { x0, x1 } = axisOf(preload, width);
    const x = (mm: number): number => x0 + ((mm - 1.8) / 1.4) * (x1 - x0);
    expect(pointsOf(find("now", preload.address, width).d!)[0]![0]).toBeCloseTo(x(2.54), 2);
    expect(pointsOf(find("was", preload.address, width).d!)[0]![0]).toBeCloseTo(x(2.4), 2);
    const window = find("window", preload.address, width);
    expect(Number(window.x)).toBeCloseTo(x(2.45), 2);
    expect(Number(window.x) + Number(window.width)).toBeCloseTo(x(2.73), 2);
  });
  // The gap is 14 a mm above 2.45 and 9 a mm below 2.73: it crosses the line of nought at both ends of the window. [derived]
  test("crosses the line of nought where its window ends", () => {
    const { x0, x1 } = axisOf(preload);
    const zero = pointsOf(find("holds", preload.address).d!)[0]![1];
    const d = pointsOf(find("curve", preload.address).d!);
    const crossings = d.slice(1).flatMap((q, i) => {
      const p = d[i]!;
      return p[1] > zero !== q[1] > zero ? [p[0] + ((q[0] - p[0]) * (zero - p[1])) / (q[1] - p[1])] : [];
    });
    expect(crossings.map((x) => 1.8 + ((x - x0) / (x1 - x0)) * 1.4)).toEqual([
      expect.closeTo(2.45, 2),
      expect.closeTo(2.73, 2),
    ]);
  });
  test("draws all curves on one scale", () => {
    const y = (row: SizeRow, i: number): number => pointsOf(find("curve", row.address).d!)[i]![1];
    const zero = (row: SizeRow): number => pointsOf(find("holds", row.address).d!)[0]![1];
    // At its right end the groove's gap is -1; the preload's best is nearest to 0.6.
    const best = Math.max(...preload.curve.map((p) => p.gap));
    const at = preload.curve.findIndex((p) => p.gap === best);
    expect((y(groove, 90) - zero(groove)) / (zero(preload) - y(preload, at))).toBeCloseTo(1 / best, 2);
  });
  test("names what ends its window on either side, and says where no value feeds all", () => {
    const words = letteringOf(svgOf(input)).map((l) => l.words);
    expect(words).toContain("dpak-24 pulls stops");
    expect(words).toContain("0402-8 slips stops");
    expect(words).toContain("no value feeds all");
    expect(words).toContain("from 2.4 to 2.54 mm");
  });
  test("cuts the name of a tape before that of the check that stops it", () => {
    const tape = "a tape with a name as long as nobody would want to read it";
    const ends = { from: { tape, check: "nip.pulls" }, to: { tape, check: "nip.slips" } };
    const words = letteringOf(svgOf({ ...input, rows: [{ ...preload, ends }] }, 340)).map((l) => l.words);
    expect(words.filter((w) => /^a tape.*… (pulls|slips) stops$/.test(w))).toHaveLength(2);
  });
  test("that was outside of its bounds has its caret at the bound, pointing out", () => {
    const was = find("was", groove.address);
    expect(was["data-outside"]).toBe("true");
    const [tip, base] = pointsOf(was.d!);
    expect(tip![0]).toBeLessThan(base![0]);
    expect(tip![0]).toBeCloseTo(axisOf(groove).x0 - 1, 2);
  });
  test.each([340, 800])("keeps the numbers of its bounds off a diamond that stands there at %i px", (width) => {
    for (const [now, shown] of [
      [preload.least, "1.8"],
      [preload.most, "3.2"],
    ] as const) {
      const svg = svgOf({ ...input, rows: [{ ...preload, now }] }, width);
      const tips = pointsOf(elementsOf(svg).find((e) => e.attributes["data-now"])!.attributes.d!).map(([x]) => x);
      // One of the two is the bound's, at the axis; the other stands under the diamond.
      const label = letteringOf(svg).filter((l) => l.words === shown && !/is-hand/.test(l.cls))[0]!;
      const gap = now === preload.least ? Math.min(...tips) - label.x1 : label.x0 - Math.max(...tips);
      // Half of 24 px of target is 5 px more than half a diamond.
      expect(gap).toBeGreaterThan(5);
    }
  });
  test("that stays has no caret", () => {
    expect(elements(input).some((e) => e.attributes["data-was"] === still.address)).toBe(false);
  });
  test("without a curve yet says so", () => {
    expect(letteringOf(svgOf({ ...input, rows: [{ ...preload, curve: [] }] })).map((l) => l.words)).toContain(
      "not computed yet",
    );
  });
});

test.each([340, 639, 640, 800, 1200])(
  "words lie apart and on the sheet at %i px, wherever the window ends",
  (width) => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, share, share, fc.boolean(), (a, b, was, now, isLong) => {
        const at = (s: number): number => preload.least + s * (preload.most - preload.least);
        const more = isLong ? " of the whole long story" : "";
        const row: SizeRow = {
          ...preload,
          name: preload.name + more,
          note: `nip.preload${more}`,
          was: at(was * 1.4 - 0.2),
          now: at(now),
          window: { from: at(Math.min(a, b)), to: at(Math.max(a, b)) },
          ends: {
            from: { tape: `dpak-24${more}`, check: "nip.pulls" },
            to: { tape: "0402-8", check: "film.out-of-plane" },
          },
        };
        expectClear(
          sizeRows(
            { ...input, rows: [row, groove, { ...row, ends: { from: row.ends!.to!, to: row.ends!.from! } }] },
            { width },
          ),
        );
      }),
      { numRuns: 60 },
    );
  },
);

describe("the sliders", () => {
  const size = { width: 800 };
  const [first, second] = sizeSliders(input, size);
  test("stand on the diamonds", () => {
    const [top, right] = pointsOf(find("now", preload.address).d!);
    expect(first!.handle.at[0]).toBeCloseTo(top![0], 2);
    expect(first!.handle.at[1]).toBeCloseTo(right![1], 2);
    // However tall the sheet is, and where names stand over the curves.
    for (const one of [
      { width: 340, height: 900 },
      { width: 900, height: 500 },
    ]) {
      const all = elementsOf(toSvg(sizeRows(input, one), { prefix: "z" }));
      for (const { address, handle } of sizeSliders(input, one)) {
        const d = pointsOf(all.find((e) => e.attributes["data-now"] === address)!.attributes.d!);
        expect(d[0]![0]).toBeCloseTo(handle.at[0], 2);
        expect(d[1]![1]).toBeCloseTo(handle.at[1], 2);
      }
    }
  });
  test("grow by the whole way between the bounds when drawn across the axis", () => {
    const { x0, x1 } = axisOf(preload);
    expect(grownBy(first!.handle, [x1 - x0, 37])).toBeCloseTo(1.4e-3, 9);
  });
  test("speak their name, value, bounds and window", () => {
    expect(first!.aria).toEqual({
      role: "slider",
      "aria-label": "Preload of the flexure",
      "aria-orientation": "horizontal",
      "aria-valuemin": 1.8,
      "aria-valuemax": 3.2,
      "aria-valuenow": 2.54,
      "aria-valuetext": "2.54 mm, was 2.4; all feed 2.45 to 2.73",
    });
    expect(second!.aria["aria-valuetext"]).toBe("7.3 mm, was 2.7; no value feeds all");
  });
  test("are the handles that the drawing carries", () => {
    const drawn = JSON.stringify(sizeRows(input, size).shapes);
    for (const { handle } of sizeSliders(input, size)) expect(drawn).toContain(JSON.stringify(handle));
  });
  test("move all members of a number that leads others", () => {
    const members = ["dunlin/nip.at.1", "dunlin/body.2"];
    expect(sizeSliders({ ...input, rows: [{ ...preload, members }] }, size)[0]!.handle.members).toEqual(members);
  });
});

describe("the words", () => {
  test("say where each stands, from where it came, and what ends its window", () => {
    expect(sizeWords({ ...input, rows: [preload, groove] })).toBe(
      "2 free dimensions of dunlin. Preload of the flexure: 2.54 mm, was 2.4, between 1.8 and 3.2; all feed 2.45 to 2.73, below it pulls stops dpak-24, above it slips stops 0402-8. Groove depth: 7.3 mm, was 2.7, between 3.6 and 8; no value feeds all.",
    );
  });
  test("say that nothing is free where nothing is", () => {
    expect(sizeWords({ ...input, rows: [] })).toBe("No dimension of dunlin is free.");
  });
});

test("any numbers, none, nought or without end, still make a drawing without a number that is none", () => {
  const any = fc.oneof(fc.double(), fc.constantFrom(0, Number.NaN, Number.POSITIVE_INFINITY, 1e6, 1e-300, 1e300));
  fc.assert(
    fc.property(fc.array(any, { minLength: 10, maxLength: 10 }), fc.constantFrom(340, 800), (n, width) => {
      const row: SizeRow = {
        ...preload,
        least: n[0]!,
        most: n[1]!,
        was: n[2]!,
        now: n[3]!,
        window: { from: n[4]!, to: n[5]! },
        curve: [
          { at: n[6]!, gap: n[7]! },
          { at: n[8]!, gap: n[9]! },
        ],
      };
      expect(svgOf({ ...input, rows: [row, preload] }, width)).not.toMatch(/="[^"]*(NaN|Infinity)/);
      const [slider] = sizeSliders({ ...input, rows: [row] }, { width });
      expect(slider!.handle.at.every(Number.isFinite)).toBe(true);
      expect(slider!.handle.along.every(Number.isFinite)).toBe(true);
    }),
  );
  expectSound(sizeRows({ ...input, rows: [] }, { width: 340 }));
  expectSound(sizeRows(input, { width: 340 }));
});
