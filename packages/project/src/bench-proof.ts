import {
  cyclesToShow,
  misfeedsInSteps,
  type Promised,
  promise,
  type Steps,
  sequentialLines,
  sequentialStep,
  spaced,
} from "@tapeworthy/core";
import type { Bench, Refused, Tell } from "./bench.ts";
import type { Believed } from "./bench-belief.ts";
import { type BenchCounts, benchCounts } from "./bench-counts.ts";
import type { BenchResult } from "./bench-evidence.ts";
import { sceneOf } from "./scene-of.ts";
import { weighedBelief } from "./taken-trials.ts";

/** What the counted cycles of a unit may promise. */
export interface Proof {
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
export interface ProofAsked {
  /** How every trial stands: what is retired or kept apart does not count. */
  readonly results: readonly BenchResult[];
  /** Left out, the statement that leans on the model is not made. */
  readonly believed?: Believed | undefined;
  readonly confidence?: number;
  /** Rates of a unit that should pass the go or no-go run, and of one that should not; both or neither. */
  readonly good?: number | undefined;
  readonly bad?: number | undefined;
  readonly tell?: Tell;
}
/** Trials whose counts do not count. */
export const leftOut = (results: readonly BenchResult[]): readonly BenchResult[] =>
  results.filter((r) => r.state === "retired" || r.state === "apart");

/** What a unit's counts may promise; undefined where nothing was counted that still stands. */
export function* proofOf(
  { project }: Pick<Bench, "project">,
  unit: string,
  { results, believed, confidence = 0.95, good, bad, tell }: ProofAsked,
): Steps<Proof | undefined | Refused> {
  const retired = new Set(leftOut(results).map((r) => r.trial));
  const counts = benchCounts(project.trials.values(), unit, retired);
  if (!counts) return undefined;
  const allowed = project.requirement.misfeeds;
  if ((good === undefined) !== (bad === undefined)) return { why: "--good and --bad go together." };
  const plan =
    good !== undefined && bad !== undefined
      ? { good, bad }
      : allowed !== undefined && allowed > 0
        ? { good: allowed, bad: Math.min(0.5, 10 * allowed) }
        : undefined;
  if (plan && !(plan.good < plan.bad))
    return { why: `The good rate ${plan.good} is not below the bad one ${plan.bad}.` };
  let model: Proof["model"];
  if (believed) {
    const { deviates, byKnown } = believed;
    // What is counted here must not have weighed the belief that its model leans on: it would count twice.
    const weights = counts.trials.some((name) => project.ledger.taken.has(name))
      ? weighedBelief(project, byKnown, deviates, { but: counts.trials }).weights
      : believed.weights;
    for (const [i, tape] of counts.tapes.entries()) {
      tell?.("misfeed models", i, counts.tapes.length);
      const scene = sceneOf(project, unit, tape);
      const { belief } = yield* misfeedsInSteps(scene, { deviates, weights, seed: deviates.seed });
      const { middle } = belief;
      if (middle > 0 && middle < 1 && !(model && model.rate >= middle)) model = { rate: middle, tape };
    }
  }
  const promised = promise({
    units: counts.units,
    reels: counts.reels,
    confidence,
    ...(model ? { model: { median: model.rate } } : {}),
  });
  const failed = counts.units.reduce((sum, u) => sum + u.failed, 0);
  const run = counts.units.reduce((sum, u) => sum + u.run, 0);
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

/** One of the three statements, in the words of every place that makes it. */
export interface Statement {
  readonly says: string;
  /** What it rests on. */
  readonly restsOn: string;
  /** N of "fewer than 1 in N", rounded down; undefined where it is not said. */
  readonly oneIn: number | undefined;
}
/** The three statements, always side by side. */
export const statementsOf = ({ promised, model }: Proof): readonly [Statement, Statement, Statement] => [
  {
    says: "by test alone, were all units alike",
    restsOn: "the count alone, as if every unit and reel were the same",
    oneIn: promised.alike.oneIn,
  },
  {
    says: "by test alone, units differ",
    restsOn: "the count alone; nobody knows how much units and reels differ",
    oneIn: promised.unlike.oneIn,
  },
  {
    says:
      promised.withModel && model ? `with the model (1 in ${spaced(1 / model.rate)}, ${model.tape})` : "with the model",
    restsOn: "the rate the model gives, and the count: goes beyond the test",
    oneIn: model && promised.withModel?.oneIn,
  },
];

/** How far it is to what the requirement asks. */
export const sayProgress = ({ progress }: Proof): string =>
  progress
    ? `Asked: at most 1 in ${spaced(1 / progress.allowed)}. ${progress.shown ? "Shown, units differing." : `${spaced(progress.run)} of ${spaced(progress.needed)} cycles, which ${progress.failed === 0 ? "without a failure" : `with ${progress.failed} failed and no more`} would show it, were all units alike: ${Math.floor((100 * progress.run) / progress.needed)} %.`}`
    : "project.yaml asks for no misfeed allowance.";
/** How the go or no-go run stands; undefined where nobody asked for one. */
export const saySequential = ({ sequential }: Proof): string | undefined =>
  sequential &&
  `Go or no-go, 1 in ${spaced(1 / sequential.good)} good against 1 in ${spaced(1 / sequential.bad)} bad, 5 % either way: ${sequential.step}${sequential.step === "go on" ? `; it passes at ${spaced(sequential.passAt)} cycles if none more fails` : ""}.`;
