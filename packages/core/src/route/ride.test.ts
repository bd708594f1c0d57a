import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { layCourse, poseOn } from "./course.ts";
import { pocketAt, sweepOf } from "./ride.ts";
import { bentCourse, between, leastByLooking, mm, origin, pocket, steps } from "./route.fixture.ts";

describe("a pocket on a route", () => {
  test("has both ends of its flange on the route, L apart, its bottom square below", () => {
    fc.assert(
      fc.property(bentCourse(-1), pocket, between(0, 1), (course, p, share) => {
        fc.pre(course.to > p.length * 1.5);
        const sweep = sweepOf(course, p);
        const last = sweep.phases.at(-1)!.to;
        const rear = share * last;
        const [a, b, front, back] = pocketAt(sweep, rear);
        const start = poseOn(course, rear);
        expect(Math.hypot(back!.x - start.x, back!.z - start.z)).toBeLessThan(1e-12);
        expect(Math.hypot(front!.x - back!.x, front!.z - back!.z)).toBeCloseTo(p.length, 12);
        expect(Math.hypot(a!.x - back!.x, a!.z - back!.z)).toBeCloseTo(p.drop, 12);
        expect(Math.hypot(b!.x - front!.x, b!.z - front!.z)).toBeCloseTo(p.drop, 12);
        // Somewhere on the route ahead lies the front end.
        const near = leastByLooking(
          (s) => Math.hypot(poseOn(course, s).x - front!.x, poseOn(course, s).z - front!.z),
          rear,
          course.to,
          [...steps, 1e-7],
          1,
        );
        expect(near).toBeLessThan(1e-7);
      }),
      { seed: 2151, numRuns: 100 },
    );
  });
  test("at the last of its poses ends where the route does", () => {
    const sweep = sweepOf(layCourse(origin, [{ line: 40 * mm }, { radius: 30 * mm, turn: 1.5 }, { line: 40 * mm }]), {
      length: 9 * mm,
      drop: 2 * mm,
    });
    const front = pocketAt(sweep, sweep.phases.at(-1)!.to)[2]!;
    const end = poseOn(sweep.course, sweep.course.to);
    expect(Math.hypot(front.x - end.x, front.z - end.z)).toBeLessThan(1e-12);
  });
});

// Rear end on a line, front end on the bend after it: law of cosines from the bend's centre. [derived]
test("a pocket half on a line and half in a bend turns by what the bend lifts its front", () => {
  const [r, L] = [30, 12];
  const sweep = sweepOf(layCourse(origin, [{ line: 40 * mm }, { radius: r * mm, turn: 1.5 }]), {
    length: L * mm,
    drop: 2 * mm,
  });
  const [, , front, back] = pocketAt(sweep, 34 * mm);
  // The centre stands 6 mm on and 30 mm up from the rear end.
  const away = Math.hypot(6, r);
  const seen = Math.acos((away * away + L * L - r * r) / (2 * away * L));
  const tilt = Math.atan2(r, 6) - seen;
  expect((front!.x - back!.x) / mm).toBeCloseTo(L * Math.cos(tilt), 9);
  expect((front!.z - back!.z) / mm).toBeCloseTo(L * Math.sin(tilt), 9);
});

describe("a pocket that can't be swept is refused, with the reason", () => {
  test.each([
    ["without length", 0, 1, "it must be more than 0"],
    ["that hangs nowhere", 5, 0, "hangs 0 m below the tape"],
    ["longer than the route", 300, 1, "the route is shorter than a pocket of 300.00 mm"],
    ["nearly as long as the bend is wide", 39.8, 1, "can't follow the route: a bend turns square to it"],
  ])("%s", (_, length, drop, words) => {
    const course = layCourse(origin, [{ line: 50 * mm }, { radius: 20 * mm, turn: -3 }, { line: 50 * mm }]);
    expect(() => sweepOf(course, { length: length * mm, drop: drop * mm })).toThrow(words);
  });
});
