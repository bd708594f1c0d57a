import { notADay } from "@tapeworthy/core";
import { believedOf, freezing, trialBegun, whyNotFreeze } from "@tapeworthy/project";
import type { Command } from "commander";
import { beliefOf, openBench, orRefused, writeEdit } from "./bench-folder.ts";
import { type Common, ofNewTrial, onBench, print, printJson } from "./call.ts";
import { CallError } from "./folder.ts";
import { Progress } from "./progress.ts";
import { version } from "./version.ts";

interface FreezeOptions extends Omit<Common, "vary"> {
  readonly date: string;
  readonly unit?: string;
  readonly tape?: string;
  readonly question?: string;
  readonly built?: string;
  readonly dry?: true;
}
/** `freeze`: what the design foretells of a trial, into the ledger, before the trial. */
export function freezeCommand(program: Command): void {
  onBench(
    ofNewTrial(
      program
        .command("freeze")
        .description("freeze the prediction of a trial in ledger.yaml, before it is run")
        .argument("<folder>", "the project's folder")
        .argument("<trial>", "the trial, such as T-01; its file is begun where there is none")
        .requiredOption("--date <day>", "the day of freezing, as 2026-03-01"),
    ).option("--dry", "show only; write nothing"),
  )
    .addHelpText(
      "after",
      "\nExample:\n  tapeworthy freeze . T-01 --date 2026-03-01 --unit dunlin --tape dpak-16 --question tapes/dpak-16/T",
    )
    .action(async (folder: string, name: string, options: FreezeOptions) => {
      const bench = openBench(folder);
      const { date } = options;
      const bad = notADay(date);
      if (bad !== undefined) throw new CallError(`${bad}.`);
      const begun = orRefused(trialBegun(bench, name, options));
      const why = whyNotFreeze(bench, begun.trial, date);
      if (why !== undefined) throw new CallError(`${why} Nothing was written.`);
      const progress = new Progress(process.stderr);
      // What is foretold rests on belief as it stands: results of other trials that wait are not in it.
      const belief = await beliefOf(bench, { ...options, workers: options.workers, progress: progress.say }, name);
      progress.end();
      const { frozen, shownIn, edits, says } = orRefused(freezing(bench, begun, believedOf(belief), { date, version }));
      if (!options.dry) for (const edit of edits) writeEdit(bench, edit);
      if (options.json) {
        const { key, ...plain } = frozen;
        printJson({ ...plain, shownIn, restsOn: Object.fromEntries(key), written: !options.dry });
        return;
      }
      print(
        [
          ...says,
          options.dry ? "Nothing was written." : "Frozen in ledger.yaml. Now run the trial, and read it in.",
        ].join("\n"),
      );
    });
}
