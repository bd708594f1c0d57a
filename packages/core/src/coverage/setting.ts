import type { Given } from "../quantity/given.ts";
import { power } from "../quantity/power.ts";
import { shownUnit } from "../quantity/show.ts";
import { type Deciding, holding, spreadOver } from "../study/allowance.ts";
import { beliefColumn, beliefDraws, Cell } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { finished, type Steps } from "../study/steps.ts";
import type { Setting } from "./finding.ts";

const tried = 11;
/** Belief draws used for this: every fourth. */
const every = 4;

/**
 * What a number that can be set on the finished unit (a preload, a clutch) could do: the share of belief in which some setting makes all hard
 * checks hold, and the one setting that holds in most of it. Tried at eleven values, evenly in the logarithm, from a third to three times
 * the drawn one within its bounds, with the scatter allowance as drawn. Undefined where no such number matters.
 */
export const bestSetting = (...what: Parameters<typeof bestSettingInSteps>): Setting | undefined =>
  finished(bestSettingInSteps(...what));

/** The same, one setting a step. */
export function* bestSettingInSteps(
  cell: Pick<Cell, "scene" | "checks" | "quantities">,
  deviates: Deviates,
  deciding: readonly Deciding[],
  hard: readonly number[],
  weights: Float64Array,
): Steps<Setting | undefined> {
  const n = beliefDraws / every;
  const columns = new Map<Given, Float64Array>();
  const unknown = (g: Given): Float64Array => {
    const known = columns.get(g) ?? beliefColumn(deviates, g).filter((_, k) => k % every === 0);
    columns.set(g, known);
    return known;
  };
  const nominal = new Realiser(cell.scene, cell.quantities);
  const drawnAt = nominal.run(asWritten);
  let best: Setting | undefined;
  for (const given of nominal.givens) {
    if (!given.settable || !given.lever) continue;
    const touched = hard.filter((c) => new Cell(cell.scene, [cell.checks[c]!]).readsGiven(given));
    if (touched.length === 0 || !touched.some((c) => deciding[c]!.gap.some((g) => g < 0))) continue;
    const part = new Cell(
      cell.scene,
      touched.map((c) => cell.checks[c]!),
    );
    const x = drawnAt.number(given);
    // The drawn one is in the middle and stays as it is, even outside its bounds.
    const middle = (tried - 1) / 2;
    const settings = Array.from({ length: tried }, (_, i) =>
      i === middle ? x : clamp(x * power(3, i / middle - 1), given.lever!),
    );
    const others = hard.filter((c) => !touched.includes(c));
    const rest = Uint8Array.from({ length: n }, (_, k) =>
      others.every((c) => deciding[c]!.gap[k * every]! >= 0) ? 1 : 0,
    );
    const some = new Uint8Array(n);
    let atBest = -1;
    let bestValue = x;
    let drawn = 0;
    for (const [i, value] of settings.entries()) {
      const moved = (g: Given) => (g === given ? value - x : undefined);
      const written = part.sideGaps({ n, unknown, moved });
      const holds = holding(
        part,
        written,
        spreadOver(part, n, unknown, written, moved),
        touched.map((c) => deciding[c]!.kappa),
      );
      let held = 0;
      let total = 0;
      for (let k = 0; k < n; k++) {
        const w = weights[k * every]!;
        total += w;
        if (rest[k] !== 1 || !holds.every((h) => h[k])) continue;
        held += w;
        some[k] = 1;
      }
      const share = total > 0 ? held / total : 0;
      if (i === middle) drawn = share;
      if (share > atBest + 1e-12) {
        atBest = share;
        bestValue = value;
      }
      yield;
    }
    let exists = 0;
    let total = 0;
    for (let k = 0; k < n; k++) {
      total += weights[k * every]!;
      if (some[k]) exists += weights[k * every]!;
    }
    const found: Setting = {
      address: given.address,
      exists: exists / total,
      drawn,
      best: bestValue,
      atBest,
      unit: given.unit,
      shownIn: shownUnit(given),
    };
    if (found.exists > found.drawn + 0.02 && (!best || found.exists > best.exists)) best = found;
  }
  return best;
}
const clamp = (v: number, [low, high]: readonly [number, number]): number => Math.min(high, Math.max(low, v));
