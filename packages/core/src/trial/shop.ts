/**
 * A shop that does not know its truth, and tries things until it decides: to promise what is wanted of its unit, or to draw it anew.
 *
 * It starts from belief draws, tries, weighs them by what came out, and asks anew. What surely stops at the start (share to 5 %) is no longer wanted. As soon as some wanted pair surely
 * stops the unit goes back to the drawing, which ends the series; else it goes on until nothing is worth trying, and promises where going on costs less on average:
 * P late <= (1 - P) R for every pair. By our order what is worth it (option.ts) is tried first, then what is open and saves something. Days to a right decision: trials; late + further
 * for promises that break; R for a good design drawn anew. Drawing anew what fails costs nothing here: every way of trying pays for that alike.
 *
 * Readings err by a normal law about the truth; pieces and prototypes err by their stated chances. Readings that leave fewer than `fewest` even draws are taken as less sharp
 * until they leave that many: a truth beyond all draws must not leave belief on one of them.
 */

import type { Station } from "../quantity/check.ts";
import { explained } from "../study/decisive.ts";
import type { Stream } from "../study/stream.ts";
import { type BenchCosts, partKind } from "./costs.ts";
import { bestFirst, type TrialKind, weighed } from "./option.ts";
import { inOrder } from "./order.ts";
import { bestCut, type Cut, sideOf } from "./power.ts";
import { callsOfPiece, callsOfPrototype, callsOfReading, failing, type Stake, trialOf, worstOf } from "./stakes.ts";

export interface ShopUnknown {
  readonly address: string;
  /** Its value at each belief draw, and in truth. */
  readonly values: Float64Array;
  readonly truth: number;
  /** Days of its card, and the standard uncertainty of an answer as a share of the value. */
  readonly days: number;
  readonly error: number;
}
export interface ShopCheck {
  readonly id: string;
  readonly station: Station;
  readonly holds: Uint8Array;
  readonly truth: boolean;
  /** Places of the unknowns that it rests on, with their tipping values where they have one. */
  readonly rests: readonly (readonly [unknown: number, tipping: number | undefined])[];
}
export interface ShopPair {
  readonly unit: string;
  readonly tape: string;
  /** Hard checks. */
  readonly checks: readonly ShopCheck[];
}
export interface Shop {
  readonly unknowns: readonly ShopUnknown[];
  readonly pairs: readonly ShopPair[];
  readonly weights: Float64Array;
  readonly costs: BenchCosts;
  /** The same shop with a reading taken into its design: that unknown's draws and all that rests on them drawn anew. Without it the draws are weighed. */
  readonly taken?: (unknown: number, shown: number) => Shop;
}
/** Our order; the same trials in random order; every card that is asked for, whatever it is worth; the whole prototype before anything else. */
export const policies = [
  "our order",
  "same trials, random order",
  "every card, random order",
  "whole prototype first",
] as const;
export type Policy = (typeof policies)[number];
export interface ShopEnd {
  /** Days of trials, and with what the wrong decisions cost. */
  readonly tried: number;
  readonly days: number;
  readonly trials: number;
  readonly drawnAnew: boolean;
  /** Drawn anew although every wanted pair is good. */
  readonly forNothing: boolean;
  /** Pairs promised, and those of them that fail in truth. */
  readonly promised: number;
  readonly wrong: number;
}
/** Even draws that a reading leaves at least. */
const fewest = 20;
const mostTrials = 40;
/** Share of belief from which on a pair surely fails. */
const surely = 0.95;

