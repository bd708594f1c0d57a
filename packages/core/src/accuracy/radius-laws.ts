/**
 * How far from its target a place lies that errs along and across, each by a normal law of its own.
 *
 *     P(r < R),  r^2 = x^2 + y^2,  x ~ N(vx, sx^2),  y ~ N(vy, sy^2), independent
 *
 * vx, vy  offset of the middle, any length unit      sx, sy  standard deviations, the same unit, 0 or more
 *
 * With u = (R cos t - vx)/sx, w = (R sin t - vy)/sy, the divergence theorem turns the disc into its rim:
 *
 *     P(r < R) = 1/(2 pi) . integral over t of (1 - e^(-q/2))/q . K,   q = u^2 + w^2,   K = R (R - vx cos t - vy sin t)/(sx sy)
 *     P(r > R) = 1/(2 pi) . integral of e^(-q/2)/q . K      where the offset lies inside R
 *     dP/dR    = R/(2 pi sx sy) . integral of e^(-q/2)
 *
 * All are smooth and periodic, so equal steps in t converge faster than any power of their number, and one row of exponentials
 * gives a share and its slope at once. Special cases: no offset and equal sd, Rayleigh, 1 - e^(-R^2/2 s^2); offset, Rice, a noncentral
 * chi-square of 2 degrees at (R/s)^2. Where one sd is much the smaller the rim needs too many steps: there one integral over the
 * smaller sd, `phi(x) [Phi((c - vy)/sy) - Phi((-c - vy)/sy)]`, c = sqrt(R^2 - x^2).
 *
 * Exact for normal laws; correlated x and y are first turned to their own axes. Both tails keep their digits: 1e-11 of themselves down to 1e-12, held against
 * integrals of 30 digits for sd of up to 160 to 1. A radius takes some microseconds up to about 5 to 1, some tens beyond 20 to 1. Derived; Rice and Rayleigh: memory,
 * recomputed.
 */
import { phi, phiInverse } from "../quantity/law.ts";
import { power } from "../quantity/power.ts";
import { rootBetween } from "../study/root.ts";

/** Offset and standard deviations along two axes at right angles. */
export interface Spread2 {
  readonly vx: number;
  readonly vy: number;
  readonly sx: number;
  readonly sy: number;
}

/** Share of places within the radius R of the target. */
export function withinRadius(R: number, spread: Spread2): number {
  const { P, Q } = sharesAt(R, spread);
  return P < 0.5 ? P : 1 - Q;
}
/** Share of places beyond R; keeps its digits where it is small. */
export function beyondRadius(R: number, spread: Spread2): number {
  const { P, Q } = sharesAt(R, spread);
  return Q < 0.5 ? Q : 1 - P;
}
/** The radius that holds a share of places; 0 <= share < 1. */
export const radiusHolding = (share: number, spread: Spread2): number => radiusOf(share, 1 - share, spread);
/** The radius beyond which a share of places lies; 0 < share <= 1, as small as need be. */
export const radiusLeaving = (share: number, spread: Spread2): number => radiusOf(1 - share, share, spread);

/** Mean and standard deviation of r^2: sums of s^2 + v^2 and of 2 s^4 + 4 s^2 v^2. */
export function squaredRadius({ vx, vy, sx, sy }: Spread2): { mean: number; sd: number } {
  const x = sx * sx;
  const y = sy * sy;
  return { mean: x + y + vx * vx + vy * vy, sd: Math.sqrt(2 * x * x + 2 * y * y + 4 * x * vx * vx + 4 * y * vy * vy) };
}
/**
 * Mean radius of a Rice law: `s sqrt(pi/2) [(1 + 2h) I0(h) + 2h I1(h)] e^-h`, h = (v/2s)^2; Bessel functions by equal steps of their
 * integrals. s 0 gives v.
 */
export function meanRadius(offset: number, sd: number): number {
  if (!(offset >= 0 && sd >= 0 && offset + sd < Number.POSITIVE_INFINITY))
    throw new RangeError(`offset ${offset} and standard deviation ${sd} must be finite and not below 0`);
  const h = (offset / (2 * sd)) ** 2;
  if (!(h < 1e6)) return offset + (sd * sd) / (2 * offset || 1);
  const n = Math.ceil(24 + 12 * Math.sqrt(h));
  let sum = 0;
  for (let i = 0; i < n; i++) {
    // 1 - cos from half the angle: the difference loses no digits.
    const less = 2 * Math.sin((Math.PI * (i + 0.5)) / n) ** 2;
    sum += Math.exp(-h * less) * (1 + 4 * h - 2 * h * less);
  }
  return sd * Math.sqrt(Math.PI / 2) * (sum / n);
}

