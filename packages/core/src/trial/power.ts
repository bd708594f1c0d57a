/**
 * How well a reading of one unknown tells whether a check holds.
 *
 *     a = sum over draws that fail of w Phi((u - t)/e) / sum of w,      1 - b: the same over those that hold
 *
 * u  value of the unknown at a belief draw     t  its tipping value     e  standard uncertainty of the reading there     w  weight of the draw
 * (fails above t; below it the sign turns)
 *
 * Other unknowns act too, so that even a perfect reading is no perfect judge: a below 1 with e = 0 says how much of the verdict hangs on this one.
 */
import { phi } from "../quantity/law.ts";

/** Where a reading is cut in two, and on which side the design is called failing. */
export interface Cut {
  readonly at: number;
  readonly stops: "above" | "below";
}
/** Chance that a reading of u falls on the failing side. */
export function alarm(u: number, { at, stops }: Cut, e: number): number {
  const past = stops === "above" ? u - at : at - u;
  return e > 0 ? phi(past / e) : past > 0 ? 1 : past < 0 ? 0 : 0.5;
}
/** The side of a tipping value on which the larger share of belief fails. */
export function sideOf(at: number, values: Float64Array, holds: Uint8Array, weights: Float64Array): Cut {
  const sums = { above: [0, 0], below: [0, 0] };
  for (let k = 0; k < values.length; k++) {
    const side = sums[values[k]! > at ? "above" : "below"];
    side[0]! += weights[k]!;
    if (!holds[k]) side[1]! += weights[k]!;
  }
  const share = ([all, failing]: number[]): number => (all! > 0 ? failing! / all! : Number.NaN);
  const [above, below] = [share(sums.above), share(sums.below)];
  // Where all of belief lies on one side, the other is the failing one if this one mostly holds.
  if (Number.isNaN(above)) return { at, stops: below < 0.5 ? "above" : "below" };
  if (Number.isNaN(below)) return { at, stops: above < 0.5 ? "below" : "above" };
  return { at, stops: above >= below ? "above" : "below" };
}
/** The cut that parts failing from holding draws best (greatest a + b), where no tipping value is known. Undefined where nothing fails, or nothing holds. */
export function bestCut(values: Float64Array, holds: Uint8Array, weights: Float64Array): Cut | undefined {
  const order = Array.from(values.keys()).sort((i, j) => values[i]! - values[j]!);
  let failing = 0;
  let holding = 0;
  for (let k = 0; k < values.length; k++)
    if (holds[k]) holding += weights[k]!;
    else failing += weights[k]!;
  if (!(failing > 0 && holding > 0)) return undefined;
  let best: Cut | undefined;
  let most = 0;
  let [f, h] = [0, 0];
  order.forEach((k, i) => {
    if (holds[k]) h += weights[k]! / holding;
    else f += weights[k]! / failing;
    const next = order[i + 1];
    if (next === undefined || values[next]! === values[k]!) return;
    // f - h is a + b - 1 of the cut here that calls everything below it failing.
    if (Math.abs(f - h) <= most) return;
    most = Math.abs(f - h);
    best = { at: (values[k]! + values[next]!) / 2, stops: f > h ? "below" : "above" };
  });
  return best;
}
