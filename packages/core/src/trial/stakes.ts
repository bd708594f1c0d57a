/**
 * What one unknown puts at stake over all wanted pairs, and how far a trial of each kind would save it.
 *
 *     P = sum of w where some pair fails,    L = mean over those of  late + further (n - 1),  summed over units
 *     a L P = sum of w (late M + further (S - M)),    (1 - P)(1 - b) = sum of w M where none fails
 *
 * n  pairs of a unit that fail at a draw     M, S  greatest and sum of the chances that the trial calls a failing pair failing (where none fails: any pair)     w  weight of the draw
 * late, further  days lost if the first, and each other, is found late
 *
 * So L counts every wanted width. Pairs of a unit that one reading judges go together: one change of the design serves them all, so the first costs the most. A
 * trial piece is cut for the pair that fails most; what else fails with it is caught with it.
 */
import type { Station } from "../quantity/check.ts";
import { type BenchCosts, partKind } from "./costs.ts";
import { alarm, type Cut } from "./power.ts";
import type { Trial } from "./worth.ts";

/** A check of a wanted pair that hangs on the unknown. */
export interface Stake {
  readonly unit: string;
  readonly tape: string;
  readonly check: string;
  readonly station: Station;
  /** 1 where the check holds, at each belief draw. */
  readonly holds: Uint8Array;
  /** Where a reading of the unknown is cut; absent where it tells nothing. */
  readonly cut?: Cut;
}
/** Chances that a trial calls each of the stakes failing, at a draw. */
export type Calls = (draw: number, out: Float64Array) => void;

/** A reading of the unknown calls each by its own tipping value. */
export const callsOfReading =
  (stakes: readonly Stake[], values: Float64Array, error: (value: number) => number): Calls =>
  (k, out) => {
    const v = values[k]!;
    const e = error(v);
    stakes.forEach(({ cut }, i) => {
      out[i] = cut ? alarm(v, cut, e) : 0;
    });
  };
/** A trial piece cut for one of them judges that one, and with it all that hang on the unknown. */
export const callsOfPiece =
  (
    stakes: readonly Stake[],
    worst: number,
    { catches, passesGood }: { readonly catches: number; readonly passesGood: number },
  ): Calls =>
  (k, out) => {
    out.fill(stakes[worst]!.holds[k] ? 1 - passesGood : catches);
  };
/** A whole prototype judges the whole unit: whatever fails shows with that chance. */
export const callsOfPrototype =
  (
    stakes: readonly Stake[],
    { catches, passesGood }: { readonly catches: number; readonly passesGood: number },
  ): Calls =>
  (k, out) => {
    out.fill(stakes.some((s) => !s.holds[k]) ? catches : 1 - passesGood);
  };
/** The stake that fails in most of belief. */
export function worstOf(stakes: readonly Stake[], weights: Float64Array): number {
  let [worst, most] = [0, -1];
  stakes.forEach(({ holds }, i) => {
    const p = failing(holds, weights);
    if (p > most) [worst, most] = [i, p];
  });
  return worst;
}
export function failing(holds: Uint8Array, weights: Float64Array): number {
  let [sum, all] = [0, 0];
  for (let k = 0; k < holds.length; k++) {
    all += weights[k]!;
    if (!holds[k]) sum += weights[k]!;
  }
  return all > 0 ? sum / all : 0;
}

/** The trial as one go or no-go, in the terms of worth.ts. */
export function trialOf(
  stakes: readonly Stake[],
  weights: Float64Array,
  calls: Calls,
  days: number,
  costs: BenchCosts,
): Trial {
  const kinds = stakes.map((s) => partKind(s.station));
  const units = [...new Set(stakes.map((s) => s.unit))].map((unit) => {
    const mine = stakes.flatMap((s, i) => (s.unit === unit ? [i] : []));
    const tapes = [...new Set(mine.map((i) => stakes[i]!.tape))];
    return tapes.map((tape) => mine.filter((i) => stakes[i]!.tape === tape));
  });
  const out = new Float64Array(stakes.length);
  let [all, fails, late, caught, alarmed] = [0, 0, 0, 0, 0];
  for (let k = 0; k < weights.length; k++) {
    const w = weights[k]!;
    if (w === 0) continue;
    all += w;
    calls(k, out);
    let any = false;
    for (const pairs of units) {
      let [n, first, most, sum] = [0, 0, 0, 0];
      for (const pair of pairs) {
        let called = -1;
        for (const i of pair) {
          if (stakes[i]!.holds[k]) continue;
          called = Math.max(called, out[i]!);
          first = Math.max(first, costs.late[kinds[i]!]);
        }
        if (called < 0) continue;
        n++;
        sum += called;
        most = Math.max(most, called);
      }
      if (n === 0) continue;
      any = true;
      late += w * (first + costs.further * (n - 1));
      caught += w * (first * most + costs.further * (sum - most));
    }
    if (any) fails += w;
    else alarmed += w * out.reduce((a, b) => Math.max(a, b), 0);
  }
  const within = (v: number): number => Math.min(1, Math.max(0, v));
  return {
    fails: within(fails / all),
    catches: late > 0 ? within(caught / late) : 0,
    passesGood: all - fails > 0 ? within(1 - alarmed / (all - fails)) : 1,
    late: fails > 0 ? late / fails : 0,
    falseAlarm: Math.max(0, ...kinds.map((kind) => costs.falseAlarm[kind])),
    cost: days,
  };
}
