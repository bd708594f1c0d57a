import { describe, expect, test } from "vitest";
import { phi } from "../quantity/law.ts";
import { pointwise } from "./limit-states.ts";
import { mixture } from "./mixture.ts";
import { Stream } from "./stream.ts";

const two = pointwise(3, { up: ([a]) => 3.5 - a!, down: ([a]) => 4 + a! });
const both = [Float64Array.of(3.5, 0, 0), Float64Array.of(-4, 0, 0)];

describe("draws about failing points", () => {
  // P(a > 3.5) + P(a < -4), which can't both be.
  test("find the chance of two planes, each one's own part and the whole", () => {
    const m = mixture(two, both, new Stream(2, "two"), { cov: 0.01, most: 200_000 });
    const [up, down] = [phi(-3.5), phi(-4)];
    expect(Math.abs(m.p / (up + down) - 1)).toBeLessThan(3 * 0.01);
    expect(Math.abs(m.each[0]! / up - 1)).toBeLessThan(3 * m.eachCov[0]!);
    expect(Math.abs(m.each[1]! / down - 1)).toBeLessThan(3 * m.eachCov[1]!);
    expect(m.split[0]! + m.split[1]!).toBeCloseTo(1, 9);
    expect(m.split[0]).toBeCloseTo(up / (up + down), 1);
  });
  test("stop at the spread asked for", () => {
    const m = mixture(two, both, new Stream(2, "stop"), { cov: 0.03, most: 1e6 });
    expect(m.cov).toBeLessThan(0.03);
    expect(m.draws).toBeLessThan(20_000);
  });
  test("read low where a region has no point, which is why they aren't believed alone", () => {
    const m = mixture(two, [both[1]!], new Stream(2, "low"), { most: 5000 });
    expect(m.p).toBeLessThan(0.5 * phi(-3.5));
  });
  test("give up early where next to none of them weighs anything", () => {
    const none = mixture(pointwise(2, { g: () => 1 }), [Float64Array.of(3, 0)], new Stream(1, "none"), { most: 1e6 });
    expect(none.p).toBe(0);
    expect(none.draws).toBeLessThan(10_000);
  });
});
