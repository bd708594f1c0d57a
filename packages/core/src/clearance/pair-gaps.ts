import type { Scene } from "../scene.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { bodiesClear } from "./bodies.ts";
import { filmClear } from "./film.ts";
import { liftingClear } from "./lifting.ts";
import type { Spot } from "./place.ts";
import { pocketClear } from "./pocket.ts";
import { type Clearance, type ClearanceId, placeOf } from "./room.ts";
import { tapeClear } from "./tape.ts";

/** The clearance checks, in reading order. */
export const clearancesInOrder: readonly Clearance[] = [pocketClear, tapeClear, filmClear, bodiesClear, liftingClear];

/** One pair that is not meant to touch, every number as written and every unknown at its median. Plain data, SI. */
export interface PairGap {
  readonly check: ClearanceId;
  readonly a: string;
  readonly b: string;
  /** m; negative is the depth of an overlap. */
  readonly gap: number;
  readonly wanted: number;
  /** Where it stands, in numbers and in words. */
  readonly spot: Spot;
  readonly place: string;
}
/** A pair whose gap has no answer, and why. */
export interface PairWithout {
  readonly check: ClearanceId;
  readonly a: string;
  readonly b: string;
  readonly trouble: string;
}

/** Every pair of a scene that is not meant to touch, by check; in each the one with least room first, those without an answer last. */
export function pairGaps(scene: Scene): readonly (PairGap | PairWithout)[] {
  return clearancesInOrder.flatMap(({ id, pairs }) => {
    const all = pairs(scene).map((pair): PairGap | PairWithout => {
      const names = { check: id, a: pair.a.says, b: pair.b.says };
      try {
        const { gap, spot } = pair.nearest(scene);
        const wanted = new Realiser(scene, [pair.wanted]).run(asWritten).number(pair.wanted);
        return { ...names, gap, wanted, spot, place: placeOf(scene, pair) };
      } catch (e) {
        if (!(e instanceof RangeError)) throw e;
        return { ...names, trouble: e.message };
      }
    });
    const room = (one: PairGap | PairWithout): number =>
      "trouble" in one ? Number.POSITIVE_INFINITY : one.gap - one.wanted;
    return all.sort((p, q) => room(p) - room(q) || 0);
  });
}
