import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { along, layCourse } from "./course.ts";
import { flangeGap } from "./flange.ts";
import { box, circle, type Outline, outlineGap, polygon, shiftedPart } from "./outline.ts";
import { bentCourse, between, convexAt, mm, origin, outlineAt, placeNear, straight, um } from "./route.fixture.ts";

const T = 0.3 * mm;
const quarter = Math.PI / 2;

// Rectangles and rings by hand. [derived]
describe("the tape's flange", () => {
  const flat = straight(80 * mm);
  test("on a straight is as far from a roller above as the roller from its upper face", () => {
    const { gap, at, point } = flangeGap(flat, 0, T, circle(30 * mm, 6 * mm, 5 * mm));
    expect(gap).toBeCloseTo(0.7 * mm, 12);
    expect(at).toBeCloseTo(30 * mm, 12);
    expect(point.z).toBeCloseTo(1 * mm, 12);
  });
  test("is reached into by what dips below its upper face, no farther than that", () => {
    const { gap, point } = flangeGap(flat, 0, T, box(20 * mm, 0.1 * mm, 25 * mm, 4 * mm));
    expect(gap).toBeCloseTo(-0.2 * mm, 12);
    expect(point.z).toBeCloseTo(0.1 * mm, 12);
  });
  test("met by a post right through is left over the face that is nearer", () => {
    expect(flangeGap(flat, 0, T, box(20 * mm, -1 * mm, 25 * mm, 40 * mm)).gap).toBeCloseTo(-1.3 * mm, 12);
    expect(flangeGap(flat, 0, T, box(20 * mm, -40 * mm, 25 * mm, 1 * mm)).gap).toBeCloseTo(-1 * mm, 12);
  });
  test("a roller with its axis in the tape is in by its radius and the way to a face", () => {
    expect(flangeGap(flat, 0, T, circle(30 * mm, 0.1 * mm, 5 * mm)).gap).toBeCloseTo(-5.1 * mm, 12);
  });
  test("what stands past the drawn end is measured to that end", () => {
    expect(flangeGap(flat, 0, T, circle(84 * mm, 3.3 * mm, 1 * mm)).gap).toBeCloseTo(4 * mm, 12);
  });
  const down = layCourse(origin, [{ radius: 40 * mm, turn: -quarter }]);
  const up = layCourse(origin, [{ radius: 40 * mm, turn: quarter }]);
  test("in a bend down has its underside on the inside", () => {
    const inside = circle(20 * Math.SQRT1_2 * mm, (-40 + 20 * Math.SQRT1_2) * mm, 1 * mm);
    expect(flangeGap(down, 0, T, inside).gap).toBeCloseTo(19 * mm, 12);
    expect(flangeGap(down, 0, T, inside).at).toBeCloseTo(10 * Math.PI * mm, 12);
    expect(
      flangeGap(down, 0, T, circle(50 * Math.SQRT1_2 * mm, (-40 + 50 * Math.SQRT1_2) * mm, 1 * mm)).gap,
    ).toBeCloseTo(8.7 * mm, 12);
  });
  test("in a bend up has its upper face on the inside", () => {
    expect(flangeGap(up, 0, T, circle(20 * Math.SQRT1_2 * mm, (40 - 20 * Math.SQRT1_2) * mm, 1 * mm)).gap).toBeCloseTo(
      18.7 * mm,
      12,
    );
  });
  test("a flat wall outside a bend touches the ring where it stands square to it", () => {
    expect(flangeGap(down, 0, T, box(42 * mm, -40 * mm, 50 * mm, 10 * mm)).gap).toBeCloseTo(1.7 * mm, 12);
  });
  test("a wall across a bend's inside reaches in by its farthest corner", () => {
    // The corner (30, -10) lies hypot(30, 30) from the centre: 2.4264 mm beyond the underside, 2.1264 beyond the upper face.
    const { gap } = flangeGap(down, 0, T, box(0, -40 * mm, 30 * mm, -10 * mm));
    expect(gap).toBeCloseTo((40 - 30 * Math.SQRT2) * mm, 12);
  });
  test("that has no thickness is refused, and so is a bend tighter than it is thick", () => {
    expect(() => flangeGap(flat, T, T, circle(0, 0, 1))).toThrow("the upper face must be above");
    expect(() => flangeGap(layCourse(origin, [{ radius: 0.2 * mm, turn: 1 }]), 0, T, circle(0, 0, 1))).toThrow(
      "turns tighter than the tape is thick",
    );
  });
});

