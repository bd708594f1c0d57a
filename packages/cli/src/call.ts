import type { Project, Texts } from "@tapeworthy/project";
import { type Command, InvalidArgumentError, Option } from "commander";
import { readFolder } from "./folder.ts";
import { load, varied } from "./load.ts";
import { Progress } from "./progress.ts";
import { type CheckOptions, type CheckResult, runCheck, type WeighedRecord, weighRecord } from "./run-check.ts";

export const width = (): number => Math.min(160, Math.max(60, process.stdout.columns ?? 110));
export const print = (text: string): void => void process.stdout.write(`${text}\n`);
export const printJson = (value: unknown): void =>
  print(JSON.stringify(value, (_, v: unknown) => (typeof v === "number" && !Number.isFinite(v) ? null : v), 2));

/** What every command that judges takes. */
export interface Common {
  readonly vary: readonly string[];
  readonly seed: number;
  readonly workers?: number;
  readonly known: boolean;
  readonly json?: true;
}
export type CuresWanted = CheckOptions["cures"];
export const seedOption = () =>
  new Option("--seed <number>", "seed of the draws; the same seed gives the same bits")
    .default(1)
    .argParser(wholeNumber(0, 4294967295));
const varyOption = () =>
  new Option(
    "--vary <address=value>",
    'another value for one number, for this run only: --vary "plover/nip.preload=5 ±0.5 N"; may be repeated',
  )
    .default([] as string[])
    .argParser((value: string, before: string[]) => [...before, value]);
const workersOption = () =>
  new Option("--workers <number>", "threads to use; the answer does not depend on it").argParser(wholeNumber(1, 64));
/** How many draws of a kind to make. */
export const drawsOption = (means: string, least: number, most: number, usual: number) =>
  new Option("--draws <number>", means).default(usual).argParser(wholeNumber(least, most));
export const jsonOption = () => new Option("--json", "print JSON instead of text: SI numbers under named fields");
const knownOption = () => new Option("--no-known", "leave the record of known units out of the belief");

// Options that several commands share, each list in the order in which their help prints it.
/** What a command that judges the files takes: Common. */
export const judging = (command: Command): Command =>
  onFiles(command).addOption(seedOption()).addOption(workersOption()).addOption(knownOption());
/** What a command takes that reads the files alone, without draws. */
export const onFiles = (command: Command): Command => command.addOption(jsonOption()).addOption(varyOption());
/** What a command of the bench takes: it judges the files as they are. */
export const onBench = (command: Command): Command =>
  command.addOption(seedOption()).addOption(workersOption()).addOption(knownOption()).addOption(jsonOption());
/** Which unit; all of them else. */
export const ofUnits = (command: Command): Command =>
  command.option("--unit <name>", "the unit's file, without .yaml; all units where it is left out");
/** Which wanted pairs of unit and tape; all of them else. */
export const ofPairs = (command: Command): Command =>
  ofUnits(command).option("--tape <name>", "the tape's file, without .yaml; all wanted tapes where it is left out");
/** What begins a trial that has no file yet. */
export const ofNewTrial = (command: Command): Command =>
  command
    .option("--unit <name>", "for a trial that is new: the unit's file, without .yaml")
    .option("--tape <name>", "for a trial that is new: the tape's file, without .yaml")
    .option("--question <address>", "for a trial that is new: the unknown it measures, or the check it tries")
    .option("--built <text>", "for a trial that is new: what was built");

export function wholeNumber(least: number, most: number): (text: string) => number {
  return (text) => {
    const v = Number(text);
    if (!/^\d+$/.test(text) || v < least || v > most)
      throw new InvalidArgumentError(`A whole number from ${least} to ${most} is wanted.`);
    return v;
  };
}

/** Reads a folder, with the wished changes. */
export function open(folder: string, vary: readonly string[]): { project: Project; texts: Texts } {
  const texts = readFolder(folder);
  const project = load(texts);
  if (vary.length === 0) return { project, texts };
  const changed = varied(texts, project, vary);
  return { project: load(changed), texts: changed };
}

/** Weighs a project's record of known units, for several judgings, and tells how far it is. */
export async function weighedFor(project: Project, texts: Texts, options: Common): Promise<WeighedRecord> {
  const progress = new Progress(process.stderr);
  try {
    const start = { texts: [...texts], seed: options.seed };
    return await weighRecord(project, start, { workers: options.workers, progress: progress.say });
  } finally {
    progress.end();
  }
}
/** Judges a project and tells how far it is; by a record that has been weighed already where there is one. */
export async function checked(
  project: Project,
  texts: Texts,
  options: Common,
  cures: CuresWanted = "none",
  record?: WeighedRecord,
): Promise<CheckResult> {
  const progress = new Progress(process.stderr);
  try {
    return await runCheck(project, texts, {
      seed: options.seed,
      workers: options.workers,
      useKnown: options.known,
      cures,
      progress: progress.say,
      ...(record ? { record } : {}),
    });
  } finally {
    progress.end();
  }
}
