import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { along, courseThrough, layCourse, poseOn, raised } from "./course.ts";
import type { Pose } from "./pose.ts";
import { bentCourse, between, mm, origin } from "./route.fixture.ts";

const quarter = Math.PI / 2;
const close = (got: Pose, x: number, z: number, heading: number) => {
  expect(got.x).toBeCloseTo(x, 12);
  expect(got.z).toBeCloseTo(z, 12);
  expect(got.heading).toBeCloseTo(heading, 12);
};
// Lines and quarter circles by hand. [derived]
describe("a route laid out", () => {
  test("counts neighbouring lines as one, and halves of a bend as one bend", () => {
    const course = layCourse(origin, [
      { line: 1 * mm },
      { line: 2 * mm },
      { radius: 20 * mm, turn: 0.3 },
      { radius: 20 * mm, turn: 0.2 },
    ]);
    expect(course.stretches.map((s) => s.length)).toEqual([3 * mm, 20 * mm * 0.5]);
    expect(course.to).toBeCloseTo(13 * mm, 12);
  });
  test("keeps bends of opposite senses apart, and drops pieces of no length", () => {
    const pieces = [
      { radius: 20 * mm, turn: 0.3 },
      { line: 0 },
      { radius: 20 * mm, turn: 0 },
      { radius: 20 * mm, turn: -0.3 },
    ];
    expect(layCourse(origin, pieces).stretches).toHaveLength(2);
  });
  test("through a placed mark has its pieces before it end there", () => {
    const course = courseThrough(
      { ...origin, x: 0.5, s: 0.5 },
      [{ line: 0.1 }, { radius: 0.04, turn: quarter }],
      [{ line: 0.2 }],
    );
    close(poseOn(course, 0.5), 0.5, 0, 0);
    // A quarter bend upwards came up to it: it began 40 mm behind and 40 mm above, straight down; the line began 100 mm above that.
    close(course.stretches[0]!.start, 0.46, 0.14, -quarter);
    expect(course.from).toBeCloseTo(0.5 - 0.1 - 0.02 * Math.PI, 12);
  });
  test("goes on as it is past the ends of a piece", () => {
    const arc = layCourse(origin, [{ radius: 10 * mm, turn: -1 }]).stretches[0]!;
    close(along(arc, 10 * mm * quarter), 10 * mm, -10 * mm, -quarter);
    close(along(arc, -10 * mm * quarter), -10 * mm, -10 * mm, quarter);
  });
  test.each([
    ["of no piece", [], "no piece of any length"],
    ["of 3 m", [{ line: 3 }], "more than 2 m long at its piece 1"],
    ["with a line travelled back", [{ line: -1 * mm }], "a line of -0.001 m"],
    ["with a bend of radius 0", [{ radius: 0, turn: 1 }], "a bend of radius 0 m"],
    ["with a turn that is no number", [{ radius: 1, turn: Number.NaN }], "turns by NaN"],
  ])("%s is refused, with the reason", (_, pieces, words) => {
    expect(() => layCourse(origin, pieces)).toThrow(words);
  });
  test("that begins at no place is refused", () => {
    expect(() => layCourse({ ...origin, x: Number.NaN }, [{ line: 1 }])).toThrow("begins at no place");
  });
});

describe("the line above a course", () => {
  test("is nearer to the centre of a bend that turns up, and farther from one that turns down", () => {
    const course = layCourse(origin, [
      { radius: 30 * mm, turn: 1 },
      { radius: 30 * mm, turn: -1 },
    ]);
    const [up, down] = raised(course, 2 * mm).stretches.map((s) => s.bend!.radius);
    expect(up).toBeCloseTo(28 * mm, 12);
    expect(down).toBeCloseTo(32 * mm, 12);
  });
  test("runs everywhere at its height above it, in the same direction", () => {
    fc.assert(
      fc.property(bentCourse(1), between(-0.015, 0.015), between(0, 1), (course, up, share) => {
        const above = raised(course, up);
        course.stretches.forEach((stretch, i) => {
          const low = along(stretch, share * stretch.length);
          const high = along(above.stretches[i]!, share * above.stretches[i]!.length);
          close(high, low.x - up * Math.sin(low.heading), low.z + up * Math.cos(low.heading), low.heading);
        });
      }),
      { seed: 2131, numRuns: 200 },
    );
  });
  test("does not exist beyond a bend's centre", () => {
    expect(() => raised(layCourse(origin, [{ radius: 30 * mm, turn: 1 }]), 30 * mm)).toThrow(
      "has no line 30.00 mm above it",
    );
  });
});
