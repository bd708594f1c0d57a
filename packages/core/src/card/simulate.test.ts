import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { entry, method, set } from "./made.ts";
import type { Method } from "./method.ts";
import { simulateBench } from "./simulate.ts";

/** A length in steps of 0.1 mm by an instrument that is perfect, of pieces that are all alike. */
const plain = method({
  id: "rule",
  title: "length",
  picture: "calipers",
  symbol: "x",
  unit: "m",
  shownIn: "mm",
  equation: "a",
  entries: [entry("a", "reading", "mm", 0.1)],
  settings: [],
  per: "part",
  pieces: 4,
  repeats: 3,
  minutes: 5,
  cost: "nothing to buy",
  needs: [],
  steps: [],
  cautions: [],
  source: { cite: "invented", how: "judgement" },
  shows: (x) => ({ a: x }),
  typical: { value: 12, pieces: 0, readings: 0 },
  example: { rows: [[12]], gives: 12 },
});
const fine = (more: Partial<Method> = {}): Method => ({
  ...plain,
  entries: [entry("a", "reading", "mm", 1e-6)],
  ...more,
});
const flat = (m: Method, seed: number, truth?: number): number[] =>
  simulateBench(m, truth === undefined ? { seed } : { seed, truth }).readings.pieces.flat(2);
const seeds = Array.from({ length: 2000 }, (_, i) => i);
const mean = (x: readonly number[]): number => x.reduce((a, b) => a + b, 0) / x.length;
const sd = (x: readonly number[]): number => Math.sqrt(mean(x.map((v) => (v - mean(x)) ** 2)));

