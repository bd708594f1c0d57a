import type { Given } from "../quantity/given.ts";
import { type Deciding, holding, quantile, scatterStanding, spreadOver } from "./allowance.ts";
import { beliefColumn, beliefDraws, Cell, scatterDraws, valueAt } from "./cell.ts";
import type { Deviates } from "./deviates.ts";
import { rootBetween } from "./root.ts";

/** The unknown that decides a check, and where along it the verdict tips. */
export interface Decisive {
  readonly given: Given;
  /** Its value at which the deciding gap is 0, all other unknowns at their medians; undefined where nothing tips on it alone. */
  readonly tipping: number | undefined;
  /** Share of belief in which the check would hold if this were measured at its median. */
  readonly shareIfMeasured: number;
  /** Share of the variance of the pass indicator that it carries by itself. */
  readonly carries: number;
}

const bins = 20;
/** Share of the variance of an indicator over belief that one unknown explains by itself, by 20 equal bins; bias of the binning taken off. */
export function explained(z: Float64Array, holds: Uint8Array, weights: Float64Array): number {
  const order = Array.from(z.keys()).sort((a, b) => z[a]! - z[b]!);
  let total = 0;
  let mean = 0;
  for (let k = 0; k < z.length; k++) {
    total += weights[k]!;
    mean += weights[k]! * holds[k]!;
  }
  mean /= total;
  const variance = mean * (1 - mean);
  if (!(variance > 0)) return 0;
  let between = 0;
  for (let b = 0; b < bins; b++) {
    let w = 0;
    let m = 0;
    for (let i = Math.floor((b * z.length) / bins); i < Math.floor(((b + 1) * z.length) / bins); i++) {
      const k = order[i]!;
      w += weights[k]!;
      m += weights[k]! * holds[k]!;
    }
    if (w > 0) between += (w / total) * (m / w - mean) ** 2;
  }
  return Math.max(0, between / variance - (bins - 1) / z.length);
}

/**
 * Finds the decisive unknown of one check: the largest share of the variance of the pass indicator, the first in that order that
 * tips by itself; its tipping value by root finding on the deciding gap; and the share if it were measured at its median.
 */
export function decisive(cell: Cell, deviates: Deviates, c: number, deciding: Deciding, weights: Float64Array): Decisive | undefined {
  const check = cell.checks[c]!;
  const alone = new Cell(cell.scene, [check]);
  const holds = Uint8Array.from(deciding.gap, (g) => (g >= 0 ? 1 : 0));
  const ranked = alone.unknowns
    .map((given) => ({ given, carries: explained(beliefColumn(deviates, given), holds, weights) }))
    .sort((a, b) => b.carries - a.carries || (a.given.address < b.given.address ? -1 : 1));
  let first: Decisive | undefined;
  for (const { given, carries } of ranked.slice(0, 3)) {
    const tipping = tippingValue(alone, deviates, given);
    if (first && tipping === undefined) continue;
    const found = { given, carries, tipping, shareIfMeasured: first?.given === given ? first.shareIfMeasured : shareIfMeasured(alone, deviates, given, deciding, weights) };
    if (tipping !== undefined) return found;
    first = found;
  }
  return first;
}

/** Value of the unknown at which the deciding gap is 0, others at their medians; the tip nearest to its own median. */
export function tippingValue(cell: Cell, deviates: Deviates, given: Given): number | undefined {
  const scatter = scatterStanding(deviates);
  const allow = cell.scene.requirement.allowPairs;
  const n = cell.scatters.length > 0 ? scatterDraws : 1;
  const at = (z: number): number => {
    const gap = cell.gaps({ n, unknown: (g) => (g.address === given.address ? z : undefined), scatter })[0]!;
    const q = quantile(gap, allow);
    return Number.isFinite(q) ? q : -1e30;
  };
  if (given.unknown?.law === "switch") return at(-5) >= 0 === at(5) >= 0 ? undefined : 1;
  const middle = at(0);
  if (middle === 0) return valueAt(given, 0);
  let [low, high] = [0, 0];
  for (const reach of [1, 2, 3, 4, 6, 8]) {
    for (const side of [1, -1]) {
      if (at(side * reach) >= 0 === middle >= 0) continue;
      const inner = side > 0 ? high : low;
      const z = rootBetween(at, inner, side * reach, 1e-3);
      return z === undefined ? undefined : valueAt(given, z);
    }
    [low, high] = [-reach, reach];
  }
  return undefined;
}

function shareIfMeasured(cell: Cell, deviates: Deviates, given: Given, { kappa }: Deciding, weights: Float64Array): number {
  const unknown = (g: Given) => (g.address === given.address ? 0 : beliefColumn(deviates, g));
  const written = cell.sideGaps({ n: beliefDraws, unknown });
  const holds = holding(cell, written, spreadOver(cell, beliefDraws, unknown, written), [kappa])[0]!;
  let total = 0;
  let held = 0;
  for (let k = 0; k < beliefDraws; k++) {
    total += weights[k]!;
    if (holds[k]) held += weights[k]!;
  }
  return held / total;
}
