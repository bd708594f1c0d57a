import type { Scene } from "../scene.ts";

/**
 * Faces of rollers: which give way under the film (a soft nip) and which don't (a hard one).
 *
 * Rubber of 1 to 3 mm on a core gives 1 to 20 N/mm2 of line force per approach (memory). Two plastic rollers of 5 mm radius give 180 and more with a
 * film between (contact of cylinders, derived): a thousandth of a millimetre carries the whole force, so only how parallel they stand counts.
 */
const soft = ["nbr", "rubber", "silicone", "epdm", "polyurethane", "pu", "tpu", "fkm", "cork", "foam"] as const;
const hard = [
  "pom",
  "acetal",
  "petg",
  "pla",
  "abs",
  "asa",
  "pc",
  "pa",
  "pa12",
  "nylon",
  "ptfe",
  "steel",
  "brass",
  "aluminium",
  "glass",
] as const;
const starts = (words: readonly string[], material: string): boolean => {
  const first = material.toLowerCase().split(/[\s,;/-]+/)[0]!;
  return words.includes(first);
};
export const isSoft = (material: string): boolean => starts(soft, material);
const isKnown = (material: string): boolean => isSoft(material) || starts(hard, material);

/** How the rollers meet; undefined where a face's material says nothing of it. */
export function nipKind({ unit }: Scene): "soft" | "hard" | undefined {
  const rollers = unit.nip?.rollers;
  if (!rollers) return undefined;
  if (rollers["line stiffness"] || rollers.material.some(isSoft)) return "soft";
  return rollers.material.every(isKnown) ? "hard" : undefined;
}
export function noKind(scene: Scene): string | undefined {
  if (nipKind(scene)) return undefined;
  const rollers = scene.unit.nip?.rollers;
  if (!rollers) return "the nip's rollers are not given";
  const unknown = rollers.material.find((m) => !isKnown(m));
  return `nothing says whether a roller's face of "${unknown}" gives way under the film: give its line stiffness`;
}
