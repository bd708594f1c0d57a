import {
  checkNamed,
  Deviates,
  evenWeights,
  type NextQuestions,
  type OpenQuestion,
  openQuestions,
  type TrialPiece,
  trialPiece,
} from "@tapeworthy/core";
import type { Project, Texts } from "@tapeworthy/project";
import { doAll } from "./crew.ts";
import { type Done, type Job, sceneOf } from "./job.ts";
import { type CheckOptions, weighRecord } from "./run-check.ts";

export interface NextOptions extends Omit<CheckOptions, "cures" | "record"> {
  readonly order?: "series" | "independent";
}
/** A question with the piece that would settle it for the pair that fails most. */
export interface Asked extends OpenQuestion {
  readonly piece: TrialPiece | null;
}
export interface NextResult extends Omit<NextQuestions, "ranked" | "open" | "dropped"> {
  readonly seed: number;
  readonly units: readonly string[];
  readonly ranked: readonly Asked[];
  readonly open: readonly Asked[];
  readonly dropped: readonly Asked[];
  /** Whether the record of known units was weighed in, and how many even belief draws are left. */
  readonly known: { readonly weighed: boolean; readonly effective: number; readonly draws: number };
}

/** Judges the wanted pairs of some units and ranks what to find out next. */
export async function runNext(
  project: Project,
  texts: Texts,
  units: readonly string[],
  options: NextOptions,
): Promise<NextResult> {
  const { seed, workers, useKnown, progress, order } = options;
  const start = { texts: [...texts], seed };
  const record = useKnown ? await weighRecord(project, start, options) : undefined;
  const weights = record?.weighed.weights ?? evenWeights;
  const contradicted = record?.weighed.contradicted ?? [];
  const jobs = units.flatMap((unit) =>
    (project.wanted.get(unit) ?? []).map((tape): Job => ({ kind: "judge", unit, tape, weights, contradicted })),
  );
  const rows = (await doAll(start, jobs, workers, (n, of) => progress("pairs of unit and tape", n, of))) as Extract<
    Done,
    { kind: "judge" }
  >[];
  const found = openQuestions(
    rows,
    { weights, deviates: new Deviates(seed) },
    { costs: project.benchCosts, ...(order ? { order } : {}) },
  );
  const asked = (q: OpenQuestion): Asked => {
    const [worst] = q.hangs;
    return {
      ...q,
      piece: worst ? (trialPiece(sceneOf(project, worst.unit, worst.tape), checkNamed(worst.check)!) ?? null) : null,
    };
  };
  return {
    ...found,
    seed,
    units,
    ranked: found.ranked.map(asked),
    open: found.open.map(asked),
    dropped: found.dropped.map(asked),
    known: {
      weighed: record !== undefined && project.known.length > 0,
      effective: record?.weighed.effective ?? weights.length,
      draws: weights.length,
    },
  };
}