/** Cosines and sines of n equal steps round the circle, kept. */
const circles = new Map<number, { cos: Float64Array; sin: Float64Array }>();
function circle(n: number): { cos: Float64Array; sin: Float64Array } {
  let kept = circles.get(n);
  if (!kept) {
    kept = { cos: new Float64Array(n), sin: new Float64Array(n) };
    for (let i = 0; i < n; i++) {
      kept.cos[i] = Math.cos((2 * Math.PI * (i + 0.5)) / n);
      kept.sin[i] = Math.sin((2 * Math.PI * (i + 0.5)) / n);
    }
    circles.set(n, kept);
  }
  return kept;
}
/** Numbers of steps that are used, so that few circles are kept. */
const counts = [24, 32, 40, 48, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320, 384, 448, 512, 640];
const most = 640;

interface Shares {
  P: number;
  Q: number;
  /** dP/dR and its own slope. */
  d: number;
  dd: number;
}
/** What `rim` found last: written over by each call, so that none is made anew. */
const found: Shares = { P: 0, Q: 0, d: 0, dd: 0 };

/** Steps round the rim so that e^(-q/2) is caught to 1e-13 of its greatest, or 0 where they would be too many. */
function stepsFor(R: number, { vx, vy, sx, sy }: Spread2, fineness: number): number {
  const ix = 1 / (sx * sx);
  const iy = 1 / (sy * sy);
  const bend = R * R * Math.abs(ix - iy) + R * Math.hypot(vx * ix, vy * iy);
  const wanted = 12 + fineness * Math.sqrt(bend);
  if (!(wanted <= most)) return 0;
  for (const n of counts) if (n >= wanted) return n;
  return 0;
}

function rim(R: number, spread: Spread2, n: number): Shares {
  const { vx, vy, sx, sy } = spread;
  const { cos, sin } = circle(n);
  const ix = 1 / sx;
  const iy = 1 / sy;
  let inside = 0;
  let beyond = 0;
  let d = 0;
  let dd = 0;
  for (let i = 0; i < n; i++) {
    const c = cos[i]!;
    const s = sin[i]!;
    const u = (R * c - vx) * ix;
    const w = (R * s - vy) * iy;
    const q = u * u + w * w;
    const e = Math.exp(-0.5 * q);
    const k = R - vx * c - vy * s;
    // 1 - e^(-q/2) loses its digits near 0: there its series.
    if (q > 0.02) {
      const one = k / q;
      beyond += e * one;
      inside += (1 - e) * one;
    } else {
      const h = -0.5 * q;
      inside += k * 0.5 * (1 + (h / 2) * (1 + (h / 3) * (1 + (h / 4) * (1 + (h / 5) * (1 + h / 6)))));
      beyond = Number.NaN;
    }
    d += e;
    dd -= e * (u * c * ix + w * s * iy);
  }
  const share = (R * ix * iy) / n;
  found.P = share * inside;
  found.Q = share * beyond;
  found.d = share * d;
  found.dd = found.d / R + share * dd;
  return found;
}
/** Below this a tail is taken from its own integral, not as 1 less the other. */
const small = 1e-3;

function sharesAt(R: number, spread: Spread2): Shares {
  check(spread);
  if (Number.isNaN(R)) throw new RangeError("the radius is not a number");
  return shares(R, spread, 10);
}
function shares(R: number, spread: Spread2, fineness: number): Shares {
  if (R <= 0) return Object.assign(found, { P: 0, Q: 1, d: 0, dd: 0 });
  const { vx, vy, sx, sy } = spread;
  if (R === Number.POSITIVE_INFINITY) return Object.assign(found, { P: 1, Q: 0, d: 0, dd: 0 });
  if (vx === 0 && vy === 0 && sx === sy && sx > 0) {
    const h = (R / sx) ** 2;
    const Q = Math.exp(-h / 2);
    return Object.assign(found, { P: -Math.expm1(-h / 2), Q, d: (Q * h) / R, dd: (Q * h * (1 - h)) / (R * R) });
  }
  const n = sx > 0 && sy > 0 ? stepsFor(R, spread, fineness) : 0;
  if (n === 0) return Object.assign(found, across(R, spread));
  rim(R, spread, n);
  const inside = Math.hypot(vx, vy) < R;
  const { P } = found;
  // The rim's integral over the inner part cancels where the disc is small beside the offset.
  if (P < small) {
    const { d, dd } = found;
    Object.assign(found, across(R, spread), { d, dd });
  } else if (!(inside && 1 - P < small && found.Q > 0)) found.Q = 1 - P;
  else found.P = 1 - found.Q;
  return found;
}

