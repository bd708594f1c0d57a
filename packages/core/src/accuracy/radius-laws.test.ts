import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  beyondRadius,
  meanRadius,
  radiusHolding,
  radiusLeaving,
  type Spread2,
  squaredRadius,
  withinRadius,
} from "./radius-laws.ts";

const round: Spread2 = { vx: 0, vy: 0, sx: 1, sy: 1 };

// Noncentral chi-square by scipy, validation/independent/counts.py. [derived]
test.each([
  [1, 2, 0.73098793996409, 3.5844939965311617],
  [3, 4, 0.8034878106115924, 5.449368252056856],
])("offset %f sd: share within %f and 99 %% radius are those of Rice's law", (v, R, P, q) => {
  const spread = { vx: 0, vy: v, sx: 1, sy: 1 };
  expect(withinRadius(R, spread)).toBeCloseTo(P, 12);
  expect(radiusHolding(0.99, spread)).toBeCloseTo(q, 11);
});
// One adaptive integral, validation/independent/counts.py. [derived]
test.each([
  [0, 0, 1, 0.5, 2, 0.9454545785998165],
  [1, 0.5, 1, 0.4, 2.5, 0.9199851854784407],
  [2, 1, 0.3, 1.2, 2, 0.19451412500315796],
  [0, 0, 1, 0.02, 1.5, 0.8663510444617183],
  [0.5, 3, 1, 0.05, 3.2, 0.668920872516035],
])("offset (%f, %f), sd %f and %f: share within %f", (vx, vy, sx, sy, R, P) => {
  expect(withinRadius(R, { vx, vy, sx, sy })).toBeCloseTo(P, 11);
  expect(withinRadius(R, { vx: -vy, vy: vx, sx: sy, sy: sx })).toBeCloseTo(P, 11);
});
// e^(-R^2/2), by hand. [derived]
test("a tail of 1e-13 keeps its digits", () => {
  expect(beyondRadius(7.7, round) / Math.exp(-0.5 * 7.7 ** 2)).toBeCloseTo(1, 12);
  // One sd barely different from the other must join on smoothly.
  const nearly = { ...round, sy: 1 + 1e-7 };
  expect(beyondRadius(7.7, nearly) / beyondRadius(7.7, round)).toBeCloseTo(1, 5);
});
const spreads = fc.record({
  vx: fc.double({ min: -4, max: 4, noNaN: true }),
  vy: fc.double({ min: -4, max: 4, noNaN: true }),
  sx: fc.constant(1),
  sy: fc.double({ min: 0.004, max: 1, noNaN: true }),
});
test("the radius that leaves a share out leaves just that share out, down to 1e-12", () => {
  fc.assert(
    fc.property(spreads, fc.double({ min: -12, max: -0.01, noNaN: true }), (spread, lg) => {
      const share = 10 ** lg;
      expect(beyondRadius(radiusLeaving(share, spread), spread) / share).toBeCloseTo(1, 7);
    }),
    { seed: 20, numRuns: 300 },
  );
});
test("a greater radius never holds less, and inside and beyond make 1", () => {
  const radius = fc.double({ min: 0, max: 8, noNaN: true });
  fc.assert(
    fc.property(spreads, radius, radius, (spread, a, b) => {
      expect(withinRadius(Math.max(a, b), spread)).toBeGreaterThanOrEqual(withinRadius(Math.min(a, b), spread) - 1e-10);
      expect(withinRadius(a, spread) + beyondRadius(a, spread)).toBeCloseTo(1, 10);
    }),
    { seed: 21, numRuns: 300 },
  );
});
test("without scatter along one axis the other's normal law remains", () => {
  // 3-4-5: |y| < 4 with sd 4 about 0 is 68.27 %. [derived]
  expect(withinRadius(5, { vx: 3, vy: 0, sx: 0, sy: 4 })).toBeCloseTo(0.6826894921, 9);
  expect(radiusHolding(0.682689492137, { vx: 3, vy: 0, sx: 0, sy: 4 })).toBeCloseTo(5, 9);
  expect(withinRadius(4.99, { vx: 3, vy: 4, sx: 0, sy: 0 })).toBe(0);
  expect(radiusHolding(0.9, { vx: 3, vy: 4, sx: 0, sy: 0 })).toBe(5);
});
test("mean radius: sqrt(pi/2) without offset, the offset without scatter", () => {
  expect(meanRadius(0, 1)).toBeCloseTo(Math.sqrt(Math.PI / 2), 13);
  expect(meanRadius(1, 1)).toBeCloseTo(1.5485724605511453, 12);
  expect(meanRadius(2, 1e-9)).toBeCloseTo(2, 12);
  expect(meanRadius(2, 0)).toBe(2);
  // On either side of where the series takes over.
  for (const v of [1999.9, 2000.1]) expect(meanRadius(v, 1) - v).toBeCloseTo(1 / (2 * v), 9);
});
test("mean of r^2 is the sum of squares of sd and offset", () => {
  expect(squaredRadius({ vx: 1, vy: 2, sx: 3, sy: 4 }).mean).toBe(30);
});
describe("refused with the reason", () => {
  test.each([
    [{ ...round, sx: -1 }, "must be finite and not below 0"],
    [{ ...round, sy: Number.NaN }, "must be finite and not below 0"],
    [{ ...round, vx: Number.NaN }, "must be finite"],
  ])("a spread %o", (spread, reason) => {
    expect(() => withinRadius(1, spread)).toThrow(reason);
    expect(() => radiusHolding(0.5, spread)).toThrow(reason);
  });
  test("a share of 1, and no number", () => {
    expect(() => radiusHolding(1, round)).toThrow("at least 0 and below 1");
    expect(() => radiusHolding(Number.NaN, round)).toThrow(RangeError);
    expect(() => withinRadius(Number.NaN, round)).toThrow("not a number");
  });
});
