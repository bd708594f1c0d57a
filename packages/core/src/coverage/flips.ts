import type { Severity } from "../quantity/check.ts";
import type { DecisiveFinding, Finding, TapeResult } from "./finding.ts";
import type { Verdict } from "./verdict.ts";

interface Told {
  readonly verdict: Verdict;
  readonly share: number | null;
}
/** A verdict that became another: of a unit on a tape, or of one of its checks. Plain data. */
export interface Flip {
  readonly unit: string;
  readonly tape: string;
  /** Nominal width of the tape's row, mm. */
  readonly W: number;
  /** Undefined where it is the pair's own verdict. */
  readonly check: string | undefined;
  /** Of a check; S for a pair. */
  readonly severity: Severity;
  readonly before: Told;
  readonly after: Told;
  readonly worse: boolean;
  /** What decides the check now, where it depends. */
  readonly decisive?: DecisiveFinding;
}

const rank = { stops: 0, depends: 1, feeds: 2 } as const;
/** How far one verdict lies below another: two from feeds to stops. What came to apply, or no longer does, is no loss unless it stops something. */
const loss = ({ before, after }: Pick<Flip, "before" | "after">): number => {
  if (after.verdict === "n/a") return before.verdict === "n/a" ? 0 : rank[before.verdict] - rank.feeds;
  return (before.verdict === "n/a" ? rank.feeds : rank[before.verdict]) - rank[after.verdict];
};
const told = ({ verdict, share }: TapeResult | Finding): Told => ({ verdict, share });
const severities = ["S", "A", "L", "N"] as const;

/**
 * What moved between two times a pair was judged: its own verdict and those of its checks that are others now. Worst first: what a pair loses, then what a check
 * loses, hard checks before others, then the share lost; then what gains least.
 */
export function flipsOf(pairs: readonly (readonly [before: TapeResult, after: TapeResult])[]): Flip[] {
  const all = pairs.flatMap(([before, after]): Flip[] => {
    const { unit, tape, W } = after;
    const flip = (check: Finding | undefined, was: Told, is: Told): Flip[] =>
      was.verdict === is.verdict
        ? []
        : [
            {
              unit,
              tape,
              W,
              check: check?.check,
              severity: check?.severity ?? "S",
              before: was,
              after: is,
              worse: loss({ before: was, after: is }) > 0,
              ...(check?.decisive && is.verdict === "depends" ? { decisive: check.decisive } : {}),
            },
          ];
    return [
      ...flip(undefined, told(before), told(after)),
      ...after.findings.flatMap((f) => {
        const was = before.findings.find((one) => one.check === f.check);
        return was ? flip(f, told(was), told(f)) : [];
      }),
    ];
  });
  const lost = ({ before, after }: Flip): number => (before.share ?? 1) - (after.share ?? 1);
  return all.sort(
    (a, b) =>
      Number(b.worse) - Number(a.worse) ||
      Number(a.check !== undefined) - Number(b.check !== undefined) ||
      severities.indexOf(a.severity) - severities.indexOf(b.severity) ||
      loss(b) - loss(a) ||
      lost(b) - lost(a) ||
      a.W - b.W ||
      (a.tape < b.tape ? -1 : a.tape > b.tape ? 1 : 0),
  );
}
