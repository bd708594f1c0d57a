import { pocketGap } from "../channel/bend.ts";
import { type Part, separation } from "./convex.ts";
import { along, type Course, type Stretch } from "./course.ts";
import { leastTurning } from "./lifting.ts";
import { leastOver, type Motion } from "./moving.ts";
import { type Outline, outlineGap, type Point, rounded } from "./outline.ts";
import type { Pose } from "./pose.ts";

/**
 * The rigid pocket swept along a route, and its least gap to an outline.
 *
 * The ends of its flange ride on the route's line as a chord of length L; its bottom hangs `drop` below that chord. With h = L/2:
 *
 *     straight                 g = d(rectangle from the first pocket to the last, outline)
 *     bend of radius r, c = sqrt(r^2 - h^2)
 *       pockets inside         nearest to the centre: c - drop, the middle of the bottom
 *       pockets outside        farthest from it: hypot(c + drop, h) < r + drop, the bottom's corners
 *       either                 g = min | rho_b - rho_a | over corners and feet (lifting.ts), the bend's centre as pivot
 *     between two pieces       s_b' = cos A/cos B,  theta' = (s_b' sin B - sin A)/L; searched with a bound (moving.ts)
 *
 * L outside length of a pocket, m, 1e-3 .. 0.1; drop below the underside, m, 1e-4 .. 0.05; A, B angles of the route to the chord at its
 * ends; s_b place of the front end, theta direction of the chord, ' per metre of the rear end. Where outline and pocket overlap, the
 * straight and the bend are searched too: a depth has kinks no list holds. The least is that of the whole route, to 1e-8 m.
 *
 * Plane geometry (derived). It stops holding where a pocket is so long that the route turns square to its chord: RangeError. Draft
 * of the walls and the tape's flexing are left out; a real pocket is a little smaller at its bottom.
 */
export interface Pocket {
  readonly length: number;
  readonly drop: number;
}
/** Where a pocket comes nearest to something. */
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

/** Poses between two of the rear end, over which both ends stay each on one piece. */
interface Phase {
  readonly rear: Stretch;
  readonly front: Stretch;
  /** Place of the rear end, m along the route. */
  readonly from: number;
  readonly to: number;
}
export interface Sweep {
  readonly course: Course;
  readonly pocket: Pocket;
  readonly phases: readonly Phase[];
}

/** Cosine of the angle between route and chord below which a pocket no longer follows. */
const square = 0.05;
const tooLong = ({ length }: Pocket): RangeError =>
  new RangeError(`a pocket ${(length * 1e3).toFixed(2)} mm long can't follow the route: a bend turns square to it`);

/** A pocket on a route, ready to be held against outlines. RangeError where the pocket is none or can't follow. */
export function sweepOf(course: Course, pocket: Pocket): Sweep {
  const { length, drop } = pocket;
  if (!(length > 0 && length < Number.POSITIVE_INFINITY)) throw new RangeError(`a pocket is ${length} m long; it must be more than 0`);
  if (!(drop > 0 && drop < Number.POSITIVE_INFINITY)) throw new RangeError(`a pocket hangs ${drop} m below the tape; it must be more than 0`);
  const { stretches } = course;
  const last = rearOf(stretches, stretches.length, length);
  if (last === undefined) throw new RangeError(`the route is shorter than a pocket of ${(length * 1e3).toFixed(2)} mm`);
  const breaks = [course.from, last];
  for (let j = 1; j < stretches.length; j++) {
    const rear = rearOf(stretches, j, length);
    for (const s of [stretches[j]!.start.s, rear]) if (s !== undefined && s > course.from && s < last) breaks.push(s);
  }
  breaks.sort((p, q) => p - q);
  const phases: Phase[] = [];
  for (let i = 0; i + 1 < breaks.length; i++) {
    const [from, to] = [breaks[i]!, breaks[i + 1]!];
    if (to - from < 1e-12) continue;
    const rear = stretches.findLastIndex((one) => one.start.s <= (from + to) / 2);
    const front = frontOf(stretches, rear, (from + to) / 2, length);
    if (front === undefined) throw tooLong(pocket);
    phases.push({ rear: stretches[rear]!, front: stretches[front]!, from, to });
  }
  // A pocket as long as the whole route has one pose.
  if (phases.length === 0) phases.push({ rear: stretches[0]!, front: stretches.at(-1)!, from: course.from, to: last });
  for (const phase of phases) {
    chordAt(phase, phase.from, pocket);
    chordAt(phase, phase.to, pocket);
  }
  return { course, pocket, phases };
}

