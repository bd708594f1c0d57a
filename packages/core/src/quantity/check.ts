import type { Scene } from "../scene.ts";
import type { Model, Quantity } from "./model.ts";

/** S stops feeding or breaks · A enters the pick error · L shortens life · N annoys. Only S colours a cell. */
export type Severity = "S" | "A" | "L" | "N";
export type Station = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9;
export const stations: Readonly<Record<Station, string>> = {
  1: "entry",
  2: "groove",
  3: "hold-down",
  4: "peel",
  5: "pick",
  6: "sprocket",
  7: "nip",
  8: "drive",
  9: "supply",
};

/** Which quantity a scene holds a check against; undefined where it has no such bound. */
export type Choose<Q extends Quantity> = Q | ((scene: Scene) => Q | undefined);
export const chosen = <Q extends Quantity>(c: Choose<Q> | undefined, scene: Scene): Q | undefined =>
  typeof c === "function" ? c(scene) : c;

/**
 * A model held against a window. Bounds are quantities too: what value and bound share cancels in the gap between them.
 * A check whose value or only bound is missing in a scene is not applicable there, which is never a pass.
 */
export interface Check {
  readonly id: string;
  readonly station: Station;
  readonly severity: Severity;
  readonly status: "established" | "judgement";
  readonly title: string;
  readonly value: Choose<Model>;
  readonly atLeast?: Choose<Quantity>;
  readonly atMost?: Choose<Quantity>;
  /** It reads so much that its true quantiles are taken from a quarter of the scatter draws (study/allowance.ts). */
  readonly dear?: true;
  /** Why this check does not apply to the scene; undefined where it does. */
  absent(scene: Scene): string | undefined;
  /** The finding in a sentence a maker would say; `say` shows a quantity with two figures and its unit. */
  because(say: (q: Quantity) => string, scene: Scene): string;
  /** Further quantities worth seeing beside the value; they decide nothing. */
  readonly beside?: (scene: Scene) => readonly Quantity[];
}
