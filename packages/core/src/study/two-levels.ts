import { phi, phiInverse } from "../quantity/law.ts";
import { dot, length, nearestFailingInSteps } from "./first-order.ts";
import { Counted, columnsFor, type LimitStates } from "./limit-states.ts";
import { scaled, slopeFrom } from "./scaled.ts";
import { finished, type Steps } from "./steps.ts";
import { Stream } from "./stream.ts";

/** Chances at places of the outer coordinates, with the weight each place has in the law of scatter. */
export interface Places {
  /** Chance of failing at each place, over the inner coordinates alone. */
  readonly p: Float64Array;
  /** Weight of each place; the mean of f over the law is sum of w f over the number of places. */
  readonly w: Float64Array;
  readonly calls: number;
}
export interface PlacesOptions {
  readonly seed: number;
  /** How many places, and how many draws at each. */
  readonly places?: number;
  readonly draws?: number;
}

const plain = 0.5;
const together = 64;
const rounds = 8;
const half = 0.02;

/**
 * A chance in two levels: theta outside (a reel, a unit), w inside (an index).
 *
 *     p(theta) = P(any g_k(theta, w) < 0),   theta from 0.5 N(0, I) + 0.5 sum over k of pi_k N(t_k, I),   weight phi/h
 *
 * t_k outer part of limit state k's nearest failing point over all coordinates. At each place the nearest failing point over w alone, for
 * all limit states at once (steps of Hasofer, Lind, Rackwitz and Fiessler, halved where they overshoot), then importance sampling about
 * those; where none is found over w, the inner part of the overall point stands. With no inner coordinate p(theta) is 0 or 1.
 *
 * Half of the places are plain, so that the body of the law is known as well as its tail; all stand evenly over every coordinate (Latin
 * hypercube), so the spread claimed for the mean is somewhat too wide. Holds where p(theta) is decided by few
 * directions of w. Closed form for planes: validation/, misfeed.twolevel.
 */
export function* placesInSteps(given: LimitStates, outer: readonly number[], options: PlacesOptions): Steps<Places> {
  const { seed, places = 600, draws = 150 } = options;
  const counted = new Counted(given);
  const limits = scaled(counted);
  const d = limits.dimensions;
  const states = limits.names.length;
  const isOuter = new Uint8Array(d);
  for (const i of outer) isOuter[i] = 1;
  const inner = [...isOuter.keys()].filter((i) => !isOuter[i]);
  const from: {
    readonly beta: number;
    readonly outside: Float64Array;
    readonly inside: Float64Array;
    readonly good: boolean;
  }[] = [];
  for (let k = 0; k < states; k++) {
    const { beta, point, converged } = yield* nearestFailingInSteps(limits, k);
    from.push({
      beta,
      outside: Float64Array.from(outer, (i) => point[i]!),
      inside: Float64Array.from(inner, (i) => point[i]!),
      good: converged && beta > 0,
    });
  }
  const shifts = from.filter(({ good }) => good);
  const instead = from.map(({ good, inside }) => (good ? inside : undefined));
  const total = shifts.reduce((s, { beta }) => s + phi(-beta), 0);
  const pi = shifts.map(({ beta }) => (1 - plain) * ((0.8 * phi(-beta)) / total + 0.2 / shifts.length));
  const stays = shifts.length > 0 ? plain : 1;

  const p = new Float64Array(places);
  const w = new Float64Array(places);
  const stream = new Stream(seed, `places ${outer.join(" ")}`);
  const draw = new Stream(seed, `draws at places ${outer.join(" ")}`);
  // Half the places plain, the others shared out among the shifts; each part spread evenly over every coordinate (Latin hypercube).
  const centreOf: (Float64Array | undefined)[] = [];
  let shared = 0;
  const parts = [stays, ...pi].map((share, j, all) => {
    const from = Math.round(shared * places);
    shared += share;
    const to = j === all.length - 1 ? places : Math.round(shared * places);
    for (let a = from; a < to; a++) centreOf.push(j === 0 ? undefined : shifts[j - 1]!.outside);
    return [from, to] as const;
  });
  const scores = Array.from({ length: outer.length }, () => {
    const column = new Float64Array(places);
    for (const [from, to] of [parts[0]!, [parts[0]![1], places] as const]) evenly(column.subarray(from, to), stream);
    return column;
  });
  const theta = Array.from({ length: together }, () => new Float64Array(outer.length));
  for (let begin = 0; begin < places; begin += together) {
    const m = Math.min(together, places - begin);
    for (let a = 0; a < m; a++) {
      const t = theta[a]!;
      const centre = centreOf[begin + a];
      for (let i = 0; i < t.length; i++) t[i] = (centre?.[i] ?? 0) + scores[i]![begin + a]!;
      let h = stays;
      shifts.forEach(({ outside }, j) => {
        h += pi[j]! * Math.exp(dot(outside, t) - 0.5 * dot(outside, outside));
      });
      w[begin + a] = 1 / h;
    }
    const chances = yield* chancesAtInSteps(limits, outer, theta, draws, draw, instead, m);
    p.set(chances, begin);
    yield;
  }
  return { p, w, calls: counted.points };
}
export const placesOf = (limits: LimitStates, outer: readonly number[], options: PlacesOptions): Places =>
  finished(placesInSteps(limits, outer, options));

