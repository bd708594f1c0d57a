import { power } from "../quantity/power.ts";
import { columnsFor, type LimitStates } from "./limit-states.ts";
import { slopeFrom } from "./scaled.ts";
import { finished, type Steps } from "./steps.ts";

/** The failing point nearest to the middle of scatter, for one limit state. */
export interface FirstOrder {
  /** Distance of the point from the middle, in standard deviations; negative where the middle itself fails. */
  readonly beta: number;
  readonly point: Float64Array;
  /** Share of each coordinate, alpha_i^2; they add up to 1, or are all 0 where nothing moves the limit state. */
  readonly importances: Float64Array;
  /** The point lies on the limit, and its tangent plane faces the middle. */
  readonly converged: boolean;
}
export interface FirstOrderOptions {
  /** Where to begin; the middle where left out. */
  readonly from?: Float64Array;
  /** Half the distance over which slopes are taken. */
  readonly half?: number;
  readonly rounds?: number;
  /** Distance beyond which a point stands for nothing that happens. */
  readonly farthest?: number;
}
const beyond = 9;
const halvings = 6;
const near = 1e-4;

/**
 * First-order reliability: the nearest point z* with g(z*) = 0 and what it says of the chance of failing, P(g < 0) ~ Phi(-beta), beta = |z*|.
 *
 *     z' = (d.z - g) d/|d|^2                       nearest point of the tangent plane;  d slope of g at z
 *     z  <- z + s (z' - z),  s = 1, 1/2, 1/4, ...  until 1/2 |z|^2 + c |g| falls,
 *     c > |z|/|d|  and  c > |z'|^2/(2 |g|)
 *
 * The iteration of Hasofer, Lind, Rackwitz and Fiessler with a line search on a merit function (Zhang and Der Kiureghian 1995; memory).
 * Exact where g is linear in z. Where it bends away from the middle the chance is overstated, where it bends towards it understated; with
 * limits of a drawing 2 to 5 times overstated (measured). One slope costs 2 d + 1 points in one call. A kink at the point, or a slope that
 * points the wrong way, leaves it not converged, and it says so.
 */
