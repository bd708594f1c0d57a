import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { liftingGap } from "./lifting.ts";
import { box, circle, type Outline, outlineGap, polygon, turned } from "./outline.ts";
import { between, leastByLooking, mm, outlineAt, regular, steps, um } from "./route.fixture.ts";

const pivot = { x: 0, z: 0 };
const deg = Math.PI / 180;
const at = (body: Outline, about: { x: number; z: number }, angle: number): Outline => ({
  ...body,
  parts: body.parts.map((p) => turned(p, about, angle)),
});

// Circles about the pivot, by hand. [derived]
describe("the least gap of a body that lifts", () => {
  test("is that of two circles where both lie on one line with the pivot", () => {
    const other = circle(20 * Math.cos(30 * deg), 20 * Math.sin(30 * deg), 2);
    const { gap, angle } = liftingGap(circle(10, 0, 1), { about: pivot, from: 0, to: Math.PI / 2 }, other);
    expect(gap).toBeCloseTo(7, 12);
    expect(angle).toBeCloseTo(30 * deg, 12);
  });
  test("is that of the end of the turn where it stops short", () => {
    const other = circle(20 * Math.cos(30 * deg), 20 * Math.sin(30 * deg), 2);
    const { gap, angle } = liftingGap(circle(10, 0, 1), { about: pivot, from: 0, to: 10 * deg }, other);
    // Law of cosines with 20 degrees left.
    expect(gap).toBeCloseTo(Math.sqrt(500 - 400 * Math.cos(20 * deg)) - 3, 12);
    expect(angle).toBe(10 * deg);
  });
  test("to a wall is least where the farthest corner points square at it", () => {
    // The corner (4, 3) is 5 from the pivot: 1 short of the wall at 6 when it lies level.
    const { gap, angle, to } = liftingGap(box(2, 1, 4, 3), { about: pivot, from: -Math.PI, to: 0 }, box(6, -20, 8, 20));
    expect(gap).toBeCloseTo(1, 12);
    expect(angle).toBeCloseTo(-Math.atan2(3, 4), 12);
    expect(to.x).toBeCloseTo(6, 12);
    expect(to.z).toBeCloseTo(0, 12);
  });
  test("of a side that faces the pivot is least where its foot from there stands before a corner", () => {
    // A dart whose tip is 5 from the pivot, at 40 degrees; the side at x = 6 faces it squarely when it has turned by as much.
    const place = (rho: number, alpha: number) => ({ x: rho * Math.cos(alpha * deg), z: rho * Math.sin(alpha * deg) });
    const dart = polygon([place(5, 40), place(2, 50), place(2, 30)]);
    const { gap, angle } = liftingGap(box(6, -4, 8, 4), { about: pivot, from: 10 * deg, to: 60 * deg }, dart);
    expect(gap).toBeCloseTo(1, 12);
    expect(angle).toBeCloseTo(40 * deg, 12);
  });
  test("turning past a body goes through it, as deep as at its worst", () => {
    // A post 2 thick across the path of a circle's middle: at 90 degrees its middle is 1 inside either side.
    const { gap, angle } = liftingGap(circle(10, 0, 0.5), { about: pivot, from: 0, to: Math.PI }, box(-1, 5, 1, 15));
    expect(gap).toBeCloseTo(-1.5, 7);
    expect(angle).toBeCloseTo(Math.PI / 2, 6);
  });
  test("with no turn is the gap as it stands", () =>
    expect(liftingGap(box(2, 1, 4, 3), { about: pivot, from: 0, to: 0 }, circle(6, 2, 1)).gap).toBeCloseTo(1, 12));
  test("a whole turn passes everything its ring reaches", () => {
    for (const alpha of [-170, -60, 5, 100, 179])
      expect(
        liftingGap(
          circle(10, 0, 1),
          { about: pivot, from: 0, to: 2 * Math.PI },
          circle(14 * Math.cos(alpha * deg), 14 * Math.sin(alpha * deg), 1),
        ).gap,
      ).toBeCloseTo(2, 12);
  });
  test("that stays beyond what is asked for is not looked up", () => {
    const turn = { about: pivot, from: 0, to: 1 };
    expect(liftingGap(circle(10, 0, 1), turn, circle(20, 0, 2), 7)).toBeUndefined();
    expect(liftingGap(circle(10, 0, 1), turn, circle(20, 0, 2), 7.001)!.gap).toBeCloseTo(7, 12);
  });
  test("of a turn that is none is refused, with the reason", () => {
    expect(() => liftingGap(circle(0, 0, 1), { about: pivot, from: 1, to: 0 }, circle(9, 0, 1))).toThrow(
      "that is no turn",
    );
    expect(() => liftingGap(circle(0, 0, 1), { about: pivot, from: 0, to: Number.NaN }, circle(9, 0, 1))).toThrow(
      "that is no turn",
    );
  });
});

test("any body turned about any pivot comes as near as looking at every micrometre of its way shows, within one", () => {
  let overlapping = 0;
  const place = fc.record({ x: between(-0.03, 0.03), z: between(-0.03, 0.03) });
  const turn = fc
    .tuple(place, between(-0.6, 0.6), between(0, 0.6))
    .map(([about, from, by]) => ({ about, from, to: from + by }));
  fc.assert(
    fc.property(outlineAt(pivot), place.chain(outlineAt), turn, (body, other, one) => {
      const { gap, angle } = liftingGap(body, one, other);
      const reach = Math.max(
        ...body.parts.flatMap((p) =>
          p.flatMap((v, i) => (i % 2 ? [] : [Math.hypot(v - one.about.x, p[i + 1]! - one.about.z)])),
        ),
      );
      const f = (t: number) => outlineGap(at(body, one.about, t), other).gap;
      const looked = leastByLooking(
        f,
        one.from,
        one.to,
        steps.map((step) => step / reach),
        reach,
      );
      if (gap < 0) overlapping++;
      expect(Math.abs(gap - looked)).toBeLessThan(1 * um);
      expect(f(angle)).toBeCloseTo(gap, 12);
    }),
    { seed: 2141, numRuns: 300 },
  );
  expect(overlapping).toBeGreaterThan(30);
});
test("regular polygons turning about their own middle reach as far as their corners", () => {
  for (const n of [3, 4, 5, 6])
    expect(
      liftingGap(
        polygon(regular(n, 5 * mm)),
        { about: pivot, from: 0, to: 2 * Math.PI },
        box(7 * mm, -9 * mm, 9 * mm, 9 * mm),
      ).gap,
    ).toBeCloseTo(2 * mm, 12);
});
