import { roomUnder } from "../channel/groove.ts";
import type { Check } from "../quantity/check.ts";
import { none } from "../quantity/dimension.ts";
import { tabled } from "../quantity/given.ts";
import { model, type Quantity } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import type { Scene } from "../scene.ts";

/**
 * How far the floor of a pocket gives under the pick tool.
 *
 *     F = w D/(0.0056 a^2) + 2.8 E t w^3/a^2,  D = E t^3/(12 (1 - nu^2))
 *
 * F push of the tool, N, 0.2 .. 10; w how far the middle of the floor goes down, m; a shorter side of the floor, m; t thickness of the floor, m; E, nu of the
 * carrier. The floor goes down no further than the air under the pocket, where the groove takes over.
 *
 * A square plate held all round, pushed in its middle (0.0056, plate tables; a long one gives up to 29 % more), and the stretching of its middle as it sags
 * (2.8, memory). The part spreads the push, which stiffens the floor: this is an upper value. For a floor of 10 mm, t 0.2 mm, 1 N: 0.29 mm.
 * Punched and pressed tape lies on its ledge with film or board below, which this plate is not.
 */
const plate = {
  cite: "clamped square plate under a point load with its membrane term, plate tables",
  how: "memory",
} as const;
const contraction = tabled("catalogue/contraction of the carrier", "nu", "0.35", none, {
  cite: "Poisson's ratio of polystyrene, handbooks",
  how: "memory",
});

/** How far a floor goes down: the one real root of its cubic. */
export function sag(F: number, a: number, t: number, E: number, nu: number): number {
  const linear = (E * power(t, 3)) / (12 * (1 - nu * nu)) / (0.0056 * a * a);
  const cubic = (2.8 * E * t) / (a * a);
  // w^3 + p w = q by its hyperbolic sine: one real root, without loss of digits.
  const [p, q] = [linear / cubic, F / cubic];
  const s = Math.sqrt(p / 3);
  return 2 * s * Math.sinh(Math.asinh(q / (2 * power(s, 3))) / 3);
}
const pushOf = ({ requirement }: Scene): Quantity => requirement.pickForce ?? requirement.assume["pick force"];
const travelOf = ({ requirement }: Scene): Quantity => requirement.pickTravel ?? requirement.assume["pick travel"];
export const floorSag = model({
  id: "pocket.sag",
  symbol: "w",
  unit: "m",
  title: "how far a pocket's floor gives under the pick tool",
  equation: "F = w*D/(0.0056*a^2) + 2.8*E*t*w^3/a^2, at most the air under the pocket",
  form: "solved",
  origin: plate,
  reads: (scene) => ({
    F: pushOf(scene),
    A_0: scene.tape.letters.A0,
    B_0: scene.tape.letters.B0,
    t: scene.tape.letters.wall,
    E: scene.requirement.assume["carrier modulus"],
    nu: contraction,
    g_u: roomUnder,
  }),
  value: ({ F, A_0, B_0, t, E, nu, g_u }) => Math.min(sag(F, Math.min(A_0, B_0), t, E, nu), Math.max(0, g_u)),
});
export const checkFloor: Check = {
  id: "pocket.floor",
  station: 5,
  severity: "A",
  status: "judgement",
  title: "the pocket's floor gives within the pick tool's spring",
  value: floorSag,
  atMost: travelOf,
  absent: (scene) =>
    scene.tape.kind !== "embossed"
      ? "the pocket is cut into board that lies on its ledge"
      : scene.unit.tape["rests on"] === "floors"
        ? "the pocket rests on its floor"
        : undefined,
  because: (say, scene) =>
    `Pushed with ${say(pushOf(scene))} the pocket's floor gives by ${say(floorSag)}; the tool's spring gives ${say(travelOf(scene))}.`,
};
