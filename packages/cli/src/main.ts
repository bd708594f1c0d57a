import { checkNamed, checks, explain, type TapeKind, type TapeResult } from "@tapeworthy/core";
import {
  type JsonSchema,
  jsonSchema,
  nearest,
  type Project,
  type SchemaKind,
  schemaKinds,
  type Texts,
} from "@tapeworthy/project";
import { Command, CommanderError, InvalidArgumentError, Option } from "commander";
import { CallError, readFolder } from "./folder.ts";
import { sceneOf } from "./job.ts";
import { BadProject, load, varied } from "./load.ts";
import { paintFor } from "./paint.ts";
import { Progress } from "./progress.ts";
import { type CheckResult, exitCodeOf, runCheck } from "./run-check.ts";
import { catalogueLines, catalogueWidths, disagreementsOn, familiesIn, showCatalogue } from "./show-catalogue.ts";
import { showCheck } from "./show-check.ts";
import { showWhy } from "./show-why.ts";
import { exampleNames, startProject } from "./start-project.ts";
import { version } from "./version.ts";

const badInput = 2;
const width = (): number => Math.min(160, Math.max(60, process.stdout.columns ?? 110));
const print = (text: string): void => void process.stdout.write(`${text}\n`);
const printJson = (value: unknown): void =>
  print(JSON.stringify(value, (_, v: unknown) => (typeof v === "number" && !Number.isFinite(v) ? null : v), 2));

interface Common {
  readonly vary: readonly string[];
  readonly seed: number;
  readonly workers?: number;
  readonly known: boolean;
  readonly json?: true;
}
const seedOption = () =>
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
const jsonOption = () => new Option("--json", "print JSON instead of text: SI numbers under named fields");

function wholeNumber(least: number, most: number): (text: string) => number {
  return (text) => {
    const v = Number(text);
    if (!/^\d+$/.test(text) || v < least || v > most)
      throw new InvalidArgumentError(`A whole number from ${least} to ${most} is wanted.`);
    return v;
  };
}

/** Reads a folder, with the wished changes. */
function open(folder: string, vary: readonly string[]): { project: Project; texts: Texts } {
  const texts = readFolder(folder);
  const project = load(texts);
  if (vary.length === 0) return { project, texts };
  const changed = varied(texts, project, vary);
  return { project: load(changed), texts: changed };
}

async function checked(project: Project, texts: Texts, options: Common): Promise<CheckResult> {
  const progress = new Progress(process.stderr);
  try {
    return await runCheck(project, texts, {
      seed: options.seed,
      workers: options.workers,
      useKnown: options.known,
      progress: progress.say,
    });
  } finally {
    progress.end();
  }
}

/** The documented JSON of `check`: docs/json.md. Additions only. */
function jsonOf(result: CheckResult) {
  return { version, ...result };
}

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

program
  .command("check")
  .description("judge every wanted pair of unit and tape")
  .argument("[folder]", "the project's folder", ".")
  .addOption(jsonOption())
  .addOption(varyOption())
  .addOption(seedOption())
  .addOption(workersOption())
  .option("--no-known", "leave the record of known units out of the belief")
  .addHelpText(
    "after",
    '\nExamples:\n  tapeworthy check examples/saltgrass\n  tapeworthy check . --json --seed 7\n  tapeworthy check . --vary "assume/mismatch limit=2 % measured"',
  )
  .action(async (folder: string, options: Common) => {
    const { project, texts } = open(folder, options.vary);
    const result = await checked(project, texts, options);
    if (options.json) printJson(jsonOf(result));
    else print(showCheck(result, project, paintFor(process.stdout), width()));
    process.exitCode = exitCodeOf(result);
  });

