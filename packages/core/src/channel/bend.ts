import { noLength } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { arcsOf } from "../route/pose.ts";
import type { Scene } from "../scene.ts";
import { noPockets, pocketDrop, pocketLength } from "../tape/pocket.ts";

/**
 * Bends of the route.
 *
 *     r_n   = r -+ T/2                       radius at the neutral line, centre above or below the tape
 *     r_min = max(R, T/(2 e_y))              the standard's bend, and land strain T/(2 r) at the elastic limit
 *     g_p   = P_1 (1 - drop/r) - L           gap between neighbouring pockets inside a bend
 *
 * r radius of the underside, m, 5e-3 .. 0.5; T thickness, m; R the catalogue's bend radius, m; e_y elastic limit of the carrier;
 * P_1 pitch, drop pocket below the underside, L its outside length, m. Pockets hang on the inside of a bend that turns down.
 * T/(2 r) is the strain of a tape whose pockets flex with it; with rigid pockets the lands strain up to 1/(1 - a) times that, a the pocket's
 * share of the pitch. Floors of real pockets flex: read g_p < 0 as "stiffens and scrapes" (judgement).
 */
const arcs = ({ unit }: Scene) => arcsOf(unit.tape.route);
const neutral = (arc: { readonly radius: number; readonly turn: number }, T: number): number =>
  arc.radius + (arc.turn > 0 ? -T / 2 : T / 2);
const least = (values: readonly number[]): number => values.reduce((at, v, i) => (v < values[at]! ? i : at), 0);
const noBend = (scene: Scene): string | undefined => (arcs(scene).length === 0 ? "the route has no bend" : undefined);

export const leastRadius = model({
  id: "route.least-radius",
  symbol: "r_n",
  unit: "m",
  title: "least bend radius at the tape's neutral line",
  equation: "r - T/2 turning up, r + T/2 turning down; the least",
  form: "solved",
  origin: { cite: "geometry", how: "derived" },
  reads: (scene) => (noBend(scene) ? undefined : { arcs: arcs(scene), T: scene.tape.letters.T }),
  value: ({ arcs: bends, T }) => Math.min(...bends.map((a) => neutral(a, T))),
  where: ({ arcs: bends, T }) => `bend ${least(bends.map((a) => neutral(a, T))) + 1} of the route`,
});
export const neededRadius = model({
  id: "tape.needed-radius",
  symbol: "r_min",
  unit: "m",
  title: "radius the tape wants",
  equation: "max(R, T/(2*e_y))",
  form: "closed",
  origin: { cite: "EIA-481-D p. 13 and p. 15, bend radius R; bending of the lands", how: "read" },
  valid: { T: [0.1e-3, 1.2e-3] },
  reads: ({ tape, requirement }) => ({
    R: tape.letters.R,
    T: tape.letters.T,
    e_y: requirement.assume["carrier elastic limit"],
  }),
  value: ({ R, T, e_y }) => Math.max(R, T / (2 * e_y)),
});
export const checkBend: Check = {
  id: "entry.bend",
  station: 1,
  severity: "S",
  status: "established",
  title: "the route bends the tape gently",
  value: leastRadius,
  atLeast: neededRadius,
  absent: noBend,
  because: (say) => `The route bends the tape to ${say(leastRadius)}; it wants ${say(neededRadius)}.`,
};

const inside = (scene: Scene) => {
  const numbered = arcs(scene).map((arc, i) => ({ ...arc, number: i + 1 }));
  return numbered.length > 0 && scene.tape.kind === "embossed"
    ? { arcs: numbered, P_1: scene.tape.letters.P1, drop: pocketDrop, L: pocketLength }
    : undefined;
};
type Inside = {
  readonly arcs: readonly { readonly radius: number; readonly turn: number; readonly number: number }[];
  readonly P_1: number;
  readonly drop: number;
  readonly L: number;
};
/** Radius of the tightest bend that turns down, with the pockets inside; infinite where none does. */
const tightest = (bends: Inside["arcs"]): { radius: number; number: number } =>
  bends.reduce((t, a) => (a.turn < 0 && a.radius < t.radius ? a : t), { radius: Number.POSITIVE_INFINITY, number: 0 });

export const pocketGap = model({
  id: "route.pocket-gap",
  symbol: "g_p",
  unit: "m",
  title: "gap between neighbouring pockets inside the tightest bend",
  equation: "P_1*(1 - drop/r) - L at the tightest bend with the pockets inside",
  form: "solved",
  origin: { cite: "rigid pockets on a circle", how: "derived" },
  reads: inside,
  value: ({ arcs: bends, P_1, drop, L }) => P_1 * (1 - drop / tightest(bends).radius) - L,
  where: ({ arcs: bends }) => {
    const t = tightest(bends);
    return t.number === 0
      ? "no bend has the pockets inside"
      : `bend ${t.number}, radius ${(t.radius * 1e3).toFixed(1)} mm`;
  },
});
export const checkPockets: Check = {
  id: "entry.pockets",
  station: 1,
  severity: "S",
  status: "judgement",
  title: "neighbouring pockets don't meet inside a bend",
  value: pocketGap,
  atLeast: noLength,
  absent: (scene) => noPockets(scene.tape.kind) ?? noBend(scene),
  because: (say) => `Inside the bend ${say(pocketGap)} are left between neighbouring pockets.`,
};
/** Radius at which rigid neighbours just touch inside a bend: drop/(1 - L/P_1). Infinite where they touch on the flat. */
export const meetingRadius = (drop: number, L: number, P1: number): number =>
  L < P1 ? drop / (1 - L / P1) : Number.POSITIVE_INFINITY;
