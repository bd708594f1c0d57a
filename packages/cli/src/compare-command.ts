import { type Compared, checks, compare, fewestCompared, mostCompared } from "@tapeworthy/core";
import type { Project, Texts } from "@tapeworthy/project";
import type { Command } from "commander";
import { type Common, judging, open, print, printJson, width } from "./call.ts";
import { CallError, hasProject } from "./folder.ts";
import { unitNamed } from "./ladder-command.ts";
import { paintFor } from "./paint.ts";
import { Progress } from "./progress.ts";
import { type CheckOptions, runCheck, weighRecord } from "./run-check.ts";
import { runLadder, type Weight } from "./run-ladder.ts";
import { showCompare } from "./show-compare.ts";
import { sayWeight } from "./show-ladder.ts";
import { version } from "./version.ts";

/** `compare`: two to five units on one scale of width and on every tape they serve. */
export function compareCommand(program: Command): void {
  judging(
    program
      .command("compare")
      .description("two to five units on one scale of width and on every tape they serve: what stops each first")
      .argument(
        "<units...>",
        "files of the units, without .yaml; a last name with a / or . in it, or of no unit, is the project's folder",
      ),
  )
    .addHelpText(
      "after",
      "\nExamples:\n  tapeworthy compare plover dunlin examples/saltgrass\n  tapeworthy compare plover dunlin --json",
    )
    .action(async (args: readonly string[], options: Common) => {
      const { names, folder } = split(args);
      const { project, texts } = open(folder, options.vary);
      const units = names.map((name) => unitNamed(project, name));
      const twice = units.find((unit, i) => units.indexOf(unit) !== i);
      if (twice) throw new CallError(`"${twice}" is named twice; a unit is compared with others.`);
      const progress = new Progress(process.stderr);
      const run = { seed: options.seed, workers: options.workers, useKnown: options.known, progress: progress.say };
      const { compared, known } = await gather(project, texts, units, run).finally(() => progress.end());
      const result = compare(compared, checks);
      if (options.json) printJson({ version, seed: options.seed, known, ...result });
      else print(`${showCompare(result, paintFor(process.stdout), width())}\n\n${sayWeight(known)}`);
    });
}

/** Names of units, then perhaps a folder: what could be no unit's name, or is a folder with a project in it. */
export function split(args: readonly string[]): { readonly names: readonly string[]; readonly folder: string } {
  const last = args.at(-1)!;
  const isFolder = /[/\\.]/.test(last) || hasProject(last);
  const names = isFolder ? args.slice(0, -1) : args;
  if (names.length < fewestCompared)
    throw new CallError(
      `${names.length === 1 ? `"${names[0]}" alone` : "No unit"} is given; name two to five units: tapeworthy compare plover dunlin.`,
    );
  if (names.length > mostCompared)
    throw new CallError(`${names.length} units are too many: two to five fit on one scale.`);
  return { names, folder: isFolder ? last : "." };
}

async function gather(
  project: Project,
  texts: Texts,
  units: readonly string[],
  options: Omit<CheckOptions, "cures">,
): Promise<{ readonly compared: readonly Compared[]; readonly known: Weight }> {
  const record = await weighRecord(project, { texts: [...texts], seed: options.seed }, options);
  const { ladders, without, known } = await runLadder(project, texts, units, { ...options, record });
  const served = new Map(units.map((unit) => [unit, servedBy(project, unit)]));
  const { units: judged } = await runCheck({ ...project, wanted: served }, texts, {
    ...options,
    record,
    cures: "none",
  });
  const compared = units.map((unit): Compared => {
    const { name, revision, tapes } = judged.find((one) => one.unit === unit)!;
    return {
      unit,
      name,
      revision,
      ladder: ladders.find((ladder) => ladder.unit === unit) ?? null,
      why: without.find((one) => one.unit === unit)?.why ?? null,
      tapes,
    };
  });
  return { compared, known };
}
/** Every tape of the project that a unit is cut for. */
const servedBy = (project: Project, unit: string): string[] => {
  const { variants, kinds } = project.units.get(unit)!;
  return [...project.tapes.values()]
    .filter(({ tape }) => variants.has(tape.row) && kinds.includes(tape.kind))
    .map(({ stem }) => stem);
};
