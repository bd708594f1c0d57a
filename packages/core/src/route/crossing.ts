import type { Vector } from "../film/path.ts";
import type { Part } from "./convex.ts";
import { onStrip, type Strip } from "./corridor.ts";
import { along, type Course } from "./course.ts";
import type { Outline } from "./outline.ts";
import type { Across } from "./prism.ts";

/**
 * A film that goes through a thin slab: how far one must move for the other to come free of it.
 *
 *     depth = least of four ways out: over the upper face, under the lower, past either edge
 *     up    = max (upper - w)   over the places of the film above, below or within the slab:   l in 0 .. length, y in from .. to
 *     far   = max (to - y)      over the places level with it:                                 l in 0 .. length, w in lower .. upper
 *
 * l along the slab, w above its line, y across, m; down and near alike. The depth of the film's deepest place (corridor.ts) is never more
 * than half the slab's thickness, which says nothing of a film that leaves on the wrong side of the tape's edge; this says how far it must
 * move. A film is straight fibres (corridor.ts), so on each of them the greatest stands at an end of what lies in range; over the fibres it
 * is looked for among 33 and refined between the two beside the best. Plane geometry (derived). Film without thickness. A steep film has a
 * depth that changes faster than the slab is moved.
 */
export interface Slab {
  readonly x: number;
  readonly z: number;
  readonly heading: number;
  readonly length: number;
  readonly lower: number;
  readonly upper: number;
  readonly y: Across;
}
export interface Crossing {
  readonly depth: number;
  /** How far along the span (0 .. 1), where across the film, and the place itself: the one that must go farthest. */
  readonly along: number;
  readonly y: number;
  readonly film: Vector;
}

/** How far a slab of a bend may stand beyond the bend itself, m. */
const sagitta = 5e-6;
/** A band beside a course as slabs: one a line, several a bend, together at most 5 um larger than the band (a course that ends in a bend: 0.1 mm there). */
export function slabsOf(course: Course, lower: number, upper: number, y: Across): Slab[] {
  return course.stretches.flatMap((stretch): Slab[] => {
    const { start, length, bend } = stretch;
    if (!bend) return [{ x: start.x, z: start.z, heading: start.heading, length, lower, upper, y }];
    const { radius, sense } = bend;
    const outermost = radius + Math.max(-sense * lower, -sense * upper, 0);
    const widest = 2 * Math.acos(Math.max(0, 1 - sagitta / outermost));
    const count = Math.max(1, Math.ceil(length / radius / widest));
    const half = length / count / radius / 2;
    const sag = outermost * (1 - Math.cos(half));
    const reach = outermost * Math.tan(half);
    return Array.from({ length: count }, (_, k) => {
      const { x, z, heading } = along(stretch, (length * (k + 0.5)) / count);
      return {
        x: x - reach * Math.cos(heading),
        z: z - reach * Math.sin(heading),
        heading,
        length: 2 * reach,
        lower: sense < 0 ? lower - sag : lower,
        upper: sense > 0 ? upper + sag : upper,
        y,
      };
    });
  });
}
/** The slabs in the side view. */
export const outlineOfSlabs = (slabs: readonly Slab[]): Outline => ({
  parts: slabs.map(({ x, z, heading, length, lower, upper }): Part => {
    const [c, s] = [Math.cos(heading), Math.sin(heading)];
    const corner = (l: number, w: number) => [x + l * c - w * s, z + l * s + w * c];
    return [...corner(0, lower), ...corner(length, lower), ...corner(length, upper), ...corner(0, upper)];
  }),
  round: 0,
});

/** Fibres of the film looked at first. */
const fibres = 32;
/** Halvings of the stretch between the two beside the best. */
const refined = 30;

/** Along the slab, above its line, across. */
type Axis = 0 | 1 | 2;
/** Both ends of every fibre in the slab's own coordinates, linear in y: start, start per y, end, end per y, three numbers each. */
type Fibres = readonly number[];
/** Where a way leads, and between which limits of the other two axes a place must lie to be in it. */
interface Way {
  readonly axis: Axis;
  readonly sign: 1 | -1;
  readonly limit: number;
}
interface Limits {
  readonly from: readonly number[];
  readonly to: readonly number[];
}

