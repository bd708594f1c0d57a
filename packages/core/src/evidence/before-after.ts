/**
 * Cells before and after results were taken in: the same draws under other weights, so a cell costs one sum and no model is run.
 *
 *     share = sum of w_k over the draws at which every hard check holds
 */

import { holdsAt } from "../coverage/cure.ts";
import type { Verdict } from "../coverage/verdict.ts";
import { verdictOf } from "../coverage/verdict.ts";
import type { Check } from "../quantity/check.ts";
import type { Scene } from "../scene.ts";
import { decide } from "../study/allowance.ts";
import { Cell } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";

/** What holds of one unit on one tape at each belief draw: the hard checks that apply. */
export interface HeldCell {
  readonly unit: string;
  readonly tape: string;
  readonly checks: readonly { readonly id: string; readonly holds: Uint8Array }[];
}
export function heldCell(
  unit: string,
  tape: string,
  scene: Scene,
  checks: readonly Check[],
  deviates: Deviates,
): HeldCell {
  const cell = new Cell(
    scene,
    checks.filter((c) => c.severity === "S"),
  );
  const deciding = decide(cell, deviates);
  return { unit, tape, checks: cell.checks.map(({ id }, c) => ({ id, holds: holdsAt(deciding[c]!.gap) })) };
}
/** Share, verdict, and the check that holds in least of belief. */
export interface CellShare {
  readonly share: number;
  readonly verdict: Verdict;
  readonly first: string | undefined;
}
export function cellShare({ checks }: HeldCell, weights: Float64Array, contradicted: ReadonlySet<string>): CellShare {
  const counted = checks.filter((c) => !contradicted.has(c.id));
  if (counted.length === 0) return { share: Number.NaN, verdict: "n/a", first: undefined };
  let [total, all] = [0, 0];
  const alone = counted.map(() => 0);
  for (let k = 0; k < weights.length; k++) {
    const w = weights[k]!;
    total += w;
    let every = true;
    for (const [c, { holds }] of counted.entries()) {
      if (holds[k]) alone[c]! += w;
      else every = false;
    }
    if (every) all += w;
  }
  const share = all / total;
  const least = alone.reduce((best, v, c) => (v < alone[best]! ? c : best), 0);
  return { share, verdict: verdictOf(share), first: verdictOf(share) === "feeds" ? undefined : counted[least]!.id };
}
export interface CellMove {
  readonly unit: string;
  readonly tape: string;
  readonly before: CellShare;
  readonly after: CellShare;
}
/** Every cell before and after, those whose verdict changes first, then by how far the share moves. */
export function cellMoves(
  cells: readonly HeldCell[],
  before: Float64Array,
  after: Float64Array,
  contradicted: ReadonlySet<string>,
): CellMove[] {
  return movesBetween({ cells, weights: before, contradicted }, { cells, weights: after, contradicted });
}
export interface Believed {
  readonly cells: readonly HeldCell[];
  readonly weights: Float64Array;
  readonly contradicted: ReadonlySet<string>;
}
/** The same where the cells were run anew in between; both lists in one order. */
export function movesBetween(before: Believed, after: Believed): CellMove[] {
  const moves = before.cells.map((cell, i) => ({
    unit: cell.unit,
    tape: cell.tape,
    before: cellShare(cell, before.weights, before.contradicted),
    after: cellShare(after.cells[i]!, after.weights, after.contradicted),
  }));
  const turns = (m: CellMove): number => (m.before.verdict === m.after.verdict ? 0 : 1);
  const far = (m: CellMove): number => Math.abs(m.after.share - m.before.share) || 0;
  return moves.sort((a, b) => turns(b) - turns(a) || far(b) - far(a));
}
