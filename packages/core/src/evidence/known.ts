import type { Check } from "../quantity/check.ts";
import { chosen } from "../quantity/check.ts";
import type { Scene } from "../scene.ts";
import { decide } from "../study/allowance.ts";
import { beliefDraws, Cell } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { shareHolding, verdictOf } from "../coverage/verdict.ts";

export type KnownWord = "runs" | "fails" | "not good enough";
/** What a unit is known to do on a tape; counts are of reels. */
export interface KnownCount {
  readonly unit: string;
  readonly tape: string;
  readonly result: KnownWord;
  readonly run: number;
  readonly refused: number;
}
/** What the checks say of a known unit on its tape, before its record is weighed in. */
export interface KnownChances {
  /** Hard checks with the chance over scatter that each breaks, at every belief draw. */
  readonly checks: readonly { readonly id: string; readonly chance: Float64Array; readonly share: number }[];
  /** Share of belief in which every hard check holds. */
  readonly share: number;
  /** Values of all checks as written, by check. */
  readonly values: Readonly<Record<string, number>>;
}

export function knownChances(scene: Scene, checks: readonly Check[], deviates: Deviates): KnownChances {
  const cell = new Cell(scene, checks);
  const deciding = decide(cell, deviates);
  const even = new Float64Array(beliefDraws).fill(1 / beliefDraws);
  const hard = cell.checks.flatMap((check, c) => (check.severity === "S" ? [c] : []));
  const nominal = new Realiser(scene, cell.quantities).run(asWritten);
  return {
    checks: hard.map((c) => ({ id: cell.checks[c]!.id, chance: deciding[c]!.chance, share: shareHolding([deciding[c]!.gap], even) })),
    share: shareHolding(hard.map((c) => deciding[c]!.gap), even),
    values: Object.fromEntries(cell.checks.map((check) => [check.id, nominal.number(chosen(check.value, scene)!)])),
  };
}

/** How a known result stands to what the checks say without it. */
export type KnownStanding = "reproduced" | "open" | "contradicted";
/**
 * runs: reproduced by feeds, contradicted by stops. fails: the other way round. not good enough: reproduced by stops or depends, contradicted by
 * feeds. Any other depends is open, which never counts as reproduced.
 */
export function standingOf(result: KnownWord, share: number): KnownStanding {
  const verdict = verdictOf(share);
  if (result === "not good enough") return verdict === "feeds" ? "contradicted" : "reproduced";
  if (verdict === "depends") return "open";
  return (result === "runs") === (verdict === "feeds") ? "reproduced" : "contradicted";
}

/** Belief weighed by the record of known units. */
export interface Weighed {
  /** Weight of each belief draw; they sum to 1. */
  readonly weights: Float64Array;
  /** How many even draws they are worth. */
  readonly effective: number;
  /** Checks that the record contradicts: they are left out of it and can't stop a tape. */
  readonly contradicted: readonly string[];
}
/** Fewer effective draws than this: the record contradicts the model. */
const fewestEffective = 200;

/**
 * Weighs the belief draws by the likelihood of each record's count of refused reels.
 *
 *     runs   P(X <= k),   fails  P(X >= k),   X Poisson of mean n p
 *
 * n reels run, k refused, p chance that a reel breaks some hard check's window at that belief draw (1 - product of the checks' own). The count
 * bounds one side only: reels are refused for other reasons too. `not good enough` weighs nothing. A check that stops what runs, or whose record
 * leaves fewer than 200 effective draws, is contradicted: it is named and left out, and the rest is weighed again.
 */
export function weigh(records: readonly (KnownCount & { readonly chances: KnownChances })[]): Weighed {
  const contradicted = new Set<string>();
  for (const { result, chances } of records) if (result === "runs") for (const c of chances.checks) if (verdictOf(c.share) === "stops") contradicted.add(c.id);
  for (;;) {
    const weights = weightsBy(records, (id) => !contradicted.has(id));
    const effective = effectiveDraws(weights);
    if (effective >= fewestEffective) return { weights, effective, contradicted: [...contradicted] };
    const ids = [...new Set(records.flatMap((r) => r.chances.checks.map((c) => c.id)))].filter((id) => !contradicted.has(id));
    const worst = ids.map((id) => ({ id, left: effectiveDraws(weightsBy(records, (one) => one === id)) })).sort((a, b) => a.left - b.left)[0];
    if (!worst) return { weights: even(), effective: beliefDraws, contradicted: [...contradicted] };
    contradicted.add(worst.id);
  }
}
const even = (): Float64Array => new Float64Array(beliefDraws).fill(1 / beliefDraws);

function weightsBy(records: readonly (KnownCount & { readonly chances: KnownChances })[], counts: (check: string) => boolean): Float64Array {
  const log = new Float64Array(beliefDraws);
  for (const { result, run, refused, chances } of records) {
    if (result === "not good enough" || run <= 0) continue;
    const mine = chances.checks.filter((c) => counts(c.id));
    for (let k = 0; k < beliefDraws; k++) {
      let holds = 1;
      for (const { chance } of mine) holds *= 1 - chance[k]!;
      const mean = run * (1 - holds);
      log[k]! += Math.log(Math.max(1e-300, result === "runs" ? poissonAtMost(refused, mean) : 1 - poissonAtMost(refused - 1, mean)));
    }
  }
  const top = Math.max(...log);
  let total = 0;
  const weights = log.map((l) => Math.exp(l - top));
  for (const w of weights) total += w;
  return weights.map((w) => w / total);
}
/** Kish's effective number of draws: (sum w)^2 / sum w^2. */
export function effectiveDraws(weights: Float64Array): number {
  let sum = 0;
  let squares = 0;
  for (const w of weights) {
    sum += w;
    squares += w * w;
  }
  return (sum * sum) / squares;
}
/** P(X <= k) for a Poisson variable; 0 for k below 0. */
export function poissonAtMost(k: number, mean: number): number {
  if (k < 0) return 0;
  // Summed from the largest term down in logarithms: neither e^-mean nor mean^k may over- or underflow.
  let sum = 0;
  let term = -mean;
  const terms: number[] = [term];
  for (let i = 1; i <= Math.min(k, 100_000); i++) {
    term += Math.log(mean) - Math.log(i);
    terms.push(term);
  }
  if (mean === 0) return 1;
  const top = Math.max(...terms);
  for (const t of terms) sum += Math.exp(t - top);
  return Math.min(1, Math.exp(top + Math.log(sum)));
}
