import type { Check } from "../quantity/check.ts";
import { movedText } from "../quantity/moved.ts";
import { unitOf } from "../quantity/units.ts";
import type { Scene } from "../scene.ts";
import type { Deviates } from "../study/deviates.ts";
import type { Steps } from "../study/steps.ts";
import { type Cure, curesOf, grain } from "./cure.ts";
import { pathOf } from "./free.ts";
import { leversOf } from "./levers.ts";

/** A dimension worth freeing, with bounds as a file would have them. */
export interface FreeProposal {
  readonly path: string;
  /** "3..9 N", or "[T + 0.2 mm, T + 0.6 mm]" where the number follows the letters. */
  readonly bounds: string;
  /** Whose levers they are the strongest of. */
  readonly because: readonly { readonly tape: string; readonly check: string }[];
}
export interface Stopped {
  readonly tape: string;
  readonly scene: Scene;
  /** Hard checks that do not feed, the first stopper first. */
  readonly first: readonly Check[];
}
/** Checks looked at of a tape, and levers of a check. */
const [ofTape, ofCheck] = [2, 2];

/**
 * Dimensions that matter, where nobody has freed any: of each tape that does not feed the strongest levers of what stops it first, with bounds that
 * reach from well on this side of what is drawn to as far again beyond where that check would be cured. One tape a step.
 */
export function* proposeFreeInSteps(
  stopped: readonly Stopped[],
  deviates: Deviates,
  weights: Float64Array,
): Steps<FreeProposal[]> {
  const found = new Map<
    string,
    { scene: Scene; from: number; to: number; because: { tape: string; check: string }[] }
  >();
  const asked = new Set<string>();
  for (const { tape, scene, first } of stopped) {
    for (const check of first.slice(0, ofTape)) {
      const key = `${check.id} ${scene.tape.row}`;
      // The same check at the same width has the same levers.
      if (asked.has(key)) continue;
      asked.add(key);
      const { cures, nearest } = curesOf(scene, check, deviates, weights, ofCheck);
      const list: readonly Cure[] = cures.length > 0 ? cures : nearest ? [nearest] : [];
      for (const { address, by } of list) {
        const path = pathOf(address);
        const one = found.get(path) ?? { scene, from: 0, to: 0, because: [] };
        one.from = Math.min(one.from, by);
        one.to = Math.max(one.to, by);
        one.because.push({ tape, check: check.id });
        found.set(path, one);
      }
      yield;
    }
  }
  return [...found].map(([path, { scene, from, to, because }]) => {
    const lever = leversOf(scene).find(({ address }) => pathOf(address) === path)!;
    const far = Math.max(to - from, 4 * grain(lever));
    const low = Math.max(lever.least, from - far);
    const high = Math.min(lever.most, to + far);
    const step = grain(lever);
    const [a, b] = [Math.ceil(low / step - 1e-6) * step, Math.floor(high / step + 1e-6) * step];
    const given = scene.unit.givens.get(lever.members[0]!)!;
    const follows = given.expression !== undefined && /[A-Za-z_]\w*\s*[-+*/)]|[-+*/(]\s*[A-Za-z_]/.test(given.text);
    const bare = (by: number): string => movedText({ ...given, text: withoutScatter(given.text) }, by);
    const { factor } = unitOf(lever.shownIn);
    const plain = (v: number): string => `${+(v / factor).toPrecision(6)}`;
    const zero = lever.members.length > 1 ? 0 : lever.from;
    const bounds =
      follows && lever.members.length === 1
        ? `[${quoted(bare(a))}, ${quoted(bare(b))}]`
        : `${plain(zero + a)}..${plain(zero + b)}${lever.shownIn && ` ${lever.shownIn}`}`;
    return { path, bounds, because };
  });
}
/** Text that may stand in a list of a file. */
const quoted = (text: string): string => (/[,[\]{}#:]/.test(text) ? `"${text}"` : text);
/** A bound has neither tolerance nor scatter. */
const withoutScatter = (text: string): string =>
  text
    .replace(/\s*±\s*[\d.]+/, "")
    .replace(/\s*[+-][\d.]+\/[+-][\d.]+/, "")
    .replace(/\s*(\bper\s+\w+\s+)?\bsd\s.*$/, "");
