import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { meetingRadius } from "../channel/bend.ts";
import { layCourse } from "./course.ts";
import { box, chain, circle, outlineGap, polygon } from "./outline.ts";
import { pocketAt, sweepOf } from "./ride.ts";
import {
  bentCourse,
  leastByLooking,
  mm,
  origin,
  outlineAt,
  placeNear,
  pocket,
  steps,
  straight,
  um,
} from "./route.fixture.ts";
import { nextPocketGap, steppedGap, sweptGap } from "./sweep.ts";

/** A straight of 40 mm, a bend of 90 degrees, a straight. The bend's centre lies 40 mm on, a radius below or above. */
const bent = (radius: number, way: 1 | -1, run = 40) =>
  layCourse(origin, [{ line: run * mm }, { radius: radius * mm, turn: (way * Math.PI) / 2 }, { line: run * mm }]);
/** A dot so far from that bend's centre, half way round it, on the side of the tape. */
const dot = (rho: number, radius: number, way: 1 | -1) =>
  circle((40 + rho * Math.SQRT1_2) * mm, way * (radius - rho * Math.SQRT1_2) * mm, 1e-9);

// A pocket 11.15 mm long hanging 2.7 mm below a straight route. [derived]
describe("on a straight", () => {
  const sweep = sweepOf(straight(80 * mm), { length: 11.15 * mm, drop: 2.7 * mm });
  test("a floor below is as far as the pocket leaves it", () => {
    expect(sweptGap(sweep, box(20 * mm, -6 * mm, 60 * mm, -3.3 * mm)).gap).toBeCloseTo(0.6 * mm, 12);
  });
  test("what stands beyond the last pocket is reached by its end", () => {
    const { gap, at } = sweptGap(sweep, circle(84 * mm, -1 * mm, 1 * mm));
    expect(gap).toBeCloseTo(3 * mm, 12);
    expect(at).toBeCloseTo((80 - 11.15 / 2) * mm, 12);
  });
  test("a post that reaches in by 1 mm is met 1 mm deep, where the pocket stands over it", () => {
    const { gap, at, pose, point } = sweptGap(sweep, box(40 * mm, -9 * mm, 42 * mm, -1.7 * mm));
    expect(gap).toBeCloseTo(-1 * mm, 12);
    expect(Math.abs(at - 41 * mm)).toBeLessThan(4 * mm);
    expect(pose).toMatchObject({ x: at, z: 0, heading: 0, s: at });
    expect(point.z).toBeCloseTo(-1.7 * mm, 12);
  });
  test("a thin wire across the way is met as deep as half a pocket is wide, or its depth if that is less", () => {
    expect(sweptGap(sweep, circle(40 * mm, -1 * mm, 0.1 * mm)).gap).toBeCloseTo(-1.1 * mm, 7);
    const tall = chain([
      { x: 40 * mm, z: -20 * mm },
      { x: 40 * mm, z: 20 * mm },
    ]);
    expect(sweptGap(sweep, tall).gap).toBeCloseTo((-11.15 / 2) * mm, 7);
  });
});

