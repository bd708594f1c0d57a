import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalScore } from "./normal-score.ts";
import { owen, reversed } from "./owen.ts";
import { largestFirst, netDimensions, plainSobol, SobolPoints } from "./sobol.ts";

const names = (d: number) => Array.from({ length: d }, (_, i) => `x${i}`);
const mean = (x: ArrayLike<number>) => Array.from(x).reduce((s, v) => s + v, 0) / x.length;

// Joe & Kuo's points as scipy 1.10.1 gives them. [read]
test("the first points in three dimensions are those of the published table", () => {
  const points = [1, 2, 3, 4].map((k) => [0, 1, 2].map((d) => plainSobol(d, k)));
  expect(points).toEqual([
    [0.5, 0.5, 0.5],
    [0.75, 0.25, 0.25],
    [0.25, 0.75, 0.75],
    [0.375, 0.375, 0.625],
  ]);
});
// scipy 1.17.1, qmc.Sobol(128, scramble=False): point 1000 in dimensions 40, 64, 100 and 128. [read]
test("late dimensions are those of the published table too", () => {
  expect([39, 63, 99, 127].map((d) => plainSobol(d, 1000))).toEqual([
    0.4794921875, 0.4462890625, 0.1865234375, 0.5439453125,
  ]);
});

describe("Owen's scrambling", () => {
  test("reversing twice is no change", () => {
    fc.assert(
      fc.property(fc.integer(), (x) => {
        expect(reversed(reversed(x)) | 0).toBe(x | 0);
      }),
      { seed: 1, numRuns: 500 },
    );
    expect(reversed(1) >>> 0).toBe(0x80000000);
    expect(reversed(0b1101) >>> 0).toBe(0xb0000000);
  });
  // Two words that agree in their m low bits (their leading digits) do so after it, and differ first in the same bit.
  test("turns a digit over by what stands before it alone: words part where they parted", () => {
    const differ = (x: number, y: number) => 31 - Math.clz32((x ^ y) & -(x ^ y));
    fc.assert(
      fc.property(fc.integer(), fc.integer(), fc.integer(), (x, y, seed) => {
        fc.pre(x !== y);
        expect(differ(owen(x, seed), owen(y, seed))).toBe(differ(x, y));
      }),
      { seed: 1, numRuns: 2000 },
    );
  });
  test("turns every digit over in half of all scrambles", () => {
    const seeds = 4000;
    const ones = new Float64Array(32);
    let state = 1;
    for (let s = 0; s < seeds; s++) {
      state = (Math.imul(state, 1664525) + 1013904223) | 0;
      const seed = state ^ (state >>> 15);
      const turned = owen(0x12345678, seed) ^ 0x12345678;
      for (let b = 0; b < 32; b++) ones[b]! += (turned >>> b) & 1;
    }
    // Five standard deviations of a fair coin.
    for (const n of ones) expect(Math.abs(n - seeds / 2)).toBeLessThan(2.5 * Math.sqrt(seeds));
  });
});

describe("nets", () => {
  // (t, m, 2)-net with t = 0 for the first two dimensions: every box of area 2^-m holds one of 2^m points. [Sobol' 1967; memory]
  test("every elementary box of two dimensions holds its one point, scrambled or not, in every aligned block", () => {
    const m = 8;
    const n = 2 ** m;
    const points = new SobolPoints(7, names(2));
    for (const block of [0, 1, 5]) {
      const [x, y] = [points.uniform(0, block * n, n), points.uniform(1, block * n, n)];
      for (let p = 0; p <= m; p++) {
        const boxes = new Uint8Array(n);
        for (let k = 0; k < n; k++)
          boxes[Math.floor(x[k]! * 2 ** p) * 2 ** (m - p) + Math.floor(y[k]! * 2 ** (m - p))]!++;
        expect(boxes.every((c) => c === 1)).toBe(true);
      }
    }
  });
  test("every dimension by itself has one point in each of 2^m equal intervals, also beyond those of one net", () => {
    const d = netDimensions + 5;
    const points = new SobolPoints(3, names(d));
    for (const i of [0, 1, 40, 99, netDimensions - 1, netDimensions, d - 1]) {
      const u = points.uniform(i, 0, 1024);
      expect(new Set(u.map((v) => Math.floor(v * 1024))).size).toBe(1024);
    }
  });
  test("dimensions of two nets are not tied to each other", () => {
    const points = new SobolPoints(3, names(netDimensions + 3));
    const n = 4096;
    for (const [i, j] of [
      [0, netDimensions],
      [1, netDimensions + 1],
      [0, netDimensions + 2],
    ] as const) {
      const [x, y] = [points.uniform(i, 0, n), points.uniform(j, 0, n)];
      const r = mean(x.map((v, k) => (v - 0.5) * (y[k]! - 0.5))) * 12;
      expect(Math.abs(r)).toBeLessThan(4 / Math.sqrt(n));
    }
  });
});

