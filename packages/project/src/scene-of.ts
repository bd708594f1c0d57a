import type { Scene } from "@tapeworthy/core";
import type { Project } from "./project.ts";

/** The scene of a unit, cut for the tape's width, on a tape. Throws RangeError where the project has no such pair. */
export function sceneOf(
  { tapes, units, requirement }: Pick<Project, "tapes" | "units" | "requirement">,
  unit: string,
  tape: string,
): Scene {
  const served = tapes.get(tape)?.tape;
  const variant = served && units.get(unit)?.variants.get(served.row);
  if (!served || !variant) throw new RangeError(`no variant of ${unit} for ${tape}`);
  return { unit: variant, tape: served, requirement };
}