export function runShop(begins: Shop, policy: Policy, stream: Stream): ShopEnd {
  const { costs } = begins;
  // What surely stops is known to, so nobody asks for it any more.
  const wanted = new Set(
    begins.pairs.filter((p) => failing(allHold(p, begins.weights.length), begins.weights) < surely).map((p) => p.tape),
  );
  const ofWanted = (of: Shop): Shop => ({ ...of, pairs: of.pairs.filter((p) => wanted.has(p.tape)) });
  let shop = ofWanted(begins);
  let weights: Float64Array = shop.weights.slice();
  const measured = new Set<number>();
  const built = new Set<string>();
  let [tried, trials] = [0, 0];
  const multiply = (by: (k: number) => number): void => {
    const next = weights.map((w, k) => w * by(k));
    const sum = next.reduce((a, b) => a + b, 0);
    // A result that no draw allows says that the model is wrong, not that everything is.
    if (sum > 0) weights = next.map((w) => w / sum);
  };
  const read = (u: number): void => {
    const { values, truth, error, days } = shop.unknowns[u]!;
    const shown = truth + errorAt(values, error)(truth) * stream.normal();
    if (shop.taken) shop = ofWanted(shop.taken(u, shown));
    else weights = weighedBy(weights, values, shown, error);
    measured.add(u);
    tried += days;
  };
  const tryPiece = ({ unit, tape, check }: Stake): void => {
    const one = shop.pairs.find((p) => p.unit === unit && p.tape === tape)!.checks.find((c) => c.id === check)!;
    judgeBy(one.truth, one.holds, costs.piece);
    built.add(`${unit}/${tape}/${check}`);
    tried += costs.piece.days;
  };
  const judgeBy = (
    truth: boolean,
    holds: Uint8Array,
    { catches, passesGood }: { readonly catches: number; readonly passesGood: number },
  ): void => {
    const stopped = stream.uniform() < (truth ? 1 - passesGood : catches);
    multiply((k) => (holds[k] ? (stopped ? 1 - passesGood : passesGood) : stopped ? catches : 1 - catches));
  };
  const prototype = (unit: string): void => {
    for (const pair of shop.pairs)
      if (pair.unit === unit) judgeBy(isGood(pair), allHold(pair, weights.length), costs.prototype);
    built.add(unit);
    tried += costs.prototype.days;
  };

  for (; trials < mostTrials; trials++) {
    if (shop.pairs.some((p) => failing(allHold(p, weights.length), weights) >= surely)) break;
    const asked = questions(shop, weights, measured);
    if (policy === "whole prototype first") {
      const unit = asked.flatMap((q) => q.stakes.map((s) => s.unit)).find((name) => !built.has(name));
      if (unit === undefined) break;
      prototype(unit);
      continue;
    }
    if (asked.length === 0) break;
    if (policy === "every card, random order") {
      const left = asked.filter((q) => q.unknown >= 0);
      if (left.length === 0) break;
      read(left[Math.floor(stream.uniform() * left.length)]!.unknown);
      continue;
    }
    const all = asked
      .flatMap((q) => bestOption(q, shop, weights, built) ?? [])
      .filter((o) => o.standing !== "not worth it" && o.worth.saved > 0);
    // What is open is tried when nothing is left that is surely worth it.
    const sure = all.filter((o) => o.standing === "worth it");
    const options = sure.length > 0 ? sure : all;
    const steps = options.map(({ worth, cost }, i) => ({
      id: `${i}`,
      saved: worth.saved,
      stop: worth.stop,
      days: cost,
      needs: [],
    }));
    const [first] =
      policy === "our order"
        ? inOrder(steps, seriesFor(asked))
        : steps.length > 0
          ? [`${Math.floor(stream.uniform() * steps.length)}`]
          : [];
    if (first === undefined) break;
    const { kind, question, worst } = options[Number(first)]!;
    if (kind === "card") read(question.unknown);
    else if (kind === "trial piece") tryPiece(question.stakes[worst]!);
    else prototype(question.stakes[worst]!.unit);
  }
  const { lost, ...end } = decided(shop, weights);
  return { ...end, tried, trials, days: tried + lost };
}
const seriesFor = (asked: readonly Question[]) =>
  new Set(asked.flatMap((q) => q.stakes.map((s) => s.unit))).size > 1
    ? ("each by itself" as const)
    : ("first stop ends it" as const);
/** In truth every hard check holds. */
const isGood = (pair: ShopPair): boolean => pair.checks.every((c) => c.truth);
const allHold = ({ checks }: ShopPair, n: number): Uint8Array =>
  Uint8Array.from({ length: n }, (_, k) => (checks.every((c) => c.holds[k]) ? 1 : 0));

/** Standard uncertainty of a reading at a value: a share of it, near nought of a tenth of the greatest that is believed. */
function errorAt(values: Float64Array, error: number): (value: number) => number {
  if (!(error > 0)) throw new RangeError(`a reading errs by ${error} of its value; it must be more than 0`);
  const least = values.reduce((most, v) => Math.max(most, Math.abs(v)), 0) / 10;
  return (v) => error * Math.max(Math.abs(v), least);
}
/** Belief after a reading, made less sharp where it would leave too few draws. */
export function weighedBy(weights: Float64Array, values: Float64Array, shown: number, error: number): Float64Array {
  for (let e = error; ; e *= 1.3) {
    const sd = errorAt(values, e);
    const log = values.map((v, k) => {
      const s = sd(v);
      return weights[k]! > 0
        ? Math.log(weights[k]!) - 0.5 * ((shown - v) / s) ** 2 - Math.log(s)
        : Number.NEGATIVE_INFINITY;
    });
    const top = log.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
    const next = log.map((l) => Math.exp(l - top));
    const sum = next.reduce((a, b) => a + b, 0);
    let squares = 0;
    for (let k = 0; k < next.length; k++) {
      next[k]! /= sum;
      squares += next[k]! ** 2;
    }
    const before = 1 / weights.reduce((a, w) => a + w * w, 0);
    if (1 / squares >= Math.min(fewest, 0.9 * before) || e > 1e3 * error) return next;
  }
}

