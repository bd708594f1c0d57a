import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { box, chain, circle, type Outline, outlineGap, type Point, polygon, shiftedPart } from "./outline.ts";
import { between, convexAt, mm, outlineAt, regular } from "./route.fixture.ts";

const at = (x: number, z: number): Point => ({ x, z });
const shifted = (o: Outline, dx: number, dz: number): Outline => ({
  ...o,
  parts: o.parts.map((p) => shiftedPart(p, dx, dz)),
});

// Plane geometry by hand. [derived]
describe("the gap between two outlines", () => {
  test("of circles is the distance of their middles less both radii, on the line between", () => {
    const { gap, on, to } = outlineGap(circle(0, 0, 1), circle(3, 4, 1.5));
    expect(gap).toBeCloseTo(2.5, 12);
    expect(on.x).toBeCloseTo(0.6, 12);
    expect(on.z).toBeCloseTo(0.8, 12);
    expect(to.x).toBeCloseTo(2.1, 12);
    expect(to.z).toBeCloseTo(2.8, 12);
  });
  test("of boxes beside each other is what lies between their sides", () =>
    expect(outlineGap(box(0, 0, 2, 2), box(2.5, -1, 4, 5)).gap).toBe(0.5));
  test("of boxes across a corner is the distance of the corners", () =>
    expect(outlineGap(box(0, 0, 2, 2), box(5, 6, 7, 8)).gap).toBe(5));
  test("of a circle before a side of a polygon is its middle's distance less its radius", () => {
    // The line x + z = 2 passes (3, 3) at 4/sqrt 2.
    const triangle = polygon([at(0, 0), at(2, 0), at(0, 2)]);
    expect(outlineGap(circle(3, 3, 1), triangle).gap).toBeCloseTo(2 * Math.SQRT2 - 1, 12);
  });
  test("of a circle past a corner counts to the corner", () => {
    expect(outlineGap(circle(5, -4, 1), polygon([at(0, 0), at(2, 0), at(0, 2)])).gap).toBeCloseTo(4, 12);
  });
  test("of a square on its corner and a box counts from the corner", () => {
    expect(outlineGap(polygon(regular(4, 2)), box(3, -5, 4, 5)).gap).toBeCloseTo(1, 12);
  });
  test("of a circle in a notch counts to the notch's sides, not to the whole", () => {
    const angle = polygon([at(0, 0), at(10, 0), at(10, 2), at(2, 2), at(2, 10), at(0, 10)]);
    expect(outlineGap(circle(6, 5, 1), angle).gap).toBeCloseTo(2, 12);
  });
  test("of a line and what it passes is the distance to the line", () => {
    expect(outlineGap(chain([at(0, 0), at(10, 0), at(10, 5)]), circle(4, 3, 1)).gap).toBeCloseTo(2, 12);
  });
});

describe("the depth of an overlap", () => {
  test("of two circles on one middle is both radii", () =>
    expect(outlineGap(circle(0, 0, 1), circle(0, 0, 2)).gap).toBe(-3));
  test("of two boxes is the shorter way out", () => expect(outlineGap(box(0, 0, 4, 10), box(3, 2, 9, 8)).gap).toBe(-1));
  test("of a box within a box counts to its far side", () =>
    expect(outlineGap(box(0, 0, 10, 4), box(4, 2.5, 5, 3)).gap).toBe(-1.5));
  test("of a circle with its middle inside is its radius and the way to the side", () =>
    expect(outlineGap(box(0, 0, 10, 4), circle(5, 3, 2)).gap).toBe(-3));
  test("is what a shift along its two points takes away, exactly", () => {
    fc.assert(
      fc.property(convexAt(at(0, 0)), convexAt(at(2 * mm, 1 * mm)), (a, b) => {
        const { gap, on, to } = outlineGap(a, b);
        fc.pre(gap < -1e-6);
        expect(Math.hypot(to.x - on.x, to.z - on.z)).toBeCloseTo(-gap, 12);
        expect(outlineGap(a, shifted(b, on.x - to.x, on.z - to.z)).gap).toBeCloseTo(0, 12);
      }),
      { seed: 2111, numRuns: 300 },
    );
  });
  test("is not undercut by any shift in sixty-four directions", () => {
    fc.assert(
      fc.property(convexAt(at(0, 0)), convexAt(at(2 * mm, 1 * mm)), (a, b) => {
        const { gap } = outlineGap(a, b);
        fc.pre(gap < -1e-6);
        for (let i = 0; i < 64; i++) {
          const [dx, dz] = [Math.cos((i * Math.PI) / 32), Math.sin((i * Math.PI) / 32)].map((c) => c * -gap * 0.999);
          expect(outlineGap(a, shifted(b, dx!, dz!)).gap).toBeLessThan(0);
        }
      }),
      { seed: 2112, numRuns: 200 },
    );
  });
});

