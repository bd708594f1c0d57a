import {
  allCards,
  type NextQuestions,
  type OpenQuestion,
  showIn,
  showShare,
  type TrialOption,
  type TrialPiece,
} from "@tapeworthy/core";
import { aloud, capital, counted, list, sayAddress } from "./say.ts";
import { box, type Drawing } from "./scene.ts";

/** A question with the piece that would settle it, where one can be cut. */
export interface AskedQuestion extends OpenQuestion {
  readonly piece?: TrialPiece | null;
}
export interface QuestionsInput extends Pick<NextQuestions, "settled" | "because"> {
  readonly ranked: readonly AskedQuestion[];
  readonly open: readonly AskedQuestion[];
  readonly dropped: readonly AskedQuestion[];
}
/** One row of the table of questions. */
export interface QuestionRow {
  readonly address: string;
  /** Its place in the order; null for what is not ranked. */
  readonly number: number | null;
  readonly standing: "ranked" | "open" | "dropped";
  readonly asks: string;
  /** The unknown as a person reads it: "wound density". */
  readonly of: string;
  /** Two checks and their tapes at most, and how many more. */
  readonly decides: string;
  readonly decidesAll: readonly string[];
  /** Belief that something that hangs on it fails, 0 to 1. */
  readonly chance: number;
  readonly chanceWords: string;
  /** Days that the best way to settle it saves, and over half and twice that chance. */
  readonly saved: string;
  readonly range: string;
  /** The best way to settle it. */
  readonly by: QuestionWay;
  readonly others: readonly QuestionWay[];
  /** What must come first. */
  readonly after: readonly { readonly address: string; readonly words: string }[];
  /** Why it is open or dropped, or why no card measures it. */
  readonly why: string | null;
  readonly spoken: string;
}
export interface QuestionWay {
  readonly kind: TrialOption["kind"];
  readonly name: string;
  readonly words: string;
  /** "25 min", "1.0 days". */
  readonly takes: string;
  readonly saved: string;
}
export interface QuestionRows {
  /** What stands over the table, also where nothing is open. */
  readonly lead: string;
  readonly order: string;
  readonly ranked: readonly QuestionRow[];
  readonly open: readonly QuestionRow[];
  readonly dropped: readonly QuestionRow[];
  readonly settled: string;
  /** What each group has in common. */
  readonly groups: { readonly open: string; readonly dropped: string };
}

/** "4.2", "−0.40", "12": days as two figures say them. */
export function sayDays(v: number): string {
  const size = Math.abs(v);
  return (size >= 9.95 ? v.toFixed(0) : size >= 0.095 ? v.toFixed(1) : v.toFixed(2))
    .replace(/^-(0\.?0*)$/, "$1")
    .replace("-", "−");
}
/** Minutes at the bench; of what has to be made first, days. */
const sayTake = (o: TrialOption): string =>
  o.minutes !== null && !onPiece(o)
    ? `${o.minutes} min`
    : `${sayDays(o.cost)} ${sayDays(o.cost) === "1.0" ? "day" : "days"}`;
/** A limit of judgement is found on a piece that has to be made first. */
const onPiece = ({ kind, name }: TrialOption): boolean =>
  kind === "card" &&
  (allCards()
    .find((c) => c.id === name)
    ?.method.id.startsWith("trial") ??
    false);

export function questionRows({ ranked, open, dropped, settled, because }: QuestionsInput): QuestionRows {
  const all = [...ranked, ...open, ...dropped];
  const several = new Set(all.flatMap((q) => q.hangs.map((h) => h.unit))).size > 1;
  const numbers = new Map(ranked.map((q, i) => [q.address, i + 1]));
  const of = (standing: QuestionRow["standing"], questions: readonly AskedQuestion[]): QuestionRow[] =>
    questions.map((q) => rowOf(q, standing, numbers, several));
  const feed = settled.filter((s) => s.verdict === "feeds").length;
  const stop = settled.filter((s) => s.verdict === "stops").length;
  return {
    lead:
      all.length === 0
        ? "Nothing is open: no wanted verdict hangs on a number that nobody has measured."
        : ranked.length === 0
          ? "No question pays for certain; what may pay stands below."
          : `${capital(counted(ranked.length, "open question"))} ${ranked.length === 1 ? "pays" : "pay"}, best first.`,
    order: because,
    ranked: of("ranked", ranked),
    open: of("open", open),
    dropped: of("dropped", dropped),
    settled: `${counted(feed, "wanted pair")} ${feed === 1 ? "feeds" : "feed"} and ${stop} ${stop === 1 ? "stops" : "stop"} whatever these turn out to be`,
    groups: {
      open: "worth it or not, depending on a chance that nobody knows within a factor of two",
      dropped: "finding out costs more days than it saves, or changing the design at once costs less",
    },
  };
}

