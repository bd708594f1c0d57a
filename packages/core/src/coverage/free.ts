import { sameDimension } from "../quantity/dimension.ts";
import type { Given } from "../quantity/given.ts";
import { nearest } from "../quantity/nearest.ts";
import { showIn } from "../quantity/show.ts";
import { unitOf } from "../quantity/units.ts";
import type { Scene } from "../scene.ts";
import { grain } from "./cure.ts";
import { type Lever, leversOf } from "./levers.ts";

/**
 * A dimension of a unit that sizing may move, by one distance at all widths of the family. Plain data, SI.
 *
 * Marked by its path in the unit's file and bounds between which its value has to stay at every width: so the distance has the bounds that all
 * widths leave it. Several numbers that go together ("part nip, x") have bounds of their distance. A width that has a value of its own under
 * `per width` is not moved by it; that value is a dimension too, at the path it stands at ("per width.24.nip.preload").
 */
export interface Free {
  /** "nip.preload", or "part nip, x". */
  readonly path: string;
  readonly symbol: string;
  /** Addresses of the numbers that move. */
  readonly members: readonly string[];
  readonly unit: string;
  readonly shownIn: string;
  /** How far it may move, either way from what is drawn; the drawn place itself may lie outside. */
  readonly least: number;
  readonly most: number;
  /** Bounds as marked: of the value, or of the distance for several numbers that go together. By width where they follow its letters. */
  readonly bounds: readonly { readonly W: number; readonly low: number; readonly high: number }[];
  /** Its value as drawn, by nominal width of the variants that have it. */
  readonly drawn: readonly { readonly W: number; readonly value: number }[];
  /** Smallest step it is written in. */
  readonly grain: number;
}
/** Why a mark cannot be taken: what was found, what is wanted, the way out. */
export interface FreeFault {
  /** What of the mark is at fault. */
  readonly of: "path" | "bounds";
  readonly found: string;
  readonly expected: string;
  readonly hint?: string;
}
export const isFault = (free: Free | FreeFault): free is FreeFault => "found" in free;

export interface FreeMark {
  readonly path: string;
  /** Unit the bounds were written in, where they were written with one. */
  readonly unit?: string;
  /** Bounds at a variant, SI. */
  bounds(scene: Scene): readonly [low: number, high: number];
}

/** What a mark means for the variants of a unit; the fault where it cannot be taken. */
export function freeOf(scenes: readonly Scene[], mark: FreeMark): Free | FreeFault {
  const { path } = mark;
  const seen: { readonly scene: Scene; readonly lever: Lever }[] = [];
  for (const scene of onePerWidth(scenes)) {
    const lever = leversOf(scene).find(({ address }) => pathOf(address) === path);
    if (lever) seen.push({ scene, lever });
  }
  const [first] = seen;
  if (!first) return notALever(scenes, path);
  const { unit, shownIn, symbol } = first.lever;
  const together = first.lever.members.length > 1;
  const show = (v: number): string => showBare(shownIn, v);
  const range = (low: number, high: number): string => `${show(low)}..${show(high)}${shownIn && ` ${shownIn}`}`;
  if (mark.unit !== undefined && !sameDimension(unitOf(mark.unit).dimension, unitOf(unit).dimension))
    return {
      of: "bounds",
      found: mark.unit === "" ? "bounds without a unit" : `bounds in ${mark.unit}`,
      expected: shownIn === "" ? "bounds without a unit" : `bounds in ${shownIn}`,
      hint: `For example "${path}: ${range(...wayOut(first.lever, together ? 0 : first.lever.from))}".`,
    };
  const bounds = seen.map(({ scene }) => {
    const [low, high] = mark.bounds(scene);
    return { W: scene.unit.row, low, high };
  });
  let least = Number.NEGATIVE_INFINITY;
  let most = Number.POSITIVE_INFINITY;
  for (const [i, { lever }] of seen.entries()) {
    const { low, high, W } = bounds[i]!;
    const zero = together ? 0 : lever.from;
    if (!(low < high)) {
      const found =
        low === high ? `bounds of no width, ${range(low, high)}` : `bounds the wrong way round, ${range(low, high)}`;
      return {
        of: "bounds",
        found,
        expected: "a lower bound and a higher one",
        hint: `Write "${path}: ${range(...wayOut(lever, zero))}".`,
      };
    }
    const dust = 1e-9 * (Math.abs(lever.most) + Math.abs(lever.least));
    if (low - zero < lever.least - dust || high - zero > lever.most + dust)
      return {
        of: "bounds",
        found: range(low, high),
        expected: `bounds within ${range(zero + lever.least, zero + lever.most)}`,
        hint: `"${path}" is ${show(lever.from)}${shownIn && ` ${shownIn}`} as drawn${seen.length > 1 ? ` at ${W} mm` : ""}.`,
      };
    least = Math.max(least, low - zero);
    most = Math.min(most, high - zero);
  }
  if (!(least < most)) {
    const values = seen.map(({ lever }) => lever.from);
    return {
      of: "bounds",
      found: range(bounds[0]!.low, bounds[0]!.high),
      expected: "bounds that leave one distance at all widths",
      hint: `"${path}" runs from ${show(Math.min(...values))} to ${show(Math.max(...values))}${shownIn && ` ${shownIn}`} over the widths and moves by one distance. Bounds may follow the letters: [T + 0.2 mm, T + 0.6 mm].`,
    };
  }
  return {
    path,
    symbol,
    members: [...new Set(seen.flatMap(({ lever }) => lever.members))],
    unit,
    shownIn,
    least,
    most,
    bounds: bounds.every(({ low, high }) => low === bounds[0]!.low && high === bounds[0]!.high) ? [bounds[0]!] : bounds,
    drawn: seen.map(({ scene, lever }) => ({ W: scene.unit.row, value: lever.from })),
    grain: fineness(first.lever, most - least),
  };
}
/** Lengths are written to 0.05 mm, to 0.01 mm where the bounds are few such steps apart; other numbers to two figures. */
function fineness(lever: Lever, span: number): number {
  const step = grain(lever);
  return lever.unit === "m" && span < 40 * step ? step / 5 : step;
}
/** Twice and half of what is drawn, within what the schema allows: an example. */
function wayOut(lever: Lever, zero: number): [number, number] {
  const far = Math.max(Math.abs(lever.from) / 2, grain(lever) * 5);
  return [zero + Math.max(lever.least, -far), zero + Math.min(lever.most, far)];
}
/** A number in its unit without the unit, as a file has it. */
const showBare = (shownIn: string, v: number): string => `${+(v / unitOf(shownIn).factor).toPrecision(6)}`;
export const pathOf = (address: string): string => address.slice(address.indexOf("/") + 1);
const onePerWidth = (scenes: readonly Scene[]): Scene[] => [...new Map(scenes.map((s) => [s.unit.row, s])).values()];

