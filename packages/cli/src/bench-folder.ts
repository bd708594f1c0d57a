import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Deviates, finished } from "@tapeworthy/core";
import {
  applied,
  asIfWritten,
  type Bench,
  type BenchBelief,
  type BenchMoves,
  benchBelief,
  benchMoves,
  canonicalTexts,
  type Edit,
  isRefused,
  nearest,
  type Refused,
  type Tell,
  type Trial,
  type WeighedBelief,
} from "@tapeworthy/project";
import { CallError, readFolder, writeWhole } from "./folder.ts";
import { load } from "./load.ts";
import { weighRecord } from "./run-check.ts";

/** A project's folder with what its bench commands need. */
export interface BenchFolder extends Bench {
  readonly folder: string;
}
export function openBench(folder: string): BenchFolder {
  const texts = readFolder(folder);
  const sha = createHash("sha256").update(canonicalTexts(texts)).digest("hex");
  return { folder, project: load(texts), texts, sha };
}
export function trialNamed({ project: { trials } }: BenchFolder, name: string): Trial {
  const trial = trials.get(name);
  if (trial) return trial;
  const near = nearest(name, trials.keys());
  throw new CallError(
    `There is no trial "${name}".${near ? ` Did you mean "${near}"?` : trials.size === 0 ? ' There is none yet: begin with "tapeworthy freeze" or "tapeworthy read".' : ` There are: ${[...trials.keys()].join(", ")}.`}`,
  );
}
/** The outcome of something that may be refused; a refusal ends the call. */
export function orRefused<T extends object>(of: T | Refused, more = ""): T {
  if (isRefused(of)) throw new CallError(`${of.why}${more}`);
  return of as T;
}
/** How a bench command works belief out. */
export interface BeliefOptions {
  readonly seed: number;
  readonly workers: number | undefined;
  readonly known: boolean;
  readonly progress: Tell;
}
/** The record of known units weighed on workers, and on it every trial as evidence, or one. */
export async function beliefOf(bench: Bench, options: BeliefOptions, only?: string): Promise<BenchBelief> {
  const { seed, known, progress } = options;
  const deviates = new Deviates(seed);
  const record = await recordOf(bench, options);
  return finished(benchBelief(bench, { deviates, record, known, only, tell: progress }));
}
async function recordOf({ project, texts }: Bench, { seed, workers, progress }: BeliefOptions): Promise<WeighedBelief> {
  return (await weighRecord(project, { texts: [...texts], seed }, { workers, progress })).weighed;
}
/** The cells before and after; known units are weighed again only where what they rest on moves. */
export async function movesOf(
  bench: Bench,
  belief: BenchBelief,
  options: BeliefOptions,
  only?: string,
): Promise<BenchMoves> {
  const anew = asIfWritten(bench, belief);
  const record = anew?.knownRest ? await recordOf(anew.bench, options) : undefined;
  const { known, progress } = options;
  return finished(benchMoves(bench, belief, { anew, record, known, only, tell: progress }));
}
/** Writes one edit of a file whole; not where somebody has changed it since it was read. */
export function wrote({ folder, texts }: Pick<BenchFolder, "folder" | "texts">, edit: Edit): boolean {
  const before = texts.get(edit.file);
  const full = join(folder, edit.file);
  const still = (): boolean => (existsSync(full) ? readFileSync(full, "utf8") : undefined) === before;
  return writeWhole(full, applied(edit, before ?? ""), still);
}
export function writeEdit(bench: Pick<BenchFolder, "folder" | "texts">, edit: Edit): void {
  if (!wrote(bench, edit)) throw new CallError(`${edit.file} was changed meanwhile. It is as it was; call again.`);
}
