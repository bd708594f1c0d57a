import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  coilCurvature,
  coilRadius,
  coilShare,
  fading,
  overhang,
  ringDown,
  softLayer,
  stretch,
  threePoints,
  twoBars,
  wallShare,
} from "./bending.ts";
import { pieceValue, settingsOf } from "./read-off.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("a modulus comes back from what a bar of it does", () => {
  // Simply supported beam, load in the middle: w = F L³/(48 E I), I = b t³/12; a handbook's. [memory]
  test("over three points, from the beam's own deflection", () => {
    fc.assert(
      fc.property(between(1e9, 210e9), between(0.1, 5), (E, F) => {
        const set = settingsOf(threePoints);
        const I = (set.b! * set.t! ** 3) / 12;
        const x = (F * set.L! ** 3) / (48 * E * I);
        expect(pieceValue(threePoints, [{ F, x }], set) / E).toBeCloseTo(1, 9);
      }),
      { seed: 91, numRuns: 50 },
    );
  });
  // Cantilever, load at its end: w = F l³/(3 K); a handbook's. [memory]
  test("over a table's edge, as the stiffness of the strip", () => {
    const set = settingsOf(overhang);
    const [K, F] = [450e-6, 0.03];
    expect(pieceValue(overhang, [{ F, x: (F * set.l! ** 3) / (3 * K) }], set)).toBeCloseTo(K, 12);
  });
  test("of two bars alike but for their filling, as the share of the stiffer one", () => {
    const sag = (E: number): number => 1e6 / E;
    expect(pieceValue(twoBars, [{ x_s: sag(2.2e9), x: sag(0.99e9) }], {})).toBeCloseTo(0.45, 12);
  });
  // Two layers side by side stretch alike: F = (E_1 h_1 + E_2 h_2) b x/L. [derived]
  test("in a stack of two layers, the soft one's after the stiff one's is taken off", () => {
    const set = settingsOf(softLayer);
    const x = 2e-3;
    const pull = ((set.E_1! * set.h_1! + 0.3e9 * set.h_2!) * set.b! * x) / set.L!;
    expect(pieceValue(softLayer, [{ F_1: 1, F_2: 1 + pull, x }], set) / 0.3e9).toBeCloseTo(1, 9);
  });
  test("of a stretched strip, whatever it was pulled with before", () => {
    const set = settingsOf(stretch);
    for (const F_1 of [0.5, 2]) {
      const row = { F_1, F_2: F_1 + (4.5e9 * set.b! * set.t! * 2e-3) / set.L!, x: 2e-3 };
      expect(pieceValue(stretch, [row], set) / 4.5e9).toBeCloseTo(1, 9);
    }
  });
  test("a wall that is neither stiff nor soft lies between the two that are, in the share of its stiffness", () => {
    const set = settingsOf(wallShare);
    const row = (K: number) => ({ F: 0.03, x: (0.03 * set.l! ** 3) / (3 * K) });
    expect(pieceValue(wallShare, [row(set.K_1!)], set)).toBeCloseTo(0, 9);
    expect(pieceValue(wallShare, [row(set.K_2!)], set)).toBeCloseTo(1, 9);
    expect(pieceValue(wallShare, [row((set.K_1! + set.K_2!) / 2)], set)).toBeCloseTo(0.5, 9);
  });
});
describe("a coil's radius comes back from its chord", () => {
  // Chord 2 r sin(a) and rise r (1 - cos(a)) of an arc of half angle a. [derived]
  test("for every arc up to a half circle, and its curvature is one over it", () => {
    fc.assert(
      fc.property(between(5e-3, 0.5), between(0.05, Math.PI / 2), (r, a) => {
        const row = { c: 2 * r * Math.sin(a), h: r * (1 - Math.cos(a)) };
        expect(pieceValue(coilRadius, [row], {}) / r).toBeCloseTo(1, 9);
        expect(pieceValue(coilCurvature, [row], {}) * r).toBeCloseTo(1, 9);
        expect(pieceValue(coilShare, [row], { r: 0.03 })).toBeCloseTo(0.03 / r, 9);
      }),
      { seed: 92, numRuns: 100 },
    );
  });
  test("a film that curls the other way has the curvature below nought", () =>
    expect(pieceValue(coilCurvature, [{ c: 30e-3, h: -2.5e-3 }], {})).toBeLessThan(0));
});
test("a force that fades by a power of time gives that power, whichever times it is read at", () => {
  const rows = [60, 600, 3600, 36000].map((t) => ({ t, F: 2 * (t / 60) ** -0.07 }));
  expect(pieceValue(fading, rows, {})).toBeCloseTo(0.07, 9);
  expect(pieceValue(fading, rows.slice(1, 3), {})).toBeCloseTo(0.07, 9);
});
// Energy by the square of the width; a swing to and fro bends twice, each time losing the same share. [derived]
test("a strip that loses 8 % of its bending energy in every bend shows 8 %", () => {
  let energy = 0.02 ** 2;
  for (let bend = 0; bend < 16; bend++) energy *= 1 - 0.08;
  expect(pieceValue(ringDown, [{ a_1: 0.02, a_2: Math.sqrt(energy) }], { n: 8 })).toBeCloseTo(0.08, 9);
});