// Geometry of the route (unpublished working notes), section 2.2: bend radius r at the underside, h = L/2, c = sqrt(r^2 - h^2). [derived]
describe("in a bend", () => {
  test.each([
    [30, 11.15, 2.7],
    [50, 14.7, 11.4],
    [85, 11, 7.4],
  ])("of %f mm with pockets %f mm long, %f mm deep inside, the middle of the bottom goes deepest", (r, L, drop) => {
    const sweep = sweepOf(bent(r, -1), { length: L * mm, drop: drop * mm });
    const c = Math.sqrt(r * r - (L * L) / 4);
    const { gap, pose } = sweptGap(sweep, dot(r - drop - 2, r, -1));
    expect(gap).toBeCloseTo((c - drop - (r - drop - 2)) * mm - 1e-9, 12);
    expect(pose.heading).toBeCloseTo(-Math.PI / 4, 9);
  });
  test.each([
    [30, 11.15, 2.7],
    [50, 14.7, 11.4],
    [85, 11, 7.4],
  ])(
    "of %f mm with pockets %f mm long, %f mm deep outside, the bottom's corners reach farthest, less than r + drop",
    (r, L, drop) => {
      const sweep = sweepOf(bent(r, 1), { length: L * mm, drop: drop * mm });
      const c = Math.sqrt(r * r - (L * L) / 4);
      const { gap } = sweptGap(sweep, dot(r + drop + 2, r, 1));
      expect(gap).toBeCloseTo((r + drop + 2 - Math.hypot(c + drop, L / 2)) * mm - 1e-9, 12);
      expect(gap).toBeGreaterThan(2 * mm - 1e-9);
    },
  );
  test("pockets inside need r - c more depth than on the flat, about L²/8r", () => {
    const [r, L, drop] = [30, 11.2, 2.7];
    const flat = sweptGap(
      sweepOf(straight(0.08), { length: L * mm, drop: drop * mm }),
      box(0.03, -9 * mm, 0.04, -5 * mm),
    ).gap;
    const inside = sweptGap(sweepOf(bent(r, -1), { length: L * mm, drop: drop * mm }), dot(r - 5, r, -1)).gap;
    // An independent re-derivation of the pages (review of the unpublished working notes): chord depth 0.527301 mm at r 30, L 11.2. [derived]
    expect((flat - inside) / mm).toBeCloseTo(0.527301, 5);
  });
  test("turning up, the first pocket's rear corner stands lowest: the chord is tilted up by asin(h/r)", () => {
    const [r, L, drop] = [30, 10, 3];
    const sweep = sweepOf(layCourse(origin, [{ radius: r * mm, turn: 1.4 }]), { length: L * mm, drop: drop * mm });
    const { gap, at } = sweptGap(sweep, box(-20 * mm, -20 * mm, 60 * mm, -8 * mm));
    expect(gap / mm).toBeCloseTo(8 - drop * Math.cos(Math.asin(L / 2 / r)), 9);
    expect(at / mm).toBeCloseTo(r * Math.asin(L / 2 / r), 9);
  });
});

// The swept pose is looked at every 200 um, then every 10 um and every 1 um wherever it could come nearer: independent of how the least is found.
describe.each([
  ["up, pockets outside", 1],
  ["down, pockets inside", -1],
] as const)("on any route that bends %s", (_, way) => {
  test("the least gap is that of looking at every micrometre, within one", () => {
    let overlapping = 0;
    const scene = bentCourse(way).chain((course) =>
      fc.tuple(fc.constant(course), pocket, placeNear(course).chain(outlineAt)),
    );
    fc.assert(
      fc.property(scene, ([course, p, outline]) => {
        fc.pre(course.to > p.length * 1.5);
        const sweep = sweepOf(course, p);
        const { gap, at } = sweptGap(sweep, outline);
        let looked = Number.POSITIVE_INFINITY;
        for (const phase of sweep.phases) {
          const f = (s: number) => {
            const corners = pocketAt(sweep, s).flatMap(({ x, z }) => [x, z]);
            return outlineGap({ parts: [corners], round: 0 }, outline).gap;
          };
          looked = Math.min(looked, leastByLooking(f, phase.from, phase.to, steps, 3));
        }
        if (gap < 0) overlapping++;
        expect(Math.abs(gap - looked)).toBeLessThan(1 * um);
        expect(at).toBeGreaterThanOrEqual(course.from);
        expect(at).toBeLessThanOrEqual(course.to);
      }),
      { seed: 2152, numRuns: 160 },
    );
    expect(overlapping).toBeGreaterThan(20);
  });
});

