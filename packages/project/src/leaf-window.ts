import { asWritten, isPlace, Realiser, type Scene, type Unit } from "@tapeworthy/core";
import type { ProjectError } from "./error.ts";
import type { SourceFile } from "./source.ts";

/**
 * A window is cut from the leaf it is in. Where the file says how wide the whole leaf is, the window must leave two arms:
 *
 *     o_y < b_g,  and with the arms' width given too  o_y + b <= b_g
 *
 * o_y window across, b_g whole leaf, b both arms together, at their nominal values.
 */
export function checkLeafWindow(
  { "hold-down": held }: Unit,
  scene: Scene,
  where: string,
  source: SourceFile,
  errors: ProjectError[],
): void {
  const whole = held?.["outside width"];
  const across = held?.opening?.y;
  if (held?.kind !== "leaf" || !whole || !across || !isPlace(across.origin)) return;
  const arms = held.width;
  const run = new Realiser(scene, [whole, across, ...(arms ? [arms] : [])]).run(asWritten);
  const [b_g, o_y] = [run.number(whole), run.number(across)];
  const b = arms ? run.number(arms) : 0;
  if (arms ? o_y + b <= b_g * (1 + 1e-9) : o_y < b_g) return;
  const leaf = `in a leaf of ${inMm(b_g)}${arms ? ` whose arms take ${inMm(b)}` : ""}`;
  errors.push(
    source.error(
      across.origin,
      `a window of ${inMm(o_y)} ${leaf}${where}`,
      "a window that leaves two arms of the leaf beside it",
      'Narrow it, or give the leaf a greater "outside width".',
    ),
  );
}
/** As a file would write it. */
const inMm = (v: number): string => `${+(v * 1e3).toPrecision(6)} mm`;
