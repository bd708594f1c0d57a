import {
  cyclesToShow,
  Deviates,
  evenWeights,
  misfeedsInSteps,
  type Promised,
  promise,
  sequentialLines,
  sequentialStep,
} from "@tapeworthy/core";
import {
  type BenchCounts,
  type BenchResult,
  benchCounts,
  benchResults,
  nearest,
  sceneOfTrial,
} from "@tapeworthy/project";
import { type Command, InvalidArgumentError } from "commander";
import { benchBelief } from "./bench-belief.ts";
import { type BenchFolder, openBench } from "./bench-folder.ts";
import { type Common, jsonOption, print, printJson, seedOption, width, workersOption } from "./call.ts";
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
interface Proof {
  readonly unit: string;
  readonly counts: BenchCounts;
  readonly promised: Promised;
  /** The greatest rate that the model gives on the tapes that were run. */
  readonly model: { readonly rate: number; readonly tape: string } | undefined;
  readonly progress:
    | {
        readonly allowed: number;
        readonly needed: number;
        readonly run: number;
        readonly failed: number;
        readonly shown: boolean;
      }
    | undefined;
  readonly sequential:
    | {
        readonly good: number;
        readonly bad: number;
        readonly step: "pass" | "refuse" | "go on";
        readonly firstPass: number;
        readonly passAt: number;
      }
    | undefined;
}
const rate = (text: string): number => {
  const v = Number(text);
  if (!(v > 0 && v < 1)) throw new InvalidArgumentError("A rate above 0 and below 1 is wanted.");
  return v;
};
/** `proof`: what the counted cycles of a unit may promise. */
export function proofCommand(program: Command): void {
  program
    .command("proof")
    .description("what counted cycles may promise: three statements side by side, and how far it is to the requirement")
    .argument("<folder>", "the project's folder")
    .option("--unit <name>", "the unit's file, without .yaml; every unit with counts where it is left out")
    .option("--confidence <share>", "confidence of the bounds", rate, 0.95)
    .option("--good <rate>", "rate of a unit that should pass the go or no-go run", rate)
    .option("--bad <rate>", "rate of a unit that should be refused", rate)
    .option("--no-model", "leave out the statement that leans on the model")
    .addOption(seedOption())
    .addOption(workersOption())
    .option("--no-known", "leave the record of known units out of the belief")
    .addOption(jsonOption())
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
      const { results, deviates, weights, retired } = await standing(bench, options, progress);
      const proofs: Proof[] = [];
      for (const unit of options.unit === undefined ? units.keys() : [options.unit]) {
        const counts = benchCounts(bench.trials.values(), unit, retired);
        if (counts) proofs.push(proofOf(bench, unit, counts, options, { deviates, weights }, progress));
      }
      progress.end();
      if (proofs.length === 0)
        throw new CallError(
          `No cycles were counted${options.unit === undefined ? "" : ` of ${options.unit}`} that still stand: read a counting log with "tapeworthy read".`,
        );
      const left = results.filter((r) => retired.has(r.trial));
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
async function standing(bench: BenchFolder, options: ProofOptions, progress: Progress) {
  if (options.model) {
    const { results, deviates, taken } = await benchBelief(bench, {
      ...options,
      workers: options.workers,
      progress: progress.say,
    });
    return { results, deviates, weights: taken.weights, retired: goneOf(results) };
  }
  const deviates = new Deviates(options.seed);
  const results = benchResults(bench.project, bench.trials.values(), bench.ledger, deviates);
  return { results, deviates, weights: evenWeights, retired: goneOf(results) };
}
const goneOf = (results: readonly BenchResult[]): ReadonlySet<string> =>
  new Set(results.filter((r) => r.state === "retired" || r.state === "apart").map((r) => r.trial));

function proofOf(
  { project }: BenchFolder,
  unit: string,
  counts: BenchCounts,
  { confidence, model: wanted, good, bad, seed }: ProofOptions,
  belief: { readonly deviates: Parameters<typeof misfeedsInSteps>[1]["deviates"]; readonly weights: Float64Array },
  progress: Progress,
): Proof {
  const allowed = project.requirement.misfeeds;
  let model: Proof["model"];
  if (wanted)
    for (const [i, tape] of counts.tapes.entries()) {
      progress.say("misfeed models", i, counts.tapes.length);
      const steps = misfeedsInSteps(sceneOfTrial(project, { unit, tape }), {
        deviates: belief.deviates,
        weights: belief.weights,
        seed,
      });
      let step = steps.next();
      while (!step.done) step = steps.next();
      const { middle } = step.value.belief;
      if (middle > 0 && middle < 1 && !(model && model.rate >= middle)) model = { rate: middle, tape };
    }
  const promised = promise({
    units: counts.units,
    reels: counts.reels,
    confidence,
    ...(model ? { model: { median: model.rate } } : {}),
  });
  const failed = counts.units.reduce((sum, u) => sum + u.failed, 0);
  const run = counts.units.reduce((sum, u) => sum + u.run, 0);
  const plan =
    good !== undefined && bad !== undefined
      ? { good, bad }
      : allowed !== undefined && allowed > 0
        ? { good: allowed, bad: Math.min(0.5, 10 * allowed) }
        : undefined;
  if ((good === undefined) !== (bad === undefined)) throw new CallError("--good and --bad go together.");
  if (plan && !(plan.good < plan.bad))
    throw new CallError(`The good rate ${plan.good} is not below the bad one ${plan.bad}.`);
  const lines = plan && sequentialLines(plan);
  return {
    unit,
    counts,
    promised,
    model,
    progress:
      allowed !== undefined && allowed > 0
        ? {
            allowed,
            needed: cyclesToShow(allowed, confidence, failed),
            run,
            failed,
            shown: promised.unlike.rate <= allowed,
          }
        : undefined,
    sequential:
      plan && lines
        ? {
            ...plan,
            step: sequentialStep(plan, failed, run),
            firstPass: lines.firstPass,
            passAt: Math.ceil((failed + lines.h1) / lines.slope),
          }
        : undefined,
  };
}
const spaced = (n: number): string => String(Math.round(n)).replace(/\B(?=(\d{3})+(?!\d))/g, " ");
function show({ unit, counts, promised, model, progress, sequential }: Proof): string {
  const { alike, unlike, withModel, badUnits, effectiveCycles, warnings, sentence } = promised;
  const lines = [
    `${unit}, from ${counts.trials.join(", ")}: ${counts.units.map((u) => `${u.name || "unnamed"} ${spaced(u.failed)} of ${spaced(u.run)}`).join("; ")}; ${counts.reels} ${counts.reels === 1 ? "reel" : "reels"} of ${counts.tapes.join(", ")}.`,
    `  by test alone, were all units alike   fewer than 1 in ${spaced(alike.oneIn)}`,
    `  by test alone, units differ           fewer than 1 in ${spaced(unlike.oneIn)}`,
    withModel && model
      ? `  with the model (1 in ${spaced(1 / model.rate)}, ${model.tape})   fewer than 1 in ${spaced(withModel.oneIn)}`
      : "  with the model                        not said: the model gives no rate here",
    ...(badUnits === undefined
      ? []
      : [`  none failed: up to ${Math.round(100 * badUnits)} % of such units may be bad all the same`]),
    `  The cycles are worth ${spaced(effectiveCycles)} independent ones.`,
    ...warnings.map((w) => `  Warning: ${w}.`),
    ...(progress
      ? [
          `  Asked: at most 1 in ${spaced(1 / progress.allowed)}. ${progress.shown ? "Shown, units differing." : `${spaced(progress.run)} of ${spaced(progress.needed)} cycles, which ${progress.failed === 0 ? "without a failure" : `with ${progress.failed} failed and no more`} would show it, were all units alike: ${Math.floor((100 * progress.run) / progress.needed)} %.`}`,
        ]
      : ["  project.yaml asks for no misfeed allowance."]),
    ...(sequential
      ? [
          `  Go or no-go, 1 in ${spaced(1 / sequential.good)} good against 1 in ${spaced(1 / sequential.bad)} bad, 5 % either way: ${sequential.step}${sequential.step === "go on" ? `; it passes at ${spaced(sequential.passAt)} cycles if none more fails` : ""}.`,
        ]
      : []),
    `  To be said: ${sentence}.`,
  ];
  return lines.map((l) => wrapped(l, width(), "    ")).join("\n");
}
