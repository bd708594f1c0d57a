import { Deviates, finished, spaced } from "@tapeworthy/core";
import {
  type Believed,
  type BenchResult,
  believedOf,
  benchResults,
  leftOut,
  nearest,
  type Proof,
  proofOf,
  sayProgress,
  saySequential,
  statementsOf,
} from "@tapeworthy/project";
import { type Command, InvalidArgumentError } from "commander";
import { type BenchFolder, beliefOf, openBench, orRefused } from "./bench-folder.ts";
import { type Common, onBench, print, printJson, width } from "./call.ts";
import { CallError } from "./folder.ts";
import { wrapped } from "./paint.ts";
import { Progress } from "./progress.ts";
import { version } from "./version.ts";

interface ProofOptions extends Omit<Common, "vary"> {
  readonly unit?: string;
  readonly model: boolean;
  readonly confidence: number;
  readonly good?: number;
  readonly bad?: number;
}
const rate = (text: string): number => {
  const v = Number(text);
  if (!(v > 0 && v < 1)) throw new InvalidArgumentError("A rate above 0 and below 1 is wanted.");
  return v;
};
/** `proof`: what the counted cycles of a unit may promise. */
export function proofCommand(program: Command): void {
  onBench(
    program
      .command("proof")
      .description(
        "what counted cycles may promise: three statements side by side, and how far it is to the requirement",
      )
      .argument("<folder>", "the project's folder")
      .option("--unit <name>", "the unit's file, without .yaml; every unit with counts where it is left out")
      .option("--confidence <share>", "confidence of the bounds", rate, 0.95)
      .option("--good <rate>", "rate of a unit that should pass the go or no-go run", rate)
      .option("--bad <rate>", "rate of a unit that should be refused", rate)
      .option("--no-model", "leave out the statement that leans on the model"),
  )
    .addHelpText(
      "after",
      "\nExamples:\n  tapeworthy proof . --unit dunlin\n  tapeworthy proof . --good 0.0001 --bad 0.001",
    )
    .action(async (folder: string, options: ProofOptions) => {
      const bench = openBench(folder);
      const { units } = bench.project;
      if (options.unit !== undefined && !units.has(options.unit)) {
        const near = nearest(options.unit, units.keys());
        throw new CallError(`There is no unit "${options.unit}".${near ? ` Did you mean "${near}"?` : ""}`);
      }
      const progress = new Progress(process.stderr);
      const { results, believed } = await standing(bench, options, progress);
      const proofs: Proof[] = [];
      for (const unit of options.unit === undefined ? units.keys() : [options.unit]) {
        const { confidence, good, bad } = options;
        const asked = { results, believed, confidence, good, bad, tell: progress.say };
        const proof = finished(proofOf(bench, unit, asked));
        if (proof) proofs.push(orRefused(proof));
      }
      progress.end();
      if (proofs.length === 0)
        throw new CallError(
          `No cycles were counted${options.unit === undefined ? "" : ` of ${options.unit}`} that still stand: read a counting log with "tapeworthy read".`,
        );
      const left = leftOut(results);
      if (options.json)
        printJson({
          version,
          confidence: options.confidence,
          proofs,
          leftOut: left.map(({ trial, says }) => ({ trial, why: says })),
        });
      else
        print(
          [...proofs.flatMap((p) => [show(p), ""]), ...left.map((r) => `${r.trial} does not count: ${r.says}.`)]
            .join("\n")
            .trimEnd(),
        );
    });
}
/** How every trial stands, and what is believed where the model is asked for. */
async function standing(
  bench: BenchFolder,
  options: ProofOptions,
  progress: Progress,
): Promise<{ readonly results: readonly BenchResult[]; readonly believed: Believed | undefined }> {
  if (options.model) {
    const belief = await beliefOf(bench, { ...options, workers: options.workers, progress: progress.say });
    return { results: belief.results, believed: believedOf(belief) };
  }
  const { trials, ledger } = bench.project;
  const results = benchResults(bench.project, trials.values(), ledger, new Deviates(options.seed));
  return { results, believed: undefined };
}
function show(proof: Proof): string {
  const { unit, counts, promised } = proof;
  const { badUnits, effectiveCycles, warnings, sentence } = promised;
  const sequential = saySequential(proof);
  const lines = [
    `${unit}, from ${counts.trials.join(", ")}: ${counts.units.map((u) => `${u.name || "unnamed"} ${spaced(u.failed)} of ${spaced(u.run)}`).join("; ")}; ${counts.reels} ${counts.reels === 1 ? "reel" : "reels"} of ${counts.tapes.join(", ")}.`,
    ...statementsOf(proof).map(({ says, oneIn }, i) =>
      // The last one names the model's own rate, which is longer than the column.
      i < 2
        ? `  ${says.padEnd(36)}  fewer than 1 in ${spaced(oneIn!)}`
        : oneIn === undefined
          ? `  ${says.padEnd(36)}  not said: the model gives no rate here`
          : `  ${says}   fewer than 1 in ${spaced(oneIn)}`,
    ),
    ...(badUnits === undefined
      ? []
      : [`  none failed: up to ${Math.round(100 * badUnits)} % of such units may be bad all the same`]),
    `  The cycles are worth ${spaced(effectiveCycles)} independent ones.`,
    ...warnings.map((w) => `  Warning: ${w}.`),
    `  ${sayProgress(proof)}`,
    ...(sequential === undefined ? [] : [`  ${sequential}`]),
    `  To be said: ${sentence}.`,
  ];
  return lines.map((l) => wrapped(l, width(), "    ")).join("\n");
}
