import { type TapeKind, tapeKinds } from "@tapeworthy/core";
import { type JsonSchema, jsonSchema, type SchemaKind, schemaKinds } from "@tapeworthy/project";
import { Command, CommanderError, Option } from "commander";
import { accuracyCommand } from "./accuracy-command.ts";
import { type Common, checked, jsonOption, judging, open, print, printJson, width } from "./call.ts";
import { cardCommand } from "./card-command.ts";
import { clearancesCommand } from "./clearances-command.ts";
import { compareCommand } from "./compare-command.ts";
import { CallError } from "./folder.ts";
import { freezeCommand } from "./freeze-command.ts";
import { indexCommand } from "./index-command.ts";
import { ladderCommand } from "./ladder-command.ts";
import { BadProject } from "./load.ts";
import { misfeedCommand } from "./misfeed-command.ts";
import { nextCommand } from "./next-command.ts";
import { openCommand } from "./open/open-command.ts";
import { paintFor } from "./paint.ts";
import { proofCommand } from "./proof-command.ts";
import { readCommand } from "./read-command.ts";
import { htmlOption, refuseFolder, writeReport } from "./report-file.ts";
import { type CheckResult, exitCodeOf } from "./run-check.ts";
import { scoreCommand } from "./score-command.ts";
import {
  catalogueLines,
  catalogueWidths,
  disagreementsOn,
  familiesIn,
  reelLines,
  showCatalogue,
} from "./show-catalogue.ts";
import { showCheck } from "./show-check.ts";
import { sizeCommand } from "./size-command.ts";
import { exampleNames, startProject } from "./start-project.ts";
import { takeCommand } from "./take-command.ts";
import { version } from "./version.ts";
import { whyCommand } from "./why.ts";

const badInput = 2;

/** The documented JSON of `check`: docs/json.md. Additions only. */
function jsonOf(result: CheckResult) {
  return { version, ...result };
}

