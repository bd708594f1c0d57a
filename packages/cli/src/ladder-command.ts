import { nearest, type Project } from "@tapeworthy/project";
import type { Command } from "commander";
import { type Common, judging, ofUnits, open, print, printJson, width } from "./call.ts";
import { CallError } from "./folder.ts";
import { paintFor } from "./paint.ts";
import { Progress } from "./progress.ts";
import { runLadder } from "./run-ladder.ts";
import { showLadder } from "./show-ladder.ts";
import { version } from "./version.ts";

/** `ladder`: a unit over continuous width, and where each check turns. */
export function ladderCommand(program: Command): void {
  judging(
    ofUnits(
      program
        .command("ladder")
        .description("a unit over continuous width: where each check comes to depend and where it stops")
        .argument("[folder]", "the project's folder", "."),
    ),
  )
    .addHelpText(
      "after",
      '\nExamples:\n  tapeworthy ladder examples/saltgrass\n  tapeworthy ladder examples/saltgrass --unit plover --json\n  tapeworthy ladder . --unit plover --vary "plover/film.guides.nip.through.1=peel - 155 mm"',
    )
    .action(async (folder: string, options: Common & { readonly unit?: string }) => {
      const { project, texts } = open(folder, options.vary);
      // Those that tapes are wanted of first, as check has them.
      const all = new Set([...project.wanted.keys(), ...project.units.keys()]);
      const units = options.unit === undefined ? [...all] : [unitNamed(project, options.unit)];
      const progress = new Progress(process.stderr);
      const result = await runLadder(project, texts, units, {
        seed: options.seed,
        workers: options.workers,
        useKnown: options.known,
        progress: progress.say,
      }).finally(() => progress.end());
      if (result.ladders.length === 0)
        throw new CallError(result.without[0]?.why ?? "There is no unit file yet: units/NAME.yaml.");
      if (options.json) printJson({ version, ...result });
      else print(showLadder(result, paintFor(process.stdout), width()));
    });
}

/** A unit of the project by its file's name. Throws CallError with the way out. */
export function unitNamed(project: Project, name: string): string {
  if (project.units.has(name)) return name;
  const near = nearest(name, project.units.keys());
  throw new CallError(
    `There is no unit "${name}".${near ? ` Did you mean "${near}"?` : ` Units here: ${[...project.units.keys()].join(", ")}.`}`,
  );
}
