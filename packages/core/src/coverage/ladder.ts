import type { Check, Severity, Station } from "../quantity/check.ts";
import type { BeliefPoints } from "../study/points.ts";
import { marginAllowed } from "../study/quick.ts";
import type { CheckAt, Climbed, Rung } from "./climb.ts";
import type { WidthFamily } from "./family.ts";
import { type Verdict, verdictOf } from "./verdict.ts";

/** Widths over which a verdict stays the same, mm. */
export interface VerdictSpan {
  readonly from: number;
  readonly to: number;
  readonly verdict: Verdict;
  /** Of the whole unit: hard checks that do not feed somewhere in it, the least share first. Of a check that has no say: why. */
  readonly by: readonly string[];
}
/** Where a verdict turns, and what from and into. */
export interface Turn {
  readonly W: number;
  /** "between 12 and 16 (about 13.4)", "at 16", "above 16 (P1 8 to 12 mm)". */
  readonly where: string;
  readonly before: Verdict;
  readonly after: Verdict;
  /** What takes a step there; null where nothing does. */
  readonly step: string | null;
}
/** One check at one width. Gap in SI; null where it has no finite answer. */
export interface LadderPoint {
  readonly W: number;
  /** Just above that width, after what takes a step there. */
  readonly above: boolean;
  readonly gap: { readonly [P in keyof BeliefPoints]: number | null };
  readonly margin: BeliefPoints;
  readonly share: number;
}
export interface LadderLine {
  readonly check: string;
  readonly station: Station;
  readonly severity: Severity;
  readonly title: string;
  /** Coherent unit of its gaps; empty where it never applies. */
  readonly unit: string;
  /** The record of known units contradicts it: it stops nothing. */
  readonly contradicted: boolean;
  readonly spans: readonly VerdictSpan[];
  readonly turns: readonly Turn[];
  /** Where the deciding gap at the belief median is nought. */
  readonly median: readonly { readonly W: number; readonly where: string }[];
  /** In order of width, those where it turns among them; where the check has no say there is no point. */
  readonly points: readonly LadderPoint[];
}
/** A unit over continuous width. Plain data; widths in mm. */
export interface Ladder {
  readonly unit: string;
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** Margin at which the allowance is just kept. */
  readonly allowed: number;
  /** Catalogue widths from one end to the other. */
  readonly rows: readonly number[];
  readonly tapes: WidthFamily["tapes"];
  readonly leftOut: WidthFamily["leftOut"];
  /** The whole unit: share of belief in which every hard check holds at once. */
  readonly spans: readonly VerdictSpan[];
  readonly turns: readonly Turn[];
  readonly points: readonly {
    readonly W: number;
    readonly above: boolean;
    readonly share: number | null;
    readonly verdict: Verdict;
    readonly first: readonly string[];
  }[];
  readonly lines: readonly LadderLine[];
  readonly steps: readonly { readonly W: number; readonly step: string; readonly moves: readonly string[] }[];
}

