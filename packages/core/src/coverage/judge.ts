import { type Check, chosen } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import type { Model, Quantity } from "../quantity/model.ts";
import { quantitiesIn } from "../quantity/model.ts";
import { shownUnit, showValue } from "../quantity/show.ts";
import type { Scene } from "../scene.ts";
import { type Deciding, decide } from "../study/allowance.ts";
import { applies, beliefDraws, Cell } from "../study/cell.ts";
import { decisive } from "../study/decisive.ts";
import type { Deviates } from "../study/deviates.ts";
import { jointGaps, marginOf } from "../study/margin.ts";
import { asWritten, type Realised, Realiser } from "../study/realise.ts";
import type { DecisiveFinding, Finding, TapeResult } from "./finding.ts";
import { bestSetting } from "./setting.ts";
import { shareHolding, verdictOf } from "./verdict.ts";

/** Belief before anything is known of units that run or fail. */
export const evenWeights = new Float64Array(beliefDraws).fill(1 / beliefDraws);

export interface Judging {
  readonly unit: string;
  readonly tape: string;
  readonly scene: Scene;
  readonly checks: readonly Check[];
  readonly deviates: Deviates;
  /** Weights of the belief draws, known units weighed in. */
  readonly weights: Float64Array;
  /** Checks that the record contradicts. */
  readonly contradicted: ReadonlySet<string>;
}

/** Judges one unit on one tape: every check's finding, the verdict, what stops it first. */
export function judge(judging: Judging): TapeResult {
  const { unit, tape, scene, checks, deviates, weights, contradicted } = judging;
  const cell = new Cell(scene, checks);
  const deciding = decide(cell, deviates);
  const joint = jointGaps(cell, deviates);
  const nominal = new Realiser(scene, [...cell.quantities, ...cell.checks.flatMap((c) => besideOf(c, scene))]).run(
    asWritten,
  );
  const findings = checks.map((check): Finding => {
    const c = cell.checks.indexOf(check);
    return c < 0 ? notApplicable(check, scene) : finding(judging, cell, c, deciding[c]!, joint[c]!, nominal);
  });
  const hard = cell.checks.flatMap((check, c) => (check.severity === "S" && !contradicted.has(check.id) ? [c] : []));
  if (hard.length === 0)
    return {
      unit,
      tape,
      W: scene.tape.row,
      verdict: "n/a",
      share: null,
      shareAlone: null,
      verdictAlone: "n/a",
      first: [],
      findings,
    };
  const columns = hard.map((c) => deciding[c]!.gap);
  const share = shareHolding(columns, weights);
  const shareAlone = shareHolding(columns, evenWeights);
  const verdict = verdictOf(share);
  const setting = verdict === "feeds" ? undefined : bestSetting(cell, deviates, deciding, hard, weights);
  return {
    unit,
    tape,
    W: scene.tape.row,
    verdict,
    share,
    shareAlone,
    verdictAlone: verdictOf(shareAlone),
    first: verdict === "feeds" ? [] : firstStoppers(findings),
    findings,
    ...(setting ? { setting } : {}),
  };
}

/** Hard checks that do not feed, least share first; where each alone feeds, the one with the least share. */
function firstStoppers(findings: readonly Finding[]): string[] {
  const hard = findings
    .filter((f) => f.severity === "S" && f.verdict !== "n/a" && !f.contradicted)
    .sort((a, b) => a.share! - b.share! || a.margin! - b.margin!);
  const open = hard.filter((f) => f.verdict !== "feeds");
  return (open.length > 0 ? open : hard.slice(0, 1)).map((f) => f.check);
}

function notApplicable(check: Check, scene: Scene): Finding {
  return {
    check: check.id,
    station: check.station,
    severity: check.severity,
    verdict: "n/a",
    share: null,
    shareAlone: null,
    value: null,
    unit: "",
    bounds: {},
    ratio: null,
    margin: null,
    marginBy: null,
    letter: null,
    more: 0,
    status: check.status,
    because: `Not applicable: ${check.absent(scene) ?? "the unit has no such member"}.`,
    beside: [],
    contradicted: false,
    allowanceError: 0,
  };
}

