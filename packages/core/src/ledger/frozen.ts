/**
 * A prediction frozen before its trial: what was said, of which design, when. Dates are the caller's: nothing here reads a clock.
 *
 * Refused: a date after the trial's own, a trial that holds results already, a second prediction for the same trial and design. A hash that differs later is said,
 * not refused: the trial was built from the design as it stood.
 */
import type { Key } from "../evidence/keyed.ts";

export interface Frozen {
  readonly id: string;
  readonly trial: string;
  /** Address of the unknown, or id of the check. */
  readonly question: string;
  readonly unit: string;
  readonly tape: string;
  /** What is foretold, SI: the middle, and what holds it in 95 % of belief and scatter; undefined where a check has no value there. */
  readonly predicted: { readonly median: number; readonly low: number; readonly high: number } | undefined;
  /** Of a check: the chance that one piece, a unit on a reel, fails; its middle and what holds it in 95 % of belief. */
  readonly fails: { readonly median: number; readonly low: number; readonly high: number } | undefined;
  /** Share of belief in which the unit feeds the tape; for a check, in which the check holds. */
  readonly share: number;
  /** SHA-256 of the project's texts in their fixed order, hexadecimal. */
  readonly sha: string;
  /** As 2026-03-01. */
  readonly date: string;
  readonly seed: number;
  readonly version: string;
  /** What the trial's result will rest on. */
  readonly key: Key;
}

const day = /^(\d{4})-(\d\d)-(\d\d)$/;
/** Why a text is no day; undefined where it is one. */
export function notADay(text: string): string | undefined {
  const m = day.exec(text);
  if (!m) return `"${text}" is no day; write it as 2026-03-01`;
  const [year, month, date] = m.slice(1).map(Number) as [number, number, number];
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
  return days === undefined || date < 1 || date > days ? `"${text}" is a day that is not` : undefined;
}

/** Why a prediction may not be frozen; undefined where it may. */
export function whyNotFrozen(
  wish: { readonly trial: string; readonly date: string; readonly sha: string },
  trial: { readonly date: string | undefined; readonly results: number },
  ledger: readonly Frozen[],
): string | undefined {
  const bad = notADay(wish.date);
  if (bad !== undefined) return `${bad}.`;
  if (trial.results > 0)
    return `${wish.trial} holds ${trial.results} ${trial.results === 1 ? "result" : "results"} already: what is said now foretells nothing.`;
  if (trial.date !== undefined && wish.date > trial.date)
    return `${wish.trial} was run on ${trial.date}: a prediction of ${wish.date} comes after it.`;
  const before = ledger.findLast((f) => f.trial === wish.trial);
  if (before && before.sha === wish.sha)
    return `${wish.trial} is frozen already, as ${before.id} on ${before.date}, for the same files.`;
  return undefined;
}
/** Whether a frozen prediction came before the trial it is held against; what is wrong where it did not. */
export function lateFor(frozen: Frozen, trialDate: string | undefined): string | undefined {
  if (trialDate === undefined) return `the trial has no date: nothing shows that ${frozen.id} came first`;
  return frozen.date > trialDate ? `${frozen.id} is dated ${frozen.date}, after the trial of ${trialDate}` : undefined;
}
