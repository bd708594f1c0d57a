import { type Deviates, type Steps, type Taken, takenIn, type Weighed } from "@tapeworthy/core";
import type { Bench, Tell } from "./bench.ts";
import { type BenchResult, benchResult, inDateOrder } from "./bench-evidence.ts";
import { type WeighedBelief, weighedBelief } from "./taken-trials.ts";

/** What is believed as the files stand: known units, and results of trials that were taken. Nothing that waits is in it. */
export interface Believed {
  readonly deviates: Deviates;
  readonly weights: Float64Array;
  /** Checks that known units contradict: they stop no tape. */
  readonly contradicted: readonly string[];
  /** By known units alone. */
  readonly byKnown: Weighed;
}
/** What is believed, and what would be if everything that waits were taken. */
export interface BenchBelief {
  readonly deviates: Deviates;
  /** Weights as the files stand. */
  readonly base: Float64Array;
  readonly weighed: WeighedBelief;
  readonly byKnown: Weighed;
  readonly results: readonly BenchResult[];
  /** Weights with what waits taken in, and how each result stands to the belief before it. */
  readonly taken: Taken;
}
export const believedOf = ({
  deviates,
  base,
  weighed,
  byKnown,
}: Pick<BenchBelief, "deviates" | "base" | "weighed" | "byKnown">): Believed => ({
  deviates,
  weights: base,
  contradicted: weighed.contradicted,
  byKnown,
});

export interface BenchAsked {
  readonly deviates: Deviates;
  /** The record of known units as it was weighed, with what the ledger takes in it (`weighedBelief`). */
  readonly record: WeighedBelief;
  /** False leaves known units out of the weights. */
  readonly known?: boolean;
  /** One trial; all of them where it is left out. */
  readonly only?: string | undefined;
  readonly tell?: Tell;
}
/** Every trial, or one, as evidence on top of what is believed. */
export function* benchBelief(
  { project }: Pick<Bench, "project">,
  { deviates, record, known = true, only, tell }: BenchAsked,
): Steps<BenchBelief> {
  const { weights: base, byKnown } = known ? record : weighedBelief(project, undefined, deviates);
  const asked = inDateOrder(project.trials.values()).filter((t) => only === undefined || t.name === only);
  const results: BenchResult[] = [];
  for (const [i, trial] of asked.entries()) {
    tell?.("trials", i, asked.length);
    results.push(benchResult(project, trial, project.ledger, deviates));
    yield undefined;
  }
  // What the ledger takes is in those weights already: it does not count twice.
  const waiting = results.flatMap((r) => (r.evidence && r.state === "used" ? [r.evidence] : []));
  return { deviates, base, weighed: record, byKnown, results, taken: takenIn(base, waiting) };
}
