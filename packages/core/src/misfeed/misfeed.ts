import { checks as allChecks } from "../checks.ts";
import type { Check } from "../quantity/check.ts";
import { type Letter, worstLetter } from "../quantity/given.ts";
import { phiInverse } from "../quantity/law.ts";
import { power } from "../quantity/power.ts";
import { shownUnit, showValue } from "../quantity/show.ts";
import type { Scene } from "../scene.ts";
import { beliefColumn, beliefDraws } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";
import type { FirstOrder } from "../study/first-order.ts";
import { type RareEvent, rareEventInSteps, type Said } from "../study/rare.ts";
import { finished, type Steps } from "../study/steps.ts";
import { Stream } from "../study/stream.ts";
import { chancesAtInSteps, twoLevelsInSteps, weightedQuantile } from "../study/two-levels.ts";
import { ModeStates, type Side, sidesOf } from "./mode-states.ts";
import { modes as allModes, type Blame, type Mode } from "./modes.ts";
import { checkMiss } from "./pick-miss.ts";

/** 5, 50 and 95 % of what is believed of a rate. */
export interface BeliefBand {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}
/** What one scatter has to do with a mode, at its likeliest failing point. */
export interface Importance {
  readonly address: string;
  readonly text: string;
  readonly letter: Letter;
  readonly level: "reel" | "unit" | "index";
  /** alpha^2; the shares of a mode add up to 1. */
  readonly share: number;
}
/** The unknown that decides a mode's band: measuring it narrows the band most. */
export interface ToMeasure {
  readonly address: string;
  readonly symbol: string;
  readonly text: string;
  readonly letter: Letter;
  /** Share of what is not known of the mode that goes with it, by squared correlation. */
  readonly carries: number;
}
/** One way to go wrong, on one unit and tape. */
export interface ModeRate {
  readonly id: string;
  readonly title: string;
  readonly blames: Blame;
  /** Checks that apply here. */
  readonly checks: readonly string[];
  /** Chance per index, mean over pairs of unit and reel, unknowns at their medians; the estimator's own 95 % band. */
  readonly rate: number;
  readonly estimator: readonly [low: number, high: number];
  readonly belief: BeliefBand;
  /** Share of the failing draws, or of the failing point, by level: whose scatter makes it happen. */
  readonly levels: Readonly<Record<"reel" | "unit" | "index", number>>;
  readonly importances: readonly Importance[];
  /** The side of a window that breaks first, and how far the middle of scatter is from it, in standard deviations. */
  readonly breaks: { readonly check: string; readonly side: "least" | "most"; readonly beta: number } | undefined;
  readonly said: Said | "cannot fail as drawn" | "always";
  readonly words: string;
  /** The model itself at the failing point, where differences stood for something costly. */
  readonly atPoint:
    | { readonly gap: number; readonly unit: string; readonly sds: number; readonly agrees: boolean }
    | undefined;
  readonly measure: ToMeasure | undefined;
  /** Worst letter of what carries a tenth of it or more, the unknown to be measured among them. */
  readonly letter: Letter | undefined;
  readonly calls: number;
}
/** How often an index of a unit on a tape goes wrong. */
export interface Misfeeds {
  /** Chance per index, mean over pairs, unknowns at their medians. */
  readonly rate: number;
  readonly estimator: readonly [low: number, high: number];
  readonly belief: BeliefBand;
  readonly said: Said;
  readonly words: string;
  /** Chance per index of the median pair, and of the pairs at 90 and 99 %. */
  readonly medianPair: number;
  readonly pair90: number;
  readonly pair99: number;
  readonly allowance: number | undefined;
  /** Share of units, their reels averaged, and of pairs over the allowance; and of belief in which the mean is over it. */
  readonly unitsOver: number | undefined;
  readonly pairsOver: number | undefined;
  readonly beliefOver: number | undefined;
  /** Chance that a pair runs ten and a hundred thousand indexes clean. */
  readonly clean1e4: number;
  readonly clean1e5: number;
  readonly modes: readonly ModeRate[];
  /** Modes none of whose checks apply here. */
  readonly notJudged: readonly string[];
  readonly draws: number;
  readonly calls: number;
}
export interface MisfeedOptions {
  /** The project's belief draws, and their weights; all alike where left out. */
  readonly deviates: Deviates;
  readonly weights?: Float64Array;
  /** Belief draws for the bands. */
  readonly draws?: number;
  /** Checks beside the register's, such as one made for this scene. */
  readonly checks?: readonly Check[];
  readonly modes?: readonly Mode[];
  readonly seed?: number;
  /** What the chance of a misfeed may be; the project's own where left out. */
  readonly allowance?: number;
  readonly progress?: (done: number, of: number) => void;
}

