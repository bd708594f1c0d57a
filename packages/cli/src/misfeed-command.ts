import type { Misfeeds } from "@tapeworthy/core";
import type { Project, Texts } from "@tapeworthy/project";
import type { Command } from "commander";
import { type Common, drawsOption, judging, ofPairs, open, print, printJson, width } from "./call.ts";
import { doAll } from "./crew.ts";
import type { Done, Job } from "./job.ts";
import { paintFor } from "./paint.ts";
import { type Pair, pairsAsked } from "./pairs-asked.ts";
import { Progress } from "./progress.ts";
import { type CheckOptions, weighRecord, withoutKnown } from "./run-check.ts";
import type { Weight } from "./run-ladder.ts";
import { showMisfeed, showMisfeeds } from "./show-misfeed.ts";
import { version } from "./version.ts";

export interface PairMisfeeds {
  readonly unit: string;
  readonly tape: string;
  /** Nominal width of the tape's row, mm. */
  readonly W: number;
  readonly misfeeds: Misfeeds;
}
export interface MisfeedResult {
  readonly seed: number;
  /** Belief draws behind every band. */
  readonly draws: number;
  readonly pairs: readonly PairMisfeeds[];
  readonly known: Weight;
}
interface MisfeedCall extends Common {
  readonly unit?: string;
  readonly tape?: string;
  readonly draws: number;
}

/** `misfeed`: how often an index goes wrong, by mode, against what the project allows. */
export function misfeedCommand(program: Command): void {
  judging(
    ofPairs(
      program
        .command("misfeed")
        .description("how often an index goes wrong, by mode, with what is believed of each rate and what to measure")
        .argument("[folder]", "the project's folder", "."),
    ).addOption(drawsOption("belief draws behind each band, 40 to 1000", 40, 1000, 100)),
  )
    .addHelpText(
      "after",
      "\nExamples:\n  tapeworthy misfeed examples/saltgrass --unit plover --tape so8-12\n  tapeworthy misfeed examples/saltgrass --unit dunlin --draws 400 --json",
    )
    .action(async (folder: string, options: MisfeedCall) => {
      const { project, texts } = open(folder, options.vary);
      const pairs = pairsAsked(project, options);
      const progress = new Progress(process.stderr);
      const result = await runMisfeed(project, texts, pairs, {
        seed: options.seed,
        workers: options.workers,
        useKnown: options.known,
        draws: options.draws,
        progress: progress.say,
      }).finally(() => progress.end());
      const paint = paintFor(process.stdout);
      if (options.json) printJson({ version, ...result });
      else if (result.pairs.length === 1) print(showMisfeed(result.pairs[0]!, result, paint, width()));
      else print(showMisfeeds(result, paint, width()));
    });
}

export async function runMisfeed(
  project: Project,
  texts: Texts,
  pairs: readonly Pair[],
  options: Omit<CheckOptions, "cures"> & { readonly draws: number },
): Promise<MisfeedResult> {
  const { seed, workers, useKnown, draws, progress } = options;
  const start = { texts: [...texts], seed };
  const { weights, effective } = useKnown
    ? (options.record ?? (await weighRecord(project, start, options))).weighed
    : withoutKnown(project, seed);
  const jobs = pairs.map(({ unit, tape }): Job => ({ kind: "misfeeds", unit, tape, weights, draws }));
  const done = await doAll(start, jobs, workers, (n, of) => progress("misfeeds of unit and tape", n, of));
  return {
    seed,
    draws,
    pairs: pairs.map(({ unit, tape }, i) => ({
      unit,
      tape,
      W: project.tapes.get(tape)!.tape.row,
      misfeeds: (done[i] as Extract<Done, { kind: "misfeeds" }>).misfeeds,
    })),
    known: {
      weighed: useKnown && project.known.length > 0,
      effective,
    },
  };
}
