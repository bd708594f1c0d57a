import {
  type CheckRecord,
  checkNamed,
  chosen,
  lateFor,
  type Quantity,
  records,
  type Score,
  scored,
  showIn,
  shownUnit,
  showShare,
} from "@tapeworthy/core";
import { type Bench, ledgerText } from "./bench.ts";
import { askedBy, cameOutOf, keyOfTrial } from "./bench-evidence.ts";
import type { Edit } from "./edit.ts";
import { keyedEdit, scoredEdit } from "./ledger-edit.ts";
import { type Ledger, ledgerPath } from "./ledger-read.ts";
import type { Trial } from "./log/trial.ts";
import { inOne } from "./log/trial-edit.ts";
import { sceneOf } from "./scene-of.ts";

/** One trial held against its prediction; why it can't be. */
export interface ScoreLine {
  readonly trial: string;
  readonly score: Score | undefined;
  /** Why the prediction does not count as made before. */
  readonly late: string | undefined;
  readonly why: string | undefined;
  readonly shownIn: string;
  /** The files differ from those that were frozen. */
  readonly changed: boolean;
}
export interface Scoring {
  readonly lines: readonly ScoreLine[];
  /** Of the ledger: scores that are new or differ from the last one, and what trials rest on that nobody froze; undefined where there is none. */
  readonly edit: Edit | undefined;
}
/** Frozen predictions against what came out. */
export function scoring(bench: Bench, trials: readonly Trial[], date: string | undefined): Scoring {
  const lines = trials.map((t) => lineOf(bench, t));
  return { lines, edit: editOf(bench, trials, lines, date) };
}
/** The record of every check that was tried with a prediction before it. A measuring card tries none. */
export const recordsOf = ({ scores }: Ledger): ReadonlyMap<string, CheckRecord> =>
  records(scores, (question) => checkNamed(question) !== undefined);

function lineOf({ project, sha }: Bench, trial: Trial): ScoreLine {
  const frozen = project.ledger.frozen.findLast((f) => f.trial === trial.name);
  const asked = askedBy(project, trial);
  const said: Quantity | undefined =
    asked.kind === "unknown"
      ? asked.given
      : asked.kind === "check"
        ? chosen(asked.check.value, sceneOf(project, trial.unit, trial.tape))
        : undefined;
  const base = {
    trial: trial.name,
    shownIn: said ? shownUnit(said) : "",
    late: undefined,
    changed: frozen !== undefined && frozen.sha !== sha,
  };
  if (!frozen) return { ...base, score: undefined, why: "nobody froze a prediction before it" };
  const came = cameOutOf(project, trial);
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

function editOf(
  bench: Bench,
  trials: readonly Trial[],
  lines: readonly ScoreLine[],
  date: string | undefined,
): Edit | undefined {
  const { project } = bench;
  const steps: ((text: string) => Edit)[] = [];
  for (const [i, { score, late, shownIn }] of lines.entries()) {
    const last = score && project.ledger.scores.findLast((s) => s.frozen === score.frozen);
    if (score && !(last && sameOutcome(last, score) && last.late === late))
      steps.push((text) => scoredEdit(text, score, { date, late, shownIn }));
    const trial = trials[i]!;
    if (!project.ledger.keys.has(trial.name) && trial.readings.length + trial.counts.length + trial.runs.length > 0)
      steps.push((text) => keyedEdit(text, trial.name, keyOfTrial(project, trial), date));
  }
  return steps.length === 0 ? undefined : inOne(ledgerText(bench) ?? "", ledgerPath, steps);
}
function sameOutcome(a: Score, b: Score): boolean {
  if (a.came.kind === "pieces" || b.came.kind === "pieces")
    return (
      a.came.kind === "pieces" &&
      b.came.kind === "pieces" &&
      a.came.failed === b.came.failed &&
      a.came.run === b.came.run
    );
  return Math.abs(a.came.value - b.came.value) <= 1e-3 * Math.abs(b.came.value);
}
/** A line in words. */
export function sayScore({ trial, score, late, why, shownIn, changed }: ScoreLine): string {
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
