import { toSI } from "@tapeworthy/core";
import { ProjectError } from "../error.ts";
import type { Log, NumberColumn } from "./log.ts";
import { headerOf, type Mapping, textsOf, unitOfColumn } from "./mapping.ts";

/** Indexes and misfeeds of one unit, reel and mode, added up over a log's rows. */
export interface CountedRow {
  readonly unit: string;
  readonly reel: string;
  readonly mode: string;
  readonly indexes: number;
  readonly misfeeds: number;
}
/**
 * Adds up a counting log. Where it has times and both counts only ever grow within each unit and reel, they are counters that run on: the last
 * less the first counts, and the log says so.
 */
export function countedIn(
  log: Log,
  mapping: Mapping,
): { rows: readonly CountedRow[]; running: boolean; errors: readonly ProjectError[] } {
  const numbers = (role: "indexes" | "misfeeds" | "time"): NumberColumn | undefined => {
    const m = mapping.columns.find((c) => c.role === role);
    return m && log.columns.find((c): c is NumberColumn => c.name === m.column && c.kind === "number");
  };
  const [indexes, misfeeds, time] = [numbers("indexes"), numbers("misfeeds"), numbers("time")];
  const head = Math.max(1, log.dialect.header);
  const refuse = (line: number, found: string, expected: string, hint: string) => ({
    rows: [],
    running: false,
    errors: [
      new ProjectError(
        { file: log.file, line, column: 1, length: 1 },
        line === head ? headerOf(log) : "",
        found,
        expected,
        hint,
      ),
    ],
  });
  if (!misfeeds)
    return refuse(
      head,
      "no column of misfeeds",
      "indexes and misfeeds, a unit and reel a row",
      'Say which it is: --map "COLUMN=misfeeds".',
    );
  if (!indexes)
    return refuse(
      head,
      "misfeeds without a column of indexes run",
      "both",
      'Say which it is: --map "COLUMN=indexes". Without them no rate can be told.',
    );
  const text = (role: "unit" | "reel" | "mode") => textsOf(log, mapping, role) ?? (() => "");
  const [unit, reel, mode] = [text("unit"), text("reel"), text("mode")];
  interface Sum {
    unit: string;
    reel: string;
    mode: string;
    indexes: number[];
    misfeeds: number[];
  }
  const groups = new Map<string, Sum>();
  for (let i = 0; i < log.rows; i++) {
    const [n, k] = [indexes.values[i]!, misfeeds.values[i]!];
    if (Number.isNaN(n) || Number.isNaN(k)) continue;
    if (n < 0 || k < 0 || !Number.isInteger(n) || !Number.isInteger(k))
      return refuse(
        log.lineOf(i),
        `${k} misfeeds in ${n} indexes`,
        "whole numbers from 0",
        "Is the column the right one?",
      );
    const key = JSON.stringify([unit(i), reel(i), mode(i)]);
    let group = groups.get(key);
    if (!group) {
      group = { unit: unit(i), reel: reel(i), mode: mode(i), indexes: [], misfeeds: [] };
      groups.set(key, group);
    }
    group.indexes.push(n);
    group.misfeeds.push(k);
  }
  const grows = (x: readonly number[]): boolean => x.every((v, i) => i === 0 || v >= x[i - 1]!);
  const all = [...groups.values()];
  const running =
    time !== undefined &&
    all.length > 0 &&
    all.every(
      (g) => g.indexes.length >= 3 && grows(g.indexes) && grows(g.misfeeds) && g.indexes.at(-1)! > g.indexes[0]!,
    );
  const total = (x: readonly number[]): number => (running ? x.at(-1)! - x[0]! : x.reduce((a, b) => a + b, 0));
  const rows = all.map((g) => ({
    unit: g.unit,
    reel: g.reel,
    mode: g.mode,
    indexes: total(g.indexes),
    misfeeds: total(g.misfeeds),
  }));
  const odd = rows.find((r) => r.misfeeds > r.indexes);
  if (odd)
    return refuse(
      head,
      `${odd.misfeeds} misfeeds in ${odd.indexes} indexes`,
      "no more misfeeds than indexes",
      "Are the two columns the wrong way round?",
    );
  if (rows.length === 0)
    return refuse(head, "no row with both counts", "indexes and misfeeds in a row", "See the gaps above.");
  return { rows, running, errors: [] };
}

/** One typed reading a row. `text` is the number with its unit, as a trial's file takes it. */
export interface ReadingRow {
  readonly unit: string;
  readonly reel: string;
  readonly by: string;
  readonly value: number;
  readonly row: number;
}
export function readingsIn(log: Log, mapping: Mapping): readonly ReadingRow[] {
  const m = mapping.columns.find((c) => c.role === "value");
  const c = m && log.columns.find((one): one is NumberColumn => one.name === m.column && one.kind === "number");
  if (!m || !c) return [];
  const [sign, measured] = [m.reversed ? -1 : 1, unitOfColumn(m)];
  const text = (role: "unit" | "reel" | "by") => textsOf(log, mapping, role) ?? (() => "");
  const [unit, reel, by] = [text("unit"), text("reel"), text("by")];
  const out: ReadingRow[] = [];
  for (let i = 0; i < log.rows; i++)
    if (!Number.isNaN(c.values[i]!))
      out.push({
        unit: unit(i),
        reel: reel(i),
        by: by(i),
        value: sign * toSI(c.values[i]! - m.zero, measured),
        row: i,
      });
  return out;
}
