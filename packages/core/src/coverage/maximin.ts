import type { Deviates } from "../study/deviates.ts";
import type { Steps } from "../study/steps.ts";
import { bestStep } from "./linear-program.ts";

/**
 * The place in a box where the least of several functions is greatest: maximin of piecewise smooth functions.
 *
 *     max over x of min over j of f_j(x),   low <= x <= high
 *
 * A start at random is the best of a few places. From each start a row of linear programs (Madsen and Schjaer-Jacobsen 1978 for the smooth case): slopes of all functions near the least one by
 * differences, the step that raises the least of them most within a trust region, which grows where the step does what was foretold and
 * shrinks where it does not. Then single coordinates, the last way and some at random are tried in halving steps, which gets over the small kinks
 * that differences cannot see, and each dimension is looked at over all of its bounds for another hill; and again, while that gains. What it finds
 * need not be the best of all: several starts, at random but for the first, tell whether they agree.
 *
 * Inside, every dimension runs from 0 to 1 over its bounds.
 */
export interface Maximin {
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** Values of all functions; finite. Fresh at each call. The order stays. */
  at(x: readonly number[]): Steps<Float64Array>;
}
export interface MaximinOptions {
  /** Where the first start lies; put inside the box. */
  readonly first: readonly number[];
  readonly starts: number;
  readonly deviates: Deviates;
  /** Asked between two places: true ends the search, and the best so far is the answer. */
  readonly stop?: () => boolean;
  readonly told?: (progress: { readonly start: number; readonly of: number; readonly least: number }) => void;
  /** Differences in f that matter to nobody. */
  readonly fine?: number;
}
export interface Best {
  readonly x: readonly number[];
  readonly values: Float64Array;
  readonly least: number;
}
export interface Sought extends Best {
  /** For every start that was finished or begun: where from and what came of it. */
  readonly starts: readonly { readonly from: readonly number[]; readonly best: Best }[];
  readonly evaluations: number;
  readonly stopped: boolean;
}
/** Functions this far above the least one, in units of what the trust region could move them, do not bind. */
const near = 2;
const largest = 0.5;
const smallest = 1 / 2000;
const mostTurns = 40;
/** Linear programs and single ways take turns so often, at most. */
const rounds = 6;

export function* maximinInSteps(problem: Maximin, options: MaximinOptions): Steps<Sought> {
  const { low, high } = problem;
  const { starts, deviates, stop = () => false, told, fine = 1e-6 } = options;
  const k = low.length;
  const span = low.map((l, i) => high[i]! - l);
  const place = (u: ArrayLike<number>): number[] => low.map((l, i) => l + span[i]! * u[i]!);
  let evaluations = 0;
  const at = function* (u: Float64Array): Steps<Best & { readonly u: Float64Array }> {
    evaluations++;
    const values = yield* problem.at(place(u));
    return { x: place(u), u, values, least: leastOf(values) };
  };
  const first = Float64Array.from({ length: k }, (_, i) =>
    span[i]! > 0 ? clamp((options.first[i]! - low[i]!) / span[i]!) : 0,
  );
  const found: { from: readonly number[]; best: Best }[] = [];
  let best: Best | undefined;
  for (let s = 0; s < starts && (s === 0 || !stop()); s++) {
    let here = yield* s === 0 ? at(first) : screened(at, deviates, s, k, stop);
    const u0 = here.u;
    const keep = (): void => {
      if (!best || here.least > best.least) best = here;
      told?.({ start: s + 1, of: starts, least: best.least });
    };
    keep();
    let last: Float64Array | undefined;
    for (let round = 0; round < rounds && !stop(); round++) {
      const began = here.least;
      let trust = 0.25;
      for (let turn = 0; turn < mostTurns && trust > smallest && !stop(); turn++) {
        // Wide differences see over the small kinks of a point of belief; they narrow with the region.
        const slopes = yield* slopesAt(at, here, Math.min(0.03, Math.max(2e-3, trust / 6)), stop);
        if (!slopes) break;
        let moved = false;
        while (!moved && trust > smallest && !stop()) {
          const step = within(here, slopes, trust);
          const gain = step.least - here.least;
          if (gain <= fine) {
            trust /= 3;
            break;
          }
          const next = yield* at(here.u.map((v, i) => clamp(v + step.step[i]!)));
          const share = (next.least - here.least) / gain;
          if (share > 0.05) {
            last = next.u.map((v, i) => v - here.u[i]!);
            here = next;
            keep();
            moved = true;
          }
          if (share > 0.7) trust = Math.min(largest, 2 * trust);
          else if (share < 0.3) trust /= 3;
        }
      }
      for (let size = 1 / 16; size > 2 * smallest && !stop(); size /= 4) {
        const sides = deviates.between(`ways ${s} ${round} ${size}`, k * k);
        const random = Array.from({ length: k > 1 ? k : 0 }, (_, n) => sides.slice(n * k, (n + 1) * k));
        for (const way of [...(last ? [last] : []), ...crosses(k), ...random]) {
          if (stop()) break;
          const length = Math.max(...way.map(Math.abs)) || 1;
          const u = here.u.map((v, i) => clamp(v + (way[i]! / length) * size));
          if (u.every((v, i) => v === here.u[i])) continue;
          const next = yield* at(u);
          if (next.least <= here.least + fine) continue;
          last = u.map((v, i) => v - here.u[i]!);
          here = next;
          keep();
        }
      }
      // Another hill may stand along a dimension, where no step leads.
      const found = yield* scanned(at, here, round, stop);
      if (found.least > here.least + fine) {
        here = found;
        last = undefined;
        keep();
      } else if (here.least - began <= 3 * fine) break;
    }
    found.push({ from: place(u0), best: { x: here.x, values: here.values, least: here.least } });
  }
  return { ...best!, starts: found, evaluations, stopped: stop() };
}
const clamp = (v: number): number => Math.min(1, Math.max(0, v));
export const leastOf = (values: Float64Array): number => {
  let least = Number.POSITIVE_INFINITY;
  for (const v of values) if (v < least) least = v;
  return least;
};
/** Either way along each dimension. */
const crosses = (k: number): Float64Array[] =>
  Array.from({ length: 2 * k }, (_, n) =>
    Float64Array.from({ length: k }, (_, i) => (i === n >> 1 ? (n % 2 ? -1 : 1) : 0)),
  );

