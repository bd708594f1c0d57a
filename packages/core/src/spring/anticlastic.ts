import { power } from "../quantity/power.ts";
/**
 * A strip bent along its length curls across it, unless it is wide: then its middle is held flat.
 *
 *     lam = (3 (1 - nu^2))^(1/4) b / sqrt(R t)
 *     F   = (2/lam) (cosh lam - cos lam)/(sinh lam + sin lam)
 *     M   = D b (k - k0) [1 - nu^2 (F + (1 - k0/k) (lam/4) dF/dlam)],   D = E t^3/(12 (1 - nu^2)),  R = 1/|k|
 *
 * b width, t thickness, R radius the strip is bent to, m; k curvature, k0 the stress-free one, 1/m; nu Poisson's ratio, 0 .. 0.5.
 *
 * The bracket goes from 1 - nu^2 (a beam: narrow) to 1 (a plate: wide). Ashwell 1950 for a strip born flat (k0 = 0); the moment is the derivative
 * of the energy D b (k - k0)^2/2 (1 - nu^2 F) by k, of which lam depends on k. The factor of the energy is another number:
 * taken for the stiffness it errs by up to 1.3 %. Small strain; uniform curvature over a length of a few widths, so within a width of a clamp
 * or of a line load the strip is somewhat stiffer than this says.
 */
export const stripNumber = (b: number, t: number, R: number, nu: number): number =>
  (power(3 * (1 - nu * nu), 0.25) * b) / Math.sqrt(R * t);

/** F and its derivative by lam, without overflow at large lam and without cancellation at small. */
export function curl(lam: number): { F: number; slope: number } {
  if (lam < 0.3) {
    // Taylor series: 1 - lam^4/180 + lam^8/22680
    const l3 = power(lam, 3);
    return { F: 1 - (l3 * lam) / 180 + (l3 * lam) ** 2 / 22680, slope: -l3 / 45 + (l3 * power(lam, 4)) / 2835 };
  }
  // Numerator and denominator both scaled by 2 exp(-lam).
  const e2 = Math.exp(-2 * lam);
  const e1 = 2 * Math.exp(-lam);
  const c = Math.cos(lam) * e1;
  const s = Math.sin(lam) * e1;
  const top = 1 + e2 - c;
  const bottom = 1 - e2 + s;
  const F = (2 / lam) * (top / bottom);
  // d(cosh - cos) = sinh + sin, d(sinh + sin) = cosh + cos
  const slope = -F / lam + (2 / lam) * (1 - (top * (1 + e2 + c)) / (bottom * bottom));
  return { F, slope };
}

/** Moment of the strip over that of a plate as wide, D b (k - k0): 1 - nu^2 where narrow, 1 where wide. */
export function momentFactor(b: number, t: number, nu: number, k: number, k0 = 0): number {
  if (k === 0) return 1 - nu * nu;
  const lam = stripNumber(b, t, 1 / Math.abs(k), nu);
  const { F, slope } = curl(lam);
  return 1 - nu * nu * (F + (1 - k0 / k) * (lam / 4) * slope);
}
