import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { pieceValue, settingsOf } from "./read-off.ts";
import { lever, rockingPointer, spoolDown, torqueByCurrent, torqueRatio, twist } from "./turning.ts";

// A pointer of length l turned by a stands l tan(a) off; the pitch line moves r a. [derived]
test("play at the pitch line comes back from a pointer, to a thousandth up to three degrees", () => {
  const set = settingsOf(rockingPointer);
  fc.assert(
    fc.property(fc.double({ min: 1e-4, max: 0.05, noNaN: true }), (a) => {
      const found = pieceValue(rockingPointer, [{ x_1: set.l! * Math.tan(a), x_2: 0 }], set);
      expect(Math.abs(found / (set.r! * a) - 1)).toBeLessThan(1e-3);
    }),
    { seed: 96, numRuns: 50 },
  );
});
test("a shaft's stiffness is the torque by the angle, not by how long the pointer is", () => {
  for (const l of [0.06, 0.12, 0.24])
    expect(pieceValue(twist, [{ F_1: 1, F_2: 1 + (60 * 1e-3) / 0.03, x: 1e-3 * l }], { r: 0.03, l })).toBeCloseTo(
      60,
      9,
    );
});
describe("efficiency by weights", () => {
  // Work out over work in for one turn of the driven drum. [derived]
  test("is the work lifted over the work let down", () => {
    const set = settingsOf(torqueRatio);
    const [F_1, F_2] = [4.4, 8];
    const put = F_1 * 2 * Math.PI * set.r_1! * set.i!;
    const got = F_2 * 2 * Math.PI * set.r_2!;
    expect(pieceValue(torqueRatio, [{ F_1, F_2 }], set)).toBeCloseTo(got / put, 12);
  });
  test("of a geared motor is that of its gears alone: the idle current is taken off first", () => {
    const set = settingsOf(torqueByCurrent);
    const [I, I_0, e] = [0.42, 0.05, 0.6];
    const F = (set.k! * (I - I_0) * set.i! * e) / set.r!;
    expect(pieceValue(torqueByCurrent, [{ F, I, I_0 }], set)).toBeCloseTo(0.6, 12);
  });
});
test("a lever's torque is its pull times its arm", () =>
  expect(pieceValue(lever, [{ F: 0.55 }], { r: 0.04 })).toBeCloseTo(0.022, 12));
// J w' = -T from w to standstill takes J w/T; stepped here, not solved. [derived]
test("a rotor that runs down under its own friction shows its inertia", () => {
  const [J, T, w0] = [1e-8, 0.15e-3, 800];
  let [w, t] = [w0, 0];
  while (w > 0) {
    w -= (T / J) * 1e-5;
    t += 1e-5;
  }
  expect(pieceValue(spoolDown, [{ t, w: w0 }], { T }) / J).toBeCloseTo(1, 3);
});
