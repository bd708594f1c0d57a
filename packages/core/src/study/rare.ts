import { apart, dot, type FirstOrder, length, mirroredInSteps, nearestFailingInSteps } from "./first-order.ts";
import { Counted, columnsFor, type LimitStates, leastOf } from "./limit-states.ts";
import { type Mixture, mixtureInSteps } from "./mixture.ts";
import { type Scaled, scaled } from "./scaled.ts";
import { finished, type Steps } from "./steps.ts";
import { Stream } from "./stream.ts";
import { type Subset, subsetInSteps } from "./subset.ts";

/** What the two methods said of each other. */
export type Said =
  | "agree"
  | "methods disagree"
  | "weights starved: subset answers"
  | "none found"
  | "nothing moves them";

/** The chance that any of several limit states fails. */
export interface RareEvent {
  readonly p: number;
  /** Claimed coefficient of variation. */
  readonly cov: number;
  /** 95 % band of the estimator, never narrower than 10 % either way; both answers lie in it where the methods disagree. */
  readonly band: readonly [low: number, high: number];
  readonly said: Said;
  /** The finding in words. */
  readonly words: string;
  /** Points at which the limit states were computed. */
  readonly calls: number;
  /** Share of p by the limit state that is deepest in failure, in the order of names. */
  readonly split: Float64Array;
  /** First order for each limit state from the middle of scatter. */
  readonly first: readonly FirstOrder[];
  /** Points about which was drawn. */
  readonly centres: readonly Float64Array[];
}
export interface RareOptions {
  readonly seed: number;
  readonly cov?: number;
  /** Chance below which nothing is looked for. */
  readonly least?: number;
  readonly most?: number;
  /** Points of a scout. */
  readonly scout?: number;
}

const mostCentres = 16;
/** How sure the two methods must be that they lie within a factor of 2 of each other, in standard deviations. */
const sure = 2;
const factor = 2;
const mostScouts = 8;
const fewestHits = 60;
/** No rate is told more closely than that: models are worse. */
const leastBand = 0.1;

/**
 * Rare events by two methods that must agree. Neither is enough alone: draws about failing points miss what no point was found for, and level
 * sets are led astray by slopes; they go wrong in different ways.
 *
 * 1. every limit state divided by its own sd (scaled.ts); the nearest failing point of each with its mirrors (first-order.ts)
 * 2. a scout, subset simulation of 1000 (subset.ts); where its failing points lie beyond no known point's plane, a point more
 * 3. importance sampling about all of them (mixture.ts), to a coefficient of variation of 5 %
 * 4. agreed where |ln(p_mixture/p_scouts)| + 2 sqrt(cov_mixture^2 + cov_scouts^2) < ln 2: shown to lie within a factor of 2 of each other.
 *    Until that is shown or refuted, up to 8 scouts are pooled; what later ones find makes further points, and the draws begin again
 * 5. else limit state by limit state, whose order no scale can spoil; else four subset runs of 3000, and the larger answer is given
 *
 * Missed by both: a region that neither slopes nor level sets lead to. No method of that many calls sees it.
 */
