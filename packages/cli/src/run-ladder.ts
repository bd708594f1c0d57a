import { checks, type Ladder, ladderOf } from "@tapeworthy/core";
import { familyOf, type Project, type Texts } from "@tapeworthy/project";
import { doAll } from "./crew.ts";
import type { Done, Job } from "./job.ts";
import { type CheckOptions, weighRecord, withoutKnown } from "./run-check.ts";

export interface LadderResult {
  readonly seed: number;
  readonly ladders: readonly Ladder[];
  /** Units asked for that have none, and why. */
  readonly without: readonly { readonly unit: string; readonly why: string }[];
  readonly known: Weight;
}
/** Whether the record of known units was weighed in, and how many even belief draws are left of it. */
export interface Weight {
  readonly weighed: boolean;
  readonly effective: number;
}

/** Climbs the ladders of some units, with the weight of the known ones. */
export async function runLadder(
  project: Project,
  texts: Texts,
  units: readonly string[],
  options: Omit<CheckOptions, "cures">,
): Promise<LadderResult> {
  const { seed, workers, useKnown, progress } = options;
  const start = { texts: [...texts], seed };
  const found = units.map((unit) => ({ unit, family: familyOf(project, unit) }));
  const families = found.flatMap(({ family }) => (typeof family === "string" ? [] : [family]));
  const without = found.flatMap(({ unit, family }) => (typeof family === "string" ? [{ unit, why: family }] : []));
  const { weights, contradicted, effective } = useKnown
    ? (options.record ?? (await weighRecord(project, start, options))).weighed
    : withoutKnown(project, seed);
  const jobs = families.flatMap(({ unit, pieces }) =>
    pieces.map((_, piece): Job => ({ kind: "ladder", unit, piece, weights, contradicted })),
  );
  const done = await doAll(start, jobs, workers, (n, of) => progress("pieces of the ladder", n, of));
  const climbed = done.map((d) => (d as Extract<Done, { kind: "ladder" }>).climbed);
  let at = 0;
  const ladders = families.map((family) => {
    const mine = climbed.slice(at, at + family.pieces.length);
    at += family.pieces.length;
    return ladderOf(family, mine, checks, new Set(contradicted), project.requirement.allowPairs);
  });
  const weighed = useKnown && project.known.length > 0;
  return { seed, ladders, without, known: { weighed, effective } };
}
