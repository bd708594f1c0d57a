import type { Place } from "@tapeworthy/core";

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

/** The same error said twice (a family's file is read once a width) counts once. */
export const sameError = (a: ProjectError, b: ProjectError): boolean =>
  a.place.file === b.place.file && a.place.line === b.place.line && a.place.column === b.place.column && a.message === b.message;

/**
 * An error as text: place, found, expected; the line with what is meant underlined; the way out.
 * A very long line is shown around the place.
 */
export function showError({ place, lineText, message, hint }: ProjectError): string {
  const { file, line, column, length } = place;
  const margin = `${line} | `;
  const width = 100;
  const from = column - 1 > width - 20 ? column - 1 - 40 : 0;
  const cut = from > 0 || lineText.length > from + width;
  const shown = cut ? `${from > 0 ? "…" : ""}${lineText.slice(from, from + width)}…` : lineText;
  const indent = column - 1 - from + (from > 0 ? 1 : 0);
  const under = Math.max(1, Math.min(length, shown.length - indent));
  const lines = [`${file}:${line}:${column}: ${message}`, `${margin}${shown.replace(/\t/g, " ")}`, `${" ".repeat(margin.length + indent)}${"^".repeat(under)}`];
  if (hint) lines.push(hint);
  return lines.join("\n");
}

/** The word of a list nearest to one that was written, if it is near enough to be meant. */
export function nearest(word: string, list: Iterable<string>): string | undefined {
  let best: string | undefined;
  let least = Math.max(1, Math.floor(word.length / 3)) + 0.5;
  for (const candidate of list) {
    const d = distance(word.toLowerCase(), candidate.toLowerCase());
    if (d < least) {
      least = d;
      best = candidate;
    }
  }
  return best;
}
export const didYouMean = (word: string, list: Iterable<string>): string | undefined => {
  const near = nearest(word, list);
  return near === undefined ? undefined : `Did you mean "${near}"?`;
};
/** Edit distance with swaps of neighbours counting one (optimal string alignment). */
function distance(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > 6 || a.length > 60) return Number.POSITIVE_INFINITY;
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let d = Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) d = Math.min(d, before[j - 2]! + 1);
      next.push(d);
    }
    before = row;
    row = next;
  }
  return row[b.length]!;
}
