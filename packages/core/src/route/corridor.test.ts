import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { filmPath, type Guide, type Vector } from "../film/path.ts";
import { corridorGap, onStrip, type Strip, stripsOf } from "./corridor.ts";
import { box, circle, outlineGap } from "./outline.ts";
import { combined, type Prism, prism } from "./prism.ts";
import { between, convexAt, leastByLooking, mm, um } from "./route.fixture.ts";

const at = (through: Vector, along: Vector): Guide => ({ through, along, rolls: false });
const scaled = (x: number, y: number, z: number): Vector => [x * mm, y * mm, z * mm];
const peel = scaled(-9, 7.25, 0.3);
/** Straight back and up over a bar; sideways round a post; the sort of path a unit has. */
const overhead = [at(scaled(-29, 7.25, 12.4), [0, 1, 0]), at(scaled(-54, 7.25, 16.4), [0, 1, 0])];
const sideways = [
  at(scaled(-16, 7.25, 3), [0, 1, 0]),
  at(scaled(-70, 14.2, -2), [0, 0, -1]),
  at(scaled(-124, 7.25, -14.7), [0, 1, 0]),
];

// Planes and lines by hand. [derived]
describe("the corridor of a film", () => {
  const level: Strip = { start: scaled(0, 0, 10), across: [0, 1, 0], run: scaled(40, 0, 0), fan: [0, 0, 0] };
  const boxed = (x0: number, z0: number, x1: number, z1: number, from: number, to: number) =>
    prism(box(x0 * mm, z0 * mm, x1 * mm, z1 * mm), from * mm, to * mm);
  const round = (x: number, z: number, r: number) => prism(circle(x * mm, z * mm, r * mm), -20 * mm, 20 * mm);
  const inMm = (body: Prism, strip = level, thickness = 0.5) =>
    corridorGap([strip], 8 * mm, thickness * mm, body).gap / mm;
  test("level above a box is as far as the box leaves it, less half its thickness", () => {
    expect(inMm(boxed(10, 0, 20, 7, -20, 20))).toBeCloseTo(2.75, 9);
  });
  test("beside a box is as far across as its edge stands off", () => {
    expect(inMm(boxed(10, 0, 20, 30, 6, 20))).toBeCloseTo(1.75, 9);
    expect(corridorGap([level], 8 * mm, 0, boxed(10, 0, 20, 30, 6, 20)).y).toBe(4 * mm);
  });
  test("past an edge is the way from edge to edge", () =>
    expect(inMm(boxed(10, 0, 20, 7, 8, 20), level, 0)).toBeCloseTo(5, 9));
  test("through a roller is as deep as its radius where it meets the axis", () => {
    expect(inMm(round(10, 10, 3))).toBeCloseTo(-3.25, 9);
    expect(corridorGap([level], 8 * mm, 0, round(10, 10, 3)).along).toBeCloseTo(0.25, 3);
  });
  // A quarter turn along x: the fibre at y runs from (0, y, 0) to (40, 0, y), half way at (20, y/2, y/2). [derived]
  const twisted: Strip = { start: [0, 0, 0], across: [0, 1, 0], run: scaled(40, 0, 0), fan: [0, -1, 1] };
  test("twisted by a quarter turn has its edge half as far off half way", () => {
    expect(onStrip(twisted, 0.5, 4 * mm).map((v) => +(v / mm).toFixed(12))).toEqual([20, 2, 2]);
  });
  test("twisted is nearest to a roller above with its edge, the line z = x/10 in the side view", () => {
    expect(inMm(round(20, 6, 1), twisted, 0)).toBeCloseTo(40 / Math.hypot(1, 10) - 1, 3);
  });
  test("that stays beyond what is asked for is not looked up", () => {
    const body = boxed(10, 0, 20, 7, -20, 20);
    expect(corridorGap([level], 8 * mm, 0.5 * mm, body, 2.7 * mm)).toBeUndefined();
    expect(corridorGap([level], 8 * mm, 0.5 * mm, body, 2.8 * mm)!.span).toBe(0);
  });
  test("that is none is refused, with the reason", () => {
    const body = boxed(10, 0, 20, 7, -20, 20);
    expect(() => corridorGap([], 8, 0.5, body)).toThrow("the film passes no guide");
    expect(() => corridorGap([level], 0, 0.5, body)).toThrow("a film 0 m wide");
    expect(() => corridorGap([{ ...level, run: [Number.NaN, 0, 0] }], 8, 0.5, body)).toThrow("ends at no place");
  });
});

