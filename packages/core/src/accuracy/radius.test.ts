import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { driven, nominal } from "../scene.fixture.ts";
import { offsetAcross, offsetAlong, pickRadius, shareOf, spreadAcross, spreadAlong, spreadOf } from "./radius.ts";

const swing = fc.constantFrom("none", "even", "either", "turn");
const by = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 1, maxLength: 3 });
const parts = fc.array(fc.record({ swing, by }), { maxLength: 6 });
/** Mean square of one place's swing over its even law, by a thousand places of it. */
const meanSquare = (kind: string, reach: number): number => {
  const n = 1000;
  const at = (t: number): number => (kind === "even" ? t : kind === "either" ? Math.sign(t) : Math.sin(Math.PI * t));
  let sum = 0;
  for (let k = 0; k < n; k++) sum += (reach * at((2 * k + 1) / n - 1)) ** 2;
  return sum / n;
};
describe("offset and spread of an axis", () => {
  test("hold the mean and the variance of all its parts, place by place", () => {
    fc.assert(
      fc.property(parts, (list) => {
        const { v, s, a, b } = spreadOf(list);
        const sum = (one: { by: readonly number[] }): number => one.by.reduce((x, y) => x + y, 0);
        const fixed = list.filter((p) => p.swing === "none").reduce((x, p) => x + sum(p), 0);
        const variance = list.filter((p) => p.swing !== "none").reduce((x, p) => x + meanSquare(p.swing, sum(p)), 0);
        expect(v).toBeCloseTo(fixed, 9);
        expect(Math.abs(s * s + (a * a) / 3 + b * b - variance)).toBeLessThanOrEqual(1e-5 * variance + 1e-9);
      }),
      { seed: 83, numRuns: 200 },
    );
  });
  test("do not depend on the order of the parts", () => {
    fc.assert(
      fc.property(parts, (list) => {
        const [one, other] = [spreadOf(list), spreadOf([...list].reverse())];
        for (const key of ["v", "s", "a", "b"] as const) expect(other[key]).toBeCloseTo(one[key], 9);
      }),
      { seed: 84, numRuns: 100 },
    );
  });
});
describe("the radius", () => {
  const sheet = driven.sheetScene();
  // Chebyshev's inequality: no law has more than 1/k² beyond k sds of its mean. [derived]
  test("is no less than what one sd of either axis asks, and no more than Chebyshev's bound of its share", () => {
    const [vx, vy, sx, sy] = [offsetAlong, offsetAcross, spreadAlong, spreadAcross].map((m) => nominal(sheet, m));
    const R = nominal(sheet, pickRadius);
    const share = nominal(sheet, shareOf(sheet));
    expect(R).toBeGreaterThan(Math.max(sx!, sy!));
    expect(R).toBeLessThan(Math.hypot(vx!, vy!) + Math.hypot(sx!, sy!) / Math.sqrt(1 - share));
  });
  // All of the spread taken away leaves the offset alone: 3, 4, 5. By hand. [derived]
  test("of what is fixed alone is its distance", () => {
    const fixed = (x: number) => [{ swing: "none", by: [x] }];
    const R = pickRadius.value({ q: 0.997, along: fixed(3e-5), across: fixed(4e-5) } as never);
    expect(R).toBeCloseTo(5e-5, 9);
  });
});
