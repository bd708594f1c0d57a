import { clearancesInOrder } from "../clearance/pair-gaps.ts";
import type { Check } from "../quantity/check.ts";
import { phi, phiInverse } from "../quantity/law.ts";
import { beliefDraws, Cell } from "../study/cell.ts";
import { type Decided, marginsOver } from "../study/quick.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { shiftInSteps } from "../study/shift.ts";
import type { Steps } from "../study/steps.ts";
import { movedBy } from "./cure.ts";
import type { Finding, TapeResult } from "./finding.ts";
import { firstStoppers, type Judging, type Studied, saidOf, seenOf, toldOf } from "./judge.ts";
import { verdictOf } from "./verdict.ts";

/**
 * A pair of unit and tape while one of its numbers is dragged: quick numbers, of the checks that rest on it alone.
 *
 *     share(x) = share as drawn + mean of [g(u, x) >= 0] - mean of [g(u, 0) >= 0]
 *
 * x  how far the number stands off from where it was drawn
 * u  100 belief draws, one of each hundredth of belief by weight, ranked by the least gap among the hard checks that rest on the number: so
 *    they tell that share to about a hundredth
 * g  deciding gaps by study/shift.ts
 *
 * At x = 0 everything is as it was drawn. What does not rest on the number stays as drawn, and so do letters, tipping values and settings.
 */
export const quickDraws = 100;

export interface Dragging {
  readonly judging: Judging;
  /** All checks that apply, as studied, and what was found of them. */
  readonly studied: readonly Studied[];
  readonly result: TapeResult;
  /** Addresses of the numbers that are dragged, all by one distance. */
  readonly members: readonly string[];
  /** How far the slopes of costly models may be trusted, SI: some forty steps of the drag. */
  readonly reach: number;
}
export interface Drag {
  /** Ids of the checks that rest on what is dragged. */
  readonly checks: ReadonlySet<string>;
  /**
   * What is found with it so far off, SI. For the pair on screen costly models are computed there, not by their slopes; and the sentence, and
   * what stands beside the value, of the check `told`.
   */
  at(by: number, onScreen?: { readonly told: string | undefined }): TapeResult;
  /** Takes the slopes of costly models afresh about that place, for steps to come: in small steps, between the steps of the drag. */
  renew(by: number): Steps<void>;
}

