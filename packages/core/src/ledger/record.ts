/**
 * The record of a check: how many of the trials that tried it came out as it had foretold.
 *
 * A trial counts for the check it tried, once, by its last score. A measuring card tries no check: it narrows an unknown, and does not count. A trial
 * whose prediction came after it does not count either.
 */
import type { Score } from "./score.ts";

export interface CheckRecord {
  readonly check: string;
  readonly agreed: number;
  readonly trials: number;
  /** One a trial, in their order. */
  readonly strokes: readonly { readonly trial: string; readonly agreed: boolean }[];
}
/** Records of the checks that were tried, by check. `isCheck` tells a check's id from an unknown's address. */
export function records(
  scores: readonly (Score & { readonly late?: string | undefined })[],
  isCheck: (question: string) => boolean,
): ReadonlyMap<string, CheckRecord> {
  const last = new Map<string, Score>();
  for (const s of scores) if (isCheck(s.question) && s.late === undefined) last.set(s.trial, s);
  const out = new Map<string, CheckRecord>();
  for (const { trial, question, agreed } of last.values()) {
    const before = out.get(question) ?? { check: question, agreed: 0, trials: 0, strokes: [] };
    out.set(question, {
      check: question,
      agreed: before.agreed + (agreed ? 1 : 0),
      trials: before.trials + 1,
      strokes: [...before.strokes, { trial, agreed }],
    });
  }
  return out;
}
/** To stand beside a verdict. */
export const sayRecord = (record: CheckRecord | undefined): string =>
  !record || record.trials === 0
    ? "no trial yet"
    : `agreed with ${record.agreed} of ${record.trials} ${record.trials === 1 ? "trial" : "trials"}`;
