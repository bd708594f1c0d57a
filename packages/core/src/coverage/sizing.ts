import type { Check, Station } from "../quantity/check.ts";
import { phiInverse } from "../quantity/law.ts";
import { movedText } from "../quantity/moved.ts";
import type { Deciding } from "../study/allowance.ts";
import { beliefColumn, Cell } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";
import { beliefPoints } from "../study/points.ts";
import type { Steps } from "../study/steps.ts";
import type { Free } from "./free.ts";
import { lowPoint } from "./low-point.ts";
import { maximinInSteps } from "./maximin.ts";
import { searchInSteps } from "./sized-search.ts";
import { type Partly, type SizedTape, type SizingBelief, type SizingTape, sizedTapeInSteps } from "./sized-tape.ts";
import { shareHolding, type Verdict, verdictOf } from "./verdict.ts";

/**
 * "Widen all windows": the dimensions that a person has freed move, within their bounds, to raise the least gap over all wanted tapes of a unit.
 *
 *     max over x of  min over tapes of  Q5 over belief u of  min over checks c of  gap_c(u, x) / s_c
 *
 * x      distances of the free dimensions from what is drawn
 * c      the hard checks that some free dimension moves
 * gap_c  deciding gap of a hard check on that tape: what is left of its window within the allowed scatter
 * s_c    its standard deviation over belief and scatter as drawn; frozen, so that gaps in N and mm can be compared and none has a cap
 * Q5     the point that 5 % of belief lie below
 *
 * So the least gap is nought or more just where on every tape all checks that move hold together in 95 % of belief; and beyond that it goes on rising,
 * to the best place between the walls. A check that no free dimension moves takes its share of belief wherever they stand: it is no part of the gap,
 * but of the verdicts that are told beside it. Set aside are checks that do not feed and that no value within the bounds can make feed: because no
 * free dimension moves them, because they hang on a guess (at their best part of belief still breaks them: measure first), or because they are out
 * of reach. They would be the least gap wherever the dimensions stand, and hide all others.
 *
 * The search goes by quick gaps (sized-tape.ts), the 5 % point smoothed (sized-search.ts); then every dimension goes back as far as nothing is lost by it, is
 * rounded to what is written, the way that leaves more, and all is decided in full draws. With what those have shown the search goes on
 * from there with what they have shown. What is told of before and after are full draws.
 */
export interface Sizing extends SizingBelief {
  readonly unit: string;
  readonly tapes: readonly SizingTape[];
  readonly checks: readonly Check[];
  readonly free: readonly Free[];
  readonly starts: number;
  /** Asked now and then: true ends the search, and the best so far is what is told. */
  readonly stop?: () => boolean;
  readonly told?: (progress: SizingProgress) => void;
}
export interface SizingProgress {
  readonly what: "tapes as drawn" | "starts" | "tapes in full" | "widths";
  readonly done: number;
  readonly of: number;
  /** The greatest least gap found so far, in standard deviations. */
  readonly least?: number;
}

