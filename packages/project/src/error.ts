import type { Place } from "@tapeworthy/core";

export { didYouMean, nearest } from "@tapeworthy/core";

/** What is wrong in a file, where, and the way out. Data; `showError` turns it into text. */
export class ProjectError extends Error {
  override readonly name = "ProjectError";
  readonly place: Place;
  readonly lineText: string;
  readonly found: string;
  readonly expected: string;
  readonly hint: string | undefined;
  constructor(place: Place, lineText: string, found: string, expected: string, hint?: string) {
    super(`found ${found}, expected ${expected}`);
    this.place = place;
    this.lineText = lineText;
    this.found = found;
    this.expected = expected;
    this.hint = hint;
  }
}

/** One fault: a family's file is read once a width, and a number that is wrong at every width is still wrong once. */
export const faultOf = ({ place, expected }: ProjectError): string =>
  `${place.file}:${place.line}:${place.column} ${expected}`;
/** The first of every fault, in the order of files, lines and columns. */
export function eachOnce(errors: Iterable<ProjectError>): ProjectError[] {
  const first = new Map<string, ProjectError>();
  for (const e of errors) if (!first.has(faultOf(e))) first.set(faultOf(e), e);
  return [...first.values()].sort((a, b) =>
    a.place.file < b.place.file
      ? -1
      : a.place.file > b.place.file
        ? 1
        : a.place.line - b.place.line || a.place.column - b.place.column,
  );
}

/** Widest piece of a line that is shown. */
const window = 100;
/**
 * An error as text: place, found, expected; the line with what is meant underlined; the way out.
 * A very long line is shown around the place.
 */
export function showError({ place, lineText, message, hint }: ProjectError): string {
  const { file, line, column, length } = place;
  const from = column - 1 > window - 20 ? column - 1 - 40 : 0;
  const before = from > 0 ? "…" : "";
  const shown = `${before}${lineText.slice(from, from + window)}${lineText.length > from + window ? "…" : ""}`;
  const indent = before.length + column - 1 - from;
  const under = Math.max(1, Math.min(length, shown.length - indent));
  const margin = `${line} | `;
  const lines = [
    `${file}:${line}:${column}: ${message}`,
    `${margin}${shown}`.replace(/ +$/, ""),
    `${" ".repeat(margin.length + indent)}${"^".repeat(under)}`,
  ];
  if (hint) lines.push(hint);
  return lines.map(printable).join("\n");
}
/** One column a character: a tab becomes a blank; what would move the cursor or turn the line round is shown as a replacement. */
const printable = (text: string): string => text.replace(/\t/g, " ").replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, "\ufffd");
