import { describe, expect, test } from "vitest";
import { phi, phiInverse } from "../quantity/law.ts";
import { type LimitStates, pointwise } from "./limit-states.ts";
import { bandOf, rareEvent, rareEventInSteps } from "./rare.ts";
import { Stream } from "./stream.ts";

const plane = (beta: number, d = 4): LimitStates =>
  pointwise(d, { g: (z) => beta * Math.sqrt(d) - z.reduce((s, v) => s + v, 0) });

describe("a rare event", () => {
  test("beyond a plane has the chance Phi(-beta), and both methods agree", () => {
    for (const beta of [1, 3, 5]) {
      const r = rareEvent(plane(beta), { seed: 5 });
      expect(r.said).toBe("agree");
      expect(Math.abs(r.p / phi(-beta) - 1)).toBeLessThan(0.15);
      expect(r.first[0]!.beta).toBeCloseTo(beta, 6);
    }
  });
  test("depends on the seed alone", () => {
    expect(rareEvent(plane(3), { seed: 5 })).toEqual(rareEvent(plane(3), { seed: 5 }));
    expect(rareEvent(plane(3), { seed: 6 }).p).not.toBe(rareEvent(plane(3), { seed: 5 }).p);
  });
  test("is split by the limit state that fails: P(a > 3) to P(b > 3.5) as 5.8 to 1", () => {
    const r = rareEvent(pointwise(2, { a: ([a]) => 3 - a!, b: ([, b]) => 3.5 - b! }), { seed: 1 });
    const share = phi(-3) / (phi(-3) + phi(-3.5));
    expect(Math.abs(r.split[0]! - share)).toBeLessThan(0.06);
    expect(r.split[0]! + r.split[1]!).toBeCloseTo(1, 9);
  });
  test("in units that differ a million times is the same as in one", () => {
    const r = rareEvent(pointwise(2, { a: ([a]) => 1e6 * (3 - a!), b: ([, b]) => 1e-6 * (3 - b!) }), { seed: 1 });
    expect(r.said).toBe("agree");
    expect(Math.abs(r.p / (1 - (1 - phi(-3)) ** 2) - 1)).toBeLessThan(0.15);
  });
  test("whose middle fails has a chance over a half", () => {
    const r = rareEvent(plane(-1.5), { seed: 1 });
    expect(Math.abs(r.p - phi(1.5))).toBeLessThan(0.05);
    expect(r.first[0]!.beta).toBeCloseTo(-1.5, 6);
  });
  // g has no slope at the middle: only the scout finds the way.
  test("of a circle all round is found though no slope leads there", () => {
    // P(r > 4) = exp(-8).
    const r = rareEvent(pointwise(2, { g: ([a, b]) => 16 - a! * a! - b! * b! }), { seed: 1 });
    expect(r.said).toBe("agree");
    expect(Math.abs(r.p / Math.exp(-8) - 1)).toBeLessThan(0.2);
    expect(r.centres.length).toBeGreaterThanOrEqual(4);
  });
  test("that can't happen is told as below a bound, no number made up", () => {
    const r = rareEvent(pointwise(2, { g: ([a, b]) => 3 - Math.tanh(a!) - Math.tanh(b!) }), { seed: 1, least: 1e-8 });
    expect(r).toMatchObject({ p: 0, said: "none found" });
    expect(r.band[1]).toBeGreaterThan(0);
    expect(r.band[1]).toBeLessThan(0.2);
    expect(r.words).toMatch(/^none found, below .* at 95 %$/);
  });
  test("of limit states that nothing moves is 0 or 1", () => {
    expect(rareEvent(pointwise(0, { g: () => 2 }), { seed: 1 })).toMatchObject({ p: 0, said: "nothing moves them" });
    expect(rareEvent(pointwise(0, { g: () => -2 }), { seed: 1 })).toMatchObject({ p: 1, said: "nothing moves them" });
  });
  test("whose answer is often missing counts that as failing", () => {
    const r = rareEvent(pointwise(1, { g: ([a]) => (a! > 2 ? Number.NaN : 1 + 0.1 * (2 - a!)) }), { seed: 1 });
    expect(r.p / phi(-2)).toBeGreaterThan(0.5);
    expect(r.p / phi(-2)).toBeLessThan(2);
  });
  test("can be left between two steps, many times", () => {
    const steps = rareEventInSteps(plane(4), { seed: 1 });
    let pieces = 0;
    while (!steps.next().done) pieces++;
    expect(pieces).toBeGreaterThan(20);
  });
});

describe("methods that disagree", () => {
  /** A lie: the first calls see a nearer limit than the later ones, so that scouts and draws can't come to one answer. */
  test("are both in the band, and the larger is given", () => {
    let called = 0;
    const shifty: LimitStates = {
      dimensions: 1,
      names: ["g"],
      at: (z, n) => {
        called++;
        // Draws come in batches of 500; scouts don't.
        const limit = n === 500 ? 3 : 4;
        return [Float64Array.from(z[0]!.subarray(0, n), (v) => limit - v)];
      },
    };
    const r = rareEvent(shifty, { seed: 1 });
    expect(called).toBeGreaterThan(10);
    expect(r.said).toBe("methods disagree");
    expect(Math.abs(r.p / phi(-3) - 1)).toBeLessThan(0.2);
    expect(r.band[0]).toBeLessThan(phi(-4));
    expect(r.band[1]).toBeGreaterThan(phi(-3));
  });
});

describe("the band", () => {
  test("is never narrower than 10 % either way, and widens with the spread", () => {
    expect(bandOf(1e-4, 0.01)).toEqual([expect.closeTo(1e-4 / 1.1, 15), expect.closeTo(1.1e-4, 15)]);
    expect(bandOf(1e-4, 0.2)[1] / 1e-4).toBeCloseTo(1.4, 12);
    expect(bandOf(0.9, 0.5)[1]).toBe(1);
  });
  // 400 planes of random distance and tilt: two spreads cover 0.9545; three sd of a count of 400 at that are 0.031.
  test("holds the truth in 95 of 100 cases, over 400 random planes", () => {
    const stream = new Stream(3, "planes");
    let held = 0;
    for (let i = 0; i < 400; i++) {
      const beta = -phiInverse(10 ** (-1.5 - 3 * stream.uniform()));
      const tilt = 2 * Math.PI * stream.uniform();
      const [x, y] = [Math.cos(tilt), Math.sin(tilt)];
      const { p, band } = rareEvent(pointwise(2, { g: ([a, b]) => beta - x * a! - y * b! }), { seed: i });
      expect(p).toBeGreaterThan(0);
      if (band[0] <= phi(-beta) && phi(-beta) <= band[1]) held++;
    }
    expect(Math.abs(held / 400 - 0.9545)).toBeLessThan(0.031);
  });
});