export interface Told {
  readonly verdict: Verdict;
  readonly share: number;
}
/** A hard check on a tape that the move touches. */
export interface SizedCell {
  readonly tape: string;
  readonly W: number;
  readonly check: string;
  readonly station: Station;
  readonly before: Told & { readonly margin: number };
  readonly after: Told & { readonly margin: number };
}
/** A hard check on a tape that is left out of the least gap. */
export interface AsideCell extends Told {
  readonly tape: string;
  readonly W: number;
  readonly check: string;
  readonly station: Station;
  readonly why: "unmoved" | "guess" | "bounds";
  /** Share of belief that holds at the best place within the bounds; as drawn where nothing moves it. */
  readonly best: number;
  /** The unknown that goes most with the gap there. */
  readonly unknown?: { readonly address: string; readonly symbol: string };
}
export interface SizedDimension {
  readonly path: string;
  readonly symbol: string;
  readonly unit: string;
  readonly shownIn: string;
  readonly bounds: Free["bounds"];
  readonly drawn: Free["drawn"];
  /** How far it is moved; nought where it stays. */
  readonly by: number;
  /** Where it would have gone although that buys nothing: shown, not made. */
  readonly idle?: number;
}
/** What the moves buy, one added after the other, the one that buys most first. */
export interface FrontStep {
  /** What is added; undefined for the unit as drawn. */
  readonly path: string | undefined;
  readonly least: number;
  /** Hard checks on all tapes that do not feed, those set aside among them. */
  readonly open: number;
}
/** A line of the unit's file. */
export interface SizedLine {
  readonly path: string;
  /** Address of the number as it stands; under `per width` that of the line for all widths. */
  readonly address: string;
  /** Undefined: for all widths. */
  readonly width: number | undefined;
  readonly text: string;
  readonly written: string;
}
/** What one width would get under `per width`, the last resort where the common move leaves it short. */
export interface WidthResort {
  readonly W: number;
  readonly before: number;
  readonly after: number;
  /** Distances from what is drawn; what the common move has is in them. */
  readonly moves: readonly { readonly path: string; readonly by: number }[];
}
export interface SizingResult {
  readonly unit: string;
  readonly seed: number;
  readonly dimensions: readonly SizedDimension[];
  /** Least gap over all tapes, in standard deviations, and where it is. */
  readonly before: LeastAt;
  readonly after: LeastAt;
  readonly tapes: readonly {
    readonly tape: string;
    readonly W: number;
    readonly before: Told & { readonly least: number };
    readonly after: Told & { readonly least: number };
  }[];
  readonly front: readonly FrontStep[];
  /** Checks that lose margin, worst first; and those that gain, the largest first. */
  readonly pays: readonly SizedCell[];
  readonly gains: readonly SizedCell[];
  readonly aside: readonly AsideCell[];
  readonly widths: readonly WidthResort[];
  readonly lines: readonly SizedLine[];
  /** From where each search began and where it ended, with the least gap it saw there: by quick gaps, smoothed about the 5 % point. */
  readonly starts: readonly {
    readonly from: readonly number[];
    readonly to: readonly number[];
    readonly least: number;
  }[];
  readonly evaluations: number;
  readonly stopped: boolean;
}
export interface LeastAt {
  readonly least: number;
  readonly tape: string | undefined;
  readonly check: string | undefined;
}

/** Changes of the least gap below this share of what was gained, or of a standard deviation, matter to nobody. */
const slackShare = 0.005;
const slackLeast = 0.003;
/** Once the search has gone on from full draws, it does so again for a gain of this much, standard deviations. */
const worth = 0.02;
const rounds = 4;

