import { doubleArea, type Part, type Separation, separation } from "./convex.ts";
import { convexParts } from "./split-polygon.ts";

/**
 * Outlines in the side view and the gap between two of them.
 *
 *     gap(A, B) = least over the convex parts a of A and b of B of d(a, b), less both roundings
 *
 * Positive: how far apart. Negative: how deep they overlap. For convex outlines that is the length of the shortest shift that parts them;
 * a polygon with a notch counts part by part, so that no shift shorter than this parts them but a longer one may be needed. The gap
 * never changes by more than the outlines are moved.
 *
 * A circle is a point rounded by its radius, so circle to circle, circle to polygon and polygon to polygon are one formula, exact.
 * Where it stops holding: outlines are flat pictures of prisms; a body whose outline changes across y is several bodies.
 */
export interface Point {
  readonly x: number;
  readonly z: number;
}
export interface Outline {
  readonly parts: readonly Part[];
  /** Everything within this distance of the parts belongs to the outline, m. */
  readonly round: number;
}
export interface Gap {
  /** m; negative is the depth of an overlap. */
  readonly gap: number;
  /** Nearest point of the first outline, and of the second; where they overlap, the points that a shortest shift brings together. */
  readonly on: Point;
  readonly to: Point;
}

const say = (v: number): string => (Number.isFinite(v) ? `${+(v * 1e3).toFixed(4)} mm` : String(v));
function finite(what: string, ...values: readonly number[]): void {
  const bad = values.find((v) => !Number.isFinite(v));
  if (bad !== undefined) throw new RangeError(`${what} stands at ${bad}, which is no place`);
}

/** A box from one corner to the opposite one, in either order. Throws RangeError for one without width or height. */
export function box(x0: number, z0: number, x1: number, z1: number): Outline {
  finite("a corner of a box", x0, z0, x1, z1);
  if (x0 === x1) throw new RangeError(`a box from x ${say(x0)} to x ${say(x1)} has no length`);
  if (z0 === z1) throw new RangeError(`a box from z ${say(z0)} to z ${say(z1)} has no height`);
  const [left, right] = x0 < x1 ? [x0, x1] : [x1, x0];
  const [low, high] = z0 < z1 ? [z0, z1] : [z1, z0];
  return { parts: [[left, low, right, low, right, high, left, high]], round: 0 };
}

export function circle(x: number, z: number, radius: number): Outline {
  finite("the middle of a circle", x, z);
  if (!(radius > 0) || radius === Number.POSITIVE_INFINITY)
    throw new RangeError(`a circle of radius ${say(radius)} is no body; its radius must be more than 0`);
  return { parts: [[x, z]], round: radius };
}

/** A polygon, corner by corner, either way round. Throws RangeError where it crosses itself or encloses nothing. */
export function polygon(corners: readonly Point[]): Outline {
  const ring = places("a corner of a polygon", corners, true);
  if (ring.length < 6) throw new RangeError(`a polygon of ${corners.length} corners encloses nothing; it needs three`);
  const crossing = firstCrossing(ring);
  if (crossing)
    throw new RangeError(
      `the polygon's sides ${crossing[0] + 1} and ${crossing[1] + 1} meet; its outline must not cross itself`,
    );
  const area = doubleArea(ring);
  if (area === 0) throw new RangeError("the polygon's corners lie on one line; it encloses nothing");
  if (area < 0) {
    const back: number[] = [];
    for (let i = ring.length - 2; i >= 0; i -= 2) back.push(ring[i]!, ring[i + 1]!);
    return { parts: convexParts(back), round: 0 };
  }
  return { parts: convexParts(ring), round: 0 };
}

/** A chain of straight segments without width: a sheet, a wire, a line on the drawing. */
export function chain(corners: readonly Point[]): Outline {
  const run = places("a corner of a chain", corners, false);
  if (run.length < 4)
    throw new RangeError(`a chain of ${corners.length} corners has no segment; it needs two that differ`);
  const parts: Part[] = [];
  for (let i = 0; i + 2 < run.length; i += 2) parts.push([run[i]!, run[i + 1]!, run[i + 2]!, run[i + 3]!]);
  return { parts, round: 0 };
}

/** The corners as plain numbers, those that repeat the one before left out. */
function places(what: string, corners: readonly Point[], closed: boolean): number[] {
  const out: number[] = [];
  for (const { x, z } of corners) {
    finite(what, x, z);
    if (out.length === 0 || x !== out.at(-2) || z !== out.at(-1)) out.push(x, z);
  }
  while (closed && out.length > 2 && out[0] === out.at(-2) && out[1] === out.at(-1)) out.length -= 2;
  return out;
}

/** Two sides of a closed ring that touch or cross, neighbours only where they fold back on each other. */
function firstCrossing(ring: Part): readonly [number, number] | undefined {
  const n = ring.length / 2;
  const side = (i: number): Part => {
    const j = (i + 1) % n;
    return [ring[2 * i]!, ring[2 * i + 1]!, ring[2 * j]!, ring[2 * j + 1]!];
  };
  for (let i = 0; i < n; i++)
    for (let k = i + 1; k < n; k++) {
      const follows = k === i + 1;
      const leads = i === 0 && k === n - 1;
      if (follows || leads) {
        if (foldsBack(follows ? side(i) : side(k), follows ? side(k) : side(i))) return [i, k];
      } else if (separation(side(i), side(k)).d <= 0) return [i, k];
    }
  return undefined;
}
function foldsBack(p: Part, q: Part): boolean {
  const [ex, ez] = [p[2]! - p[0]!, p[3]! - p[1]!];
  const [fx, fz] = [q[2]! - q[0]!, q[3]! - q[1]!];
  return ex * fz - ez * fx === 0 && ex * fx + ez * fz < 0;
}

/** A signed distance of two parts with their roundings taken off. */
export function rounded(s: Separation, roundA: number, roundB: number): Gap {
  return {
    gap: s.d - roundA - roundB,
    on: { x: s.ax + s.nx * roundA, z: s.az + s.nz * roundA },
    to: { x: s.bx - s.nx * roundB, z: s.bz - s.nz * roundB },
  };
}

/** Signed gap of two outlines and the two points that are nearest. */
export function outlineGap(a: Outline, b: Outline): Gap {
  let least: Separation | undefined;
  for (const p of a.parts)
    for (const q of b.parts) {
      const s = separation(p, q);
      if (!least || s.d < least.d) least = s;
    }
  if (!least) throw new RangeError("an outline without parts has no gap to anything");
  return rounded(least, a.round, b.round);
}

export const shiftedPart = (part: Part, dx: number, dz: number): Part =>
  part.map((v, i) => v + (i % 2 === 0 ? dx : dz));
/** A part turned about a place, anticlockwise where the angle is positive, rad. */
export function turned(part: Part, about: Point, angle: number): Part {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const out: number[] = [];
  for (let i = 0; i < part.length; i += 2) {
    const x = part[i]! - about.x;
    const z = part[i + 1]! - about.z;
    out.push(about.x + c * x - s * z, about.z + s * x + c * z);
  }
  return out;
}
