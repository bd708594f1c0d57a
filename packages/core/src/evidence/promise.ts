import { power } from "../quantity/power.ts";
import { spaced } from "../quantity/spaced.ts";
/**
 * What may be promised from a count: always three statements together, and what weakens them.
 *
 *     alike      by test alone, were all units and reels alike (alike.ts)
 *     unlike     by test alone, units differ and nobody knows how much (unlike.ts)
 *     withModel  with the rate the model gives (with-model.ts)
 *     bad units  m good units leave a share of bad ones up to 1 - (1 - C)^(1/m)
 *
 * "1 in N" is rounded down to 1, 2 or 5 times a power of ten: the promise never says more than the bound. Warnings: fewer than 3 units or 3 reels; one unit with
 * more than 0.6 of the cycles; failures that sit in one unit (Fisher exact against the rest below 0.05); a design effect above 10. The limits are
 * those of the working notes (unpublished), chosen, not derived.
 */
import { pooled, pooledAtMost, type UnitCount } from "./alike.ts";
import { designEffect, effectiveCycles } from "./beta-binomial.ts";
import { rateShownByClean } from "./clean-runs.ts";
import { fisherExact } from "./contingency.ts";
import { unlikeUnits } from "./unlike.ts";
import { rateWithModel } from "./with-model.ts";

export interface Tested {
  readonly units: readonly UnitCount[];
  readonly reels: number;
  readonly confidence?: number | undefined;
  /** Rate the model gives, and how far it is trusted as a log sd. */
  readonly model?: { readonly median: number; readonly sd?: number | undefined } | undefined;
  /** Log sd of the rate between units, where it is known. */
  readonly logSd?: number | undefined;
}
/** A rate that is not exceeded, and the N of "1 in N" that may be said. */
export interface Bound {
  readonly rate: number;
  readonly oneIn: number;
}
export interface Promised {
  readonly alike: Bound;
  readonly unlike: Bound;
  readonly withModel?: Bound;
  /** Share of units that may be bad all the same, where none failed. */
  readonly badUnits?: number;
  readonly designEffect: number;
  /** Independent cycles the count is worth. */
  readonly effectiveCycles: number;
  readonly warnings: readonly string[];
  readonly sentence: string;
}

export function promise({ units, reels, confidence = 0.95, model, logSd }: Tested): Promised {
  const { failed, run } = pooled(units);
  if (!(Number.isInteger(reels) && reels >= 1))
    throw new RangeError(`${reels} reels were run; it takes a whole number above 0`);
  const alike = bound(pooledAtMost(units, confidence));
  const apart = unlikeUnits(units, { confidence, logSd });
  const unlike = bound(apart.atMost);
  const mean = run / units.length;
  const effect = designEffect(Math.max(1, mean), Math.min(1, apart.rho));
  const percent = `${+(100 * confidence).toPrecision(4)} %`;
  const withModel = model && bound(rateWithModel(model, { failed, run }, confidence).atMost);
  const counted = `${spaced(failed)} ${failed === 1 ? "failure" : "failures"} in ${spaced(run)} cycles on ${units.length} ${units.length === 1 ? "unit" : "units"} and ${reels} ${reels === 1 ? "reel" : "reels"}`;
  const alone = `by test alone 1 in ${spaced(unlike.oneIn)}, and 1 in ${spaced(alike.oneIn)} were all units alike`;
  const like = "for a unit and reel drawn like those tested";
  return {
    alike,
    unlike,
    ...(withModel ? { withModel } : {}),
    ...(failed === 0 ? { badUnits: rateShownByClean(units.length, confidence) } : {}),
    designEffect: effect,
    effectiveCycles: effectiveCycles(
      units.map((u) => u.run),
      Math.min(1, apart.rho),
    ),
    warnings: warningsOf(units, reels, effect),
    sentence: withModel
      ? `fewer than 1 in ${spaced(withModel.oneIn)} ${like}, ${percent}, from ${counted} and the model; ${alone}`
      : `fewer than 1 in ${spaced(unlike.oneIn)} ${like}, ${percent}, from ${counted}; 1 in ${spaced(alike.oneIn)} were all units alike`,
  };
}
const bound = (rate: number): Bound => ({ rate, oneIn: roundedDown(1 / rate) });
/** The greatest 1, 2 or 5 times a power of ten that is not above x. */
export function roundedDown(x: number): number {
  if (!(x > 0 && x < Number.POSITIVE_INFINITY)) throw new RangeError(`${x} cannot be rounded down to 1, 2 or 5`);
  // A hair is let through, so that 1/(1/20000) is 20 000.
  const ten = power(10, Math.floor(Math.log10(x) + 1e-12));
  const step = [5, 2, 1].find((s) => s * ten <= x * (1 + 1e-12)) ?? 1;
  return +(step * ten).toPrecision(3);
}
/** A whole number with a space at every third digit. */

function warningsOf(units: readonly UnitCount[], reels: number, effect: number): string[] {
  const { failed, run } = pooled(units);
  const warnings: string[] = [];
  if (units.length < 3)
    warnings.push(
      `${units.length} ${units.length === 1 ? "unit says" : "units say"} little about others: test at least 3`,
    );
  if (reels < 3)
    warnings.push(`${reels} ${reels === 1 ? "reel says" : "reels say"} little about others: run at least 3`);
  const most = units.reduce((best, u) => (u.run > best.run ? u : best));
  if (units.length > 1 && most.run > 0.6 * run)
    warnings.push(
      `one unit ran ${Math.round((100 * most.run) / run)} % of the cycles: the bound is mostly about that unit`,
    );
  units.forEach((u, i) => {
    if (units.length < 2 || u.failed === 0) return;
    const { higher } = fisherExact(u.failed, u.run - u.failed, failed - u.failed, run - u.run - failed + u.failed);
    if (higher < 0.05)
      warnings.push(
        `failures sit in unit ${i + 1}: by chance alone ${(100 * higher).toPrecision(2)} %; look at it before counting on`,
      );
  });
  if (effect > 10)
    warnings.push(
      `units differ so much that ${Math.round(effect)} cycles of one are worth about 1: more units tell more than more cycles`,
    );
  return warnings;
}
