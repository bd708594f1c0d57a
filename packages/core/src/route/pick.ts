import type { Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import type { Unit } from "../unit/unit.ts";
import { markPosition } from "./pose.ts";

const picks = new WeakMap<Unit["tape"], Quantity | null>();
/** Place of the mark "pick" along the tape; made once a unit, so that it stays one quantity for all that read it. Undefined without the mark. */
export function pickOf({ unit }: Scene): Quantity | undefined {
  const known = picks.get(unit.tape);
  if (known !== undefined) return known ?? undefined;
  const made = markPosition(unit.tape, "pick", "route");
  picks.set(unit.tape, made ?? null);
  return made;
}
