import { type Check, chosen } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import type { Model, Quantity } from "../quantity/model.ts";
import { quantitiesIn } from "../quantity/model.ts";
import { shownUnit, showValue } from "../quantity/show.ts";
import type { Scene } from "../scene.ts";
import { type Deciding, decide, decideInSteps } from "../study/allowance.ts";
import { applies, beliefDraws, Cell } from "../study/cell.ts";
import { type Decisive, decisiveInSteps } from "../study/decisive.ts";
import type { Deviates } from "../study/deviates.ts";
import { jointGaps, type MarginBasis, marginBasis, marginBy } from "../study/margin.ts";
import { asWritten, type Realised, Realiser } from "../study/realise.ts";
import type { Nominal } from "../study/shift.ts";
import { finished, type Steps } from "../study/steps.ts";
import { type Held, holdsAt } from "./cure.ts";
import type { DecisiveFinding, Finding, TapeResult } from "./finding.ts";
import { bestSettingInSteps } from "./setting.ts";
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
export const judge = (judging: Judging): TapeResult => judgeFully(judging).result;

/** The same, with what holds at which belief draw, for whoever asks what a change would do. */
export function judgeFully(judging: Judging, drawn = drawnOf(judging)): Judged {
  const { scene, deviates } = judging;
  const { cell, deciding } = drawn;
  const joint = jointGaps(cell, deviates);
  const studied = cell.checks.map((check, c): Studied => {
    const alone = new Cell(scene, [check]);
    return { check, alone, deciding: deciding[c]!, basis: marginBasis(alone, deviates, joint[c]!) };
  });
  return finished(judgeInSteps(judging, studied));
}
/** What the draws say of one unit on one tape, whatever the weights of belief. */
export interface Drawn {
  readonly cell: Cell;
  readonly deciding: readonly Deciding[];
}
export function drawnOf({ scene, checks, deviates }: Pick<Judging, "scene" | "checks" | "deviates">): Drawn {
  const cell = new Cell(scene, checks);
  return { cell, deciding: decide(cell, deviates) };
}
export interface Judged {
  readonly result: TapeResult;
  readonly held: Held;
}

/** What the draws say of one check of a pair before belief is weighed. It stays true for as long as nothing the check rests on changes. */
export interface Studied {
  readonly check: Check;
  /** A cell of this check alone. */
  readonly alone: Cell;
  readonly deciding: Deciding;
  readonly basis: MarginBasis;
}
/** Studies one check that applies to the scene: the same bits as together with others. */
export function* studyInSteps(scene: Scene, check: Check, deviates: Deviates): Steps<Studied> {
  const alone = new Cell(scene, [check]);
  yield;
  const [deciding] = yield* decideInSteps(alone, deviates);
  const [joint] = jointGaps(alone, deviates);
  yield;
  const basis = marginBasis(alone, deviates, joint!);
  alone.letGo();
  return { check, alone, deciding: deciding!, basis };
}

