import { notLedToNip } from "../film/friction.ts";
import { one } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { tabled } from "../quantity/given.ts";
import { type Model, model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { outsideWidth, windowInWords } from "../spring/arms.ts";
import { absentLeaf } from "./down.ts";
import { leafForce, noLeafRate, rateOf } from "./leaf-force.ts";
import { holdDownOf, notHeldBy } from "./members.ts";

/**
 * Does the hold-down stay on the tape while a splice passes?
 *
 *     x_f = F/k                     how far the leaf would follow the tape down, m
 *     x_s = t_s + m_l v^2/(2 F)     a splice under one of its press lines lifts the whole leaf by t_s; behind the step it hops no higher than that
 *     s_r = g_r - T                 room under a rib, m
 *     s_n = max(0, n_f - n_o) T_1 + t_s + c_r     what the films that are left, a splice and free running need of it, m
 *
 * F force on this tape, N, k rate at the nose, N/m; t_s splice, m; m_l = 0.24 rho b t L moving mass of the leaf, its window not taken off, kg; v speed of the tape, m/s; g_r
 * height between ledge and rib, T thickness, T_1 of a film, c_r running clearance, m; n_f films on the tape, n_o those led off before the wheel (1 where
 * the film is led to a nip: the wheel taken to stand behind the peel line, else 0).
 *
 * The hop is an upper bound: the step taken as a slope of 45 degrees, so the nose leaves it at v. For strip it is a few micrometres. A leaf that
 * is stiff against its force (x_f small) stands off beside a splice, and the tape can leave its teeth there.
 */
const stripDensity = tabled("catalogue/density of spring steel", "rho", "7900 kg/m^3", [-3, 1, 0, 0, 0], {
  cite: "spring steel, 7.9 g/cm3 (a plastic leaf is lighter: safe side)",
  how: "memory",
});
export const followed = model({
  id: "hold.follow",
  symbol: "x_f",
  unit: "m",
  title: "how far the leaf would follow the tape down",
  equation: "F/k",
  form: "closed",
  origin: { cite: "spring about its working point", how: "derived" },
  reads: (scene) => (absentLeaf(scene) || noLeafRate(scene) ? undefined : { F: leafForce(scene), k: rateOf(scene)! }),
  value: ({ F, k }) => F / k,
});
export const steppedOver = model({
  id: "hold.step",
  symbol: "x_s",
  unit: "m",
  title: "height that a splice lifts the leaf, its hop counted",
  equation: "t_s + 0.24*rho*b*t*L*v^2/(2*F)",
  form: "closed",
  origin: { cite: "height of a step; energy of a cantilever's tip, mass 33/140 of it (memory)", how: "derived" },
  reads: (scene) => {
    const held = holdDownOf(scene);
    const L = held?.["free length"];
    const b = outsideWidth(scene);
    if (absentLeaf(scene) || !b || !held?.thickness || !L) return undefined;
    return {
      t_s: scene.requirement.assume["splice thickness"],
      rho: stripDensity,
      b,
      t: held.thickness,
      L,
      v: scene.requirement.filmSpeed,
      F: leafForce(scene),
    };
  },
  value: ({ t_s, rho, b, t, L, v, F }) => t_s + (0.24 * rho * b * t * L * v ** 2) / (2 * F),
});
export const underRib = model({
  id: "hold.rib-room",
  symbol: "s_r",
  unit: "m",
  title: "room over the carrier under the rib",
  equation: "g_r - T",
  form: "closed",
  origin: { cite: "geometry of the section", how: "derived" },
  reads: (scene) => {
    const g_r = holdDownOf(scene)?.gap;
    return g_r && { g_r, T: scene.tape.letters.T };
  },
  value: ({ g_r, T }) => g_r - T,
});
const noneOff = tabled("bound/no film led off", "n_o", "0", [0, 0, 0, 0, 0], {
  cite: "the film stays on its tape",
  how: "derived",
});
export const ribNeeded = model({
  id: "hold.rib-needed",
  symbol: "s_n",
  unit: "m",
  title: "room that films, a splice and free running need under the rib",
  equation: "max(0, n_f - n_o)*T_1 + t_s + c_r",
  form: "closed",
  origin: { cite: "sum of thicknesses", how: "derived" },
  reads: (scene) => {
    const { tape, requirement } = scene;
    return {
      n_f: tape.films,
      n_o: notLedToNip(scene) ? noneOff : one,
      T_1: tape.letters.T1,
      t_s: requirement.assume["splice thickness"],
      c_r: requirement.assume["running clearance"],
    };
  },
  value: ({ n_f, n_o, T_1, t_s, c_r }) => Math.max(0, n_f - n_o) * T_1 + t_s + c_r,
});
const isRib = (scene: Scene): boolean => holdDownOf(scene)?.kind === "rib";
const value = (scene: Scene): Model => (isRib(scene) ? underRib : followed);
const needed = (scene: Scene): Model => (isRib(scene) ? ribNeeded : steppedOver);

export const checkRides: Check = {
  id: "hold.rides",
  station: 3,
  severity: "S",
  status: "established",
  title: "a splice passes under the hold-down",
  value,
  atLeast: needed,
  absent: (scene) => {
    const why = notHeldBy(scene, "leaf", "rib");
    if (why) return why;
    if (isRib(scene)) return holdDownOf(scene)!.gap ? undefined : "the height between ledge and rib is not given";
    return absentLeaf(scene) ?? noLeafRate(scene);
  },
  because: (say, scene) =>
    isRib(scene)
      ? `The rib leaves ${say(underRib)} over the tape; a splice and free running need ${say(ribNeeded)}.`
      : `The leaf would follow the tape down by ${say(followed)}; a splice lifts it by ${say(steppedOver)}.${windowInWords(say, scene)}`,
  beside: (scene) => (isRib(scene) ? [] : [rateOf(scene)!]),
};
