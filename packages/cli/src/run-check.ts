import {
  type CheckRecord,
  type Cure,
  type CureEffect,
  type CuresWithEffects,
  Deviates,
  type KnownChances,
  type Move,
  sayRecord,
  type TapeResult,
  type Weighed,
  weigh,
  withNearest,
  worstFirst,
} from "@tapeworthy/core";
import {
  countOf,
  type KnownLine,
  knownLines,
  type Project,
  recordsOf,
  type Texts,
  type Waiting,
  type WeighedBelief,
  waitingFor,
  weighedBelief,
} from "@tapeworthy/project";
import { doAll } from "./crew.ts";
import type { Done, Job, Start } from "./job.ts";

export interface UnitResult {
  readonly unit: string;
  readonly name: string;
  readonly revision: string;
  readonly tapes: readonly TapeResult[];
}
export interface CheckResult {
  readonly seed: number;
  readonly units: readonly UnitResult[];
  readonly known: {
    readonly of: number;
    readonly reproduced: number;
    readonly open: number;
    /** Records the checks contradict, as "unit on tape". */
    readonly contradicted: readonly string[];
    /** Checks the record contradicts: left out of the belief, and unable to stop a tape. */
    readonly contradictedChecks: readonly string[];
    readonly lines: readonly KnownLine[];
    /** Whether the record was weighed in, and how many even belief draws are left of it. */
    readonly weighed: boolean;
    readonly effective: number;
    /** Trials of checks that are taken into belief with it; one that contradicts is named and not weighed in. */
    readonly taken: WeighedBelief["taken"];
    /** Trials that are taken, and that a changed design has retired: they count no more. */
    readonly retired: WeighedBelief["retired"];
  };
  /** How the trials of each check came out against what was frozen before them; a check that none tried is not among them. */
  readonly records: readonly (CheckRecord & { readonly says: string })[];
  /** Trials whose results wait to be taken. */
  readonly waiting: readonly Waiting[];
}

export interface CheckOptions {
  readonly seed: number;
  readonly workers: number | undefined;
  /** False shows belief without the record of known units. */
  readonly useKnown: boolean;
  /** Cures looked for: none; the strongest of the first stopper of each tape that stops; three of every check that keeps a tape from feeding; or of one check on one tape. */
  readonly cures: "none" | "first" | "all" | { readonly check: string; readonly tape: string };
  readonly progress: (what: string, done: number, of: number) => void;
  /** The record of known units where it has been weighed already. */
  readonly record?: WeighedRecord;
}

/** What the checks say of every known unit, and belief weighed by the record and by the trials that are taken. */
export interface WeighedRecord {
  readonly chances: readonly KnownChances[];
  readonly weighed: WeighedBelief;
}
/** Belief without the record of known units: even, but for the trials that are taken. */
export const withoutKnown = (project: Project, seed: number): WeighedBelief =>
  weighedBelief(project, undefined, new Deviates(seed));
export async function weighRecord(
  project: Project,
  start: Start,
  { workers, progress }: Pick<CheckOptions, "workers" | "progress">,
): Promise<WeighedRecord> {
  const jobs = project.known.map(({ unit, tape }): Job => ({ kind: "known", unit, tape }));
  const done = await doAll(start, jobs, workers, (n, of) => progress("known units", n, of));
  const chances = done.map((d) => (d as { chances: KnownChances }).chances);
  const weighed = weigh(project.known.map((record, i) => ({ ...countOf(record), chances: chances[i]! })));
  return { chances, weighed: weighedBelief(project, weighed, new Deviates(start.seed)) };
}

/** Judges every wanted pair of a project: known units first without, then with their weight. */
export async function runCheck(project: Project, texts: Texts, options: CheckOptions): Promise<CheckResult> {
  const { seed, workers, useKnown, progress } = options;
  const start = { texts: [...texts], seed };
  const { chances, weighed } = options.record ?? (await weighRecord(project, start, options));
  const lines = knownLines(project.known, chances);
  const belief = useKnown ? weighed : withoutKnown(project, seed);
  const { weights } = belief;

  const pairs = [...project.wanted].flatMap(([unit, tapes]) => tapes.map((tape) => ({ unit, tape })));
  const jobs = pairs.map(
    ({ unit, tape }): Job => ({
      kind: "judge",
      unit,
      tape,
      weights,
      contradicted: useKnown ? weighed.contradicted : [],
    }),
  );
  const done = await doAll(start, jobs, workers, (n, of) => progress("pairs of unit and tape", n, of));
  const judged = done as Extract<Done, { kind: "judge" }>[];
  const cures = await cured(judged, start, weights, weighed, options);
  const results = judged.map(({ result }, i) => ({
    ...withNearest(result, project.known, chances),
    ...(cures[i] ? { cures: cures[i] } : {}),
  }));
  return {
    seed,
    units: [...project.wanted].map(([stem]) => {
      const file = project.units.get(stem)!;
      const first = [...file.variants.values()][0]!;
      return {
        unit: stem,
        name: file.name,
        revision: first.revision ?? "",
        tapes: results.filter((r) => r.unit === stem),
      };
    }),
    known: {
      of: lines.length,
      reproduced: lines.filter((l) => l.standing === "reproduced").length,
      open: lines.filter((l) => l.standing === "open").length,
      contradicted: lines.filter((l) => l.standing === "contradicted").map((l) => `${l.unit} on ${l.tape}`),
      contradictedChecks: weighed.contradicted,
      lines,
      weighed: useKnown && lines.length > 0,
      effective: belief.effective,
      taken: belief.taken,
      retired: belief.retired,
    },
    records: [...recordsOf(project.ledger).values()].map((record) => ({ ...record, says: sayRecord(record) })),
    waiting: waitingFor({ project }),
  };
}