const anywhere = fc.tuple(between(-0.03, 0.03), between(-0.03, 0.03)).map(([x, z]) => at(x, z));
describe("any two outlines", () => {
  const two = fc.tuple(outlineAt(at(0, 0)), anywhere.chain(outlineAt));
  test("are as far from one another as the other way round", () => {
    fc.assert(
      fc.property(two, ([a, b]) => {
        expect(outlineGap(a, b).gap).toBeCloseTo(outlineGap(b, a).gap, 12);
      }),
      { seed: 2113, numRuns: 400 },
    );
  });
  test("come nearer by no more than they are moved", () => {
    fc.assert(
      fc.property(two, between(-0.01, 0.01), between(-0.01, 0.01), ([a, b], dx, dz) => {
        const change = Math.abs(outlineGap(a, shifted(b, dx, dz)).gap - outlineGap(a, b).gap);
        expect(change).toBeLessThanOrEqual(Math.hypot(dx, dz) + 1e-12);
      }),
      { seed: 2114, numRuns: 400 },
    );
  });
  test("show two points as far apart as the gap, or as deep", () => {
    fc.assert(
      fc.property(two, ([a, b]) => {
        const { gap, on, to } = outlineGap(a, b);
        expect(Math.hypot(to.x - on.x, to.z - on.z)).toBeCloseTo(Math.abs(gap), 12);
      }),
      { seed: 2115, numRuns: 400 },
    );
  });
});

describe("an outline that is none is refused, with the reason", () => {
  test.each<[string, () => Outline, string]>([
    ["box without length", () => box(1, 0, 1, 2), "has no length"],
    ["box without height", () => box(0, 2, 1, 2), "has no height"],
    ["box at no place", () => box(0, Number.NaN, 1, 2), "a corner of a box stands at NaN"],
    ["circle of radius 0", () => circle(0, 0, 0), "its radius must be more than 0"],
    ["circle of negative radius", () => circle(0, 0, -0.001), "a circle of radius -1 mm is no body"],
    ["circle without end", () => circle(0, 0, Number.POSITIVE_INFINITY), "a circle of radius Infinity"],
    ["circle at no place", () => circle(Number.NEGATIVE_INFINITY, 0, 1), "the middle of a circle stands at -Infinity"],
    ["polygon of two corners", () => polygon([at(0, 0), at(1, 0), at(0, 0)]), "encloses nothing; it needs three"],
    ["polygon on one line", () => polygon([at(0, 0), at(1, 1), at(3, 3)]), "meet; its outline must not cross itself"],
    ["bow tie", () => polygon([at(0, 0), at(2, 2), at(2, 0), at(0, 2)]), "the polygon's sides 1 and 3 meet"],
    ["polygon that runs back on itself", () => polygon([at(0, 0), at(2, 0), at(1, 0), at(1, 1)]), "sides 1 and 2 meet"],
    ["chain of one place", () => chain([at(1, 1), at(1, 1)]), "it needs two that differ"],
    ["chain at no place", () => chain([at(1, 1), at(1, Number.NaN)]), "a corner of a chain stands at NaN"],
  ])("%s", (_, make, words) => {
    expect(make).toThrow(RangeError);
    expect(make).toThrow(words);
  });
  test("a box drawn from its upper right corner is the same box", () =>
    expect(box(2, 3, 0, 1)).toEqual(box(0, 1, 2, 3)));
  test("a polygon drawn clockwise is the same polygon", () => {
    const corners = [at(0, 0), at(4, 0), at(4, 3), at(1, 1), at(0, 3)];
    for (const place of [circle(-2, 1, 1), circle(2, 3, 0.5), circle(6, 6, 1)])
      expect(outlineGap(polygon([...corners].reverse()), place).gap).toBeCloseTo(
        outlineGap(polygon(corners), place).gap,
        12,
      );
  });
});
