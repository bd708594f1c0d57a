import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Scene } from "../scene.ts";
import { beliefColumn, scatterColumn } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { closed, number } from "../study/plain.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { Between, shifted } from "./between.ts";
import { type Given, isPlace } from "./given.ts";
import { believed } from "./law.ts";
import type { Quantity } from "./model.ts";

const between = (t: number, a: Quantity, b: Quantity, tolerances?: "the wider"): Given =>
  new Between(t).of(a, b, tolerances) as Given;
const value = (q: Quantity): number => new Realiser({} as Scene, [q]).run(asWritten).number(q);
const mm = (address: string, text: string, names: Record<string, Quantity> = {}) =>
  number(address, text, { unit: "mm", level: "reel", names });
const deviates = new Deviates(1);

describe("a number a quarter of the way from 6.5 to 10.9 mm", () => {
  const q = between(0.25, mm("a/A0", "6.5 ±0.06 mm"), mm("b/A0", "10.9 ±0.10 mm"));
  // 6.5 + 4.4/4; 0.06 + 0.04/4. By hand. [derived]
  test("is 7.6 mm", () => expect(value(q) * 1e3).toBeCloseTo(7.6, 12));
  test("has a tolerance in proportion, ±0.07 mm", () => {
    expect(q.scatters).toEqual([
      { level: "reel", law: "uniform", from: expect.closeTo(-0.07e-3, 12), to: expect.closeTo(0.07e-3, 12) },
    ]);
  });
  test("says what it lies between", () => {
    expect(q.address).toBe("a/A0 to b/A0");
    expect(isPlace(q.origin)).toBe(false);
    expect(q.origin).toMatchObject({ cite: "linear between a/A0 and b/A0", how: "derived" });
  });
});

describe("at both ends it is the number itself", () => {
  const pairs: readonly (readonly [Given, Given])[] = [
    [mm("a", "6.5 ±0.06 mm"), mm("b", "10.9 mm")],
    [mm("a", "0.30 mm"), mm("b", "0.2..0.4 mm guess")],
    [mm("a", "-1..1 mm guess"), mm("b", "0.2..0.4 mm guess")],
    [mm("a", "0.40 mm sd 15 %"), mm("b", "0.5 mm sd 0.1 mm")],
    [mm("a", "1 mm +0.05/-0 mm"), mm("b", "1.5 mm +0/-0.1 mm")],
  ];
  test.each(pairs)("%#", (a, b) => {
    for (const [t, end] of [
      [0, a],
      [1, b],
    ] as const) {
      const q = between(t, a, b);
      const run = (g: Given, z: number, u: number) =>
        new Realiser({} as Scene, [g])
          .run({
            n: 1,
            unknown: () => z,
            // The scatter of the other end counts for nothing, wherever it stands.
            scatter: (_, which) => (g === end || q.scatters[which]!.law === end.scatters[0]?.law ? u : 0.7),
          })
          .number(g);
      for (const z of [-2, 0, 1.3]) for (const u of [-1, 0.4]) expect(run(q, z, u)).toBe(run(end, z, u));
      if (end.unknown) expect(beliefColumn(deviates, q)).toBe(beliefColumn(deviates, end));
      end.scatters.forEach((s, which) => {
        const at = q.scatters.findIndex((one) => one.law === s.law);
        expect(scatterColumn(deviates, q, at)).toBe(scatterColumn(deviates, end, which));
      });
    }
  });
});

describe("a guess", () => {
  const [low, high] = [mm("a/T", "0.2..0.4 mm guess"), mm("b/T", "0.3..0.9 mm guess")];
  test("lies between two guesses at every coordinate", () => {
    const q = between(0.4, low, high);
    for (const z of [-3, -1.96, 0, 1, 2.5])
      expect(believed(q.unknown!, z)).toBeCloseTo(
        0.6 * believed(low.unknown!, z) + 0.4 * believed(high.unknown!, z),
        15,
      );
    expect(q.unknown).toMatchObject({ low: expect.closeTo(0.24e-3, 12), high: expect.closeTo(0.6e-3, 12) });
    expect(q.letter).toBe("g");
  });
  test("narrows towards what is measured", () => {
    const known = mm("a/T", "0.30 mm measured");
    const width = (t: number) => {
      const u = between(t, known, low).unknown!;
      return u.law === "switch" ? 0 : u.high - u.low;
    };
    expect([0.25, 0.5, 1].map((t) => +(width(t) * 1e3).toFixed(9))).toEqual([0.05, 0.1, 0.2]);
  });
  // A mean of two independent numbers would have 0.71 of their spread half way. [derived]
  test("is as uncertain half way as its neighbours, though their draws are independent", () => {
    const other = mm("c/T", "0.2..0.4 mm guess");
    const spread = (g: Given) => {
      const x = beliefColumn(deviates, g, 4000).map((z) => Math.log(believed(g.unknown!, z)));
      const mean = x.reduce((a, b) => a + b) / x.length;
      return Math.sqrt(x.reduce((sum, v) => sum + (v - mean) ** 2, 0) / x.length);
    };
    expect(spread(between(0.5, low, other)) / spread(low)).toBeCloseTo(1, 1);
  });
});