/** Rates below that are not told apart: once in a thousand million indexes. */
export const leastRate = 1e-9;
const enough = 0.3;

interface Studied {
  readonly mode: Mode;
  readonly states: ModeStates;
  readonly event: RareEvent;
  /** Nothing but limits of a drawing scatters, and they leave every window open. */
  readonly never: boolean;
  /** Chance of the mode at the belief draws. */
  readonly rates: Float64Array;
}

/**
 * Misfeeds of one unit on one tape: every mode a set of windows that an index may break (modes.ts), over what scatters between reels, units and
 * indexes; rates are per index, mean over pairs. Belief is no scatter: it stands outside, and every rate is shown with its band.
 *
 * At the belief median the rare-event estimator answers (study/rare.ts), for each mode and for all together. At the belief draws
 * nearest failing points with 150 draws about them do (study/two-levels.ts), and the modes are taken for independent there. Costly models
 * stand by their differences, and are computed at the failing point, where the finding says whether they agree.
 *
 * A broken window is taken for a misfeed. Several windows are drawn on the safe side, so rates are upper bounds as far as those go.
 */
export function* misfeedsInSteps(scene: Scene, options: MisfeedOptions): Steps<Misfeeds> {
  const { deviates, weights, draws = 100, seed = 1, progress } = options;
  const register = [...allChecks, checkMiss, ...(options.checks ?? [])];
  const allowance = options.allowance ?? allowanceOf(scene);
  const applicable: { mode: Mode; sides: Side[] }[] = [];
  const notJudged: string[] = [];
  for (const mode of options.modes ?? allModes) {
    const sides = mode.checks.flatMap((id) => {
      const check = register.findLast((c) => c.id === id);
      return check ? sidesOf(check, scene) : [];
    });
    if (sides.length > 0) applicable.push({ mode, sides });
    else notJudged.push(mode.id);
  }
  const of = applicable.length * (draws + 20) + 40;
  let done = 0;
  const note = (by: number): void => {
    done += by;
    progress?.(Math.min(done, of), of);
  };
  const picked = pickedDraws(weights, draws);
  const studied: Studied[] = [];
  for (const { mode, sides } of applicable) {
    yield;
    const states = new ModeStates(scene, sides);
    const event = yield* rareEventInSteps(states, {
      seed,
      least: leastRate,
      ...(states.costly ? { scout: 2000 } : {}),
    });
    const never = event.p === 0 && states.cannotFail;
    note(20);
    const rates = yield* ratesOverBelief(states, deviates, picked, event, seed);
    note(draws);
    studied.push({ mode, states, event, never, rates });
  }
  const rates: ModeRate[] = [];
  for (const s of studied) rates.push(modeRate(s, deviates, picked));

  const open = studied.filter(({ event }) => event.p >= leastRate);
  const states = new ModeStates(
    scene,
    open.flatMap(({ states: { sides } }) => sides),
  );
  const together =
    open.length === 1 ? open[0]!.event : yield* rareEventInSteps(states, { seed: seed + 1, least: leastRate });
  note(20);
  const at = (level: string) => states.axes.flatMap((a, i) => (a.level === level ? [i] : []));
  const [reel, unit] = [at("reel"), at("unit")];
  const two =
    open.length > 0 && states.dimensions > 0
      ? yield* twoLevelsInSteps(states, { seed, reel, unit, ...(allowance === undefined ? {} : { limit: allowance }) })
      : undefined;
  note(20);
  const alike = together.p;
  const totals = Float64Array.from({ length: draws }, (_, k) => {
    let clean = 1;
    for (const { rates: each } of studied) clean *= 1 - each[k]!;
    return 1 - clean;
  });
  const even = new Float64Array(draws).fill(1);
  const none = open.length === 0;
  const below = studied.reduce((s, { event, never }) => s + (never ? 0 : event.band[1]), 0);
  const over = (p: number): number => (allowance !== undefined && p > allowance ? 1 : 0);
  return {
    rate: alike,
    estimator: none ? [0, below] : together.band,
    belief: bandOver(totals, even),
    said: none
      ? studied.some(({ event }) => event.said === "none found")
        ? "none found"
        : "nothing moves them"
      : together.said,
    words: none
      ? studied.length === 0
        ? "no mode is judged here"
        : below > 0
          ? `none found, below ${below.toPrecision(1)} at 95 %`
          : "cannot fail as drawn: nothing scatters"
      : together.words,
    medianPair: two?.median ?? alike,
    pair90: two?.p90 ?? alike,
    pair99: two?.p99 ?? alike,
    allowance,
    unitsOver: allowance === undefined ? undefined : (two?.unitsOver ?? over(alike)),
    pairsOver: allowance === undefined ? undefined : (two?.pairsOver ?? over(alike)),
    beliefOver: allowance === undefined ? undefined : totals.filter((p) => p > allowance).length / draws,
    clean1e4: two?.clean(1e4) ?? power(1 - alike, 1e4),
    clean1e5: two?.clean(1e5) ?? power(1 - alike, 1e5),
    modes: rates,
    notJudged,
    draws,
    calls:
      studied.reduce((s, { event }) => s + event.calls, 0) + (open.length > 1 ? together.calls : 0) + (two?.calls ?? 0),
  };
}
export const misfeeds = (scene: Scene, options: MisfeedOptions): Misfeeds => finished(misfeedsInSteps(scene, options));