/** Standard normal scores of which each stands in a slice of its own of equal chance, in a random order. */
function evenly(out: Float64Array, stream: Stream): void {
  const n = out.length;
  for (let i = 0; i < n; i++) out[i] = phiInverse((i + stream.uniform()) / n);
  for (let i = n - 1; i > 0; i--) {
    const j = Math.floor(stream.uniform() * (i + 1));
    const kept = out[i]!;
    out[i] = out[j]!;
    out[j] = kept;
  }
}

/** Where to draw at a place at which no nearest failing point is found over the inner coordinates: for each limit state, or undefined. */
type Instead = readonly (Float64Array | undefined)[];
/** Points computed in one call. */
const inOneCall = 2400;
const wide = 1.5;
const broadest = 0.1;

/**
 * Chances over the inner coordinates at m places of the outer ones: nearest failing points, then importance sampling about them. theta[a] holds
 * place a's outer coordinates.
 */
export function* chancesAtInSteps(
  limits: LimitStates,
  outer: readonly number[],
  theta: readonly Float64Array[],
  draws: number,
  stream: Stream,
  instead: Instead = [],
  m = theta.length,
): Steps<Float64Array> {
  const d = limits.dimensions;
  const states = limits.names.length;
  const isOuter = new Set(outer);
  const inner = Array.from({ length: d }, (_, i) => i).filter((i) => !isOuter.has(i));
  const q = inner.length;
  const out = new Float64Array(m);
  if (q === 0) {
    const z = columnsFor(d, m);
    outer.forEach((i, o) => {
      for (let a = 0; a < m; a++) z[i]![a] = theta[a]![o]!;
    });
    const values = limits.at(z, m);
    for (let a = 0; a < m; a++) out[a] = values.some((g) => !(g[a]! >= 0)) ? 1 : 0;
    return out;
  }
  const points: (Float64Array | undefined)[][] = [];
  for (let k = 0; k < states; k++) points.push(yield* insidePoints(limits, k, outer, inner, theta, m));

  const narrow = 0.5 * (1 - 1 / (wide * wide));
  const logWide = -q * Math.log(wide);
  const point = new Float64Array(q);
  const together = Math.max(1, Math.floor(inOneCall / draws));
  const z = columnsFor(d, together * draws);
  for (let begin = 0; begin < m; begin += together) {
    const count = Math.min(together, m - begin);
    const about: {
      readonly centres: readonly Float64Array[];
      readonly pi: readonly number[];
      readonly broad: number;
    }[] = [];
    for (let a = 0; a < together; a++) {
      const place = begin + Math.min(a, count - 1);
      const centres: Float64Array[] = [];
      for (let k = 0; k < states; k++) {
        const c = points[k]![place] ?? instead[k];
        if (c && length(c) < 9) centres.push(c);
      }
      const tails = centres.map((c) => phi(-length(c)));
      const total = tails.reduce((s, t) => s + t, 0);
      const rest = centres.length > 0 ? 1 - broadest : 0;
      const broad = 1 - rest;
      const pi = tails.map((t) => rest * (total > 0 ? (0.9 * t) / total + 0.1 / centres.length : 1 / centres.length));
      about.push({ centres, pi, broad });
      const from = a * draws;
      outer.forEach((i, o) => {
        z[i]!.fill(theta[place]![o]!, from, from + draws);
      });
      // The last call's spare places are computed too, and count for nothing.
      if (a >= count) continue;
      for (let b = from; b < from + draws; b++) {
        let u = stream.uniform();
        if (u < broad) for (const i of inner) z[i]![b] = wide * stream.normal();
        else {
          u -= broad;
          let j = 0;
          while (j < pi.length - 1 && u > pi[j]!) u -= pi[j++]!;
          const c = centres[j]!;
          for (let i = 0; i < q; i++) z[inner[i]!]![b] = c[i]! + stream.normal();
        }
      }
    }
    const values = limits.at(z, together * draws);
    for (let a = 0; a < count; a++) {
      const { centres, pi, broad } = about[a]!;
      const halves = centres.map((c) => 0.5 * dot(c, c));
      let sum = 0;
      for (let b = a * draws; b < (a + 1) * draws; b++) {
        let fails = false;
        for (let k = 0; k < states && !fails; k++) fails = !(values[k]![b]! >= 0);
        if (!fails) continue;
        for (let i = 0; i < q; i++) point[i] = z[inner[i]!]![b]!;
        let h = broad * Math.exp(logWide + narrow * dot(point, point));
        for (let j = 0; j < centres.length; j++) h += pi[j]! * Math.exp(dot(centres[j]!, point) - halves[j]!);
        sum += 1 / h;
      }
      out[begin + a] = Math.min(1, sum / draws);
    }
    yield;
  }
  return out;
}

