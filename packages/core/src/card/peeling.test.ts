import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { peelForce } from "../film/peel-force.ts";
import { chargePail, jerkSpeed, peelSlide, peelSpeeds, tackPeel, trackPeel } from "./peeling.ts";
import { pieceValue } from "./read-off.ts";

const deg = Math.PI / 180;
describe("a seal's strength comes back from what the unit's own law asks", () => {
  const seal = { P_ref: 0.45, theta_ref: 170 * deg, v_ref: 5e-3, n: 0.15, a: 1 };
  test("at any angle of the slide", () => {
    fc.assert(
      fc.property(fc.double({ min: 90, max: 180, noNaN: true }), (angle) => {
        const F = peelForce({ ...seal, theta: angle * deg, v: 5e-3 });
        expect(pieceValue(peelSlide, [{ F }], { theta: angle * deg, theta_t: 170 * deg })).toBeCloseTo(0.45, 9);
      }),
      { seed: 94, numRuns: 50 },
    );
  });
  test("and the exponent of its speed, from times over one length", () => {
    const rows = [40, 8, 2, 0.5].map((t) => ({ t, F: peelForce({ ...seal, theta: 170 * deg, v: 0.2 / t }) }));
    expect(pieceValue(peelSpeeds, rows, {})).toBeCloseTo(0.15, 9);
  });
});
// G = F (1 - cos theta)/w of an inextensible film, Rivlin 1944: at 90 deg the pull over the width, straight back twice it. [memory]
test("the work of a seal's tack is its pull over its width at 90 deg, and twice that where it is drawn straight back", () => {
  const at = (angle: number): number => pieceValue(tackPeel, [{ F: 0.014 }], { theta: angle * deg, w: 1.4e-3 });
  expect(at(90)).toBeCloseTo(10, 9);
  expect(at(180)).toBeCloseTo(20, 9);
});
// Forces go by the width of a track; angle and speed are those of both. [derived]
test("a track half as wide again as the other is 1.5 times as strong, at any angle and speed", () => {
  for (const one of [0.1, 0.4]) expect(pieceValue(trackPeel, [{ F_1: 1.5 * one, F_2: one }], {})).toBeCloseTo(1.5, 12);
});
// Charge C V over the film's area: 10 nF at 1.5 V on 9.3 mm by 200 mm are 15 nC on 18.6 cm². By hand. [derived]
test("a film that raises its pail by 1.5 V carries 8.06 uC a square metre", () => {
  const got = pieceValue(chargePail, [{ V: 1.5 }], { C: 10e-9, b: 9.3e-3, l: 0.2 });
  expect(got * 1e6).toBeCloseTo(15e-9 / 18.6e-4 / 1e-6, 9);
});
test("the speed of jerks lies between the smooth one and the one that jerks", () => {
  const v = pieceValue(jerkSpeed, [{ v_1: 8e-3, v_2: 10e-3 }], {});
  expect(v).toBeGreaterThan(8e-3);
  expect(v).toBeLessThan(10e-3);
});