interface Question {
  /** Place of the unknown; -1 where nothing is left to measure. */
  readonly unknown: number;
  readonly stakes: readonly Stake[];
}
/** What keeps pairs open, by the unknown that each check hangs on among those not yet measured. */
function questions({ pairs, unknowns }: Shop, weights: Float64Array, measured: ReadonlySet<number>): Question[] {
  const found = new Map<number, Stake[]>();
  for (const pair of pairs) {
    const share = 1 - failing(allHold(pair, weights.length), weights);
    if (!(share > 0.05 && share < 0.95)) continue;
    const open = pair.checks.filter((c) => {
      const p = failing(c.holds, weights);
      return p > 0.05 && p < 0.95;
    });
    const asked =
      open.length > 0
        ? open
        : [pair.checks.reduce((a, b) => (failing(b.holds, weights) > failing(a.holds, weights) ? b : a))];
    for (const { id, station, holds, rests } of asked) {
      let [unknown, most] = [-1, 0];
      let tipping: number | undefined;
      for (const [u, t] of rests) {
        if (measured.has(u)) continue;
        const carries = explained(unknowns[u]!.values, holds, weights);
        if (carries > most) [unknown, most, tipping] = [u, carries, t];
      }
      const cut = unknown < 0 ? undefined : cutOf(tipping, unknowns[unknown]!.values, holds, weights);
      const stake: Stake = { unit: pair.unit, tape: pair.tape, check: id, station, holds, ...(cut ? { cut } : {}) };
      found.set(unknown, [...(found.get(unknown) ?? []), stake]);
    }
  }
  return [...found].map(([unknown, stakes]) => ({ unknown, stakes }));
}
const cutOf = (
  tipping: number | undefined,
  values: Float64Array,
  holds: Uint8Array,
  weights: Float64Array,
): Cut | undefined =>
  tipping === undefined ? bestCut(values, holds, weights) : sideOf(tipping, values, holds, weights);

function bestOption(question: Question, { unknowns, costs }: Shop, weights: Float64Array, built: ReadonlySet<string>) {
  const { unknown, stakes } = question;
  const worst = worstOf(stakes, weights);
  const { unit, tape, check } = stakes[worst]!;
  const tries: { readonly kind: TrialKind; readonly days: number; readonly calls: Parameters<typeof trialOf>[2] }[] =
    [];
  if (unknown >= 0) {
    const { values, error, days } = unknowns[unknown]!;
    tries.push({ kind: "card", days, calls: callsOfReading(stakes, values, errorAt(values, error)) });
  }
  if (!built.has(`${unit}/${tape}/${check}`))
    tries.push({ kind: "trial piece", days: costs.piece.days, calls: callsOfPiece(stakes, worst, costs.piece) });
  if (!built.has(unit))
    tries.push({
      kind: "whole prototype",
      days: costs.prototype.days,
      calls: callsOfPrototype(stakes, costs.prototype),
    });
  return tries
    .map(({ kind, days, calls }) => ({
      ...weighed(kind, trialOf(stakes, weights, calls, days, costs)),
      question,
      worst,
    }))
    .sort(bestFirst)[0];
}

/** Promise or drawing board, and what that costs where it was wrong. */
function decided({ pairs, costs }: Shop, weights: Float64Array) {
  let [late, alarm, wrong] = [0, 0, 0];
  let go = true;
  for (const pair of pairs) {
    const p = failing(allHold(pair, weights.length), weights);
    const kinds = pair.checks
      .filter((c) => !c.truth || failing(c.holds, weights) > 0.02)
      .map((c) => partKind(c.station));
    const dear = (of: BenchCosts["late"]): number => Math.max(of.printed, ...kinds.map((k) => of[k]));
    if (p * dear(costs.late) > (1 - p) * dear(costs.falseAlarm)) go = false;
    alarm = Math.max(alarm, dear(costs.falseAlarm));
    if (isGood(pair)) continue;
    wrong++;
    late = Math.max(late, dear(costs.late));
  }
  if (go)
    return {
      drawnAnew: false,
      forNothing: false,
      promised: pairs.length,
      wrong,
      lost: wrong > 0 ? late + costs.further * (wrong - 1) : 0,
    };
  return { drawnAnew: true, forNothing: wrong === 0, promised: 0, wrong: 0, lost: wrong === 0 ? alarm : 0 };
}
