import { type Given, tabled } from "../quantity/given.ts";
import type { Unit } from "../unit/unit.ts";
import type { UnitData } from "../unit/unit-fields.ts";
import type { Body } from "./body.ts";

/**
 * Which gap a pair should keep, and which pairs are meant to touch, as a unit file says it: "tape pocket / board: 1.0 mm".
 *
 * Either side of a pair is a name or a part. Names come before parts, parts before `default`; of two lines that fit alike the first
 * counts. A file that wants nothing is held to no contact at all.
 */
export interface Party {
  /** As a sentence calls it: "the board". */
  readonly says: string;
  readonly names: readonly string[];
  readonly parts: readonly string[];
}
export const pocketParty: Party = { says: "pocket", names: ["tape pocket", "pocket"], parts: [] };
export const tapeParty: Party = { says: "tape", names: ["tape"], parts: [] };
export const filmParty: Party = { says: "film", names: ["film"], parts: [] };
/** The wheel's disc, which is a number of the sprocket and no body. */
export const discParty: Party = { says: "wheel's disc", names: ["disc"], parts: ["wheel", "sprocket"] };
export const bodyParty = ({ name, part }: Body): Party => ({
  says: name,
  names: [name],
  parts: part === undefined ? [] : [part],
});

/** Members of a unit that tape and film are meant to touch and that are no bodies: no check holds them against anything here. */
const members = ["guide", "ledge", "lips", "groove", "hold-down", "opener", "nip"] as const;
type Standing = Pick<UnitData, "bodies" | "keep out" | "film">;
const words = (parties: readonly Party[]): string[] => parties.flatMap(({ names, parts }) => [...names, ...parts]);
/** Every word that a wanted gap may be given for. */
export const wordsOfGaps = (unit: Pick<Standing, "bodies" | "keep out">): string[] => [
  ...new Set([
    ...words([pocketParty, tapeParty, filmParty, discParty]),
    ...[...(unit.bodies ?? []), ...(unit["keep out"] ?? [])].flatMap(({ name, part }) =>
      part === undefined ? [name] : [name, part],
    ),
  ]),
];
/** Every word that may stand under "meant to touch". */
export const wordsOfContacts = (unit: Standing): string[] => [
  ...new Set([...wordsOfGaps(unit), ...members, ...(unit.film.guides ?? []).map(({ name }) => name)]),
];

/** Both sides of "film / nip"; undefined where a text is no pair. */
export function sidesOf(pair: string): readonly [string, string] | undefined {
  const sides = pair.split("/").map((side) => side.trim());
  return sides.length === 2 && sides[0] !== "" && sides[1] !== "" ? [sides[0]!, sides[1]!] : undefined;
}

/** 0 for a name, 1 for a part, undefined for neither. */
const rank = (party: Party, word: string): number | undefined =>
  party.names.includes(word) ? 0 : party.parts.includes(word) ? 1 : undefined;
/** How well a line fits a pair: 0 both by name, 2 both by part; undefined where it does not. */
function fits(pair: string, a: Party, b: Party): number | undefined {
  const sides = sidesOf(pair);
  if (!sides) return undefined;
  const ranks = [sides, [sides[1], sides[0]] as const].flatMap(([p, q]) => {
    const [one, other] = [rank(a, p), rank(b, q)];
    return one === undefined || other === undefined ? [] : [one + other];
  });
  return ranks.length === 0 ? undefined : Math.min(...ranks);
}

const nothingWanted = tabled("clearance/no gap wanted", "g_w", "0 mm", [1, 0, 0, 0, 0], {
  cite: "the unit file wants no gap: what is not meant to touch must not touch",
  how: "derived",
});
/** The gap a pair should keep. */
export function wantedGap({ clearances }: Pick<Unit, "clearances">, a: Party, b: Party): Given {
  let best: { readonly fit: number; readonly gap: Given } | undefined;
  for (const [pair, gap] of Object.entries(clearances ?? {})) {
    const fit = fits(pair, a, b);
    if (fit !== undefined && (!best || fit < best.fit)) best = { fit, gap };
  }
  return best?.gap ?? clearances?.default ?? nothingWanted;
}
export const isMeantToTouch = (unit: Pick<Unit, "meant to touch">, a: Party, b: Party): boolean =>
  (unit["meant to touch"] ?? []).some((pair) => fits(pair, a, b) !== undefined);
