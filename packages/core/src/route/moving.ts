import { type Part, reachAlong, separation } from "./convex.ts";

/**
 * Least signed distance of a moving rigid part to a standing one, over a stretch of its motion.
 *
 *     d(t) >= min over b of n·b - max over a of n·a(t)       for any one direction n, held still or carried along by the moving part
 *          >= least at t_0, t_1 of that - q (t_1 - t_0)^2/8   for all t between t_0 and t_1
 *
 * q bounds the acceleration of the corners: of a with n held still, of b as the moving part sees them with n carried along. With n the
 * nearest direction at the middle, one of the two lies below the true least by terms of second order only: held still where a corner of
 * the moving part is nearest, carried along where a side of it is. So the stretches that could still hold the least are halved until
 * none is left, in a few dozen looks, and the result is the least of the whole stretch, not of the neighbourhood of a start (branch and
 * bound; derived). Distances in m, t in whatever the motion runs by.
 */
export interface Frame {
  /** Where the part's own zero stands, and the direction of its x. */
  readonly x: number;
  readonly z: number;
  readonly cos: number;
  readonly sin: number;
  /** Speed and acceleration of its zero, and of its turning, per unit of t. */
  readonly speed: number;
  readonly acceleration: number;
  readonly turn: number;
  readonly swing: number;
}
export interface Motion {
  frame(t: number): Frame;
  /** How many times the rates at the ends and the middle of a stretch those between can be: 1 where they are constant. */
  readonly unsteady: number;
}
export interface Least {
  /** Signed distance of the parts, m. */
  readonly d: number;
  readonly t: number;
}

/** How far above the true least the result may lie, m. */
const within = 1e-8;
/** Halvings after which a stretch is a point. */
const deepest = 50;

/** The part as it stands in a frame. */
export function placedIn(part: Part, { x, z, cos, sin }: Pick<Frame, "x" | "z" | "cos" | "sin">): Part {
  const out: number[] = [];
  for (let i = 0; i < part.length; i += 2) {
    const px = part[i]!;
    const pz = part[i + 1]!;
    out.push(x + cos * px - sin * pz, z + sin * px + cos * pz);
  }
  return out;
}

/** The least between `from` and `to` if it is less than `below`; undefined where nothing is. `part` in its own coordinates. */
export function leastOver(
  part: Part,
  motion: Motion,
  from: number,
  to: number,
  other: Part,
  below: number,
): Least | undefined {
  let best = below;
  let at = Number.NaN;
  const size = farthest(part, 0, 0);
  const offer = (t: number, d: number): void => {
    if (d < best) {
      best = d;
      at = t;
    }
  };
  const halve = (t0: number, f0: Frame, t1: number, f1: Frame, depth: number): void => {
    const tm = (t0 + t1) / 2;
    const fm = motion.frame(tm);
    const s = separation(placedIn(part, fm), other);
    offer(tm, s.d);
    // The direction as the part sees it.
    const nx = fm.cos * s.nx + fm.sin * s.nz;
    const nz = fm.cos * s.nz - fm.sin * s.nx;
    const left = room(part, s.nx, s.nz, nx, nz, f0, other);
    const right = room(part, s.nx, s.nz, nx, nz, f1, other);
    const eighth = (motion.unsteady * (t1 - t0) * (t1 - t0)) / 8;
    const turn = Math.max(f0.turn, fm.turn, f1.turn);
    const spin = Math.max(f0.swing, fm.swing, f1.swing) + turn * turn;
    const acceleration = Math.max(f0.acceleration, fm.acceleration, f1.acceleration);
    const speed = Math.max(f0.speed, fm.speed, f1.speed);
    const still = Math.min(left.still, right.still) - eighth * (acceleration + size * spin);
    const seen = Math.max(farthest(other, f0.x, f0.z), farthest(other, f1.x, f1.z)) + (speed * (t1 - t0)) / 2;
    const carried = Math.min(left.carried, right.carried) - eighth * (acceleration + 2 * turn * speed + seen * spin);
    if (Math.max(still, carried) >= best - within || depth >= deepest) return;
    // The half towards the nearer end first: what it finds prunes the other.
    if (left.still + left.carried < right.still + right.carried) {
      halve(t0, f0, tm, fm, depth + 1);
      halve(tm, fm, t1, f1, depth + 1);
    } else {
      halve(tm, fm, t1, f1, depth + 1);
      halve(t0, f0, tm, fm, depth + 1);
    }
  };
  const first = motion.frame(from);
  offer(from, separation(placedIn(part, first), other).d);
  if (to > from) {
    const last = motion.frame(to);
    offer(to, separation(placedIn(part, last), other).d);
    halve(from, first, to, last, 0);
  }
  return Number.isNaN(at) ? undefined : { d: best, t: at };
}

/** Room between the parts along a direction held still, and along the same direction carried by the part to this frame. */
function room(
  part: Part,
  sx: number,
  sz: number,
  nx: number,
  nz: number,
  { x, z, cos, sin }: Frame,
  other: Part,
): { still: number; carried: number } {
  // The still direction as the part sees it here, and the carried one as it stands here.
  const still =
    -reachAlong(other, -sx, -sz) - reachAlong(part, cos * sx + sin * sz, cos * sz - sin * sx) - sx * x - sz * z;
  const cx = cos * nx - sin * nz;
  const cz = sin * nx + cos * nz;
  const carried = -reachAlong(other, -cx, -cz) - cx * x - cz * z - reachAlong(part, nx, nz);
  return { still, carried };
}

/** How far the farthest corner of a part lies from a place. */
export function farthest(part: Part, x: number, z: number): number {
  let most = 0;
  for (let i = 0; i < part.length; i += 2) {
    const dx = part[i]! - x;
    const dz = part[i + 1]! - z;
    const d = dx * dx + dz * dz;
    if (d > most) most = d;
  }
  return Math.sqrt(most);
}