/** For one limit state the nearest failing point over the inner coordinates at every place; the middle where that fails; undefined where none was found. */
function* insidePoints(
  limits: LimitStates,
  k: number,
  outer: readonly number[],
  inner: readonly number[],
  theta: readonly Float64Array[],
  m: number,
): Steps<(Float64Array | undefined)[]> {
  const d = limits.dimensions;
  const q = inner.length;
  const block = 2 * q + 1;
  const n = m * block;
  const z = columnsFor(d, n);
  outer.forEach((i, o) => {
    const column = z[i]!;
    for (let a = 0; a < m; a++) column.fill(theta[a]![o]!, a * block, (a + 1) * block);
  });
  const at = Array.from({ length: m }, () => new Float64Array(q));
  const step = new Float64Array(m).fill(1);
  const before = new Float64Array(m).fill(Number.POSITIVE_INFINITY);
  const state = new Uint8Array(m); // 0 on its way, 1 found, 2 given up, 3 the middle fails
  const slope = new Float64Array(q);
  for (let round = 0; round < rounds; round++) {
    for (let i = 0; i < q; i++) {
      const column = z[inner[i]!]!;
      for (let a = 0; a < m; a++) {
        const v = at[a]![i]!;
        column.fill(v, a * block, (a + 1) * block);
        column[a * block + 1 + 2 * i] = v + half;
        column[a * block + 2 + 2 * i] = v - half;
      }
    }
    const g = limits.at(z, n)[k]!;
    let busy = 0;
    for (let a = 0; a < m; a++) {
      if (state[a]) continue;
      const o = a * block;
      const value = g[o]!;
      if (round === 0 && !(value >= 0)) {
        state[a] = 3;
        continue;
      }
      let square = 0;
      for (let i = 0; i < q; i++) {
        slope[i] = slopeFrom(value, g[o + 1 + 2 * i]!, g[o + 2 + 2 * i]!, half);
        square += slope[i]! ** 2;
      }
      if (!(square > 0) || !Number.isFinite(value)) {
        state[a] = 2;
        continue;
      }
      const here = at[a]!;
      const toPlane = (dot(slope, here) - value) / square;
      const far = Math.abs(toPlane) * Math.sqrt(square);
      const scale = far > 9 ? 9 / far : 1;
      let move = 0;
      for (let i = 0; i < q; i++) move += (scale * toPlane * slope[i]! - here[i]!) ** 2;
      move = Math.sqrt(move);
      if (move < 0.02 && Math.abs(value) < 0.02 * Math.sqrt(square)) {
        state[a] = 1;
        continue;
      }
      // Steps that do not come nearer to the limit are halved.
      const off = Math.abs(value) / Math.sqrt(square) + 0.3 * move;
      if (off > before[a]!) step[a]! *= 0.5;
      before[a] = off;
      for (let i = 0; i < q; i++) here[i]! += step[a]! * (scale * toPlane * slope[i]! - here[i]!);
      busy++;
    }
    yield;
    if (busy === 0) break;
  }
  return at.map((point, a) => {
    if (state[a] === 3) return new Float64Array(q);
    return state[a] === 1 || (state[a] === 0 && length(point) < 8.9) ? point : undefined;
  });
}

