import { describe, expect, test } from "vitest";
import { phi } from "../quantity/law.ts";
import { reweigh } from "./reweigh.ts";

const mean = (z: Float64Array, w: Float64Array): number => z.reduce((s, v, k) => s + w[k]! * v, 0);
/** A reading y of z0 with error e: the posterior is N(y/(1+e^2), e^2/(1+e^2)). Scaled to a chance: at most 1. */
const reading = (y: number, e: number) => (z: readonly Float64Array[], out: Float64Array) => {
  for (let k = 0; k < out.length; k++) out[k] = -0.5 * ((z[0]![k]! - y) / e) ** 2;
};
// Normal belief, normal reading: closed form. [derived]
test("a blunt reading moves belief as far as it should, without refitting", () => {
  const got = reweigh(2, 4000, reading(1, 1), 5);
  expect(got.refits).toBe(0);
  expect(Math.abs(mean(got.z[0]!, got.weights) - 0.5)).toBeLessThan(0.05);
  expect(Math.abs(mean(got.z[1]!, got.weights))).toBeLessThan(0.06);
  expect(got.weights.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
});
test("a sharp one far out starves the draws: refitted, it lands where it should, and says how unlikely it was", () => {
  const got = reweigh(1, 4000, reading(3, 0.05), 6);
  expect(got.refits).toBeGreaterThan(0);
  expect(got.effective).toBeGreaterThan(1000);
  expect(Math.abs(mean(got.z[0]!, got.weights) - 3 / (1 + 0.0025))).toBeLessThan(0.01);
  // e sqrt(2 pi) N(3; 0, 1 + e^2). [derived]
  const chance = (0.05 / Math.sqrt(1.0025)) * Math.exp(-4.5 / 1.0025);
  expect(Math.abs(got.chance / chance - 1)).toBeLessThan(0.1);
  expect(got.contradiction).toContain("contradicts the model");
});
// P(z0 + z1 > 0) with a blunt edge e: by symmetry 1/2; mean of the sum given it 2/sqrt(2 pi)/sqrt(1 + e^2/2). [derived]
test("a trial that passed tilts belief towards passing", () => {
  const e = 0.5;
  const got = reweigh(
    2,
    8000,
    (z, out) => {
      for (let k = 0; k < out.length; k++) out[k] = Math.log(phi((z[0]![k]! + z[1]![k]!) / e));
    },
    7,
  );
  expect(got.chance).toBeCloseTo(0.5, 1);
  const sum = mean(got.z[0]!, got.weights) + mean(got.z[1]!, got.weights);
  expect(Math.abs(sum - (2 * 2) / Math.sqrt(2 * Math.PI) / Math.sqrt(2 + e * e))).toBeLessThan(0.06);
  expect(got.contradiction).toBeUndefined();
});
test("the same seed gives the same weights", () => {
  expect(reweigh(1, 500, reading(1, 0.5), 3).weights).toEqual(reweigh(1, 500, reading(1, 0.5), 3).weights);
});
describe("what cannot be", () => {
  test("a result impossible everywhere is a contradiction, not a number", () => {
    const got = reweigh(
      1,
      500,
      (_z, out) => {
        out.fill(Number.NEGATIVE_INFINITY);
      },
      3,
    );
    expect(got.contradiction).toContain("impossible");
    expect(got.weights.every(Number.isFinite)).toBe(true);
  });
  test("no number, a likelihood above 1 and too few draws are refused", () => {
    expect(() =>
      reweigh(
        1,
        500,
        (_z, out) => {
          out.fill(Number.NaN);
        },
        3,
      ),
    ).toThrow("must be a chance");
    expect(() =>
      reweigh(
        1,
        500,
        (_z, out) => {
          out.fill(1);
        },
        3,
      ),
    ).toThrow("must be a chance");
    expect(() => reweigh(1, 10, reading(1, 1), 3)).toThrow("100 or more");
    expect(() => reweigh(0, 500, reading(1, 1), 3)).toThrow("1 or more");
  });
});
