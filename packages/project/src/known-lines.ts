import { type KnownChances, type KnownStanding, standingOf, type Verdict, verdictOf } from "@tapeworthy/core";
import type { KnownRecord } from "./project.ts";

/** A record of known.yaml beside what the checks say without its own weight. Plain data. */
export interface KnownLine {
  readonly unit: string;
  readonly tape: string;
  readonly result: KnownRecord["result"];
  readonly reelsRun: number | null;
  readonly reelsRefused: number | null;
  readonly share: number;
  readonly verdict: Exclude<Verdict, "n/a">;
  readonly standing: KnownStanding;
  /** Checks that stop what is known to run. */
  readonly checks: readonly string[];
}
/** One line for every record, `chances` in their order. */
export const knownLines = (records: readonly KnownRecord[], chances: readonly KnownChances[]): KnownLine[] =>
  records.map((record, i): KnownLine => {
    const { share, checks } = chances[i]!;
    return {
      unit: record.unit,
      tape: record.tape,
      result: record.result,
      reelsRun: record.reelsRun ?? null,
      reelsRefused: record.reelsRefused ?? null,
      share,
      verdict: verdictOf(share),
      standing: standingOf(record.result, share),
      checks: record.result === "runs" ? checks.filter((c) => verdictOf(c.share) === "stops").map((c) => c.id) : [],
    };
  });
