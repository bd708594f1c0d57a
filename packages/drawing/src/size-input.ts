import { checkNamed, type DimensionWindow, type FrontStep, type SizingResult } from "@tapeworthy/core";
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
/** What the least gap of a sizing means, wherever it is told. */
export const leastGapMeans =
  "At 0 and above, the checks that these dimensions move hold together on each wanted tape in at least 95 % of belief.";

/**
 * What each move buys, with the least gap at both ends as full draws have it: those that are told as before and after. Between them it is by quick
 * gaps, which are exact about the place that was found and may be off by a tenth or two of a standard deviation far from it.
 */
export function movesBought({ front, before, after }: Pick<SizingResult, "front" | "before" | "after">): FrontStep[] {
  return front.map((step, i) =>
    i === 0 ? { ...step, least: before.least } : i === front.length - 1 ? { ...step, least: after.least } : step,
  );
}
/** The moves of a sizing as a stair, then moves that buy none. */
export function sizeFrontInput(result: SizingResult): SizeFrontInput {
  const { unit, dimensions } = result;
  const front = movesBought(result);
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
