import { describe, expect, test } from "vitest";
import { Between } from "../quantity/between.ts";
import type { Given } from "../quantity/given.ts";
import { beliefColumn, scatterColumn } from "./cell.ts";
import { Deviates } from "./deviates.ts";
import { number } from "./plain.fixture.ts";

const deviates = new Deviates(3);
const n = 4000;
const guess = (address: string) => number(address, "1..2 guess");
const limits = (address: string) => number(address, "5 ±1 mm", { unit: "mm", level: "reel" });
const between = (t: number, a: Given, b: Given) => new Between(t).of(a, b) as Given;
const moments = (x: Float64Array) => {
  const mean = x.reduce((a, b) => a + b, 0) / x.length;
  return { mean, sd: Math.sqrt(x.reduce((s, v) => s + (v - mean) ** 2, 0) / x.length) };
};
const correlation = (x: Float64Array, y: Float64Array): number => {
  const [p, q] = [moments(x), moments(y)];
  return x.reduce((s, v, k) => s + (v - p.mean) * (y[k]! - q.mean), 0) / x.length / p.sd / q.sd;
};

describe("the draws of belief of a number between two unknowns", () => {
  const [a, b] = [guess("a"), guess("b")];
  test.each([0.1, 0.5, 0.8])("are normal at %f of the way", (t) => {
    const { mean, sd } = moments(beliefColumn(deviates, between(t, a, b), n));
    expect(Math.abs(mean)).toBeLessThan(3 / Math.sqrt(n));
    expect(Math.abs(sd - 1)).toBeLessThan(0.04);
  });
  // cos(pi/8) to the near one, sin(pi/8) to the far one, at a quarter of the way. [derived]
  test("go with the nearer neighbour more than with the farther", () => {
    const z = beliefColumn(deviates, between(0.25, a, b), n);
    expect(correlation(z, beliefColumn(deviates, a, n))).toBeCloseTo(Math.cos(Math.PI / 8), 1);
    expect(correlation(z, beliefColumn(deviates, b, n))).toBeCloseTo(Math.sin(Math.PI / 8), 1);
  });
  test("are the unknown's own where its neighbour is known, or is the same unknown", () => {
    expect(beliefColumn(deviates, between(0.5, number("a", "1.5"), b), n)).toBe(beliefColumn(deviates, b, n));
    const again = number("b", "2..3 guess");
    expect(beliefColumn(deviates, between(0.5, b, again), n)).toBe(beliefColumn(deviates, b, n));
  });
  test("change little for a small step along the way", () => {
    const [x, y] = [0.5, 0.501].map((t) => beliefColumn(deviates, between(t, a, b), n));
    expect(Math.max(...x!.map((v, k) => Math.abs(v - y![k]!)))).toBeLessThan(0.02);
  });
});

describe("the draws of limits between two tolerances", () => {
  const [a, b] = [limits("a"), limits("b")];
  const u = scatterColumn(deviates, between(0.5, a, b), 0, n);
  test("stay within the limits and even between them", () => {
    expect(Math.max(...u)).toBeLessThanOrEqual(1);
    expect(Math.min(...u)).toBeGreaterThanOrEqual(-1);
    // An even law on [-1, 1] has a tenth of its draws in every fifth of the length. [derived]
    for (let i = 0; i < 10; i++) {
      const share = u.filter((v) => v >= -1 + 0.2 * i && v < -0.8 + 0.2 * i).length / n;
      expect(Math.abs(share - 0.1)).toBeLessThan(0.02);
    }
  });
  test("are one column however often they are asked for", () => {
    const q = between(0.5, a, b);
    expect(scatterColumn(deviates, q, 0, n)).toBe(scatterColumn(deviates, q, 0, n));
    expect(scatterColumn(deviates, q, 0, n)).not.toBe(scatterColumn(deviates, q, 0, 2000));
  });
});
