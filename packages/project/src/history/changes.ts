import { ChangeSet, Text } from "@codemirror/state";

/**
 * A change of a text as JSON: lengths that stay, and `[removed, ...lines]` where something is replaced. `[3, [1, "x", ""], 4]` keeps three
 * characters, replaces the fourth by "x" and a line break, and keeps four. Lengths count UTF-16 units, as strings do.
 */
export type ChangesJson = readonly (number | readonly [number, ...string[]])[];

/** Carriage returns are characters like others here, so that a text comes back to the byte. */
export const textOf = (text: string): Text => Text.of(text.split("\n"));
/** The text after a change. Throws RangeError where the change was made for a text of another length. */
export const changed = (text: string, changes: ChangeSet): string => changes.apply(textOf(text)).toString();
/** The change that takes a change back; `text` is the text before it. */
export const takingBack = (changes: ChangeSet, text: string): ChangeSet => changes.invert(textOf(text));
export const toJson = (changes: ChangeSet): ChangesJson => changes.toJSON() as ChangesJson;

/**
 * Reads a change that somebody sent, for a text of `length`. Nothing of it is believed: lengths are whole, not negative and add up.
 * Gives the reason where it cannot be read.
 */
export function readChanges(json: unknown, length: number): ChangeSet | string {
  if (!Array.isArray(json)) return "the changes are not a list";
  const specs: { from: number; to: number; insert: Text }[] = [];
  let at = 0;
  for (const part of json as unknown[]) {
    const list: unknown[] = Array.isArray(part) ? part : [part];
    const [removed, ...lines] = list;
    if (typeof removed !== "number" || !Number.isSafeInteger(removed) || removed < 0)
      return `${JSON.stringify(part)?.slice(0, 40) ?? "nothing"} is no length`;
    if (!lines.every((line) => typeof line === "string")) return "an inserted line is not text";
    if (lines.some((line) => line.includes("\n"))) return "an inserted line holds a line break";
    if (Array.isArray(part))
      specs.push({ from: at, to: at + removed, insert: lines.length > 0 ? Text.of(lines) : Text.empty });
    at += removed;
  }
  if (at !== length) return `the changes are for a text of ${at} characters, this one has ${length}`;
  return ChangeSet.of(specs, length);
}