/** How far along a stretch it first is `length` from a place that lies behind its start (way 1) or beyond its end (way -1). */
function reach({ start, bend, length: whole }: Stretch, place: Point, length: number, way: 1 | -1): number {
  if (!bend) {
    const ux = Math.cos(start.heading);
    const uz = Math.sin(start.heading);
    const x = start.x - place.x;
    const z = start.z - place.z;
    const inner = x * ux + z * uz;
    return -inner + way * Math.sqrt(inner * inner - x * x - z * z + length * length);
  }
  const { radius, sense, centre } = bend;
  const x = place.x - centre.x;
  const z = place.z - centre.z;
  const away = Math.sqrt(x * x + z * z);
  const opening = Math.acos((away * away + radius * radius - length * length) / (2 * away * radius));
  const near = way === 1 ? 0 : whole / radius;
  // Direction of the place seen from the centre, measured in the sense of travel from the end that is near to it.
  const beside = wrapped(sense * (Math.atan2(z, x) - start.heading) + Math.PI / 2 - near);
  return radius * (near + beside + way * opening);
}
const wrapped = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/** Place of the rear end when the front end stands at the start of stretch j, or at the end of the last; undefined before the route. */
function rearOf(stretches: readonly Stretch[], j: number, length: number): number | undefined {
  const front = j < stretches.length ? stretches[j]!.start : along(stretches[j - 1]!, stretches[j - 1]!.length);
  for (let k = j - 1; k >= 0; k--) {
    const t = reach(stretches[k]!, front, length, -1);
    if (t >= -1e-12) return stretches[k]!.start.s + Math.max(0, t);
  }
  return undefined;
}
/** Number of the stretch that the front end stands on. */
function frontOf(stretches: readonly Stretch[], rear: number, s: number, length: number): number | undefined {
  const place = along(stretches[rear]!, s - stretches[rear]!.start.s);
  for (let k = rear; k < stretches.length; k++) {
    const t = k === rear ? onSame(stretches[k]!, s, length) : reach(stretches[k]!, place, length, 1);
    if (t <= stretches[k]!.length + 1e-12) return k;
  }
  return undefined;
}
/** Place of the front end along the same stretch as the rear end. */
const onSame = ({ start, bend }: Stretch, s: number, length: number): number =>
  s - start.s + (bend ? 2 * bend.radius * Math.asin(length / (2 * bend.radius)) : length);

interface Chord {
  readonly rear: Pose;
  readonly front: Pose;
}
/** Both ends of the pocket's flange when its rear end stands at s. */
function chordAt({ rear, front }: Phase, s: number, pocket: Pocket): Chord {
  const a = along(rear, s - rear.start.s);
  const t = rear === front ? onSame(rear, s, pocket.length) : reach(front, a, pocket.length, 1);
  if (Number.isNaN(t)) throw tooLong(pocket);
  const b = along(front, t);
  const [x, z] = [b.x - a.x, b.z - a.z];
  const least = square * pocket.length;
  if (!(x * Math.cos(a.heading) + z * Math.sin(a.heading) >= least)) throw tooLong(pocket);
  if (!(x * Math.cos(b.heading) + z * Math.sin(b.heading) >= least)) throw tooLong(pocket);
  return { rear: a, front: b };
}
/** Corners of the pocket, anticlockwise from the rear end of its bottom. */
function pocketPart({ rear, front }: Chord, { length, drop }: Pocket): Part {
  const downX = ((front.z - rear.z) / length) * drop;
  const downZ = ((rear.x - front.x) / length) * drop;
  return [rear.x + downX, rear.z + downZ, front.x + downX, front.z + downZ, front.x, front.z, rear.x, rear.z];
}

