import type { Deviates } from "../study/deviates.ts";
import { finished, type Steps } from "../study/steps.ts";
import type { Free } from "./free.ts";
import { smoothLowPoint } from "./low-point.ts";
import { type Best, maximinInSteps, type Sought } from "./maximin.ts";
import { type SizedTape, sizingDraws } from "./sized-tape.ts";

/**
 * The distances at which the least gap over some tapes is greatest.
 *
 *     max over x of min over tapes of Q5 over u of min over c of G_c(u, x),   about a place:  G_c(u, x + d) = G_c(u, x) + J_c(u) d
 *
 * The least of checks and the point of belief have a kink wherever another check or draw takes over, so slopes of them tell little. The gap of one
 * check at one draw is smooth: it is made linear about a place, draw by draw, and what follows from that model is searched by maximin.ts, which
 * costs next to nothing. Then one look at the true gaps: the trust region grows where the step did what was foretold and shrinks where not.
 *
 * A start at random is the best of a few places, after a little climbing from three of them. Where the search has come to rest, each dimension is looked at over all of its bounds for another
 * hill. What it finds need not be the best of all: the starts tell whether they agree. Inside, every dimension runs from 0 to 1 over its bounds.
 */
export interface SearchOptions {
  readonly first: readonly number[];
  readonly starts: number;
  readonly deviates: Deviates;
  readonly low: readonly number[];
  readonly high: readonly number[];
  readonly stop: () => boolean;
  readonly told?: (progress: { readonly start: number; readonly of: number; readonly least: number }) => void;
}
/** Standard deviations that matter to nobody. */
const fine = 1e-3;
const smallest = 1 / 1000;
const [mostTurns, rounds, scans] = [25, 3, 11];
/** Places looked at for a random start, for each dimension; how many of them are climbed from a little, and how far. */
const [screens, few, fewTurns] = [5, 3, 4];

interface Look {
  readonly u: Float64Array;
  readonly gaps: readonly (readonly Float64Array[])[];
  readonly lows: Float64Array;
  readonly least: number;
}

export function* searchInSteps(
  tapes: readonly SizedTape[],
  free: readonly Free[],
  options: SearchOptions,
): Steps<Sought> {
  const { low, high, starts, deviates, stop, told } = options;
  const k = free.length;
  const span = low.map((l, i) => high[i]! - l);
  const place = (u: ArrayLike<number>): number[] => low.map((l, i) => l + span[i]! * u[i]!);
  let evaluations = 0;
  const look = function* (u: Float64Array): Steps<Look> {
    evaluations++;
    const x = place(u);
    const gaps: Float64Array[][] = [];
    const lows = new Float64Array(tapes.length);
    for (const [t, tape] of tapes.entries()) {
      const mine = tape.at(x);
      gaps.push(mine);
      lows[t] = smoothLowPoint(tape.least(mine), tape.weight);
      yield;
    }
    return { u, gaps, lows, least: Math.min(...lows) };
  };
  const bestOf = (one: Look): Best => ({ x: place(one.u), values: one.lows, least: one.least });
  const found: { from: readonly number[]; best: Best }[] = [];
  let best: Look | undefined;
  for (let s = 0; s < starts && (s === 0 || !stop()); s++) {
    const first = Float64Array.from({ length: k }, (_, i) =>
      span[i]! > 0 ? clamp((options.first[i]! - low[i]!) / span[i]!) : 0,
    );
    const begun: readonly Look[] = s === 0 ? [yield* look(first)] : yield* screened(look, deviates, s, k, stop);
    let here = begun[0]!;
    let from = here;
    const keep = (one: Look): void => {
      if (!best || one.least > best.least) best = one;
      told?.({ start: s + 1, of: starts, least: best.least });
    };
    keep(here);
    const climbing = { tapes, look, span, deviates, stop, keep };
    if (begun.length > 1)
      for (const one of begun) {
        const there = yield* climb(climbing, one, fewTurns);
        if (there.least <= here.least) continue;
        here = there;
        from = one;
      }
    for (let round = 0; round < rounds && !stop(); round++) {
      here = yield* climb(climbing, here, mostTurns);
      const other = yield* scanned(look, here, span, round, stop);
      const higher = other.least > here.least + 10 * fine;
      if (other.least > here.least) here = other;
      keep(here);
      if (!higher) break;
    }
    found.push({ from: place(from.u), best: bestOf(here) });
  }
  return { ...bestOf(best!), starts: found, evaluations, stopped: stop() };
}
interface Climbing {
  readonly tapes: readonly SizedTape[];
  readonly look: (u: Float64Array) => Steps<Look>;
  readonly span: readonly number[];
  readonly deviates: Deviates;
  readonly stop: () => boolean;
  readonly keep: (one: Look) => void;
}
/** Uphill by models, until they foretell nothing more or the turns are used up. */
function* climb({ tapes, look, span, deviates, stop, keep }: Climbing, from: Look, turns: number): Steps<Look> {
  let here = from;
  let trust = 0.25;
  for (let turn = 0; turn < turns && trust > smallest && !stop(); turn++) {
    const model = yield* modelAt(tapes, look, here, span, Math.max(2e-3, trust / 4));
    let moved = false;
    while (!moved && trust > smallest && !stop()) {
      const step = model.best(trust, deviates);
      yield;
      const gain = step.least - here.least;
      if (gain <= fine) {
        trust /= 4;
        break;
      }
      const next = yield* look(here.u.map((v, i) => clamp(v + step.x[i]!)));
      const share = (next.least - here.least) / gain;
      if (share > 0.05) {
        here = next;
        keep(here);
        moved = true;
      }
      if (share > 0.7) trust = Math.min(0.5, 2 * trust);
      else if (share < 0.3) trust /= 3;
    }
  }
  return here;
}
const clamp = (v: number): number => Math.min(1, Math.max(0, v));

