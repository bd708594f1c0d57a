/**
 * What to find out next: every unknown on which wanted verdicts hang, what would settle it, the days that saves, and in which order.
 *
 * P counts belief alone (draws of what nobody knows, known units weighed in), never scatter. Where the draws of the checks are not at hand, a check is taken to hang on its decisive
 * unknown alone: P is one less its share, and fails on one side of it. Everything here follows from rows, weights and costs: after a result, ask again.
 */
import { cardFor, stopsSide, usualAnswer, whyNoCard } from "../card/card.ts";
import type { Held } from "../coverage/cure.ts";
import type { DecisiveFinding, TapeResult } from "../coverage/finding.ts";
import type { Verdict } from "../coverage/verdict.ts";
import { type Station, stations } from "../quantity/check.ts";
import { believing, endsOfGuess, phiInverse, unknownBetween } from "../quantity/law.ts";
import type { Deviates } from "../study/deviates.ts";
import { type BenchCosts, usualCosts } from "./costs.ts";
import { correlation, type Need, needsOfCard, needsOfPiece, togetherFrom } from "./needs.ts";
import { bestFirst, type TrialKind, type Weighed, weighed } from "./option.ts";
import { inOrder } from "./order.ts";
import { bestCut, type Cut, sideOf } from "./power.ts";
import { callsOfPiece, callsOfPrototype, callsOfReading, failing, type Stake, trialOf, worstOf } from "./stakes.ts";
import type { Trial, Worth } from "./worth.ts";

/** One wanted pair as it was judged; with what holds at which belief draw, where that is at hand. */
export interface Row {
  readonly result: TapeResult;
  readonly held?: Held;
}
export interface Belief {
  readonly weights: Float64Array;
  readonly deviates: Deviates;
}
/** One way to settle a question. */
export interface TrialOption extends Weighed {
  /** Id of the card, or the station that the piece keeps. */
  readonly name: string;
  /** Of hands at the bench; null where it is days of making. */
  readonly minutes: number | null;
}
/** A verdict that hangs on it. */
export interface Hanging {
  readonly unit: string;
  readonly tape: string;
  readonly W: number;
  readonly check: string;
  readonly station: Station;
  /** Belief that this check fails. */
  readonly fails: number;
  readonly tipping: number | null;
  readonly stops: Cut["stops"] | null;
}
export interface NeedsFirst {
  readonly address: string;
  readonly because: string;
}
export interface OpenQuestion {
  readonly address: string;
  readonly symbol: string;
  readonly asks: string;
  /** Worst first. */
  readonly hangs: readonly Hanging[];
  /** Belief that some of them fails. */
  readonly fails: number;
  /** Where that comes from: the draws, or the shares of the findings. */
  readonly from: "draws" | "shares";
  readonly guess: DecisiveFinding["guess"];
  readonly shownIn: string;
  readonly words?: readonly [string, string];
  /** Best first. */
  readonly trials: readonly TrialOption[];
  /** Why no card measures it, where none does. */
  readonly noCard?: string;
  readonly needs: readonly NeedsFirst[];
}
export interface NextQuestions {
  /** Worth it whatever P is in its range, in the order that is advised. */
  readonly ranked: readonly OpenQuestion[];
  readonly open: readonly OpenQuestion[];
  readonly dropped: readonly OpenQuestion[];
  /** Addresses of the ranked, in both orders. */
  readonly orders: Readonly<Record<"series" | "independent", readonly string[]>>;
  readonly advised: "series" | "independent";
  readonly because: string;
  /** Pairs on which nothing is open. */
  readonly settled: readonly { readonly unit: string; readonly tape: string; readonly verdict: Verdict }[];
}

interface Asked {
  readonly result: TapeResult;
  readonly check: string;
  readonly station: Station;
  readonly share: number;
  readonly decisive: DecisiveFinding;
  readonly holds?: Uint8Array;
}
/** The hard checks that keep an open pair from feeding, each with the unknown it hangs on. */
function askedBy({ result, held }: Row): Asked[] {
  if (result.verdict !== "depends") return [];
  const findings = result.first.flatMap((id) => result.findings.find((f) => f.check === id) ?? []);
  const open = findings.filter((f) => f.verdict === "depends");
  return (open.length > 0 ? open : findings.slice(0, 1)).flatMap((f) => {
    if (!f.decisive) return [];
    const holds = held?.get(f.check);
    const share = f.share ?? result.share ?? 0.5;
    return [{ result, check: f.check, station: f.station, share, decisive: f.decisive, ...(holds ? { holds } : {}) }];
  });
}