describe("points as columns", () => {
  test("are the same however many are asked for, from wherever", () => {
    fc.assert(
      fc.property(
        fc.integer(),
        fc.nat(3000),
        fc.integer({ min: 1, max: 300 }),
        fc.constantFrom(0, 3, 130),
        (seed, from, n, d) => {
          const points = new SobolPoints(seed, names(131));
          expect(points.uniform(d, from, n)).toEqual(points.uniform(d, 0, from + n).slice(from));
        },
      ),
      { seed: 2, numRuns: 40 },
    );
  });
  test("lie inside the unit interval, and normal ones are their scores", () => {
    const points = new SobolPoints(5, names(3));
    const u = points.uniform(2, 0, 512);
    expect(u.every((v) => v > 0 && v < 1)).toBe(true);
    expect(points.normal(2, 0, 512)).toEqual(u.map(normalScore));
  });
  // Dimension 1 with x1 before a new input, dimension 2 after it: other points, but turned over by the same scramble.
  test("a new input takes a dimension and leaves the others' scrambles as they are", () => {
    const before = new SobolPoints(5, ["a", "b"]);
    const after = new SobolPoints(5, ["a", "new", "b"]);
    expect(after.uniform(0, 0, 64)).toEqual(before.uniform(0, 0, 64));
    // Point nought is nought in every dimension: what it is scrambled to is the scramble itself.
    expect(after.uniform(2, 0, 1)).toEqual(before.uniform(1, 0, 1));
    expect(after.uniform(1, 0, 1)).not.toEqual(before.uniform(1, 0, 1));
    expect(new SobolPoints(6, ["a"]).uniform(0, 0, 64)).not.toEqual(before.uniform(0, 0, 64));
  });
});

// Owen: the standard deviation of a smooth integrand's mean falls as n^-3/2, of plain draws as n^-1/2. [Owen 1997; memory]
test("the error of a mean falls faster than that of plain draws, and the mean is without bias", () => {
  const exact = (Math.E - 1) * Math.sin(1) * 0.25;
  const f = (u: number, v: number, w: number) => Math.exp(u) * Math.cos(v) * w ** 3;
  let spread = 0;
  const errors = (n: number) => {
    const off = Array.from({ length: 40 }, (_, s) => {
      const p = new SobolPoints(s * 7919 + 1, names(3));
      const [x, y, z] = [0, 1, 2].map((d) => p.uniform(d, 0, n)) as [Float64Array, Float64Array, Float64Array];
      const values = x.map((u, k) => f(u, y[k]!, z[k]!));
      spread = Math.sqrt(mean(values.map((v) => (v - exact) ** 2)));
      return mean(values) - exact;
    });
    const rms = Math.sqrt(mean(off.map((e) => e * e)));
    // No bias: the mean of forty lies within four of its standard errors.
    expect(Math.abs(mean(off))).toBeLessThan((4 * rms) / Math.sqrt(40));
    return rms;
  };
  const [coarse, fine] = [errors(64), errors(4096)];
  const slope = Math.log(coarse / fine) / Math.log(64);
  expect(slope).toBeGreaterThan(1.2);
  expect(fine).toBeLessThan(spread / Math.sqrt(4096) / 50);
});

test("the largest contributor gets the first dimension, equal ones keep their order", () => {
  expect(largestFirst([0.1, 0.5, 0.2, 0.5])).toEqual([3, 0, 2, 1]);
  expect(largestFirst([])).toEqual([]);
});