/** Cures of each judged pair, with what they cost on every wanted tape of the unit. */
async function cured(
  judged: readonly Extract<Done, { kind: "judge" }>[],
  start: Start,
  weights: Float64Array,
  weighed: Weighed,
  { cures: which, workers, useKnown, progress }: CheckOptions,
): Promise<(CuresWithEffects[] | undefined)[]> {
  const asked = judged.map(({ result }) => askedFor(result, which));
  const questions = judged.flatMap(({ result }, i) =>
    asked[i]!.map((check) => ({ pair: i, unit: result.unit, tape: result.tape, check })),
  );
  if (questions.length === 0) return judged.map((_, i) => (asked[i]!.length > 0 ? [] : undefined));
  const jobs = questions.map(
    ({ unit, tape, check }): Job => ({ kind: "cures", unit, tape, weights, check, most: which === "first" ? 1 : 3 }),
  );
  const found = (await doAll(start, jobs, workers, (n, of) => progress("cures", n, of))).map(
    (d) => (d as Extract<Done, { kind: "cures" }>).cures,
  );
  // Each move is judged once on each tape of its unit, whoever proposed it.
  const key = (unit: string, { members, by }: Move): string => JSON.stringify([unit, members, by]);
  const moveOf = (cure: Cure): Move => ({ members: cure.members.map((m) => m.address), by: cure.by });
  const moves = new Map<string, Map<string, Move>>();
  found.forEach(({ cures }, q) => {
    const { unit } = questions[q]!;
    const ofUnit = moves.get(unit) ?? new Map<string, Move>();
    moves.set(unit, ofUnit);
    for (const cure of cures) ofUnit.set(key(unit, moveOf(cure)), moveOf(cure));
  });
  const on = judged.filter(({ result }) => (moves.get(result.unit)?.size ?? 0) > 0);
  const effects = await doAll(
    start,
    on.map(
      ({ result: { unit, tape }, held }): Job => ({
        kind: "effects",
        unit,
        tape,
        weights,
        contradicted: useKnown ? weighed.contradicted : [],
        held,
        moves: [...moves.get(unit)!.values()],
      }),
    ),
    workers,
    (n, of) => progress("what the cures cost", n, of),
  );
  const effectsOf = (unit: string, move: Move): CureEffect[] => {
    const at = [...moves.get(unit)!.keys()].indexOf(key(unit, move));
    return worstFirst(
      effects.flatMap((d, i) => {
        const effect = on[i]!.result.unit === unit ? (d as Extract<Done, { kind: "effects" }>).effects[at] : undefined;
        return effect ? [effect] : [];
      }),
    );
  };
  return judged.map((_, i) =>
    asked[i]!.length === 0
      ? undefined
      : questions.flatMap((question, q) => {
          if (question.pair !== i) return [];
          const { cures, ...rest } = found[q]!;
          const { unit } = question;
          return [{ ...rest, cures: cures.map((cure) => ({ ...cure, effects: effectsOf(unit, moveOf(cure)) })) }];
        }),
  );
}
function askedFor({ tape, verdict, first, findings }: TapeResult, which: CheckOptions["cures"]): readonly string[] {
  if (which === "none" || verdict === "n/a") return [];
  if (typeof which === "object")
    return tape === which.tape &&
      findings.some((f) => f.check === which.check && (f.verdict === "stops" || f.verdict === "depends"))
      ? [which.check]
      : [];
  if (which === "all") return first;
  return verdict === "stops" ? first.slice(0, 1) : [];
}

/** Worst over the wanted pairs: 1 stops, 3 depends, 0 feeds. */
export function exitCodeOf(result: CheckResult): 0 | 1 | 3 {
  const verdicts = result.units.flatMap((u) => u.tapes.map((t) => t.verdict));
  if (verdicts.includes("stops")) return 1;
  return verdicts.includes("depends") ? 3 : 0;
}