export function* nearestFailingInSteps(
  limits: LimitStates,
  k: number,
  options: FirstOrderOptions = {},
): Steps<FirstOrder> {
  const d = limits.dimensions;
  const { from, half = 0.02, rounds = 40, farthest = beyond } = options;
  const n = 2 * d + 1;
  const cross = columnsFor(d, n);
  const line = columnsFor(d, halvings);
  const slope = new Float64Array(d);
  let z = from ? from.slice() : new Float64Array(d);
  let g = 0;
  /** g and its slope at a place. */
  const look = (at: Float64Array): number => {
    for (let i = 0; i < d; i++) {
      const column = cross[i]!;
      column.fill(at[i]!);
      column[1 + 2 * i]! += half;
      column[2 + 2 * i]! -= half;
    }
    const values = limits.at(cross, n)[k]!;
    for (let i = 0; i < d; i++) slope[i] = slopeFrom(values[0]!, values[1 + 2 * i]!, values[2 + 2 * i]!, half);
    return values[0]!;
  };
  const middle = from ? limits.at(columnsFor(d, 1), 1)[k]![0]! : look(z);
  g = from ? look(z) : middle;
  const sign = middle >= 0 ? 1 : -1;
  let c = 0;
  let converged = false;
  let direction = new Float64Array(d);
  for (let round = 0; round < rounds; round++) {
    const square = dot(slope, slope);
    if (!(square > 0) || !Number.isFinite(square) || !Number.isFinite(g)) break;
    const toPlane = (dot(slope, z) - g) / square;
    const target = slope.map((s) => toPlane * s);
    const far = length(target);
    // A slope nearly flat points far beyond anything that happens: the farthest point along it tells whether it stays so.
    const size = length(z);
    if (far > farthest) {
      if (size > 0.98 * farthest && g > 0) break;
      for (let i = 0; i < d; i++) target[i]! *= farthest / far;
    }
    direction = target.map((t, i) => t - z[i]!);
    if (length(direction) < near * Math.max(1, size) && Math.abs(g) < near * Math.sqrt(square)) {
      converged = true;
      break;
    }
    const off = Math.abs(g);
    c = Math.max(c, (2 * size) / Math.sqrt(square), off > 1e-9 * Math.sqrt(square) ? dot(target, target) / off : 0);
    const merit = (length2: number, value: number): number =>
      Number.isNaN(value) ? Number.POSITIVE_INFINITY : 0.5 * length2 + c * Math.abs(value);
    const before = merit(size * size, g);
    yield;
    const whole = z.map((v, i) => v + direction[i]!);
    const kept = slope.slice();
    const gWhole = look(whole);
    if (merit(dot(whole, whole), gWhole) < before) {
      z = whole;
      g = gWhole;
      continue;
    }
    for (let i = 0; i < d; i++)
      for (let t = 0; t < halvings; t++) line[i]![t] = z[i]! + direction[i]! * power(0.5, t + 1);
    const values = limits.at(line, halvings)[k]!;
    let best = halvings - 1;
    for (let t = 0; t < halvings; t++) {
      let square2 = 0;
      for (let i = 0; i < d; i++) square2 += line[i]![t]! ** 2;
      if (merit(square2, values[t]!) < before) {
        best = t;
        break;
      }
    }
    z = z.map((v, i) => v + direction[i]! * power(0.5, best + 1));
    slope.set(kept);
    g = look(z);
  }
  const square = dot(slope, slope);
  const importances = square > 0 && Number.isFinite(square) ? slope.map((s) => (s * s) / square) : new Float64Array(d);
  const beta = sign * length(z);
  return { beta, point: z, importances, converged: converged && length(z) < 0.98 * farthest };
}
export const nearestFailing = (limits: LimitStates, k: number, options?: FirstOrderOptions): FirstOrder =>
  finished(nearestFailingInSteps(limits, k, options));

/** Flips tried at most: of the 6 coordinates that carry most, all 64 less one. */
const mostFlipped = 6;

/**
 * Further failing points that mirror a found one: |x| fails on both sides, |x y| in four corners. Signs of the coordinates that carry most are
 * flipped in all ways, a little farther out; where one of them fails, the nearest failing point is looked for from there.
 */
export function* mirroredInSteps(limits: LimitStates, k: number, found: FirstOrder): Steps<FirstOrder[]> {
  const d = limits.dimensions;
  const size = dot(found.point, found.point);
  const carrying = [...found.point.keys()]
    .filter((i) => found.point[i]! ** 2 > 0.02 * size)
    .sort((i, j) => found.point[j]! ** 2 - found.point[i]! ** 2)
    .slice(0, mostFlipped);
  const n = 2 ** carrying.length - 1;
  if (n < 1) return [];
  const z = columnsFor(d, n);
  for (let m = 0; m < n; m++)
    for (let i = 0; i < d; i++) {
      const place = carrying.indexOf(i);
      z[i]![m] = 1.1 * found.point[i]! * (place >= 0 && (m + 1) & (1 << place) ? -1 : 1);
    }
  const values = limits.at(z, n)[k]!.slice(0, n);
  const out: FirstOrder[] = [];
  for (let m = 0; m < n; m++) {
    if (values[m]! >= 0) continue;
    const from = Float64Array.from(z, (column) => column[m]! / 1.1);
    if (out.some((o) => apart(o.point, from) < 0.5)) continue;
    const mirror = yield* nearestFailingInSteps(limits, k, { from, rounds: 15 });
    if (mirror.converged && [found, ...out].every((o) => apart(o.point, mirror.point) >= 0.5)) out.push(mirror);
  }
  return out;
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
export const length = (a: Float64Array): number => Math.sqrt(dot(a, a));
export function apart(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i]! - b[i]!) ** 2;
  return Math.sqrt(sum);
}
