import { leastRate, type Misfeeds } from "@tapeworthy/core";
import type { MisfeedMode, MisfeedRatesInput } from "./misfeed-rates.ts";

/** Misfeeds of a unit on a tape as their drawing takes them, the likeliest mode first; rates below what is told apart say so. */
export function misfeedInput(
  misfeeds: Misfeeds,
  { unit, tape }: { readonly unit: string; readonly tape: string },
): MisfeedRatesInput {
  const { rate, belief, allowance, modes, medianPair, unitsOver, clean1e5 } = misfeeds;
  const some = rate >= leastRate || belief.high >= leastRate;
  return {
    unit,
    tape,
    ...(some ? { total: { at: rate, low: belief.low, high: belief.high } } : {}),
    ...(allowance === undefined ? {} : { allowed: allowance }),
    modes: [...modes]
      .sort((a, b) => b.rate - a.rate || b.belief.high - a.belief.high || (a.id < b.id ? -1 : 1))
      .map(({ id, title, rate: at, belief: { low, high }, said, estimator }): MisfeedMode => {
        const named = { key: id, name: title };
        if (at < leastRate && high < leastRate)
          return said === "cannot fail as drawn"
            ? { ...named, kind: "cannot fail" }
            : { ...named, kind: "none found", under: Math.max(leastRate, estimator[1]) };
        return {
          ...named,
          kind: "rate",
          rate: { at, low, high },
          ...(said === "methods disagree" ? { disagrees: true } : {}),
        };
      }),
    levels: {
      medianPair: { at: medianPair },
      ...(unitsOver === undefined ? {} : { unitsOver }),
      clean: { indexes: 1e5, chance: clean1e5 },
    },
  };
}
