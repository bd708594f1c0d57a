import { power } from "../quantity/power.ts";
/**
 * Finite beams on a springy foundation with forces at their ends (Hetenyi 1946): what evenness.ts is held against.
 *
 *     both ends loaded alike:   y(x) = (2 P lambda/k) (ch lx cos l(l-x) + ch l(l-x) cos lx)/(sh L + sin L)
 *     one end loaded:           y_0 = (2 P lambda/k) (sh ch - sin cos)/(sh^2 - sin^2),   far end (2 P lambda/k) (sh cos - sin ch)/(sh^2 - sin^2)
 *
 * P end force, N; k stiffness of the foundation, N/m2; lambda = (k/(4 EI))^(1/4), 1/m; L = lambda l. The foundation pulls as well as it pushes.
 */
export interface Foundation {
  readonly k: number;
  readonly EI: number;
  readonly l: number;
}
function of({ k, EI, l }: Foundation): { readonly lambda: number; readonly L: number } {
  if (!(k > 0) || !(EI > 0) || !(l > 0))
    throw new RangeError(`a beam on a foundation needs k, EI and l above 0; found ${k}, ${EI}, ${l}`);
  const lambda = power(k / (4 * EI), 0.25);
  return { lambda, L: lambda * l };
}
/** Deflection at x under two equal forces P at the ends. */
export function bothEnds(beam: Foundation, P: number, x: number): number {
  const { lambda, L } = of(beam);
  const [p, q] = [lambda * x, L - lambda * x];
  const sum = Math.cosh(p) * Math.cos(q) + Math.cosh(q) * Math.cos(p);
  return (((2 * P * lambda) / beam.k) * sum) / (Math.sinh(L) + Math.sin(L));
}
/** Deflection of the loaded and of the far end under one force P. */
export function oneEnd(beam: Foundation, P: number): { readonly loaded: number; readonly far: number } {
  const { lambda, L } = of(beam);
  const [S, C, s, c] = [Math.sinh(L), Math.cosh(L), Math.sin(L), Math.cos(L)];
  const of1 = (2 * P * lambda) / beam.k / (S * S - s * s);
  return { loaded: of1 * (S * C - s * c), far: of1 * (S * c - s * C) };
}