program
  .command("why")
  .description("one check on one tape: the equation with its numbers, down to file, line and column")
  .argument("<check>", "the check's id, such as nip.pulls")
  .argument("[folder]", "the project's folder", ".")
  .requiredOption("--tape <name>", "the tape's file, without .yaml")
  .option("--unit <name>", "the unit's file, without .yaml; needed where several units want the tape")
  .addOption(jsonOption())
  .addOption(varyOption())
  .addOption(seedOption())
  .addOption(workersOption())
  .option("--no-known", "leave the record of known units out of the belief")
  .addHelpText(
    "after",
    "\nExamples:\n  tapeworthy why film.mismatch --tape so20-24 --unit plover examples/saltgrass\n  tapeworthy why nip.slips --tape coil-12 --unit plover examples/saltgrass --json",
  )
  .action(async (id: string, folder: string, options: Common & { readonly tape: string; readonly unit?: string }) => {
    const check = checkNamed(id);
    if (!check) {
      const near = nearest(
        id,
        checks.map((c) => c.id),
      );
      throw new CallError(
        `There is no check "${id}".${near ? ` Did you mean "${near}"?` : ` There are: ${checks.map((c) => c.id).join(", ")}.`}`,
      );
    }
    const { project, texts } = open(folder, options.vary);
    const unit = unitFor(project, options.tape, options.unit);
    const only: Project = { ...project, wanted: new Map([[unit, [options.tape]]]) };
    const result = await checked(only, texts, options);
    const tape = result.units[0]!.tapes[0] as TapeResult;
    const scene = sceneOf(project, unit, options.tape);
    if (options.json) {
      const finding = tape.findings.find((f) => f.check === check.id)!;
      printJson({
        version,
        seed: options.seed,
        unit,
        tape: options.tape,
        finding,
        equations: explain(check, scene) ?? null,
      });
    } else print(showWhy(check, tape, scene, paintFor(process.stdout), width()));
  });

function unitFor(project: Project, tape: string, unit: string | undefined): string {
  if (!project.tapes.has(tape)) {
    const near = nearest(tape, project.tapes.keys());
    throw new CallError(
      `There is no tape "${tape}".${near ? ` Did you mean "${near}"?` : ` Tapes here: ${[...project.tapes.keys()].join(", ")}.`}`,
    );
  }
  const row = project.tapes.get(tape)!.tape.row;
  if (unit !== undefined) {
    const file = project.units.get(unit);
    if (!file) {
      const near = nearest(unit, project.units.keys());
      throw new CallError(
        `There is no unit "${unit}".${near ? ` Did you mean "${near}"?` : ` Units here: ${[...project.units.keys()].join(", ")}.`}`,
      );
    }
    if (!file.variants.has(row))
      throw new CallError(`${file.name} is not made for ${row} mm tape: it serves ${file.widths.join(", ")}.`);
    return unit;
  }
  const wanting = [...project.wanted].filter(([, tapes]) => tapes.includes(tape)).map(([stem]) => stem);
  if (wanting.length === 1) return wanting[0]!;
  throw new CallError(
    wanting.length === 0
      ? `No unit wants "${tape}"; name one with --unit.`
      : `${wanting.join(" and ")} want "${tape}"; name one with --unit.`,
  );
}

program
  .command("catalogue")
  .description("what the standards say of a width: each letter with its source, where sources differ, usual parts")
  .argument("<width>", "nominal width of the tape, mm")
  .addOption(new Option("--kind <kind>", "kind of carrier tape").choices(["embossed", "punched"]).default("embossed"))
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

try {
  await program.parseAsync(process.argv);
} catch (e) {
  if (e instanceof BadProject) {
    process.stderr.write(`${e.text()}\n`);
    process.exitCode = badInput;
  } else if (e instanceof CallError) {
    process.stderr.write(`${e.message}\n`);
    process.exitCode = badInput;
  } else if (e instanceof CommanderError) {
    // Help and version end well; anything else was a call that can't be taken.
    process.exitCode = e.exitCode === 0 ? 0 : badInput;
  } else throw e;
}
