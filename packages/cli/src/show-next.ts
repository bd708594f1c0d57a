import { allCards, type Given, isPlace, showIn, showShare, stations, type TrialOption } from "@tapeworthy/core";
import type { Project, QuestionWithPiece } from "@tapeworthy/project";
import { type Paint, wrapped } from "./paint.ts";
import type { NextResult } from "./run-next.ts";

/** "4.2", "−0.40", "12": days as two figures say them. */
export const days = (v: number): string => {
  const size = Math.abs(v);
  return (size >= 9.95 ? v.toFixed(0) : size >= 0.095 ? v.toFixed(1) : v.toFixed(2))
    .replace(/^-(0\.?0*)$/, "$1")
    .replace("-", "−");
};
const counted = (n: number, word: string): string => `${n} ${word}${n === 1 ? "" : "s"}`;
const listed = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? "") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;

/** What to find out next, in words. */
export function showNext(result: NextResult, project: Project, paint: Paint, width: number): string {
  const out: string[] = [];
  const say = (text: string, indent: string): void =>
    void out.push(
      ...wrapped(text, width - indent.length, "  ")
        .split("\n")
        .map((line) => indent + line),
    );
  const { ranked, open, dropped, settled } = result;
  out.push(paint.strong(`${project.name}: what to find out next`));
  if (ranked.length + open.length + dropped.length === 0)
    say("Nothing is open: no wanted verdict hangs on a number that nobody has measured.", "");
  if (ranked.length > 0) {
    const other = result.advised === "series" ? "independent" : "series";
    const same = result.orders.series.join() === result.orders.independent.join();
    say(`Order: ${result.because}. ${same ? "The other order is the same." : `Other order: --order ${other}.`}`, "");
  }
  ranked.forEach((q, i) => {
    out.push("");
    question(q, result, say, paint, `${i + 1}`);
  });
  const group = (title: string, why: string, list: readonly QuestionWithPiece[]): void => {
    if (list.length === 0) return;
    out.push("", `${paint.strong(title)}${paint.faint(`  ${why}`)}`);
    for (const q of list) question(q, result, say, paint, "·");
  };
  group("Open", "worth it or not, depending on a chance nobody knows within a factor of two", open);
  group("Dropped", "finding out costs more days than it saves, or changing the design at once costs less", dropped);
  out.push("", paint.strong("Settled"));
  const many = (verdict: "feeds" | "stops"): number => settled.filter((s) => s.verdict === verdict).length;
  const feed = many("feeds");
  const stop = many("stops");
  say(
    `${counted(feed, "wanted pair")} ${feed === 1 ? "feeds" : "feed"} and ${stop} ${stop === 1 ? "stops" : "stop"} whatever these turn out to be.`,
    "  ",
  );
  const measured = [...project.givens.values()].filter((g) => g.letter === "m" && isPlace(g.origin));
  if (measured.length > 0)
    say(
      `Measured: ${listed(measured.slice(0, 8).map(sayGiven))}${measured.length > 8 ? ` and ${measured.length - 8} more` : ""}.`,
      "  ",
    );
  out.push(
    "",
    paint.faint(
      wrapped(
        "After each result ask again: every chance has moved. Days of trials and mistakes: bench costs in project.yaml.",
        width,
      ),
    ),
  );
  return out.join("\n");
}
const sayGiven = (g: Given): string => `${g.address} ${g.text.replace(/ measured$/, "")}`;

function question(
  q: QuestionWithPiece,
  result: NextResult,
  say: (text: string, indent: string) => void,
  paint: Paint,
  mark: string,
): void {
  const [best, ...others] = q.trials;
  say(`${mark} ${paint.strong(q.asks)} ${paint.faint(q.address)}`, "");
  say(
    `changes ${listed(q.hangs.slice(0, 6).map((_, i) => hanging(q, i)))}${q.hangs.length > 6 ? ` and ${q.hangs.length - 6} more` : ""}`,
    "  ",
  );
  say(
    `${q.hangs.length > 1 ? "one of them fails" : "it fails"} in ${showShare(q.fails)} of belief: ${origin(q, result)}`,
    "  ",
  );
  const { saved, range } = best!.worth;
  say(
    `saves ${days(saved)} days (${days(range[0])} to ${days(range[1])}, were that chance half or twice as large)`,
    "  ",
  );
  say(
    `by ${option(best!, q)}${others.length > 0 ? `; or ${others.map((o) => `${option(o, q)}: ${days(o.worth.saved)}`).join("; or ")}` : ""}`,
    "  ",
  );
  if (q.noCard) say(`no card: ${q.noCard}`, "  ");
  if (best!.changeAtOnce)
    say(
      `going on untested would cost more than changing the design at once; against that the answer is worth ${days(best!.information.trial)} days`,
      "  ",
    );
  for (const { address, because } of q.needs) say(`after ${address}: ${because}`, "  ");
}
function hanging(q: QuestionWithPiece, i: number): string {
  const { unit, tape, check, fails } = q.hangs[i]!;
  const before = q.hangs[i - 1];
  const where = before && before.unit === unit && before.check === check ? tape : `${check} of ${unit} on ${tape}`;
  return `${where} (fails in ${showShare(fails)})`;
}
function origin(q: QuestionWithPiece, { known }: NextResult): string {
  const from = q.from === "draws" ? `${known.draws} draws of what nobody knows` : "the shares of its findings";
  const record = known.weighed ? `, the record weighed in (worth ${Math.round(known.effective)} even draws)` : "";
  const tips = q.hangs.flatMap((h) => h.tipping ?? []);
  const guess = q.words
    ? `it is ${q.words[0]} or ${q.words[1]}`
    : `guess ${showIn(q.shownIn, q.guess.low)} to ${showIn(q.shownIn, q.guess.high)}${tips.length > 0 ? `, tips at ${listed([...new Set(tips.map((t) => showIn(q.shownIn, t)))])}` : ", tips on no number alone"}`;
  return `${from}${record}; ${guess}`;
}
function option(o: TrialOption, q: QuestionWithPiece): string {
  if (o.kind === "card") {
    const method = allCards().find((c) => c.id === o.name)?.method;
    const piece = method?.id.startsWith("trial") ? ` on a trial piece, ${days(o.cost)} days` : "";
    return `card ${o.name}, ${o.minutes} minutes${piece}`;
  }
  if (o.kind === "whole prototype") return `a whole prototype, ${days(o.cost)} days`;
  const keeps = q.piece
    ? ` (keeps ${listed(q.piece.kept.map((s) => stations[s]))}; ${q.piece.turned === "nothing turns" ? "nothing turns" : `turned by ${q.piece.turned}`})`
    : "";
  return `a trial piece, ${days(o.cost)} days${keeps}`;
}
