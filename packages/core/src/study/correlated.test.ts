import fc from "fast-check";
import { expect, test } from "vitest";
import type { Given } from "../quantity/given.ts";
import { phi, type Scatter, type Together } from "../quantity/law.ts";
import { decide } from "./allowance.ts";
import { Cell, scatterColumn } from "./cell.ts";
import { lowerTriangle, mixtures } from "./correlated.ts";
import { Deviates } from "./deviates.ts";
import { firstOrder } from "./margin.ts";
import { check, closed, number, plainScene } from "./plain.fixture.ts";

const scene = plainScene();
const many = 100_000;
const fellows = (by: number[][]): Together => ({ members: by.map((_, i) => `m${i}`), by });
const member = (g: Given, of: Together, at: number): Given => ({
  ...g,
  scatters: g.scatters.map((s): Scatter => ({ ...s, together: { of, at } })),
});
const correlation = (a: Float64Array, b: Float64Array): number => {
  const mean = (x: Float64Array) => x.reduce((s, v) => s + v, 0) / x.length;
  const [p, q] = [mean(a), mean(b)];
  let [aa, bb, ab] = [0, 0, 0];
  a.forEach((v, k) => {
    const w = b[k]!;
    aa += (v - p) ** 2;
    bb += (w - q) ** 2;
    ab += (v - p) * (w - q);
  });
  return ab / Math.sqrt(aa * bb);
};

// R = [1 .6; .6 1]: L = [1 0; .6 .8]. [by hand]
test("the lower triangle of a pair is 1, r and the root of 1 - r squared", () => {
  expect(
    lowerTriangle([
      [1, 0.6],
      [0.6, 1],
    ])!.map((row) => Array.from(row)),
  ).toEqual([
    [1, 0],
    [0.6, 0.8],
  ]);
});
test("a triangle times its transpose is the matrix it was made of", () => {
  const r = fc.double({ min: -0.3, max: 0.3, noNaN: true });
  fc.assert(
    fc.property(fc.tuple(r, r, r, r, r, r), ([a, b, c, d, e, f]) => {
      const by = [
        [1, a, b, c],
        [a, 1, d, e],
        [b, d, 1, f],
        [c, e, f, 1],
      ];
      // Row sums off the diagonal stay under 1, so it is positive definite (Gershgorin).
      const rows = lowerTriangle(by)!;
      for (let i = 0; i < 4; i++)
        for (let j = 0; j < 4; j++)
          expect(rows[i]!.reduce((s, v, k) => s + v * rows[j]![k]!, 0)).toBeCloseTo(by[i]![j]!, 12);
    }),
    { seed: 3, numRuns: 300 },
  );
});
// a with b and b with c by 0.8 but a apart from c: 0.64 + 0.64 > 1.
test("correlations that contradict one another have no triangle", () => {
  expect(
    lowerTriangle([
      [1, 0.8, 0],
      [0.8, 1, 0.8],
      [0, 0.8, 1],
    ]),
  ).toBeUndefined();
  expect(
    lowerTriangle([
      [1, 1],
      [1, 1],
    ]),
  ).toBeUndefined();
  expect(
    lowerTriangle([
      [1, 0.8, 0.3],
      [0.8, 1, 0.8],
      [0.3, 0.8, 1],
    ]),
  ).toBeDefined();
});

