import {
  evenWeights,
  type Finding,
  type KnownChances,
  type KnownCount,
  type KnownStanding,
  standingOf,
  type TapeResult,
  type Verdict,
  verdictOf,
  type Weighed,
  weigh,
} from "@tapeworthy/core";
import type { KnownRecord, Project, Texts } from "@tapeworthy/project";
import { doAll } from "./crew.ts";
import type { Job } from "./job.ts";

export interface UnitResult {
  readonly unit: string;
  readonly name: string;
  readonly revision: string;
  readonly tapes: readonly TapeResult[];
}
export interface KnownLine {
  readonly unit: string;
  readonly tape: string;
  readonly result: KnownRecord["result"];
  readonly reelsRun: number | null;
  readonly reelsRefused: number | null;
  /** What the checks say without the record's own weight. */
  readonly share: number;
  readonly verdict: Exclude<Verdict, "n/a">;
  readonly standing: KnownStanding;
  /** Checks that stop what is known to run. */
  readonly checks: readonly string[];
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
  };
}

export interface CheckOptions {
  readonly seed: number;
  readonly workers: number | undefined;
  /** False shows belief without the record of known units. */
  readonly useKnown: boolean;
  readonly progress: (what: string, done: number, of: number) => void;
}

/** A count where the record gives none: one reel that did as stated. */
const countOf = ({ unit, tape, result, reelsRun, reelsRefused }: KnownRecord): KnownCount => ({
  unit,
  tape,
  result,
  run: reelsRun ?? 1,
  refused: reelsRefused ?? (result === "fails" ? (reelsRun ?? 1) : 0),
});

/** Judges every wanted pair of a project: known units first without, then with their weight. */
export async function runCheck(project: Project, texts: Texts, options: CheckOptions): Promise<CheckResult> {
  const { seed, workers, useKnown, progress } = options;
  const start = { texts: [...texts], seed };
  const knownJobs = project.known.map(({ unit, tape }): Job => ({ kind: "known", unit, tape }));
  const knownDone = await doAll(start, knownJobs, workers, (done, of) => progress("known units", done, of));
  const chances = knownDone.map((d) => (d as { chances: KnownChances }).chances);
  const lines = project.known.map((record, i): KnownLine => {
    const share = chances[i]!.share;
    const standing = standingOf(record.result, share);
    return {
      unit: record.unit,
      tape: record.tape,
      result: record.result,
      reelsRun: record.reelsRun ?? null,
      reelsRefused: record.reelsRefused ?? null,
      share,
      verdict: verdictOf(share),
      standing,
      checks:
        record.result === "runs"
          ? chances[i]!.checks.filter((c) => verdictOf(c.share) === "stops").map((c) => c.id)
          : [],
    };
  });
  const weighed: Weighed = weigh(project.known.map((record, i) => ({ ...countOf(record), chances: chances[i]! })));
  const weights = useKnown ? weighed.weights : evenWeights;

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
  const results = done.map((d) => withNearest((d as { result: TapeResult }).result, project.known, chances));
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
      effective: useKnown ? weighed.effective : weights.length,
    },
  };
}

/** Sets beside each finding the known running unit and tape whose value is nearest, as a ratio that needs no limit. */
function withNearest(result: TapeResult, known: readonly KnownRecord[], chances: readonly KnownChances[]): TapeResult {
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

/** Worst over the wanted pairs: 1 stops, 3 depends, 0 feeds. */
export function exitCodeOf(result: CheckResult): 0 | 1 | 3 {
  const verdicts = result.units.flatMap((u) => u.tapes.map((t) => t.verdict));
  if (verdicts.includes("stops")) return 1;
  return verdicts.includes("depends") ? 3 : 0;
}