export function* rareEventInSteps(given: LimitStates, options: RareOptions): Steps<RareEvent> {
  const { seed, cov = 0.05, least = 1e-12, most = 20_000, scout: size = 1000 } = options;
  const counted = new Counted(given);
  const limits = scaled(counted);
  const states = limits.names.length;
  const none = new Float64Array(states);
  const middleFails = limits.middle.map((g) => (g >= 0 ? 0 : 1));
  const fixed = limits.slopes.every((s) => s.every((v) => v === 0)) && limits.dimensions === 0;
  if (fixed || states === 0) {
    const fails = middleFails.some((v) => v === 1);
    const p = fails ? 1 : 0;
    const of = middleFails.reduce((a, b) => a + b, 0);
    return {
      p,
      cov: 0,
      band: [p, p],
      said: "nothing moves them",
      words: fails ? "fails always: nothing scatters" : "cannot fail as drawn: nothing scatters",
      calls: counted.points,
      split: middleFails.map((v) => (of > 0 ? v / of : 0)),
      first: [],
      centres: [],
    };
  }
  const found = new Centres(limits);
  const first: FirstOrder[] = [];
  for (let k = 0; k < states; k++) {
    const point = yield* nearestFailingInSteps(limits, k);
    first.push(point);
    if (!point.converged || point.beta <= 0) continue;
    found.offer(point.point, k);
    for (const mirror of yield* mirroredInSteps(limits, k, point)) found.offer(mirror.point, k);
  }
  if (middleFails.some((v) => v === 1)) found.add(new Float64Array(limits.dimensions));

  const scouts: Subset[] = [];
  const scout = function* (): Steps<void> {
    const run = yield* subsetInSteps(limits, new Stream(seed, `scout ${scouts.length}`), { size, least });
    scouts.push(run);
    if (run.count > 0) yield* found.learn(run);
  };
  yield* scout();
  let rounds = 0;
  let drawnAbout = -1;
  let drawn: Mixture | undefined;
  let level = false;
  for (;;) {
    const pooled = pool(scouts);
    const doubtful = !drawn || drawn.effective < fewestHits || Math.abs(Math.log(drawn.p / pooled.p)) > 0.25;
    if (found.centres.length > 0 && found.centres.length !== drawnAbout && doubtful && rounds < 3) {
      drawnAbout = found.centres.length;
      drawn = yield* mixtureInSteps(limits, found.centres, new Stream(seed, `draws ${rounds++}`), { cov, most });
    }
    if (!drawn || drawn.p === 0 || drawn.effective < fewestHits || !pooled.found) break;
    const spread = sure * Math.hypot(drawn.cov, pooled.cov);
    const off = Math.abs(Math.log(drawn.p / pooled.p));
    if (off + spread < Math.log(factor)) {
      level = true;
      break;
    }
    // Refuted, once enough scouts stand for themselves.
    if (scouts.length >= 4 && off - spread > Math.log(factor)) break;
    if (scouts.length >= mostScouts) break;
    yield* scout();
  }
  const pooled = pool(scouts);
  const done = (
    rest: Pick<RareEvent, "p" | "cov" | "band" | "said" | "words"> & { split?: Float64Array },
  ): RareEvent => ({
    calls: counted.points,
    first,
    centres: found.centres,
    split: drawn && drawn.p > 0 ? drawn.split : none,
    ...rest,
  });
  if (level && drawn) {
    const words = `two methods agree: ${scouts.length === 1 ? "the scout" : `${scouts.length} scouts`} within a factor of 2`;
    return done({ p: drawn.p, cov: drawn.cov, band: bandOf(drawn.p, drawn.cov), said: "agree", words });
  }
  const alsoRare = !drawn || drawn.p < 2 * least;
  if ((!pooled.found || pooled.p < 2 * least) && alsoRare) {
    const below = Math.max(pooled.p * Math.exp(1.645 * pooled.cov), drawn ? drawn.p * (1 + 2 * drawn.cov || 1) : 0);
    const words = `none found, below ${below.toPrecision(1)} at 95 %`;
    return done({ p: 0, cov: 0, band: [0, below], said: "none found", words, split: none });
  }
  if (drawn && drawn.effective >= fewestHits && states > 1) {
    const shown = yield* limitByLimit(limits, drawn, seed, least);
    if (shown) {
      const words = "two methods agree limit state by limit state, not on all of them together";
      return done({ p: drawn.p, cov: drawn.cov, band: bandOf(drawn.p, drawn.cov), said: "agree", words });
    }
  }
  // Larger runs decide.
  const large: Subset[] = [];
  for (let i = 0; i < 4; i++)
    large.push(yield* subsetInSteps(limits, new Stream(seed, `large ${i}`), { size: 3000, least }));
  const answer = pool(large);
  if (drawn && drawn.effective >= fewestHits) {
    const off = Math.abs(Math.log(drawn.p / answer.p)) + sure * Math.hypot(drawn.cov, answer.cov);
    if (off < Math.log(factor))
      return done({
        p: drawn.p,
        cov: drawn.cov,
        band: bandOf(drawn.p, drawn.cov),
        said: "agree",
        words: "two methods agree: larger subset runs within a factor of 2, small ones not",
      });
  }
  const subsetSplit = splitOf(limits, large);
  if (!drawn || drawn.p === 0 || drawn.effective < fewestHits) {
    const words = "too few of the draws about failing points weigh anything: subset simulation answers alone";
    const wide = Math.max(answer.cov, 0.15);
    return done({
      p: answer.p,
      cov: wide,
      band: bandOf(answer.p, wide),
      said: "weights starved: subset answers",
      words,
      split: subsetSplit,
    });
  }
  const larger = Math.max(drawn.p, answer.p);
  const [a, b] = [bandOf(drawn.p, drawn.cov), bandOf(answer.p, Math.max(answer.cov, 0.15))];
  return done({
    p: larger,
    cov: Math.max(drawn.cov, answer.cov, 0.15),
    band: [Math.min(a[0], b[0]), Math.max(a[1], b[1])],
    said: "methods disagree",
    words: `methods disagree: ${drawn.p.toPrecision(2)} by draws about failing points, ${answer.p.toPrecision(2)} by subset simulation; the larger is given`,
    ...(answer.p > drawn.p ? { split: subsetSplit } : {}),
  });
}
export const rareEvent = (limits: LimitStates, options: RareOptions): RareEvent =>
  finished(rareEventInSteps(limits, options));

