import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { radiusByTails, radiusOfSpread, type Spread, withinSpread } from "./holding.ts";
import { radiusHolding } from "./radius-laws.ts";

const still: Spread = { v: 0, s: 0, a: 0, b: 0 };
// Ten million draws of another program each; 0.1 % is three of their standard errors. [derived]
describe("the radius of 99.7 % where limits have no tails", () => {
  test.each([
    [{ v: 0, s: 0.3, a: 1, b: 0 }, { v: 0, s: 0.4, a: 0, b: 0 }, 1.6715],
    [{ v: 0.5, s: 0.3, a: 1, b: 0 }, { v: 0.2, s: 0.2, a: 0.5, b: 0 }, 2.0516],
    [{ v: 0, s: 0.05, a: 1, b: 0 }, { v: 0, s: 0.05, a: 1, b: 0 }, 1.3857],
    [{ v: 0.4, s: 0.3, a: 0.6, b: 0.8 }, { v: 0, s: 0.3, a: 0, b: 0 }, 2.2999],
  ])("%o and %o: %d", (x, y, expected) => {
    expect(radiusOfSpread(0.997, x, y) / expected).toBeCloseTo(1, 2.7);
    expect(withinSpread(expected, x, y)).toBeCloseTo(0.997, 3);
  });
});
test("without limits it is the normal laws' radius", () => {
  for (const [vx, vy, sx, sy] of [
    [0, 0, 1, 1],
    [1, 0, 1, 1],
    [0.3, 2, 0.2, 1.4],
  ] as const) {
    const x = { v: vx, s: sx, a: 0, b: 0 };
    const y = { v: vy, s: sy, a: 0, b: 0 };
    const expected = radiusHolding(0.99, { vx, vy, sx, sy });
    expect(radiusOfSpread(0.99, x, y)).toBeCloseTo(expected, 9);
    expect(Math.abs(radiusByTails(0.99, x, y) / expected - 1)).toBeLessThan(0.004);
  }
});
// A line of even weight from -a to a: 99 % of it lies within 0.99 a. [by hand]
test("one even cause alone holds 99 % within 0.99 of its reach", () => {
  expect(radiusOfSpread(0.99, { ...still, a: 2 }, still)).toBeCloseTo(1.98, 4);
  expect(Math.abs(radiusByTails(0.99, { ...still, a: 2 }, still) / 1.98 - 1)).toBeLessThan(0.004);
});
test("nothing that swings lies at its offset, and nothing at all at nought", () => {
  expect(radiusOfSpread(0.9, { ...still, v: 3 }, { ...still, v: -4 })).toBe(5);
  expect(radiusOfSpread(0.9, still, still)).toBe(0);
  expect(radiusByTails(0.9, { ...still, v: 3 }, { ...still, v: -4 })).toBeCloseTo(5, 9);
});
test("the quick radius of normal laws is the exact one to 0.4 %, inside its table and beyond", () => {
  const offset = fc.double({ min: -12, max: 12, noNaN: true });
  const sd = fc.double({ min: 0.03, max: 3, noNaN: true });
  fc.assert(
    fc.property(offset, offset, sd, sd, (vx, vy, sx, sy) => {
      const quick = radiusByTails(0.997, { v: vx, s: sx, a: 0, b: 0 }, { v: vy, s: sy, a: 0, b: 0 });
      expect(Math.abs(quick / radiusHolding(0.997, { vx, vy, sx, sy }) - 1)).toBeLessThan(0.004);
    }),
    { seed: 9, numRuns: 1000 },
  );
});
const width = fc.double({ min: 0.02, max: 1, noNaN: true });
const offset = fc.double({ min: -2, max: 2, noNaN: true });
const spreads = fc.record({ v: offset, s: width, a: fc.oneof(fc.constant(0), width), b: fc.constant(0) });
test("the quick radius lies within 4 % above and 12 % below the exact one, and holds a share that is near", () => {
  fc.assert(
    fc.property(spreads, spreads, (x, y) => {
      const [quick, exact] = [radiusByTails(0.997, x, y), radiusOfSpread(0.997, x, y)];
      expect(quick / exact).toBeGreaterThan(0.88);
      expect(quick / exact).toBeLessThan(1.04);
    }),
    { seed: 5, numRuns: 150 },
  );
});
test("a radius grows with the share it holds, and holds it", () => {
  fc.assert(
    fc.property(spreads, spreads, (x, y) => {
      const radii = [0.5, 0.9, 0.99, 0.997].map((q) => radiusOfSpread(q, x, y));
      expect(radii).toEqual([...radii].sort((p, q) => p - q));
      expect(withinSpread(radii[1]!, x, y)).toBeCloseTo(0.9, 4);
    }),
    { seed: 6, numRuns: 60 },
  );
});
test("a share that is none is refused, with the reason", () => {
  for (const share of [0, 1, -1, 2, Number.NaN]) {
    expect(() => radiusOfSpread(share, still, still)).toThrow("between 0 and 1");
    expect(() => radiusByTails(share, still, still)).toThrow("between 0 and 1");
  }
  expect(radiusByTails(0.9, { ...still, s: Number.NaN }, still)).toBeNaN();
});
