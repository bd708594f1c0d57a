import { cut, type Part, reachAlong, separation } from "./convex.ts";
import { along, type Course, type Stretch } from "./course.ts";
import type { Outline, Point } from "./outline.ts";
import type { Pose } from "./pose.ts";

/**
 * Least gap of the tape's flange to an outline. The flange is what lies between two lines beside the route.
 *
 *     apart        the distance: to a rectangle on a straight, to a sector of a ring in a bend
 *     overlapping  max(w_min - upper, lower - w_max), measured across the tape
 *
 * w height above the route, m, least and greatest over the part of the outline that stands within the piece; lower, upper the flange's
 * faces, m: 0 and T for the carrier, -0.05 .. 0.05. In a bend w = sense (r - rho), rho the distance from its centre.
 *
 * Exact where apart, and exact in its sign; an overlap is the way out over the nearer face of the tape, because nothing leaves a tape
 * along its length (derived). What stands wholly before the first piece or after the last is measured to the tape's drawn end.
 */
export interface FlangeGap {
  readonly gap: number;
  /** Place along the route, m. */
  readonly at: number;
  readonly pose: Pose;
  /** Nearest point of the outline. */
  readonly point: Point;
}
interface Reach {
  readonly d: number;
  /** How far along the piece, and the nearest point of the part, before rounding. */
  readonly length: number;
  readonly x: number;
  readonly z: number;
  /** Where it overlaps: the way out, 1 over the tape's upper face, -1 over its lower. */
  readonly out?: 1 | -1;
}

/** Least gap of the flange; undefined where it stays at `below` or more. */
export function flangeGap(course: Course, lower: number, upper: number, outline: Outline, below?: undefined): FlangeGap;
export function flangeGap(
  course: Course,
  lower: number,
  upper: number,
  outline: Outline,
  below?: number,
): FlangeGap | undefined;
export function flangeGap(
  course: Course,
  lower: number,
  upper: number,
  outline: Outline,
  below = Number.POSITIVE_INFINITY,
): FlangeGap | undefined {
  if (!(lower < upper))
    throw new RangeError(
      `a tape lies between ${lower} m and ${upper} m beside its route; the upper face must be above`,
    );
  let least = below + outline.round;
  let found: { stretch: Stretch; reach: Reach } | undefined;
  const thick = Math.max(Math.abs(lower), Math.abs(upper));
  for (const stretch of course.stretches) {
    const half = stretch.length / 2;
    const middle = along(stretch, half);
    for (const part of outline.parts) {
      if (separation([middle.x, middle.z], part).d - half - thick >= least) continue;
      for (const reach of stretch.bend ? toRing(stretch, lower, upper, part) : [toStrip(stretch, lower, upper, part)])
        if (reach.d < least) {
          least = reach.d;
          found = { stretch, reach };
        }
    }
  }
  if (!found) return undefined;
  const { stretch, reach } = found;
  const length = Math.max(0, Math.min(stretch.length, reach.length));
  const pose = along(stretch, length);
  const back = towards(pose, lower, upper, reach, outline.round);
  return { gap: least - outline.round, at: pose.s, pose, point: { x: reach.x + back.x, z: reach.z + back.z } };
}

/** From the nearest point of a part to that of the outline, which is the part rounded. */
function towards(pose: Pose, lower: number, upper: number, { out, x, z }: Reach, round: number): Point {
  const up = { x: -Math.sin(pose.heading), z: Math.cos(pose.heading) };
  if (out) return { x: -out * round * up.x, z: -out * round * up.z };
  const w = Math.max(lower, Math.min(upper, (x - pose.x) * up.x + (z - pose.z) * up.z));
  const way = { x: pose.x + w * up.x - x, z: pose.z + w * up.z - z };
  const size = Math.hypot(way.x, way.z);
  return size > 0 ? { x: (round * way.x) / size, z: (round * way.z) / size } : { x: 0, z: 0 };
}

