import Flatten from "@flatten-js/core";
import fc from "fast-check";
import { expect, test } from "vitest";
import { layCourse } from "./course.ts";
import { flangeGap } from "./flange.ts";
import { type Outline, outlineGap, polygon, shiftedPart } from "./outline.ts";
import { pocketAt, sweepOf } from "./ride.ts";
import { bentCourse, between, mm, origin, outlineAt, placeNear, pocket, um } from "./route.fixture.ts";

/**
 * The same poses given to another geometry library, which knows real arcs and was written by others. It counts in mm here and calls
 * places within a nanometre the same.
 */
type Shape = Flatten.Polygon | Flatten.Segment | Flatten.Circle | Flatten.Point;
const place = (x: number, z: number) => new Flatten.Point(x / mm, z / mm);
function drawn({ parts, round }: Outline): Shape[] {
  return parts.map((p) => {
    const corners = Array.from({ length: p.length / 2 }, (_, i) => place(p[2 * i]!, p[2 * i + 1]!));
    if (corners.length === 1) return new Flatten.Circle(corners[0]!, round / mm);
    if (corners.length === 2) return new Flatten.Segment(corners[0]!, corners[1]!);
    return new Flatten.Polygon(corners);
  });
}
const edgesOf = (shape: Shape): (Flatten.Segment | Flatten.Arc | Flatten.Circle | Flatten.Point)[] =>
  shape instanceof Flatten.Polygon
    ? [...shape.edges].map((edge: Flatten.Edge) => edge.shape as Flatten.Segment | Flatten.Arc)
    : [shape];
/** Distance in m; 0 where a shape reaches into the other. The library measures to outlines, so a body within a body is asked for too. */
function apart(body: Flatten.Polygon, shapes: readonly Shape[]): number {
  const first = (shape: Shape): Flatten.Point =>
    shape instanceof Flatten.Polygon
      ? shape.vertices[0]!
      : shape instanceof Flatten.Circle
        ? shape.pc
        : shape instanceof Flatten.Segment
          ? shape.ps
          : shape;
  return Math.min(
    ...shapes.map((shape) => {
      if (body.contains(first(shape))) return 0;
      if ((shape instanceof Flatten.Polygon || shape instanceof Flatten.Circle) && shape.contains(first(body)))
        return 0;
      return (
        Math.min(...edgesOf(body).flatMap((e) => edgesOf(shape).map((f) => (e as Flatten.Segment).distanceTo(f)[0]))) *
        mm
      );
    }),
  );
}

test("four hundred poses of a pocket are as far from an outline as another geometry library says, within five micrometres", () => {
  let free = 0;
  let met = 0;
  const scene = fc
    .oneof(bentCourse(1), bentCourse(-1))
    .chain((course) => fc.tuple(fc.constant(course), pocket, between(0, 1)))
    .filter(([course, p]) => course.to > 1.5 * p.length)
    .chain(([course, p, share]) => {
      const sweep = sweepOf(course, p);
      const corners = pocketAt(sweep, share * sweep.phases.at(-1)!.to);
      const { x, z } = corners[0]!;
      const near = fc.tuple(between(-20, 20), between(-20, 20)).map(([dx, dz]) => ({ x: x + dx * mm, z: z + dz * mm }));
      return fc.tuple(fc.constant(corners), near.chain(outlineAt));
    });
  fc.assert(
    fc.property(scene, ([corners, outline]) => {
      const ours = outlineGap(polygon(corners), outline);
      const theirs = apart(new Flatten.Polygon(corners.map(({ x, z }) => place(x, z))), drawn(outline));
      expect(Math.abs(Math.max(0, ours.gap) - theirs)).toBeLessThan(5 * um);
      if (ours.gap > 0) free++;
      else if (outline.parts.length === 1) {
        met++;
        // Shifted out by the depth and 10 um more, the other library finds the 10 um.
        const k = 1 - (10 * um) / ours.gap;
        const out = { x: (ours.on.x - ours.to.x) * k, z: (ours.on.z - ours.to.z) * k };
        const moved = { ...outline, parts: outline.parts.map((part) => shiftedPart(part, out.x, out.z)) };
        expect(
          Math.abs(apart(new Flatten.Polygon(corners.map(({ x, z }) => place(x, z))), drawn(moved)) - 10 * um),
        ).toBeLessThan(5 * um);
      }
    }),
    { seed: 2181, numRuns: 400 },
  );
  expect(free).toBeGreaterThan(200);
  expect(met).toBeGreaterThan(20);
});

test("a hundred outlines are as far from the flange of a bend as from its true arcs in another geometry library, within five micrometres", () => {
  const T = 0.3;
  let free = 0;
  const bend = fc.record({ r: between(20, 80), turn: between(0.2, 1.5), way: fc.constantFrom(1, -1) });
  const scene = bend.chain((one) => {
    const course = layCourse(origin, [{ radius: one.r * mm, turn: one.way * one.turn }]);
    return fc.tuple(fc.constant({ ...one, course }), placeNear(course, 60).chain(outlineAt));
  });
  fc.assert(
    fc.property(scene, ([{ r, turn, way, course }, outline]) => {
      const centre = new Flatten.Point(0, way * r);
      const start = (-way * Math.PI) / 2;
      const end = start + way * turn;
      const [lower, upper] = [r, r - way * T];
      const arc = (radius: number, from: number, to: number, ccw: boolean) =>
        new Flatten.Arc(centre, radius, from, to, ccw);
      const ends = [lower, upper].map((rho) => arc(rho, start, end, way > 0)).flatMap((a) => [a.start, a.end]);
      const face = new Flatten.Polygon();
      face.addFace([
        arc(lower, start, end, way > 0),
        new Flatten.Segment(ends[1]!, ends[3]!),
        arc(upper, end, start, way < 0),
        new Flatten.Segment(ends[2]!, ends[0]!),
      ]);
      const ours = flangeGap(course, 0, T * mm, outline).gap;
      expect(Math.abs(Math.max(0, ours) - apart(face, drawn(outline)))).toBeLessThan(5 * um);
      if (ours > 0) free++;
    }),
    { seed: 2182, numRuns: 100 },
  );
  expect(free).toBeGreaterThan(50);
});
