import { power } from "../quantity/power.ts";
/**
 * The involute function and its inverse.
 *
 *     inv a = tan a - a
 *
 * a angle, rad, 0 .. 1.4. Inverted by Newton from the series' first term; right to 1e-14 of the angle. Angles below 0 have none here.
 */
export const inv = (a: number): number =>
  // Below a hundredth of a radian the difference of near numbers loses digits: its series does not.
  Math.abs(a) < 0.02 ? (power(a, 3) / 3) * (1 + (2 / 5) * a * a + (17 / 105) * power(a, 4)) : Math.tan(a) - a;

/** The angle whose involute is `value`. Throws RangeError below 0: no flank reaches inside its base circle. */
export function angleOfInvolute(value: number): number {
  if (!(value >= 0)) throw new RangeError(`inv a = ${value}: no involute reaches inside its base circle`);
  if (value === 0) return 0;
  let a = Math.min(1.4, Math.cbrt(3 * value));
  for (let n = 0; n < 100; n++) {
    const step = (inv(a) - value) / Math.tan(a) ** 2;
    const next = Math.min((a + Math.PI / 2) / 2, Math.max(a / 4, a - step));
    if (Math.abs(next - a) < 1e-15) return next;
    a = next;
  }
  return a;
}
