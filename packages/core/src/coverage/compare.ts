import type { Check } from "../quantity/check.ts";
import type { Finding, TapeResult } from "./finding.ts";
import { type Ladder, saySpans } from "./ladder.ts";
import type { Verdict } from "./verdict.ts";

/** One unit that is held beside others. */
export interface Compared {
  readonly unit: string;
  readonly name: string;
  readonly revision: string;
  /** Null where the unit has no ladder, which `why` says. */
  readonly ladder: Ladder | null;
  readonly why: string | null;
  /** The unit on every tape that it serves. */
  readonly tapes: readonly TapeResult[];
}
/** A unit on a tape in a table of several. */
export interface ComparedCell {
  readonly unit: string;
  readonly verdict: Verdict;
  readonly share: number | null;
  /** What stops first, and its sentence; null where the pair feeds. */
  readonly first: string | null;
  readonly because: string | null;
}
/** What one check finds of one unit. */
export interface ComparedValue {
  readonly unit: string;
  readonly verdict: Verdict;
  readonly value: number | null;
  /** Coherent unit of the value, and the one a person reads it in. */
  readonly in: string;
  readonly ratio: number | null;
}
/** Two to five units on one scale of width. Plain data; widths in mm. */
export interface Comparison {
  readonly from: number;
  readonly to: number;
  /** Catalogue widths from one end to the other. */
  readonly rows: readonly number[];
  readonly units: readonly {
    readonly unit: string;
    readonly name: string;
    readonly revision: string;
    /** Greatest width up to which it feeds from its least; null where it does not feed there. */
    readonly feedsTo: number | null;
    /** Hard checks that end that, and the width from which each does not feed, least first; empty where it feeds throughout. */
    readonly endedBy: readonly { readonly check: string; readonly W: number }[];
    readonly says: string;
    readonly ladder: Ladder | null;
  }[];
  readonly tapes: readonly {
    readonly tape: string;
    readonly W: number;
    /** One for every unit, in their order; null where the unit does not serve the tape. */
    readonly cells: readonly (ComparedCell | null)[];
  }[];
  /** Checks with a verdict of one unit and another of another, on the narrowest tape on which they part. */
  readonly separates: readonly {
    readonly check: string;
    readonly title: string;
    readonly tape: string;
    readonly W: number;
    readonly values: readonly (ComparedValue | null)[];
  }[];
  /** Room in the machine: what the checks of the mount find and say, on the widest tape that all serve. */
  readonly mount: readonly {
    readonly check: string;
    readonly title: string;
    readonly tape: string;
    readonly values: readonly {
      readonly unit: string;
      readonly value: number | null;
      readonly in: string;
      readonly says: string;
    }[];
  }[];
}

export const fewestCompared = 2;
export const mostCompared = 5;

/** Holds units beside each other. Throws RangeError for fewer than two or more than five. */
export function compare(units: readonly Compared[], checks: readonly Check[]): Comparison {
  if (units.length < fewestCompared || units.length > mostCompared)
    throw new RangeError(`${units.length} units; two to five can be compared`);
  const ladders = units.flatMap(({ ladder }) => ladder ?? []);
  const widths = ladders.flatMap(({ rows }) => rows);
  const tapes = new Map<string, number>();
  for (const { tapes: mine } of units) for (const { tape, W } of mine) tapes.set(tape, W);
  const inOrder = [...tapes].sort(([a, x], [b, y]) => x - y || (a < b ? -1 : 1)).map(([tape, W]) => ({ tape, W }));
  const on = (tape: string) => units.map(({ tapes: mine }) => mine.find((t) => t.tape === tape));
  const common = inOrder.filter(({ tape }) => on(tape).every((result) => result !== undefined));
  return {
    from: Math.min(...widths),
    to: Math.max(...widths),
    rows: [...new Set(widths)].sort((a, b) => a - b),
    units: units.map(({ unit, name, revision, ladder, why }) => ({
      unit,
      name,
      revision,
      ...(ladder ? fed(ladder) : { feedsTo: null, endedBy: [] }),
      says: ladder ? saySpans(ladder.spans) : (why ?? ""),
      ladder,
    })),
    tapes: inOrder.map(({ tape, W }) => ({
      tape,
      W,
      cells: on(tape).map((result, i) => (result ? cellOf(units[i]!.unit, result) : null)),
    })),
    separates: checks.flatMap((check) => {
      if (check.severity !== "S") return [];
      for (const { tape, W } of common) {
        const found = on(tape).map((result) => result!.findings.find((f) => f.check === check.id)!);
        if (!parts(found)) continue;
        return [
          { check: check.id, title: check.title, tape, W, values: found.map((f, i) => foundOf(units[i]!.unit, f)) },
        ];
      }
      return [];
    }),
    mount: checks.flatMap((check) => {
      const widest = common.at(-1);
      if (!widest || !check.id.startsWith("mount.")) return [];
      const values = on(widest.tape).map((result, i) => {
        const { value, unit: in_, because } = result!.findings.find((f) => f.check === check.id)!;
        return { unit: units[i]!.unit, value, in: in_, says: because.replace(/^Not applicable: /, "") };
      });
      return [{ check: check.id, title: check.title, tape: widest.tape, values }];
    }),
  };
}

/** Up to where a unit feeds from its least width, and what ends it. */
function fed({ spans, lines }: Ladder): Pick<Comparison["units"][number], "feedsTo" | "endedBy"> {
  const [first, next] = spans;
  const feeds = first?.verdict === "feeds";
  const ending = (feeds ? next : first)?.by ?? [];
  const endedBy = ending.flatMap((check) => {
    const open = lines
      .find((line) => line.check === check)
      ?.spans.find((s) => s.verdict !== "feeds" && s.verdict !== "n/a");
    return open ? [{ check, W: open.from }] : [];
  });
  return { feedsTo: feeds ? first.to : null, endedBy: endedBy.sort((a, b) => a.W - b.W) };
}
function cellOf(unit: string, { verdict, share, first, findings }: TapeResult): ComparedCell {
  const stopper = findings.find((f) => f.check === first[0]);
  return { unit, verdict, share, first: first[0] ?? null, because: stopper?.because ?? null };
}
/** Some of the units have another verdict by this check than others; what does not apply takes no side. */
function parts(found: readonly Finding[]): boolean {
  const verdicts = new Set(found.filter((f) => !f.contradicted).map((f) => f.verdict));
  verdicts.delete("n/a");
  return verdicts.size > 1;
}
const foundOf = (unit: string, { verdict, value, unit: in_, ratio }: Finding): ComparedValue | null =>
  verdict === "n/a" ? null : { unit, verdict, value, in: in_, ratio };
