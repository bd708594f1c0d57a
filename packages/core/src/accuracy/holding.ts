import { phi } from "../quantity/law.ts";
import { radiusHolding } from "./radius-laws.ts";

/**
 * Radius about the target that holds a share of places, where one cause along each axis is even between limits and the rest is normal.
 *
 * Exact, by quadrature (`radiusOfSpread`, 0.4 ms):
 *
 *     x = v_x + a_x u + s_x g,   y = v_y + a_y w + s_y h,   u, w even in [-1, 1],  g, h standard normal, independent
 *     x = v_x ± b_x + ...        where a cause takes one of two places, as often the one as the other
 *     P(r < R) = integral over x of f(x) [F(sqrt(R^2 - x^2)) - F(-sqrt(R^2 - x^2))]
 *     f(x) = [Phi((x - v_x + a_x)/s_x) - Phi((x - v_x - a_x)/s_x)]/(2 a_x),   F the same of y, integrated
 *
 * v offset, s, a, b any length, not below 0. Limits of a drawing have no tails: with the greatest of them taken as it is, and the others by their
 * variance, the radius of 99.7 % lies within a few per cent of draws, where a normal law for all would say up to 70 % more. Where no even and no
 * double cause is left it is the normal law's (radius-laws.ts), and so where they are below a twentieth of the rest. 48 points by Gauss and Legendre over
 * the part of x in [-R, R] that has weight, in x = R sin t: to 1e-6 of the share.
 *
 * Quick, for what is asked in every draw (`radiusByTails`, 0.1 us): the normal law's radius from a table over offset and sds (to 0.4 %), each axis with the standard deviation of the normal law
 * whose two tails hold the same share, `c(kappa) sqrt(s^2 + a^2/3)`, kappa the even cause's share of the variance; a double cause adds its reach to the
 * offset. Within 4 % of the exact one while kappa is below 0.6 on one axis, at worst 7 % below it (0.9 on both); with a double cause up to a quarter
 * of s above it.
 */
export interface Spread {
  /** Offset, standard deviation of the normal rest, reach of the even cause, reach of the double one. */
  readonly v: number;
  readonly s: number;
  readonly a: number;
  readonly b: number;
}
const root2pi = Math.sqrt(2 * Math.PI);
const density = (z: number): number => Math.exp(-0.5 * z * z) / root2pi;
/** Integral of the normal distribution function. */
const ramp = (z: number): number => z * phi(z) + density(z);

/** Density and distribution of one even cause with a normal rest about 0. */
function f(x: number, s: number, a: number): number {
  if (a === 0) return density(x / s) / s;
  return x > 0 ? (phi((a - x) / s) - phi((-a - x) / s)) / (2 * a) : (phi((x + a) / s) - phi((x - a) / s)) / (2 * a);
}
function F(x: number, s: number, a: number): number {
  if (s === 0) return a === 0 ? (x >= 0 ? 1 : 0) : Math.min(1, Math.max(0, (x + a) / (2 * a)));
  if (a === 0) return phi(x / s);
  return (s * (ramp((x + a) / s) - ramp((x - a) / s))) / (2 * a);
}
/** Nodes and weights of Gauss and Legendre on [-1, 1], by Newton. */
function legendre(n: number): { readonly x: Float64Array; readonly w: Float64Array } {
  const x = new Float64Array(n);
  const w = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let z = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let turn = 0; turn < 10; turn++) {
      let [p, before] = [1, 0];
      for (let k = 1; k <= n; k++) [p, before] = [((2 * k - 1) * z * p - (k - 1) * before) / k, p];
      slope = (n * (z * p - before)) / (z * z - 1);
      z -= p / slope;
    }
    x[i] = z;
    w[i] = 2 / ((1 - z * z) * slope * slope);
  }
  return { x, w };
}
const rule = legendre(48);

