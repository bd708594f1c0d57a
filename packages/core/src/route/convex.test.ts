import { describe, expect, test } from "vitest";
import { cut, doubleArea, type Part, separation } from "./convex.ts";

const square: Part = [0, 0, 2, 0, 2, 2, 0, 2];

// Distances of points, segments and squares, by hand. [derived]
describe("two convex parts", () => {
  test("points 3 across and 4 up stand 5 apart", () => {
    const s = separation([0, 0], [3, 4]);
    expect([s.d, s.nx, s.nz]).toEqual([5, 0.6, 0.8]);
  });
  test("two segments on one line are apart by what lies between them, though no side parts them", () => {
    expect(separation([0, 0, 1, 1], [4, 4, 7, 7]).d).toBeCloseTo(3 * Math.SQRT2, 12);
    expect(separation([0.1, 0.3, 0.2, 0.6], [0.3, 0.9, 0.5, 1.5]).d).toBeCloseTo(Math.hypot(0.1, 0.3), 12);
  });
  // The segment from (0, 0) to (2, 2) lies half a unit off its middle: the shift off its end past (1, 1) is longer. [derived]
  test("crossing segments part by the shortest shift over an end", () => {
    expect(separation([0, 0, 4, 0], [1, -1, 1, 3]).d).toBeCloseTo(-1, 12);
  });
  test("a point inside a square is as deep as the nearest side is far", () => {
    const s = separation(square, [1.5, 0.8]);
    expect(s.d).toBe(-0.5);
    expect(s.nx).toBe(1);
    expect(s.nz).toBeCloseTo(0, 15);
    expect([s.ax, s.az, s.bx, s.bz]).toEqual([2, 0.8, 1.5, 0.8]);
  });
  test("touching parts are 0 apart", () => expect(separation(square, [2, 1, 3, 1, 3, 2]).d).toBe(0));
  test("a corner before a corner is as far as the two corners are", () =>
    expect(separation(square, [5, 6, 7, 6, 7, 8]).d).toBe(5));
});

describe("a part cut along a line", () => {
  test("keeps the half of a square on the side asked for", () => expect(doubleArea(cut(square, 1, 0, 0.5))).toBe(2));
  test("leaves nothing where all lies beyond", () => expect(cut(square, 1, 0, -1)).toEqual([]));
  test("leaves a segment's piece with its two ends", () => expect(cut([0, 0, 4, 4], 1, 0, 1)).toEqual([0, 0, 1, 1]));
  test("leaves a point or nothing of a point", () => {
    expect(cut([1, 1], 1, 0, 1)).toEqual([1, 1]);
    expect(cut([1, 1], 1, 0, 0.9)).toEqual([]);
  });
});