/** Puts the climbed pieces of a family together. */
export function ladderOf(
  family: WidthFamily,
  climbed: readonly Climbed[],
  checks: readonly Check[],
  contradicted: ReadonlySet<string>,
  allowPairs: number,
): Ladder {
  const { unit, name, from, to, rows, tapes, leftOut, pieces } = family;
  const rungs = climbed.flatMap((one, i) =>
    one.rungs.map((rung, j) => ({ rung, above: j === 0 && i > 0, piece: i, last: j === one.rungs.length - 1 })),
  );
  const steps = pieces.flatMap((piece, i) =>
    piece.steps.map((step, j) => ({
      W: piece.from,
      step: step.text,
      moves: climbed[i]!.moves[j]!,
      piece: i,
      word: step.word === true,
    })),
  );
  const track = (check: string | undefined, verdictAt: (rung: Rung) => Verdict): Turn[] => {
    const moved = (piece: number, applies: boolean): string[] =>
      steps
        .filter((s) => s.piece === piece)
        .filter((s) => (s.word ? applies : check === undefined ? s.moves.length > 0 : s.moves.includes(check)))
        .map((s) => s.step);
    return turnsOf(family, climbed, check, verdictAt, moved);
  };
  const whole = track(undefined, wholeVerdict);
  const lines = checks.map((check): LadderLine => {
    const { id, station, severity, title } = check;
    const at = (rung: Rung) => rung.checks.find((one) => one.check === id);
    const verdict = (rung: Rung): Verdict => {
      const mine = at(rung);
      return mine ? verdictOf(mine.share) : "n/a";
    };
    const turns = track(id, verdict);
    const why = (a: number, b: number): string[] => [
      ...new Set(
        rungs
          .filter(({ rung }) => rung.W >= a && rung.W <= b)
          .flatMap(({ rung }) => rung.uncut ?? rung.absent[id] ?? []),
      ),
    ];
    const first = verdict(rungs[0]!.rung);
    return {
      check: id,
      station,
      severity,
      title,
      unit: rungs.flatMap(({ rung }) => at(rung)?.unit ?? [])[0] ?? "",
      contradicted: contradicted.has(id),
      spans: spansOf(family, first, turns, (span) => (span.verdict === "n/a" ? why(span.from, span.to) : [])),
      turns,
      median: climbed.flatMap(({ roots }) =>
        roots
          .filter((root) => root.check === id && root.point === "middle")
          .map(({ W }) => ({ W, where: placed(W, rows) })),
      ),
      points: climbed.flatMap(({ rungs: looked, roots }, i) => {
        const seen = looked.flatMap((rung, j) => {
          const mine = at(rung);
          return mine ? [pointOf(rung.W, mine, j === 0 && i > 0)] : [];
        });
        const turning = roots.flatMap((root) =>
          root.check === id && root.at ? [pointOf(root.W, root.at, false)] : [],
        );
        return [...seen, ...turning].sort((a, b) => a.W - b.W);
      }),
    };
  });
  const by = (a: number, b: number): string[] => {
    const least = new Map<string, number>();
    for (const { rung } of rungs) {
      if (rung.W < a || rung.W > b) continue;
      for (const one of rung.checks)
        if (rung.first.includes(one.check)) least.set(one.check, Math.min(one.share, least.get(one.check) ?? 1));
    }
    return [...least].sort((x, y) => x[1] - y[1]).map(([check]) => check);
  };
  return {
    unit,
    name,
    from,
    to,
    allowed: marginAllowed(allowPairs),
    rows,
    tapes,
    leftOut,
    spans: spansOf(family, wholeVerdict(rungs[0]!.rung), whole, (span) =>
      span.verdict === "feeds" ? [] : by(span.from, span.to),
    ),
    turns: whole,
    points: rungs.map(({ rung, above }) => ({
      W: rung.W,
      above,
      share: rung.share,
      verdict: wholeVerdict(rung),
      first: rung.first,
    })),
    lines,
    steps: steps.map(({ W, step, moves }) => ({ W, step, moves })),
  };
}
const pointOf = (W: number, { gap, margin, share }: CheckAt, above: boolean): LadderPoint => ({
  W,
  above,
  gap: { low: finite(gap.low), middle: finite(gap.middle), high: finite(gap.high) },
  margin,
  share,
});
const finite = (v: number): number | null => (Number.isFinite(v) ? v : null);
const wholeVerdict = (rung: Rung): Verdict => (rung.share === null ? "n/a" : verdictOf(rung.share));