/** What two levels say of pairs and of units. */
export interface TwoLevels {
  readonly mean: number;
  readonly meanCov: number;
  /** Chance of failing for the median pair, and for those at 90 and 99 %. */
  readonly median: number;
  readonly p90: number;
  readonly p99: number;
  /** Share of pairs over the limit; share of units, reels averaged. */
  readonly pairsOver: number | undefined;
  readonly unitsOver: number | undefined;
  /** Chance that a random pair runs that many clean. */
  clean(n: number): number;
  readonly calls: number;
}

/** The quantile of weighted values. */
export function weightedQuantile(values: Float64Array, weights: Float64Array, share: number): number {
  const order = Uint32Array.from(values.keys()).sort((a, b) => values[a]! - values[b]!);
  let total = 0;
  for (const w of weights) total += w;
  let below = 0;
  for (const i of order) {
    below += weights[i]!;
    if (below >= share * total) return values[i]!;
  }
  return values[order.at(-1) ?? 0] ?? Number.NaN;
}
/** Weighted mean of a function of the chances; weights normed to themselves. */
export function meanOver({ p, w }: Places, f: (p: number) => number): number {
  let sum = 0;
  let total = 0;
  for (let a = 0; a < p.length; a++) {
    sum += w[a]! * f(p[a]!);
    total += w[a]!;
  }
  return total > 0 ? sum / total : Number.NaN;
}

export interface TwoLevelsOptions extends PlacesOptions {
  /** Coordinates of the level of reels, and of units; all others are inner. */
  readonly reel: readonly number[];
  readonly unit: readonly number[];
  /** Allowed chance, for the shares over it. */
  readonly limit?: number;
}

/** Reel and unit outside, index inside; then unit outside, reel and index inside, for what a unit does over its reels. */
export function* twoLevelsInSteps(limits: LimitStates, options: TwoLevelsOptions): Steps<TwoLevels> {
  const { reel, unit, limit } = options;
  const pairs = yield* placesInSteps(limits, [...reel, ...unit], options);
  let units: Places | undefined;
  if (limit !== undefined) units = reel.length === 0 ? pairs : yield* placesInSteps(limits, unit, options);
  const n = pairs.p.length;
  let sum = 0;
  let squares = 0;
  for (let a = 0; a < n; a++) {
    const v = pairs.w[a]! * pairs.p[a]!;
    sum += v;
    squares += v * v;
  }
  const mean = sum / n;
  const over = (places: Places): number => meanOver(places, (p) => (p > limit! ? 1 : 0));
  return {
    mean,
    meanCov: mean > 0 ? Math.sqrt(Math.max(0, squares / n - mean * mean) / n) / mean : 0,
    median: weightedQuantile(pairs.p, pairs.w, 0.5),
    p90: weightedQuantile(pairs.p, pairs.w, 0.9),
    p99: weightedQuantile(pairs.p, pairs.w, 0.99),
    pairsOver: limit === undefined ? undefined : over(pairs),
    unitsOver: units && over(units),
    clean: (count) => meanOver(pairs, (p) => Math.exp(count * Math.log1p(-Math.min(p, 1 - 1e-15)))),
    calls: pairs.calls + (units && units !== pairs ? units.calls : 0),
  };
}
export const twoLevels = (limits: LimitStates, options: TwoLevelsOptions): TwoLevels =>
  finished(twoLevelsInSteps(limits, options));
