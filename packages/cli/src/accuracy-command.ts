import {
  type Accuracy,
  AccuracyStudy,
  type BlockResult,
  Deviates,
  finished,
  noChain,
  pickBlocks,
  usualPickDraws,
} from "@tapeworthy/core";
import type { Project, Texts } from "@tapeworthy/project";
import { sceneOf } from "@tapeworthy/project";
import type { Command } from "commander";
import { type Common, drawsOption, judging, ofPairs, open, print, printJson, width } from "./call.ts";
import { doAll } from "./crew.ts";
import type { Done, Job } from "./job.ts";
import { paintFor } from "./paint.ts";
import { type Pair, pairsAsked } from "./pairs-asked.ts";
import { Progress } from "./progress.ts";
import { weighRecord, withoutKnown } from "./run-check.ts";
import { showAccuracy } from "./show-accuracy.ts";
import { version } from "./version.ts";

export interface AccuracyResult {
  readonly seed: number;
  readonly known: { readonly weighed: boolean; readonly effective: number };
  readonly pairs: readonly Accuracy[];
}
interface AccuracyCall extends Common {
  readonly unit?: string;
  readonly tape?: string;
  readonly draws: number;
}
const mostDraws = 100_000_000;

/** `accuracy`: how sure the pick is, for every wanted pair or for one. */
export function accuracyCommand(program: Command): void {
  judging(
    ofPairs(
      program
        .command("accuracy")
        .description(
          "how sure the pick is: three radii, who makes the spread, what fits which package, what would narrow it",
        )
        .argument("[folder]", "the project's folder", "."),
    ).addOption(drawsOption("draws for each pair, in blocks of 4096", 1, mostDraws, usualPickDraws)),
  )
    .addHelpText(
      "after",
      '\nExamples:\n  tapeworthy accuracy examples/saltgrass --unit plover --tape so8-12\n  tapeworthy accuracy . --unit plover --draws 1000000 --json\n  tapeworthy accuracy . --vary "assume/part wander=0.1 measured"',
    )
    .action(async (folder: string, options: AccuracyCall) => {
      const { project, texts } = open(folder, options.vary);
      const pairs = pairsAsked(project, options);
      const progress = new Progress(process.stderr);
      const result = await runAccuracy(project, texts, pairs, {
        seed: options.seed,
        workers: options.workers,
        useKnown: options.known,
        draws: options.draws,
        progress: progress.say,
      }).finally(() => progress.end());
      if (options.json) printJson({ version, ...result });
      else print(result.pairs.map((p) => showAccuracy(p, paintFor(process.stdout), width())).join("\n\n"));
    });
}

export interface AccuracyRun {
  readonly seed: number;
  readonly workers: number | undefined;
  readonly useKnown: boolean;
  readonly draws: number;
  readonly progress: (what: string, done: number, of: number) => void;
}
/** Studies some pairs. A job is a few blocks of one pair; together they are the same bits for any number of workers. */
export async function runAccuracy(
  project: Project,
  texts: Texts,
  pairs: readonly Pair[],
  { seed, workers, useKnown, draws, progress }: AccuracyRun,
): Promise<AccuracyResult> {
  const start = { texts: [...texts], seed };
  const weighs = useKnown && project.known.length > 0;
  const { weights, effective } = weighs
    ? (await weighRecord(project, start, { workers, progress })).weighed
    : withoutKnown(project, seed);
  const blocks = pickBlocks(draws);
  const chunk = Math.max(8, Math.ceil(blocks / 64));
  const jobs = pairs.flatMap((pair) =>
    noChain(sceneOf(project, pair.unit, pair.tape)) === undefined
      ? Array.from(
          { length: Math.ceil(blocks / chunk) },
          (_, i): Extract<Job, { kind: "pick draws" }> => ({
            kind: "pick draws",
            ...pair,
            weights,
            draws,
            blocks: Array.from({ length: Math.min(chunk, blocks - i * chunk) }, (_, k) => i * chunk + k),
          }),
        )
      : [],
  );
  const done = await doAll(start, jobs, workers, (n, of) => progress("draws of the pick", n, of));
  const deviates = new Deviates(seed);
  const results: Accuracy[] = [];
  for (const pair of pairs) {
    const study = new AccuracyStudy(sceneOf(project, pair.unit, pair.tape), pair, deviates, weights, { draws });
    if (study.absent !== undefined) {
      results.push(study.nothing());
      continue;
    }
    finished(study.prepare());
    finished(study.finish());
    const mine = jobs.flatMap((job, i): readonly BlockResult[] =>
      job.unit === pair.unit && job.tape === pair.tape ? (done[i] as Extract<Done, { kind: "pick draws" }>).blocks : [],
    );
    results.push(study.put(mine));
    progress("shares and levers", results.length, pairs.length);
    await new Promise((resolve) => setImmediate(resolve));
  }
  return {
    seed,
    known: { weighed: weighs, effective },
    pairs: results,
  };
}