/** Why nothing at that path can be moved. */
function notALever(scenes: readonly Scene[], path: string): FreeFault {
  const of = "path" as const;
  const expected = "a number of this file that sizing may move";
  const [scene] = scenes;
  const levers = scene ? leversOf(scene) : [];
  const letter = path.replace(/^built for\.\d+\./, "");
  if (scene && Object.hasOwn(scene.unit.letters ?? {}, letter))
    return {
      of,
      found: `"${path}", a letter of the tape`,
      expected,
      hint: "A tape is as it is. Free the number of the unit that follows it, as tape.section.groove.depth.",
    };
  const given = scenes.flatMap(({ unit }) => [...unit.givens.values()]).find(({ address }) => pathOf(address) === path);
  if (!given) {
    const near = nearest(
      path,
      levers.map(({ address }) => pathOf(address)),
    );
    return {
      of,
      found: `"${path}"`,
      expected,
      hint: near ? `Did you mean "${near}"?` : 'For example "nip.preload"; a part goes as a whole: "part nip, x".',
    };
  }
  if (given.unknown)
    return {
      of,
      found: `"${path}", a guess (${given.text})`,
      expected,
      hint: "What nobody knows yet is measured, not sized.",
    };
  const whole = levers.find(({ members }) => members.length > 1 && members.includes(given.address));
  if (whole)
    return {
      of,
      found: `"${path}", which moves with its part`,
      expected,
      hint: `Free "${pathOf(whole.address)}" by a distance.`,
    };
  const owner = scene && ownerOf(given, scene);
  if (owner && owner !== given)
    return {
      of,
      found: `"${path}", which only repeats "${given.text}"`,
      expected,
      hint: `Free "${pathOf(owner.address)}" instead.`,
    };
  return {
    of,
    found: `"${path}", which is asserted or fixed by what it stands for`,
    expected,
    hint: "Numbers that the standard, a data sheet or a person asserts stay as they are.",
  };
}
function ownerOf(given: Given, scene: Scene): Given {
  if (given.expression?.op !== "sym") return given;
  const named = given.reads(scene)[given.expression.name];
  return named?.kind === "given" && scene.unit.givens.get(named.address) === named ? ownerOf(named, scene) : given;
}
export const sayDistance = (free: Pick<Free, "shownIn">, by: number): string => showIn(free.shownIn, by);
