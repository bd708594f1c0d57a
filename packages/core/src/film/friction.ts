import type { Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";

/**
 * Friction of this film on a material: what the tape file measured on it comes first, then what the unit file gives for that place,
 * then the class of the material, from memory. Undefined where nobody says anything.
 */
export function frictionOn(
  { tape }: Scene,
  material: string | undefined,
  fromUnit: Quantity | undefined,
): Quantity | undefined {
  const key = material?.toLowerCase();
  const measured = key === undefined ? undefined : tape.film.friction[key];
  if (measured) return measured;
  const without = fromUnit ?? (key === undefined ? undefined : tape.film.frictionOfClass[key]);
  const beside = key === undefined ? undefined : tape.film.frictionBeside?.[key];
  return without && beside ? beside(without) : without;
}
/** Friction on the bars and the peel edge. */
export const frictionOnBars = (scene: Scene): Quantity =>
  frictionOn(scene, scene.unit.film.material, scene.unit.film.friction) ?? scene.requirement.assume["film friction"];

/** Why the checks of the led film do not apply to a unit; undefined where they do. */
export function notLedToNip({ unit }: Scene): string | undefined {
  if (unit.film.opens !== "whole width") return `the film is opened as "${unit.film.opens}", not peeled off whole`;
  if (!unit.film.peel) return "the film has no peel line";
  if (!unit.film.guides?.some((g) => g.name === "nip")) return "the film is not led to a nip";
  return undefined;
}
