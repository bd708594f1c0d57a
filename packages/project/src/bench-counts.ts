import type { UnitCount } from "@tapeworthy/core";
import type { Trial } from "./log/trial.ts";

/** Cycles counted on the built units of one design, over all its trials. */
export interface BenchCounts {
  /** One a built unit, by name; cycles without a name are taken for one unit. */
  readonly units: readonly (UnitCount & { readonly name: string })[];
  readonly reels: number;
  readonly trials: readonly string[];
  readonly tapes: readonly string[];
}
/** Counts that were not set aside, of trials that still stand for the design. */
export function benchCounts(
  trials: Iterable<Trial>,
  unit: string,
  retired: ReadonlySet<string>,
): BenchCounts | undefined {
  const units = new Map<string, { failed: number; run: number }>();
  const reels = new Set<string>();
  const names = new Set<string>();
  const tapes = new Set<string>();
  for (const trial of trials) {
    if (trial.unit !== unit || retired.has(trial.name)) continue;
    for (const c of trial.counts) {
      if (c.setAside !== undefined || c.indexes === 0) continue;
      const name = c.unit ?? "";
      const before = units.get(name) ?? { failed: 0, run: 0 };
      units.set(name, { failed: before.failed + c.misfeeds, run: before.run + c.indexes });
      // A reel of one tape is no reel of another.
      reels.add(`${trial.tape}/${c.reel ?? ""}`);
      names.add(trial.name);
      tapes.add(trial.tape);
    }
  }
  if (units.size === 0) return undefined;
  return {
    units: [...units].map(([name, count]) => ({ name, ...count })),
    reels: reels.size,
    trials: [...names],
    tapes: [...tapes],
  };
}