/** 95 % of the estimator, in the logarithm, never narrower than 10 % either way. */
export function bandOf(p: number, cov: number): readonly [low: number, high: number] {
  const by = 1 + Math.max(leastBand, 2 * cov);
  return [p / by, Math.min(1, p * by)];
}

/** Mean of several runs; its spread as claimed or as seen between them, whichever is more. */
function pool(runs: readonly Subset[]): { readonly p: number; readonly cov: number; readonly found: boolean } {
  const m = runs.length;
  const mean = runs.reduce((s, r) => s + r.p, 0) / m;
  const claimed = Math.sqrt(runs.reduce((s, r) => s + (r.p * r.cov) ** 2, 0)) / (m * mean);
  const seen = m > 2 ? Math.sqrt(runs.reduce((s, r) => s + (r.p - mean) ** 2, 0) / ((m - 1) * m)) / mean : 0;
  return { p: mean, cov: Math.max(claimed, seen), found: runs.some((r) => r.found) };
}

/**
 * Whether draws and scouts agree on each limit state alone. Scouts of one limit state are led by its own order, which no scale can spoil. What
 * carries less than 1 % of p may be anything.
 */
function* limitByLimit(limits: Scaled, drawn: Mixture, seed: number, least: number): Steps<boolean> {
  for (let k = 0; k < limits.names.length; k++) {
    const floor = Math.max(least, 0.01 * drawn.p);
    const runs: Subset[] = [];
    for (;;) {
      runs.push(
        yield* subsetInSteps(limits, new Stream(seed, `scout of ${k}, ${runs.length}`), { only: k, least: floor }),
      );
      const { p, cov, found } = pool(runs);
      const mine = drawn.each[k]!;
      if (!found && mine < 2 * floor) break;
      if (mine > 0 && found) {
        const off = Math.abs(Math.log(mine / p));
        const spread = sure * Math.hypot(drawn.eachCov[k]!, cov);
        if (off + spread < Math.log(factor)) break;
        // Neither carries more than a few per cent of the whole.
        if (Math.max(mine, p * (1 + sure * cov)) < 0.05 * drawn.p) break;
      }
      if (runs.length >= mostScouts / 2) return false;
    }
  }
  return true;
}

/** Share of the failing points of subset runs by the limit state that is deepest in failure. */
function splitOf(limits: LimitStates, runs: readonly Subset[]): Float64Array {
  const split = new Float64Array(limits.names.length);
  let total = 0;
  for (const { points, count } of runs) {
    if (count === 0) continue;
    const values = limits.at(points, count);
    for (let i = 0; i < count; i++) {
      let deepest = -1;
      for (let k = 0; k < split.length; k++)
        if (!(values[k]![i]! >= 0) && (deepest < 0 || !(values[k]![i]! >= values[deepest]![i]!))) deepest = k;
      if (deepest < 0) continue;
      split[deepest]! += 1;
      total++;
    }
  }
  return split.map((v) => (total > 0 ? v / total : 0));
}

