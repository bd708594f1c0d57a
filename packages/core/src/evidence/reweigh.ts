/**
 * Belief after a result that is not a reading of one input: a trial that passed, a count, a slip at some force.
 *
 *     w_i ~ L(y | z_i) phi(z_i)/q(z_i),   effective draws (sum w)^2/sum w^2,   chance of the result before it: mean of L phi/q
 *
 * z_i  draws of the unknowns in standard normal coordinates, N of them     L  likelihood of the results, a chance in 0..1     q  law they were drawn by: N(0, I) first
 *
 * Under 200 effective draws of 4000 (in that proportion) a normal law is fitted to the weighted draws, widened by a fifth, drawn anew and weighed again, at most 5
 * times. Below a chance of 0.01 the result contradicts the model: it must not be taken in silently. Draws that stay too few say the same.
 * Importance sampling; textbook. Good to about 10 unknowns that the result moves.
 */
import { Deviates } from "../study/deviates.ts";
import { Triangle } from "./linear-fit.ts";

export interface Reweighed {
  /** z[i] is the column of unknown i. */
  readonly z: readonly Float64Array[];
  /** They sum to 1. */
  readonly weights: Float64Array;
  readonly effective: number;
  readonly refits: number;
  /** Chance of the result before it was known. */
  readonly chance: number;
  /** Why the result should not be taken in. */
  readonly contradiction?: string;
}
const fewestShare = 200 / 4000;
const mostRefits = 5;
const leastChance = 0.01;
const widened = 1.2;

export function reweigh(
  unknowns: number,
  draws: number,
  /** Writes the logarithm of the likelihood at every draw into `out`. */
  logLikelihood: (z: readonly Float64Array[], out: Float64Array) => void,
  seed: number,
): Reweighed {
  if (!(Number.isInteger(unknowns) && unknowns >= 1)) throw new RangeError(`${unknowns} unknowns; it takes 1 or more`);
  if (!(Number.isInteger(draws) && draws >= 100)) throw new RangeError(`${draws} draws; it takes 100 or more`);
  const deviates = new Deviates(seed);
  const standard = (turn: number): Float64Array[] =>
    Array.from({ length: unknowns }, (_, i) => deviates.normal(`reweigh ${turn} ${i}`, draws));
  let z = standard(0);
  let logRatio = new Float64Array(draws);
  const log = new Float64Array(draws);
  for (let refits = 0; ; refits++) {
    logLikelihood(z, log);
    let top = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < draws; k++) {
      if (log[k]! > 1e-12 || Number.isNaN(log[k]))
        throw new RangeError(`a likelihood has the logarithm ${log[k]}; it must be a chance`);
      top = Math.max(top, log[k]! + logRatio[k]!);
    }
    if (top === Number.NEGATIVE_INFINITY)
      return {
        z,
        weights: new Float64Array(draws).fill(1 / draws),
        effective: 0,
        refits,
        chance: 0,
        contradiction: "the result is impossible at every draw of belief",
      };
    const weights = log.map((l, k) => Math.exp(l + logRatio[k]! - top));
    const sum = weights.reduce((a, b) => a + b, 0);
    let squares = 0;
    for (let k = 0; k < draws; k++) {
      weights[k]! /= sum;
      squares += weights[k]! ** 2;
    }
    const effective = 1 / squares;
    const chance = Math.min(1, Math.exp(top) * (sum / draws));
    const starved = effective < fewestShare * draws;
    if (!starved || refits === mostRefits) {
      const why = starved
        ? `the result contradicts the model: ${Math.round(effective)} of ${draws} draws account for it; its chance was ${chance.toPrecision(2)}`
        : chance < leastChance
          ? `the result contradicts the model: its chance was ${chance.toPrecision(2)}`
          : undefined;
      return { z, weights, effective, refits, chance, ...(why === undefined ? {} : { contradiction: why }) };
    }
    ({ z, logRatio } = redrawn(z, weights, standard(refits + 1)));
  }
}
/** A normal law with the weighted draws' mean and covariance, widened, drawn anew: z = m + L e, and ln phi(z) - ln q(z). */
function redrawn(
  z: readonly Float64Array[],
  weights: Float64Array,
  e: readonly Float64Array[],
): { z: Float64Array[]; logRatio: Float64Array<ArrayBuffer> } {
  const d = z.length;
  const n = weights.length;
  const mean = z.map((column) => column.reduce((sum, v, k) => sum + weights[k]! * v, 0));
  // The triangle of the weighted deviations is the covariance's root: R'R = sum w (z - m)(z - m)'. A little of the unit law keeps it from collapsing.
  const rows = n + d;
  const a = new Float64Array(rows * d);
  for (let i = 0; i < d; i++) {
    for (let k = 0; k < n; k++) a[i * rows + k] = widened * Math.sqrt(weights[k]!) * (z[i]![k]! - mean[i]!);
    a[i * rows + n + i] = 0.02;
  }
  const root = new Triangle(a, rows, d);
  let lnDet = 0;
  for (let i = 0; i < d; i++) lnDet += Math.log(Math.abs(root.diagonal(i)));
  const logRatio = new Float64Array(n);
  const out = Array.from({ length: d }, () => new Float64Array(n));
  for (let k = 0; k < n; k++) {
    let l = lnDet;
    for (let i = 0; i < d; i++) {
      let v = mean[i]!;
      for (let j = 0; j <= i; j++) v += root.at(j, i) * e[j]![k]!;
      out[i]![k] = v;
      l += 0.5 * (e[i]![k]! ** 2 - v * v);
    }
    logRatio[k] = l;
  }
  return { z: out, logRatio };
}
