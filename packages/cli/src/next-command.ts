import { type Command, Option } from "commander";
import { type Common, judging, open, print, printJson, width } from "./call.ts";
import { CallError } from "./folder.ts";
import { unitNamed } from "./ladder-command.ts";
import { paintFor } from "./paint.ts";
import { Progress } from "./progress.ts";
import { runNext } from "./run-next.ts";
import { showNext } from "./show-next.ts";
import { version } from "./version.ts";

interface NextCall extends Common {
  readonly unit?: string;
  readonly order?: "series" | "independent";
}

/** `next`: what to find out next, by the days it saves. */
export function nextCommand(program: Command): void {
  judging(
    program
      .command("next")
      .description(
        "what to measure or try next: which verdicts it changes, the days it saves, the cheapest card or piece",
      )
      .argument("[folder]", "the project's folder", ".")
      .option("--unit <name>", "one unit's file, without .yaml; else all that have wanted tapes")
      .addOption(
        new Option(
          "--order <order>",
          "series: the first stop ends it; independent: each by itself; else what fits",
        ).choices(["series", "independent"]),
      ),
  )
    .addHelpText(
      "after",
      '\nDays of trials and mistakes are your own: "bench costs" in project.yaml.\n\nExamples:\n  tapeworthy next examples/saltgrass\n  tapeworthy next . --unit dunlin --order independent\n  tapeworthy next . --json',
    )
    .action(async (folder: string, options: NextCall) => {
      const { project, texts } = open(folder, options.vary);
      const units = options.unit === undefined ? [...project.wanted.keys()] : [unitNamed(project, options.unit)];
      if (!units.some((unit) => (project.wanted.get(unit) ?? []).length > 0))
        throw new CallError('No tape is wanted: name some under "wanted" in project.yaml.');
      const progress = new Progress(process.stderr);
      const result = await runNext(project, texts, units, {
        seed: options.seed,
        workers: options.workers,
        useKnown: options.known,
        progress: progress.say,
        ...(options.order ? { order: options.order } : {}),
      }).finally(() => progress.end());
      if (options.json) printJson({ version, ...result });
      else print(showNext(result, project, paintFor(process.stdout), width()));
    });
}