/** Makes ready for dragging, a run of the cell or less a step. */
export function* dragInSteps({ judging, studied, result, members, reach }: Dragging): Steps<Drag> {
  const { scene, weights, contradicted, deviates } = judging;
  const touched = studied.filter(({ alone }) => members.some((address) => alone.addresses.has(address)));
  if (touched.length === 0) return { checks: new Set(), at: () => result, *renew() {} };
  const list = touched.map(({ check }) => check);
  const cell = new Cell(scene, list);
  yield;
  const isHard = ({ check }: Studied): boolean => check.severity === "S" && !contradicted.has(check.id);
  const hard = touched.flatMap((one, c) => (isHard(one) ? [c] : []));
  const draws = drawsOver(touched.filter(isHard).length > 0 ? touched.filter(isHard) : touched, weights);
  const others = studied.filter((one) => isHard(one) && !touched.includes(one));
  const rest = draws.map((k) => others.every(({ deciding }) => deciding.gap[k]! >= 0));
  const deciding = touched.map((one) => one.deciding);
  const shift = yield* shiftInSteps(cell, { deciding, members, reach, draws, deviates });
  const allow = scene.requirement.allowPairs;
  const quickAt = (by: number, exact = false) => {
    const { decided, nominal } = shift.at(by, exact);
    let all = 0;
    for (let row = 0; row < draws.length; row++) if (rest[row] && hard.every((c) => decided[c]!.gap[row]! >= 0)) all++;
    return {
      seen: list.map((check) => seenOf(check, scene, nominal)),
      shares: decided.map(({ gap }) => holding(gap) / draws.length),
      margins: decided.map((one) => marginOver(one, allow)),
      share: all / draws.length,
    };
  };
  const start = quickAt(0);
  yield;
  const sayers = new Map<string, Realiser>();
  const said = (check: Check, by: number): Pick<Finding, "because" | "beside"> => {
    const sayer = sayers.get(check.id) ?? new Realiser(scene, [...cell.quantities, ...toldOf(check, scene)]);
    sayers.set(check.id, sayer);
    return saidOf(check, scene, sayer.run({ ...asWritten, moved: movedBy(members, by) }));
  };
  const at: Drag["at"] = (by, onScreen) => {
    const now = quickAt(by, onScreen !== undefined);
    const findings = result.findings.map((f): Finding => {
      const c = list.findIndex((check) => check.id === f.check);
      if (c < 0) return f;
      const { found, gap } = now.seen[c]!;
      const opened = gap - start.seen[c]!.gap;
      const share = moved(f.share!, start.shares[c]!, now.shares[c]!);
      const margin = Math.max(-cap, Math.min(cap, f.margin! + (now.margins[c]! - start.margins[c]!)));
      return {
        ...f,
        ...found,
        // A clearance says where it is least, which is not looked for at every step.
        ...(f.check === onScreen?.told && !clearances.has(f.check) ? said(list[c]!, by) : {}),
        verdict: verdictOf(share),
        share,
        shareAlone: moved(f.shareAlone!, start.shares[c]!, now.shares[c]!),
        margin,
        marginBy: f.marginBy === "cannot fail as drawn" && margin < cap ? "first order" : f.marginBy,
        ...(f.corners && Number.isFinite(opened)
          ? { corners: { best: f.corners.best + opened, worst: f.corners.worst + opened } }
          : {}),
      };
    });
    if (result.verdict === "n/a") return { ...result, findings };
    const share = moved(result.share!, start.share, now.share);
    const shareAlone = moved(result.shareAlone!, start.share, now.share);
    const verdict = verdictOf(share);
    return {
      ...result,
      verdict,
      share,
      shareAlone,
      verdictAlone: verdictOf(shareAlone),
      first: verdict === "feeds" ? [] : firstStoppers(findings),
      findings,
    };
  };
  return { checks: new Set(list.map(({ id }) => id)), at, renew: (by) => shift.renew(by) };
}
function holding(gap: Float64Array): number {
  let n = 0;
  for (let k = 0; k < gap.length; k++) if (gap[k]! >= 0) n++;
  return n;
}
const cap = 6;
const clearances: ReadonlySet<string> = new Set(clearancesInOrder.map(({ id }) => id));
const moved = (drawn: number, before: number, now: number): number => Math.max(0, Math.min(1, drawn + (now - before)));
/** -Phi^-1 of the mean chance over the draws, each draw's chance from its own margin over scatter. */
function marginOver(decided: Decided, allow: number): number {
  const margins = marginsOver(decided, allow);
  let chance = 0;
  for (const m of margins) chance += m === cap ? never : m === -cap ? always : phi(-m);
  return -phiInverse(chance / margins.length);
}
const [never, always] = [phi(-cap), phi(cap)];

/** One draw of each hundredth of belief by weight, ranked by the least of the checks' deciding gaps in their own standard deviations. */
function drawsOver(studied: readonly Studied[], weights: Float64Array): number[] {
  const rank = new Float64Array(beliefDraws).fill(Number.POSITIVE_INFINITY);
  for (const { deciding } of studied) {
    const far = spreadOf(deciding.gap);
    for (let k = 0; k < beliefDraws; k++) {
      const sd = Math.min(...deciding.sides.map((side) => side.sd[k]!)) || far;
      rank[k] = Math.min(rank[k]!, deciding.gap[k]! / sd);
    }
  }
  const order = Array.from(rank.keys()).sort((a, b) => rank[a]! - rank[b]! || a - b);
  const total = weights.reduce((a, b) => a + b, 0);
  const out: number[] = [];
  let below = 0;
  for (const k of order) {
    below += weights[k]! / total;
    while (out.length < quickDraws && (out.length + 0.5) / quickDraws < below) out.push(k);
  }
  while (out.length < quickDraws) out.push(order.at(-1)!);
  return out;
}
/** A length to measure a gap by that does not scatter. */
function spreadOf(gap: Float64Array): number {
  let most = 0;
  for (const g of gap) if (Number.isFinite(g)) most = Math.max(most, Math.abs(g));
  return most || 1;
}
