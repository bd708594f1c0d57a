import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { elementsOf, pointsOf } from "./example.fixture.ts";
import {
  type MisfeedRatesInput,
  misfeedRates,
  misfeedStanding,
  misfeedWords,
  perMillion,
  rateAxis,
} from "./misfeed-rates.ts";
import { expectClear, expectSound, letteringOf } from "./pick-lettering.fixture.ts";
import { toSvg } from "./scene.ts";

const rate = (at: number, low: number, high: number) => ({ at: at * 1e-6, low: low * 1e-6, high: high * 1e-6 });
const input: MisfeedRatesInput = {
  unit: "plover",
  tape: "soic-16",
  total: rate(6.4, 2, 21),
  allowed: 10e-6,
  levels: { medianPair: rate(0.18, 0.05, 0.6), unitsOver: 0.044, clean: { indexes: 1000, chance: 0.764 } },
  modes: [
    { key: "tear", name: "hole tears", kind: "cannot fail" },
    { key: "skip", name: "skip", kind: "rate", rate: rate(1, 0.1, 100) },
    { key: "film", name: "film slips or loops", kind: "rate", rate: rate(2.9, 0.8, 9), disagrees: true },
    { key: "break", name: "film breaks", kind: "none found", under: 0.3e-6 },
    { key: "cling", name: "part clings", kind: "not known", needs: "a charge measured" },
  ],
};
const svgOf = (one: MisfeedRatesInput, width = 560) => toSvg(misfeedRates(one, { width }), { prefix: "m" });
const elements = (one: MisfeedRatesInput, width = 560) => elementsOf(svgOf(one, width));
const centreOf = (one: MisfeedRatesInput, key: string): number => {
  const d = pointsOf(elements(one).find((e) => e.attributes["data-rate"] === key)!.attributes.d!);
  return d[0]![0];
};
const allowedAt = (one: MisfeedRatesInput): number =>
  pointsOf(elements(one).find((e) => e.attributes["data-allowed"])!.attributes.d!)[0]![0];

test("a chance is said in a million, in two figures and without an exponent", () => {
  expect([6.4e-6, 1.8e-7, 0.0123, 0.23, 1, 0.9999, 2, 0, 1e-12, 4.2e-11, Number.NaN].map(perMillion)).toEqual([
    "6.4",
    "0.18",
    "12 000",
    "230 000",
    "1 000 000",
    "over 990 000",
    "1 000 000",
    "0",
    "under 0.00001",
    "0.000042",
    "no number",
  ]);
});
test("the total is within, over or not settled by where its band stands to the allowance", () => {
  expect(misfeedStanding(input)).toBe("not settled");
  expect(misfeedStanding({ ...input, allowed: 21e-6 })).toBe("within");
  expect(misfeedStanding({ ...input, allowed: 1e-6 })).toBe("over");
  expect(misfeedStanding({ ...input, total: { at: 6.4e-6 } })).toBe("within");
  expect(misfeedStanding({ unit: "u", tape: "t", modes: [], total: { at: 6.4e-6 } })).toBeUndefined();
});

describe("the axis", () => {
  test("holds all bands and the allowance in whole decades", () => {
    expect(rateAxis(input)).toEqual({ from: -2, to: 3 });
  });
  // A decade is as long as any other: 1 lies one decade below 10, 0.1 two. [derived]
  test("is logarithmic: from 1 to the allowance of 10 it is as far as from the band's low end of 0.1 to 1", () => {
    const { from, to } = rateAxis(input);
    const decade = (560 - 32) / (to - from);
    expect(allowedAt(input) - centreOf(input, "skip")).toBeCloseTo(decade, 2);
    const band = elements(input).find((e) => e.attributes["data-band"] === "skip")!.attributes;
    expect(centreOf(input, "skip") - Number(band.x)).toBeCloseTo(decade, 2);
    expect(Number(band.width)).toBeCloseTo(3 * decade, 2);
  });
  test("is never shorter than three decades nor longer than eight, nor beyond every index or one in a million millions", () => {
    const chance = fc.oneof(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: -18, max: 0, noNaN: true }).map((e) => 10 ** e),
    );
    fc.assert(
      fc.property(fc.array(chance, { maxLength: 6 }), (all) => {
        const { from, to } = rateAxis({
          ...input,
          modes: all.map((at, i) => ({ key: `${i}`, name: "m", kind: "rate", rate: { at } })),
        });
        expect(to - from).toBeGreaterThanOrEqual(3);
        expect(to - from).toBeLessThanOrEqual(8);
        expect(to).toBeLessThanOrEqual(6);
        expect(from).toBeGreaterThanOrEqual(-6);
      }),
    );
  });
  test("ends a rate of nought in an arrow to the left instead of a mark", () => {
    const none = { ...input, modes: [{ key: "jam", name: "jam", kind: "rate", rate: rate(0, 0, 0.02) } as const] };
    const all = elements(none);
    expect(all.some((e) => e.attributes["data-rate"] === "jam")).toBe(false);
    expect(all.filter((e) => e.attributes["data-beyond"] === "below").length).toBeGreaterThan(0);
  });
  test("holds a chance of one at its right end", () => {
    const all = { ...input, modes: [{ key: "all", name: "all", kind: "rate", rate: { at: 1 } } as const] };
    expect(centreOf(all, "all")).toBeCloseTo(560 - 16, 3);
  });
});