const allowanceOf = ({ requirement }: Scene): number | undefined => requirement.misfeeds;

/** Belief draws that stand for all by their weights: one in every equal slice of weight. */
function pickedDraws(weights: Float64Array | undefined, draws: number): Uint32Array {
  const out = new Uint32Array(draws);
  if (!weights) return out.map((_, k) => Math.floor(((k + 0.5) * beliefDraws) / draws));
  const total = weights.reduce((a, b) => a + b, 0);
  let sum = 0;
  let i = -1;
  for (let k = 0; k < draws; k++) {
    const to = ((k + 0.5) * total) / draws;
    while (sum < to && i < weights.length - 1) sum += weights[++i]!;
    out[k] = Math.max(0, i);
  }
  return out;
}
/** Draws about the nearest failing points, at each belief draw. */
const drawsEach = 150;
/** The mode's chance at the belief draws: nearest failing points for all of them at once, then draws about those. */
function* ratesOverBelief(
  states: ModeStates,
  deviates: Deviates,
  picked: Uint32Array,
  event: RareEvent,
  seed: number,
): Steps<Float64Array> {
  const wide = states.overBelief();
  const outer = states.unknowns.map((_, i) => states.dimensions + i);
  const columns = states.unknowns.map((g) => beliefColumn(deviates, g));
  const theta = Array.from(picked, (draw) => Float64Array.from(columns, (c) => c[draw]!));
  const instead = event.first.map((f) => (f.converged && f.beta > 0 ? f.point : undefined));
  return yield* chancesAtInSteps(wide, outer, theta, drawsEach, new Stream(seed, "belief"), instead);
}

function bandOver(values: Float64Array, weights: Float64Array): BeliefBand {
  const at = (share: number) => weightedQuantile(values, weights, share);
  return { low: at(0.05), middle: at(0.5), high: at(0.95) };
}

