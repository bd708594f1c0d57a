/**
 * Do groups differ: one-way analysis of variance, units or reels against their own scatter.
 *
 *     F = [sum n_g (mean_g - mean)^2/(G - 1)]/[sum (x - mean_g)^2/(N - G)]
 *     between-group variance  max(0, (MS_between - MS_within)/n0),   n0 = (N - sum n_g^2/N)/(G - 1)
 *
 * G groups, N readings. The p-value takes the readings as normal with one scatter. Textbook; memory.
 */
import { betaAbove } from "./beta.ts";
import { checkReadings, compensated, summary } from "./summary.ts";

export interface OneWay {
  readonly F: number;
  /** Degrees of freedom between and within. */
  readonly degrees: readonly [number, number];
  /** Chance of an F as great, were all groups alike. */
  readonly p: number;
  readonly within: number;
  /** Standard deviation between groups, 0 where they differ by no more than chance explains. */
  readonly between: number;
}
export function oneWay(groups: readonly ArrayLike<number>[]): OneWay {
  if (groups.length < 2) throw new RangeError(`${groups.length} groups; a comparison takes at least 2`);
  for (const group of groups) checkReadings(group);
  const N = groups.reduce((sum, g) => sum + g.length, 0);
  const G = groups.length;
  if (N <= G)
    throw new RangeError("every group holds a single reading: nothing says how far they scatter by themselves");
  const origin = groups[0]![0]!;
  const means = groups.map((g) => summary(Float64Array.from(g, (x) => x - origin)).mean);
  const mean = compensated(G, (i) => means[i]! * groups[i]!.length) / N;
  const between = compensated(G, (i) => groups[i]!.length * (means[i]! - mean) ** 2) / (G - 1);
  const within =
    compensated(G, (i) => compensated(groups[i]!.length, (j) => (groups[i]![j]! - origin - means[i]!) ** 2)) / (N - G);
  const F = between / within;
  const n0 = (N - groups.reduce((sum, g) => sum + g.length ** 2, 0) / N) / (G - 1);
  return {
    F,
    degrees: [G - 1, N - G],
    p: within > 0 ? betaAbove((F * (G - 1)) / (F * (G - 1) + (N - G)), (G - 1) / 2, (N - G) / 2) : between > 0 ? 0 : 1,
    within: Math.sqrt(within),
    between: Math.sqrt(Math.max(0, (between - within) / n0)),
  };
}
