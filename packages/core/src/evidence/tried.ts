/**
 * What a trial of a check says of every belief draw: a reading of its value, or pieces that held and pieces that failed.
 *
 *     reading   y ~ N(v_k, (r v_k)^2/n + e^2)                                      n pieces, one mean each
 *     counts    P(holds | k) = prod over sides Phi(g_k/sqrt(s_k^2 + e^2)),   k of n failed: binomial
 *
 * v_k  the check's value at belief draw k, scatter as written     r  its scatter between pieces by first differences at the belief median, as a share
 * g_k, s_k  gap of a side of the window, and its sd over scatter   e  the reading's own error, SI
 *
 * Index scatter stands 3 sd on the unkind side in a gap, as in a verdict; a value is taken as written. A piece is a unit on a reel. Misfeeds counted
 * by the index are a rate, and a rate needs the misfeed model: they belong to the promise, and here only say which pieces held.
 * The model's own form is not widened: a reading it cannot give contradicts it, and that is a finding.
 */
import { type Check, chosen } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import { phi } from "../quantity/law.ts";
import type { Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { decide } from "../study/allowance.ts";
import { beliefColumn, beliefDraws, Cell, oneSd } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";
import { type Column, Realiser } from "../study/realise.ts";
import { lnFactorial } from "./contingency.ts";
import { reweigh } from "./reweigh.ts";
import type { Evidence } from "./taken.ts";

/** What came out of a trial of a check. */
export type Outcome =
  | {
      readonly kind: "value";
      /** The check's value, one mean a piece, SI. */
      readonly readings: readonly number[];
      /** sd that all readings share, SI. */
      readonly error: number;
    }
  | { readonly kind: "pieces"; readonly failed: number; readonly run: number; readonly error: number };
export interface Tried {
  readonly trial: string;
  readonly scene: Scene;
  readonly check: Check;
  readonly outcome: Outcome;
}
/** The value of a check over belief, and its scatter between pieces as a share of it. */
export interface Foretold {
  readonly values: Float64Array;
  readonly share: number;
}
const drawsForOne = 4000;

export function foretold(scene: Scene, check: Check, deviates: Deviates): Foretold {
  const value = valueIn(scene, check);
  const realiser = new Realiser(scene, [value]);
  const values = filled(
    realiser.run({ n: beliefDraws, unknown: (g) => beliefColumn(deviates, g), scatter: () => undefined }).column(value),
    beliefDraws,
  );
  return { values, share: scatterShare(realiser, value) };
}
/** Sum of squares of what one standard deviation of each scatter does to a value at the belief median, as a share of it. */
function scatterShare(realiser: Realiser, value: Quantity): number {
  const at = (given?: Given, which?: number): number =>
    realiser
      .run({ n: 1, unknown: () => 0, scatter: (g, w) => (g === given && w === which ? oneSd(g, w) : undefined) })
      .number(value);
  const middle = at();
  const off = realiser.givens.flatMap((given) =>
    given.scatters.flatMap((s, which) => (s.level === "index" ? [] : [at(given, which) - middle])),
  );
  return Math.hypot(...off.filter(Number.isFinite)) / Math.abs(middle);
}
function valueIn(scene: Scene, check: Check): Quantity {
  const value = chosen(check.value, scene);
  if (!value)
    throw new RangeError(`${check.id} has no value here: ${check.absent(scene) ?? "the unit has no such member"}`);
  return value;
}
const filled = (c: Column, n: number): Float64Array =>
  typeof c === "number" ? new Float64Array(n).fill(c) : c.slice();

export function triedEvidence({ trial, scene, check, outcome }: Tried, deviates: Deviates, seed = 1): Evidence {
  const blames = `the model of ${check.id}`;
  if (outcome.kind === "value") {
    const { values, share } = foretold(scene, check, deviates);
    const { log, atMost, atLeast } = ofReading(values, share, outcome);
    const value = valueIn(scene, check);
    const realiser = new Realiser(scene, [value]);
    const unknowns = realiser.givens.filter((g) => g.unknown);
    const sharp = (): boolean =>
      carried(unknowns, seed, (unknown, n) => {
        const column = filled(realiser.run({ n, unknown, scatter: () => undefined }).column(value), n);
        return ofReading(column, share, outcome).log;
      });
    return { trial, log, atMost, atLeast, sharp, blames };
  }
  const { cell, holds, spread } = chanceByPiece(scene, check, deviates, outcome.error);
  const sharp = (): boolean =>
    carried(cell.unknowns, seed, (unknown, n) => {
      const gaps = cell.sideGaps({ n, unknown });
      return ofPieces(
        chanceOfHolding(
          gaps,
          spread.map((s) => new Float64Array(n).fill(s)),
          outcome.error,
        ),
        outcome,
      ).log;
    });
  return { trial, ...ofPieces(holds, outcome), sharp, blames };
}

/** Chance at each belief draw that one piece, a unit on a reel, holds; its deciding gap beside. */
export function chanceByPiece(scene: Scene, check: Check, deviates: Deviates, error = 0) {
  const cell = new Cell(scene, [check]);
  const [deciding] = decide(cell, deviates);
  if (!deciding)
    throw new RangeError(`${check.id} does not apply: ${check.absent(scene) ?? "the unit has no such member"}`);
  const holds = chanceOfHolding(
    deciding.sides.map((s) => s.written),
    deciding.sides.map((s) => s.sd),
    error,
  );
  const spread = deciding.sides.map(({ sd }) => sd.reduce((sum, v) => sum + v, 0) / sd.length);
  return { cell, holds, spread, gap: deciding.gap };
}

function ofReading(values: Float64Array, share: number, { readings, error }: Extract<Outcome, { kind: "value" }>) {
  const n = readings.length;
  if (n === 0) throw new RangeError("no piece was read");
  const mean = readings.reduce((sum, v) => sum + v, 0) / n;
  const sd = values.map((v) => Math.hypot((share * v) / Math.sqrt(n), error));
  const least = sd.reduce((a, b) => (Number.isFinite(b) ? Math.min(a, b) : a), Number.POSITIVE_INFINITY);
  if (!(least > 0))
    throw new RangeError(
      "neither the value scatters nor does the reading have an error: nothing says how far they may differ",
    );
  const off = values.map((v, k) => (mean - v) / sd[k]!);
  return {
    log: off.map((t, k) => (Number.isFinite(t) ? -0.5 * t * t + Math.log(least / sd[k]!) : impossible)),
    atMost: off.map((t) => (Number.isFinite(t) ? phi(t) : 0)),
    atLeast: off.map((t) => (Number.isFinite(t) ? phi(-t) : 0)),
  };
}
/** Stands for the logarithm of 0. */
const impossible = -1e9;

function chanceOfHolding(gaps: readonly Float64Array[], sds: readonly Float64Array[], error: number): Float64Array {
  return gaps[0]!.map((_, k) =>
    gaps.reduce((chance, gap, i) => {
      const s = Math.hypot(sds[i]![k]!, error);
      const g = gap[k]!;
      return chance * (s > 0 && Number.isFinite(g) ? phi(g / s) : g >= 0 ? 1 : 0);
    }, 1),
  );
}
/** k of n pieces failed, at the chance of holding of each draw. */
function ofPieces(holds: Float64Array, { failed, run }: Extract<Outcome, { kind: "pieces" }>) {
  if (!(Number.isInteger(failed) && Number.isInteger(run) && run > 0 && failed >= 0 && failed <= run))
    throw new RangeError(`${failed} of ${run} pieces failed; both must be whole numbers, the first no greater`);
  const term = (p: number, j: number): number => {
    const power = (x: number, n: number): number => (n === 0 ? 0 : x > 0 ? n * Math.log(x) : impossible);
    return lnFactorial(run) - lnFactorial(j) - lnFactorial(run - j) + power(1 - p, j) + power(p, run - j);
  };
  const sum = (p: number, from: number, to: number): number => {
    let all = 0;
    for (let j = from; j <= to; j++) all += Math.exp(term(p, j));
    return Math.min(1, all);
  };
  return {
    log: holds.map((p) => Math.max(impossible, Math.min(0, term(p, failed)))),
    atMost: holds.map((p) => sum(p, 0, failed)),
    atLeast: holds.map((p) => sum(p, failed, run)),
  };
}
/** Whether draws made for the result carry it: then it is sharp, and contradicts nothing. */
function carried(
  unknowns: readonly Given[],
  seed: number,
  log: (unknown: (given: Given) => Column, n: number) => Float64Array,
): boolean {
  if (unknowns.length === 0) return false;
  const at = new Map(unknowns.map((g, i) => [g.address, i]));
  const found = reweigh(
    unknowns.length,
    drawsForOne,
    (z, out) => {
      const l = log((g) => z[at.get(g.address)!]!, drawsForOne);
      for (let k = 0; k < drawsForOne; k++) out[k] = Math.min(0, l[k]!);
    },
    seed,
  );
  return found.effective >= (200 / 4000) * drawsForOne;
}
