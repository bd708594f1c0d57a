import {
  checkNamed,
  chosen,
  lateFor,
  type Quantity,
  records,
  type Score,
  sayRecord,
  scored,
  showIn,
  shownUnit,
  showShare,
} from "@tapeworthy/core";
import {
  askedBy,
  cameOutOf,
  type Edit,
  inOne,
  keyedEdit,
  keyOfTrial,
  ledgerPath,
  sceneOfTrial,
  scoredEdit,
  type Trial,
} from "@tapeworthy/project";
import type { Command } from "commander";
import { benchBelief, benchMoves } from "./bench-belief.ts";
import { type BenchFolder, openBench, trialNamed, writeEdit } from "./bench-folder.ts";
import { type Common, jsonOption, print, printJson, seedOption, width, workersOption } from "./call.ts";
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
interface Line {
  readonly trial: string;
  readonly score: Score | undefined;
  readonly late: string | undefined;
  readonly why: string | undefined;
  readonly shownIn: string;
  /** The files differ from those that were frozen. */
  readonly changed: boolean;
}
/** `score`: frozen predictions against what came out, the record of every check, and what all trials do to the map. */
export function scoreCommand(program: Command): void {
  program
    .command("score")
    .description(
      "hold frozen predictions against what came out; the record of each check; what the trials do to the map",
    )
    .argument("<folder>", "the project's folder")
    .argument("[trial]", "one trial; all of them where it is left out")
    .option("--date <day>", "the day of scoring, as 2026-03-01")
    .option("--dry", "show only; write nothing")
    .option("--no-cells", "leave the map out")
    .addOption(seedOption())
    .addOption(workersOption())
    .option("--no-known", "leave the record of known units out of the belief")
    .addOption(jsonOption())
    .addHelpText("after", "\nExamples:\n  tapeworthy score .\n  tapeworthy score . T-01 --date 2026-03-04")
    .action(async (folder: string, name: string | undefined, options: ScoreOptions) => {
      const bench = openBench(folder);
      const trials = name === undefined ? [...bench.trials.values()] : [trialNamed(bench, name)];
      if (trials.length === 0) throw new CallError('There is no trial yet: begin with "tapeworthy freeze".');
      const lines = trials.map((t) => lineOf(bench, t));
      const edit = editOf(bench, trials, lines, options.date);
      if (edit && !options.dry) writeEdit(folder, edit, bench.ledgerText);
      const now = edit && !options.dry ? openBench(folder) : bench;
      const record = records(now.ledger.scores, (q) => checkNamed(q) !== undefined);
      const progress = new Progress(process.stderr);
      const asked = {
        seed: options.seed,
        workers: options.workers,
        known: options.known,
        progress: progress.say,
      };
      const belief = options.cells ? await benchBelief(now, asked) : undefined;
      const moved = belief && (await benchMoves(now, belief, asked));
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
        ...lines.map((l) => wrapped(`  ${sayLine(l)}`, width(), "        ")),
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
function lineOf(bench: BenchFolder, trial: Trial): Line {
  const frozen = bench.ledger.frozen.findLast((f) => f.trial === trial.name);
  const asked = askedBy(bench.project, trial);
  const said: Quantity | undefined =
    asked.kind === "unknown"
      ? asked.given
      : asked.kind === "check"
        ? chosen(asked.check.value, sceneOfTrial(bench.project, trial))
        : undefined;
  const shownIn = said ? shownUnit(said) : "";
  const base = {
    trial: trial.name,
    shownIn,
    late: undefined,
    changed: frozen !== undefined && frozen.sha !== bench.sha,
  };
  if (!frozen) return { ...base, score: undefined, why: "nobody froze a prediction before it" };
  const came = cameOutOf(bench.project, trial);
  if (typeof came === "string") return { ...base, score: undefined, why: came };
  if (came.kind === "value" && !frozen.predicted)
    return { ...base, score: undefined, why: `${frozen.id} foretold no value` };
  if (came.kind === "pieces" && !frozen.fails)
    return { ...base, score: undefined, why: `${frozen.id} foretold no pieces` };
  return { ...base, score: scored(frozen, came), late: lateFor(frozen, dayOf(trial)), why: undefined };
}
/** The day of a trial: its own, else the first on which a log of it was read. */
const dayOf = ({ date, runs }: Trial): string | undefined =>
  date ?? runs.flatMap((r) => (r.read === undefined ? [] : [r.read])).sort()[0];
/** Scores that are new or differ from the last one, and keys of trials that nobody froze. */
function editOf(
  bench: BenchFolder,
  trials: readonly Trial[],
  lines: readonly Line[],
  date: string | undefined,
): Edit | undefined {
  const steps: ((text: string) => Edit)[] = [];
  for (const [i, line] of lines.entries()) {
    const { score, late, shownIn } = line;
    const last = score && bench.ledger.scores.findLast((s) => s.frozen === score.frozen);
    if (score && !(last && sameOutcome(last, score) && last.late === late))
      steps.push((text) => scoredEdit(text, score, { date, late, shownIn }));
    const trial = trials[i]!;
    if (!bench.ledger.keys.has(trial.name) && trial.readings.length + trial.counts.length + trial.runs.length > 0)
      steps.push((text) => keyedEdit(text, trial.name, keyOfTrial(bench.project, trial), date));
  }
  if (steps.length === 0) return undefined;
  return inOne(bench.ledgerText ?? "", ledgerPath, steps);
}
function sameOutcome(a: Score, b: Score): boolean {
  if (a.came.kind === "pieces" || b.came.kind === "pieces")
    return (
      a.came.kind === b.came.kind &&
      a.came.kind === "pieces" &&
      b.came.kind === "pieces" &&
      a.came.failed === b.came.failed &&
      a.came.run === b.came.run
    );
  return Math.abs(a.came.value - b.came.value) <= 1e-3 * Math.abs(b.came.value);
}
function sayLine({ trial, score, late, why, shownIn, changed }: Line): string {
  if (!score) return `${trial}  not scored: ${why}.`;
  const { came, inside, error, validation, log, agreed } = score;
  const word = agreed ? "agreed" : "missed";
  const tail = `${late === undefined ? "" : ` It does not count: ${late}.`}${changed ? " The files have changed since it was frozen." : ""}`;
  if (came.kind === "pieces")
    return `${trial}  ${score.question}: ${came.failed} of ${came.run} pieces failed; chance of that or farther out ${showShare(score.chance!)}: ${word}.${tail}`;
  const by = log
    ? `off by ${+(100 * Math.expm1(error!)).toPrecision(2)} %, validation uncertainty ${+(100 * validation!).toPrecision(2)} %`
    : `off by ${showIn(shownIn, error!)}, validation uncertainty ${showIn(shownIn, validation!)}`;
  return `${trial}  ${score.question}: came out ${showIn(shownIn, came.value, 3)}, ${inside ? "inside" : "outside"} what was foretold; ${by}: ${word}.${tail}`;
}
