import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Deviates } from "../study/deviates.ts";
import { finished, type Steps } from "../study/steps.ts";
import { type Maximin, type MaximinOptions, maximinInSteps } from "./maximin.ts";

const deviates = new Deviates(3);
const of = (low: number[], high: number[], f: (x: readonly number[]) => number[]): Maximin => ({
  low,
  high,
  *at(x) {
    yield;
    return Float64Array.from(f(x));
  },
});
const solved = (problem: Maximin, more: Partial<MaximinOptions> = {}) =>
  finished(maximinInSteps(problem, { first: problem.low, starts: 1, deviates, ...more }));

/**
 * A problem whose answer is known beforehand: k + 1 functions touch the value t at x*, their slopes there add up to nothing with positive weights, so no
 * step raises all of them; each is concave, so there is no other best. The rest stand higher.
 */
interface Known {
  readonly problem: Maximin;
  readonly x: readonly number[];
  readonly t: number;
}
const unit = fc.double({ min: 0, max: 1, noNaN: true });
const known = fc.integer({ min: 1, max: 6 }).chain((k) =>
  fc
    .record({
      x: fc.array(fc.double({ min: 0.1, max: 0.9, noNaN: true }), { minLength: k, maxLength: k }),
      t: fc.double({ min: -3, max: 3, noNaN: true }),
      slopes: fc.array(fc.array(unit, { minLength: k, maxLength: k }), { minLength: k, maxLength: k }),
      bends: fc.array(unit, { minLength: k + 4, maxLength: k + 4 }),
      weights: fc.array(fc.double({ min: 0.3, max: 1, noNaN: true }), { minLength: k, maxLength: k }),
    })
    .map(({ x, t, slopes, bends, weights }): Known => {
      // Nearly along the axes, so that they span all ways; the last one is what the others leave.
      const own = slopes.map((g, j) => g.map((v, i) => (i === j ? 1 + v : 0.4 * (v - 0.5))));
      const last = x.map((_, i) => -own.reduce((sum, g, j) => sum + weights[j]! * g[i]!, 0));
      const all = [...own, last];
      const f = (p: readonly number[]): number[] => {
        const d = p.map((v, i) => v - x[i]!);
        const far = d.reduce((sum, v) => sum + v * v, 0);
        return [
          ...all.map((g, j) => t + g.reduce((sum, v, i) => sum + v * d[i]!, 0) - bends[j]! * far),
          ...[0, 1, 2].map((n) => t + 5 + n + d[n % k]! - bends[k + n]! * far),
        ];
      };
      return { problem: of(Array(k).fill(0), Array(k).fill(1), f), x, t };
    }),
);

describe("the place where the least of some functions is greatest", () => {
  test("is found to a thousandth where it is known beforehand, whatever the start", () => {
    fc.assert(
      fc.property(known, fc.integer({ min: 0, max: 1 }), ({ problem, t }, corner) => {
        const first = problem.low.map(() => corner);
        const found = solved(problem, { first });
        expect(found.least).toBeGreaterThan(t - 2e-3);
        expect(found.least).toBeLessThanOrEqual(t + 1e-9);
      }),
      { seed: 11, numRuns: 150 },
    );
  });
  // |x - 0.3| and |y - 0.6| with slopes of 1 and 3 are kinked where they meet: 1 at (0.3, 0.6). [derived]
  test("is found on a kink that no slope shows", () => {
    const tent = of([0, 0], [1, 1], ([x, y]) => [1 - Math.abs(x! - 0.3) - 3 * Math.abs(y! - 0.6), 2 - x!]);
    expect(solved(tent).least).toBeGreaterThan(0.995);
  });
  // Hills of 1 at 0.2 and 2 at 0.8: no step leads from the one to the other.
  test("is the higher of two hills along a dimension, from the foot of the lower one", () => {
    const hills = of([0], [1], ([x]) => [Math.max(1 - 8 * Math.abs(x! - 0.2), 2 - 8 * Math.abs(x! - 0.8))]);
    expect(solved(hills, { first: [0.1] }).least).toBeGreaterThan(1.99);
  });
  // A hill of 2 about (0.2, 0.8) too small to be met along either dimension from (0.75, 0.25), where one of 1 stands.
  test("is the higher of two hills that lie across, once there are starts enough", () => {
    const tent = (x: readonly number[], a: number, b: number, top: number): number =>
      top - 4 * Math.hypot(x[0]! - a, x[1]! - b);
    const hills = of([0, 0], [1, 1], (x) => [Math.max(tent(x, 0.75, 0.25, 1), tent(x, 0.2, 0.8, 2))]);
    const one = solved(hills, { first: [0.75, 0.25] });
    const many = solved(hills, { first: [0.75, 0.25], starts: 8 });
    expect(one.least).toBeLessThan(1.01);
    expect(many.least).toBeGreaterThan(1.99);
    expect(many.starts).toHaveLength(8);
  });
  test("is the same whenever the seed is the same", () => {
    const one = of([0, 0], [1, 2], ([x, y]) => [x! - y! ** 2, 1 - x! * y!, 0.8 - x! + y!]);
    expect(solved(one, { starts: 3 })).toEqual(solved(one, { starts: 3 }));
  });
  test("keeps within the bounds, and a dimension without room stays", () => {
    const one = of([1, 4], [3, 4], (x) => [x[0]! + x[1]!]);
    expect(solved(one).x).toEqual([3, 4]);
  });
});
describe("a search that is stopped", () => {
  test("answers with the best of what it had seen", () => {
    const seen: number[] = [];
    const counted: Maximin = {
      low: [0, 0],
      high: [1, 1],
      *at([x, y]): Steps<Float64Array> {
        yield;
        const f = 1 - (x! - 0.4) ** 2 - (y! - 0.7) ** 2;
        seen.push(f);
        return Float64Array.of(f);
      },
    };
    const found = solved(counted, { starts: 50, stop: () => seen.length >= 7 });
    expect(found.stopped).toBe(true);
    expect(seen.length).toBeLessThan(12);
    expect(found.least).toBeGreaterThanOrEqual(seen[0]!);
    expect(seen).toContain(found.least);
  });
});
