import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { doubleArea, type Part } from "./convex.ts";
import { ring } from "./route.fixture.ts";
import { convexParts } from "./split-polygon.ts";

const square: Part = [0, 0, 2, 0, 2, 2, 0, 2];
const flat = (corners: readonly { x: number; z: number }[]): Part => corners.flatMap(({ x, z }) => [x, z]);

describe("a polygon split into convex parts", () => {
  const convex = (part: Part): boolean => {
    const n = part.length / 2;
    return Array.from({ length: n }, (_, i) => {
      const [a, b, c] = [i, (i + 1) % n, (i + 2) % n];
      return (
        (part[2 * b]! - part[2 * a]!) * (part[2 * c + 1]! - part[2 * b + 1]!) -
        (part[2 * b + 1]! - part[2 * a + 1]!) * (part[2 * c]! - part[2 * b]!)
      );
    }).every((turn) => turn >= -1e-18);
  };
  test("covers its area, and each part bulges everywhere", () => {
    fc.assert(
      fc.property(ring(3, 14), (corners) => {
        const whole = flat(corners);
        const parts = convexParts(whole);
        for (const part of parts) expect(convex(part)).toBe(true);
        expect(parts.reduce((sum, part) => sum + doubleArea(part), 0)).toBeCloseTo(doubleArea(whole), 15);
      }),
      { seed: 2101, numRuns: 300 },
    );
  });
  test("that bulges everywhere is one part", () => expect(convexParts(square)).toHaveLength(1));
  test("of an angle iron is two parts", () =>
    expect(convexParts([0, 0, 3, 0, 3, 1, 1, 1, 1, 3, 0, 3])).toHaveLength(2));
  // A comb of three teeth needs one part a tooth and one for the back at most. [derived]
  test("of a comb is no more than a part a tooth and one for the back", () => {
    const comb = [0, 0, 5, 0, 5, 3, 4, 3, 4, 1, 3, 1, 3, 3, 2, 3, 2, 1, 1, 1, 1, 3, 0, 3];
    const parts = convexParts(comb);
    expect(parts.length).toBeLessThanOrEqual(4);
    expect(parts.reduce((sum, part) => sum + doubleArea(part), 0)).toBe(doubleArea(comb));
  });
});