const of = fellows([
  [1, 0.6, -0.3],
  [0.6, 1, 0.2],
  [-0.3, 0.2, 1],
]);
const [a, b, c] = ["10 sd 2", "4 ±1", "3 sd 20 %"].map((text, at) => member(number("abc"[at]!, text), of, at)) as [
  Given,
  Given,
  Given,
];
// Standard error of a correlation of n draws: under 1/sqrt(n). Between limits: (6/pi) asin(r/2) of the numbers themselves. [Pearson 1907, memory]
test("draws of scatters that go together have the correlation that is stated, each with its own law", () => {
  const deviates = new Deviates(5);
  const [x, t, z] = [a, b, c].map((g) => scatterColumn(deviates, g, 0, many)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const near = (found: number, wanted: number) => expect(Math.abs(found - wanted)).toBeLessThan(4 / Math.sqrt(many));
  near(correlation(x, z), -0.3);
  // Of a normal with a uniform number: r sqrt(3/pi). [derived: E(z_1 Phi(z_2)) = r phi(0)/sqrt 2]
  near(correlation(x, t), 0.6 * Math.sqrt(3 / Math.PI));
  expect(t.every((v) => v > -1 && v < 1)).toBe(true);
  const sorted = t.slice().sort();
  let far = 0;
  sorted.forEach((v, k) => {
    far = Math.max(far, Math.abs((v + 1) / 2 - (k + 0.5) / many));
  });
  // Kolmogorov's distance is beyond 1.95/sqrt(n) once in a thousand. [Kolmogorov 1933, memory]
  expect(far).toBeLessThan(1.95 / Math.sqrt(many));
  near(x.reduce((s, v) => s + v, 0) / many, 0);
});
test("a scatter that goes with none has the same bits as before, whatever else goes together", () => {
  const plain = number("plain", "10 sd 2");
  const deviates = new Deviates(5);
  scatterColumn(deviates, a, 0, 100);
  expect(scatterColumn(deviates, plain, 0, 100)).toEqual(new Deviates(5).normal("scatter unit plain#0", 100));
});
test("the same column is handed out again, as what rests on it relies on", () => {
  const deviates = new Deviates(5);
  expect(scatterColumn(deviates, b, 0, 100)).toBe(scatterColumn(deviates, b, 0, 100));
});
test("members that are left out are left to chance: those at hand keep their correlation", () => {
  const one = (given: Given) => ({ given, which: 0 });
  expect(mixtures([one(c), one(a)])).toEqual([
    [
      [-0.3, 1],
      [Math.sqrt(1 - 0.09), 0],
    ],
    undefined,
  ]);
  expect(mixtures([one(b)])).toEqual([undefined]);
});

/** a - b with both sd 1: the sd of the difference is sqrt(2 - 2 r). [closed form] */
const difference = (r: number | undefined): Cell => {
  const two = fellows([
    [1, r ?? 0],
    [r ?? 0, 1],
  ]);
  const [p, q] = ["4 sd 1", "1 sd 1"].map((text, at) => {
    const g = number("pq"[at]!, text);
    return r === undefined ? g : member(g, two, at);
  }) as [Given, Given];
  return new Cell(scene, [check("apart", { value: closed("p - q", { p, q }), atLeast: number("nought", "0") })]);
};
// The 2 % point lies 2.0537 sd below. [Abramowitz and Stegun, table 26.5; memory] 2000 draws: its standard error is 5 % of an sd.
test.each([-0.9, 0, 0.5, 0.9])("a verdict sees it: the deciding gap of a difference at r = %f", (r) => {
  const sd = Math.sqrt(2 - 2 * r);
  const gap = decide(difference(r), new Deviates(3))[0]!.gap[0]!;
  expect(Math.abs(gap - (3 - 2.0537 * sd))).toBeLessThan(0.2 * sd);
  expect(firstOrder(difference(r))).toBeCloseTo(3 / sd, 3);
});
test("a correlation of nought says what none says, but for the draws", () => {
  expect(firstOrder(difference(0))).toBeCloseTo(firstOrder(difference(undefined)), 9);
});
// 2 phi(z) - 1 and its inverse are what both must use.
test("between limits the coordinate is the share of the normal score", () => {
  const deviates = new Deviates(9);
  const z = deviates.normal("together unit m0", 5).map((e) => e);
  const lone = member(number("u", "4 ±1"), of, 0);
  expect(scatterColumn(deviates, lone, 0, 5)).toEqual(z.map((v) => 2 * phi(v) - 1));
});
