import type { Finding, TapeResult } from "../coverage/finding.ts";
import { drawnOf } from "../coverage/judge.ts";
import { shareHolding, verdictOf } from "../coverage/verdict.ts";
import type { Check } from "../quantity/check.ts";
import { chosen } from "../quantity/check.ts";
import type { Scene } from "../scene.ts";
import type { Deciding } from "../study/allowance.ts";
import { beliefDraws } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";
import { asWritten, Realiser } from "../study/realise.ts";

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
  const { cell, deciding } = drawnOf({ scene, checks, deviates });
  return chancesFrom(scene, cell.checks, deciding);
}
/** The same from what has been drawn of the checks that apply, in their order. */
export function chancesFrom(scene: Scene, checks: readonly Check[], deciding: readonly Deciding[]): KnownChances {
  const even = new Float64Array(beliefDraws).fill(1 / beliefDraws);
  const hard = checks.flatMap((check, c) => (check.severity === "S" ? [c] : []));
  const values = checks.map((check) => chosen(check.value, scene)!);
  const nominal = new Realiser(scene, values).run(asWritten);
  return {
    checks: hard.map((c) => ({
      id: checks[c]!.id,
      chance: deciding[c]!.chance,
      share: shareHolding([deciding[c]!.gap], even),
    })),
    share: shareHolding(
      hard.map((c) => deciding[c]!.gap),
      even,
    ),
    values: Object.fromEntries(checks.map((check, c) => [check.id, nominal.number(values[c]!)])),
  };
}

/**
 * Sets beside each finding the known running unit and tape whose value is nearest, as a ratio that needs no limit; `chances` of every
 * record.
 */
export function withNearest(
  result: TapeResult,
  known: readonly Pick<KnownCount, "unit" | "tape" | "result">[],
  chances: readonly Pick<KnownChances, "values">[],
): TapeResult {
  const findings = result.findings.map((f): Finding => {
    if (f.value === null || !(f.value > 0)) return f;
    const near = known
      .flatMap((record, i) => {
        const v = chances[i]!.values[f.check];
        return record.result === "runs" && v !== undefined && v > 0
          ? [{ unit: record.unit, tape: record.tape, ratio: f.value! / v }]
          : [];
      })
      .sort((a, b) => Math.abs(Math.log(a.ratio)) - Math.abs(Math.log(b.ratio)))[0];
    return near ? { ...f, nearest: near } : f;
  });
  return { ...result, findings };
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
  /** Records of failure that the checks can't account for, as "unit on tape": no check is to blame, and they are not weighed in. */
  readonly leftOut: readonly string[];
}
type Recorded = KnownCount & { readonly chances: KnownChances };
/** Fewer effective draws than this: the record contradicts the model. */
const fewestEffective = 200;
/** A record less likely than this over all of belief contradicts checks that together stop what runs, or feed what fails. */
const leastLikely = 0.01;

/**
 * Weighs the belief draws by the likelihood of each record's count of refused reels.
 *
 *     runs   P(X <= k),   fails  P(X >= k),   X Poisson of mean n p
 *
 * n reels run, k refused, p chance that a reel breaks some hard check's window at that belief draw (1 - product of the checks' own). The count
 * bounds one side only: reels are refused for other reasons too. `not good enough` weighs nothing.
 *
 * A check that stops what runs, or whose record leaves fewer than 200 effective draws, is contradicted: it is named and left out, and the
 * rest is weighed again. So is the one with the least share where checks stop what runs only together. A record of failure that the checks
 * do not foresee (fewer than 200 draws left by it alone, or less likely than 1 % where all feed) blames no check: it is named and left out.
 */
