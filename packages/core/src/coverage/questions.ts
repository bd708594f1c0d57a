import type { TapeResult } from "./finding.ts";

/** An unknown, and how many open tapes hang on it first. */
export interface Question {
  readonly address: string;
  readonly tapes: readonly string[];
}
/** The unknowns that decide what depends: those on which most tapes hang first, then those that gain most by being measured. */
export function questionsOf(rows: readonly TapeResult[]): Question[] {
  const asked = new Map<string, { tapes: string[]; gain: number }>();
  for (const row of rows) {
    if (row.verdict !== "depends") continue;
    const d = row.findings.find((f) => f.check === row.first[0])?.decisive;
    if (!d) continue;
    const one = asked.get(d.address) ?? { tapes: [], gain: 0 };
    one.tapes.push(row.tape);
    one.gain += Math.abs(d.shareIfMeasured - row.share!);
    asked.set(d.address, one);
  }
  return [...asked]
    .sort((a, b) => b[1].tapes.length - a[1].tapes.length || b[1].gain - a[1].gain)
    .map(([address, { tapes }]) => ({ address, tapes }));
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
