import { type CardAnswer, type CardReadings, type CardStand, cardAnswer, cardStand } from "@tapeworthy/core";
import { applied, cardReadings, isRefused, newTrial, readTrial, toJson, trialPath } from "@tapeworthy/project";
import { useEffect, useMemo, useRef, useState } from "react";
import type { EngineState, FileEdit } from "../engine/engine.ts";
import type { Choice } from "../sheet/choice.ts";
import type { CardAsked } from "./card-asked.ts";
import { isTyped, keepTyped, keptTyped, type TypedSheet, typedKey } from "./keep-typed.ts";

/** Readings as they are typed into a card: piece by piece, reading by reading, entry by entry. */
export type Cells = readonly (readonly (readonly string[])[])[];

export interface Typed {
  readonly cells: Cells;
  readonly settings: Readonly<Record<string, string>>;
  readonly put: (piece: number, reading: number, entry: number, text: string) => void;
  readonly set: (symbol: string, text: string) => void;
  /** They are saved: nothing is typed any more. */
  readonly saved: () => void;
  /** Empties all fields; until something else is typed, `restore` puts back what was in them. */
  readonly clear: (() => void) | undefined;
  readonly restore: (() => void) | undefined;
  /** Fields for readings, and how many of them have a number in them. */
  readonly fields: number;
  readonly filled: number;
  readonly answer: CardAnswer | undefined;
  readonly stand: CardStand | undefined;
  /** What is wrong with what is typed. */
  readonly why: string | undefined;
  /** The readings as they would be saved, and the project with them in it. */
  readonly edit: FileEdit | undefined;
  readonly about: EngineState | undefined;
}
/** What is typed, of which question, and the place where it is kept. */
interface Sheet extends TypedSheet {
  readonly of: string;
  readonly key: string;
}
/** A number as somebody types it; a comma may stand for the point. */
export const numberTyped = (text: string): number =>
  /^\s*[-+−]?(\d+([.,]\d*)?|[.,]\d+)\s*$/.test(text)
    ? Number(text.trim().replace("−", "-").replace(",", "."))
    : Number.NaN;

export const emptyCells = (pieces: number, repeats: number, entries: number): Cells =>
  Array.from({ length: pieces }, () =>
    Array.from({ length: repeats }, () => Array.from({ length: entries }, () => "")),
  );

/** How many fields have a number in them. */
export const filledIn = (cells: Cells): number =>
  cells.flat(2).filter((text) => !Number.isNaN(numberTyped(text))).length;

/** The readings that are whole, as numbers; what is typed and is no number, by its words. */
export function readingsOf(cells: Cells): {
  readonly pieces: CardReadings["pieces"];
  readonly wrong: string | undefined;
} {
  const wrong = cells.flat(2).find((text) => text.trim() !== "" && Number.isNaN(numberTyped(text)));
  const pieces = cells
    .map((rows) =>
      rows.filter((row) => row.every((t) => !Number.isNaN(numberTyped(t)))).map((row) => row.map(numberTyped)),
    )
    .filter((rows) => rows.length > 0);
  return { pieces, wrong };
}

/** What is typed into the open card, what it says, and the files as they would be with it. */
export function useTyped(
  asked: CardAsked | undefined,
  question: string | undefined,
  into: string,
  state: EngineState,
  choice: Choice,
  date: string,
): Typed | undefined {
  const card = asked?.card;
  const [kept, keep] = useState<Sheet>();
  const [dropped, drop] = useState<Sheet>();
  const blank = useMemo(
    () => (card ? emptyCells(card.method.pieces, card.method.repeats, card.method.entries.length) : []),
    [card],
  );
  const project = state.project?.name ?? "";
  const key = typedKey(project, question ?? "", into);
  const stored = useMemo(() => (card ? keptTyped(key, blank) : undefined), [card, key, blank]);
  const empty: TypedSheet = { cells: blank, settings: {} };
  // What is typed goes on to another trial of its question, if the one that it was meant for is no longer the one that waits.
  const mine = kept && kept.of === question && (kept.key === key || isTyped(kept)) ? kept : undefined;
  const { cells, settings } = mine ?? stored ?? empty;
  const isKeptAt = useRef<string>(undefined);
  useEffect(() => {
    if (!mine) return;
    if (isKeptAt.current !== undefined && isKeptAt.current !== key && mine.key === isKeptAt.current)
      keepTyped(isKeptAt.current, undefined);
    keepTyped(key, mine);
    isKeptAt.current = key;
  }, [mine, key]);
  const { texts } = state;
  // biome-ignore lint/correctness/useExhaustiveDependencies: of the state the texts alone matter
  const worked = useMemo(() => {
    if (!card || question === undefined) return undefined;
    const { pieces, wrong } = readingsOf(cells);
    if (wrong !== undefined) return { why: `"${wrong}" is no number.` };
    if (pieces.length === 0) return {};
    const set = Object.entries(settings).filter(([, text]) => text.trim() !== "");
    const readings: CardReadings = {
      pieces,
      ...(set.length > 0 ? { settings: Object.fromEntries(set.map(([s, text]) => [s, numberTyped(text)])) } : {}),
    };
    const answer = cardAnswer(card, readings);
    if (answer.kind === "refusal") return { why: `${answer.found}. ${answer.wayOut}` };
    const stand = card.decides && cardStand(answer, card.decides);
    const path = trialPath(into);
    const before = texts.get(path);
    const unit = asked.pair?.unit ?? choice.unit;
    const tape = asked.pair?.tape ?? choice.tape;
    if (before === undefined && (unit === undefined || tape === undefined)) return { answer, stand };
    const text = before ?? newTrial({ trial: into, unit: unit!, tape: tape!, question, built: undefined });
    const { trial, errors } = readTrial(path, text);
    if (!trial) return { answer, stand, why: errors[0]?.message ?? `${path} can't be read.` };
    const saved = cardReadings({ card, readings, trial, before, text, date });
    if (isRefused(saved)) return { answer, stand, why: saved.why };
    const edit: FileEdit = { file: path, base: before, changes: toJson(saved.edit.changes) };
    const about: EngineState = { ...state, texts: new Map(texts).set(path, applied(saved.edit, before ?? "")) };
    return { answer, stand, edit, about };
  }, [card, question, cells, settings, texts, into, asked, choice.unit, choice.tape, date]);
  if (!card || !worked || question === undefined) return undefined;
  const write = (typed: TypedSheet): void => {
    keep({ ...typed, of: question, key });
    drop(undefined);
  };
  const put = (piece: number, reading: number, entry: number, text: string): void =>
    write({
      settings,
      cells: cells.map((rows, i) =>
        i === piece ? rows.map((row, j) => (j === reading ? row.map((t, k) => (k === entry ? text : t)) : row)) : rows,
      ),
    });
  return {
    cells,
    settings,
    put,
    set: (symbol, text) => write({ cells, settings: { ...settings, [symbol]: text } }),
    saved: () => {
      write(empty);
      // Saved they have made their trial another one: what is typed next may be kept for the one after it.
      if (isKeptAt.current !== undefined) keepTyped(isKeptAt.current, undefined);
      keepTyped(key, undefined);
    },
    clear: isTyped({ cells, settings })
      ? () => {
          write(empty);
          drop({ cells, settings, of: question, key });
        }
      : undefined,
    restore: dropped?.of === question && dropped.key === key ? () => write(dropped) : undefined,
    fields: cells.flat(2).length,
    filled: filledIn(cells),
    answer: worked.answer,
    stand: worked.stand,
    why: worked.why,
    edit: worked.edit,
    about: worked.about,
  };
}
