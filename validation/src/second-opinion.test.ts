import Flatten from "@flatten-js/core";
import {
  asWritten,
  bodiesOf,
  type Course,
  course,
  type Model,
  type Outline,
  type PairGap,
  type Prism,
  pairGaps,
  pocketAt,
  pocketSweep,
  type Quantity,
  Realiser,
  type Scene,
  type Stretch,
} from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { exampleScenes } from "./clearance.ts";

/**
 * Every pair of the bundled example, its gap by another geometry library, which knows real arcs and was written by others: the pocket
 * posed along the route, the tape as one outline of lines and arcs, bodies as they stand and turned. It works in the side view, so y is
 * put on as the models do. It knows no depth: where two overlap it says only that. The film in space is none of its business.
 */
const mm = 1e-3;
const near = 5e-6;
type Edge = Flatten.Segment | Flatten.Arc | Flatten.Circle;
interface Shape {
  readonly edges: readonly Edge[];
  /** A place that belongs to it, and what is within it. */
  readonly place: Flatten.Point;
  holds(p: Flatten.Point): boolean;
}
const at = (x: number, z: number) => new Flatten.Point(x / mm, z / mm);
const ringOf = (corners: readonly Flatten.Point[]): Shape => {
  const polygon = new Flatten.Polygon([...corners]);
  const edges = [...polygon.edges].map((e: Flatten.Edge) => e.shape as Edge);
  return { edges, place: corners[0]!, holds: (p) => polygon.contains(p) };
};
function shapesOf({ parts, round }: Outline): Shape[] {
  return parts.map((part) => {
    const corners = Array.from({ length: part.length / 2 }, (_, i) => at(part[2 * i]!, part[2 * i + 1]!));
    if (corners.length > 1) return ringOf(corners);
    const circle = new Flatten.Circle(corners[0]!, round / mm);
    return { edges: [circle], place: corners[0]!, holds: (p) => circle.contains(p) };
  });
}
/** Distance in m; 0 where one reaches into the other. */
function apart(one: Shape, all: readonly Shape[]): number {
  return Math.min(
    ...all.map((other) =>
      one.holds(other.place) || other.holds(one.place)
        ? 0
        : Math.min(...one.edges.flatMap((e) => other.edges.map((f) => (e as Flatten.Segment).distanceTo(f)[0]))) * mm,
    ),
  );
}
/** Least of f between two ends: looked for in steps, then between the two beside the best. */
function least(f: (t: number) => number, from: number, to: number, steps: number): number {
  const step = (to - from) / steps;
  const values = Array.from({ length: steps + 1 }, (_, k) => f(from + k * step));
  const k = values.indexOf(Math.min(...values));
  let [a, b] = [from + Math.max(0, k - 1) * step, from + Math.min(steps, k + 1) * step];
  for (let i = 0; i < 40; i++) {
    const [p, q] = [a + (b - a) / 3, b - (b - a) / 3];
    if (f(p) < f(q)) b = q;
    else a = p;
  }
  return Math.min(values[k]!, f((a + b) / 2));
}

/** The tape between its lower face and one `up` above it, as one outline of segments and arcs. */
function band({ stretches }: Course, up: number): Shape {
  const polygon = new Flatten.Polygon();
  const face = (s: Stretch, w: number, ahead: boolean): Edge => {
    const { x, z, heading } = s.start;
    const [from, run] = [at(x - w * Math.sin(heading), z + w * Math.cos(heading)), s.length / mm];
    if (!s.bend) {
      const to = from.translate(run * Math.cos(heading), run * Math.sin(heading));
      return ahead ? new Flatten.Segment(from, to) : new Flatten.Segment(to, from);
    }
    const { radius, sense, centre } = s.bend;
    const begin = heading - (sense * Math.PI) / 2;
    const end = begin + (sense * s.length) / radius;
    const [p, q, ccw] = ahead ? [begin, end, sense > 0] : [end, begin, sense < 0];
    return new Flatten.Arc(at(centre.x, centre.z), (radius - sense * w) / mm, p, q, ccw);
  };
  const lower = stretches.map((s) => face(s, 0, true));
  const upper = [...stretches].reverse().map((s) => face(s, up, false));
  const join = (p: Edge, q: Edge) => new Flatten.Segment((p as Flatten.Segment).end, (q as Flatten.Segment).start);
  const edges = [...lower, join(lower.at(-1)!, upper[0]!), ...upper, join(upper.at(-1)!, lower[0]!)];
  polygon.addFace(edges as never);
  return { edges, place: (lower[0] as Flatten.Segment).start, holds: (p) => polygon.contains(p) };
}

