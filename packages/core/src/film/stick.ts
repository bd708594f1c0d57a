import { gripFace } from "../nip/grip.ts";
import type { Check } from "../quantity/check.ts";
import { model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { notLedToNip } from "./friction.ts";
import { filmD } from "./laminate.ts";

/**
 * Does a seal track that touches a roller carry the film round?
 *
 *     o   = 2 max(0, min(w_t, f/2 + e_w - (b/2 - s - w_t)))    overlap of the gripped band with both tracks, m
 *     g_r = D b (1/R - k_0)^2/2                                energy that straightening frees per length, J/m
 *     g_t = G_t o                                              energy that lifting the tracks costs per length, J/m
 *
 * f gripped width, m; e_w wander of the film, m; b its width, m; s edge to track, m; w_t width of a track, m; D bending stiffness per
 * width, N m; R the greater roller's radius, m, 2e-3 .. 15e-3; k_0 curvature the film keeps from the peel edge, 1/m, + towards the
 * roller, -150 .. 150; G_t energy to lift a peeled seal off again, J/m2 (0.01 .. 1 heat activated, 5 .. 100 pressure sensitive; memory).
 *
 * Energy balance; the film leaves by itself while g_r >= g_t. A flat film has k_0 = 0. A curl beyond 1/R towards the roller is outside
 * range: the film then lies on the roller without any tack.
 */
const origin = {
  cite: "energy balance of a bent strip on an adhesive cylinder (form of Obreimoff)",
  how: "derived",
} as const;

export const trackOverlap = model({
  id: "film.track-overlap",
  symbol: "o",
  unit: "m",
  title: "width of seal track under the gripped band, both tracks",
  equation: "2*max(0, min(w_t, f/2 + e_w - (b/2 - s - w_t)))",
  form: "closed",
  origin: { cite: "geometry across the film", how: "derived" },
  reads: (scene) => {
    const f = gripFace(scene);
    const { film } = scene.tape;
    return f && { w_t: film.track, f, e_w: scene.requirement.assume["film wander"], b: film.width, s: film.inset };
  },
  value: ({ w_t, f, e_w, b, s }) => 2 * Math.max(0, Math.min(w_t, f / 2 + e_w - (b / 2 - s - w_t))),
});
const rollerRadius = model({
  id: "nip.greater-radius",
  symbol: "R",
  unit: "m",
  title: "radius of the greater roller",
  equation: "max(r_1, r_2)",
  form: "closed",
  origin: { cite: "unit file", how: "read" },
  reads: ({ unit }) => {
    const r = unit.nip?.rollers?.radius;
    return r && { r_1: r[0]!, r_2: r[1] ?? r[0]! };
  },
  value: ({ r_1, r_2 }) => Math.max(r_1, r_2),
});
export const straightening = model({
  id: "film.straightening",
  symbol: "g_r",
  unit: "J/m",
  shownIn: "mJ/m",
  title: "energy per length that straightening frees",
  equation: "D*b*(1/R - k_0)^2/2",
  form: "closed",
  origin,
  valid: { R: [2e-3, 15e-3], k_0: [-150, 150] },
  reads: ({ unit, tape: { film } }) =>
    unit.nip?.rollers ? { D: filmD, b: film.width, R: rollerRadius, k_0: film.curl } : undefined,
  value: ({ D, b, R, k_0 }) => (D * b * (1 / R - k_0) ** 2) / 2,
});
export const tackEnergy = model({
  id: "film.tack-energy",
  symbol: "g_t",
  unit: "J/m",
  shownIn: "mJ/m",
  title: "energy per length that lifting the tracks costs",
  equation: "G_t*o",
  form: "closed",
  origin,
  reads: ({ tape: { film } }): { G_t: Quantity; o: Quantity } => ({ G_t: film.tack, o: trackOverlap }),
  value: ({ G_t, o }) => G_t * o,
});
/** Energy of re-tack per area at which a flat film is just carried round: D b/(2 R^2 o). */
export const criticalTack = ({
  D,
  b,
  R,
  o,
  k_0 = 0,
}: {
  D: number;
  b: number;
  R: number;
  o: number;
  k_0?: number;
}): number => (D * b * (1 / R - k_0) ** 2) / (2 * o);

export const checkStick: Check = {
  id: "film.stick",
  station: 7,
  severity: "S",
  status: "judgement",
  title: "the seal tracks don't carry the film round a roller",
  value: straightening,
  atLeast: tackEnergy,
  absent: (scene: Scene) => notLedToNip(scene) ?? (gripFace(scene) ? undefined : "the unit has no nip rollers"),
  because: (say) =>
    `${say(trackOverlap)} of seal track touch a roller and hold with ${say(tackEnergy)} per length; the film's own stiffness frees ${say(straightening)}.`,
  beside: () => [trackOverlap],
};