describe("what is reported", () => {
  const sweep = sweepOf(bent(40, -1), { length: 8 * mm, drop: 3 * mm });
  test("is where the pocket stands: its gap there is the least", () => {
    fc.assert(
      fc.property(placeNear(sweep.course).chain(outlineAt), (outline) => {
        const { gap, pose, point } = sweptGap(sweep, outline);
        const along = { x: Math.cos(pose.heading), z: Math.sin(pose.heading) };
        const corner = (l: number, down: number) => ({
          x: pose.x + l * along.x + down * along.z,
          z: pose.z + l * along.z - down * along.x,
        });
        const there = polygon([corner(-4 * mm, 3 * mm), corner(4 * mm, 3 * mm), corner(4 * mm, 0), corner(-4 * mm, 0)]);
        expect(outlineGap(there, outline).gap).toBeCloseTo(gap, 12);
        expect(Math.abs(outlineGap(there, circle(point.x, point.z, 1e-9)).gap + 1e-9)).toBeLessThanOrEqual(
          Math.abs(gap) + 1e-9,
        );
      }),
      { seed: 2153, numRuns: 100 },
    );
  });
  test("stays out where nothing comes nearer than asked for", () => {
    const floor = circle(20 * mm, -5 * mm, 1 * mm);
    expect(sweptGap(sweep, floor, 1 * mm)).toBeUndefined();
    expect(sweptGap(sweep, floor, 1.001 * mm)!.gap).toBeCloseTo(1 * mm, 12);
  });
  test("by steps is never nearer, and no farther than a step's way", () => {
    const post = circle(60 * mm, -20 * mm, 2 * mm);
    const { gap } = sweptGap(sweep, post);
    for (const step of [4, 1, 0.25, 0.05]) {
      const stepped = steppedGap(sweep, post, step * mm).gap;
      expect(stepped).toBeGreaterThanOrEqual(gap - 1e-8);
      expect(stepped - gap).toBeLessThan(step * mm);
    }
  });
});

describe("neighbouring pockets", () => {
  // An independent re-derivation of the pages (review of the unpublished working notes), C24: SOIC-16 wide meets at 36.7 mm. [derived]
  test("of 11.15 mm at a pitch of 12 mm, 2.6 mm deep, meet inside a bend of 36.7 mm", () => {
    const sweep = sweepOf(bent(36.7, -1), { length: 11.15 * mm, drop: 2.6 * mm });
    expect(Math.abs(nextPocketGap(sweep, 12 * mm))).toBeLessThan(2 * um);
    expect(meetingRadius(2.6 * mm, 11.15 * mm, 12 * mm) / mm).toBeCloseTo(36.7, 1);
  });
  test("outside a bend are as far apart as on the flat", () => {
    const sweep = sweepOf(bent(30, 1), { length: 6 * mm, drop: 2.6 * mm });
    expect(nextPocketGap(sweep, 8 * mm)).toBeCloseTo(2 * mm, 12);
  });
  // Rigid boxes by hand: bottom corners at rho = hypot(c - drop, h), each atan(h/(c - drop)) from its pocket's middle. [derived]
  test("posed a pitch apart inside a bend are as near as the formula says, within a tenth of what the bend takes", () => {
    const [r, L, drop, P1] = [50, 6, 4, 8];
    const sweep = sweepOf(bent(r, -1), { length: L * mm, drop: drop * mm });
    const one = pocketAt(sweep, 60 * mm);
    const next = pocketAt(sweep, (60 + P1) * mm);
    const c = Math.sqrt(r * r - 9);
    const exact = 2 * Math.hypot(c - drop, 3) * Math.sin(P1 / r / 2 - Math.atan(3 / (c - drop)));
    const posed = outlineGap(polygon(one), polygon(next)).gap / mm;
    expect(posed).toBeCloseTo(exact, 9);
    expect(Math.abs(nextPocketGap(sweep, P1 * mm) / mm - posed)).toBeLessThan(0.1 * (P1 - L - posed));
  });
});