describe("a bench of a known truth", () => {
  test("shows the same readings for the same seed, and others for another", () => {
    const scattered = fine({ typical: { value: 12, pieces: 0.1, readings: 0.1 } });
    expect(simulateBench(scattered, { seed: 3 })).toEqual(simulateBench(scattered, { seed: 3 }));
    expect(flat(scattered, 3)).not.toEqual(flat(scattered, 4));
    expect(flat(scattered, 3)).not.toEqual(flat({ ...scattered, id: "other rule" }, 3));
  });
  test("has as many pieces, readings and numbers as the card asks for", () => {
    const { readings } = simulateBench(plain, { seed: 1 });
    expect(readings.pieces.map((rows) => rows.map((row) => row.length))).toEqual(Array(4).fill([1, 1, 1]));
  });
  test("stands on the typical value in SI where no truth is given", () => {
    expect(simulateBench(plain, { seed: 1 }).truth).toBeCloseTo(0.012, 15);
    expect(simulateBench(plain, { seed: 1, truth: 0.0345 }).truth).toBe(0.0345);
  });
  test("without any errors shows the truth to half a step, as an instrument prints it", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 0.1, noNaN: true }), (truth) => {
        for (const shown of flat(plain, 1, truth)) {
          expect(Math.abs(shown - truth * 1e3)).toBeLessThanOrEqual(0.05 + 1e-9);
          expect(`${shown}`).toMatch(/^\d+(\.\d)?$/);
        }
      }),
      { seed: 141, numRuns: 100 },
    );
  });
  test("shows what the method's instruments show in the k-th reading", () => {
    const steps = fine({ shows: (x, _, k) => ({ a: x * (k + 1) }) });
    expect(simulateBench(steps, { seed: 1 }).readings.pieces[2]).toEqual([[12], [24], [36]]);
  });
});
describe("what is off is off by the same throughout, evenly within its half width", () => {
  // An even law of half width a has the standard deviation a/root 3. [derived]
  const spreadsEvenly = (off: readonly number[], half: number): void => {
    expect(Math.max(...off.map(Math.abs))).toBeLessThanOrEqual(half * 1.0001);
    expect(Math.min(...off)).toBeLessThan(-0.99 * half);
    expect(Math.max(...off)).toBeGreaterThan(0.99 * half);
    // Five standard errors of a mean of 2000.
    expect(Math.abs(mean(off))).toBeLessThan((5 * half) / Math.sqrt(3 * 2000));
    expect(sd(off) / (half / Math.sqrt(3))).toBeCloseTo(1, 1);
  };
  test("nought, in the entry's unit", () => {
    const m = fine({ entries: [entry("a", "reading", "mm", 1e-6, { zero: 0.5 })] });
    spreadsEvenly(
      seeds.map((seed) => {
        const shown = flat(m, seed);
        expect(new Set(shown).size).toBe(1);
        return shown[0]! - 12;
      }),
      0.5,
    );
  });
  test("scale, as a share of what is read", () => {
    const m = fine({ entries: [entry("a", "reading", "mm", 1e-6, { scale: 0.02 })] });
    spreadsEvenly(
      seeds.map((seed) => flat(m, seed)[0]! / 12 - 1),
      0.02,
    );
  });
  test("a setting, in its own unit: what is read is that of the set-up as it is, not as it is drawn", () => {
    const m = fine({ settings: [set("L", "length of the rule", "mm", 40, 2)], shows: (_, { L }) => ({ a: L! }) });
    spreadsEvenly(
      seeds.map((seed) => flat(m, seed)[0]! - 40),
      2,
    );
  });
});
describe("what scatters scatters by a normal law, as shares of the truth", () => {
  const bench = (typical: Method["typical"], truth?: number): readonly (readonly number[])[] =>
    simulateBench(
      fine({ pieces: 400, repeats: 5, typical }),
      truth === undefined ? { seed: 8 } : { seed: 8, truth },
    ).readings.pieces.map((rows) => rows.flat());
  test("pieces from each other, while the readings of one agree", () => {
    const pieces = bench({ value: 12, pieces: 0.05, readings: 0 });
    for (const shown of pieces) expect(new Set(shown).size).toBe(1);
    const of = pieces.map((shown) => shown[0]!);
    // Four standard errors of 400: of the mean 0.01, of the standard deviation 0.141 of it.
    expect(Math.abs(mean(of) / 12 - 1)).toBeLessThan(0.01);
    expect(Math.abs(sd(of) / 0.6 - 1)).toBeLessThan(0.15);
    // Within one standard deviation 68 in 100. [memory]
    expect(Math.abs(of.filter((v) => Math.abs(v - 12) < 0.6).length / 400 - 0.683)).toBeLessThan(0.1);
  });
  test("readings of a piece about that piece", () => {
    const pieces = bench({ value: 12, pieces: 0, readings: 0.05 });
    expect(Math.abs(sd(pieces.flat()) / 0.6 - 1)).toBeLessThan(0.07);
    // Means of five differ by root 5 less. [derived]
    expect(Math.abs((sd(pieces.map(mean)) * Math.sqrt(5)) / 0.6 - 1)).toBeLessThan(0.15);
  });
  test("about a truth below nothing by its size: as far above it as they were above the one of that size", () => {
    const typical = { value: 12, pieces: 0.05, readings: 0.05 };
    const [above, below] = [0.012, -0.012].map((truth) => bench(typical, truth).flat());
    for (const [i, v] of below!.entries()) expect(v + 12).toBeCloseTo(above![i]! - 12, 5);
    expect(sd(below!)).toBeGreaterThan(0.5);
  });
});
describe("a limit that is caught", () => {
  const ladder = fine({
    between: ["a", "b"],
    entries: [entry("a", "runs", "mm", 0.5), entry("b", "fails", "mm", 0.5)],
    shows: (x) => ({ a: x, b: x }),
  });
  test("lies between two steps of a ladder, wherever that begins", () => {
    fc.assert(
      fc.property(fc.integer(), fc.double({ min: 1e-3, max: 0.05, noNaN: true }), (seed, truth) => {
        for (const [runs, fails] of simulateBench(ladder, { seed, truth }).readings.pieces.flat() as [
          number,
          number,
        ][]) {
          expect(runs).toBeLessThanOrEqual(truth * 1e3 + 1e-9);
          expect(fails).toBeGreaterThan(truth * 1e3 - 1e-9);
          expect(fails - runs).toBeCloseTo(0.5, 9);
        }
      }),
      { seed: 142, numRuns: 200 },
    );
  });
  test("below the ladder's first step still lies between what runs and what fails", () => {
    for (const seed of seeds) {
      const [runs, fails] = flat(ladder, seed, 2e-4);
      expect(runs).toBeLessThanOrEqual(0.2);
      expect(fails).toBeGreaterThan(0.2);
      expect(fails! - runs!).toBeCloseTo(0.5, 9);
    }
  });
  test("is as often in the lower half of its step as in the upper: the ladder is not laid to the truth", () => {
    const places = seeds.map((seed) => (12 - flat(ladder, seed)[0]!) / 0.5);
    expect(Math.abs(mean(places) - 0.5)).toBeLessThan(5 / Math.sqrt(12 * 2000));
    expect(sd(places) * Math.sqrt(12)).toBeCloseTo(1, 1);
  });
});
