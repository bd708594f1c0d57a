import { type Model, model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { constantOf, type DriveName, inductanceOf, inertiaOf, resistanceOf } from "./motor.ts";

/**
 * How fast a motor without a load answers its volts.
 *
 *     tau_m = J R/k^2                                time to 63 % of its speed, s                    0.005 .. 0.04
 *     tau_e = L/R                                    time to 63 % of its current, s
 *     p     = -(R/L + B/J)/2 +- sqrt(((R/L - B/J)/2)^2 - k^2/(L J))
 *
 * J inertia of the rotor, kg m2; R, L, k of the winding; B viscous friction, N m s. Gears add their inertia, which for a head of 10:1 and more is less than the
 * rotor's own. While tau_e is far below tau_m the two poles p are their inverses nearly enough.
 */
const answer = { cite: "two-pole circuit of a brushed motor", how: "derived" } as const;

/** The two poles of a free rotor, fast first, 1/s; together where they ring, as real part and frequency. */
export function rotorPoles(
  R: number,
  L: number,
  k: number,
  J: number,
  B = 0,
): { readonly real: readonly [number, number]; readonly ringing: number } {
  const middle = -(R / L + B / J) / 2;
  const under = ((R / L - B / J) / 2) ** 2 - (k * k) / (L * J);
  if (under < 0) return { real: [middle, middle], ringing: Math.sqrt(-under) };
  const root = Math.sqrt(under);
  return { real: [middle - root, middle + root], ringing: 0 };
}
/** Speed of a free rotor without friction, t after V was put on, rad/s. */
export function freeRotorSpeed(V: number, R: number, L: number, k: number, J: number, t: number): number {
  const { real, ringing } = rotorPoles(R, L, k, J);
  const [p, q] = real;
  if (ringing > 0) {
    const fall = Math.exp(p * t);
    return (V / k) * (1 - fall * (Math.cos(ringing * t) - (p / ringing) * Math.sin(ringing * t)));
  }
  if (p === q) return (V / k) * (1 - Math.exp(p * t) * (1 - p * t));
  return (V / k) * (1 - (q * Math.exp(p * t) - p * Math.exp(q * t)) / (q - p));
}

interface Times {
  readonly mechanical: Model;
  readonly electrical: Model;
}
const made = (name: DriveName): Times => ({
  mechanical: model({
    id: `motor.${name}-run-up`,
    symbol: "tau_m",
    unit: "s",
    title: `time in which the ${name} drive's motor reaches 63 % of its speed, without a load`,
    equation: "J*R/k^2",
    form: "closed",
    origin: answer,
    reads: (scene) => {
      const [R, k] = [resistanceOf(scene, name), constantOf(scene, name)];
      return R && k && { J: inertiaOf(scene, name), R, k };
    },
    value: ({ J, R, k }) => (J * R) / (k * k),
  }),
  electrical: model({
    id: `motor.${name}-current-rise`,
    symbol: "tau_e",
    unit: "s",
    title: `time in which the ${name} drive's motor reaches 63 % of its current, held fast`,
    equation: "L/R",
    form: "closed",
    origin: answer,
    reads: (scene) => {
      const R = resistanceOf(scene, name);
      return R && { L: inductanceOf(scene, name), R };
    },
    value: ({ L, R }) => L / R,
  }),
});
export const runUps: Readonly<Record<DriveName, Times>> = { feed: made("feed"), peel: made("peel") };
/** Both times of a drive, where its motor is known. */
export const timesOf = (scene: Scene, name: DriveName): Model[] =>
  [runUps[name].mechanical, runUps[name].electrical].filter((m) => m.reads(scene));