/** Where a strip of film goes through a slab; undefined where it does not. */
export function crossing(strip: Strip, width: number, slab: Slab): Crossing | undefined {
  const f = fibresIn(strip, slab);
  const within: Limits = { from: [0, slab.lower, slab.y.from], to: [slab.length, slab.upper, slab.y.to] };
  const half = width / 2;
  if (passes(f, half, within) || !meets(f, half, within)) return undefined;
  const ways: readonly Way[] = [
    { axis: 1, sign: -1, limit: slab.upper },
    { axis: 1, sign: 1, limit: slab.lower },
    { axis: 2, sign: -1, limit: slab.y.to },
    { axis: 2, sign: 1, limit: slab.y.from },
  ];
  const coarse = ways.map((way) => ({ way, y: mostOf(f, within, way, half) }));
  // What the first look finds is never more than the truth, so a way that is longer already needs no second.
  coarse.sort((a, b) => depthOn(f, within, a.way, a.y) - depthOn(f, within, b.way, b.y));
  let least = Number.POSITIVE_INFINITY;
  let found: { readonly way: Way; readonly y: number } | undefined;
  for (const { way, y } of coarse) {
    if (depthOn(f, within, way, y) >= least) break;
    const best = refine(f, within, way, half, y);
    const depth = depthOn(f, within, way, best);
    if (depth < least) [least, found] = [depth, { way, y: best }];
  }
  if (!found) return undefined;
  const t = farthestOn(f, within, found.way, found.y);
  return { depth: least, along: t, y: found.y, film: onStrip(strip, t, found.y) };
}

function fibresIn({ start, across, run, fan }: Strip, { x, z, heading }: Slab): Fibres {
  const [c, s] = [Math.cos(heading), Math.sin(heading)];
  const seen = (v: Vector): [number, number, number] => [v[0] * c + v[2] * s, v[2] * c - v[0] * s, v[1]];
  const ends = (p: Vector, q: Vector): Vector => [p[0] + q[0], p[1] + q[1], p[2] + q[2]];
  const from: Vector = [start[0] - x, start[1], start[2] - z];
  return [...seen(from), ...seen(across), ...seen(ends(from, run)), ...seen(ends(across, fan))];
}
const startOf = (f: Fibres, y: number, i: number): number => f[i]! + y * f[3 + i]!;
const endOf = (f: Fibres, y: number, i: number): number => f[6 + i]! + y * f[9 + i]!;

/** The whole film stays to one side: its four corners do, and everything else lies between them. */
function passes(f: Fibres, half: number, { from, to }: Limits): boolean {
  for (let i = 0; i < 3; i++) {
    const [a, b, c, d] = [startOf(f, -half, i), startOf(f, half, i), endOf(f, -half, i), endOf(f, half, i)];
    if (Math.max(a, b, c, d) < from[i]! || Math.min(a, b, c, d) > to[i]!) return true;
  }
  return false;
}
/** Some fibre looked at reaches into the slab. */
function meets(f: Fibres, half: number, within: Limits): boolean {
  for (let k = 0; k <= fibres; k++) if (clip(f, (2 * k * half) / fibres - half, within, -1, 1) >= 0) return true;
  return false;
}
/** First (pick -1) or last (pick 1) place of a fibre that lies between the limits of every axis but one, as a share of its length; -1 where none does. */
function clip(f: Fibres, y: number, { from, to }: Limits, but: number, pick: number): number {
  let first = 0;
  let last = 1;
  for (let i = 0; i < 3; i++) {
    if (i === but) continue;
    const a = startOf(f, y, i);
    const run = endOf(f, y, i) - a;
    if (run === 0) {
      if (a < from[i]! || a > to[i]!) return -1;
      continue;
    }
    const p = (from[i]! - a) / run;
    const q = (to[i]! - a) / run;
    first = Math.max(first, Math.min(p, q));
    last = Math.min(last, Math.max(p, q));
  }
  if (first > last) return -1;
  return pick < 0 ? first : last;
}
/** The place of a fibre that must go farthest one way; -1 where none is in the way. */
const farthestOn = (f: Fibres, within: Limits, { axis, sign }: Way, y: number): number =>
  clip(f, y, within, axis, sign * (endOf(f, y, axis) - startOf(f, y, axis)));
function depthOn(f: Fibres, within: Limits, way: Way, y: number): number {
  const t = farthestOn(f, within, way, y);
  if (t < 0) return Number.NEGATIVE_INFINITY;
  const a = startOf(f, y, way.axis);
  return way.sign * (a + t * (endOf(f, y, way.axis) - a) - way.limit);
}
/** The fibre that must go farthest one way, of those looked at first. */
function mostOf(f: Fibres, within: Limits, way: Way, half: number): number {
  let best = Number.NEGATIVE_INFINITY;
  let at = -half;
  for (let k = 0; k <= fibres; k++) {
    const y = (2 * k * half) / fibres - half;
    const depth = depthOn(f, within, way, y);
    if (depth > best) [best, at] = [depth, y];
  }
  return at;
}
/** The same, looked for between the two beside it by the golden section. */
function refine(f: Fibres, within: Limits, way: Way, half: number, near: number): number {
  const step = (2 * half) / fibres;
  const cut = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [Math.max(-half, near - step), Math.min(half, near + step)];
  let best = near;
  let most = depthOn(f, within, way, near);
  for (let i = 0; i < refined; i++) {
    const p = b - cut * (b - a);
    const q = a + cut * (b - a);
    const [left, right] = [depthOn(f, within, way, p), depthOn(f, within, way, q)];
    if (left > most) [most, best] = [left, p];
    if (right > most) [most, best] = [right, q];
    if (left < right) a = p;
    else b = q;
  }
  return best;
}
