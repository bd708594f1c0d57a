import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { archForce, type Bend, bendEnergy, liftOff, pastBend, pastStraight } from "./bends.ts";

const bend = (more: Partial<Bend> = {}): Bend => ({
  EI: 34.2e-6,
  R: 15e-3,
  phi: Math.PI / 2,
  kappa: 0,
  mu: 0,
  psi: 0,
  room: 0.35e-3,
  ...more,
});
// Unpublished working notes, compliant parts: 8 mm tape on R 15 mm, pulled with 0.5 N, no friction. [derived]
describe("8 mm tape on a bend of 15 mm, pulled with 0.5 N", () => {
  const B = bendEnergy(34.2e-6, 15e-3, 0);
  test("has 0.424 N inside the wrap and presses with 0.02827 N/mm", () => {
    expect(pastBend(0.5, bend()).inside).toBeCloseTo(0.424, 6);
    expect(pastBend(0.5, bend()).inside / 15).toBeCloseTo(0.028267, 6);
  });
  test("lifts off at 58 of 90 degrees, where its end presses with 0.265 N", () => {
    const a = liftOff(B, 0.5);
    expect(90 - (a * 180) / Math.PI).toBeCloseTo(57.99, 2);
    expect(0.5 * Math.sin(a)).toBeCloseTo(0.265, 4);
  });
});
// Elastica integrated along the free ends, rope in 200 000 steps: validation/independent/hold.py. [derived]
describe("with friction it leaves a bend with", () => {
  test.each([
    [0.718667, 0.5, { mu: 0.25 }],
    [0.365041, 0.3, { EI: 63e-6, R: 40e-3, phi: 0.8, kappa: 7.2, mu: 0.25 }],
    [0.823428, 0.6, { EI: 130e-6, R: 50e-3, phi: 1.1, kappa: -7.2, mu: 0.3 }],
  ])("%f N", (out, into, more) => expect(pastBend(into, bend(more)).pull).toBeCloseTo(out, 5));
});
// e^(0.3 pi), rope law. [derived]
test("a tape without stiffness is a rope: half a turn at 0.3 multiplies by 2.566", () => {
  expect(pastBend(1, bend({ EI: 1e-12, phi: Math.PI, mu: 0.3 })).pull).toBeCloseTo(2.5663, 3);
});
test("more friction, a sharper bend, more loss: never less pull", () => {
  const unit = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(unit, unit, unit, (a, b, c) => {
      const x = bend({ EI: 40e-6, R: 40e-3, phi: 0.9 + a, mu: 0.1 + 0.3 * b, psi: 0.1 * c });
      const { pull } = pastBend(0.4, x);
      expect(pull).toBeGreaterThanOrEqual(0.4 - 1e-12);
      expect(pastBend(0.4, { ...x, mu: x.mu + 0.05 }).pull).toBeGreaterThan(pull);
      expect(pastBend(0.4, { ...x, psi: x.psi + 0.05 }).pull).toBeGreaterThan(pull);
    }),
    { seed: 402, numRuns: 100 },
  );
});
describe("below the pull that lays it on the arc", () => {
  test("contact says how far below, and the pull is an estimate of both faces bending it", () => {
    // Board of 0.75 mm on R 15 mm: B 1.9 N, unpublished working notes. [derived]
    const board = pastBend(0.5, bend({ EI: 844e-6, mu: 0.25 }));
    expect(board.contact).toBeCloseTo(0.5 / 1.876, 3);
    expect(board.inside).toBe(0);
    expect(board.pull).toBeGreaterThan(0.5 * Math.exp(0.25 * (Math.PI / 2)));
  });
  test("a bend shorter than both lift-off angles is none that the tape lies on", () => {
    expect(pastBend(0.5, bend({ phi: 0.9 })).contact).toBeLessThan(1);
    expect(pastBend(0.5, bend({ phi: 1.5 })).contact).toBeGreaterThan(1);
  });
  test("a tape that nothing pulls has no contact, and needs a push all the same", () => {
    const { pull, contact } = pastBend(0, bend({ mu: 0.2 }));
    expect(contact).toBe(0);
    expect(pull).toBeGreaterThan(0);
    expect(Number.isFinite(pull)).toBe(true);
  });
});
test("a tape bent to the radius it keeps passes as a rope, and one without a turn passes untouched", () => {
  expect(pastBend(0.5, bend({ kappa: 1 / 15e-3, mu: 0.2 })).pull).toBeCloseTo(0.5 * Math.exp(0.1 * Math.PI), 12);
  expect(pastBend(0.5, bend({ phi: 0 })).pull).toBe(0.5);
});
test("a stiffness or a radius that is none is refused in words", () => {
  expect(() => pastBend(0.5, bend({ EI: 0 }))).toThrow("stiffness is 0 N m2");
  expect(() => pastBend(0.5, bend({ R: -1e-3 }))).toThrow("radius at the neutral line is -0.001 m");
});

describe("an arch between two faces", () => {
  // The greatest over 200 000 places of its feet: validation/independent/hold.py. [derived]
  test("of 63 N mm2 and 7.2 /m in 0.35 mm presses with 0.05312 N", () => {
    expect(archForce({ length: 0.2, EI: 63e-6, kappa: 7.2, room: 0.35e-3 })).toBeCloseTo(0.05312, 5);
  });
  test("shorter than its feet it touches nothing once its bow fits the room", () => {
    // kappa L^2/8 = 0.35 mm at L = 19.72 mm. [derived]
    expect(archForce({ length: 19.7e-3, EI: 63e-6, kappa: 7.2, room: 0.35e-3 })).toBe(0);
    expect(archForce({ length: 19.8e-3, EI: 63e-6, kappa: 7.2, room: 0.35e-3 })).toBeGreaterThan(0);
  });
  test("presses alike whichever way it bows, and not at all without set", () => {
    const at = (kappa: number) => archForce({ length: 0.2, EI: 63e-6, kappa, room: 0.35e-3 });
    expect(at(-7.2)).toBe(at(7.2));
    expect(at(0)).toBe(0);
  });
});
test("a straight piece adds friction of its weight and of both faces of one arch", () => {
  const piece = { length: 0.2, EI: 63e-6, kappa: 7.2, room: 0.35e-3, mu: 0.25, weight: 0.1 };
  expect(pastStraight(0.3, piece)).toBeCloseTo(0.3 + 0.25 * (0.02 + 2 * 0.05312), 5);
});
