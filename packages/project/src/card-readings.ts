import { ChangeSet } from "@codemirror/state";
import {
  type Card,
  type CardAnswer,
  type CardReadings,
  cardAnswer,
  cardFor,
  checkNamed,
  fromSI,
  unitBehind,
  unitOf,
} from "@tapeworthy/core";
import type { Refused } from "./bench.ts";
import { applied, type Edit, madeAs } from "./edit.ts";
import { readTrial, type Trial } from "./log/trial.ts";
import { added, type Item, inOne } from "./log/trial-edit.ts";

/** A filled card on its way into a trial. */
export interface CardToKeep {
  readonly card: Card;
  readonly readings: CardReadings;
  readonly trial: Trial;
  /** Text of the trial's file; undefined where it is not there yet. */
  readonly before: string | undefined;
  /** The same, or that of a trial which is begun with this card (`newTrial`). */
  readonly text: string;
  /** Names of the pieces, in their order; A, B, C of reels and 1, 2, 3 of anything else where they are left out. */
  readonly names?: readonly string[] | undefined;
  readonly by?: string | undefined;
  readonly note?: string | undefined;
  /** The day of the trial, written where it has none. */
  readonly date?: string | undefined;
}
export interface CardKept {
  /** Of the trial's file as it is, or of none. */
  readonly edit: Edit;
  readonly answer: CardAnswer;
}
/**
 * Typed readings into a trial: one reading a piece, for pieces count and not samples. Its number is the piece's; its sd is what all pieces share, which is
 * everything but how they differ; beside it stand the numbers as they were typed, reading after reading.
 */
export function cardReadings(of: CardToKeep): CardKept | Refused {
  const { card, readings, trial, before, text, by, note, date } = of;
  const { method } = card;
  const wrong = whyNotOf(card, trial);
  if (wrong !== undefined) return { why: wrong };
  const answer = cardAnswer(card, readings);
  if (answer.kind === "refusal") return { why: `${answer.found}. ${answer.wayOut}` };
  const names = of.names ?? readings.pieces.map((_, j) => (method.per === "reel" ? letter(j) : `${j + 1}`));
  if (names.length !== readings.pieces.length || new Set(names).size !== names.length)
    return {
      why: `${readings.pieces.length} ${method.per}s were read: name each of them once, not "${names.join(", ")}".`,
    };
  const shared = Math.hypot(...answer.parts.filter((p) => p.name !== "repeat").map((p) => p.u));
  const settings = Object.entries(readings.settings ?? {});
  const items = readings.pieces.map(
    (rows, j): Item => ({
      [method.per === "reel" ? "reel" : "unit"]: names[j],
      value: written(answer.pieces[j]!, shared, answer.shownIn),
      by,
      note,
      card: card.id,
      entries: rows.flat().map(String),
      ...(settings.length > 0 ? { settings: Object.fromEntries(settings.map(([s, v]) => [s, `${v}`])) } : {}),
    }),
  );
  const { path } = trial;
  const edit = inOne(text, path, [
    ...(date !== undefined && trial.date === undefined ? [(t: string) => dated(t, path, date)] : []),
    ...items.map((item) => (t: string) => added(t, path, "readings", item)),
  ]);
  const after = applied(edit, text);
  // What is written must be readable again: else it is a fault of this program, and nothing is written.
  const { errors } = readTrial(path, after);
  if (errors.length > 0)
    throw new Error(`the trial's file could not be written so that it reads again: ${errors[0]!.message}`);
  return { edit: before === undefined ? madeAs(path, after) : edit, answer };
}
/** Why a card is not that of a trial; undefined where it is. */
function whyNotOf(card: Card, { name, question }: Trial): string | undefined {
  if (checkNamed(question))
    return `${name} tries the check ${question}: a card answers an unknown. Begin another trial.`;
  return cardFor(question)?.id === card.id
    ? undefined
    : `${name} asks ${question}, which the card ${card.id} does not answer. Begin another trial.`;
}
const letter = (j: number): string => (j < 26 ? String.fromCharCode(65 + j) : `${j + 1}`);

/** "0.2366 sd 0.004": of a share without its sign, for a scatter in % is one of the value. */
function written(value: number, shared: number, shownIn: string): string {
  const unit = shownIn === "%" || shownIn === "" ? "" : shownIn;
  const said = (v: number, figures: number): string =>
    `${+fromSI(v, unitOf(unit)).toPrecision(figures)}${unitBehind(unit)}`;
  return shared > 0 ? `${said(value, 6)} sd ${said(shared, 2)}` : said(value, 6);
}
/** A day above the first list of a trial's text, and above the comments that belong to it. */
function dated(text: string, file: string, date: string): Edit {
  const at = text.search(/^(#.*\n|[^\S\n]*\n)*(conditions|readings|counts|mapping|runs):/m);
  const from = at < 0 ? text.length : at;
  const end = from === 0 || text[from - 1] === "\n" ? "" : "\n";
  return { file, changes: ChangeSet.of({ from, insert: `${end}date: ${date}\n` }, text.length) };
}