/** Motion of the pocket over a phase, with the acceleration of its corners per metre of the rear end. */
function motionOf(phase: Phase, pocket: Pocket): Motion {
  const straight = phase.rear === phase.front && !phase.rear.bend;
  const size = Math.hypot(pocket.length, pocket.drop);
  const rearBend = curvature(phase.rear);
  const frontBend = curvature(phase.front);
  const at = (s: number): number => {
    const { rear, front } = chordAt(phase, s, pocket);
    const theta = Math.atan2(front.z - rear.z, front.x - rear.x);
    const [sinA, cosA] = [Math.sin(rear.heading - theta), Math.cos(rear.heading - theta)];
    const [sinB, cosB] = [Math.sin(front.heading - theta), Math.cos(front.heading - theta)];
    const speed = cosA / cosB;
    const turn = (speed * sinB - sinA) / pocket.length;
    const turnA = rearBend - turn;
    const turnB = frontBend * speed - turn;
    const gain = (speed * sinB * turnB - sinA * turnA) / cosB;
    const swing = (gain * sinB + speed * cosB * turnB - cosA * turnA) / pocket.length;
    return Math.abs(rearBend) + size * Math.hypot(swing, turn * turn);
  };
  return {
    corners: (s) => pocketPart(chordAt(phase, s, pocket), pocket),
    // It changes little over a stretch that matters; twice the greatest of three is ample.
    acceleration: (from, to) => (straight ? 0 : 2 * Math.max(at(from), at((from + to) / 2), at(to))),
  };
}
const curvature = ({ bend }: Stretch): number => (bend ? bend.sense / bend.radius : 0);

/** Least signed distance over a phase, with the place of the rear end, if it is less than `below`. */
function leastOfPhase(phase: Phase, pocket: Pocket, other: Part, below: number): { readonly d: number; readonly t: number } | undefined {
  const { rear, front, from, to } = phase;
  if (rear !== front) return leastOver(motionOf(phase, pocket), from, to, other, below);
  const first = chordAt(phase, from, pocket);
  if (rear.bend) {
    const { radius, sense, centre } = rear.bend;
    const angle = (to - from) / radius;
    const turn = { about: centre, from: sense > 0 ? 0 : -angle, to: sense > 0 ? angle : 0 };
    const least = leastTurning(pocketPart(first, pocket), turn, other, below);
    return least && { d: least.d, t: from + Math.abs(least.t) * radius };
  }
  const last = chordAt(phase, to, pocket);
  const run = to - from;
  const swept = pocketPart({ rear: first.rear, front: last.front }, { length: run + pocket.length, drop: pocket.drop });
  const s = separation(swept, other);
  if (s.d >= below) return undefined;
  if (s.d < 0) return leastOver(motionOf(phase, pocket), from, to, other, below);
  const ahead = (s.ax - first.rear.x) * Math.cos(first.rear.heading) + (s.az - first.rear.z) * Math.sin(first.rear.heading);
  return { d: s.d, t: from + Math.max(0, Math.min(run, ahead - pocket.length / 2)) };
}

/** Least gap of the swept pocket to an outline; undefined where it stays at `below` or more. */
export function sweptGap(sweep: Sweep, outline: Outline, below?: undefined): SweepGap;
export function sweptGap(sweep: Sweep, outline: Outline, below?: number): SweepGap | undefined;
export function sweptGap({ pocket, phases }: Sweep, outline: Outline, below = Number.POSITIVE_INFINITY): SweepGap | undefined {
  const size = Math.hypot(pocket.length, pocket.drop);
  let least = below + outline.round;
  let found: { phase: Phase; part: Part; s: number } | undefined;
  // What can come nearest first: its gap then spares the others.
  const order: { phase: Phase; part: Part; bound: number }[] = [];
  for (const phase of phases) {
    const half = (phase.to - phase.from) / 2;
    const middle = along(phase.rear, phase.from + half - phase.rear.start.s);
    for (const part of outline.parts) order.push({ phase, part, bound: separation([middle.x, middle.z], part).d - half - size });
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
function placed({ rear, front }: Chord): { readonly at: number; readonly pose: Pose } {
  const at = (rear.s + front.s) / 2;
  const heading = Math.atan2(front.z - rear.z, front.x - rear.x);
  return { at, pose: { x: (rear.x + front.x) / 2, z: (rear.z + front.z) / 2, heading, s: at } };
}

/** The pocket when the rear end of its flange stands at a place along the route: its corners anticlockwise, the rear of its bottom first. */
export function pocketAt({ pocket, phases }: Sweep, rear: number): readonly Point[] {
  const phase = phases.findLast((one) => one.from <= rear) ?? phases[0]!;
  const p = pocketPart(chordAt(phase, Math.max(phase.from, Math.min(phase.to, rear)), pocket), pocket);
  return [0, 2, 4, 6].map((i) => ({ x: p[i]!, z: p[i + 1]! }));
}
/** The least gap over poses so far apart, nothing clever: for tests and for measuring the other way's speed. */
export function steppedGap({ pocket, phases }: Sweep, outline: Outline, step: number): { readonly gap: number; readonly rear: number } {
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
