import type { Part } from "./convex.ts";
import { along, type Course, type Stretch } from "./course.ts";
import { type Frame, type Motion, placedIn } from "./moving.ts";
import type { Point } from "./outline.ts";
import type { Pose } from "./pose.ts";

/**
 * How a rigid pocket rides along a route: the ends of its flange on the route's line as a chord of length L, its bottom square below.
 *
 *     | b(s_b) - a(s_a) | = L
 *     s_b' = cos A/cos B                     speed of the front end per metre of the rear end
 *     theta' = (s_b' sin B - sin A)/L        turning of the chord
 *
 * a, b rear and front end; A, B angles of the route to the chord there, rad, 0 .. 1.37; theta direction of the chord; L 1e-3 .. 0.1 m.
 * The route falls into phases over which both ends stay each on one piece, so that within one everything is smooth; their ends are the
 * joints passed by the rear end and by the front end, both closed (line and circle about a place). Plane geometry (derived).
 *
 * It stops holding where a bend turns nearly square to the chord, L above 0.98 of the bend's diameter: RangeError.
 */
export interface Pocket {
  /** Outside length along the travel, and how far it hangs below the route's line, m. */
  readonly length: number;
  readonly drop: number;
}
/** Poses between two of the rear end, over which both ends stay each on one piece. */
export interface Phase {
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
const square = 0.2;
const tooLong = ({ length }: Pocket): RangeError =>
  new RangeError(`a pocket ${(length * 1e3).toFixed(2)} mm long can't follow the route: a bend turns square to it`);

/** A pocket on a route, ready to be held against outlines. RangeError where the pocket is none or can't follow. */
export function sweepOf(course: Course, pocket: Pocket): Sweep {
  const { length, drop } = pocket;
  if (!(length > 0 && length < Number.POSITIVE_INFINITY))
    throw new RangeError(`a pocket is ${length} m long; it must be more than 0`);
  if (!(drop > 0 && drop < Number.POSITIVE_INFINITY))
    throw new RangeError(`a pocket hangs ${drop} m below the tape; it must be more than 0`);
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

export interface Chord {
  readonly rear: Pose;
  readonly front: Pose;
  /** Direction of the chord. */
  readonly cos: number;
  readonly sin: number;
}
/** Both ends of the pocket's flange when its rear end stands at s. */
export function chordAt({ rear, front }: Phase, s: number, pocket: Pocket): Chord {
  const a = along(rear, s - rear.start.s);
  const t = rear === front ? onSame(rear, s, pocket.length) : reach(front, a, pocket.length, 1);
  if (Number.isNaN(t)) throw tooLong(pocket);
  const b = along(front, t);
  const cos = (b.x - a.x) / pocket.length;
  const sin = (b.z - a.z) / pocket.length;
  if (!(cos * Math.cos(a.heading) + sin * Math.sin(a.heading) >= square)) throw tooLong(pocket);
  if (!(cos * Math.cos(b.heading) + sin * Math.sin(b.heading) >= square)) throw tooLong(pocket);
  return { rear: a, front: b, cos, sin };
}
/** Corners of the pocket from the rear end of its flange, its chord along x: anticlockwise, the rear of its bottom first. */
export const partOf = ({ length, drop }: Pocket): Part => [0, -drop, length, -drop, length, 0, 0, 0];
export const pocketPart = ({ rear, cos, sin }: Chord, pocket: Pocket): Part =>
  placedIn(partOf(pocket), { x: rear.x, z: rear.z, cos, sin });

/** Motion of the pocket over a phase, per metre of its rear end. */
export function motionOf(phase: Phase, pocket: Pocket): Motion {
  const rearBend = curvature(phase.rear);
  const frontBend = curvature(phase.front);
  const frame = (s: number): Frame => {
    const { rear, front, cos, sin } = chordAt(phase, s, pocket);
    const [hx, hz, gx, gz] = [
      Math.cos(rear.heading),
      Math.sin(rear.heading),
      Math.cos(front.heading),
      Math.sin(front.heading),
    ];
    const [cosA, sinA] = [hx * cos + hz * sin, hz * cos - hx * sin];
    const [cosB, sinB] = [gx * cos + gz * sin, gz * cos - gx * sin];
    const speed = cosA / cosB;
    const turn = (speed * sinB - sinA) / pocket.length;
    const turnA = rearBend - turn;
    const turnB = frontBend * speed - turn;
    const gain = (speed * sinB * turnB - sinA * turnA) / cosB;
    const swing = (gain * sinB + speed * cosB * turnB - cosA * turnA) / pocket.length;
    return {
      x: rear.x,
      z: rear.z,
      cos,
      sin,
      speed: 1,
      acceleration: Math.abs(rearBend),
      turn: Math.abs(turn),
      swing: Math.abs(swing),
    };
  };
  // On one piece the rates are constant; between two they change little over a stretch that matters, and twice the greatest is ample.
  return { frame, unsteady: phase.rear === phase.front ? 1 : 2 };
}
const curvature = ({ bend }: Stretch): number => (bend ? bend.sense / bend.radius : 0);

/** The pocket when the rear end of its flange stands at a place along the route: its corners anticlockwise, the rear of its bottom first. */
export function pocketAt({ pocket, phases }: Sweep, rear: number): readonly Point[] {
  const phase = phases.findLast((one) => one.from <= rear) ?? phases[0]!;
  const p = pocketPart(chordAt(phase, Math.max(phase.from, Math.min(phase.to, rear)), pocket), pocket);
  return [0, 2, 4, 6].map((i) => ({ x: p[i]!, z: p[i + 1]! }));
}