describe("the strips of a film path", () => {
  test.each([
    ["overhead", overhead],
    ["sideways", sideways],
  ])("led %s begin at the peel line, end at the nip, and meet at the guides", (_, guides) => {
    const strips = stripsOf(filmPath(peel, guides), peel);
    expect(onStrip(strips[0]!, 0, 3 * mm)).toEqual([peel[0], peel[1] + 3 * mm, peel[2]]);
    strips.forEach((strip, i) => {
      const end = onStrip(strip, 1, 0);
      end.forEach((v, k) => {
        expect(v).toBeCloseTo(guides[i]!.through[k]!, 12);
      });
      const next = strips[i + 1];
      if (next)
        for (const y of [-4 * mm, 4 * mm])
          onStrip(strip, 1, y).forEach((v, k) => void expect(v).toBeCloseTo(onStrip(next, 0, y)[k]!, 12));
    });
    // At the nip the film lies square: its fibres are as far apart as on the tape.
    const last = strips.at(-1)!;
    const [p, q] = [onStrip(last, 1, -2 * mm), onStrip(last, 1, 2 * mm)];
    expect(Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2])).toBeCloseTo(4 * mm, 12);
  });
});

/**
 * The strips ruling by ruling, and along each ruling inwards from both ends by thirds: the distance to a convex body falls and rises
 * once along a straight line. No directions, no bounds but the speed of a ruling's ends.
 */
function byRulings(strips: readonly Strip[], width: number, body: Prism): number {
  const d = (p: Vector): number =>
    combined(
      outlineGap(circle(p[0], p[2], 1e-12), body.outline).gap + 1e-12,
      Math.max(p[1] - body.y.to, body.y.from - p[1]),
    );
  const along = (strip: Strip, t: number): number => {
    let [low, high] = [-width / 2, width / 2];
    while (high - low > 0.1 * um) {
      const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
      if (d(onStrip(strip, t, a)) < d(onStrip(strip, t, b))) high = b;
      else low = a;
    }
    return d(onStrip(strip, t, (low + high) / 2));
  };
  return Math.min(
    ...strips.map((strip) => {
      const speed = Math.max(
        ...[-width / 2, width / 2].map((y) =>
          Math.hypot(...onStrip(strip, 1, y).map((v, i) => v - onStrip(strip, 0, y)[i]!)),
        ),
      );
      return leastByLooking(
        (t) => along(strip, t),
        0,
        1,
        [500 * um, 50 * um, 4 * um].map((step) => step / speed),
        speed,
      );
    }),
  );
}
test("any body is as far from any film as looking everywhere shows, within five micrometres", () => {
  let apart = 0;
  const guide = fc
    .tuple(
      between(-80, -15),
      between(-5, 20),
      between(-15, 25),
      fc.constantFrom<Vector>([0, 1, 0], [0, 0, -1], [0, 0, 1], [-1, 1, 0], [0.3, 1, 0.4]),
    )
    .map(([x, y, z, along]) => at(scaled(x, y, z), along));
  const guides = fc.oneof(
    fc.constant(overhead),
    fc.constant(sideways),
    fc.array(guide, { minLength: 1, maxLength: 3 }),
  );
  const body = fc
    .tuple(
      fc.record({ x: between(-0.09, 0), z: between(-0.02, 0.03) }).chain(convexAt),
      between(-0.01, 0.02),
      between(0.001, 0.02),
    )
    .map(([outline, from, wide]) => prism(outline, from, from + wide));
  fc.assert(
    fc.property(guides, between(4, 22), body, (lines, wide, one) => {
      const strips = stripsOf(filmPath(peel, lines), peel);
      const { gap, span, along, y, film } = corridorGap(strips, wide * mm, 0.5 * mm, one);
      const looked = byRulings(strips, wide * mm, one) - 0.25 * mm;
      expect(Math.abs(gap - looked)).toBeLessThan(5 * um);
      expect(onStrip(strips[span]!, along, y)).toEqual(film);
      if (gap > 0) apart++;
    }),
    { seed: 2171, numRuns: 60 },
  );
  expect(apart).toBeGreaterThan(20);
});
