import fc from "fast-check";
import { expect, test } from "vitest";
import { faceStiffness, holePull, liftDifference, nipLift, pullSwing, screwSpring, springRate } from "./pulling.ts";
import { pieceValue } from "./read-off.ts";

// Moments about the pivot: F l_1 = N l_2. [derived]
test("a nip lifted by its lever is pressed by what balances it about the pivot", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 20, noNaN: true }),
      fc.double({ min: 5e-3, max: 0.1, noNaN: true }),
      (N, l_1) => {
        const F = (N * 0.02) / l_1;
        expect(pieceValue(nipLift, [{ F }], { l_1, l_2: 0.02 })).toBeCloseTo(N, 9);
      },
    ),
    { seed: 95, numRuns: 50 },
  );
});
// F = m (1 + h cos) swings between m (1 + h) and m (1 - h). [derived]
test("a pull that swings by a quarter about its mean shows 25 %, whatever the mean", () => {
  for (const m of [0.2, 3])
    expect(pieceValue(pullSwing, [{ F_max: 1.25 * m, F_min: 0.75 * m }], {})).toBeCloseTo(0.25, 12);
});
test("a spring shows its rate from any two marks, loose or tensioned", () => {
  const pull = (x: number): number => 2 + 1960 * x;
  for (const [near, far] of [
    [0, 3e-3],
    [5e-3, 6e-3],
  ] as const)
    expect(pieceValue(springRate, [{ F_1: pull(near), F_2: pull(far), x: far - near }], {})).toBeCloseTo(1960, 6);
});
test("a face's stiffness is that of a metre of nip: twice the length bears twice the load at one approach", () => {
  const [short, long] = [10e-3, 20e-3].map((l) =>
    pieceValue(faceStiffness, [{ F_1: 0, F_2: 5e6 * l * 0.2e-3, x: 0.2e-3 }], { l }),
  );
  expect(short).toBeCloseTo(5e6, 3);
  expect(long).toBeCloseTo(short!, 3);
});
// A pin bears on its diameter times the thickness: 13.5 N on 1.5 mm by 0.3 mm are 30 N/mm². By hand. [derived]
test("a hole that gives at 13.5 N on a pin of 1.5 mm in 0.3 mm of carrier bears 30 MPa", () =>
  expect(pieceValue(holePull, [{ F: 13.5 }], { d: 1.5e-3, T: 0.3e-3 }) / 1e6).toBeCloseTo(30, 9));
test("a screw presses by what its springs are shortened, and a loose one not at all", () => {
  const at = (L: number): number => pieceValue(screwSpring, [{ L_0: 4e-3, L }], { k: 300e3 });
  expect(at(3.2e-3)).toBeCloseTo(240, 9);
  expect(at(4e-3)).toBe(0);
});
// The film takes q P off what holds the tape down. [derived]
test("film that lifts the tape by 8 % of its pull shows 0.08 at any pull", () => {
  for (const P of [1, 3])
    expect(pieceValue(liftDifference, [{ F_0: 2, F_1: 2 - 0.08 * P, P }], {})).toBeCloseTo(0.08, 12);
});
