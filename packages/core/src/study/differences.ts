import { finished, type Steps } from "./steps.ts";

/**
 * A number that takes long to compute, as its first differences about one place.
 *
 *     f(x) = f(x0) + sum over i of s_i |x_i - x0_i|,    s_i = (f(x0 + h_i e_i) - f(x0))/h_i above x0_i, (f(x0 - h_i e_i) - f(x0))/h_i below it
 *
 * x0   the inputs as written;  h_i  1.2 sd of input i over a sample of belief and scatter together
 *
 * A slope on each side, because what is computed is often the least of several distances, with a kink. Tested on `tested` draws of the
 * sample: where the error's rms is over 10 % of the sd of f there, or an input leaves twice the sample's reach, f is computed itself.
 * So it is exact for what is linear on each side of x0, and never used unseen for what is not.
 */
export interface Differences {
  /** Place of the inputs as written. */
  readonly at: Float64Array;
  readonly value: number;
  readonly above: Float64Array;
  readonly below: Float64Array;
  /** How far from `at` each input may stand. */
  readonly reach: Float64Array;
  /** rms of the error over the sd of f, both on the sample; 0 where nothing moves. */
  readonly error: number;
}

/** Draws of the sample, and how many of them test it. */
export const sampleDraws = 60;
const tested = 50;
/** Error's rms over sd of f at which it may stand for f. */
export const goodEnough = 0.1;
/** An error of this share of f itself matters to nobody. */
const tiny = 1e-4;

/** Differences of f about `at`; `sample` holds a column of sampleDraws numbers for every input. f gives NaN where it has no answer. */
export const differences = (
  f: (x: Float64Array) => number,
  at: Float64Array,
  sample: readonly (number | Float64Array)[],
): Differences => finished(differencesInSteps(f, at, sample));

/** The same, one value of f a step. */
export function* differencesInSteps(
  f: (x: Float64Array) => number,
  at: Float64Array,
  sample: readonly (number | Float64Array)[],
): Steps<Differences> {
  const value = f(at);
  const above = new Float64Array(at.length);
  const below = new Float64Array(at.length);
  const reach = new Float64Array(at.length);
  const x = at.slice();
  for (const [i, column] of sample.entries()) {
    const h = typeof column === "number" ? Math.abs(column - at[i]!) : 1.2 * deviationFrom(column, at[i]!);
    if (!(h > 0)) continue;
    reach[i] = 2 * farthestFrom(column, at[i]!);
    x[i] = at[i]! + h;
    above[i] = (f(x) - value) / h;
    yield;
    x[i] = at[i]! - h;
    below[i] = (f(x) - value) / h;
    x[i] = at[i]!;
    yield;
  }
  const made = { at, value, above, below, reach };
  const place = new Float64Array(at.length);
  let squares = 0;
  let sum = 0;
  let sumOfSquares = 0;
  for (let k = 0; k < tested; k++) {
    sample.forEach((column, i) => {
      place[i] = typeof column === "number" ? column : column[k]!;
    });
    const true_ = f(place);
    squares += (standing(made, place) - true_) ** 2;
    sum += true_ - value;
    sumOfSquares += (true_ - value) ** 2;
    yield;
  }
  const rms = Math.sqrt(squares / tested);
  const sd = Math.sqrt(Math.max(0, sumOfSquares / tested - (sum / tested) ** 2));
  const error = Number.isNaN(rms)
    ? Number.POSITIVE_INFINITY
    : rms <= tiny * Math.abs(value) || rms === 0
      ? 0
      : rms / sd;
  return { ...made, error };
}

type Slopes = Pick<Differences, "at" | "value" | "above" | "below">;
/** What stands for f at a place. */
export function standing({ at, value, above, below }: Slopes, x: Float64Array): number {
  let out = value;
  for (let i = 0; i < at.length; i++) {
    const d = x[i]! - at[i]!;
    if (d > 0) out += above[i]! * d;
    else if (d < 0) out -= below[i]! * d;
  }
  return out;
}

/** What stands for f over columns of n; undefined where an input stands outside the reach, or the differences are not good enough. */
export function standingOver(
  d: Differences,
  columns: readonly (number | Float64Array)[],
  n: number,
  out: Float64Array,
): Float64Array | undefined {
  if (!(d.error <= goodEnough)) return undefined;
  let still = d.value;
  const moving: { readonly column: Float64Array; readonly i: number }[] = [];
  for (const [i, column] of columns.entries()) {
    const from = d.at[i]!;
    const reach = d.reach[i]! + 1e-12 * Math.abs(from);
    if (typeof column === "number") {
      const by = column - from;
      if (!(Math.abs(by) <= reach)) return undefined;
      still += by > 0 ? d.above[i]! * by : -d.below[i]! * by;
      continue;
    }
    if (!(farthestFrom(column, from) <= reach)) return undefined;
    moving.push({ column, i });
  }
  out.fill(still);
  for (const { column, i } of moving) {
    const from = d.at[i]!;
    const up = d.above[i]!;
    const down = -d.below[i]!;
    if (up === 0 && down === 0) continue;
    for (let k = 0; k < n; k++) {
      const by = column[k]! - from;
      out[k]! += (by > 0 ? up : down) * by;
    }
  }
  return out;
}

function deviationFrom(column: Float64Array, from: number): number {
  let squares = 0;
  for (const v of column) squares += (v - from) ** 2;
  return Math.sqrt(squares / column.length);
}
function farthestFrom(column: number | Float64Array, from: number): number {
  if (typeof column === "number") return Math.abs(column - from);
  let most = 0;
  for (let k = 0; k < column.length; k++) {
    const d = Math.abs(column[k]! - from);
    // Also where one is not a number: nothing reaches there.
    if (!(d <= most)) most = d;
  }
  return most;
}
