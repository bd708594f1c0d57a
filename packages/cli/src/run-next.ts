import { Deviates, finished } from "@tapeworthy/core";
import { type Project, type QuestionsWithPieces, questionsWithPieces, type Texts } from "@tapeworthy/project";
import { doAll } from "./crew.ts";
import type { Done, Job } from "./job.ts";
import { type CheckOptions, weighRecord, withoutKnown } from "./run-check.ts";

export interface NextOptions extends Omit<CheckOptions, "cures" | "record"> {
  readonly order?: "series" | "independent";
}
export interface NextResult extends QuestionsWithPieces {
  readonly seed: number;
  readonly units: readonly string[];
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
  const belief = useKnown ? (await weighRecord(project, start, options)).weighed : withoutKnown(project, seed);
  const { weights, contradicted } = belief;
  const jobs = units.flatMap((unit) =>
    (project.wanted.get(unit) ?? []).map((tape): Job => ({ kind: "judge", unit, tape, weights, contradicted })),
  );
  const rows = (await doAll(start, jobs, workers, (n, of) => progress("pairs of unit and tape", n, of))) as Extract<
    Done,
    { kind: "judge" }
  >[];
  const found = finished(questionsWithPieces(project, rows, { weights, deviates: new Deviates(seed) }, order));
  return {
    ...found,
    seed,
    units,
    known: {
      weighed: useKnown && project.known.length > 0,
      effective: belief.effective,
      draws: weights.length,
    },
  };
}