export interface Asking {
  readonly costs?: BenchCosts;
  /** Which order to give; without it the one that fits. */
  readonly order?: "series" | "independent";
}
export function openQuestions(
  rows: readonly Row[],
  belief?: Belief,
  { costs = usualCosts, order }: Asking = {},
): NextQuestions {
  const asked = rows.flatMap(askedBy);
  const byAddress = new Map<string, Asked[]>();
  for (const one of asked) byAddress.set(one.decisive.address, [...(byAddress.get(one.decisive.address) ?? []), one]);
  const found = [...byAddress.values()].map((list) => questionOf(list, belief, costs));
  const inGroup = (verdict: Worth["verdict"]): Found[] =>
    found.filter((f) => f.question.trials[0]!.standing === verdict);
  const ranked = withNeeds(inGroup("worth it"), belief?.weights);
  const steps = ranked.map(({ address, trials: [best], needs }) => ({
    id: address,
    saved: best!.worth.saved,
    stop: best!.worth.stop,
    days: best!.cost,
    needs: needs.map((n) => n.address),
  }));
  const orders = { series: inOrder(steps, "first stop ends it"), independent: inOrder(steps, "each by itself") };
  const units = [...new Set(ranked.flatMap((q) => q.hangs.map((h) => h.unit)))];
  const fits = units.length > 1 ? "independent" : "series";
  const advised = order ?? fits;
  const key = (f: Found): number => f.question.trials[0]!.worth.saved;
  const rest = (verdict: Worth["verdict"]): OpenQuestion[] =>
    inGroup(verdict)
      .sort((a, b) => key(b) - key(a))
      .map((f) => f.question);
  return {
    ranked: orders[advised].map((id) => ranked.find((q) => q.address === id)!),
    open: rest("open"),
    dropped: rest("not worth it"),
    orders,
    advised,
    because: reason(advised, units),
    settled: rows.flatMap(({ result: { unit, tape, verdict } }) =>
      verdict === "feeds" || verdict === "stops" ? [{ unit, tape, verdict }] : [],
    ),
  };
}
function reason(advised: NextQuestions["advised"], units: readonly string[]): string {
  if (advised === "series")
    return `by days saved over the chance of a stop: what fails first sends ${units.length === 1 ? units[0]! : "the design"} back to the drawing, and the rest is asked anew`;
  return units.length > 1
    ? `by days saved over days spent: the questions concern ${units.length} units, so one answer does not end the others`
    : "by days saved over days spent: each question taken by itself";
}

/** A question, and at which draws something that hangs on it fails. */
interface Found {
  readonly question: OpenQuestion;
  readonly fails: Uint8Array;
  readonly firstNeeds: readonly Need[];
  readonly card: string | undefined;
}
/** Quantiles that stand for belief where no draws are at hand. */
const quantiles = 200;

