import { wormBackEfficiency, wormEfficiency } from "../drive/motor.ts";

/**
 * What a worm makes of a drive's friction.
 *
 *     T_f = T_0 + c |M|/N,   c_f = 1/eta_f - 1 while driving, c_b = 1 - eta_b while driven
 *
 * eta_f, eta_b efficiency forward and backward (drive/motor.ts); eta_b 0 or below: it locks at rest. M torque at the wheel, N m; N turns of
 * the worm a turn of the wheel. Friction at one point of contact; bearings and churning stand in T_0. A worm that locks at rest may creep
 * under vibration, which this does not know.
 */
export interface WormShape {
  /** Lead angle and normal pressure angle, rad; friction of the teeth. */
  readonly lead: number;
  readonly friction: number;
  readonly pressure: number;
}
export interface Efficiencies {
  readonly forward: number;
  readonly backward: number;
}
export function wormFriction(lead: number, mu: number, pressure: number): Efficiencies {
  if (!(lead > 0 && lead < Math.PI / 2)) throw new RangeError(`lead angle is ${lead} rad; a worm has more than 0`);
  if (!(mu >= 0)) throw new RangeError(`friction of the worm is ${mu}; it must be 0 or more`);
  const forward = wormEfficiency(lead, pressure, mu);
  if (!(forward > 0))
    throw new RangeError(`a worm of ${lead} rad and friction ${mu} jams: its efficiency is ${forward}`);
  return { forward, backward: wormBackEfficiency(lead, pressure, mu) };
}
