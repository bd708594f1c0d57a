import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { discharge, fourWires, idleTorque, inrushSlope, motorConstant, timeConstant } from "./electric.ts";
import { pieceValue } from "./read-off.ts";

/** The time at which a rising curve first passes a value, in steps of a hundred-thousandth of `until`. */
const timeAt = (curve: (t: number) => number, value: number, until: number): number => {
  for (let i = 0; ; i++) if (curve((i * until) / 1e5) >= value) return (i * until) / 1e5;
};
describe("a winding switched on", () => {
  const [V, R, L] = [5, 16, 1.5e-3];
  const current = (t: number): number => (V / R) * (1 - Math.exp((-t * R) / L));
  // 63 % of the final current after L/R, the law of a series circuit. [memory]
  test("shows its inductance by the time to 63 % of its current", () => {
    const t = timeAt(current, 0.632 * (V / R), 1e-3);
    expect(pieceValue(timeConstant, [{ t }], { R }) / L).toBeCloseTo(1, 3);
  });
  test("and by the slope from which it starts, if it is read long before the current bends", () => {
    const [early, late] = [1e-6, 60e-6].map((t) => pieceValue(inrushSlope, [{ V, t, I: current(t) }], {}) / L);
    expect(early).toBeLessThan(1.01);
    expect(late).toBeGreaterThan(1.3);
  });
});
// A capacitor over a resistor falls to 37 % in R C. [memory]
test("a capacitor shows its capacity by the time to 37 % of its voltage", () => {
  const t = timeAt((s) => 1 - Math.exp(-s / (1000 * 220e-6)), 1 - 0.368, 1);
  expect(pieceValue(discharge, [{ t }], { R: 1000 }) / 220e-6).toBeCloseTo(1, 3);
});
// Volts per speed and torque per ampere are one constant: what a motor takes in beyond its heat is what it gives. [derived]
test("volts by speed are torque by current: the power at the shaft is that behind the winding", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1e-3, max: 20e-3, noNaN: true }),
      fc.double({ min: 50, max: 1000, noNaN: true }),
      (k, w) => {
        const found = pieceValue(motorConstant, [{ V: k * w, w }], {});
        const I_0 = 0.05;
        const torque = pieceValue(idleTorque, [{ I_0 }], { k: found });
        expect(torque * w).toBeCloseTo(k * w * I_0, 12);
      },
    ),
    { seed: 93, numRuns: 50 },
  );
});
test("four wires show what lies between the inner two, whatever current flows", () => {
  for (const I of [0.1, 0.5, 2]) expect(pieceValue(fourWires, [{ V: 0.05 * I, I }], {})).toBeCloseTo(0.05, 12);
});
