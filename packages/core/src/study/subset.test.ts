import { describe, expect, test } from "vitest";
import { phi } from "../quantity/law.ts";
import { pointwise } from "./limit-states.ts";
import { Stream } from "./stream.ts";
import { subset } from "./subset.ts";

const plane = (beta: number, d = 3) => pointwise(d, { g: (z) => beta * Math.sqrt(d) - z.reduce((s, v) => s + v, 0) });

describe("subset simulation", () => {
  // Phi(-beta), to three of the spreads it claims for the mean of 12 runs.
  test.each([1, 2.5, 4])("finds the chance beyond a plane at %d", (beta) => {
    const runs = Array.from({ length: 12 }, (_, i) => subset(plane(beta), new Stream(i, "test")));
    const mean = runs.reduce((s, r) => s + r.p, 0) / runs.length;
    const cov = runs.reduce((s, r) => s + r.cov, 0) / runs.length;
    expect(Math.abs(mean / phi(-beta) - 1)).toBeLessThan((3 * cov) / Math.sqrt(12));
  });
  test("hands over points that all fail", () => {
    const run = subset(plane(3), new Stream(1, "points"));
    expect(run.found).toBe(true);
    expect(run.count).toBeGreaterThanOrEqual(100);
    for (let i = 0; i < run.count; i++)
      expect(run.points.reduce((s, column) => s + column[i]!, 0)).toBeGreaterThan(3 * Math.sqrt(3));
  });
  test("of one limit state among several sees that one alone", () => {
    const two = pointwise(1, { near: ([a]) => 1 - a!, far: ([a]) => 3 - a! });
    expect(subset(two, new Stream(1, "one"), { only: 1 }).p / phi(-3)).toBeGreaterThan(0.5);
    expect(subset(two, new Stream(1, "one"), { only: 1 }).p / phi(-3)).toBeLessThan(2);
  });
  test("ends where the limit state levels off, and has found nothing", () => {
    const run = subset(pointwise(1, { g: ([a]) => 2 - Math.tanh(10 * a!) }), new Stream(1, "level"), { least: 1e-9 });
    expect(run.found).toBe(false);
    expect(run.count).toBe(0);
  });
  test("looks no deeper than it is told", () => {
    const run = subset(plane(6), new Stream(1, "deep"), { least: 1e-4 });
    expect(run.found).toBe(false);
    expect(run.p).toBeLessThan(1e-4);
    expect(run.p).toBeGreaterThan(1e-6);
  });
});