/** Readies the tapes: what sizing and the windows of its dimensions both stand on. Sets aside what sizing cannot settle. */
export function* sizedTapesInSteps(
  sizing: Sizing,
): Steps<{ readonly tapes: readonly SizedTape[]; readonly aside: readonly AsideCell[] }> {
  const { free, checks, told, weights, deviates } = sizing;
  const tapes: SizedTape[] = [];
  const aside: AsideCell[] = [];
  for (const one of sizing.tapes) {
    const tape = yield* sizedTapeInSteps(one, checks, free, sizing);
    tapes.push(tape);
    const mine = yield* asideOn(tape, free, weights, deviates);
    // The draws with the least gaps are others once the hopeless ones are left out.
    if (tape.aside.size > 0) yield* tape.ready();
    aside.push(...mine);
    told?.({ what: "tapes as drawn", done: tapes.length, of: sizing.tapes.length });
  }
  return { tapes, aside };
}
function* asideOn(
  tape: SizedTape,
  free: readonly Free[],
  weights: Float64Array,
  deviates: Deviates,
): Steps<AsideCell[]> {
  const out: AsideCell[] = [];
  for (const [h, check] of tape.hard.entries()) {
    const share = shareHolding([tape.deciding[h]!.gap], weights);
    const verdict = verdictOf(share);
    if (verdict === "feeds") continue;
    const named = { tape: tape.tape, W: tape.W, check: check.id, station: check.station, share, verdict };
    const c = tape.touched.indexOf(check);
    if (c < 0) {
      out.push({ ...named, why: "unmoved", best: share });
      continue;
    }
    const best = yield* maximinInSteps(
      {
        low: free.map((f) => f.least),
        high: free.map((f) => f.most),
        *at(x) {
          const low = lowPoint(tape.at(x)[c]!, tape.weight);
          yield;
          return Float64Array.of(low);
        },
      },
      { first: free.map(() => 0), starts: 1, deviates, fine: 1e-3, stop: () => false },
    );
    if (best.least >= 0) continue;
    tape.aside.add(check.id);
    const gap = tape.at(best.x)[c]!;
    const unknown = strongestUnknown(tape, check, gap, deviates);
    const holds = Math.max(
      share,
      gap.reduce((sum, g, k) => sum + (g >= 0 ? tape.weight[k]! : 0), 0),
    );
    out.push({
      ...named,
      why: verdictOf(holds) !== "stops" && unknown ? "guess" : "bounds",
      best: holds,
      ...(unknown ? { unknown } : {}),
    });
  }
  return out;
}
/** The unknown whose coordinate goes most with the gap over the tape's draws. */
function strongestUnknown(
  tape: SizedTape,
  check: Check,
  gap: Float64Array,
  deviates: Deviates,
): { address: string; symbol: string } | undefined {
  let found: { address: string; symbol: string } | undefined;
  let most = 0.1;
  for (const given of new Cell(tape.scene, [check]).unknowns) {
    const column = beliefColumn(deviates, given);
    const r = Math.abs(
      correlation(
        gap,
        Float64Array.from(tape.draws, (k) => column[k]!),
      ),
    );
    if (r > most) {
      most = r;
      found = { address: given.address, symbol: given.symbol };
    }
  }
  return found;
}
function correlation(a: Float64Array, b: Float64Array): number {
  const mean = (x: Float64Array): number => x.reduce((sum, v) => sum + v, 0) / x.length;
  const [ma, mb] = [mean(a), mean(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let k = 0; k < a.length; k++) {
    const [x, y] = [a[k]! - ma, b[k]! - mb];
    ab += x * y;
    aa += x * x;
    bb += y * y;
  }
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
}

export function* sizeInSteps(sizing: Sizing): Steps<SizingResult> {
  const { tapes, aside } = yield* sizedTapesInSteps(sizing);
  return yield* sizedInSteps(sizing, tapes, aside);
}

/** The same on tapes that are ready. */
export function* sizedInSteps(
  sizing: Sizing,
  tapes: readonly SizedTape[],
  aside: readonly AsideCell[],
): Steps<SizingResult> {
  const { free, starts, stop = () => false, told, weights } = sizing;
  const stay = free.map((f) => Math.min(f.most, Math.max(f.least, 0)));
  const drawn = free.map(() => 0);
  const before = fullOf(
    tapes.map((tape) => [tape, undefined] as const),
    weights,
  );
  const moving = tapes.filter((tape) => tape.touched.some(({ id }) => !tape.aside.has(id)));
  let evaluations = 0;
  let begun: SizingResult["starts"] = [];
  let best: Settled = { x: drawn, idle: [], full: before, decided: new Map() };
  let from: readonly number[] = stay;
  for (let round = 0; round < rounds && moving.length > 0; round++) {
    const sought = yield* searchInSteps(moving, free, {
      low: free.map((f) => f.least),
      high: free.map((f) => f.most),
      first: from,
      starts: round === 0 ? starts : 1,
      deviates: sizing.deviates,
      stop,
      told: ({ start, of, least }) => told?.({ what: "starts", done: start - 1, of, least }),
    });
    evaluations += sought.evaluations;
    if (round === 0) begun = sought.starts.map((s) => ({ from: s.from, to: s.best.x, least: s.best.least }));
    const settled = yield* settle(free, moving, stay, sought.x);
    const decided = new Map<SizedTape, Partly>();
    for (const tape of moving) {
      decided.set(tape, yield* tape.decided(settled.x));
      told?.({ what: "tapes in full", done: decided.size, of: moving.length, least: sought.least });
    }
    const full = fullOf(
      tapes.map((tape) => [tape, decided.get(tape)] as const),
      weights,
    );
    const gained = full.least - best.full.least;
    if (gained > 0) best = { x: settled.x, idle: settled.idle, full, decided };
    for (const [tape, of] of decided) yield* tape.ready(of, settled.x);
    from = settled.x;
    if (stop() || (round > 0 && gained < worth)) break;
  }
  if (best.decided.size > 0) {
    // Checks that are set aside have a say in the verdicts all the same.
    const decided = new Map<SizedTape, Partly>();
    for (const tape of tapes.filter(({ touched }) => touched.length > 0))
      decided.set(tape, yield* tape.decided(best.x, best.decided.get(tape) ?? tape.touched.map(() => undefined)));
    const full = fullOf(
      tapes.map((tape) => [tape, decided.get(tape)] as const),
      weights,
    );
    best = { ...best, full, decided };
  }
  if (from !== best.x) for (const [tape, of] of best.decided) yield* tape.ready(of, best.x);
  const front = yield* frontOf(free, tapes, aside, best.x);
  const widths = stop() ? [] : yield* widthsShort(sizing, moving, best);
  const cells = tapes.flatMap((tape) => cellsOf(tape, best.decided.get(tape), weights));
  return {
    unit: sizing.unit,
    seed: sizing.deviates.seed,
    dimensions: free.map((f, i): SizedDimension => {
      const { path, symbol, unit, shownIn, bounds, drawn: values } = f;
      const idle = best.idle[i] ?? 0;
      return {
        path,
        symbol,
        unit,
        shownIn,
        bounds,
        drawn: values,
        by: best.x[i]!,
        ...(idle !== 0 && best.x[i] === 0 ? { idle } : {}),
      };
    }),
    before: leastAt(before),
    after: leastAt(best.full),
    tapes: tapes.map((tape, i) => ({
      tape: tape.tape,
      W: tape.W,
      before: before.tapes[i]!.told,
      after: best.full.tapes[i]!.told,
    })),
    front,
    pays: cells.filter(({ before: a, after: b }) => b.margin < a.margin - seen).sort(worstOfCells),
    gains: cells.filter(({ before: a, after: b }) => b.margin > a.margin + seen).sort((a, b) => worstOfCells(b, a)),
    aside,
    widths,
    lines: [
      ...linesOf(sizing, best.x, undefined),
      ...widths.flatMap(({ W, moves }) =>
        linesOf(
          sizing,
          free.map(({ path }) => moves.find((m) => m.path === path)?.by ?? 0),
          W,
        ),
      ),
    ],
    starts: begun,
    evaluations,
    stopped: stop(),
  };
}
/** A change of margin that is worth telling. */
const seen = 0.05;
const rank = { stops: 0, depends: 1, feeds: 2, "n/a": 3 } as const;
/** Verdicts lost first, then margin lost. */
const worstOfCells = (a: SizedCell, b: SizedCell): number =>
  rank[a.after.verdict] - rank[a.before.verdict] - (rank[b.after.verdict] - rank[b.before.verdict]) ||
  a.after.margin - a.before.margin - (b.after.margin - b.before.margin) ||
  a.W - b.W ||
  (a.tape < b.tape ? -1 : a.tape > b.tape ? 1 : a.check < b.check ? -1 : 1);

interface Settled {
  readonly x: readonly number[];
  readonly idle: readonly number[];
  readonly full: Full;
  readonly decided: ReadonlyMap<SizedTape, Partly>;
}
/** Takes back every move that buys nothing and every length of the others that buys nothing, and rounds to what is written. */
function* settle(
  free: readonly Free[],
  tapes: readonly SizedTape[],
  stay: readonly number[],
  sought: readonly number[],
): Steps<{ readonly x: readonly number[]; readonly idle: readonly number[]; readonly least: number }> {
  const leastAtPlace = function* (x: readonly number[]): Steps<number> {
    let least = Number.POSITIVE_INFINITY;
    for (const tape of tapes) {
      least = Math.min(least, lowPoint(tape.least(tape.at(x)), tape.weight));
      yield;
    }
    return least;
  };
  const top = yield* leastAtPlace(sought);
  const gained = top - (yield* leastAtPlace(stay));
  const floor = top - Math.max(slackLeast, slackShare * gained);
  const x = [...sought];
  const without = (i: number, to: number): number[] => x.map((v, j) => (j === i ? to : v));
  const idle = x.map(() => 0);
  // The one whose loss costs least is tried first.
  const costs: { i: number; left: number }[] = [];
  for (const i of x.keys()) costs.push({ i, left: yield* leastAtPlace(without(i, stay[i]!)) });
  costs.sort((a, b) => b.left - a.left || a.i - b.i);
  for (const { i } of costs) {
    if (x[i] === stay[i]) continue;
    if ((yield* leastAtPlace(without(i, stay[i]!))) < floor) continue;
    idle[i] = x[i]!;
    x[i] = stay[i]!;
  }
  for (const { i } of costs) {
    let [good, bad] = [1, 0];
    const full = x[i]! - stay[i]!;
    if (full === 0) continue;
    for (let n = 0; n < 8; n++) {
      const middle = (good + bad) / 2;
      if ((yield* leastAtPlace(without(i, stay[i]! + middle * full))) >= floor) good = middle;
      else bad = middle;
    }
    x[i] = stay[i]! + good * full;
  }
  for (const { i } of [...costs].reverse()) {
    if (x[i] === 0) continue;
    let best: { v: number; least: number } | undefined;
    for (const v of written(free[i]!, x[i]!)) {
      const least = yield* leastAtPlace(without(i, v));
      if (!best || least > best.least) best = { v, least };
    }
    if (best) x[i] = best.v;
  }
  // What the roundings did together: single steps while one gains.
  let least = yield* leastAtPlace(x);
  for (let turn = 0, gains = true; turn < 4 && gains; turn++) {
    gains = false;
    for (const { i } of costs)
      for (const side of x[i] === 0 ? [] : [1, -1]) {
        const to = x[i]! + side * free[i]!.grain;
        if (to < free[i]!.least - 1e-9 * free[i]!.grain || to > free[i]!.most + 1e-9 * free[i]!.grain) continue;
        const there = yield* leastAtPlace(without(i, to));
        if (there <= least + slackLeast) continue;
        x[i] = to;
        least = there;
        gains = true;
      }
  }
  return { x, idle, least };
}
/** The written steps on both sides of a distance, within the bounds: the place where that stands on the grid, else the distance. */
function written({ grain, drawn, least, most }: Free, by: number): number[] {
  const from = drawn[0]!.value;
  const zero = Math.abs(from / grain - Math.round(from / grain)) < 1e-6 ? from : 0;
  const steps = (zero + by) / grain;
  const near = [Math.floor(steps + 1e-6), Math.ceil(steps - 1e-6)].map((n) => n * grain - zero);
  const dust = 1e-9 * grain;
  return [...new Set(near)].filter((v) => v >= least - dust && v <= most + dust);
}

/** All tapes by full draws, the touched checks as decided, or as drawn. */
interface Full {
  readonly least: number;
  readonly tapes: readonly {
    readonly tape: SizedTape;
    readonly told: Told & { readonly least: number };
    readonly check: string | undefined;
  }[];
}
function fullOf(list: readonly (readonly [SizedTape, Partly | undefined])[], weights: Float64Array): Full {
  const tapes = list.map(([tape, decided]) => {
    const gapOf = (check: Check): Float64Array => {
      const now = decided?.[tape.touched.indexOf(check)] ?? tape.deciding[tape.hard.indexOf(check)]!;
      return now.gap;
    };
    const share = shareHolding(tape.hard.map(gapOf), weights);
    const inQuestion = tape.touched.flatMap((check, c) =>
      tape.aside.has(check.id) ? [] : [{ check, sd: tape.sd[c]!, gap: gapOf(check) }],
    );
    const least = new Float64Array(weights.length).fill(Number.POSITIVE_INFINITY);
    for (const { gap, sd } of inQuestion)
      for (let k = 0; k < least.length; k++) least[k] = Math.min(least[k]!, gap[k]! / sd);
    const low = beliefPoints(least, weights).low;
    const k = least.indexOf(low);
    const check = inQuestion.find(({ gap, sd }) => gap[k]! / sd === low)?.check.id;
    return { tape, told: { share, verdict: verdictOf(share), least: low }, check };
  });
  return { least: Math.min(...tapes.map(({ told }) => told.least)), tapes };
}
function leastAt({ tapes, least }: Full): LeastAt {
  const at = tapes.find(({ told }) => told.least === least && Number.isFinite(least));
  return { least, tape: at?.tape.tape, check: at?.check };
}

function cellsOf(tape: SizedTape, decided: Partly | undefined, weights: Float64Array): SizedCell[] {
  if (!decided) return [];
  const told = ({ gap, chance }: Deciding): SizedCell["before"] => {
    const share = shareHolding([gap], weights);
    return { share, verdict: verdictOf(share), margin: marginOf(chance, weights) };
  };
  return tape.touched.map((check, c) => ({
    tape: tape.tape,
    W: tape.W,
    check: check.id,
    station: check.station,
    before: told(tape.deciding[tape.hard.indexOf(check)]!),
    after: told(decided[c] ?? tape.deciding[tape.hard.indexOf(check)]!),
  }));
}
/** -Phi^-1 of the chance over belief and scatter, within six; where no draw fails, six. */
function marginOf(chance: Float64Array, weights: Float64Array): number {
  let sum = 0;
  let total = 0;
  for (let k = 0; k < chance.length; k++) {
    sum += weights[k]! * chance[k]!;
    total += weights[k]!;
  }
  const p = sum / total;
  return p <= 0 ? 6 : p >= 1 ? -6 : Math.max(-6, Math.min(6, -phiInverse(p)));
}

/** What each move buys when they are added one after the other, the one that buys most first. */
function* frontOf(
  free: readonly Free[],
  tapes: readonly SizedTape[],
  aside: readonly AsideCell[],
  x: readonly number[],
): Steps<FrontStep[]> {
  const unmoved = aside.filter(({ why }) => why === "unmoved").length;
  const lookAt = function* (at: readonly number[]): Steps<{ least: number; open: number }> {
    let least = Number.POSITIVE_INFINITY;
    let open = unmoved;
    for (const tape of tapes) {
      const gaps = tape.at(at);
      if (tape.touched.some(({ id }) => !tape.aside.has(id)))
        least = Math.min(least, lowPoint(tape.least(gaps), tape.weight));
      open += gaps.filter((gap) => lowPoint(gap, tape.weight) < 0).length;
      yield;
    }
    return { least, open };
  };
  let at = x.map(() => 0);
  const out: FrontStep[] = [{ path: undefined, ...(yield* lookAt(at)) }];
  const left = new Set(x.flatMap((by, i) => (by !== 0 ? [i] : [])));
  while (left.size > 0) {
    let best: { i: number; least: number; open: number } | undefined;
    for (const i of left) {
      const one = yield* lookAt(at.map((v, j) => (j === i ? x[i]! : v)));
      if (!best || one.open < best.open || (one.open === best.open && one.least > best.least)) best = { i, ...one };
    }
    const { i, least, open } = best!;
    at = at.map((v, j) => (j === i ? x[i]! : v));
    left.delete(i);
    out.push({ path: free[i]!.path, least, open });
  }
  return out;
}

/** For each width that the common move leaves short, what its own values could do. */
function* widthsShort(sizing: Sizing, tapes: readonly SizedTape[], { x, full }: Settled): Steps<WidthResort[]> {
  const { free, deviates, stop = () => false, told, weights } = sizing;
  const shortOf = (W: number): SizedTape[] => tapes.filter((tape) => tape.W === W);
  const short = new Set(
    full.tapes.filter(({ told: t, tape }) => t.least < 0 && tapes.includes(tape)).map(({ tape }) => tape.W),
  );
  const out: WidthResort[] = [];
  for (const [n, W] of [...short].entries()) {
    if (stop()) break;
    const own = shortOf(W);
    const before = Math.min(...full.tapes.filter(({ tape }) => own.includes(tape)).map(({ told: t }) => t.least));
    const sought = yield* searchInSteps(own, free, {
      low: free.map((f, i) => (ofOneWidth(f) ? x[i]! : f.least)),
      high: free.map((f, i) => (ofOneWidth(f) ? x[i]! : f.most)),
      first: x,
      starts: 2,
      deviates,
      stop,
    });
    const settled = yield* settle(free, own, x, sought.x);
    const decided: [SizedTape, Partly][] = [];
    for (const tape of own) decided.push([tape, yield* tape.decided(settled.x)]);
    const after = fullOf(decided, weights).least;
    told?.({ what: "widths", done: n + 1, of: short.size });
    // A line more for a width has to turn it, not to improve it a little.
    if (!(after >= 0)) continue;
    const moves = free.flatMap(({ path }, i) => (settled.x[i] === x[i] ? [] : [{ path, by: settled.x[i]! }]));
    if (moves.length > 0) out.push({ W, before, after, moves });
  }
  return out;
}

/** A value that one width has for itself already moves for that width alone. */
const ofOneWidth = ({ path }: Free): boolean => path.startsWith("per width.");

function linesOf({ free, tapes }: Sizing, x: readonly number[], width: number | undefined): SizedLine[] {
  return free.flatMap((f, i) => {
    if (x[i] === 0) return [];
    return f.members.flatMap((address): SizedLine[] => {
      const given = tapes
        .filter(({ scene }) => width === undefined || scene.unit.row === width)
        .flatMap(({ scene }) => scene.unit.givens.get(address) ?? [])[0];
      if (!given) return [];
      const path = address.slice(address.indexOf("/") + 1);
      return [{ path, address, width, text: given.text, written: movedText(given, x[i]!) }];
    });
  });
}