/** Judges from studies of all checks that apply to the scene, in the order of the checks. A step is a finding or less. */
export function* judgeInSteps(judging: Judging, studied: readonly Studied[]): Steps<Judged> {
  const { unit, tape, scene, checks, deviates, weights, contradicted } = judging;
  const quantities = [...new Set(studied.flatMap(({ alone }) => alone.quantities))];
  const applicable = studied.map(({ check }) => check);
  const deciding = studied.map((s) => s.deciding);
  const nominal = new Realiser(scene, [...quantities, ...applicable.flatMap((c) => toldOf(c, scene))]).run(asWritten);
  const findings: Finding[] = [];
  for (const check of checks) {
    yield;
    const one = studied.find((s) => s.check === check);
    findings.push(one ? yield* finding(judging, one, nominal) : notApplicable(check, scene));
  }
  const hard = applicable.flatMap((check, c) => (check.severity === "S" && !contradicted.has(check.id) ? [c] : []));
  const held: Held = new Map(applicable.map((check, c) => [check.id, holdsAt(deciding[c]!.gap)]));
  if (hard.length === 0) {
    const none = { verdict: "n/a", share: null, shareAlone: null, verdictAlone: "n/a", first: [] } as const;
    return { result: { unit, tape, W: scene.tape.row, ...none, findings }, held };
  }
  const columns = hard.map((c) => deciding[c]!.gap);
  const share = shareHolding(columns, weights);
  const shareAlone = shareHolding(columns, evenWeights);
  const verdict = verdictOf(share);
  yield;
  const laid = { scene, checks: applicable, quantities };
  const setting = verdict === "feeds" ? undefined : yield* bestSettingInSteps(laid, deviates, deciding, hard, weights);
  const result: TapeResult = {
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
  return { result, held };
}

/** Hard checks that do not feed, least share first; where each alone feeds, the one with the least share. */
export function firstStoppers(findings: readonly Finding[]): string[] {
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

function* finding(
  { scene, deviates, weights, contradicted }: Judging,
  { check, alone, deciding, basis }: Studied,
  nominal: Realised,
): Steps<Finding> {
  const value = chosen(check.value, scene)!;
  const share = shareHolding([deciding.gap], weights);
  const verdict = verdictOf(share);
  const margin = yield* marginBy(basis, weights);
  const seen = seenOf(check, scene, nominal);
  const said = saidOf(check, scene, nominal);
  const where = seen.answered && value.where ? value.where(nominal.inputsOf(value, scene), scene) : undefined;
  const tips = share > 0 && share < 1 ? yield* decisiveInSteps(alone, deviates, 0, deciding, weights) : undefined;
  return {
    check: check.id,
    station: check.station,
    severity: check.severity,
    verdict,
    share,
    shareAlone: shareHolding([deciding.gap], evenWeights),
    value: seen.found.value,
    unit: value.unit,
    bounds: seen.found.bounds,
    ratio: seen.found.ratio,
    margin: margin.margin,
    marginBy: margin.how,
    letter: margin.letter,
    more: margin.more,
    status: outsideRange(check, scene, nominal) ? "outside range" : check.status,
    because: said.because,
    ...(where === undefined ? {} : { where }),
    ...(tips ? { decisive: decisiveFinding(tips) } : {}),
    ...(isNumber(margin.best) && isNumber(margin.worst) ? { corners: { best: margin.best, worst: margin.worst } } : {}),
    beside: said.beside,
    contradicted: contradicted.has(check.id),
    allowanceError: deciding.error,
  };
}
/** What is seen of a check with every number as written. */
export interface Seen {
  /** Value and bounds are all numbers. */
  readonly answered: boolean;
  /** Distance to the nearer bound, positive where the window holds. */
  readonly gap: number;
  readonly found: Pick<Finding, "value" | "bounds" | "ratio">;
}
export function seenOf(check: Check, scene: Scene, nominal: Nominal): Seen {
  const [v, low, high] = sidesOf(check, scene).map((q) => q && nominal.number(q)) as [number, number?, number?];
  const bound = nearerBound(v, low, high);
  const answered = [v, low, high].every((x) => x === undefined || Number.isFinite(x));
  return {
    answered,
    gap: Math.min(
      low === undefined ? Number.POSITIVE_INFINITY : v - low,
      high === undefined ? Number.POSITIVE_INFINITY : high - v,
    ),
    found: {
      value: Number.isFinite(v) ? v : null,
      bounds: { ...(isNumber(low) ? { least: low } : {}), ...(isNumber(high) ? { most: high } : {}) },
      ratio: answered && bound ? v / bound : null,
    },
  };
}
/** What is said of a check, and what stands beside its value; `nominal` holds that too. */
export function saidOf(check: Check, scene: Scene, nominal: Realised): Pick<Finding, "because" | "beside"> {
  const say = (q: Quantity): string => showValue(q, nominal.number(q));
  const mute = sidesOf(check, scene).find((q) => q !== undefined && !Number.isFinite(nominal.number(q)));
  return {
    because: mute === undefined ? check.because(say, scene) : `No answer: ${complaint(mute, scene, nominal)}.`,
    beside: besideOf(check, scene).map((q) => ({
      id: q.kind === "model" ? q.id : q.address,
      title: q.kind === "model" ? q.title : q.symbol,
      value: nominal.number(q),
      unit: q.unit,
      shownIn: shownUnit(q),
    })),
  };
}
/** Value, lower and upper bound of a check that applies. */
const sidesOf = (check: Check, scene: Scene): [Quantity, Quantity | undefined, Quantity | undefined] => [
  chosen(check.value, scene)!,
  chosen<Quantity>(check.atLeast, scene),
  chosen<Quantity>(check.atMost, scene),
];
function decisiveFinding(d: Decisive): DecisiveFinding {
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

/** Quantities that stand beside a check or that its sentence says, as far as this scene can give them. */
export function toldOf(check: Check, scene: Scene): readonly Quantity[] {
  if (!applies(check, scene)) return [];
  const said = new Set<Quantity>(besideOf(check, scene));
  check.because((q) => {
    if (q.reads(scene) !== undefined) said.add(q);
    return "";
  }, scene);
  return [...said];
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
