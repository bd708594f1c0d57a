import { tabled } from "../quantity/given.ts";

/**
 * One number for a mesh: what is left of each of its conditions, in base pitches, the least of them.
 *
 *     q = min(eps_u - 1.1, j/p_b, c/p_b)
 *
 * eps_u usable contact ratio (`pair.ts`, `worm.ts`): the next pair of teeth must take over before the last lets go; j backlash, below 0 the
 * teeth jam; c root clearance; p_b base pitch. 1.1 is common practice for small gears (judgement); 1 is where the drive stutters.
 */
export interface Margins {
  readonly name: string;
  readonly usable: number;
  readonly contactRatio: number;
  readonly backlash: number;
  readonly clearance: number;
  readonly basePitch: number;
  readonly undercut: boolean;
}
export const leastRatio = tabled("bound/contact ratio", "eps_0", "1.1", [0, 0, 0, 0, 0], {
  cite: "common practice, no source",
  how: "judgement",
});
export const nothing = tabled("bound/no spare", "0", "0", [0, 0, 0, 0, 0], {
  cite: "by definition of the check",
  how: "derived",
});

const conditions = (m: Margins, least: number): [what: string, left: number][] => [
  [m.undercut && m.usable < m.contactRatio ? "contact, cut short by undercut" : "contact", m.usable - least],
  ["backlash", m.backlash / m.basePitch],
  ["room at the roots", m.clearance / m.basePitch],
];
export const spareOf = (m: Margins, least: number): number => Math.min(...conditions(m, least).map(([, left]) => left));
/** Which mesh, and what of it. */
export function worstOf(meshes: readonly Margins[], least: number): string {
  const all = meshes.flatMap((m) =>
    conditions(m, least).map(([what, left]) => ({ where: `${m.name}: ${what}`, left })),
  );
  return all.reduce((worst, one) => (one.left < worst.left ? one : worst)).where;
}