function finding(
  judging: Judging,
  cell: Cell,
  c: number,
  deciding: Deciding,
  joint: Float64Array,
  nominal: Realised,
): Finding {
  const { scene, deviates, weights, contradicted } = judging;
  const check = cell.checks[c]!;
  const value = chosen(check.value, scene)!;
  const least = chosen<Quantity>(check.atLeast, scene);
  const most = chosen<Quantity>(check.atMost, scene);
  const share = shareHolding([deciding.gap], weights);
  const verdict = verdictOf(share);
  const margin = marginOf(cell, deviates, c, joint, weights);
  const say = (q: Quantity): string => showValue(q, nominal.number(q));
  const v = nominal.number(value);
  const low = least && nominal.number(least);
  const high = most && nominal.number(most);
  const bound = nearerBound(v, low, high);
  const mute = [value, least, most].find((q) => q !== undefined && !Number.isFinite(nominal.number(q)));
  const answered = mute === undefined;
  const where = answered && value.where ? value.where(nominal.inputsOf(value, scene)) : undefined;
  const tips = share > 0 && share < 1 ? decisive(cell, deviates, c, deciding, weights) : undefined;
  return {
    check: check.id,
    station: check.station,
    severity: check.severity,
    verdict,
    share,
    shareAlone: shareHolding([deciding.gap], evenWeights),
    value: Number.isFinite(v) ? v : null,
    unit: value.unit,
    bounds: { ...(isNumber(low) ? { least: low } : {}), ...(isNumber(high) ? { most: high } : {}) },
    ratio: answered && bound ? v / bound : null,
    margin: margin.margin,
    marginBy: margin.how,
    letter: margin.letter,
    more: margin.more,
    status: outsideRange(check, scene, nominal) ? "outside range" : check.status,
    because: answered ? check.because(say, scene) : `No answer: ${complaint(mute, scene, nominal)}.`,
    ...(where === undefined ? {} : { where }),
    ...(tips ? { decisive: decisiveFinding(tips) } : {}),
    ...(isNumber(margin.best) && isNumber(margin.worst) ? { corners: { best: margin.best, worst: margin.worst } } : {}),
    beside: besideOf(check, scene).map((q) => ({
      id: q.kind === "model" ? q.id : q.address,
      title: q.kind === "model" ? q.title : q.symbol,
      value: nominal.number(q),
      unit: q.unit,
      shownIn: shownUnit(q),
    })),
    contradicted: contradicted.has(check.id),
    allowanceError: deciding.error,
  };
}
function decisiveFinding(d: NonNullable<ReturnType<typeof decisive>>): DecisiveFinding {
  const { given, tipping, shareIfMeasured, when } = d;
  const u = given.unknown!;
  return {
    address: given.address,
    symbol: given.symbol,
    tipping: tipping ?? null,
    guess: u.law === "switch" ? { low: 0, high: 1 } : { low: u.low, high: u.high },
    unit: given.unit,
    shownIn: shownUnit(given),
    shareIfMeasured,
    ...(u.law === "switch" ? { words: u.words } : {}),
    ...(when.length > 0 ? { when: when.map((w) => ({ address: w.given.address, word: w.word })) } : {}),
  };
}
const isNumber = (v: number | undefined): v is number => v !== undefined && Number.isFinite(v);
function nearerBound(v: number, low: number | undefined, high: number | undefined): number | undefined {
  if (low === undefined) return high;
  if (high === undefined) return low;
  return v - low < high - v ? low : high;
}

/** Quantities beside a check that this scene can give. */
const besideOf = (check: Check, scene: Scene): readonly Quantity[] =>
  applies(check, scene) ? (check.beside?.(scene) ?? []).filter((q) => q.reads(scene) !== undefined) : [];

/** Some model behind this check is used outside the range its equation is known to hold in. */
function outsideRange(check: Check, scene: Scene, nominal: Realised): boolean {
  const seen = new Set<Given | Model<unknown>>();
  const out = (q: Given | Model<unknown>): boolean => {
    if (seen.has(q)) return false;
    seen.add(q);
    const reads = q.reads(scene) ?? {};
    if (q.kind === "model" && q.valid) {
      const x = nominal.inputsOf(q, scene);
      for (const [symbol, [low, high]] of Object.entries(q.valid)) {
        const v = x[symbol];
        if (typeof v === "number" && (v < low - Math.abs(low) * 1e-9 || v > high + Math.abs(high) * 1e-9)) return true;
      }
    }
    return [...quantitiesIn(reads)].some(out);
  };
  return [
    chosen(check.value, scene),
    chosen<Quantity>(check.atLeast, scene),
    chosen<Quantity>(check.atMost, scene),
  ].some((q) => q !== undefined && out(q));
}

/** What the model that gave no answer says about it. */
function complaint(q: Given | Model<unknown>, scene: Scene, nominal: Realised): string {
  for (const inner of quantitiesIn(q.reads(scene) ?? {})) {
    const found = complaint(inner, scene, nominal);
    if (found !== "") return found;
  }
  if (q.kind === "given") return "";
  try {
    const v = q.value(nominal.inputsOf(q, scene));
    return typeof v === "number" && !Number.isFinite(v) ? `${q.title} is not finite` : "";
  } catch (e) {
    return e instanceof RangeError ? e.message : "";
  }
}