/** The flange cut into slivers, each a convex polygon: no rings, no clipping. */
function bySlivers(course: ReturnType<typeof layCourse>, outline: Outline, step: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const stretch of course.stretches) {
    const n = Math.ceil(stretch.length / step);
    for (let i = 0; i < n; i++) {
      const [a, b] = [along(stretch, (stretch.length * i) / n), along(stretch, (stretch.length * (i + 1)) / n)];
      const high = (p: typeof a, w: number) => ({ x: p.x - w * Math.sin(p.heading), z: p.z + w * Math.cos(p.heading) });
      const sliver = polygon([high(a, 0), high(b, 0), high(b, T), high(a, T)]);
      least = Math.min(least, outlineGap(sliver, outline).gap);
    }
  }
  return least;
}
const scene = fc
  .oneof(bentCourse(1), bentCourse(-1))
  .chain((course) => fc.tuple(fc.constant(course), placeNear(course, 60).chain(outlineAt)));
test("any outline apart from any flange is as far as from the flange's slivers, within one micrometre", () => {
  let apart = 0;
  fc.assert(
    fc.property(scene, ([course, outline]) => {
      const { gap } = flangeGap(course, 0, T, outline);
      // A sliver of 0.3 mm in a bend of 20 mm falls short of its arc by 0.56 um.
      const slivers = bySlivers(course, outline, 0.3 * mm);
      expect(Math.sign(Math.round(gap / um))).toBe(Math.sign(Math.round(slivers / um)));
      if (gap > 0) {
        apart++;
        expect(Math.abs(gap - slivers)).toBeLessThan(1 * um);
      }
    }),
    { seed: 2161, numRuns: 200 },
  );
  expect(apart).toBeGreaterThan(80);
});
test("an outline shifted out over the face by what it reaches in leaves the flange of a straight", () => {
  const course = layCourse({ ...origin, heading: 0.4 }, [{ line: 80 * mm }]);
  const scene = between(20, 60).chain((s) => convexAt({ x: s * mm * Math.cos(0.4), z: s * mm * Math.sin(0.4) }));
  fc.assert(
    fc.property(scene, (outline) => {
      const { gap } = flangeGap(course, 0, T, outline);
      fc.pre(gap < -1e-6);
      const ways = [1, -1].map((way) => {
        const parts = outline.parts.map((p) => shiftedPart(p, way * gap * Math.sin(0.4), -way * gap * Math.cos(0.4)));
        return flangeGap(course, 0, T, { ...outline, parts }).gap;
      });
      expect(Math.max(...ways)).toBeCloseTo(0, 9);
    }),
    { seed: 2162, numRuns: 200 },
  );
});
test("the point shown lies on the outline, as far from the flange as the gap", () => {
  fc.assert(
    fc.property(scene, ([course, outline]) => {
      const { gap, at, pose, point } = flangeGap(course, 0, T, outline);
      fc.pre(gap > 1e-6);
      const there = circle(point.x, point.z, 1e-12);
      expect(Math.abs(outlineGap(there, outline).gap)).toBeLessThan(2e-12);
      expect(flangeGap(course, 0, T, there).gap).toBeCloseTo(gap, 9);
      expect(at).toBe(pose.s);
    }),
    { seed: 2163, numRuns: 200 },
  );
});
