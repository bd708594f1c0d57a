import { describe, expect, test } from "vitest";
import { evenWeights } from "../coverage/judge.ts";
import { driven, nominal } from "../scene.fixture.ts";
import { Deviates } from "../study/deviates.ts";
import { finished } from "../study/steps.ts";
import { PickDraws } from "./pick-draws.ts";

const sheet = driven.sheetScene();
const made = (seed = 5): PickDraws => {
  const draws = new PickDraws(sheet, new Deviates(seed), evenWeights);
  finished(draws.prepare());
  return draws;
};
const draws = made();
const block = draws.block(3, 8, 4096);
const { x, y } = block.points;
const mean = (c: readonly number[]): number => c.reduce((a, b) => a + b, 0) / c.length;
const sd = (c: readonly number[]): number => Math.sqrt(c.reduce((a, v) => a + (v - mean(c)) ** 2, 0) / (c.length - 1));

describe("what a block says is what its places say", () => {
  test("means, sds and correlation, worked out anew from all 4096", () => {
    expect(x).toHaveLength(4096);
    [x, y].forEach((c, i) => {
      expect(Math.abs(block.mean[i]! - mean(c))).toBeLessThan(1e-12);
      expect(Math.abs(block.sd[i]! / sd(c) - 1)).toBeLessThan(1e-9);
    });
    const together = mean(x.map((v, k) => (v - mean(x)) * (y[k]! - mean(y)))) / (sd(x) * sd(y));
    expect(Math.abs(block.correlation - together)).toBeLessThan(1e-3);
  });
  test("so many of them lie within the radius of any unit as the pick share asks", () => {
    const within = x.filter((v, k) => Math.hypot(v, y[k]!) < block.any).length;
    expect(Math.abs(within - draws.share * 4096)).toBeLessThanOrEqual(1);
  });
  test("a family holds no more than those within its radius", () => {
    const { families } = draws;
    families.forEach((family, i) => {
      const radius = nominal(sheet, family.radius);
      const within = x.filter((v, k) => Math.hypot(v, y[k]!) <= radius).length / 4096;
      expect(block.families[i]!.any).toBeLessThanOrEqual(within + 1 / 4096);
    });
  });
});
test("variances of the terms add up to those of the whole, as far as terms share no place", () => {
  const sum = block.terms.reduce((s, [along]) => s + along, 0);
  expect(sum / block.sd[0]! ** 2).toBeGreaterThan(0.8);
  expect(sum / block.sd[0]! ** 2).toBeLessThan(1.25);
});
test("a known unit on a known reel scatters less than any of them, along and across", () => {
  expect(block.index[0]!).toBeLessThan(block.sd[0]!);
  expect(block.index[1]!).toBeLessThan(block.sd[1]!);
});
test("blocks take belief in the order of the radius in closed form: the last block's is the largest", () => {
  const closed = [0, 3, 7].map((b) => draws.block(b, 8, 0).closed);
  expect(closed).toEqual([...closed].sort((a, b) => a - b));
  expect(closed[0]).toBeLessThan(closed[2]!);
});
test("the same seed and block are the same bits, another block and another seed are not", () => {
  expect(made().block(3, 8, 8)).toEqual({ ...block, points: { x: x.slice(0, 8), y: y.slice(0, 8) } });
  expect(draws.block(4, 8, 8).points.x[0]).not.toBe(x[0]);
  expect(made(6).block(3, 8, 8).points.x[0]).not.toBe(x[0]);
});
