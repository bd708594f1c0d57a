import type { Given } from "../quantity/given.ts";
import { type Deciding, decide, holding, quantile, scatterStanding, spreadOver } from "./allowance.ts";
import { beliefColumn, beliefDraws, Cell, scatterDraws, valueAt } from "./cell.ts";
import type { Deviates } from "./deviates.ts";
import { rootBetween } from "./root.ts";
import { finished, type Steps } from "./steps.ts";

/** The unknown that decides a check, and where along it the verdict tips. */
export interface Decisive {
  readonly given: Given;
  /** Its value at which the deciding gap is 0, all other unknowns at their medians; undefined where nothing tips on it alone. */
  readonly tipping: number | undefined;
  /** Share of belief in which the check would hold if this were measured at its median. */
  readonly shareIfMeasured: number;
  /** Share of the variance of the pass indicator that it carries by itself. */
  readonly carries: number;
  /** Belief switches that had to stand at their unkind word for it to tip. */
  readonly when: readonly { readonly given: Given; readonly word: string }[];
}

const bins = 20;
/** Share of the variance of an indicator over belief that one unknown explains by itself, by 20 equal bins; bias of the binning taken off. */
export function explained(z: Float64Array, holds: Uint8Array, weights: Float64Array): number {
  const order = orderOf(z);
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

/** Places of a column from its least number up. An input's draws are the same column in every check, and sorted once. */
function orderOf(z: Float64Array): Uint32Array {
  const known = orders.get(z);
  if (known) return known;
  const order = Uint32Array.from(z, (_, k) => k).sort((a, b) => z[a]! - z[b]!);
  orders.set(z, order);
  return order;
}
const orders = new WeakMap<Float64Array, Uint32Array>();

/**
 * Finds the decisive unknown of one check: the largest share of the variance of the pass indicator, the first in that order that
 * tips by itself; its tipping value by root finding on the deciding gap; and the share if it were measured at its median. A belief switch
 * has no median: where nothing tips with the switches at their likelier word, they stand at the unkind one, and the finding says so.
 */
export const decisive = (
  cell: Cell,
  deviates: Deviates,
  c: number,
  deciding: Deciding,
  weights: Float64Array,
): Decisive | undefined => finished(decisiveInSteps(cell, deviates, c, deciding, weights));

/** The same, one unknown's tipping value a step. */
export function* decisiveInSteps(
  cell: Cell,
  deviates: Deviates,
  c: number,
  deciding: Deciding,
  weights: Float64Array,
): Steps<Decisive | undefined> {
  const check = cell.checks[c]!;
  const alone = new Cell(cell.scene, [check]);
  const holds = Uint8Array.from(deciding.gap, (g) => (g >= 0 ? 1 : 0));
  const ranked = alone.unknowns
    .map((given) => ({ given, carries: explained(beliefColumn(deviates, given), holds, weights) }))
    .sort((a, b) => b.carries - a.carries || (a.given.address < b.given.address ? -1 : 1))
    .slice(0, 4);
  const found = (given: Given, carries: number, tipping: number | undefined, when: Decisive["when"]): Decisive => ({
    given,
    carries,
    tipping,
    when,
    shareIfMeasured: shareIfMeasured(alone, deviates, given, deciding, weights),
  });
  for (const { given, carries } of ranked) {
    const tipping = tippingValue(alone, deviates, given);
    yield;
    if (tipping !== undefined) return found(given, carries, tipping, []);
  }
  const unkind = unkindWords(alone, deviates);
  if (unkind.length > 0)
    for (const { given, carries } of ranked) {
      if (given.unknown?.law === "switch") continue;
      const tipping = tippingValue(alone, deviates, given, unkind);
      yield;
      if (tipping !== undefined) return found(given, carries, tipping, unkind);
    }
  const first = ranked[0];
  return first && found(first.given, first.carries, undefined, []);
}

/** A belief switch held at one of its words. */
interface Held {
  readonly given: Given;
  readonly word: string;
  readonly z: number;
}
const far = 5;
/** The word of each belief switch at which the deciding gap is the lesser. */
function unkindWords(cell: Cell, deviates: Deviates): Held[] {
  return cell.unknowns.flatMap((given) => {
    const u = given.unknown!;
    if (u.law !== "switch") return [];
    const [nought, one] = [
      decidingGapAt(cell, deviates, given, -far, []),
      decidingGapAt(cell, deviates, given, far, []),
    ];
    return [{ given, word: u.words[one < nought ? 1 : 0], z: one < nought ? far : -far }];
  });
}

/** Deciding gap with one unknown at a coordinate, some switches held, all else at its median. */
function decidingGapAt(cell: Cell, deviates: Deviates, given: Given, z: number, held: readonly Held[]): number {
  const n = cell.scatters.length > 0 ? scatterDraws : 1;
  const gap = cell.gaps({
    n,
    unknown: (g) => (g.address === given.address ? z : held.find((h) => h.given.address === g.address)?.z),
    scatter: scatterStanding(deviates),
  })[0]!;
  const q = quantile(gap, cell.scene.requirement.allowPairs);
  return Number.isFinite(q) ? q : -1e30;
}

/** Value of the unknown at which the deciding gap is 0, others at their medians; the tip nearest to its own median. */
export function tippingValue(
  cell: Cell,
  deviates: Deviates,
  given: Given,
  held: readonly Held[] = [],
): number | undefined {
  const at = (z: number): number => decidingGapAt(cell, deviates, given, z, held);
  if (given.unknown?.law === "switch") return at(-far) >= 0 === at(far) >= 0 ? undefined : 1;
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

/** Drawn anew where the fitted allowance needed true draws at many belief draws, else with that allowance. */
function shareIfMeasured(
  cell: Cell,
  deviates: Deviates,
  given: Given,
  { kappa, drawn }: Deciding,
  weights: Float64Array,
): number {
  if (drawn > fewTrue) return weightWhere(weights, decide(cell, deviates, { measured: given })[0]!.gap, (g) => g >= 0);
  const unknown = (g: Given) => (g.address === given.address ? 0 : beliefColumn(deviates, g));
  const written = cell.sideGaps({ n: beliefDraws, unknown });
  return weightWhere(
    weights,
    holding(cell, written, spreadOver(cell, beliefDraws, unknown, written), [kappa])[0]!,
    (h) => h === 1,
  );
}
const fewTrue = beliefDraws / 20;
function weightWhere(weights: Float64Array, column: ArrayLike<number>, held: (v: number) => boolean): number {
  let total = 0;
  let sum = 0;
  for (let k = 0; k < weights.length; k++) {
    total += weights[k]!;
    if (held(column[k]!)) sum += weights[k]!;
  }
  return sum / total;
}
