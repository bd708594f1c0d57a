import { roomAllowed, roomOver } from "../channel/lips.ts";
import { entryPull } from "../entry/pull.ts";
import { stiffness } from "../entry/stiffness.ts";
import type { Check } from "../quantity/check.ts";
import { type Model, model } from "../quantity/model.ts";
import { setCurvature } from "../reel/set.ts";
import type { Scene } from "../scene.ts";
import { bowSpanOf, holdDownOf, notHeldBy, overhangOf } from "./members.ts";

/**
 * How high the coil set lifts the tape over the teeth.
 *
 *     b_f = kappa L^2/8               bow of a free span, m
 *     b_r = kappa L^2/108             bow that is left at a sixth of the span from each rest when its middle is pressed flat, m
 *     b_o = kappa c^2/2               rise of a tail that stands out past the last press line, m
 *     b_s = EI kappa/S (1 - 1/cosh(q L/2)),  q = sqrt(S/EI)     bow of a span under tension, m
 *     lift = min(b_r + b_o, s_l)      leaf: the lips over the tape's edges stop it at s_l
 *     lift = max(0, g_r - T) + b_o    rib
 *
 * kappa curvature that the tape keeps off its reel, 1/m, 0 .. 60; L span between the press lines or rests, c tail, m; EI stiffness, N m2; S tension, N; g_r
 * height between ledge and rib, T thickness, s_l room under the lips, m. The bow itself does not depend on the stiffness.
 *
 * A beam with natural curvature, small slopes: kappa L below 0.5. A strip that is narrow against its curvature: across its width it stays straight.
 */
const beam = { cite: "beam with natural curvature, small slopes", how: "derived" } as const;
const valid = { kappa: [0, 60], L: [1e-3, 0.3] } as const;

export const freeBow = model({
  id: "hold.free-bow",
  symbol: "b_f",
  unit: "m",
  title: "bow of the free span from the tape's set",
  equation: "kappa*L^2/8",
  form: "closed",
  origin: beam,
  valid,
  reads: (scene) => ({ kappa: setCurvature(scene), L: bowSpanOf(scene) }),
  value: ({ kappa, L }) => (kappa * L ** 2) / 8,
});
export const restBow = model({
  id: "hold.rest-bow",
  symbol: "b_r",
  unit: "m",
  title: "bow that is left where the middle of the span is pressed flat",
  equation: "kappa*L^2/108",
  form: "closed",
  origin: beam,
  valid,
  reads: (scene) => ({ kappa: setCurvature(scene), L: bowSpanOf(scene) }),
  value: ({ kappa, L }) => (kappa * L ** 2) / 108,
});
export const overhangLift = model({
  id: "hold.overhang",
  symbol: "b_o",
  unit: "m",
  title: "rise of the tape past the last press line",
  equation: "kappa*c^2/2",
  form: "closed",
  origin: beam,
  valid: { kappa: [0, 60] },
  reads: (scene) => ({ kappa: setCurvature(scene), c: overhangOf(scene) }),
  value: ({ kappa, c }) => (kappa * c ** 2) / 2,
});
/** Bow of a span of length L under tension S. */
export function tautBow({
  EI,
  kappa,
  S,
  L,
}: {
  readonly EI: number;
  readonly kappa: number;
  readonly S: number;
  readonly L: number;
}): number {
  if (!(EI > 0)) throw new RangeError(`the tape's stiffness is ${EI} N m2; it must be more than 0`);
  if (S < 0) throw new RangeError(`a tension of ${S} N pushes: see channel/push.ts`);
  const u = (L / 2) * Math.sqrt(S / EI);
  // Without tension it is kappa L^2/8; the difference of near numbers is taken by its series.
  if (u < 1e-3) return ((kappa * L ** 2) / 8) * (1 - (5 * u ** 2) / 12);
  return ((EI * kappa) / S) * (1 - 1 / Math.cosh(u));
}
export const pulledBow = model({
  id: "hold.taut-bow",
  symbol: "b_s",
  unit: "m",
  title: "bow between the press lines under the tape's own pull",
  equation: "EI*kappa/S*(1 - 2/(exp(L/2*sqrt(S/EI)) + exp(-L/2*sqrt(S/EI))))",
  form: "closed",
  origin: { cite: "beam with natural curvature under tension", how: "derived" },
  valid,
  reads: (scene) =>
    scene.unit.sprocket && {
      EI: stiffness(scene),
      kappa: setCurvature(scene),
      S: entryPull,
      L: bowSpanOf(scene),
    },
  value: (x) => tautBow(x),
});
const leafLift = model({
  id: "hold.lift",
  symbol: "z_h",
  unit: "m",
  title: "lift of the tape over the teeth that the leaf leaves",
  equation: "min(b_r + b_o, max(0, s_l))",
  form: "closed",
  origin: beam,
  reads: (scene) =>
    holdDownOf(scene)?.kind === "leaf" ? { b_r: restBow, b_o: overhangLift, s_l: roomOver } : undefined,
  value: ({ b_r, b_o, s_l }) => Math.min(b_r + b_o, Math.max(0, s_l)),
});
const ribLift = model({
  id: "hold.lift-under-rib",
  symbol: "z_h",
  unit: "m",
  title: "lift of the tape over the teeth that the rib leaves",
  equation: "max(0, g_r - T) + b_o",
  form: "closed",
  origin: { cite: "room under the rib; beam with natural curvature past its end", how: "derived" },
  reads: (scene) => {
    const g_r = holdDownOf(scene)?.gap;
    return g_r && { g_r, T: scene.tape.letters.T, b_o: overhangLift };
  },
  value: ({ g_r, T, b_o }) => Math.max(0, g_r - T) + b_o,
});

export { leafLift, ribLift };

/** Lift of the tape over the teeth; undefined where the hold-down's numbers don't say it. */
export function liftOverTeeth(scene: Scene): Model | undefined {
  const held = holdDownOf(scene);
  if (held?.kind === "leaf") return leafLift;
  if (held?.kind === "rib") return held.gap && ribLift;
  return undefined;
}
function absent(scene: Scene): string | undefined {
  const why = notHeldBy(scene, "leaf", "rib");
  if (why) return why;
  return holdDownOf(scene)!.kind === "leaf" || holdDownOf(scene)!.gap
    ? undefined
    : "the height between ledge and rib is not given";
}
export const checkBow: Check = {
  id: "hold.bow",
  station: 3,
  severity: "S",
  status: "judgement",
  title: "the tape's bow leaves it on its teeth",
  value: (scene) => liftOverTeeth(scene)!,
  atMost: roomAllowed,
  absent,
  because: (say, scene) => {
    const set = setCurvature(scene);
    const lift = liftOverTeeth(scene)!;
    return holdDownOf(scene)!.kind === "leaf"
      ? `The tape comes off its reel with a curvature of ${say(set)}; pressed flat it still stands ${say(lift)} over the teeth, which hold it up to ${say(roomAllowed)}.`
      : `Under the rib the tape can rise by ${say(lift)} over the teeth, which hold it up to ${say(roomAllowed)}.`;
  },
  beside: (scene) => [
    ...(holdDownOf(scene)!.kind === "leaf" ? [freeBow, pulledBow, restBow] : []),
    overhangLift,
    setCurvature(scene),
    stiffness(scene),
  ],
};
