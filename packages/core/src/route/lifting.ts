import { type Part, separation } from "./convex.ts";
import { farthest, leastOver, type Motion } from "./moving.ts";
import { type Gap, type Outline, type Point, rounded, shiftedPart, turned } from "./outline.ts";

/**
 * Least gap of a body that turns about a pivot to one that stands, over the whole angle.
 *
 *     g = min over pairs of | rho_b - rho_a |    at the angle alpha_b - alpha_a, where that lies within the turn
 *     g = d at the first and at the last angle                                        whichever is least
 *
 * rho, alpha: distance and direction from the pivot, m and rad, of every corner and of every foot of a perpendicular from the pivot on a
 * side. Between the ends the distance of two bodies can only be least where the line through their nearest points passes through the
 * pivot: elsewhere turning a little further brings them nearer. Nearest points on such a line are corners or feet (derived). Circles
 * are points here; their radii come off at the end.
 *
 * Where the parts overlap (a corner of one crosses a side of the other during the turn) the depth has kinks that this list does not hold:
 * it is searched with a bound (moving.ts). Exact for rigid bodies; play of the pivot is not in it.
 */
export interface Turn {
  readonly about: Point;
  /** Angles, rad, anticlockwise positive (x to the right, z up); from <= to. */
  readonly from: number;
  readonly to: number;
}
export interface TurnGap extends Gap {
  /** Angle at which the gap is least, rad. */
  readonly angle: number;
}

/** Least gap over the turn; undefined where it stays at `below` or more. */
export function liftingGap(body: Outline, turn: Turn, other: Outline, below?: undefined): TurnGap;
export function liftingGap(body: Outline, turn: Turn, other: Outline, below?: number): TurnGap | undefined;
export function liftingGap(
  body: Outline,
  turn: Turn,
  other: Outline,
  below = Number.POSITIVE_INFINITY,
): TurnGap | undefined {
  if (![turn.about.x, turn.about.z, turn.from, turn.to].every(Number.isFinite) || turn.from > turn.to)
    throw new RangeError(
      `a body turns about x ${turn.about.x}, z ${turn.about.z} from ${turn.from} to ${turn.to} rad; that is no turn`,
    );
  const round = body.round + other.round;
  let least = below + round;
  let found: { a: Part; b: Part; angle: number } | undefined;
  for (const a of body.parts)
    for (const b of other.parts) {
      const one = leastTurning(a, turn, b, least);
      if (!one) continue;
      least = one.d;
      found = { a, b, angle: one.t };
    }
  if (!found) return undefined;
  const s = separation(turned(found.a, turn.about, found.angle), found.b);
  return { ...rounded(s, body.round, other.round), angle: found.angle };
}

/** Signed distance of two parts, the first turning, if it is less than `below` somewhere. */
export function leastTurning(
  a: Part,
  turn: Turn,
  b: Part,
  below: number,
): { readonly d: number; readonly t: number } | undefined {
  const { about, from, to } = turn;
  // No corner goes farther from where it is half way than along the arc of half the turn, nor than across the circle.
  const half = (to - from) / 2;
  const middle = separation(turned(a, about, from + half), b).d;
  if (middle - farthest(a, about.x, about.z) * Math.min(half, 2) >= below) return undefined;
  const first = separation(turned(a, about, from), b).d;
  if (first < 0 || meet(a, b, turn))
    return leastOver(shiftedPart(a, -about.x, -about.z), turningAbout(about), from, to, b, below);
  let d = below;
  let t = Number.NaN;
  const offer = (distance: number, angle: number): void => {
    if (distance < d) {
      d = distance;
      t = angle;
    }
  };
  offer(first, from);
  offer(separation(turned(a, about, to), b).d, to);
  const there = features(b, about);
  for (const { rho, alpha } of features(a, about))
    for (const other of there) {
      const distance = Math.abs(other.rho - rho);
      if (distance >= d) continue;
      const angle = into(turn, other.alpha - alpha);
      if (angle !== undefined) offer(distance, angle);
    }
  return Number.isNaN(t) ? undefined : { d, t };
}

interface Feature {
  readonly rho: number;
  readonly alpha: number;
}
/** Corners of a part and feet of the perpendiculars from a place on its sides, seen from there. */
function features(part: Part, from: Point): Feature[] {
  const out: Feature[] = [];
  const n = part.length;
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    const x = part[i]! - from.x;
    const z = part[i + 1]! - from.z;
    out.push({ rho: Math.sqrt(x * x + z * z), alpha: Math.atan2(z, x) });
    const ex = part[j]! - part[i]!;
    const ez = part[j + 1]! - part[i + 1]!;
    const l2 = ex * ex + ez * ez;
    const t = l2 > 0 ? -(x * ex + z * ez) / l2 : 0;
    if (t <= 0 || t >= 1) continue;
    const [fx, fz] = [x + t * ex, z + t * ez];
    out.push({ rho: Math.sqrt(fx * fx + fz * fz), alpha: Math.atan2(fz, fx) });
  }
  return out;
}
/** An angle brought into the turn by whole turns; undefined where none of them lies in it. */
function into({ from, to }: Turn, angle: number): number | undefined {
  const full = 2 * Math.PI;
  const brought = angle + full * Math.ceil((from - angle) / full);
  return brought <= to ? brought : undefined;
}

/** Whether a corner of one part meets a side of the other during the turn. */
function meet(a: Part, b: Part, turn: Turn): boolean {
  return cornersMeet(a, b, turn, 1) || cornersMeet(b, a, turn, -1);
}
/** Corners of p turn about the pivot (backwards for sense -1); does one meet a side of q within the turn? */
function cornersMeet(p: Part, q: Part, turn: Turn, sense: 1 | -1): boolean {
  const { about } = turn;
  const n = q.length;
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 === n ? 0 : i + 2;
    const x = q[i]! - about.x;
    const z = q[i + 1]! - about.z;
    const ex = q[j]! - q[i]!;
    const ez = q[j + 1]! - q[i + 1]!;
    const l2 = ex * ex + ez * ez;
    if (!(l2 > 0)) continue;
    const half = (x * ex + z * ez) / l2;
    for (let m = 0; m < p.length; m += 2) {
      const px = p[m]! - about.x;
      const pz = p[m + 1]! - about.z;
      // Where the side, at t of its length, is as far from the pivot as the corner is.
      const root = half * half - (x * x + z * z - px * px - pz * pz) / l2;
      if (root < 0) continue;
      const s = Math.sqrt(root);
      for (const t of [-half - s, -half + s]) {
        if (t < 0 || t > 1) continue;
        const angle = sense * (Math.atan2(z + t * ez, x + t * ex) - Math.atan2(pz, px));
        if (into(turn, angle) !== undefined) return true;
      }
    }
  }
  return false;
}

const turningAbout = ({ x, z }: Point): Motion => ({
  frame: (t) => ({ x, z, cos: Math.cos(t), sin: Math.sin(t), speed: 0, acceleration: 0, turn: 1, swing: 0 }),
  unsteady: 1,
});