/** Signed distance of a part to the flange of a straight. */
function toStrip(stretch: Stretch, lower: number, upper: number, part: Part): Reach {
  const { start, length } = stretch;
  const ux = Math.cos(start.heading);
  const uz = Math.sin(start.heading);
  const corner = (l: number, w: number): readonly [number, number] => [
    start.x + l * ux - w * uz,
    start.z + l * uz + w * ux,
  ];
  const strip = [...corner(0, lower), ...corner(length, lower), ...corner(length, upper), ...corner(0, upper)];
  const s = separation(strip, part);
  const lengthOf = (x: number, z: number): number => (x - start.x) * ux + (z - start.z) * uz;
  if (s.d >= 0) return { d: s.d, length: lengthOf(s.ax, s.az), x: s.bx, z: s.bz };
  const from = start.x * ux + start.z * uz;
  const inside = cut(cut(part, ux, uz, from + length), -ux, -uz, -from);
  if (inside.length === 0) return { d: 0, length: lengthOf(s.ax, s.az), x: s.bx, z: s.bz };
  const base = start.z * ux - start.x * uz;
  const least = -reachAlong(inside, uz, -ux) - base;
  const most = reachAlong(inside, -uz, ux) - base;
  const out = least - upper > lower - most ? 1 : -1;
  const nearest = cornerAt(inside, -uz, ux, (out === 1 ? least : most) + base);
  return { d: out === 1 ? least - upper : lower - most, length: lengthOf(nearest.x, nearest.z), ...nearest, out };
}
function cornerAt(part: Part, nx: number, nz: number, height: number): Point {
  let best = { x: part[0]!, z: part[1]! };
  let off = Number.POSITIVE_INFINITY;
  for (let i = 0; i < part.length; i += 2) {
    const d = Math.abs(nx * part[i]! + nz * part[i + 1]! - height);
    if (d < off) {
      off = d;
      best = { x: part[i]!, z: part[i + 1]! };
    }
  }
  return best;
}

/** A bend is taken in slices of a quarter turn at most, so that what lies within a slice stays convex. */
const widest = Math.PI / 2;
/** Signed distances of a part to the flange of a bend, slice by slice, and to the bend's ends. */
function toRing(stretch: Stretch, lower: number, upper: number, part: Part): Reach[] {
  const { start, length } = stretch;
  const { radius, sense, centre } = stretch.bend!;
  const [inner, outer] = sense > 0 ? [radius - upper, radius - lower] : [radius + lower, radius + upper];
  if (!(inner > 0))
    throw new RangeError(`a bend of ${(radius * 1e3).toFixed(2)} mm turns tighter than the tape is thick`);
  const total = length / radius;
  const slices = Math.ceil(total / widest);
  const out: Reach[] = [];
  for (let k = 0; k < slices; k++) {
    const [from, to] = [(total * k) / slices, (total * (k + 1)) / slices];
    // Rays from the centre at the slice's ends, and the side of each that lies within.
    const ray = (turn: number): Point => {
      const h = start.heading + sense * turn;
      return { x: sense * Math.sin(h), z: -sense * Math.cos(h) };
    };
    const first = ray(from);
    const last = ray(to);
    const beyond = (r: Point, way: number): readonly [number, number, number] => {
      const nx = -way * sense * r.z;
      const nz = way * sense * r.x;
      return [nx, nz, nx * centre.x + nz * centre.z];
    };
    const within = cut(cut(part, ...beyond(first, -1)), ...beyond(last, 1));
    if (within.length > 0)
      out.push(acrossRing(within, centre, inner, outer, sense, (x, z) => lengthAt(stretch, x, z, (from + to) / 2)));
  }
  for (const at of [0, length]) {
    const end = along(stretch, at);
    const up = { x: -Math.sin(end.heading), z: Math.cos(end.heading) };
    const edge = [end.x + lower * up.x, end.z + lower * up.z, end.x + upper * up.x, end.z + upper * up.z];
    const s = separation(edge, part);
    // A part that crosses the bend's end reaches into the slice too, or into the next piece.
    if (s.d >= 0) out.push({ d: s.d, length: at, x: s.bx, z: s.bz });
  }
  return out;
}
function lengthAt({ start, bend }: Stretch, x: number, z: number, near: number): number {
  const { radius, sense, centre } = bend!;
  const turn = sense * (Math.atan2(z - centre.z, x - centre.x) - start.heading) + Math.PI / 2 - near;
  return radius * (near + turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI)));
}
/** Signed distance of what lies within a slice to the ring between two radii, along the ray. */
function acrossRing(
  within: Part,
  centre: Point,
  inner: number,
  outer: number,
  sense: 1 | -1,
  lengthOf: (x: number, z: number) => number,
): Reach {
  const toCentre = separation([centre.x, centre.z], within);
  const near = Math.max(0, toCentre.d);
  let far = -1;
  let fx = 0;
  let fz = 0;
  for (let i = 0; i < within.length; i += 2) {
    const d = Math.hypot(within[i]! - centre.x, within[i + 1]! - centre.z);
    if (d > far) [far, fx, fz] = [d, within[i]!, within[i + 1]!];
  }
  const outwards = near - outer > inner - far;
  const [d, x, z] = outwards ? [near - outer, toCentre.bx, toCentre.bz] : [inner - far, fx, fz];
  const length = lengthOf(x, z);
  if (d >= 0) return { d, length, x, z };
  // The outer face is the lower one where the bend turns up.
  return { d, length, x, z, out: outwards === sense > 0 ? -1 : 1 };
}