interface Here extends Best {
  readonly u: Float64Array;
}
/** The best of some places at random: a start that is not at the foot of the least of hills. */
function* screened(
  at: (u: Float64Array) => Steps<Here>,
  deviates: Deviates,
  start: number,
  k: number,
  stop: () => boolean,
): Steps<Here> {
  const random = deviates.between(`start ${start}`, screens * k * k);
  let best: Here | undefined;
  for (let n = 0; n < screens * k && !(best && stop()); n++) {
    const here = yield* at(random.slice(n * k, (n + 1) * k).map((t) => (1 + t) / 2));
    if (!best || here.least > best.least) best = here;
  }
  return best!;
}
/** Places a dimension. */
const screens = 5;
/** The best place along each dimension in turn, over all of its bounds. */
function* scanned(at: (u: Float64Array) => Steps<Here>, from: Here, round: number, stop: () => boolean): Steps<Here> {
  let here = from;
  for (let i = 0; i < here.u.length; i++)
    for (let n = 0; n < scans && !stop(); n++) {
      const u = here.u.slice();
      // Other places each round.
      u[i] = (n + ((0.5 + round * 0.618) % 1)) / scans;
      const next = yield* at(u);
      if (next.least > here.least) here = next;
    }
  return here;
}
const scans = 11;
/** Slopes of every function along every dimension, by a difference into the box; undefined where it was stopped. */
function* slopesAt(
  at: (u: Float64Array) => Steps<Here>,
  here: Here,
  h: number,
  stop: () => boolean,
): Steps<Float64Array[] | undefined> {
  const out = Array.from(here.values, () => new Float64Array(here.u.length));
  for (let i = 0; i < here.u.length; i++) {
    if (stop()) return undefined;
    const by = here.u[i]! + h <= 1 ? h : -h;
    const u = here.u.slice();
    u[i]! += by;
    const { values } = yield* at(u);
    for (let j = 0; j < values.length; j++) out[j]![i] = (values[j]! - here.values[j]!) / by;
  }
  return out;
}
/** The best step of the functions that could come to bind within the trust region. */
function within(here: Here, slopes: readonly Float64Array[], trust: number): ReturnType<typeof bestStep> {
  const reach = (j: number): number => slopes[j]!.reduce((sum, g) => sum + Math.abs(g), 0) * trust;
  let most = 0;
  for (let j = 0; j < slopes.length; j++) if (here.values[j]! === here.least) most = Math.max(most, reach(j));
  const bind = [...slopes.keys()].filter((j) => here.values[j]! - here.least <= near * (reach(j) + most));
  return bestStep(
    bind.map((j) => here.values[j]!),
    bind.map((j) => slopes[j]!),
    here.u.map((v) => Math.max(-trust, -v)),
    here.u.map((v) => Math.min(trust, 1 - v)),
  );
}