interface Model {
  /** The best step within the trust region, and the least gap that it foretells. */
  best(trust: number, deviates: Deviates): { readonly x: readonly number[]; readonly least: number };
}
/** The gaps in question made linear about a place, draw by draw, by a difference into the box along each dimension. */
function* modelAt(
  tapes: readonly SizedTape[],
  look: (u: Float64Array) => Steps<Look>,
  here: Look,
  span: readonly number[],
  h: number,
): Steps<Model> {
  const k = here.u.length;
  const open = [...span.keys()].filter((i) => span[i]! > 0);
  const sides: (Look | undefined)[] = [];
  const by = here.u.map((v) => (v + h <= 1 ? h : -h));
  for (let i = 0; i < k; i++) {
    const u = here.u.slice();
    u[i]! += by[i]!;
    sides.push(open.includes(i) ? yield* look(u) : undefined);
  }
  /** By tape, the checks with their gaps and slopes. */
  const all = tapes.map((tape, t) =>
    tape.touched.flatMap((check, c) => {
      if (tape.aside.has(check.id)) return [];
      const gap = here.gaps[t]![c]!;
      const slopes = sides.map((side, i) => side && side.gaps[t]![c]!.map((g, n) => (g - gap[n]!) / by[i]!));
      const moves = slopes.map((slope) => slope?.some((v) => v !== 0) === true);
      return [{ gap, slopes, moves }];
    }),
  );
  const row = new Float64Array(sizingDraws);
  const one = new Float64Array(sizingDraws);
  const best: Model["best"] = (trust, deviates) => {
    // Checks that stay above whatever the others may come to are no part of it.
    const near = all.map((cells, t) =>
      cells.filter(({ gap, slopes }) => {
        for (let n = 0; n < sizingDraws; n++) {
          let reach = 0;
          for (const slope of slopes) if (slope) reach += Math.abs(slope[n]!) * trust;
          if (gap[n]! - reach < here.lows[t]! + 1) return true;
        }
        return false;
      }),
    );
    const at = (d: readonly number[]): Float64Array =>
      Float64Array.from(near, (cells, t) => {
        row.fill(1000);
        for (const { gap, slopes, moves } of cells) {
          one.set(gap);
          for (let i = 0; i < k; i++) {
            if (!moves[i] || d[i] === 0) continue;
            const [slope, step] = [slopes[i]!, d[i]!];
            for (let n = 0; n < sizingDraws; n++) one[n]! += slope[n]! * step;
          }
          for (let n = 0; n < sizingDraws; n++) if (one[n]! < row[n]!) row[n] = one[n]!;
        }
        return smoothLowPoint(row, tapes[t]!.weight);
      });
    return finished(
      maximinInSteps(
        {
          low: Array.from(here.u, (v, i) => (span[i]! > 0 ? Math.max(-trust, -v) : 0)),
          high: Array.from(here.u, (v, i) => (span[i]! > 0 ? Math.min(trust, 1 - v) : 0)),
          // biome-ignore lint/correctness/useYield: nothing in it takes long
          *at(d) {
            return at(d);
          },
        },
        { first: Array.from(here.u, () => 0), starts: 2, deviates, fine: fine / 4 },
      ),
    );
  };
  return { best };
}

/** The best few of some places at random, the best first: starts that are not at the foot of the least of hills. */
function* screened(
  look: (u: Float64Array) => Steps<Look>,
  deviates: Deviates,
  start: number,
  k: number,
  stop: () => boolean,
): Steps<readonly Look[]> {
  const random = deviates.between(`sizing start ${start}`, screens * k * k);
  let best: Look[] = [];
  for (let n = 0; n < screens * k && !(best.length > 0 && stop()); n++) {
    const here = yield* look(random.slice(n * k, (n + 1) * k).map((t) => (1 + t) / 2));
    best = [...best, here].sort((a, b) => b.least - a.least).slice(0, few);
  }
  return best;
}
/** The best place along each dimension in turn, over all of its bounds. */
function* scanned(
  look: (u: Float64Array) => Steps<Look>,
  from: Look,
  span: readonly number[],
  round: number,
  stop: () => boolean,
): Steps<Look> {
  let here = from;
  for (let i = 0; i < here.u.length; i++)
    for (let n = 0; n < scans && span[i]! > 0 && !stop(); n++) {
      const u = here.u.slice();
      // Other places each round.
      u[i] = (n + ((0.5 + round * 0.618) % 1)) / scans;
      const next = yield* look(u);
      if (next.least > here.least) here = next;
    }
  return here;
}