function modeRate(s: Studied, deviates: Deviates, picked: Uint32Array): ModeRate {
  const { mode, states, event, never, rates } = s;
  const k = never ? undefined : likeliest(event);
  const first = k === undefined ? undefined : event.first[k];
  const shares = first ? sharesOf(first, event) : undefined;
  const levels = { reel: 0, unit: 0, index: 0 };
  const importances: Importance[] = [];
  shares?.forEach((share, i) => {
    const { given, level } = states.axes[i]!;
    levels[level] += share;
    if (share >= 0.005)
      importances.push({ address: given.address, text: given.text, letter: given.letter, level, share });
  });
  importances.sort((a, b) => b.share - a.share || (a.address < b.address ? -1 : 1));
  const measure = toMeasure(states, deviates, picked, rates.map(betaOf));
  const letters = [
    ...importances.filter(({ share }) => share >= 0.1).map(({ letter }) => letter),
    ...(measure ? [measure.letter] : []),
  ];
  return {
    id: mode.id,
    title: mode.title,
    blames: mode.blames,
    checks: [...new Set(states.sides.map(({ check }) => check.id))],
    rate: event.p,
    estimator: never ? [0, 0] : event.band,
    belief: bandOver(rates, new Float64Array(rates.length).fill(1)),
    levels,
    importances,
    breaks:
      first && k !== undefined
        ? { check: states.sides[k]!.check.id, side: states.sides[k]!.sign > 0 ? "least" : "most", beta: first.beta }
        : undefined,
    ...verified(states, first, k, event, never),
    measure,
    letter: letters.length > 0 ? worstLetter(letters) : undefined,
    calls: event.calls,
  };
}
/** The limit state that fails first: by the failing draws, or by the least distance. */
function likeliest({ split, first }: RareEvent): number | undefined {
  let best: number | undefined;
  for (let k = 0; k < first.length; k++)
    if (
      best === undefined ||
      split[k]! > split[best]! ||
      (split[k] === split[best] && first[k]!.beta < first[best]!.beta)
    )
      best = k;
  return best;
}
/** Shares at the failing point: by its slope; by the place of the nearest centre where slopes lead nowhere. */
function sharesOf(first: FirstOrder, { centres }: RareEvent): Float64Array {
  const near = centres[0];
  if (first.converged || !near) return first.importances;
  const square = near.reduce((s, v) => s + v * v, 0);
  return square > 0 ? near.map((v) => (v * v) / square) : first.importances;
}

/** The mode's words; with the costly models computed at the failing point, and what they say there. */
function verified(
  states: ModeStates,
  first: FirstOrder | undefined,
  k: number | undefined,
  event: RareEvent,
  never: boolean,
): Pick<ModeRate, "said" | "words" | "atPoint"> {
  const { said, words } = event;
  const nothing = said === "nothing moves them";
  if (never || (nothing && event.p === 0))
    return {
      said: "cannot fail as drawn",
      words: nothing ? words : "cannot fail as drawn: all limits on their unkind side leave the windows open",
      atPoint: undefined,
    };
  if (nothing) return { said: "always", words, atPoint: undefined };
  if (!states.costly || !first?.converged || k === undefined || event.p < leastRate)
    return { said, words, atPoint: undefined };
  const gap = states.truly(first.point)[k]!;
  const { value } = states.sides[k]!;
  // The scale of the gap at the point: what one standard deviation along the way there is worth.
  const nearer = states.truly(first.point.map((v) => v * (1 - 1 / Math.max(1, Math.abs(first.beta)))))[k]!;
  const sds = Math.abs(gap) / Math.max(Math.abs(nearer - gap), 1e-300);
  const agrees = Number.isFinite(gap) && sds < enough;
  const text = `checked at the failing point: gap ${showValue(value, gap)}, ${sds.toFixed(1)} sd off`;
  return {
    said,
    words: `${words}; ${text}${agrees ? "" : ": the differences that stood for the costly models do not hold there"}`,
    atPoint: { gap, unit: shownUnit(value), sds, agrees },
  };
}

/** A chance as a distance; none and all stand at the least that is told. */
const betaOf = (p: number): number => -phiInverse(Math.min(1 - leastRate, Math.max(leastRate, p)));

/** The unknown with which the mode's beta goes most, over the belief draws; none where nothing carries a tenth. */
function toMeasure(
  states: ModeStates,
  deviates: Deviates,
  picked: Uint32Array,
  betas: Float64Array,
): ToMeasure | undefined {
  let best: ToMeasure | undefined;
  for (const given of states.unknowns) {
    const column = beliefColumn(deviates, given);
    const carries = squaredCorrelation(
      Float64Array.from(picked, (k) => column[k]!),
      betas,
    );
    if (carries < Math.max(0.1, best?.carries ?? 0)) continue;
    best = { address: given.address, symbol: given.symbol, text: given.text, letter: given.letter, carries };
  }
  return best;
}
function squaredCorrelation(x: Float64Array, y: Float64Array): number {
  const n = x.length;
  let [sx, sy, sxx, syy, sxy] = [0, 0, 0, 0, 0];
  for (let i = 0; i < n; i++) {
    sx += x[i]!;
    sy += y[i]!;
    sxx += x[i]! ** 2;
    syy += y[i]! ** 2;
    sxy += x[i]! * y[i]!;
  }
  const v = (sxx - (sx * sx) / n) * (syy - (sy * sy) / n);
  return v > 0 ? (sxy - (sx * sy) / n) ** 2 / v : 0;
}