describe("the wider of two tolerances", () => {
  const [narrow, wide] = [mm("catalogue/F 12", "5.5 ±0.05 mm"), mm("catalogue/F 16", "7.5 ±0.1 mm")];
  const half = (q: Given): number => {
    const s = q.scatters[0]!;
    return s.law === "uniform" ? +((s.to - s.from) * 500).toFixed(9) : Number.NaN;
  };
  test("holds all the way from the one row to the other", () => {
    for (const t of [0, 0.5, 0.999]) expect(half(between(t, narrow, wide, "the wider"))).toBe(0.1);
    for (const t of [0, 0.5, 0.999]) expect(half(between(t, wide, narrow, "the wider"))).toBe(0.1);
  });
  test("gives way at the end to the row's own", () => expect(half(between(1, wide, narrow, "the wider"))).toBe(0.05));
  test("is told apart from one in proportion on the same way", () => {
    const mix = new Between(0.5);
    expect(half(mix.of(narrow, wide) as Given)).toBe(0.075);
    expect(half(mix.of(narrow, wide, "the wider") as Given)).toBe(0.1);
  });
});

describe("a formula", () => {
  const tape = (name: string, K0: string, T: string) => {
    const [depth, thick] = [mm(`${name}/K0`, K0), mm(`${name}/T`, T)];
    return { depth, thick, T2: mm(`${name}/T2`, "K0 + T", { K0: depth, T: thick }) };
  };
  const [a, b] = [tape("a", "2.1 mm", "0.30 mm"), tape("b", "3.1 mm", "0.2..0.4 mm guess")];
  test("that both sides have follows from what lies between", () => {
    const mix = new Between(0.5);
    const T2 = mix.of(a.T2, b.T2) as Given;
    const { K0, T } = T2.reads({} as Scene);
    expect(K0).toBe(mix.of(a.depth, b.depth));
    expect(T).toBe(mix.of(a.thick, b.thick));
    expect(value(T2)).toBeCloseTo(2.6e-3 + 0.5 * 0.3e-3 + 0.5 * Math.sqrt(0.08) * 1e-3, 12);
  });
  test("of one side alone makes the mean of both", () => {
    const q = between(0.25, a.T2, mm("b/T2", "3.6 mm"));
    expect(value(q) * 1e3).toBeCloseTo(0.75 * 2.4 + 0.25 * 3.6, 12);
  });
  test("of a model makes the mean of both", () => {
    const model = closed("2*K", { K: a.depth }, { unit: "m" });
    expect(value(between(0.5, model, mm("b", "1.0 mm"))) * 1e3).toBeCloseTo(2.6, 12);
    expect(value(between(0.5, mm("b", "1.0 mm"), model)) * 1e3).toBeCloseTo(2.6, 12);
  });
});

test("the same number on both sides stays the same object", () => {
  const a = mm("a", "1 mm");
  expect(between(0.3, a, a)).toBe(a);
});
test("nothing lies between a length and a force, and no way is longer than all of it", () => {
  expect(() => between(0.5, mm("a", "1 mm"), number("b", "1 N", { unit: "N" }))).toThrow("nothing lies between a");
  for (const t of [-0.1, 1.1, Number.NaN]) expect(() => new Between(t)).toThrow(RangeError);
});
test("a number between never leaves its neighbours at one coordinate", () => {
  const guess = fc
    .tuple(fc.double({ min: 0.1, max: 5, noNaN: true }), fc.double({ min: 0.1, max: 5, noNaN: true }))
    .map(([x, w]) => `${x.toFixed(4)}..${(x + w).toFixed(4)} mm guess`);
  fc.assert(
    fc.property(
      guess,
      guess,
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: -4, max: 4, noNaN: true }),
      (x, y, t, z) => {
        const [a, b] = [mm("a", x), mm("b", y)];
        const ends = [a, b].map((g) => believed(g.unknown!, z)).sort((p, q) => p - q);
        const v = believed(between(t, a, b).unknown!, z);
        expect(v).toBeGreaterThanOrEqual(ends[0]! * (1 - 1e-12));
        expect(v).toBeLessThanOrEqual(ends[1]! * (1 + 1e-12));
      },
    ),
    { seed: 811, numRuns: 200 },
  );
});

describe("a shifted number", () => {
  test("moves its centre, and both ends of its guess, by the same", () => {
    expect(value(shifted(mm("a", "1.5 ±0.1 mm"), 0.2e-3)) * 1e3).toBeCloseTo(1.7, 12);
    const u = shifted(mm("a", "2..4 mm guess"), 1e-3).unknown!;
    expect([believed(u, -1.959963984540054) * 1e3, believed(u, 1.959963984540054) * 1e3]).toEqual([
      expect.closeTo(3, 9),
      expect.closeTo(5, 9),
    ]);
    const q = shifted(between(0.5, mm("a", "2..4 mm guess"), mm("b", "3 mm")), 1e-3);
    expect(q.unknown).toMatchObject({ low: expect.closeTo(3.5e-3, 12), high: expect.closeTo(4.5e-3, 12) });
  });
  test("by nothing is the same object", () => {
    const a = mm("a", "1 mm");
    expect(shifted(a, 0)).toBe(a);
  });
});
