import { describe, expect, test } from "vitest";
import { filmPath } from "../film/path.ts";
import { box, circle, turned } from "../route/outline.ts";
import { nowhere, reachOfFilm, reachOfGuide, together, topOf } from "./extent.ts";

const guide = (along: readonly [number, number, number]) => ({
  through: [1, 2, 3] as const,
  along,
  radius: 0.5,
  film: [4],
});

// Lines and circles by hand. [derived]
describe("a guide reaches", () => {
  test("along its line by half the film, square to it by its radius", () => {
    expect(reachOfGuide(guide([0, 1, 0]), 1)).toEqual({ from: 0, to: 4 });
    expect(reachOfGuide(guide([0, 1, 0]), 2)).toEqual({ from: 2.5, to: 3.5 });
    expect(reachOfGuide(guide([0, 0, -3]), 1)).toEqual({ from: 1.5, to: 2.5 });
    expect(reachOfGuide(guide([0, 0, -3]), 2)).toEqual({ from: 1, to: 5 });
  });
  test("at 45 degrees by both, each times the half root of two", () => {
    expect(reachOfGuide(guide([1, 1, 0]), 1).to).toBeCloseTo(2 + 2.5 * Math.SQRT1_2, 12);
  });
  test("by its radius alone where nobody says how wide the film is", () => {
    expect(reachOfGuide({ ...guide([0, 1, 0]), film: [] }, 1)).toEqual({ from: 2, to: 2 });
  });
  test("nowhere without a direction, which is refused", () => {
    expect(() => reachOfGuide(guide([0, 0, 0]), 1)).toThrow("a guide has no direction");
  });
});
test("reaches together go from the least to the most, and nothing reaches nowhere", () => {
  expect(
    together([
      { from: 1, to: 2 },
      { from: -3, to: -2 },
    ]),
  ).toEqual({ from: -3, to: 2 });
  expect(together([])).toEqual(nowhere);
});
test("a film reaches as far as its edges do at its guides", () => {
  const path = filmPath(
    [0, 5, 0],
    [
      { through: [-30, 12, 4], along: [0, 0, -1], rolls: false },
      { through: [-60, 5, -9], along: [0, 1, 0], rolls: false },
    ],
  );
  // Beside the channel it stands on edge, 8 wide: 4 up and 4 down about z = 4; at both ends it lies 4 to each side of y = 5.
  expect(reachOfFilm({ path, b: 8 }, 1)).toEqual({ from: 1, to: 12 });
  const { from, to } = reachOfFilm({ path, b: 8 }, 2);
  expect(from).toBe(-9);
  expect(to).toBeGreaterThan(8 - 1e-9);
});

describe("the top of a body", () => {
  test("is its highest corner, or its middle and its radius", () => {
    expect(topOf(box(0, 1, 4, 3))).toBe(3);
    expect(topOf(circle(0, 1, 4))).toBe(5);
  });
  test("that turns is the highest it comes to, at an end of the turn or straight above the pivot", () => {
    const body = box(3, 0, 5, 1);
    const about = { x: 0, z: 0 };
    for (const by of [0.2, 1, 2.5, -0.4, -2, 7]) {
      let highest = Number.NEGATIVE_INFINITY;
      for (let i = 0; i <= 20000; i++)
        for (const part of body.parts)
          highest = Math.max(highest, ...turned(part, about, (by * i) / 20000).filter((_, k) => k % 2 === 1));
      expect(topOf(body, { about, by }), `${by}`).toBeCloseTo(highest, 5);
      expect(topOf(body, { about, by })).toBeGreaterThanOrEqual(highest - 1e-12);
    }
  });
});
