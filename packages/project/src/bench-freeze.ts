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
import { type Bench, ledgerText, type Refused, whyNoTrialName } from "./bench.ts";
import type { Believed } from "./bench-belief.ts";
import { askedBy, keyOfTrial } from "./bench-evidence.ts";
import { type Edit, madeAs } from "./edit.ts";
import { frozenEdit, nextId } from "./ledger-edit.ts";
import { readTrial, type Trial, trialPath } from "./log/trial.ts";
import { newTrial } from "./log/trial-edit.ts";
import { sceneOf } from "./scene-of.ts";

/** What a new trial has to say of itself. */
export interface NewTrialFields {
  readonly unit?: string | undefined;
  readonly tape?: string | undefined;
  readonly question?: string | undefined;
  readonly built?: string | undefined;
}
/** A trial that is there, or one that is begun: then with the text of its new file. */
export interface TrialBegun {
  readonly trial: Trial;
  readonly text: string | undefined;
}
export function trialBegun(
  { project }: Pick<Bench, "project">,
  name: string,
  { unit, tape, question, built }: NewTrialFields,
): TrialBegun | Refused {
  const known = project.trials.get(name);
  if (known) return { trial: known, text: undefined };
  const bad = whyNoTrialName(name);
  if (bad !== undefined) return { why: bad };
  if (unit === undefined || tape === undefined || question === undefined)
    return { why: `There is no trial ${name} yet. Say what it tries: --unit UNIT --tape TAPE --question ADDRESS.` };
  const text = newTrial({ trial: name, unit, tape, question, built });
  const names = { units: [...project.units.keys()], tapes: [...project.tapes.keys()] };
  const { trial, errors } = readTrial(trialPath(name), text, names);
  const [wrong] = errors;
  if (!trial) return { why: wrong ? `${wrong.message}. ${wrong.hint ?? ""}`.trimEnd() : "The trial can't be begun." };
  try {
    sceneOf(project, trial.unit, trial.tape);
  } catch (e) {
    if (e instanceof RangeError) return { why: `${e.message}.` };
    throw e;
  }
  return { trial, text };
}

/** Why a trial's prediction may not be frozen on a day; undefined where it may. Nothing is worked out. */
export function whyNotFreeze({ project, sha }: Bench, trial: Trial, date: string): string | undefined {
  const bad = notADay(date);
  if (bad !== undefined) return `${bad}.`;
  const results = trial.readings.length + trial.counts.length + trial.runs.length;
  const why = whyNotFrozen({ trial: trial.name, date, sha }, { date: trial.date, results }, project.ledger.frozen);
  if (why !== undefined) return why;
  const asked = askedBy(project, trial);
  if (asked.kind === "gone") return `${asked.why}.`;
  return asked.kind === "unknown" && !asked.given.unknown
    ? `${trial.question} is no guess: "${asked.given.text}". There is nothing to foretell.`
    : undefined;
}

/** A prediction before it is written. */
export interface Freezing {
  readonly frozen: Frozen;
  readonly shownIn: string;
  readonly asks: "unknown" | "check";
  /** Of the trial's file where it is new, and of the ledger: one step to take back. */
  readonly edits: readonly Edit[];
  /** In words, a sentence each. */
  readonly says: readonly string[];
}
/** What is believed of a trial's question before it is run: the number that it reads, or the value and the failures of the check that it tries. */
export function freezing(
  bench: Bench,
  { trial, text }: TrialBegun,
  { deviates, weights, contradicted }: Believed,
  { date, version }: { readonly date: string; readonly version: string },
): Freezing | Refused {
  const { project, sha } = bench;
  const why = whyNotFreeze(bench, trial, date);
  const asked = askedBy(project, trial);
  if (why !== undefined || asked.kind === "gone") return { why: why ?? `${trial.question} is gone.` };
  const scene = sceneOf(project, trial.unit, trial.tape);
  const base = {
    id: nextId(project.ledger.frozen),
    trial: trial.name,
    question: trial.question,
    unit: trial.unit,
    tape: trial.tape,
    sha,
    date,
    seed: deviates.seed,
    version,
    key: keyOfTrial(project, trial),
  };
  let frozen: Frozen;
  let shownIn: string;
  if (asked.kind === "check") {
    const value = chosen(asked.check.value, scene);
    if (!value) return { why: `${trial.question} has no value of ${trial.unit} on ${trial.tape}.` };
    const told = foretellCheck(scene, asked.check, deviates, weights);
    shownIn = shownUnit(value);
    frozen = { ...base, predicted: told.value, fails: told.fails, share: told.share };
  } else {
    shownIn = shownUnit(asked.given);
    const cell = heldCell(trial.unit, trial.tape, scene, checks, deviates);
    const { share } = cellShare(cell, weights, new Set(contradicted));
    frozen = {
      ...base,
      predicted: foretellUnknown(asked.given, deviates, weights),
      fails: undefined,
      share: Number.isNaN(share) ? 1 : share,
    };
  }
  const begun = text === undefined ? [] : [madeAs(trialPath(trial.name), text)];
  return {
    frozen,
    shownIn,
    asks: asked.kind,
    edits: [...begun, frozenEdit(ledgerText(bench), frozen, shownIn)],
    says: said(frozen, shownIn, asked.kind),
  };
}
function said(frozen: Frozen, shownIn: string, asks: Freezing["asks"]): string[] {
  const { predicted, fails, share } = frozen;
  return [
    `${frozen.id}: ${frozen.trial} asks ${frozen.question} of ${frozen.unit} on ${frozen.tape}.`,
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
    asks === "check"
      ? `The check holds in ${showShare(share)} of belief.`
      : `The unit feeds in ${showShare(share)} of belief.`,
    `It rests on ${frozen.key.size} numbers and words of the design; files ${frozen.sha.slice(0, 12)}.`,
  ];
}