/** Share of places within R. A spread without any width lies at its offset. */
export function withinSpread(R: number, x: Spread, y: Spread): number {
  if (!(R > 0)) return 0;
  // A hair of width, so that the integral needs no case of its own.
  const s = Math.max(x.s, 1e-6 * R);
  let sum = 0;
  const ends = x.b > 0 ? 2 : 1;
  for (let e = 0; e < ends; e++) {
    const v = x.b > 0 ? x.v + (e === 0 ? -x.b : x.b) : x.v;
    const low = Math.max(-R, v - x.a - 8 * s);
    const high = Math.min(R, v + x.a + 8 * s);
    if (!(low < high)) continue;
    const [t0, t1] = [Math.asin(low / R), Math.asin(high / R)];
    // Edges of an even cause that are sharp beside the rest get pieces of their own.
    const cuts = x.a > 6 * s ? [v - x.a - 8 * s, v - x.a + 8 * s, v + x.a - 8 * s, v + x.a + 8 * s] : [];
    const at = [t0, ...cuts.filter((c) => c > low && c < high).map((c) => Math.asin(c / R)), t1];
    let part = 0;
    for (let i = 0; i + 1 < at.length; i++) {
      const [half, middle] = [(at[i + 1]! - at[i]!) / 2, (at[i + 1]! + at[i]!) / 2];
      for (let k = 0; k < rule.x.length; k++) {
        const t = middle + half * rule.x[k]!;
        const c = R * Math.cos(t);
        part += half * rule.w[k]! * c * f(R * Math.sin(t) - v, s, x.a) * across(c, y);
      }
    }
    sum += part / ends;
  }
  return Math.min(1, sum);
}
/** Share of y within ± c. */
function across(c: number, { v, s, a, b }: Spread): number {
  if (b === 0) return F(c - v, s, a) - F(-c - v, s, a);
  return (F(c - v - b, s, a) - F(-c - v - b, s, a) + F(c - v + b, s, a) - F(-c - v + b, s, a)) / 2;
}

/** Beyond this share of the rest an even cause counts as one of it. */
const slight = 0.05;
const isPlain = ({ s, a, b }: Spread): boolean => b === 0 && a <= slight * s;
const asNormal = ({ s, a }: Spread): number => Math.hypot(s, a / Math.sqrt(3));

/** The radius that holds a share of places, 0 < share < 1. Throws RangeError for another share. */
export function radiusOfSpread(share: number, x: Spread, y: Spread): number {
  if (!(share > 0 && share < 1)) throw new RangeError(`a radius holds a share between 0 and 1, not ${share}`);
  if (isPlain(x) && isPlain(y)) return radiusHolding(share, { vx: x.v, vy: y.v, sx: asNormal(x), sy: asNormal(y) });
  const v = Math.hypot(x.v, y.v);
  const all = ({ s, a, b }: Spread): number => Math.sqrt(s * s + (a * a) / 3 + b * b);
  const spread = Math.hypot(all(x), all(y));
  if (!(v + spread > 0)) return Number.isFinite(v + spread) ? 0 : Number.NaN;
  if (!(spread > 1e-9 * v)) return v;
  // On the scale on which a normal tail is straight, the share is nearly linear in R: secants within a bracket.
  const scale = (p: number): number => Math.log(Math.max(1e-300, 1 - p));
  const wanted = Math.log(1 - share);
  let low = 0;
  let high = v + 3 * spread;
  let atLow = 0;
  let atHigh = scale(withinSpread(high, x, y));
  while (atHigh > wanted) {
    [low, atLow] = [high, atHigh];
    high *= 1.5;
    atHigh = scale(withinSpread(high, x, y));
  }
  for (let i = 0; i < 60 && high - low > 1e-7 * high; i++) {
    const cut = low + ((wanted - atLow) / (atHigh - atLow)) * (high - low);
    const inner = Number.isFinite(cut) && i % 3 !== 2 ? cut : (low + high) / 2;
    const R = Math.min(high - 0.02 * (high - low), Math.max(low + 0.02 * (high - low), inner));
    const here = scale(withinSpread(R, x, y));
    if (Math.abs(here - wanted) < 1e-7) return R;
    if (here > wanted) [low, atLow] = [R, here];
    else [high, atHigh] = [R, here];
  }
  return (low + high) / 2;
}

