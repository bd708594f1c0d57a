import { type Part, reachAlong, separation } from "./convex.ts";

/**
 * Least signed distance of a moving rigid part to a standing one, over a stretch of its motion.
 *
 *     d(t) >= min over b of n·b - max over a of n·a(t)                              for any one direction n
 *          >= min over b of n·b - max over a of [n·a(t_0), n·a(t_1)] - q (t_1 - t_0)^2/8     for all t between t_0 and t_1
 *
 * q bounds the acceleration of every corner between t_0 and t_1. With n the nearest direction at the middle, the bound lies below the true
 * least by terms of second order only, so halving the stretches that could still hold the least ends after a few dozen looks, and the
 * result is the least of the whole stretch, not of the neighbourhood of a start (branch and bound; derived).
 */
export interface Motion {
  /** Corners of the part at t. */
  corners(t: number): Part;
  /** Bound on the acceleration of its corners between two t, m per unit of t squared. */
  acceleration(from: number, to: number): number;
}
export interface Least {
  /** Signed distance of the parts, m. */
  readonly d: number;
  readonly t: number;
}

/** How far above the true least the result may lie, m. */
const within = 1e-8;
/** Halvings after which a stretch is a point. */
const deepest = 60;

/** The least between `from` and `to` if it is less than `below`; undefined where nothing is. */
export function leastOver(motion: Motion, from: number, to: number, other: Part, below: number): Least | undefined {
  let best = below;
  let at = Number.NaN;
  const look = (t: number, corners: Part): void => {
    const { d } = separation(corners, other);
    if (d < best) {
      best = d;
      at = t;
    }
  };
  const halve = (t0: number, c0: Part, t1: number, c1: Part, depth: number): void => {
    const middle = (t0 + t1) / 2;
    const cm = motion.corners(middle);
    const { d, nx, nz } = separation(cm, other);
    if (d < best) {
      best = d;
      at = middle;
    }
    const wall = -reachAlong(other, -nx, -nz);
    const r0 = reachAlong(c0, nx, nz);
    const r1 = reachAlong(c1, nx, nz);
    const span = t1 - t0;
    const bound = wall - Math.max(r0, r1) - (motion.acceleration(t0, t1) * span * span) / 8;
    if (bound >= best - within || depth >= deepest) return;
    // The half towards the nearer end first: its finds prune the other.
    if (r0 > r1) {
      halve(t0, c0, middle, cm, depth + 1);
      halve(middle, cm, t1, c1, depth + 1);
    } else {
      halve(middle, cm, t1, c1, depth + 1);
      halve(t0, c0, middle, cm, depth + 1);
    }
  };
  const first = motion.corners(from);
  const last = motion.corners(to);
  look(from, first);
  if (to > from) {
    look(to, last);
    halve(from, first, to, last, 0);
  }
  return Number.isNaN(at) ? undefined : { d: best, t: at };
}
