import { materialFigure, materialNamed } from "../material/catalogue.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { straightRate, straightRateText, widthsOf } from "../spring/arms.ts";
import { noLeaf, leafRate as rateOfBeam } from "../spring/held.ts";
import { holdDownOf } from "./members.ts";

/**
 * Force of the leaf on the tape that is on the reel.
 *
 *     F = max(0, F_0 + k (T - T_b))           force on the served tape, N
 *     k = dF/dx of the leaf at F_0            spring/held.ts, or where its material is not known
 *     k = E b t^3/(4 L^3)                     a straight narrow cantilever, N/m; with a window as in spring/arms.ts
 *
 * F_0 force on the tape that the unit is built for, N; T_b that tape's thickness, T the served tape's, m; E modulus, Pa; b, t, L width, thickness and
 * free length of the leaf, m. Only the change of force from tape to tape goes through k; the drawing sets F_0. The cantilever is fair to 4 % up to
 * a stroke of L/5: a wide leaf is up to 10 % stiffer, one that is pressed far stiffer still.
 */
const springSteel = materialFigure(materialNamed("spring steel")!, "E")!;
/** Modulus of the leaf by the words for its material: spring steel where they name nothing we know. */
export function leafModulus(scene: Scene): Quantity {
  const word = holdDownOf(scene)?.material;
  const named = word === undefined ? undefined : materialNamed(word);
  return (named && materialFigure(named, "E")) ?? springSteel;
}
export const leafRate = model({
  id: "hold.rate",
  symbol: "k",
  unit: "N/m",
  title: "rate of the leaf at its nose, as a cantilever",
  equation: straightRateText,
  form: "closed",
  origin: { cite: "cantilever", how: "derived" },
  valid: { t: [0.02e-3, 3e-3], L: [3e-3, 0.2] },
  reads: (scene) => {
    const held = holdDownOf(scene);
    const L = held?.["free length"];
    const widths = widthsOf(scene);
    return widths && held?.thickness && L && { E: leafModulus(scene), t: held.thickness, L, ...widths };
  },
  value: straightRate,
});
/** Rate of the leaf about its preload: of the exact beam, else of a cantilever; undefined where its size is not given. */
export function rateOf(scene: Scene): Model | undefined {
  if (noLeaf(scene) === undefined) return rateOfBeam;
  return leafRate.reads(scene) && leafRate;
}
const moved = model({
  id: "hold.force",
  symbol: "F",
  unit: "N",
  title: "force of the leaf on this tape",
  equation: "max(0, F_0 + k*(T - T_b))",
  form: "closed",
  origin: { cite: "spring about its working point", how: "derived" },
  reads: (scene) => {
    const F_0 = holdDownOf(scene)?.preload;
    const T_b = scene.unit.letters.T;
    const k = rateOf(scene);
    return F_0 && T_b && k && { F_0, k, T: scene.tape.letters.T, T_b };
  },
  value: ({ F_0, k, T, T_b }) => Math.max(0, F_0 + k * (T - T_b)),
});
const given = model({
  id: "hold.given-force",
  symbol: "F",
  unit: "N",
  title: "force of the leaf, as the file gives it for every tape",
  equation: "F_0",
  form: "closed",
  origin: { cite: "the unit file; the leaf's size is not given", how: "judgement" },
  reads: (scene) => {
    const F_0 = holdDownOf(scene)?.preload;
    return F_0 && { F_0 };
  },
  value: ({ F_0 }) => F_0,
});

export { moved as movedForce };

/** Force of the leaf; with the leaf's size it follows the tape's thickness. */
export const leafForce = (scene: Scene): Model => (moved.reads(scene) ? moved : given);
export const noLeafForce = (scene: Scene): string | undefined =>
  holdDownOf(scene)?.preload ? undefined : "the hold-down's force on the tape is not given";
/** Why nothing is known of how the leaf's force changes with its height. */
export const noLeafRate = (scene: Scene): string | undefined =>
  rateOf(scene) ? undefined : "thickness, width and free length of the leaf are not all given";
