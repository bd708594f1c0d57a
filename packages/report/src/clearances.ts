import { pairGaps, type Scene } from "@tapeworthy/core";
import type { JudgedUnit } from "./report-input.ts";

/** A pair of things that must keep clear of each other: where it comes nearest over the wanted tapes of a unit. Lengths in m. */
export interface Clearance {
  readonly pair: string;
  readonly least: number;
  readonly wanted: number;
  readonly where: string;
  readonly tape: string;
}
/** A pair that has no gap to show on any tape, and why. */
export interface NoClearance {
  readonly pair: string;
  readonly trouble: string;
}

/** Every pair of a unit over its wanted tapes: the tape on which it has least room. As written, unknowns at their medians. */
export function clearancesOf(
  { unit, tapes }: JudgedUnit,
  sceneOf: (unit: string, tape: string) => Scene,
): { readonly pairs: readonly Clearance[]; readonly without: readonly NoClearance[] } {
  const found = new Map<string, Clearance>();
  const without = new Map<string, NoClearance>();
  for (const { tape } of tapes)
    for (const one of pairGaps(sceneOf(unit, tape))) {
      const pair = `${one.a} / ${one.b}`;
      const key = JSON.stringify([one.check, one.a, one.b]);
      if ("trouble" in one) {
        without.set(key, { pair, trouble: one.trouble });
        continue;
      }
      const before = found.get(key);
      if (before && before.least - before.wanted <= one.gap - one.wanted) continue;
      found.set(key, { pair, least: one.gap, wanted: one.wanted, where: one.place, tape });
    }
  return {
    pairs: [...found.values()].sort((a, b) => a.least - a.wanted - (b.least - b.wanted) || (a.pair < b.pair ? -1 : 1)),
    without: [...without].flatMap(([key, one]) => (found.has(key) ? [] : [one])),
  };
}
