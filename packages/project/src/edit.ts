import { ChangeSet, Text } from "@codemirror/state";
import { type Given, isPlace, type Place } from "@tapeworthy/core";
import { SourceFile } from "./source.ts";

/** An edit of one file's text: it keeps comments and order, can be inverted and composed, and turns into JSON. */
export interface Edit {
  readonly file: string;
  readonly changes: ChangeSet;
}

const textOf = (text: string): Text => Text.of(text.split("\n"));
/** The text after an edit. Throws RangeError where the edit was made for a text of another length. */
export const applied = (edit: Edit, text: string): string => edit.changes.apply(textOf(text)).toString();
/** The edit that takes an edit back; `text` is the text before it. */
export const inverse = (edit: Edit, text: string): Edit => ({
  file: edit.file,
  changes: edit.changes.invert(textOf(text)),
});

/** Replaces what stands at a place. One changed value is one changed line. */
export function replaced(text: string, place: Place, value: string): Edit {
  const from = new SourceFile(place.file, text).offset(place);
  return replacedFrom(text, place.file, from, from + place.length, value);
}
/** Replaces a value between two places of a text. A quoted value keeps its quotes, one that needs some gets them. */
export function replacedFrom(text: string, file: string, from: number, to: number, value: string): Edit {
  const quote = text[from] === '"' || text[from] === "'" ? text[from]! : "";
  const inner =
    quote === '"' ? JSON.stringify(value).slice(1, -1) : quote === "'" ? value.replaceAll("'", "''") : value;
  const insert = quote === "" ? asValue(value) : `${quote}${inner}${quote}`;
  return { file, changes: ChangeSet.of({ from, to, insert }, text.length) };
}
/** A value as it may stand anywhere in a file: in quotes where it needs them. */
export const asValue = (value: string): string => (needsQuotes(value) ? JSON.stringify(value) : value);
/**
 * Whether a plain value would end early or be taken for something else, wherever it stands: within brackets a comma or a bracket
 * ends it, everywhere ": " and " #" do, and a sign of YAML's own must not begin it.
 */
const needsQuotes = (value: string): boolean =>
  value === "" || /^[\s&*!|>'"%@`#?:]|^-(?=\s|$)|^---|^\.\.\.|:(?=\s|$)|\s#|[\n\r\t,{}[\]]|\s$/.test(value);

/** Gives a number of a file another text. Throws RangeError for one that stands in no file. */
export function valueChanged(texts: ReadonlyMap<string, string>, given: Given, value: string): Edit {
  if (!isPlace(given.origin)) throw new RangeError(`${given.address} stands in no file`);
  const text = texts.get(given.origin.file);
  if (text === undefined) throw new RangeError(`there is no file ${given.origin.file}`);
  return replaced(text, given.origin, value);
}
/** The edit that makes a file that was not there. */
export const madeAs = (file: string, text: string): Edit => ({
  file,
  changes: ChangeSet.of({ from: 0, insert: text }, 0),
});
