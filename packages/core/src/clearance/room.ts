import { guideNames } from "../film/path.ts";
import { noLength } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { type Model, model } from "../quantity/model.ts";
import { showValue } from "../quantity/show.ts";
import type { Scene } from "../scene.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import type { Tape } from "../tape/tape.ts";
import type { Unit } from "../unit/unit.ts";
import { type Nearest, once, type Pair } from "./pair.ts";
import { spotInWords } from "./place.ts";

/**
 * A clearance check: every pair of one kind keeps the gap that is wanted of it.
 *
 *     c = min over pairs of g - g_w >= 0
 *
 * g gap of a pair, negative the depth of an overlap; g_w the gap that is wanted of it; m. What is meant to touch is no pair.
 */
export type ClearanceId = "clear.pocket" | "clear.tape" | "clear.film" | "clear.bodies" | "clear.lifting";
export interface Clearance {
  readonly id: ClearanceId;
  readonly check: Check;
  readonly room: Model;
  /** The pairs of a scene, the same objects for the same unit and tape; none where the check does not apply. */
  pairs(scene: Scene): readonly Pair[];
  /** The pair with least room as drawn; undefined where there is none or one of them has no answer. */
  worst(scene: Scene): Worst | undefined;
}
export interface Worst {
  readonly pair: Pair;
  readonly nearest: Nearest;
  readonly wanted: number;
}
interface Spec {
  readonly id: ClearanceId;
  readonly title: string;
  /** What is held clear, in a sentence: "the pocket". */
  readonly what: string;
  absent(scene: Scene): string | undefined;
  pairs(scene: Scene): readonly Pair[];
}

export function clearance({ id, title, what, absent, pairs: made }: Spec): Clearance {
  const pairs = perScene((scene) => (absent(scene) === undefined ? made(scene) : []));
  const room = model({
    id: `${id}-room`,
    symbol: "c",
    unit: "m",
    title: `room of ${what} beyond the wanted gap, at the worst pair`,
    equation: "min over pairs of g - g_w",
    form: "solved",
    origin: { cite: "by definition of the check", how: "derived" },
    reads: (scene) => {
      const all = pairs(scene);
      return all.length === 0
        ? undefined
        : { pairs: all.map((pair) => ({ pair: pairInWords(pair), gap: pair.gap, wanted: pair.wanted })) };
    },
    value: ({ pairs: all }) =>
      all.reduce((least, { gap, wanted }) => Math.min(least, gap - wanted), Number.POSITIVE_INFINITY),
    where: ({ pairs: all }, scene) => {
      const worst = all.reduce((at, { gap, wanted }, i) => (gap - wanted < all[at]!.gap - all[at]!.wanted ? i : at), 0);
      const words = all[worst]!.pair;
      return scene ? `${words}, ${placeOf(scene, pairs(scene)[worst]!)}` : words;
    },
  });
  const worst = perScene((scene) => worstOf(scene, pairs(scene)));
  const check: Check = {
    id,
    station: 2,
    severity: "S",
    status: "established",
    title,
    value: room,
    atLeast: noLength,
    absent: (scene) =>
      absent(scene) ?? (pairs(scene).length === 0 ? "nothing stands near it that it must not touch" : undefined),
    because: (say, scene) => {
      const found = worst(scene);
      if (!found) return `At the worst pair ${say(room)} are left beyond what is wanted.`;
      const { gap } = found.nearest;
      const wanted = `${say(found.pair.wanted)} ${found.wanted === 0 ? "would do" : "are wanted"}`;
      return gap < 0
        ? `The worst pair overlaps by ${showValue(found.pair.gap, -gap)}; ${wanted}.`
        : `At the worst pair ${say(found.pair.gap)} are left; ${wanted}.`;
    },
  };
  return { id, check, room, pairs, worst };
}

export const pairInWords = ({ a, b }: Pair): string => `${a.says} against ${b.says}`;
export const placeOf = (scene: Scene, pair: Pair): string =>
  spotInWords(scene, pair.nearest(scene).spot, guideNames(scene));

/** The same for the same unit and tape: what stands where does not hang on what is asked of them. */
function perScene<V extends object | undefined>(make: (scene: Scene) => V): (scene: Scene) => V {
  const ofUnit = once((_: Unit) => new WeakMap<Tape, { readonly value: V }>());
  return (scene) => {
    const ofTape = ofUnit(scene.unit);
    const known = ofTape.get(scene.tape);
    if (known) return known.value;
    const value = make(scene);
    ofTape.set(scene.tape, { value });
    return value;
  };
}

function worstOf(scene: Scene, pairs: readonly Pair[]): Worst | undefined {
  if (pairs.length === 0) return undefined;
  const run = new Realiser(
    scene,
    pairs.flatMap(({ gap, wanted }) => [gap, wanted]),
  ).run(asWritten);
  const room = pairs.map(({ gap, wanted }) => run.number(gap) - run.number(wanted));
  if (!room.every(Number.isFinite)) return undefined;
  const pair = pairs[room.reduce((at, c, i) => (c < room[at]! ? i : at), 0)]!;
  return { pair, nearest: pair.nearest(scene), wanted: run.number(pair.wanted) };
}