/** Points and weights of Gauss and Legendre's rule on [-1, 1], by Newton from Chebyshev's points. */
function gauss(n: number): { x: Float64Array; w: Float64Array } {
  const x = new Float64Array(n);
  const w = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let z = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let step = 0; step < 8; step++) {
      let a = 1;
      let b = 0;
      for (let j = 1; j <= n; j++) [a, b] = [((2 * j - 1) * z * a - (j - 1) * b) / j, a];
      slope = (n * (z * a - b)) / (z * z - 1);
      z -= a / slope;
    }
    x[i] = z;
    w[i] = 2 / ((1 - z * z) * slope * slope);
  }
  return { x, w };
}
const rule = gauss(32);

/** One sd far below the other, or 0: over the smaller one, where it has weight. */
function across(R: number, { vx, vy, sx, sy }: Spread2): Shares {
  if (sx > sy) return across(R, { vx: vy, vy: vx, sx: sy, sy: sx });
  const chord = (x: number): { P: number; Q: number; d: number } => {
    const c = Math.sqrt(Math.max(0, R * R - x * x));
    if (sy === 0) return { P: Math.abs(vy) <= c ? 1 : 0, Q: Math.abs(vy) <= c ? 0 : 1, d: 0 };
    const a = (c - vy) / sy;
    const b = (-c - vy) / sy;
    const d = (density(a) + density(b)) / sy;
    // The smaller share by itself, the other as the rest.
    if (b > 0 || a < 0) {
      const P = b > 0 ? phi(-b) - phi(-a) : phi(a) - phi(b);
      return { P, Q: 1 - P, d };
    }
    const Q = phi(-a) + phi(b);
    return Q < 0.9 ? { P: 1 - Q, Q, d } : { P: phi(a) - phi(b), Q, d };
  };
  if (sx === 0) {
    if (Math.abs(vx) > R) return { P: 0, Q: 1, d: 0, dd: 0 };
    const { P, Q, d } = chord(vx);
    const c = Math.sqrt(R * R - vx * vx);
    return { P, Q, d: c > 0 ? (d * R) / c : 0, dd: Number.NaN };
  }
  const reach = 10 * sx;
  const from = Math.max(-R, vx - reach);
  const to = Math.min(R, vx + reach);
  let P = 0;
  let Q = phi((-R - vx) / sx) + phi((vx - R) / sx);
  let d = 0;
  if (from < to) {
    // x = R sin t lays the rim's square root smooth; pieces no wider than 5 sd, so that the peak is caught.
    const t0 = Math.asin(from / R);
    const t1 = Math.asin(to / R);
    const pieces = Math.max(2, Math.ceil((to - from) / (5 * sx)));
    for (let piece = 0; piece < pieces; piece++) {
      const a = t0 + ((t1 - t0) * piece) / pieces;
      const half = (t1 - t0) / pieces / 2;
      for (let i = 0; i < rule.x.length; i++) {
        const t = a + half * (1 + rule.x[i]!);
        const x = R * Math.sin(t);
        const weight = (rule.w[i]! * half * density((x - vx) / sx)) / sx;
        const one = chord(x);
        P += weight * R * Math.cos(t) * one.P;
        Q += weight * R * Math.cos(t) * one.Q;
        d += weight * R * one.d;
      }
    }
  }
  return { P: Math.min(1, P), Q: Math.min(1, Q), d, dd: Number.NaN };
}
const density = (z: number): number => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);

