import { pocketGap } from "../channel/bend.ts";
import { type Part, separation } from "./convex.ts";
import { along } from "./course.ts";
import { leastTurning } from "./lifting.ts";
import { leastOver } from "./moving.ts";
import { type Outline, outlineGap, type Point, rounded } from "./outline.ts";
import type { Pose } from "./pose.ts";
import { type Chord, chordAt, motionOf, type Phase, type Pocket, partOf, pocketPart, type Sweep } from "./ride.ts";

/**
 * The pocket swept along a route, and its least gap to an outline.
 *
 * L, drop, a, b as in ride.ts; h = L/2; r radius of a bend, c = sqrt(r^2 - h^2) from its centre to the chord:
 *
 *     straight               g = d(rectangle from the first pocket to the last, outline)
 *     bend                   g = min | rho_b - rho_a | over corners and feet (lifting.ts), the bend's centre as pivot
 *       pockets inside       nearest to the centre: c - drop, the middle of the bottom
 *       pockets outside      farthest from it: hypot(c + drop, h) < r + drop, the bottom's corners
 *     between two pieces     searched with a bound (moving.ts)
 *
 * L 1e-3 .. 0.1 m; drop below the underside, 1e-4 .. 0.05 m. Where outline and pocket overlap, straight and bend are searched too: a depth
 * has kinks no list holds. The least is that of the whole route, to 1e-8 m. Plane geometry (derived). Draft of the walls and the tape's
 * flexing are left out: a real pocket is a little smaller at its bottom.
 */
export interface SweepGap {
  /** m; negative is the depth of an overlap. */
  readonly gap: number;
  /** Place along the route of the pocket's middle, m. */
  readonly at: number;
  /** Middle of the pocket's chord, and the direction it points in. */
  readonly pose: Pose;
  /** Nearest point of the outline. */
  readonly point: Point;
}

/** Least signed distance over a phase, with the place of the rear end, if it is less than `below`. */
function leastOfPhase(
  phase: Phase,
  pocket: Pocket,
  other: Part,
  below: number,
): { readonly d: number; readonly t: number } | undefined {
  const { rear, front, from, to } = phase;
  if (rear !== front) return leastOver(partOf(pocket), motionOf(phase, pocket), from, to, other, below);
  const first = chordAt(phase, from, pocket);
  if (rear.bend) {
    const { radius, sense, centre } = rear.bend;
    const angle = (to - from) / radius;
    const turn = { about: centre, from: sense > 0 ? 0 : -angle, to: sense > 0 ? angle : 0 };
    const least = leastTurning(pocketPart(first, pocket), turn, other, below);
    return least && { d: least.d, t: from + Math.abs(least.t) * radius };
  }
  const run = to - from;
  const swept = pocketPart(first, { length: run + pocket.length, drop: pocket.drop });
  const s = separation(swept, other);
  if (s.d >= below) return undefined;
  if (s.d < 0) return leastOver(partOf(pocket), motionOf(phase, pocket), from, to, other, below);
  const ahead = (s.ax - first.rear.x) * first.cos + (s.az - first.rear.z) * first.sin;
  return { d: s.d, t: from + Math.max(0, Math.min(run, ahead - pocket.length / 2)) };
}

/** Least gap of the swept pocket to an outline; undefined where it stays at `below` or more. */
export function sweptGap(sweep: Sweep, outline: Outline, below?: undefined): SweepGap;
export function sweptGap(sweep: Sweep, outline: Outline, below?: number): SweepGap | undefined;
export function sweptGap(
  { pocket, phases }: Sweep,
  outline: Outline,
  below = Number.POSITIVE_INFINITY,
): SweepGap | undefined {
  const size = Math.hypot(pocket.length, pocket.drop);
  let least = below + outline.round;
  let found: { phase: Phase; part: Part; s: number } | undefined;
  // What can come nearest first: its gap then spares the others.
  const order: { phase: Phase; part: Part; bound: number }[] = [];
  for (const phase of phases) {
    const half = (phase.to - phase.from) / 2;
    const middle = along(phase.rear, phase.from + half - phase.rear.start.s);
    for (const part of outline.parts)
      order.push({ phase, part, bound: separation([middle.x, middle.z], part).d - half - size });
  }
  order.sort((p, q) => p.bound - q.bound);
  for (const { phase, part, bound } of order) {
    if (bound >= least) break;
    const one = leastOfPhase(phase, pocket, part, least);
    if (!one) continue;
    least = one.d;
    found = { phase, part, s: one.t };
  }
  if (!found) return undefined;
  const chord = chordAt(found.phase, found.s, pocket);
  const { gap, to } = rounded(separation(pocketPart(chord, pocket), found.part), 0, outline.round);
  return { gap, ...placed(chord), point: to };
}
function placed({ rear, front, cos, sin }: Chord): { readonly at: number; readonly pose: Pose } {
  const at = (rear.s + front.s) / 2;
  const heading = Math.atan2(sin, cos);
  return { at, pose: { x: (rear.x + front.x) / 2, z: (rear.z + front.z) / 2, heading, s: at } };
}

/** The least gap over poses so far apart, nothing clever: for tests and for measuring the other way's speed. */
export function steppedGap(
  { pocket, phases }: Sweep,
  outline: Outline,
  step: number,
): { readonly gap: number; readonly rear: number } {
  let least = { gap: Number.POSITIVE_INFINITY, rear: Number.NaN };
  for (const phase of phases) {
    const poses = Math.max(1, Math.ceil((phase.to - phase.from) / step));
    for (let k = 0; k <= poses; k++) {
      const rear = phase.from + ((phase.to - phase.from) * k) / poses;
      const { gap } = outlineGap({ parts: [pocketPart(chordAt(phase, rear, pocket), pocket)], round: 0 }, outline);
      if (gap < least.gap) least = { gap, rear };
    }
  }
  return least;
}

/** Gap between neighbouring pockets in the tightest bend with the pockets inside; on a route without one, that of the flat tape. m. */
export function nextPocketGap({ course, pocket }: Sweep, pitch: number): number {
  const arcs = course.stretches.flatMap(({ bend, length }, i) =>
    bend ? [{ radius: bend.radius, turn: (bend.sense * length) / bend.radius, number: i + 1 }] : [],
  );
  return pocketGap.value({ arcs, P_1: pitch, drop: pocket.drop, L: pocket.length });
}
