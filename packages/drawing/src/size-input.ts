import { checkNamed, type DimensionWindow, type SizingResult } from "@tapeworthy/core";
import { sayAddress, shortName } from "./say.ts";
import type { SizeFrontInput } from "./size-front.ts";
import type { SizeRow, SizeRowsInput } from "./size-rows.ts";

/** A free dimension as its row takes it: bounds are distances from what is drawn, SI. */
export interface SizedRowOf {
  readonly path: string;
  readonly symbol: string;
  readonly shownIn: string;
  readonly least: number;
  readonly most: number;
  readonly drawn: readonly { readonly W: number; readonly value: number }[];
}

const gapIn = "sd";

/** Free dimensions where a hand or the search has put them, each over its bounds at the first width that has it. */
export function sizeRowsInput(
  unit: string,
  dimensions: readonly SizedRowOf[],
  at: readonly number[],
  windows: readonly DimensionWindow[],
): SizeRowsInput {
  return {
    unit,
    gapIn,
    rows: dimensions.map((d, i): SizeRow => {
      const from = d.drawn[0]!.value;
      const window = windows[i];
      const x = at[i] ?? 0;
      const runs = window?.runs ?? [];
      const run = runs.find((r) => x >= r.from - 1e-12 && x <= r.to + 1e-12) ?? runs[0];
      const end = (one: { readonly tape: string; readonly check: string } | undefined) =>
        one && { tape: one.tape, check: shortName(one.check) };
      const [below, above] = [end(run?.below), end(run?.above)];
      const stations = (run?.below ?? run?.above)?.check;
      const station = stations === undefined ? undefined : checkNamed(stations)?.station;
      const several = d.drawn.length > 1 && d.drawn.some(({ value }) => value !== from);
      return {
        address: d.path,
        name: sayAddress(`${unit}/${d.path}`),
        note: several ? `${d.symbol}, as at ${d.drawn[0]!.W} mm` : d.symbol,
        ...(station === undefined ? {} : { station }),
        shownIn: d.shownIn,
        least: from + d.least,
        most: from + d.most,
        was: from,
        now: from + x,
        curve: window ? Array.from(window.at, (v, k) => ({ at: from + v, gap: window.least[k]! })) : [],
        window: run ? { from: from + run.from, to: from + run.to } : null,
        ...(below || above ? { ends: { ...(below ? { from: below } : {}), ...(above ? { to: above } : {}) } } : {}),
      };
    }),
  };
}
/** What each move of a sizing buys, and moves that buy none. */
export function sizeFrontInput({ unit, front, dimensions }: SizingResult): SizeFrontInput {
  const name = (path: string): string => sayAddress(`${unit}/${path}`);
  const last = front.at(-1);
  const idle = dimensions.filter((d) => d.by === 0 && d.idle !== undefined);
  return {
    unit,
    gapIn,
    moves: [
      ...front.map(({ path, open, least }) => ({
        key: path ?? "as drawn",
        name: path === undefined ? "as drawn" : name(path),
        open,
        leastGap: least,
      })),
      ...(last ? idle.map(({ path }) => ({ key: path, name: name(path), open: last.open, leastGap: last.least })) : []),
    ],
    made: front.length - 1,
  };
}
/** Smallest step of a hand on a dimension: a hundredth of its bounds, no finer than it is written. */
export const sizeStep = ({ least, most }: SizedRowOf, grain: number): number => Math.max(grain, (most - least) / 200);
