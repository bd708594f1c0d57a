import type { Finding, Letter, Station, TapeResult } from "@tapeworthy/core";

/** One column of the route map. */
export interface Column {
  /** Of a folded column the first of those it holds. */
  readonly check: string;
  /** Checks of one station that are folded into this column; absent where it is one check. */
  readonly holds?: readonly string[];
  readonly station: Station;
  readonly severity: Finding["severity"];
  readonly letter: Letter | null;
  readonly contradicted: boolean;
  readonly first: boolean;
}
/** The columns in the order of the stations; a station's first column says so. */
export function mapColumns(rows: readonly TapeResult[]): Column[] {
  const seen = new Map<string, Column>();
  const rank = { g: 3, d: 2, m: 1 } as const;
  for (const row of rows)
    for (const f of row.findings) {
      const known = seen.get(f.check);
      const letter =
        !known?.letter || (f.letter && rank[f.letter] > rank[known.letter])
          ? (f.letter ?? known?.letter ?? null)
          : known.letter;
      seen.set(f.check, {
        check: f.check,
        station: f.station,
        severity: f.severity,
        letter,
        contradicted: (known?.contradicted ?? false) || f.contradicted,
        first: false,
      });
    }
  const sorted = [...seen.values()].sort((a, b) => a.station - b.station);
  return sorted.map((c, i) => ({ ...c, first: i === 0 || sorted[i - 1]!.station !== c.station }));
}

export const findingOf = (row: TapeResult, check: string): Finding | undefined =>
  row.findings.find((f) => f.check === check);