const drawn = <T>(scene: Scene, m: Model<T>): T =>
  m.value(new Realiser(scene, [m as Model<unknown>]).run(asWritten).inputsOf(m as Model<unknown>, scene));
const numberOf = (scene: Scene, q: Quantity): number => new Realiser(scene, [q]).run(asWritten).number(q);

/** What the other library says of a pair: its distance in the side view, and the stretch of y that the first of the two fills. */
function theirs(scene: Scene, pair: PairGap): { plane: number; y: { from: number; to: number } } {
  const solid = (name: string): Prism => drawn(scene, bodiesOf(scene.unit).find((b) => b.name === name)!.solid);
  const to = shapesOf(solid(pair.b).outline);
  const { letters } = scene.tape;
  const n = (q: Quantity) => numberOf(scene, q);
  if (pair.check === "clear.pocket") {
    const sweep = drawn(scene, pocketSweep);
    const pose = (rear: number) => apart(ringOf(pocketAt(sweep, rear).map(({ x, z }) => at(x, z))), to);
    const middle = n(letters.E1) + n(letters.F);
    const plane = least(pose, sweep.phases[0]!.from, sweep.phases.at(-1)!.to, 80);
    return { plane, y: { from: middle - n(letters.B1) / 2, to: middle + n(letters.B1) / 2 } };
  }
  if (pair.check === "clear.tape") {
    const up = n(letters.T) + n(scene.tape.films) * n(letters.T1);
    return { plane: apart(band(drawn(scene, course), up), to), y: { from: 0, to: n(letters.W) } };
  }
  const body = solid(pair.a);
  const [shape] = shapesOf(body.outline);
  if (pair.check === "clear.bodies") return { plane: apart(shape!, to), y: body.y };
  const { by, about } = scene.unit.nip!.lifts!;
  const pivot = at(n(about[0]), n(about[1]));
  const turned = (angle: number): Shape => {
    const edges = shape!.edges.map((e) => (e as Flatten.Segment).rotate(angle, pivot));
    return { edges, place: shape!.place.rotate(angle, pivot), holds: (p) => shape!.holds(p.rotate(-angle, pivot)) };
  };
  return { plane: least((angle) => apart(turned(angle), to), 0, n(by), 20), y: body.y };
}

describe.each(exampleScenes())("$unit on $tape", ({ scene }) => {
  test("has every gap in the side view within five micrometres of another geometry library", () => {
    let apartToo = 0;
    for (const pair of pairGaps(scene)) {
      if (!("gap" in pair)) throw new Error(`${pair.a} / ${pair.b}: ${pair.trouble}`);
      if (pair.check === "clear.film") continue;
      const { plane, y } = theirs(scene, pair);
      const other = drawn(scene, bodiesOf(scene.unit).find((b) => b.name === pair.b)!.solid).y;
      const across = Math.max(y.from - other.to, other.from - y.to);
      const name = `${pair.check} ${pair.a} / ${pair.b}`;
      if (plane > 0) {
        apartToo++;
        const both = across > 0 ? Math.hypot(plane, across) : plane;
        expect(Math.abs(pair.gap - both), name).toBeLessThan(near);
      } else if (across > 0) expect(Math.abs(pair.gap - across), name).toBeLessThan(near);
      else expect(pair.gap, name).toBeLessThan(near);
    }
    expect(apartToo).toBeGreaterThan(20);
  });
});