/** c(kappa): the sd by tails over the sd, at equal steps of kappa from 0 to 1, for one share. */
const tailSteps = 64;
function tailsOf(share: number): Float64Array {
  const quantile = (kappa: number): number => {
    const [s, a] = [Math.sqrt(1 - kappa), Math.sqrt(3 * kappa)];
    let [low, high] = [0, 10];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (F(middle, s, a) - F(-middle, s, a) < share) low = middle;
      else high = middle;
    }
    return low;
  };
  const normal = quantile(0);
  return Float64Array.from({ length: tailSteps + 1 }, (_, i) => quantile(i / tailSteps) / normal);
}
function byTails({ s, a }: Spread, table: Float64Array): number {
  const even = (a * a) / 3;
  const all = s * s + even;
  if (all === 0) return 0;
  const at = (even / all) * tailSteps;
  const i = Math.min(tailSteps - 1, Math.floor(at));
  return Number.isNaN(at) ? Number.NaN : Math.sqrt(all) * (table[i]! + (at - i) * (table[i + 1]! - table[i]!));
}
/** Steps of an offset to one larger sd, of which there are 6; points along an offset; points of the smaller sd. */
const fine = 4;
const side = 6 * fine + 1;
const layer = 9;
/**
 * The normal law's radius over the larger sd, for one share: a grid over both offsets and the smaller sd, each over the larger sd. Between its
 * points it is taken as straight: to 0.4 % of the radius.
 */
class NormalTable {
  private readonly share: number;
  /** Not a number until it is first asked for. */
  private readonly values = new Float64Array(side * side * layer).fill(Number.NaN);
  constructor(share: number) {
    this.share = share;
  }
  private at(i: number, j: number, k: number): number {
    const place = (i * side + j) * layer + k;
    const known = this.values[place]!;
    if (!Number.isNaN(known)) return known;
    const made = radiusHolding(this.share, { vx: i / fine, vy: j / fine, sx: 1, sy: Math.max(0.02, k / (layer - 1)) });
    this.values[place] = made;
    return made;
  }
  private edge(i: number, j: number, k: number, r: number): number {
    return (1 - r) * this.at(i, j, k) + r * this.at(i, j, k + 1);
  }
  /** Offsets not below 0. */
  radius(vx: number, vy: number, sx: number, sy: number): number {
    if (sy > sx) return this.radius(vy, vx, sy, sx);
    if (sx === 0) return Math.hypot(vx, vy);
    const x = (vx / sx) * fine;
    const y = (vy / sx) * fine;
    const z = (sy / sx) * (layer - 1);
    if (!(x < side - 1 && y < side - 1))
      return Number.isFinite(vx + vy + sx + sy) ? radiusHolding(this.share, { vx, vy, sx, sy }) : Number.NaN;
    const i = Math.floor(x);
    const j = Math.floor(y);
    const k = Math.min(layer - 2, Math.floor(z));
    const p = x - i;
    const q = y - j;
    const r = z - k;
    const low = (1 - q) * this.edge(i, j, k, r) + q * this.edge(i, j + 1, k, r);
    const high = (1 - q) * this.edge(i + 1, j, k, r) + q * this.edge(i + 1, j + 1, k, r);
    return sx * ((1 - p) * low + p * high);
  }
}
interface Tables {
  readonly share: number;
  readonly tails: Float64Array;
  readonly normal: NormalTable;
}
/** Those of the last few shares asked for, the last one first: a share is one number for all draws. */
let tables: Tables[] = [];
function tablesOf(share: number): Tables {
  const last = tables[0];
  if (last?.share === share) return last;
  if (!(share > 0 && share < 1)) throw new RangeError(`a radius holds a share between 0 and 1, not ${share}`);
  const found = tables.find((t) => t.share === share) ?? {
    share,
    tails: tailsOf(share),
    normal: new NormalTable(share),
  };
  tables = [found, ...tables.filter((t) => t !== found)].slice(0, 4);
  return found;
}
/** The same radius, quick. */
export function radiusByTails(share: number, x: Spread, y: Spread): number {
  const { tails: table, normal } = tablesOf(share);
  return normal.radius(Math.abs(x.v) + x.b, Math.abs(y.v) + y.b, byTails(x, table), byTails(y, table));
}
