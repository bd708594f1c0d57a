import {
  type Ladder,
  type LadderLine,
  sayFirst,
  saySpans,
  type Turn,
  type Verdict,
  type VerdictSpan,
} from "@tapeworthy/core";
import { type Paint, wrapped } from "./paint.ts";
import type { LadderResult, Weight } from "./run-ladder.ts";

const mark: Readonly<Record<Verdict, string>> = { feeds: "=", depends: "?", stops: "#", "n/a": " " };
export const legend = "= feeds   ? depends   # stops   blank: not applicable";

/** One character a place along the width; the verdict that holds at its middle, so that no crossing lies more than half a place off. */
export function bar(spans: readonly VerdictSpan[], from: number, to: number, length: number, paint: Paint): string {
  const at = (i: number): Verdict | undefined => {
    const W = from + ((i + 0.5) / length) * (to - from);
    return spans.find((s) => W >= s.from && W <= s.to)?.verdict;
  };
  const runs: { readonly verdict: Verdict | undefined; text: string }[] = [];
  for (let i = 0; i < length; i++) {
    const verdict = at(i);
    const last = runs.at(-1);
    const one = verdict ? mark[verdict] : " ";
    if (last && last.verdict === verdict) last.text += one;
    else runs.push({ verdict, text: one });
  }
  return runs.map(({ verdict, text }) => (verdict && verdict !== "n/a" ? paint[verdict](text) : text)).join("");
}
/** The catalogue's widths above the bars, each with its last figure over its place. */
export function scale(rows: readonly number[], from: number, to: number, length: number): string {
  const out = Array.from({ length: length + 4 }, () => " ");
  let free = 0;
  for (const row of rows) {
    const text = `${row}`;
    const place = Math.round(((row - from) / (to - from)) * length);
    const start = Math.max(0, place - (place === 0 ? 0 : text.length));
    if (start < free) continue;
    for (const [i, c] of [...text].entries()) out[start + i] = c;
    free = start + text.length + 1;
  }
  return out.join("").trimEnd();
}

const isHard = (line: LadderLine): boolean => line.severity === "S" && !line.contradicted;
const always = (line: LadderLine, verdict: Verdict): boolean => line.spans.every((s) => s.verdict === verdict);

/** A ladder for a terminal: a bar for the whole unit and for each check that does not feed throughout, then what turns where. */
export function ladderLines(ladder: Ladder, paint: Paint, width: number): string[] {
  const { from, to, lines } = ladder;
  const drawn = lines.filter((l) => !always(l, "feeds") && !always(l, "n/a"));
  const hard = drawn.filter(isHard);
  const soft = drawn.filter((l) => !isHard(l));
  const name = Math.max("whole unit".length, ...drawn.map((l) => l.check.length)) + 2;
  const length = Math.max(16, Math.min(56, width - name - 30));
  const room = Math.max(24, width - name - length - 4);
  const row = (label: string, spans: readonly VerdictSpan[], says: string): string[] => {
    const [first, ...rest] = wrapped(says, room).split("\n");
    return [
      `  ${label.padEnd(name)}${bar(spans, from, to, length, paint)}  ${first}`.trimEnd(),
      ...rest.map((text) => `${" ".repeat(name + length + 4)}${text}`),
    ];
  };
  const out = [paint.strong(`${ladder.name}, ${from} to ${to} mm`)];
  const say = (text: string): void =>
    void out.push(
      ...wrapped(text, width - 2, "  ")
        .split("\n")
        .map((line) => `  ${line}`),
    );
  say(`${sayFirst(ladder)} ${firstTurn(ladder)}`.trimEnd());
  out.push(paint.faint(`  ${" ".repeat(name)}${scale(ladder.rows, from, to, length)}  W, mm`));
  out.push(...row("whole unit", ladder.spans, saySpans(ladder.spans)));
  for (const line of [...hard].sort(bySpans)) out.push(...row(line.check, line.spans, saySpans(line.spans)));
  if (soft.length > 0) out.push(paint.faint("  these stop no tape:"));
  for (const line of soft) out.push(...row(line.check, line.spans, saySpans(line.spans)));
  const turns = turnLines(ladder);
  if (turns.length > 0) out.push("");
  for (const text of turns) say(text);
  const steps = ladder.steps.filter((s) => s.moves.length > 0);
  if (steps.length > 0) say(`Steps: ${steps.map((s) => `${s.step} at ${s.W}`).join("; ")}.`);
  const tapes = ladder.tapes.map(({ W, tape }) => `${tape} ${W}`).join(", ");
  say(`Tapes, linear between them: ${tapes}.`);
  for (const { W, why } of ladder.leftOut) say(`${W} mm: ${why}.`);
  const quiet = lines.filter((l) => always(l, "feeds")).map((l) => l.check);
  const absent = lines.filter((l) => always(l, "n/a")).map((l) => l.check);
  if (quiet.length > 0) say(`Feeds throughout: ${quiet.join(", ")}.`);
  if (absent.length > 0) say(`Not applicable: ${absent.join(", ")}.`);
  return [...out, ""];
}
/** What stops least width first. */
const bySpans = (a: LadderLine, b: LadderLine): number => trouble(a) - trouble(b) || (a.check < b.check ? -1 : 1);
const trouble = ({ spans }: LadderLine): number =>
  Math.min(...spans.map((s) => (s.verdict === "stops" ? s.from : s.verdict === "depends" ? s.from + 0.5 : 1e3)));

function firstTurn({ turns, spans }: Ladder): string {
  const [first] = turns;
  if (!first) return "";
  const by = spans.find((s) => s.from >= first.W - 1e-9 && s.verdict === first.after)?.by[0];
  return `First turn ${first.where}${by ? `: ${by}` : ""}.`;
}
/** A sentence for each hard check that turns somewhere. */
function turnLines({ lines }: Ladder): string[] {
  return lines
    .filter((l) => isHard(l) && l.turns.length > 0)
    .map((line) => {
      const turns = line.turns.map((c) => sayTurn(c)).join("; ");
      const median = line.median.filter((m) => line.turns.every((c) => Math.abs(c.W - m.W) > 0.05));
      const middle = median.length > 0 ? `; at the median of belief ${median.map((m) => m.where).join(" and ")}` : "";
      return `${line.check}: ${turns}${middle}.`;
    });
}
const sayTurn = ({ after, where }: Turn): string => `${after === "n/a" ? "not applicable" : after} ${where}`;

export function showLadder(result: LadderResult, paint: Paint, width: number): string {
  return [
    ...result.ladders.flatMap((ladder) => ladderLines(ladder, paint, width)),
    ...result.without.flatMap(({ why }) => [...wrapped(why, width).split("\n"), ""]),
    ...wrapped(`${legend}.`, width).split("\n"),
    ...wrapped(sayWeight(result.known), width).split("\n"),
  ].join("\n");
}
export const sayWeight = ({ weighed, effective }: Weight): string =>
  weighed
    ? `The record of known units is weighed in: belief is worth ${Math.round(effective)} of 1000 even draws.`
    : "Without the record of known units.";