/** Points about which to draw, and what is known to lie beyond them. */
class Centres {
  readonly centres: Float64Array[] = [];
  private readonly limits: LimitStates;
  constructor(limits: LimitStates) {
    this.limits = limits;
  }
  add(z: Float64Array): void {
    if (this.centres.length < mostCentres && !this.centres.some((c) => apart(c, z) < 0.5)) this.centres.push(z.slice());
  }
  /** A point of a limit state counts where a place a little farther out fails. */
  offer(z: Float64Array, k: number): boolean {
    const out = columnsFor(this.limits.dimensions, 1);
    for (const [i, column] of out.entries()) column[0] = 1.02 * z[i]!;
    if (this.limits.at(out, 1)[k]![0]! >= 0) return false;
    this.add(z);
    return true;
  }
  /** Not more than three quarters of a standard deviation before the tangent plane of some centre: draws about it go there. */
  private explained(z: Float64Array): boolean {
    return this.centres.some((c) => {
      const far = length(c);
      return far === 0 ? dot(z, z) < 2 * z.length : dot(z, c) >= (far - 0.75) * far;
    });
  }
  /**
   * Further centres where a scout's failing points lie beyond no plane known: from the nearest such point the limit state's own nearest failing
   * point, or, where slopes do not lead there, the point itself, drawn in along its ray (up to 6 coordinates) or with its like (beyond).
   */
  *learn({ points, count }: Subset): Steps<void> {
    const d = this.limits.dimensions;
    let left: Float64Array[] = [];
    for (let i = 0; i < count; i++) {
      const z = Float64Array.from({ length: d }, (_, j) => points[j]![i]!);
      left.push(z);
    }
    left.sort((a, b) => dot(a, a) - dot(b, b));
    left = left.filter((z) => !this.explained(z));
    while (left.length > 0.01 * count && this.centres.length < mostCentres) {
      const seed = left[0]!;
      const one = columnsFor(d, 1);
      for (let j = 0; j < d; j++) one[j]![0] = seed[j]!;
      const values = this.limits.at(one, 1);
      let deepest = 0;
      values.forEach((g, k) => {
        if (!(g[0]! >= values[deepest]![0]!)) deepest = k;
      });
      const before = this.centres.length;
      const point = yield* nearestFailingInSteps(this.limits, deepest, { from: seed, rounds: 15 });
      if (point.converged && dot(point.point, seed) >= 0.7 * dot(point.point, point.point)) {
        this.offer(point.point, deepest);
        for (const mirror of yield* mirroredInSteps(this.limits, deepest, point)) this.offer(mirror.point, deepest);
      }
      if (this.centres.length === before || !this.explained(seed))
        this.add(d > 6 ? likeOf(seed, left) : this.drawnIn(seed));
      const rest = left.slice(1).filter((z) => !this.explained(z));
      if (this.centres.length === before && rest.length === left.length - 1) break;
      left = rest;
    }
  }
  /** Where the ray from the middle to a failing point first fails. */
  private drawnIn(z: Float64Array): Float64Array {
    const n = 40;
    const ray = columnsFor(this.limits.dimensions, n);
    for (let i = 0; i < z.length; i++) for (let t = 0; t < n; t++) ray[i]![t] = (z[i]! * (t + 1)) / n;
    const g = new Float64Array(n);
    leastOf(this.limits.at(ray, n), n, g);
    let first = n - 1;
    while (first > 0 && g[first - 1]! < 0) first--;
    return z.map((v) => (v * (first + 1)) / n);
  }
}
/** Mean of the points that lie on a point's side: the best place for draws of that part. */
function likeOf(seed: Float64Array, points: readonly Float64Array[]): Float64Array {
  const mean = new Float64Array(seed.length);
  let n = 0;
  for (const z of points) {
    if (dot(z, seed) <= 0) continue;
    n++;
    for (let i = 0; i < z.length; i++) mean[i]! += z[i]!;
  }
  return n > 0 ? mean.map((v) => v / n) : seed;
}