/** Newton with the second slope (Halley) on the logarithm of the smaller share, from a power of r^2 taken as normal, held in a bracket. */
function radiusOf(inside: number, beyond: number, spread: Spread2): number {
  check(spread);
  if (!(inside >= 0 && inside <= 1 && beyond > 0 && beyond <= 1))
    throw new RangeError(`a share of ${inside} is asked to lie within a radius; it must be at least 0 and below 1`);
  if (inside === 0) return 0;
  const { vx, vy, sx, sy } = spread;
  const offset = Math.hypot(vx, vy);
  const greatest = Math.max(sx, sy);
  if (greatest === 0) return offset;
  if (offset === 0 && sx === sy) return sx * Math.sqrt(-2 * (inside > 0.5 ? Math.log(beyond) : Math.log1p(-inside)));
  const tail = beyond < 0.5;
  const target = Math.log(tail ? beyond : inside);
  if (sx === 0 || sy === 0) return byHalving(target, tail, spread, offset, greatest);
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  let R = firstGuess(tail ? -phiInverse(beyond) : phiInverse(inside), spread);
  for (let turn = 0; turn < 30; turn++) {
    const { P, Q, d, dd } = shares(R, spread, turn === 0 ? 6 : beyond < small ? 10 : 8);
    const share = tail ? Q : P;
    const f = Math.log(share) - target;
    const tooFar = tail ? f < 0 : f > 0;
    if (tooFar) high = Math.min(high, R);
    else low = Math.max(low, R);
    const slope = (tail ? -d : d) / share;
    const bend = (tail ? -dd : dd) / share - slope * slope;
    let step = f / slope;
    const halley = 1 - (step * bend) / (2 * slope);
    if (halley > 0.3 && halley < 3) step /= halley;
    // The method is of third order: a step that moves the share by 3e-4 of itself leaves an error of about 1e-11; without
    // the second slope, of second order, 1e-6 of itself does.
    const near = Number.isFinite(bend) ? 3e-4 : 1e-6;
    if (turn > 0 && (Math.abs(f) < 1e-13 || (Math.abs(f) < near && !(halley <= 0.3 || halley >= 3)))) return R - step;
    let next = R - step;
    // A first guess comes from few steps: its bracket is not to be trusted to the last digit.
    const room = turn === 0 ? 1e-6 * R : 0;
    if (!(next > low - room && next < high + room)) next = high < Number.POSITIVE_INFINITY ? (low + high) / 2 : 2 * R;
    const moved = Math.abs(next - R);
    R = next;
    if (moved < 1e-14 * R) return R;
    if (turn === 0) {
      low = 0;
      high = Number.POSITIVE_INFINITY;
    }
  }
  return R;
}
function byHalving(target: number, tail: boolean, spread: Spread2, offset: number, greatest: number): number {
  const far = offset + 40 * greatest;
  const f = (R: number): number => {
    const { P, Q } = shares(R, spread, 10);
    return Math.max(-1e4, Math.log(tail ? Q : P)) - target;
  };
  return rootBetween(f, 1e-12 * far, far, 1e-14 * far) ?? offset;
}
/** r^2 raised to a power is nearly normal: the power that takes its skew away (Jensen and Solomon 1972; memory). */
function firstGuess(z: number, { vx, vy, sx, sy }: Spread2): number {
  const x = sx * sx;
  const y = sy * sy;
  const vx2 = vx * vx;
  const vy2 = vy * vy;
  const one = x + y + vx2 + vy2;
  const two = x * x + y * y + 2 * (x * vx2 + y * vy2);
  const three = x * x * x + y * y * y + 3 * (x * x * vx2 + y * y * vy2);
  const h = 1 - (2 * one * three) / (3 * two * two);
  const bracket = 1 + (two * h * (h - 1)) / (one * one) + (z * h * Math.sqrt(2 * two)) / one;
  const guess = h > 0.05 ? Math.sqrt(one * power(Math.max(bracket, 1e-3), 1 / h)) : Number.NaN;
  return Number.isFinite(guess) && guess > 0 ? guess : Math.sqrt(one) * Math.exp(0.5 * z);
}

function check({ vx, vy, sx, sy }: Spread2): void {
  if (!Number.isFinite(vx) || !Number.isFinite(vy)) throw new RangeError(`the offset (${vx}, ${vy}) must be finite`);
  if (!(sx >= 0 && sy >= 0 && sx + sy < Number.POSITIVE_INFINITY))
    throw new RangeError(`standard deviations ${sx} and ${sy} must be finite and not below 0`);
}
