import fc from "fast-check";
import { type Course, courseThrough, layCourse } from "./course.ts";
import { box, chain, circle, type Outline, type Point, polygon } from "./outline.ts";
import type { Piece, Pose } from "./pose.ts";

/** Routes, pockets and outlines drawn at random for the tests, and a slow way to find a least value. Lengths in m. */
export const mm = 1e-3;
export const um = 1e-6;
export const origin: Pose = { x: 0, z: 0, heading: 0, s: 0 };
/** Evenly spread: a double drawn by its bits would nearly always be next to nothing. */
export const between = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((k) => min + ((max - min) * k) / 1_000_000);
const length = (least: number, most: number) => between(least * mm, most * mm);

const bend = (way: 1 | -1): fc.Arbitrary<Piece> =>
  fc.record({ radius: length(20, 90), turn: between(0.05, 1.2).map((turn) => way * turn) });
const line: fc.Arbitrary<Piece> = length(2, 60).map((l) => ({ line: l }));
/** Two to five pieces, at least one of them a bend that turns the given way. */
export const bentCourse = (way: 1 | -1): fc.Arbitrary<Course> =>
  fc
    .tuple(
      bend(way),
      fc.array(fc.oneof(line, bend(1), bend(-1)), { minLength: 1, maxLength: 4 }),
      fc.nat(4),
      between(-0.5, 0.5),
    )
    .map(([one, rest, at, heading]) => {
      const pieces = [...rest];
      pieces.splice(Math.min(at, rest.length), 0, one);
      return layCourse({ ...origin, heading }, pieces);
    });
export const pocket = fc.record({ length: length(3, 16), drop: length(1, 12) });

/** An outline about a place: box, circle, polygon with and without a notch, chain. */
export const outlineAt = ({ x, z }: Point): fc.Arbitrary<Outline> =>
  fc.oneof(
    fc.tuple(length(1, 30), length(1, 30)).map(([w, h]) => box(x, z, x + w, z + h)),
    length(0.5, 15).map((r) => circle(x, z, r)),
    ring(3, 7).map((corners) => polygon(moved(corners, x, z))),
    fc.tuple(length(4, 20), length(4, 20)).map(([w, h]) => polygon(moved(angleIron(w, h), x, z))),
    ring(3, 5).map((corners) => chain(moved(corners, x, z))),
  );
/** The same without notches: one convex part. */
export const convexAt = ({ x, z }: Point): fc.Arbitrary<Outline> =>
  fc.oneof(
    fc.tuple(length(1, 30), length(1, 30)).map(([w, h]) => box(x, z, x + w, z + h)),
    length(0.5, 15).map((r) => circle(x, z, r)),
    fc
      .tuple(length(2, 15), between(0, 6), fc.integer({ min: 3, max: 7 }))
      .map(([r, turn, n]) => polygon(moved(regular(n, r, turn), x, z))),
  );
const moved = (corners: readonly Point[], dx: number, dz: number): Point[] =>
  corners.map(({ x, z }) => ({ x: x + dx, z: z + dz }));
export const regular = (n: number, r: number, turn = 0): Point[] =>
  Array.from({ length: n }, (_, i) => ({
    x: r * Math.cos(turn + (2 * Math.PI * i) / n),
    z: r * Math.sin(turn + (2 * Math.PI * i) / n),
  }));
/** Corners round a middle, each at its own distance: a star, mostly with notches. */
export const ring = (least: number, most: number): fc.Arbitrary<Point[]> =>
  fc.array(length(2, 15), { minLength: least, maxLength: most }).map((radii) =>
    radii.map((r, i) => ({
      x: r * Math.cos((2 * Math.PI * i) / radii.length),
      z: r * Math.sin((2 * Math.PI * i) / radii.length),
    })),
  );
const angleIron = (w: number, h: number): Point[] => {
  const t = Math.min(w, h) / 3;
  return [
    { x: 0, z: 0 },
    { x: w, z: 0 },
    { x: w, z: t },
    { x: t, z: t },
    { x: t, z: h },
    { x: 0, z: h },
  ];
};

/** A place near a course: beside one of its pieces' starts. */
export const placeNear = (course: Course, reach = 30): fc.Arbitrary<Point> =>
  fc.tuple(fc.nat(course.stretches.length - 1), length(-reach, reach), length(-reach, reach)).map(([i, dx, dz]) => {
    const { x, z } = course.stretches[i]!.start;
    return { x: x + dx, z: z + dz };
  });
export const straight = (l: number): Course => layCourse(origin, [{ line: l }]);
export const throughOrigin = (behind: readonly Piece[], ahead: readonly Piece[]): Course =>
  courseThrough(origin, behind, ahead);

/**
 * The least of f from a to b by looking everywhere: with the first step, then with the next ones wherever f could still dip below what
 * was found, given that it never falls by more than `slope` per unit.
 */
export function leastByLooking(
  f: (t: number) => number,
  a: number,
  b: number,
  steps: readonly number[],
  slope: number,
): number {
  let least = Math.min(f(a), f(b));
  const look = (from: number, to: number, left: number, right: number, [step, ...finer]: readonly number[]): void => {
    if (step === undefined) return;
    const n = Math.max(1, Math.ceil((to - from) / step));
    const values = Array.from({ length: n + 1 }, (_, i) =>
      i === 0 ? left : i === n ? right : f(from + ((to - from) * i) / n),
    );
    least = Math.min(least, ...values);
    for (let i = 0; i < n; i++) {
      const [l, r] = [values[i]!, values[i + 1]!];
      if ((l + r - (slope * (to - from)) / n) / 2 < least)
        look(from + ((to - from) * i) / n, from + ((to - from) * (i + 1)) / n, l, r, finer);
    }
  };
  look(a, b, f(a), f(b), steps);
  return least;
}
/** From coarse to a micrometre, for motions of a millimetre a millimetre. */
export const steps = [200 * um, 10 * um, 1 * um];