describe("the rows", () => {
  test("stand largest first, then what is not known, not found, cannot fail", () => {
    const order = elements(input).flatMap((e) => (e.attributes["data-mode"] ? [e.attributes["data-mode"]] : []));
    expect(order).toEqual(["film", "skip", "cling", "break", "tear"]);
  });
  test("without a mark have words in its place", () => {
    const words = letteringOf(svgOf(input)).map((l) => l.words);
    for (const said of ["cannot fail as drawn", "none found, under 0.30", "not known: a charge measured"])
      expect(words).toContain(said);
    const marks = elements(input).flatMap((e) => (e.attributes["data-rate"] ? [e.attributes["data-rate"]] : []));
    expect(marks).toEqual(["mean of units and reels", "median unit with median reel", "film", "skip"]);
  });
  test("whose methods disagree are hollow, and say so", () => {
    const mark = (key: string) => elements(input).find((e) => e.attributes["data-rate"] === key)!.attributes.class;
    expect(mark("film")).not.toBe(mark("skip"));
    expect(letteringOf(svgOf(input)).map((l) => l.words)).toContain("hollow: the methods disagree");
  });
  test("are links that say the whole row where they lead somewhere", () => {
    const links = elementsOf(
      toSvg(misfeedRates(input, { width: 560, link: (k) => `#${k}` }), { prefix: "m", role: "group" }),
    ).filter((e) => e.name === "a");
    expect(links.map((e) => e.attributes["aria-label"])).toEqual([
      "film slips or loops: 2.9 in a million, by belief 0.80 to 9.0; the methods disagree",
      "skip: 1.0 in a million, by belief 0.10 to 100",
      "part clings: not known: a charge measured",
      "film breaks: none found, under 0.30",
      "hole tears: cannot fail as drawn",
    ]);
  });
  test.each([340, 560, 1000])("keep their words apart and on the sheet at %i px", (width) => {
    expectClear(misfeedRates(input, { width }));
    expectClear(misfeedRates({ ...input, total: { at: 0.23, low: 0.12, high: 1 } }, { width }));
    expectClear(misfeedRates({ unit: "u", tape: "t", modes: [] }, { width }));
    const long = input.modes.map((m) => ({
      ...m,
      name: `${m.name}, which is a long story that nobody needs to read twice`,
    }));
    expectClear(misfeedRates({ ...input, modes: long }, { width }));
  });
});

describe("the words", () => {
  test("say the mean, how it stands, what hides behind it, then every mode", () => {
    expect(misfeedWords(input)).toBe(
      "Misfeeds of plover with soic-16, in a million indexes. Mean of units and reels 6.4, by belief 2.0 to 21; allowed 10: not settled. Median unit with median reel 0.18. Units over the allowance: 4.4 %. 1 000 indexes without one: chance 76 %. Film slips or loops: 2.9 in a million, by belief 0.80 to 9.0; the methods disagree. Skip: 1.0 in a million, by belief 0.10 to 100. Part clings: not known: a charge measured. Film breaks: none found, under 0.30. Hole tears: cannot fail as drawn.",
    );
  });
});

test("any chances still make a drawing without a number that is none, words apart", () => {
  const any = fc.oneof(
    fc.double(),
    fc.constantFrom(0, 1, 1e6, Number.NaN, Number.POSITIVE_INFINITY, 1e-300),
    fc.double({ min: 0, max: 1, noNaN: true }),
  );
  const band = fc.record({ at: any, low: any, high: any });
  fc.assert(
    fc.property(
      band,
      any,
      fc.array(band, { maxLength: 5 }),
      fc.constantFrom(340, 800),
      (total, allowed, modes, width) => {
        const one: MisfeedRatesInput = {
          ...input,
          total,
          allowed,
          levels: { medianPair: total, unitsOver: allowed, clean: { indexes: 1e6, chance: allowed } },
          modes: modes.map((m, i) => ({ key: `${i}`, name: `mode ${i}`, kind: "rate", rate: m })),
        };
        const drawing = misfeedRates(one, { width });
        expect(toSvg(drawing, { prefix: "m" })).not.toMatch(/="[^"]*(NaN|Infinity)/);
        expectClear(drawing);
      },
    ),
  );
  expect(expectSound(misfeedRates({ unit: "u", tape: "t", modes: [] }, { width: 340 }))).toContain("no mode is judged");
});