export function weigh(records: readonly Recorded[]): Weighed {
  const counted = records.filter((r) => r.result !== "not good enough" && r.run > 0);
  const unforeseen = new Set(counted.filter((r) => r.result === "fails" && isUnforeseen(r)));
  const weighed = counted.filter((r) => !unforeseen.has(r));
  const running = records.filter((r) => r.result === "runs");
  const contradicted = new Set(
    running.flatMap(({ chances }) => chances.checks.filter((c) => verdictOf(c.share) === "stops").map((c) => c.id)),
  );
  const stands = (id: string): boolean => !contradicted.has(id);
  for (const record of running) {
    if (verdictOf(record.chances.share) !== "stops" || record.run <= 0) continue;
    while (meanLikelihood(record, stands) < leastLikely) {
      const least = record.chances.checks
        .filter((c) => stands(c.id))
        .sort((a, b) => a.share - b.share || (a.id < b.id ? -1 : 1))[0];
      if (!least) break;
      contradicted.add(least.id);
    }
  }
  const result = (weights: Float64Array): Weighed => ({
    weights,
    effective: effectiveDraws(weights),
    contradicted: [...contradicted],
    leftOut: [...unforeseen].map(({ unit, tape }) => `${unit} on ${tape}`),
  });
  for (;;) {
    const weights = weightsBy(weighed, stands);
    if (effectiveDraws(weights) >= fewestEffective) return result(weights);
    const ids = [...new Set(weighed.flatMap((r) => r.chances.checks.map((c) => c.id)))].filter(stands);
    const worst = ids
      .map((id) => ({ id, left: effectiveDraws(weightsBy(weighed, (one) => one === id)) }))
      .sort((a, b) => a.left - b.left)[0];
    if (!worst) return result(new Float64Array(beliefDraws).fill(1 / beliefDraws));
    contradicted.add(worst.id);
  }
}

/** Too few belief draws account for a failure, or none does well where all feed. */
const isUnforeseen = (record: Recorded): boolean =>
  effectiveDraws(weightsBy([record], () => true)) < fewestEffective ||
  (verdictOf(record.chances.share) === "feeds" && meanLikelihood(record, () => true) < leastLikely);

/** Logarithm of a record's likelihood at each belief draw, by the checks that count. */
function logLikelihood({ result, run, refused, chances }: Recorded, counts: (check: string) => boolean): Float64Array {
  const mine = chances.checks.filter((c) => counts(c.id));
  return Float64Array.from({ length: beliefDraws }, (_, k) => {
    let holds = 1;
    for (const { chance } of mine) holds *= 1 - chance[k]!;
    const mean = run * (1 - holds);
    return Math.max(lowest, result === "runs" ? logAtMost(refused, mean) : logAtLeast(refused, mean));
  });
}
/** Stands for the logarithm of 0. */
const lowest = -1e9;
const meanLikelihood = (record: Recorded, counts: (check: string) => boolean): number =>
  logLikelihood(record, counts).reduce((sum, l) => sum + Math.exp(l), 0) / beliefDraws;

function weightsBy(records: readonly Recorded[], counts: (check: string) => boolean): Float64Array {
  const log = new Float64Array(beliefDraws);
  for (const record of records)
    logLikelihood(record, counts).forEach((l, k) => {
      log[k]! += l;
    });
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
export const poissonAtMost = (k: number, mean: number): number => Math.min(1, Math.exp(logAtMost(k, mean)));
/** P(X >= k) for a Poisson variable; 1 for k up to 0. Keeps its digits where it is small. */
export const poissonAtLeast = (k: number, mean: number): number => Math.min(1, Math.exp(logAtLeast(k, mean)));

const mostTerms = 100_000;
/** Summed from the terms' logarithms: neither e^-mean nor mean^k may over- or underflow. */
function logAtMost(k: number, mean: number): number {
  if (k < 0) return Number.NEGATIVE_INFINITY;
  if (mean === 0) return 0;
  let term = -mean;
  const terms: number[] = [term];
  for (let i = 1; i <= Math.min(k, mostTerms); i++) {
    term += Math.log(mean) - Math.log(i);
    terms.push(term);
  }
  return logOfSum(terms);
}
function logAtLeast(k: number, mean: number): number {
  if (k <= 0) return 0;
  if (mean === 0) return Number.NEGATIVE_INFINITY;
  if (mean >= k) return Math.log1p(-Math.exp(Math.min(0, logAtMost(k - 1, mean))));
  // Below the mean of the law the tail's terms fall from the first on: 1 less the rest would lose all digits.
  let term = -mean;
  for (let i = 1; i <= k; i++) term += Math.log(mean) - Math.log(i);
  const terms: number[] = [term];
  for (let i = k + 1; i < k + mostTerms && term > terms[0]! - 40; i++) {
    term += Math.log(mean) - Math.log(i);
    terms.push(term);
  }
  return logOfSum(terms);
}
function logOfSum(terms: readonly number[]): number {
  let top = Number.NEGATIVE_INFINITY;
  for (const t of terms) top = Math.max(top, t);
  let sum = 0;
  for (const t of terms) sum += Math.exp(t - top);
  return top + Math.log(sum);
}
