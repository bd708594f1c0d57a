import { sayRecord } from "@tapeworthy/core";
import { recordsOf, sayScore, scoring } from "@tapeworthy/project";
import type { Command } from "commander";
import { beliefOf, movesOf, openBench, trialNamed, writeEdit } from "./bench-folder.ts";
import { type Common, onBench, print, printJson, width } from "./call.ts";
import { CallError } from "./folder.ts";
import { paintFor, wrapped } from "./paint.ts";
import { Progress } from "./progress.ts";
import { showMoves, showResults } from "./show-bench.ts";
import { version } from "./version.ts";

interface ScoreOptions extends Omit<Common, "vary"> {
  readonly date?: string;
  readonly dry?: true;
  readonly cells: boolean;
}
/** `score`: frozen predictions against what came out, the record of every check, and what all trials do to the map. */
export function scoreCommand(program: Command): void {
  onBench(
    program
      .command("score")
      .description(
        "hold frozen predictions against what came out; the record of each check; what the trials do to the map",
      )
      .argument("<folder>", "the project's folder")
      .argument("[trial]", "one trial; all of them where it is left out")
      .option("--date <day>", "the day of scoring, as 2026-03-01")
      .option("--dry", "show only; write nothing")
      .option("--no-cells", "leave the map out"),
  )
    .addHelpText("after", "\nExamples:\n  tapeworthy score .\n  tapeworthy score . T-01 --date 2026-03-04")
    .action(async (folder: string, name: string | undefined, options: ScoreOptions) => {
      const bench = openBench(folder);
      const trials = name === undefined ? [...bench.project.trials.values()] : [trialNamed(bench, name)];
      if (trials.length === 0) throw new CallError('There is no trial yet: begin with "tapeworthy freeze".');
      const { lines, edit } = scoring(bench, trials, options.date);
      if (edit && !options.dry) writeEdit(bench, edit);
      const now = edit && !options.dry ? openBench(folder) : bench;
      const record = recordsOf(now.project.ledger);
      const progress = new Progress(process.stderr);
      const asked = {
        seed: options.seed,
        workers: options.workers,
        known: options.known,
        progress: progress.say,
      };
      const belief = options.cells ? await beliefOf(now, asked) : undefined;
      const moved = belief && (await movesOf(now, belief, asked));
      const moves = moved?.moves ?? [];
      // What tries a check is held against belief with the readings in it.
      const standings = belief
        ? belief.taken.standings.map((s) => moved?.after.taken.standings.find((a) => a.trial === s.trial) ?? s)
        : [];
      progress.end();
      if (options.json) {
        printJson({
          version,
          seed: options.seed,
          scores: lines.map(({ trial, score, late, why, shownIn, changed }) => ({
            trial,
            ...(score ?? { why }),
            late: late ?? null,
            shownIn,
            changed,
          })),
          records: [...record.values()].map((r) => ({ ...r, says: sayRecord(r) })),
          trials: belief?.results.map((r) => {
            const s = standings.find((one) => one.trial === r.trial);
            return {
              trial: r.trial,
              state: r.state,
              says: s?.says ?? r.says,
              chance: s?.chance ?? null,
              contradicts: s?.state === "contradicts",
              changes: r.changes,
              keyed: r.keyed,
            };
          }),
          ...(moved
            ? { effective: moved.after.taken.effective, blunt: moved.after.taken.blunt, ranAnew: moved.ranAnew }
            : {}),
          cells: moves,
          written: edit !== undefined && !options.dry,
        });
        return;
      }
      const paint = paintFor(process.stdout);
      const out = [
        "Frozen before, scored after:",
        ...lines.map((l) => wrapped(`  ${sayScore(l)}`, width(), "        ")),
      ];
      out.push(
        record.size === 0
          ? "No check has been tried with a prediction before it: a measuring card narrows an unknown and tries no check."
          : ["Record of the checks:", ...[...record.values()].map((r) => `  ${r.check}: ${sayRecord(r)}`)].join("\n"),
      );
      if (belief && moved)
        out.push(
          showResults(
            belief.results,
            standings,
            { blunt: moved.after.taken.blunt, ranAnew: moved.ranAnew },
            paint,
            width(),
          ),
          showMoves(moves, moved.untouched, paint),
        );
      print(out.join("\n"));
    });
}