function rowOf(
  q: AskedQuestion,
  standing: QuestionRow["standing"],
  numbers: ReadonlyMap<string, number>,
  several: boolean,
): QuestionRow {
  const [best, ...rest] = q.trials;
  const { saved, range } = best!.worth;
  const decidesAll = decidedBy(q, several);
  const decides =
    decidesAll.length > 2
      ? `${decidesAll.slice(0, 2).join("; ")} and ${decidesAll.length - 2} more`
      : decidesAll.join("; ");
  const after = q.needs.map(({ address, because }) => {
    const number = numbers.get(address);
    return { address, words: `after ${number === undefined ? sayAddress(address) : `question ${number}`}: ${because}` };
  });
  const way = (o: TrialOption): QuestionWay => ({
    kind: o.kind,
    name: o.name,
    words: wayWords(o),
    takes: sayTake(o),
    saved: sayDays(o.worth.saved),
  });
  const why = whyOf(q, best!, standing);
  const row = {
    address: q.address,
    number: numbers.get(q.address) ?? null,
    standing,
    asks: q.asks,
    of: sayAddress(q.address),
    decides,
    decidesAll,
    chance: q.fails,
    chanceWords: showShare(q.fails),
    saved: sayDays(saved),
    range: `${sayDays(range[0])} to ${sayDays(range[1])}`,
    by: way(best!),
    others: rest.map(way),
    after,
    why,
  };
  const spoken = [
    `${row.number === null ? capital(standing) : `Question ${row.number}`}: ${q.asks}`,
    `Decides ${list(decidesAll)}`,
    `${q.hangs.length > 1 ? "something fails" : "it fails"} in ${row.chanceWords} of belief`,
    `saves ${row.saved} days, ${row.range}`,
    `by ${row.by.words}, ${row.by.takes}`,
    ...after.map((a) => a.words),
    ...(why === null ? [] : [why]),
  ];
  return { ...row, spoken: aloud(`${spoken.join("; ").replace("?;", "?").replace(/\.;/g, ";")}.`) };
}
const wayWords = (o: TrialOption): string =>
  o.kind === "card"
    ? `card ${o.name}${onPiece(o) ? " on a trial piece" : ""}`
    : o.kind === "whole prototype"
      ? "a whole prototype"
      : `trial piece, ${o.name}`;
/** "nip.even on radio-44 and holder-44", one a check; with the unit's name where there are several. */
function decidedBy(q: OpenQuestion, several: boolean): string[] {
  const groups = new Map<string, string[]>();
  for (const { unit, check, tape } of q.hangs) {
    const key = `${check}${several ? ` of ${unit}` : ""}`;
    groups.set(key, [...(groups.get(key) ?? []), tape]);
  }
  return [...groups].map(
    ([key, tapes]) =>
      `${key} on ${tapes.length > 3 ? `${tapes.slice(0, 2).join(", ")} and ${tapes.length - 2} more` : list(tapes)}`,
  );
}
const sayWorth = ({ information: { trial } }: TrialOption): string =>
  trial < 0.005 ? "nothing" : `${sayDays(trial)} days`;
function whyOf(q: OpenQuestion, best: TrialOption, standing: QuestionRow["standing"]): string | null {
  const out: string[] = [];
  const [low, high] = best.worth.range;
  if (standing === "open")
    out.push(`saves ${sayDays(high)} days were the chance twice as large, loses ${sayDays(-low)} were it half`);
  if (standing === "dropped")
    out.push(
      best.changeAtOnce && best.worth.saved > 0
        ? `changing the design at once costs less; against that the answer is worth ${sayWorth(best)}`
        : `it costs ${sayDays(best.cost)} days and saves ${sayDays(best.worth.saved + best.cost)}`,
    );
  else if (best.changeAtOnce)
    out.push(
      `going on untested would cost more than changing the design at once; against that the answer is worth ${sayWorth(best)}`,
    );
  if (q.noCard !== undefined) out.push(`no card: ${q.noCard}`);
  return out.length === 0 ? null : out.join("; ");
}
/** "guess 0.18 to 0.35, tips at 0.31": what is believed of the unknown, for the panel of a question. */
export function guessWords({ guess, shownIn, words, hangs }: OpenQuestion): string {
  if (words) return `it is ${words[0]} or ${words[1]}`;
  const tips = [...new Set(hangs.flatMap((h) => (h.tipping === null ? [] : [showIn(shownIn, h.tipping)])))];
  return `guess ${showIn(shownIn, guess.low)} to ${showIn(shownIn, guess.high)}${tips.length > 0 ? `, tips at ${list(tips)}` : ", tips on no value of it alone"}`;
}

/** A chance from 0 to 1 as a bar. */
export function chanceBar(
  chance: number,
  {
    width = 72,
    height = 14,
    of = "something that hangs on it fails",
  }: { readonly width?: number; readonly height?: number; readonly of?: string } = {},
): Drawing {
  const share = Number.isNaN(chance) ? 0 : Math.max(0, Math.min(1, chance));
  const y = (height - 6) / 2;
  return {
    title: showShare(share),
    desc: `${showShare(share)} of belief: ${of}.`,
    width,
    height,
    shapes: [
      box([0.5, y], width - 1, 6, "faint of-paper"),
      ...(share > 0
        ? [box([0.5, y], Math.max(1.5, (width - 1) * share), 6, "of-ask", { data: { chance: `${share}` } })]
        : []),
    ],
  };
}
