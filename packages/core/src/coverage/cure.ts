import type { Verdict } from "./verdict.ts";

/** What a moved number does to one unit on one tape. */
export interface CureEffect {
  readonly tape: string;
  readonly before: { readonly verdict: Verdict; readonly share: number };
  readonly after: { readonly verdict: Verdict; readonly share: number };
  /** Checks whose own verdict changes, in reading order. */
  readonly checks: readonly { readonly check: string; readonly before: Verdict; readonly after: Verdict }[];
}
/** One number of the unit file that turns one check on one tape, and what that costs elsewhere. Plain data, SI. */
export interface Cure {
  readonly check: string;
  readonly address: string;
  readonly symbol: string;
  readonly unit: string;
  readonly shownIn: string;
  /** As drawn, and as it would have to be. */
  readonly from: number;
  readonly to: number;
  /** Share of belief in which the check holds then. */
  readonly share: number;
  /** What changes on every wanted tape of the unit, worst first; the cured tape among them. */
  readonly effects: readonly CureEffect[];
}
/** Where a check cannot be cured by one number within its bounds: how far the best one gets. */
export interface NoCure {
  readonly check: string;
  readonly address: string;
  readonly shownIn: string;
  readonly at: number;
  readonly share: number;
}