/** The commands, as a call that has not been made yet. */
function commands(): Command {
  const program = new Command("tapeworthy")
    .description(
      "From one design file: which carrier tapes a feeder unit will feed, what stops it first, and what to measure next.",
    )
    .version(version, "--version", "print the version")
    .helpOption("--help", "show this help")
    .helpCommand(false)
    .showSuggestionAfterError(true)
    .configureOutput({ outputError: (text, write) => write(text.replace(/^error: /, "")) })
    .exitOverride()
    .addHelpText(
      "after",
      `
  Examples:
    tapeworthy start my-feeder --from ${exampleNames()[0] ?? "EXAMPLE"}    a folder of your own, from an example
    tapeworthy check my-feeder                    verdicts for every wanted tape
    tapeworthy why film.mismatch --tape so20-24 my-feeder
    tapeworthy check my-feeder --vary "plover/nip.preload=5 ±0.5 N"

  Exit codes of check: 0 all feed, 1 something stops, 3 something depends, 2 bad input.`,
    );

  judging(
    program
      .command("check")
      .description("judge every wanted pair of unit and tape")
      .argument("[folder]", "the project's folder", "."),
  )
    .addOption(htmlOption())
    .option("--cures", "three cures of every check that keeps a tape from feeding, with what each costs")
    .option("--no-cures", "verdicts alone, in about two thirds of the time")
    .addHelpText(
      "after",
      '\nExamples:\n  tapeworthy check examples/saltgrass\n  tapeworthy check . --cures\n  tapeworthy check . --no-cures\n  tapeworthy check . --html report.html\n  tapeworthy check . --json --seed 7\n  tapeworthy check . --vary "assume/mismatch limit=2 % measured"',
    )
    .action(async (folder: string, options: Common & { readonly cures?: boolean; readonly html?: string }) => {
      if (options.html !== undefined) refuseFolder(options.html);
      const { project, texts } = open(folder, options.vary);
      const result = await checked(
        project,
        texts,
        options,
        options.cures === undefined ? "first" : options.cures ? "all" : "none",
      );
      if (options.json) printJson(jsonOf(result));
      else
        print(
          showCheck(result, project, paintFor(process.stdout), {
            width: width(),
            ...(options.cures ? { cures: true } : {}),
          }),
        );
      if (options.html !== undefined) await writeReport(options.html, project, texts, result, options);
      process.exitCode = exitCodeOf(result);
    });

  whyCommand(program);
  clearancesCommand(program);
  cardCommand(program);
  indexCommand(program);
  accuracyCommand(program);
  ladderCommand(program);
  compareCommand(program);
  misfeedCommand(program);
  nextCommand(program);
  sizeCommand(program);
  openCommand(program);
  freezeCommand(program);
  readCommand(program);
  takeCommand(program);
  scoreCommand(program);
  proofCommand(program);

  program
    .command("catalogue")
    .description(
      "what the standards say of a width: each letter with its source, reels, where sources differ, usual parts",
    )
    .argument("<width>", "nominal width of the tape, mm")
    .addOption(new Option("--kind <kind>", "kind of carrier tape").choices(tapeKinds).default("embossed"))
    .addOption(jsonOption())
    .addHelpText("after", "\nExample:\n  tapeworthy catalogue 24")
    .action((text: string, options: { readonly kind: TapeKind; readonly json?: true }) => {
      const widths = catalogueWidths(options.kind);
      const w = Number(text.replace(/\s*mm$/, ""));
      if (!widths.includes(w))
        throw new CallError(`There is no ${options.kind} tape of "${text}". Widths: ${widths.join(", ")}.`);
      if (options.json)
        printJson({
          version,
          kind: options.kind,
          W: w,
          letters: catalogueLines(options.kind, w),
          reel: reelLines(options.kind, w),
          disagreements: disagreementsOn(w),
          families: familiesIn(options.kind, w),
        });
      else print(showCatalogue(options.kind, w, width()));
    });

  program
    .command("start")
    .description("begin a project of your own from an example")
    .argument("<name>", "the new folder")
    .requiredOption("--from <example>", `the example to copy: ${exampleNames().join(", ")}`)
    .addHelpText("after", `\nExample:\n  tapeworthy start my-feeder --from ${exampleNames()[0] ?? "EXAMPLE"}`)
    .action((name: string, options: { readonly from: string }) => {
      const written = startProject(name, options.from);
      print(`${written.length} files in ${name}. Next: tapeworthy check ${name}`);
    });

  program
    .command("schema")
    .description("the JSON Schema of a file, for an editor")
    .argument("<kind>", schemaKinds.join(", "))
    .addHelpText("after", "\nExample:\n  tapeworthy schema unit > unit.schema.json")
    .action((kind: string) => {
      if (!(schemaKinds as readonly string[]).includes(kind))
        throw new CallError(`There is no schema "${kind}". There are: ${schemaKinds.join(", ")}.`);
      print(JSON.stringify(jsonSchema(kind as SchemaKind) satisfies JsonSchema, null, 2));
    });
  return program;
}

/**
 * One call of the command: prints what it has to say on stdout and stderr and gives the exit code. A fault of the program is thrown.
 * Calls may follow one another in one process, not overlap.
 */
export async function call(words: readonly string[]): Promise<number> {
  process.exitCode = undefined;
  try {
    await commands().parseAsync(words, { from: "user" });
  } catch (e) {
    if (e instanceof BadProject) {
      process.stderr.write(`${e.text()}\n`);
      return badInput;
    }
    if (e instanceof CallError) {
      process.stderr.write(`${e.message}\n`);
      return badInput;
    }
    // Help and version end well; anything else was a call that can't be taken.
    if (e instanceof CommanderError) return e.exitCode === 0 ? 0 : badInput;
    throw e;
  }
  return Number(process.exitCode ?? 0);
}