/** Where the verdict of a check, or of the whole unit, turns: at roots inside the pieces, at steps between them. */
function turnsOf(
  { rows }: WidthFamily,
  climbed: readonly Climbed[],
  check: string | undefined,
  verdictAt: (rung: Rung) => Verdict,
  stepsInto: (piece: number, applies: boolean) => readonly string[],
): Turn[] {
  const out: Turn[] = [];
  let now: Verdict | undefined;
  const turn = (after: Verdict, W: number, step: readonly string[] = []): void => {
    const before = now;
    now = after;
    if (before === undefined || before === after) return;
    const text = step.length > 0 ? step.join(" and ") : null;
    const last = out.at(-1);
    // Two turns at one place are one.
    if (last && Math.abs(last.W - W) < oneplace && last.step === text) {
      out.pop();
      if (last.before === after) return;
      out.push({ ...last, after });
    } else out.push({ W, where: text ? `above ${round(W)} (${text})` : placed(W, rows), before, after, step: text });
  };
  climbed.forEach(({ rungs, roots }, piece) => {
    const [first, last] = [rungs[0]!, rungs.at(-1)!];
    const begins = verdictAt(first);
    turn(begins, first.W, stepsInto(piece, (begins === "n/a") !== (now === "n/a")));
    const mine = roots.filter((root) => root.check === check && root.point !== "middle").sort((a, b) => a.W - b.W);
    let feeds = now === "feeds";
    let stops = now === "stops";
    for (const { point, W } of mine) {
      if (point === "low") feeds = !feeds;
      else stops = !stops;
      turn(feeds ? "feeds" : stops ? "stops" : "depends", W);
    }
    // Where a check begins or ceases to apply inside a piece there is no root.
    for (const rung of rungs)
      if ((verdictAt(rung) === "n/a") !== (now === "n/a") && rung !== first) turn(verdictAt(rung), rung.W);
    turn(verdictAt(last), last.W);
  });
  return out;
}
/** Two turns this near are one, mm. */
const oneplace = 0.03;

function spansOf(
  { from, to }: WidthFamily,
  first: Verdict,
  turns: readonly Turn[],
  by: (span: Omit<VerdictSpan, "by">) => readonly string[],
): VerdictSpan[] {
  const ends = [from, ...turns.map((c) => c.W), to];
  const verdicts = [first, ...turns.map((c) => c.after)];
  return verdicts.map((verdict, i) => {
    const span = { from: ends[i]!, to: ends[i + 1]!, verdict };
    return { ...span, by: by(span) };
  });
}

/** A width as it is said: three figures. */
const round = (W: number): string => `${+W.toPrecision(3)}`;
/** Where a width lies among the catalogue's. */
export function placed(W: number, rows: readonly number[]): string {
  const at = rows.find((row) => Math.abs(row - W) < oneplace);
  if (at !== undefined) return `at ${at}`;
  const below = rows.findLast((row) => row < W);
  const above = rows.find((row) => row > W);
  return below === undefined || above === undefined
    ? `at ${round(W)}`
    : `between ${below} and ${above} (about ${round(W)})`;
}

/** "feeds to 13, depends to 18, stops above": a row of spans in words. */
export function saySpans(spans: readonly VerdictSpan[]): string {
  const [only] = spans;
  if (spans.length === 1 && only) return only.verdict === "n/a" ? "not applicable" : `${only.verdict} throughout`;
  return spans
    .map(({ verdict, to }, i) => {
      const word = verdict === "n/a" ? "not applicable" : verdict;
      return i === spans.length - 1 ? `${word} above` : `${word} to ${round(to)}`;
    })
    .join(", ");
}
/** "Depends from 13, stops at 18": the whole unit in a sentence. */
export function sayFirst({ spans }: Pick<Ladder, "spans">): string {
  const [a, b, c] = spans;
  if (a?.verdict === "feeds" && b?.verdict === "depends" && (!c || (c.verdict === "stops" && spans.length === 3)))
    return `Depends from ${round(b.from)}${c ? `, stops at ${round(c.from)}` : ""}.`;
  if (a?.verdict === "feeds" && b?.verdict === "stops" && !c) return `Stops from ${round(b.from)}.`;
  return `${capital(saySpans(spans))}.`;
}
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
