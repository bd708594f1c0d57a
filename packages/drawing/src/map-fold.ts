import type { Finding, TapeResult } from "@tapeworthy/core";
import { type Column, findingOf, mapColumns } from "./map-columns.ts";

/** A finger and a pointer want a target so wide, px. */
export const leastCell = 24;

/**
 * Checks to fold away so that at most `most` columns stand in the map: those that hold on every tape, the one with the most margin first, each
 * station's into one column at its end; where that is not enough, what never stops a tape. What stops or decides a tape, what a known unit
 * contradicts, and `keep` always stand open.
 */
export function foldFor(rows: readonly TapeResult[], most: number, keep?: string): ReadonlySet<string> {
  const columns = mapColumns(rows);
  const quiet = columns
    .filter((c) => c.check !== keep && !c.contradicted && rows.every((row) => isQuiet(findingOf(row, c.check))))
    .map((column) => ({ column, margin: leastOver(rows, column.check) }))
    .sort((a, b) => b.margin - a.margin);
  const folded = new Set<string>();
  // Where that is not enough, what never stops a tape goes too, dots and all: its station's fold still leads to it.
  const dots = columns.filter(
    (c) => c.check !== keep && c.severity !== "S" && !c.contradicted && !quiet.some((q) => q.column === c),
  );
  for (const column of [...quiet.map((q) => q.column), ...dots]) {
    if (shown(columns, folded) <= most) break;
    folded.add(column.check);
  }
  // One alone in its station's fold would take as much room as it does open.
  for (const { check, station } of columns)
    if (folded.has(check) && columns.filter((c) => c.station === station && folded.has(c.check)).length === 1)
      folded.delete(check);
  return folded;
}
const isQuiet = (f: Finding | undefined): boolean =>
  !f || f.verdict === "n/a" || f.verdict === "feeds" || (f.severity !== "S" && f.verdict === "depends");
const leastOver = (rows: readonly TapeResult[], check: string): number =>
  Math.min(...rows.map((row) => findingOf(row, check)?.margin ?? 6));
const shown = (columns: readonly Column[], folded: ReadonlySet<string>): number =>
  columns.filter((c) => !folded.has(c.check)).length +
  new Set(columns.filter((c) => folded.has(c.check)).map((c) => c.station)).size;

/** Columns as they stand in the map: open ones, and at the end of a station one for those that are folded. */
export function foldedColumns(columns: readonly Column[], folded: ReadonlySet<string>): readonly Column[] {
  const out: Column[] = [];
  for (const station of new Set(columns.map((c) => c.station))) {
    const mine = columns.filter((c) => c.station === station);
    const away = mine.filter((c) => folded.has(c.check));
    const open = mine.filter((c) => !folded.has(c.check));
    const more = away.length === 0 ? [] : [{ ...away[0]!, letter: null, holds: away.map((c) => c.check) }];
    out.push(...[...open, ...more].map((c, i) => ({ ...c, first: i === 0 })));
  }
  return out;
}

/** The finding that a column shows on a tape: of several the one that is nearest to stopping it. */
export function shownOf(row: TapeResult, column: Column): Finding | undefined {
  if (!column.holds) return findingOf(row, column.check);
  const rank = (f: Finding): number =>
    (f.severity === "S" ? 10 : 0) +
    { stops: 3, depends: 2, feeds: 1, "n/a": f.severity === "S" ? -20 : -10 }[f.verdict];
  return column.holds
    .flatMap((check) => findingOf(row, check) ?? [])
    .reduce<Finding | undefined>(
      (worst, f) =>
        !worst || rank(f) > rank(worst) || (rank(f) === rank(worst) && (f.margin ?? 6) < (worst.margin ?? 6))
          ? f
          : worst,
      undefined,
    );
}

/** The cells that stand in the map, row by row: the check each one leads to. */
export function shownCells(
  rows: readonly TapeResult[],
  folded: ReadonlySet<string>,
): readonly { readonly tape: string; readonly check: string }[] {
  const columns = foldedColumns(mapColumns(rows), folded);
  return rows.flatMap((row) =>
    columns.flatMap((column) => {
      const f = shownOf(row, column);
      return f ? [{ tape: row.tape, check: f.check }] : [];
    }),
  );
}
