import { neededForce } from "../hold-down/down.ts";
import { leafForce } from "../hold-down/leaf-force.ts";
import { materialFigure } from "../material/catalogue.ts";
import type { Check } from "../quantity/check.ts";
import { tabled } from "../quantity/given.ts";
import { model, type Quantity } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import type { Scene } from "../scene.ts";
import { leafMaterial, noLeaf } from "./held.ts";

/**
 * Does the leaf still hold the tape down after a thousand hours?
 *
 *     q   = (t/t_1)^(-n)                   share of the force left, of that after an hour
 *     F_t = q F >= F_n                     what the tape needs
 *
 * F force on the tape, F_n what holds it flat, N; t time under load, 1000 h; t_1 1 h; n relaxation exponent: from creep moduli at 1 h and 1000 h it is
 * 0.0212 for a PC and 0.0592 for a conditioned polyamide (data sheets, read); no curve of 1000 h was found for printed PLA, PETG, ABS, ASA or PA12,
 * 0.03 .. 0.10 from memory; steel strip loses less than 3 %, n below 0.0044.
 *
 * Force at a held deflection follows the modulus, E(t) D(t) = sin(n pi)/(n pi), 0.984 at n 0.1: below that n the power laws of creep and of relaxation
 * may be taken for one another. Linear up to about half of the strength; well below the glass transition: a preloaded leaf of PLA lets go above 40, of
 * PETG above 55 degC (20 K below it, judgement).
 */
const steady = tabled("catalogue/time of service", "t", "1000 h", [0, 0, 1, 0, 0], {
  cite: "the span over which creep is tabled",
  how: "judgement",
});
const hour = tabled("bound/one hour", "t_1", "1 h", [0, 0, 1, 0, 0], {
  cite: "by definition of the exponent",
  how: "derived",
});
/** Relaxation exponent of the leaf's material. */
function exponent(scene: Scene): Quantity | undefined {
  const named = leafMaterial(scene);
  if (!named) return undefined;
  return (
    materialFigure(named, "relaxation") ??
    scene.requirement.assume[named.material.kind === "steel" ? "steel relaxation" : "printed creep"]
  );
}
/** Relaxation modulus times creep compliance of a pure power law of exponent n: sin(n pi)/(n pi) (Ferry; memory, and derived). */
export const creepAndRelaxation = (n: number): number => (n === 0 ? 1 : Math.sin(n * Math.PI) / (n * Math.PI));
/** Exponent from a modulus at 1 h and another after some hours. */
export const exponentFrom = (atHour: number, later: number, hours: number): number =>
  Math.log(atHour / later) / Math.log(hours);
export const forceShare = model({
  id: "leaf.force-share",
  symbol: "q",
  unit: "1",
  title: "share of the leaf's force left after 1000 h",
  equation: "(t/t_1)^(-n)",
  form: "closed",
  origin: { cite: "power law of relaxation; ISO 899 creep moduli", how: "derived" },
  valid: { n: [0, 0.12] },
  reads: (scene) => {
    const n = exponent(scene);
    return n && { t: steady, t_1: hour, n };
  },
  value: ({ t, t_1, n }) => power(t / t_1, -n),
});
export const forceLeft = model({
  id: "leaf.force-left",
  symbol: "F_t",
  unit: "N",
  title: "force of the leaf left after 1000 h",
  equation: "q*F",
  form: "closed",
  origin: { cite: "relaxation at a held deflection", how: "derived" },
  reads: (scene) =>
    exponent(scene) && leafForce(scene).reads(scene) ? { q: forceShare, F: leafForce(scene) } : undefined,
  value: ({ q, F }) => q * F,
});
export const checkLeafRelaxes: Check = {
  id: "leaf.relaxes",
  station: 3,
  severity: "L",
  status: "judgement",
  title: "the leaf holds the tape down after 1000 hours",
  value: forceLeft,
  atLeast: neededForce,
  absent: (scene) =>
    noLeaf(scene) ??
    (neededForce.reads(scene)
      ? undefined
      : "what the tape needs to lie flat is not known: span or sprocket is missing"),
  because: (say) =>
    `After 1000 hours the leaf presses with ${say(forceLeft)}, ${say(forceShare)} of what it did; the tape needs ${say(neededForce)}.`,
  beside: () => [forceShare],
};
