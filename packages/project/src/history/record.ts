import { isProjectPath } from "../project.ts";
import { type ChangesJson, readChanges } from "./changes.ts";

/** One line of the journal. Each says what happened, never what should happen; read again in order they give the same state. */
export type JournalRecord =
  | { readonly is: "journal"; readonly format: 1 }
  | BaseRecord
  | StepRecord
  | EditRecord
  | UndoRecord
  | SkipRecord
  | OutsideRecord
  | WrittenRecord
  | OfferRecord
  | AnswerRecord;
/** A file as it lies on disk, and what has been accepted and not been written yet. */
export interface BaseRecord {
  readonly is: "base";
  readonly file: string;
  readonly text: string;
  readonly there: boolean;
  readonly ahead: readonly AheadJson[];
}
export interface AheadJson {
  readonly when: string;
  readonly changes: ChangesJson;
  readonly there: boolean;
  readonly hash: string;
}
/** A step of undo or redo from before the journal was shortened; the lowest comes first. */
export interface StepRecord {
  readonly is: "step";
  readonly of: "undo" | "redo";
  readonly file: string;
  readonly gesture: string;
  readonly group: number;
  readonly changes: ChangesJson;
  readonly back?: ChangesJson;
  readonly there?: boolean;
  /** Its gesture was not done: the next edit of that name goes on with it. */
  readonly goesOn?: true;
}
export interface EditRecord {
  readonly is: "edit";
  readonly when: string;
  readonly file: string;
  readonly gesture: string;
  readonly done: boolean;
  readonly changes: ChangesJson;
  /** Of the text afterwards. */
  readonly hash: string;
  readonly id?: string;
  /** The file was not there before. */
  readonly makes?: true;
}
export interface UndoRecord {
  readonly is: "undo" | "redo";
  readonly when: string;
  readonly gesture: string;
  /** Of each file's text afterwards. */
  readonly hashes: Readonly<Record<string, string>>;
}
export interface SkipRecord {
  readonly is: "skip";
  readonly of: "undo" | "redo";
  readonly gesture: string;
}
/** A file was changed on disk by somebody else. `changes` lead from the disk's old text to its new one. */
export interface OutsideRecord {
  readonly is: "outside";
  readonly when: string;
  readonly file: string;
  readonly changes: ChangesJson;
  readonly there: boolean;
  readonly hash: string;
  /** What was not written yet was set aside as an offer. */
  readonly aside?: true;
}
export interface WrittenRecord {
  readonly is: "written";
  readonly file: string;
  readonly hash: string;
  readonly there: boolean;
}
/** A text that fits nowhere by itself; it waits until somebody takes or drops it. */
export interface OfferRecord {
  readonly is: "offer";
  readonly id: string;
  readonly file: string;
  readonly when: string;
  readonly text: string;
}
export interface AnswerRecord {
  readonly is: "answer";
  readonly id: string;
  readonly take: boolean;
}

/** A file of a project whose name means the same on every system. */
export const isPlainPath = (file: string): boolean => isProjectPath(file) && !/[\\\p{Cc}]/u.test(file);

export const journalHead: JournalRecord = { is: "journal", format: 1 };
/** Records as the text of a journal: one line of JSON each. */
export const journalText = (records: readonly JournalRecord[]): string =>
  records.map((record) => `${JSON.stringify(record)}\n`).join("");

export interface ReadJournal {
  readonly records: readonly JournalRecord[];
  /** The part of the text that was understood. */
  readonly whole: string;
  /** The first line that was not, from 1. A last line cut short is no fault: nobody was told that it was kept. */
  readonly fault?: { readonly line: number; readonly why: string };
}
/** Reads a journal as far as it makes sense. */
export function readJournal(text: string): ReadJournal {
  const records: JournalRecord[] = [];
  let at = 0;
  for (let line = 1; at < text.length; line++) {
    const end = text.indexOf("\n", at);
    if (end < 0) break;
    const record = recordOf(text.slice(at, end));
    const isHead = typeof record !== "string" && record.is === "journal";
    const why =
      typeof record === "string" ? record : isHead !== (line === 1) ? "the journal's head is missing" : undefined;
    if (why !== undefined || typeof record === "string") {
      const torn = line > 1 && end === text.length - 1;
      return { records, whole: text.slice(0, at), ...(torn ? {} : { fault: { line, why: why ?? "" } }) };
    }
    records.push(record);
    at = end + 1;
  }
  return { records, whole: text.slice(0, at) };
}

type Fields = Readonly<Record<string, unknown>>;
type Claim = (value: unknown) => boolean;
const text: Claim = (v) => typeof v === "string";
const flag: Claim = (v) => typeof v === "boolean";
const count: Claim = (v) => Number.isSafeInteger(v);
const path: Claim = (v) => typeof v === "string" && isPlainPath(v);
const yes: Claim = (v) => v === true;
const oneOf =
  (...all: readonly unknown[]): Claim =>
  (v) =>
    all.includes(v);
const optional =
  (claim: Claim): Claim =>
  (v) =>
    v === undefined || claim(v);
const fields =
  (claims: Readonly<Record<string, Claim>>): Claim =>
  (v) =>
    typeof v === "object" && v !== null && Object.entries(claims).every(([name, claim]) => claim((v as Fields)[name]));
const listOf =
  (claim: Claim): Claim =>
  (v) =>
    Array.isArray(v) && v.every(claim);
/** Changes that hang together; for which text is seen when they are applied. */
const changes: Claim = (v) => {
  if (!Array.isArray(v)) return false;
  const length = (v as unknown[]).reduce<number>((sum, part) => sum + Number(Array.isArray(part) ? part[0] : part), 0);
  return typeof readChanges(v, length) !== "string";
};
const hashes: Claim = (v) =>
  typeof v === "object" && v !== null && Object.entries(v).every(([f, h]) => path(f) && text(h));
const claims: Readonly<Record<JournalRecord["is"], Claim>> = {
  journal: fields({ format: oneOf(1) }),
  base: fields({
    file: path,
    text,
    there: flag,
    ahead: listOf(fields({ when: text, changes, there: flag, hash: text })),
  }),
  step: fields({
    of: oneOf("undo", "redo"),
    file: path,
    gesture: text,
    group: count,
    changes,
    back: optional(changes),
    there: optional(flag),
    goesOn: optional(yes),
  }),
  edit: fields({
    when: text,
    file: path,
    gesture: text,
    done: flag,
    changes,
    hash: text,
    id: optional(text),
    makes: optional(yes),
  }),
  undo: fields({ when: text, gesture: text, hashes }),
  redo: fields({ when: text, gesture: text, hashes }),
  skip: fields({ of: oneOf("undo", "redo"), gesture: text }),
  outside: fields({ when: text, file: path, changes, there: flag, hash: text, aside: optional(yes) }),
  written: fields({ file: path, hash: text, there: flag }),
  offer: fields({ id: text, file: path, when: text, text }),
  answer: fields({ id: text, take: flag }),
};
function recordOf(line: string): JournalRecord | string {
  let json: unknown;
  try {
    json = JSON.parse(line);
  } catch {
    return "it is not JSON";
  }
  const is = typeof json === "object" && json !== null ? (json as Fields).is : undefined;
  if (typeof is !== "string" || !Object.hasOwn(claims, is)) return "it is no record that is known here";
  if (!claims[is as JournalRecord["is"]](json)) return `it is no whole "${is}" record`;
  return json as JournalRecord;
}