function questionOf(list: readonly Asked[], belief: Belief | undefined, costs: BenchCosts): Found {
  const { decisive } = list[0]!;
  const { address, guess, words, shownIn, symbol } = decisive;
  const drawn = belief !== undefined && list.every((a) => a.holds?.length === belief.weights.length);
  const value = words ? (z: number) => z : believing(unknownBetween(guess.low, guess.high));
  const n = drawn ? belief.weights.length : quantiles;
  const z = drawn
    ? belief.deviates.normal(`belief ${address}`, n)
    : Float64Array.from({ length: n }, (_, k) => phiInverse((k + 0.5) / n));
  const values = z.map(value);
  const weights = drawn ? belief.weights : new Float64Array(n).fill(1 / n);
  const stakes = list.map((a): Stake => {
    const { unit, tape } = a.result;
    const holds = drawn ? a.holds! : heldAlone(a, n);
    const t = a.decisive.tipping;
    const cut = drawn && t !== null && !words ? sideOf(t, values, holds, weights) : bestCut(values, holds, weights);
    return { unit, tape, check: a.check, station: a.station, holds, ...(cut ? { cut } : {}) };
  });
  const worst = worstOf(stakes, weights);
  const card = cardFor(address);
  const trials: TrialOption[] = [];
  const put = (kind: TrialKind, name: string, minutes: number | null, trial: Trial): void =>
    void trials.push({ ...weighed(kind, trial), name, minutes });
  if (card) {
    const error = errorOf(card, guess, words !== undefined);
    // A limit of judgement is found on a piece that has to be made first.
    const made = card.method.id.startsWith("trial") ? costs.piece.days : 0;
    const days = made + card.method.minutes / 60 / costs.hours;
    put(
      "card",
      card.id,
      card.method.minutes,
      trialOf(stakes, weights, callsOfReading(stakes, values, error), days, costs),
    );
  }
  const { station } = stakes[worst]!;
  put(
    "trial piece",
    stations[station],
    null,
    trialOf(stakes, weights, callsOfPiece(stakes, worst, costs.piece), costs.piece.days, costs),
  );
  put(
    "whole prototype",
    "all",
    null,
    trialOf(stakes, weights, callsOfPrototype(stakes, costs.prototype), costs.prototype.days, costs),
  );
  trials.sort(bestFirst);
  const best = trials[0]!;
  const hangs = list
    .map((a, i): Hanging => {
      const { unit, tape, W } = a.result;
      const { cut, holds } = stakes[i]!;
      const { tipping } = a.decisive;
      return {
        unit,
        tape,
        W,
        check: a.check,
        station: a.station,
        fails: failing(holds, weights),
        tipping,
        stops: cut?.stops ?? null,
      };
    })
    .sort((a, b) => b.fails - a.fails);
  const why = card ? undefined : (whyNoCard(address) ?? "no card measures it");
  return {
    question: {
      address,
      symbol,
      asks: card?.asks ?? `Does ${hangs[0]!.check} hold on ${hangs[0]!.tape}?`,
      hangs,
      fails: best.fails,
      from: drawn ? "draws" : "shares",
      guess,
      shownIn,
      ...(words ? { words } : {}),
      trials,
      ...(why === undefined ? {} : { noCard: why }),
      needs: [],
    },
    fails: Uint8Array.from({ length: n }, (_, k) => (stakes.some((s) => !s.holds[k]) ? 1 : 0)),
    firstNeeds:
      best.kind === "card" ? needsOfCard(best.name) : best.kind === "trial piece" ? needsOfPiece(station) : [],
    card: card?.id,
  };
}
/** A check that hangs on its decisive unknown alone, at even quantiles of it. */
function heldAlone({ share, decisive }: Asked, n: number): Uint8Array {
  const above = stopsSide(decisive) !== "below";
  return Uint8Array.from({ length: n }, (_, k) => (above === (k + 0.5) / n < (above ? share : 1 - share) ? 1 : 0));
}
/** Standard uncertainty of a card's answer at a value. What is seen is seen: a belief switch has none. */
function errorOf(
  card: NonNullable<ReturnType<typeof cardFor>>,
  guess: DecisiveFinding["guess"],
  seen: boolean,
): (value: number) => number {
  if (seen) return () => 0;
  const { value, within } = usualAnswer(card);
  const share = within / Math.abs(value) / endsOfGuess;
  // Near nought a share says too little: at least that of a tenth of the guess's greater end.
  const least = (share * Math.max(Math.abs(guess.low), Math.abs(guess.high))) / 10;
  return (v) => Math.max(least, share * Math.abs(v));
}

/** With what must come first: by what cards and pieces need, and the cheaper of two that fail together. */
function withNeeds(found: readonly Found[], weights: Float64Array | undefined): OpenQuestion[] {
  return found.map((f) => {
    const needs = f.firstNeeds.flatMap(({ card, because }): NeedsFirst[] =>
      found.flatMap((g) => (g !== f && g.card === card ? [{ address: g.question.address, because }] : [])),
    );
    const days = f.question.trials[0]!.cost;
    for (const g of found) {
      if (g === f || !weights || g.question.trials[0]!.cost >= days) continue;
      if (f.fails.length !== weights.length || g.fails.length !== weights.length) continue;
      if (needs.some((n) => n.address === g.question.address)) continue;
      const r = correlation(f.fails, g.fails, weights);
      if (r >= togetherFrom)
        needs.push({
          address: g.question.address,
          because: `they fail together (correlation ${r.toFixed(1)}), and it costs less`,
        });
    }
    return { ...f.question, needs };
  });
}
