import {
  type CheckRecord,
  endsOfGuess,
  type Frozen,
  figures,
  type Score,
  sayRecord,
  showShare,
  unitOf,
} from "@tapeworthy/core";
import { sayAddress } from "./say.ts";
import { fixed } from "./scene.ts";

/** So many strokes stand beside each other; of more the last. */
const mostStrokes = 20;

/** One stroke a trial, up where it agreed, down where it missed, in their order. Silent: the words stand beside it. */
export function tallyInline(agreed: readonly boolean[]): string {
  if (agreed.length === 0) return "";
  const shown = agreed.slice(-mostStrokes);
  const width = shown.length * 6 + 2;
  const strokes = shown
    .map((up, i) =>
      up ? `<path class="outline" d="M${3 + i * 6} 2V9"/>` : `<path class="fail-line" d="M${3 + i * 6} 9V16"/>`,
    )
    .join("");
  return `<svg class="tw inline" width="${fixed(width)}" height="17" aria-hidden="true"><path class="faint" d="M0 9H${width - 2}"/>${strokes}</svg>`;
}
/** The record of a check: strokes, and the words that stand beside them. */
export function recordTally(record: CheckRecord | undefined): { readonly svg: string; readonly words: string } {
  return { svg: tallyInline((record?.strokes ?? []).map((s) => s.agreed)), words: sayRecord(record) };
}

export interface LedgerInput {
  /** Each with the unit in which it was written down. */
  readonly frozen: readonly (Frozen & { readonly shownIn?: string })[];
  readonly scores: readonly (Score & { readonly date?: string | undefined; readonly late?: string | undefined })[];
  /** Trials taken into belief, and those kept apart with the reason. */
  readonly taken?: ReadonlyMap<string, string | undefined>;
  readonly apart?: ReadonlyMap<string, string>;
  /** Unit in which what is asked is shown; none where nobody knows it any more. */
  readonly shownIn: (question: string) => string | undefined;
}
/** A prediction and what came of it. */
export interface LedgerRow {
  readonly id: string;
  readonly trial: string;
  readonly question: string;
  /** The question as a person reads it. */
  readonly asks: string;
  readonly frozen: string;
  readonly scored: string | undefined;
  readonly said: string;
  readonly came: string | undefined;
  readonly standing: "agreed" | "missed" | "late" | "waiting";
  /** What stands at the end of the row. */
  readonly words: string;
  /** Why it does not count, where it came too late. */
  readonly late: string | undefined;
  readonly taken: string | undefined;
  readonly apart: string | undefined;
}
/** The ledger as rows, the newest first. */
export function ledgerRows({ frozen, scores, taken, apart, shownIn }: LedgerInput): readonly LedgerRow[] {
  return [...frozen].reverse().map((f): LedgerRow => {
    const score = scores.findLast((s) => s.frozen === f.id);
    const unit = shownIn(f.question) || f.shownIn || "";
    const standing = score ? (score.late === undefined ? (score.agreed ? "agreed" : "missed") : "late") : "waiting";
    const when = taken?.get(f.trial);
    return {
      id: f.id,
      trial: f.trial,
      question: f.question,
      asks: sayAddress(f.question),
      frozen: f.date,
      scored: score?.date,
      said: saidOf(f, score, unit),
      came: score && cameOf(score, unit),
      standing,
      words: { agreed: "agreed", missed: "missed", late: "too late", waiting: "no result yet" }[standing],
      late: score?.late,
      taken: taken?.has(f.trial) ? (when === undefined ? "taken" : `taken ${when}`) : undefined,
      apart: apart?.get(f.trial),
    };
  });
}
/** What was foretold, of the kind that came out: a value, or how many pieces fail. */
function saidOf({ predicted, fails, share }: Frozen, score: Score | undefined, unit: string): string {
  if (fails && (score?.came.kind === "pieces" || !predicted))
    return `${showShare(fails.median)} of pieces fail (${showShare(fails.low)} to ${showShare(fails.high)})`;
  if (!predicted) return `holds in ${showShare(share)} of belief`;
  return `${shown(predicted.low, unit)} to ${withUnit(shown(predicted.high, unit), unit)}`;
}
function cameOf({ came }: Score, unit: string): string {
  if (came.kind === "pieces") return `${came.failed} of ${came.run} failed`;
  const half = endsOfGuess * came.uncertainty;
  return withUnit(`${shown(came.value, unit)}${half > 0 ? ` ±${figures(half / unitOf(unit).factor)}` : ""}`, unit);
}
const shown = (v: number, unit: string): string => figures(v / unitOf(unit).factor, 3);
const withUnit = (number: string, unit: string): string =>
  unit === "" ? number : `${number} ${unit.replace(/^1\//, "/")}`;
