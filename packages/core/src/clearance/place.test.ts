import { describe, expect, test } from "vitest";
import { mm, unitWith, with12 } from "./clearance.fixture.ts";
import { betweenAcross, type Spot, spotInWords } from "./place.ts";

const one = with12(unitWith([]));
const guides = ["peel line", "back edge", "shoulder", "nip"];
const words = (spot: Partial<Spot>) => spotInWords(one, { x: 0, y: 0, z: 0, ...spot }, guides);

// Peel line 9 mm before the pick, which stands at 0 along the route. [derived]
describe("a place in words", () => {
  test("along the route is so far before or after the nearest mark", () => {
    expect(words({ s: -20 * mm })).toBe("11 mm before the peel line");
    expect(words({ s: -9.01 * mm })).toBe("at the peel line");
    expect(words({ s: -6 * mm })).toBe("3.0 mm after the peel line");
    expect(words({ s: -4.4 * mm })).toBe("4.4 mm before the pick position");
    expect(words({ s: 0 })).toBe("at the pick position");
    expect(words({ s: 14 * mm })).toBe("14 mm after the pick position");
  });
  test("along the film is so far into the span between two guides", () => {
    expect(words({ span: { number: 1, along: 12.4 * mm } })).toBe("12 mm into the span back edge to shoulder");
    expect(words({ span: { number: 0, along: 0 } })).toBe("at the beginning of the span peel line to back edge");
  });
  test("of two bodies is where they come nearest, to a tenth of a millimetre near the pick", () => {
    expect(words({ x: -103.94 * mm, y: 7.25 * mm, z: -0.02 * mm })).toBe("at x −104, y 7.3, z 0.0 mm");
    expect(words({ turned: -Math.PI / 60, x: mm })).toBe("turned by −3.0 degrees, at x 1.0, y 0.0, z 0.0 mm");
  });
});
test("two stretches of y come nearest in the middle of what they share, or of what parts them", () => {
  expect(betweenAcross({ from: 0, to: 10 }, { from: 4, to: 20 })).toBe(7);
  expect(betweenAcross({ from: 0, to: 10 }, { from: 12, to: 20 })).toBe(11);
  expect(betweenAcross({ from: 12, to: 20 }, { from: 0, to: 10 })).toBe(11);
});
