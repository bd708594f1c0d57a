import { model } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import { peelAngle } from "./path.ts";

/**
 * Force to peel the cover film while the unit runs.
 *
 *     P = P_ref (1 - cos theta_ref)/(1 - cos theta) (v/v_ref)^n a
 *
 * P_ref      seal strength as the standard measures it, both tracks, N    0.05 .. 2
 * theta      angle between film and tape at the peel line, rad            0.5 .. pi
 * v          speed of the film relative to the tape, m/s                  0.001 .. 0.3
 * theta_ref  angle of the standard's test, 165 to 180 degrees
 * v_ref      speed of the standard's test, 5 mm/s
 * n          rate exponent                                                0 .. 0.4, measure me
 * a          ageing of the seal, 1 = new                                  0.3 .. 3
 *
 * The angle term is the energy balance of an inextensible film (Rivlin 1944). Kendall 1975 adds the film's stretch, which
 * matters below 0.5 rad: outside range there. The law overstates the force at low angles, where bending dissipates less.
 * Throws RangeError at an angle that is not above 0.
 */
export interface PeelInputs {
  readonly P_ref: number;
  readonly theta: number;
  readonly theta_ref: number;
  readonly v: number;
  readonly v_ref: number;
  readonly n: number;
  readonly a: number;
}
export function peelForce({ P_ref, theta, theta_ref, v, v_ref, n, a }: PeelInputs): number {
  if (!(theta > 0)) throw new RangeError(`peel angle is ${theta} rad; film and tape must part at more than 0 rad`);
  return ((P_ref * (1 - Math.cos(theta_ref))) / (1 - Math.cos(theta))) * power(v / v_ref, n) * a;
}

export const runningPeel = model({
  id: "film.peel",
  symbol: "P",
  unit: "N",
  title: "running peel force",
  equation: "P_ref*(1 - cos(theta_ref))/(1 - cos(theta))*(v/v_ref)^n*a",
  form: "closed",
  origin: {
    cite: "Rivlin 1944; Kendall 1975, J. Phys. D 8, 1449, doi:10.1088/0022-3727/8/13/005 (abstract read)",
    how: "memory",
  },
  valid: { P_ref: [0.05, 2], theta: [0.5, Math.PI + 1e-9], v: [0.001, 0.3], n: [0, 0.4], a: [0.3, 3] },
  reads: ({ tape: { film }, requirement }) => ({
    P_ref: film.seal,
    theta_ref: film.testAngle,
    v_ref: film.testSpeed,
    n: film.rate,
    a: film.ageing,
    theta: peelAngle,
    v: requirement.filmSpeed,
  }),
  value: (x) => peelForce(x),
});

/**
 * Steady peel force of an elastic film at a given energy of fracture, without loss in bending.
 *
 *     P = b_t Eh (-c + sqrt(c^2 + 2 G/Eh)),   c = 1 - cos theta
 *
 * b_t bonded width of both tracks, m; Eh stretching stiffness per width, N/m; G energy of fracture, J/m2; theta rad, 0 .. pi.
 * Kendall 1975 with the stretching width taken as b_t. Above 60 degrees it is Rivlin's P = b_t G/c to 1 %.
 */
export function kendallForce({ b_t, Eh, G, theta }: { b_t: number; Eh: number; G: number; theta: number }): number {
  const c = 1 - Math.cos(theta);
  // The root written so that no digits cancel: 2G/Eh is small against c squared at any ordinary angle.
  return (b_t * 2 * G) / (c + Math.sqrt(c * c + (2 * G) / Eh));
}
