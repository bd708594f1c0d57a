import { join } from "node:path";
import { sizedText } from "@tapeworthy/project";
import { type Command, Option } from "commander";
import { type Common, judging, open, print, printJson, wholeNumber, width } from "./call.ts";
import { CallError, readFolder, writeWhole } from "./folder.ts";
import { unitNamed } from "./ladder-command.ts";
import { paintFor } from "./paint.ts";
import { Progress } from "./progress.ts";
import { runSize } from "./run-size.ts";
import { showProposals, showSize } from "./show-size.ts";
import { version } from "./version.ts";

interface SizeCall extends Common {
  readonly unit: string;
  readonly free: readonly string[];
  readonly starts: number;
  readonly write?: true;
}

/** `size`: free dimensions of a unit move to widen all its windows; the trade is shown before anything is written. */
export function sizeCommand(program: Command): void {
  judging(
    program
      .command("size")
      .description("move the dimensions you free, within bounds, to raise the least gap over all wanted tapes")
      .argument("[folder]", "the project's folder", ".")
      .requiredOption("--unit <name>", "the unit's file, without .yaml")
      .addOption(
        new Option(
          "--free <path=low..high>",
          'a dimension and its bounds: --free "nip.preload=3..9 N"; may be repeated',
        )
          .default([] as string[])
          .argParser((value: string, before: string[]) => [...before, value]),
      )
      .addOption(
        new Option("--starts <number>", "searches, the first from what is drawn, the others at random")
          .default(3)
          .argParser(wholeNumber(1, 100)),
      )
      .option("--write", "write the lines into the unit's file, as one change"),
  )
    .addHelpText(
      "after",
      '\nWhat the file frees under "free" is free too: free: {nip.preload: 3..9 N}. Interrupted once (Ctrl-C), it shows the best so far.\n\nExamples:\n  tapeworthy size examples/saltgrass --unit dunlin\n  tapeworthy size . --unit dunlin --free "tape.section.lips.gap=0.5..1.2 mm" --free "nip.rollers.shaft.diameter=4..8 mm"\n  tapeworthy size . --unit dunlin --starts 8 --write',
    )
    .action(async (folder: string, options: SizeCall) => {
      if (options.write && options.vary.length > 0)
        throw new CallError("--write goes with the files as they are; leave --vary out.");
      const { project, texts } = open(folder, options.vary);
      const unit = unitNamed(project, options.unit);
      const progress = new Progress(process.stderr);
      let stopped = false;
      const interrupt = (): void => {
        // A second one ends it as usual.
        if (stopped) process.exit(130);
        stopped = true;
      };
      process.on("SIGINT", interrupt);
      const sized = await runSize(project, texts, unit, {
        seed: options.seed,
        workers: options.workers,
        useKnown: options.known,
        starts: options.starts,
        free: options.free,
        stop: () => stopped,
        progress: progress.say,
      }).finally(() => {
        progress.end();
        process.off("SIGINT", interrupt);
      });
      const paint = paintFor(process.stdout);
      if (sized.kind === "nothing free") {
        if (options.json) printJson({ version, seed: options.seed, unit, free: null, proposals: sized.proposals });
        else print(showProposals(unit, sized.proposals, sized.open, paint, width()));
        process.exitCode = 2;
        return;
      }
      const { result, known } = sized;
      if (options.json) printJson({ version, known, ...result });
      else print(showSize(result, known, paint, width()));
      if (!options.write || result.lines.length === 0) return;
      const { file, text } = sizedText(texts, unit, result.lines);
      const asRead = texts.get(file)!;
      const written = writeWhole(join(folder, file), text, () => readFolder(folder).get(file) === asRead);
      if (!written) throw new CallError(`${file} has been changed meanwhile; nothing was written.`);
      if (!options.json)
        print(`\nWritten into ${file}: ${result.lines.length} ${result.lines.length === 1 ? "line" : "lines"}.`);
    });
}
