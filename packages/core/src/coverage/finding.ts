import type { Severity, Station } from "../quantity/check.ts";
import type { Letter } from "../quantity/given.ts";
import type { CuresWithEffects } from "./cure.ts";
import type { Verdict } from "./verdict.ts";

/** What one check says of one unit on one tape. Plain data, SI. */
export interface Finding {
  readonly check: string;
  readonly station: Station;
  readonly severity: Severity;
  readonly verdict: Verdict;
  /** Share of belief in which the check holds; null where it does not apply. */
  readonly share: number | null;
  /** The same before known units were weighed in. */
  readonly shareAlone: number | null;
  readonly value: number | null;
  readonly unit: string;
  readonly bounds: { readonly least?: number; readonly most?: number };
  /** Value over the nearer bound; null where that bound is nothing. */
  readonly ratio: number | null;
  readonly margin: number | null;
  readonly marginBy: "drawn" | "first order" | "cannot fail as drawn" | null;
  readonly letter: Letter | null;
  /** Inputs beyond those the letter stands for. */
  readonly more: number;
  readonly status: "established" | "judgement" | "outside range";
  readonly because: string;
  readonly where?: string;
  readonly decisive?: DecisiveFinding;
  /** Gap with the unknowns at their kind and unkind ends. */
  readonly corners?: { readonly best: number; readonly worst: number };
  /** The nearest unit and tape known to run, and this value over its. */
  readonly nearest?: { readonly unit: string; readonly tape: string; readonly ratio: number };
  /** Quantities worth seeing beside the value. */
  readonly beside: readonly {
    readonly id: string;
    readonly title: string;
    readonly value: number;
    readonly unit: string;
    readonly shownIn: string;
  }[];
  /** The record of known units contradicts this check: it can't stop a tape. */
  readonly contradicted: boolean;
  /** Largest error of the scatter allowance where it was tested, in the value's unit. */
  readonly allowanceError: number;
}
export interface DecisiveFinding {
  readonly address: string;
  readonly symbol: string;
  /** Value at which the verdict tips, SI; null where nothing tips on it alone. */
  readonly tipping: number | null;
  readonly guess: { readonly low: number; readonly high: number };
  readonly unit: string;
  readonly shownIn: string;
  readonly shareIfMeasured: number;
  readonly words?: readonly [string, string];
  /** Belief switches held at these words for the tipping value. */
  readonly when?: readonly { readonly address: string; readonly word: string }[];
}

/** One unit on one tape. */
export interface TapeResult {
  readonly unit: string;
  readonly tape: string;
  /** Nominal width of the tape's row, mm as the standard names it. */
  readonly W: number;
  readonly verdict: Verdict;
  readonly share: number | null;
  readonly shareAlone: number | null;
  readonly verdictAlone: Verdict;
  /** Hard checks that do not feed, the first to stop first. */
  readonly first: readonly string[];
  readonly findings: readonly Finding[];
  /** Where another setting of a number that can be set on the finished unit would hold in more of belief. */
  readonly setting?: Setting;
  /** What would make its stopping checks hold, where that was asked for. */
  readonly cures?: readonly CuresWithEffects[];
}
export interface Setting {
  readonly address: string;
  /** Share of belief in which some setting holds, and in which the drawn one does. */
  readonly exists: number;
  readonly drawn: number;
  /** The setting that holds in most of belief, SI, and that share. */
  readonly best: number;
  readonly atBest: number;
  readonly unit: string;
  readonly shownIn: string;
}
