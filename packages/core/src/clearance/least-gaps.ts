import type { Scene } from "../scene.ts";
import { pairGaps } from "./pair-gaps.ts";
import type { Spot } from "./place.ts";
import type { ClearanceId } from "./room.ts";

/** A pair of things that must keep clear of each other: where it comes nearest over several tapes. Plain data, SI. */
export interface LeastGap {
  readonly check: ClearanceId;
  readonly a: string;
  readonly b: string;
  /** m; negative is the depth of an overlap. */
  readonly gap: number;
  readonly wanted: number;
  /** Where it stands, in numbers and in words, and on which tape. */
  readonly spot: Spot;
  readonly place: string;
  readonly tape: string;
}
/** A pair that has no gap to show on any of the tapes, and why. */
export interface NoGap {
  readonly check: ClearanceId;
  readonly a: string;
  readonly b: string;
  readonly trouble: string;
}
export interface LeastGaps {
  /** The pair with least room first. */
  readonly pairs: readonly LeastGap[];
  readonly without: readonly NoGap[];
}

/** Every pair of a unit over its tapes: the tape on which it has least room. As written, unknowns at their medians. */
export function leastGaps(on: Iterable<{ readonly tape: string; readonly scene: Scene }>): LeastGaps {
  const found = new Map<string, LeastGap>();
  const without = new Map<string, NoGap>();
  for (const { tape, scene } of on)
    for (const one of pairGaps(scene)) {
      const key = JSON.stringify([one.check, one.a, one.b]);
      if ("trouble" in one) {
        without.set(key, one);
        continue;
      }
      const before = found.get(key);
      if (before && before.gap - before.wanted <= one.gap - one.wanted) continue;
      found.set(key, { ...one, tape });
    }
  const name = ({ a, b }: LeastGap): string => `${a} / ${b}`;
  return {
    pairs: [...found.values()].sort(
      (p, q) => p.gap - p.wanted - (q.gap - q.wanted) || (name(p) < name(q) ? -1 : name(p) > name(q) ? 1 : 0),
    ),
    without: [...without].flatMap(([key, one]) => (found.has(key) ? [] : [one])),
  };
}
