import { openQuestions } from "../trial/questions.ts";
import type { TapeResult } from "./finding.ts";

/** An unknown, and the open tapes of which the first check that keeps them from feeding hangs on it. */
export interface Question {
  readonly address: string;
  readonly tapes: readonly string[];
}
/** The unknowns that decide what depends, those first whose answer saves the most days (trial/questions.ts, by the findings alone). */
export function questionsOf(rows: readonly TapeResult[]): Question[] {
  const { ranked, open, dropped } = openQuestions(rows.map((result) => ({ result })));
  return [...ranked, ...open, ...dropped].flatMap(({ address, hangs }) => {
    const tapes = hangs.flatMap(({ unit, tape, check }) =>
      rows.some((r) => r.unit === unit && r.tape === tape && r.first[0] === check) ? [tape] : [],
    );
    return tapes.length > 0 ? [{ address, tapes }] : [];
  });
}
/** Checks that stop tapes first, the most frequent first. */
export function firstStops(
  rows: readonly TapeResult[],
): { readonly check: string; readonly tapes: readonly string[] }[] {
  const found = new Map<string, string[]>();
  for (const row of rows) {
    const check = row.verdict === "stops" ? row.first[0] : undefined;
    if (check !== undefined) found.set(check, [...(found.get(check) ?? []), row.tape]);
  }
  return [...found].map(([check, tapes]) => ({ check, tapes })).sort((a, b) => b.tapes.length - a.tapes.length);
}
