import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, punchedTape, scene, sideCrossing, withBends } from "../scene.fixture.ts";
import { bearing, bearingWidth, checkBears, holePressure, holeStrength } from "./bears.ts";

// Strips of the front over the wall: validation/independent/sprocket.py; 0.23 and 0.56 mm also in the independent re-derivation, A7. [derived]
test.each([
  [0.8, 0, 0.23337],
  [0.8, 0.15, 0.79351],
  [0.8, 0.4, 0.5596],
  [0.7, 0.3, 0.56989],
  [1.2, 0.6, 0.9333],
])("of a front %s mm across with corners of %s mm, %s mm bear in a hole of 1.5 mm", (b, rc, w) =>
  expect(bearingWidth(1.5, b, rc, 0.06)).toBeCloseTo(w, 4),
);
// Two corners first, all of it after 0.75 - sqrt(0.75^2 - 0.4^2) = 0.1156 mm. [derived]
test("a square front of 0.8 mm touches with two corners and bears whole after 0.116 mm", () => {
  expect(bearingWidth(1.5, 0.8, 0, 0)).toBeCloseTo(0, 9);
  expect(bearingWidth(1.5, 0.8, 0, 0.115)).toBeLessThan(0.8);
  expect(bearingWidth(1.5, 0.8, 0, 0.116)).toBe(0.8);
});
test("pushed farther a front never bears less, and never more than it is wide", () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(number(0.2, 1.3), number(0, 0.7), number(0, 0.1), number(0, 0.1), (b, rc, past, more) => {
      const [less, further] = [bearingWidth(1.5, b, rc, past), bearingWidth(1.5, b, rc, past + more)];
      expect(further).toBeGreaterThanOrEqual(less - 1e-9);
      expect(further).toBeLessThanOrEqual(b);
      expect(less).toBeGreaterThanOrEqual(0);
    }),
    { seed: 606, numRuns: 300 },
  );
});
test("a front or a hole that is none is refused in words", () => {
  expect(() => bearingWidth(1.5e-3, 1.6e-3, 0, 6e-5)).toThrow(
    "the tooth is wider than the hole: 1.6 mm across the tape in a hole of 1.5 mm",
  );
  expect(() => bearingWidth(0, 0.8e-3, 0, 6e-5)).toThrow("a hole of 0 mm is none");
  expect(() => bearingWidth(1.5e-3, -1e-3, 0, 6e-5)).toThrow("a tooth -1 mm thick across the tape is none");
  expect(() => bearingWidth(1.5e-3, 0.8e-3, 0, -1e-5)).toThrow("a hole grows by -0.01 mm; it can't shrink");
});
// 0.3 mm of polystyrene, 25 and 45 MPa. [An independent re-derivation, A7: 1.8..3.2 and 4.2..7.6 N, derived]
test.each([
  [0, 25e6, 1.8],
  [0, 45e6, 3.2],
  [0.4, 25e6, 4.2],
  [0.4, 45e6, 7.6],
])("corners of %s mm at %s Pa bear %s N", (rc, s_b, F) =>
  expect(holeStrength.value({ s_b, T: 0.3e-3, w_c: bearingWidth(1.5, 0.8, rc, 0.06) * 1e-3 })).toBeCloseTo(F, 1),
);
describe("in a scene", () => {
  test("plastic and board have each their own strength", () => {
    const plastic = scene(sideCrossing(12), embossedTape(12));
    const board = scene(sideCrossing(8), punchedTape());
    expect(holePressure(plastic)).toBe(plastic.requirement.assume["hole strength of plastic"]);
    expect(holePressure(board)).toBe(board.requirement.assume["hole strength of board"]);
    expect(nominal(plastic, bearing)).toBeGreaterThan(0);
  });
  test("is not applicable without a sprocket", () => {
    const none = scene(withBends(16), embossedTape(16));
    expect(checkBears.absent(none)).toBe("the unit has no sprocket");
    expect(holeStrength.reads(none)).toBeUndefined();
  });
});
