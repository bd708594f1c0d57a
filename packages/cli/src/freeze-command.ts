import { existsSync } from "node:fs";
import { join } from "node:path";
import {
  cellShare,
  checks,
  chosen,
  type Frozen,
  foretellCheck,
  foretellUnknown,
  heldCell,
  notADay,
  showIn,
  shownUnit,
  showShare,
  whyNotFrozen,
} from "@tapeworthy/core";
import {
  askedBy,
  frozenEdit,
  keyOfTrial,
  newTrial,
  nextId,
  readTrial,
  sceneOfTrial,
  type Trial,
  trialPath,
} from "@tapeworthy/project";
import type { Command } from "commander";
import { benchBelief } from "./bench-belief.ts";
import { type BenchFolder, openBench, writeEdit } from "./bench-folder.ts";
import { type Common, jsonOption, print, printJson, seedOption, workersOption } from "./call.ts";
import { CallError, writeWhole } from "./folder.ts";
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
  program
    .command("freeze")
    .description("freeze the prediction of a trial in ledger.yaml, before it is run")
    .argument("<folder>", "the project's folder")
    .argument("<trial>", "the trial, such as T-01; its file is begun where there is none")
    .requiredOption("--date <day>", "the day of freezing, as 2026-03-01")
    .option("--unit <name>", "for a trial that is new: the unit's file, without .yaml")
    .option("--tape <name>", "for a trial that is new: the tape's file, without .yaml")
    .option("--question <address>", "for a trial that is new: the unknown it measures, or the check it tries")
    .option("--built <text>", "for a trial that is new: what was built")
    .option("--dry", "show only; write nothing")
    .addOption(seedOption())
    .addOption(workersOption())
    .option("--no-known", "leave the record of known units out of the belief")
    .addOption(jsonOption())
    .addHelpText(
      "after",
      "\nExample:\n  tapeworthy freeze . T-01 --date 2026-03-01 --unit dunlin --tape dpak-16 --question tapes/dpak-16/T",
    )
    .action(async (folder: string, name: string, options: FreezeOptions) => {
      const bench = openBench(folder);
      const { trial, text } = trialFor(bench, name, options);
      const why = whyNotFrozen(
        { trial: name, date: options.date, sha: bench.sha },
        { date: trial.date, results: trial.readings.length + trial.counts.length + trial.runs.length },
        bench.ledger.frozen,
      );
      if (why !== undefined) throw new CallError(`${why} Nothing was written.`);
      const asked = askedBy(bench.project, trial);
      if (asked.kind === "gone") throw new CallError(`${asked.why}. Nothing was written.`);
      const progress = new Progress(process.stderr);
      const belief = await benchBelief(bench, { ...options, workers: options.workers, progress: progress.say });
      const { weights } = belief.taken;
      const scene = sceneOfTrial(bench.project, trial);
      const base = {
        id: nextId(bench.ledger.frozen),
        trial: name,
        question: trial.question,
        unit: trial.unit,
        tape: trial.tape,
        sha: bench.sha,
        date: options.date,
        seed: options.seed,
        version,
        key: keyOfTrial(bench.project, trial),
      };
      let frozen: Frozen;
      let shownIn: string;
      if (asked.kind === "check") {
        const told = foretellCheck(scene, asked.check, belief.deviates, weights);
        shownIn = shownUnit(chosen(asked.check.value, scene)!);
        frozen = { ...base, predicted: told.value, fails: told.fails, share: told.share };
      } else {
        if (!asked.given.unknown)
          throw new CallError(`${trial.question} is no guess: "${asked.given.text}". There is nothing to foretell.`);
        shownIn = shownUnit(asked.given);
        const cell = heldCell(trial.unit, trial.tape, scene, checks, belief.deviates);
        const { share } = cellShare(cell, weights, new Set(belief.weighed.contradicted));
        frozen = {
          ...base,
          predicted: foretellUnknown(asked.given, belief.deviates, weights),
          fails: undefined,
          share: Number.isNaN(share) ? 1 : share,
        };
      }
      progress.end();
      const edit = frozenEdit(bench.ledgerText, frozen, shownIn);
      if (!options.dry) {
        if (text !== undefined)
          writeWhole(join(folder, trialPath(name)), text, () => !existsSync(join(folder, trialPath(name))));
        writeEdit(folder, edit, bench.ledgerText);
      }
      if (options.json) {
        const { key, ...plain } = frozen;
        printJson({ ...plain, shownIn, restsOn: Object.fromEntries(key), written: !options.dry });
        return;
      }
      const { predicted, fails, share } = frozen;
      const lines = [
        `${frozen.id}: ${name} asks ${trial.question} of ${trial.unit} on ${trial.tape}.`,
        ...(predicted
          ? [
              `Foretold ${showIn(shownIn, predicted.median)}, from ${showIn(shownIn, predicted.low)} to ${showIn(shownIn, predicted.high)} in 95 %.`,
            ]
          : []),
        ...(fails
          ? [
              `One piece in a hundred tried fails ${showIn("", 100 * fails.median)} times, from ${showIn("", 100 * fails.low)} to ${showIn("", 100 * fails.high)} in 95 % of belief.`,
            ]
          : []),
        asked.kind === "check"
          ? `The check holds in ${showShare(share)} of belief.`
          : `The unit feeds in ${showShare(share)} of belief.`,
        `It rests on ${frozen.key.size} numbers and words of the design; files ${frozen.sha.slice(0, 12)}.`,
        options.dry ? "Nothing was written." : "Frozen in ledger.yaml. Now run the trial, and read it in.",
      ];
      print(lines.join("\n"));
    });
}
function trialFor(
  bench: BenchFolder,
  name: string,
  options: FreezeOptions,
): { trial: Trial; text: string | undefined } {
  const known = bench.trials.get(name);
  const bad = notADay(options.date);
  if (bad !== undefined) throw new CallError(`${bad}.`);
  if (known) return { trial: known, text: undefined };
  if (!/^[\p{L}\p{N}][\p{L}\p{N} ._-]{0,60}$/u.test(name))
    throw new CallError(`"${name}" is no name for a trial: letters, digits, dots and dashes, such as T-01.`);
  const { unit, tape, question, built } = options;
  if (unit === undefined || tape === undefined || question === undefined)
    throw new CallError(
      `There is no trial ${name} yet. Say what it tries: --unit UNIT --tape TAPE --question ADDRESS.`,
    );
  const text = newTrial({ trial: name, unit, tape, question, built });
  const names = { units: [...bench.project.units.keys()], tapes: [...bench.project.tapes.keys()] };
  const { trial, errors } = readTrial(trialPath(name), text, names);
  if (!trial) throw new CallError(errors[0]?.message ?? "the trial can't be begun");
  try {
    sceneOfTrial(bench.project, trial);
  } catch (e) {
    if (e instanceof RangeError) throw new CallError(`${e.message}.`);
    throw e;
  }
  return { trial, text };
}
