/**
 * What a design foretells of a trial, before it is run: middle and the ends that hold it in 95 %.
 *
 *     unknown   2.5, 50 and 97.5 % points of belief
 *     check     those of its value, each half widened by the scatter of one piece: sqrt(half^2 + (1.96 r median)^2)
 *     pieces    those of the chance that one piece fails
 *
 * r  scatter of the value between pieces, as a share (tried.ts). Belief is weighed by known units and by results taken in before.
 */
import { shareHolding } from "../coverage/verdict.ts";
import { chanceByPiece, foretold } from "../evidence/tried.ts";
import type { Check } from "../quantity/check.ts";
import { chosen } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import { endsOfGuess } from "../quantity/law.ts";
import type { Scene } from "../scene.ts";
import { beliefColumn, valueAt } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";
import { weightedQuantile } from "../study/two-levels.ts";

export interface Interval {
  readonly median: number;
  readonly low: number;
  readonly high: number;
}
const pointsOf = (values: Float64Array, weights: Float64Array): Interval => ({
  median: weightedQuantile(values, weights, 0.5),
  low: weightedQuantile(values, weights, 0.025),
  high: weightedQuantile(values, weights, 0.975),
});

export function foretellUnknown(given: Given, deviates: Deviates, weights: Float64Array): Interval {
  if (!given.unknown) throw new RangeError(`${given.address} is no guess: there is nothing to foretell`);
  return pointsOf(
    Float64Array.from(beliefColumn(deviates, given), (z) => valueAt(given, z)),
    weights,
  );
}
export interface ForetoldCheck {
  /** Of the check's value; undefined where the model gives no number at some draws that count. */
  readonly value: Interval | undefined;
  /** Chance that one piece fails. */
  readonly fails: Interval;
  /** Share of belief in which the check holds. */
  readonly share: number;
}
export function foretellCheck(scene: Scene, check: Check, deviates: Deviates, weights: Float64Array): ForetoldCheck {
  const { holds, gap } = chanceByPiece(scene, check, deviates);
  const value = chosen(check.value, scene) && widened(scene, check, deviates, weights);
  return {
    value: value && [value.median, value.low, value.high].every(Number.isFinite) ? value : undefined,
    fails: pointsOf(
      holds.map((p) => 1 - p),
      weights,
    ),
    share: shareHolding([gap], weights),
  };
}
function widened(scene: Scene, check: Check, deviates: Deviates, weights: Float64Array): Interval {
  const { values, share } = foretold(scene, check, deviates);
  const { median, low, high } = pointsOf(values, weights);
  const reach = endsOfGuess * share * Math.abs(median);
  return { median, low: median - Math.hypot(median - low, reach), high: median + Math.hypot(high - median, reach) };
}
