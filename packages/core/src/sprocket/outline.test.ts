import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { toothOutline } from "./outline.ts";

const mm = 1e-3;
const [r, deg] = [15.28, Math.PI / 180];

describe("a straight tooth", () => {
  const tooth = toothOutline({
    shape: "straight",
    halfWidth: 0.55,
    pitchRadius: r,
    tipRadius: r + 0.95,
    flank: 22 * deg,
  });
  // 0.55 - 0.95 tan 22 deg, by hand. [derived]
  test("narrows to 0.166 mm of half length 0.95 mm over its pitch line", () => {
    expect(tooth.tipHalfWidth).toBeCloseTo(0.166175, 6);
    expect(tooth.halfWidthAt(r)).toBeCloseTo(0.55, 12);
    expect(tooth.halfWidthAt(r + 0.5)).toBeCloseTo(0.55 - 0.5 * Math.tan(22 * deg), 12);
    expect(tooth.halfWidthAt(r + 0.96)).toBe(0);
  });
  test("whose flanks meet before its tip ends there, pointed", () => {
    const pointed = toothOutline({
      shape: "straight",
      halfWidth: 0.3,
      pitchRadius: r,
      tipRadius: r + 2,
      flank: 45 * deg,
    });
    expect(pointed.tip).toBeCloseTo(r + 0.3, 12);
    expect(pointed.tipHalfWidth).toBe(0);
  });
});
describe("an involute tooth", () => {
  // Radius 16, unwound by tan(acos(15.28/16)) radians of string. [derived]
  test("follows the end of a string unwound from the pitch circle", () => {
    const tooth = toothOutline({ shape: "involute", halfWidth: 0.55, pitchRadius: r, tipRadius: r + 1 });
    const tau = Math.sqrt((16 / r) ** 2 - 1);
    const A = Math.asin(0.55 / r) - (tau - Math.atan(tau));
    expect(tooth.halfWidthAt(16 * Math.cos(A))).toBeCloseTo(16 * Math.sin(A), 9);
  });
  test("stands upright below the pitch circle", () => {
    const tooth = toothOutline({ shape: "involute", halfWidth: 0.55, pitchRadius: r, tipRadius: r + 1 });
    expect(tooth.halfWidthAt(r - 0.3)).toBeCloseTo(0.55, 12);
  });
  // It leaves the pitch circle along the radius, which diverges from the middle line: by r beta^3/6 at the most. [derived]
  test("is hardly wider than upright sides and never crosses its middle line", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 1, noNaN: true }),
        fc.double({ min: 3, max: 60, noNaN: true }),
        fc.double({ min: 0.05, max: 3, noNaN: true }),
        (w, radius, high) => {
          const tooth = toothOutline({
            shape: "involute",
            halfWidth: w,
            pitchRadius: radius,
            tipRadius: radius + high,
          });
          const half = tooth.halfWidthAt(tooth.tip - 1e-9);
          expect(half).toBeLessThanOrEqual(w + (1.05 * radius * Math.asin(w / radius) ** 3) / 6 + 1e-9);
          expect(half).toBeGreaterThanOrEqual(-1e-9);
          expect(tooth.tip).toBeLessThanOrEqual(radius + high + 1e-9);
        },
      ),
      { seed: 601, numRuns: 100 },
    );
  });
  test("lower than its pitch circle has upright sides alone", () => {
    const tooth = toothOutline({ shape: "involute", halfWidth: 0.5, pitchRadius: r, tipRadius: r - 0.2 });
    expect(tooth.tip).toBeCloseTo(r - 0.2, 12);
    expect(tooth.tipHalfWidth).toBeCloseTo(0.5, 12);
  });
});
test("a rounding at the tip keeps the tip's height", () => {
  for (const shape of ["straight", "involute"] as const) {
    const tooth = toothOutline({
      shape,
      halfWidth: 0.55,
      pitchRadius: r,
      tipRadius: r + 1,
      flank: 15 * deg,
      rounding: 0.15,
    });
    expect(tooth.tip).toBeCloseTo(r + 1, 12);
    expect([...tooth.pieces].every(Number.isFinite)).toBe(true);
  }
});
describe("a tooth that is none is refused in words", () => {
  const good = { shape: "straight", halfWidth: 0.5 * mm, pitchRadius: 15 * mm, tipRadius: 16 * mm } as const;
  test.each([
    [{ halfWidth: 0 }, "a tooth 0 mm long at its pitch line is none"],
    [{ halfWidth: -0.2 * mm }, "a tooth -0.4 mm long at its pitch line is none"],
    [{ pitchRadius: 0.3 * mm }, "a tooth 1 mm long does not stand on a pitch circle of radius 0.3 mm"],
    [{ tipRadius: -1 * mm }, "the tip of a tooth lies -1 mm over the axis; it must be above 0"],
    [{ flank: 1.5 }, "flanks of 85.9 deg make no tooth"],
    [{ rounding: -0.1 * mm }, "the tip's corners have a radius of -0.1 mm; it can't be below 0"],
    [{ halfWidth: Number.NaN }, "a tooth NaN mm long at its pitch line is none"],
  ] as const)("%o", (change, words) => expect(() => toothOutline({ ...good, ...change })).toThrow(words));
});
