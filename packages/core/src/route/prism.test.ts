import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { box, circle } from "./outline.ts";
import { combined, gapAcross, inPlaneBelow, prism, prismGap } from "./prism.ts";
import { between } from "./route.fixture.ts";

// Geometry of the route (unpublished working notes), section 2.4; boxes by hand. [derived]
describe("the gap between two prisms", () => {
  const one = prism(box(0, 0, 10, 10), 0, 10);
  test("apart in the side view alone is that of the side view", () =>
    expect(prismGap(one, prism(box(13, 0, 20, 10), 5, 8))).toMatchObject({ gap: 3, inPlane: 3, across: -5 }));
  test("apart across alone is that across", () => expect(prismGap(one, prism(box(2, 2, 8, 8), 12, 20)).gap).toBe(2));
  test("apart both ways is the way from edge to edge", () =>
    expect(prismGap(one, prism(box(13, 0, 20, 10), 14, 20)).gap).toBe(5));
  test("overlapping both ways is the shorter way out", () => {
    expect(prismGap(one, prism(box(8, 0, 20, 10), 9, 20)).gap).toBe(-1);
    expect(prismGap(one, prism(box(9.5, 0, 20, 10), 9, 20)).gap).toBe(-0.5);
  });
  test("touching is 0", () => expect(prismGap(one, prism(circle(12, 5, 2), 0, 10)).gap).toBe(0));
});
test("two stretches of y are apart by what lies between, or overlap by the shorter way out", () => {
  expect(gapAcross({ from: 0, to: 2 }, { from: 5, to: 6 })).toBe(3);
  expect(gapAcross({ from: 5, to: 6 }, { from: 0, to: 2 })).toBe(3);
  expect(gapAcross({ from: 0, to: 10 }, { from: 7, to: 12 })).toBe(-3);
});
test("a prism is nearer than a gap exactly where its outline is nearer than said", () => {
  fc.assert(
    fc.property(between(-1, 1), between(-1, 1), between(-1, 1), (inPlane, across, gap) => {
      fc.pre(Math.abs(combined(inPlane, across) - gap) > 1e-9);
      expect(inPlane < inPlaneBelow(gap, across)).toBe(combined(inPlane, across) < gap);
    }),
    { seed: 2121, numRuns: 2000 },
  );
});
test("nearer outlines never make a greater gap", () => {
  fc.assert(
    fc.property(between(-1, 1), between(-1, 1), between(-1, 1), (a, b, across) => {
      expect(combined(Math.min(a, b), across)).toBeLessThanOrEqual(combined(Math.max(a, b), across) + 1e-15);
    }),
    { seed: 2122, numRuns: 1000 },
  );
});
test("a body that fills no y is refused, with the reason", () => {
  expect(() => prism(circle(0, 0, 1), 0.005, 0.003)).toThrow("from 5.000 mm down to 3.000 mm; give the lesser first");
  expect(() => prism(circle(0, 0, 1), Number.NaN, 1)).toThrow("which is no place");
});
