import { frictionOn } from "../film/friction.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";

/**
 * Most a friction nip can pull.
 *
 *     S = N (mu_1 + mu_2)                    both rollers driven at one surface speed
 *     S = min(N (mu_1 + mu_2), M/r_1)        with a slip clutch at the lower roller
 *
 * N    force between the rollers, N             0.5 .. 30
 * mu_i friction of the film on roller i         0.05 .. 1.5, measure me
 * M    torque at which the clutch slips, N m;  r_1  radius of the clutched roller, m
 *
 * Coulomb friction with the film's tail free. Smooth rollers: teeth make it more, which stays on the safe side for pulling and on the
 * unsafe one for slipping.
 */
const origin = { cite: "Coulomb friction", how: "memory" } as const;
const valid = { mu_1: [0.05, 1.5], mu_2: [0.05, 1.5], N: [0.2, 40] } as const;

/** Friction on both rollers; what the tape file measured on the roller's material comes first. Undefined where one is not known. */
export function frictions(scene: Scene): readonly [Quantity, Quantity] | undefined {
  const { nip } = scene.unit;
  const faces = nip?.rollers?.material;
  const given = nip?.friction;
  const on = (i: 0 | 1) => frictionOn(scene, faces?.[i] ?? faces?.[0], given?.[i] ?? given?.[0]);
  const [lower, upper] = [on(0), on(1)];
  return lower && upper && [lower, upper];
}

const friction = model({
  id: "nip.traction",
  symbol: "S",
  unit: "N",
  title: "traction limit of the nip",
  equation: "N*(mu_1 + mu_2)",
  form: "closed",
  origin,
  valid,
  reads: (scene) => {
    const mu = frictions(scene);
    const N = scene.unit.nip?.preload;
    return N && mu && { N, mu_1: mu[0], mu_2: mu[1] };
  },
  value: ({ N, mu_1, mu_2 }) => N * (mu_1 + mu_2),
});
const clutched = model({
  id: "nip.traction-with-clutch",
  symbol: "S",
  unit: "N",
  title: "traction limit of the nip with its clutch",
  equation: "min(N*(mu_1 + mu_2), M/r_1)",
  form: "closed",
  origin,
  valid,
  reads: (scene) => {
    const mu = frictions(scene);
    const { nip } = scene.unit;
    const r = nip?.rollers?.radius[0];
    return (
      nip?.preload && mu && nip.slip && r && { N: nip.preload, mu_1: mu[0], mu_2: mu[1], M: nip.slip.torque, r_1: r }
    );
  },
  value: ({ N, mu_1, mu_2, M, r_1 }) => Math.min(N * (mu_1 + mu_2), M / r_1),
});

/** The model that fits the unit: with or without a clutch. */
export const grip = ({ unit }: Scene): Model => (unit.nip?.slip ? clutched : friction);

/** Width of film that the nip grips; undefined without rollers. */
export function gripFace({ unit, tape }: Scene): Quantity | undefined {
  const wanted = unit.nip?.rollers?.grip;
  if (wanted === undefined) return undefined;
  return typeof wanted === "string" ? tape.film.width : wanted;
}

/** Why the checks of the nip do not apply; undefined where they do. */
export function noNip(scene: Scene): string | undefined {
  const { nip } = scene.unit;
  if (!nip) return "the unit has no nip";
  if (!nip.preload) return "the nip's preload is not given";
  if (!frictions(scene)) return "no friction is known on the nip's rollers";
  return undefined;
}
