import { betaQuantile } from "../evidence/beta.ts";

/**
 * Half width, in standard deviations, that holds a share of Student's law.
 *
 *     P(|T| <= t) = share,    t = sqrt(nu (1/x - 1)),    I_x(nu/2, 1/2) = 1 - share
 *
 * nu degrees of freedom, above 0, need not be whole. Above a million the normal law's figure is as good.
 */
export function studentHalfWidth(nu: number, share = 0.95): number {
  const many = Math.min(nu, 1e6);
  const x = betaQuantile(1 - share, many / 2, 0.5);
  return Math.sqrt(many * (1 / x - 1));
}
