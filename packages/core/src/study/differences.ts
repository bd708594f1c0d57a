import { finished, type Steps } from "./steps.ts";

/**
 * A number that takes long to compute, as its first differences about one place.
 *
 *     f(x) = f(x0) + sum over i of s_i |x_i - x0_i|,    s_i = (f(x0 + h_i e_i) - f(x0))/h_i above x0_i, (f(x0 - h_i e_i) - f(x0))/h_i below it
 *
 * x0   the inputs as written;  h_i  1.2 sd of input i over a sample of belief and scatter together
 *
 * Where slopes alone are not good enough, the second differences of the six inputs that move f most are added, a bend on each side and a
 * product for each pair of sides:
 *
 *     + sum over i of c_i |d_i| (|d_i| - h_i) + sum over i < j of c_ij |d_i d_j|,    d = x - x0
 *
 * c_i from f at x0 + 2 h_i e_i, c_ij from f at x0 +- h_i e_i +- h_j e_j: a flank's angle times a tape's thickness is such a product.
 *
 * A slope on each side, because what is computed is often the least of several distances, with a kink. Tested on `tested` draws of the
 * sample: where the error's rms is over 10 % of the sd of f there, and in any draw in which an input leaves twice the sample's reach, f is computed itself.
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
  /** Second differences, where slopes alone were not good enough. */
  readonly bends?: readonly Bend[];
  /** rms of the error over the sd of f, both on the sample; 0 where nothing moves. */
  readonly error: number;
}

/** What two inputs do together beyond what each does alone, by the sides they stand on; of an input with itself, its own bend. */
export interface Bend {
  readonly i: number;
  readonly j: number;
  /** For i and j above, i above and j below, i below and j above, both below; of an input with itself the first and the last count. */
  readonly by: Float64Array;
  /** Distance at which an input's own bend is nothing, since its slope was taken there. */
  readonly h: number;
}
/** As many inputs may bend. */
const mostBent = 6;

/** Draws of the sample, and how many of them test it. */
export const sampleDraws = 60;
const tested = 50;
/** Error's rms over sd of f at which it may stand for f. */
export const goodEnough = 0.1;
/** The same for a model that has many kinks and takes long. */
export const goodEnoughCoarse = 0.5;
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
  const slopes = { at, value, above, below, reach };
  const first = yield* testedOn(f, slopes, sample);
  if (first.error <= goodEnough || !Number.isFinite(first.error)) return { ...slopes, error: first.error };
  const bends = yield* bendsOf(f, slopes, sample);
  const second = yield* testedOn(f, { ...slopes, bends }, sample, first.truth);
  return second.error < first.error ? { ...slopes, bends, error: second.error } : { ...slopes, error: first.error };
}

/** Error of what stands for f on the sample, and f itself there. */
function* testedOn(
  f: (x: Float64Array) => number,
  made: Slopes & Pick<Differences, "bends">,
  sample: readonly (number | Float64Array)[],
  known?: Float64Array,
): Steps<{ readonly error: number; readonly truth: Float64Array }> {
  const { at, value } = made;
  const truth = known ?? new Float64Array(tested);
  const place = new Float64Array(at.length);
  let squares = 0;
  let sum = 0;
  let sumOfSquares = 0;
  for (let k = 0; k < tested; k++) {
    sample.forEach((column, i) => {
      place[i] = typeof column === "number" ? column : column[k]!;
    });
    const true_ = known ? known[k]! : f(place);
    truth[k] = true_;
    squares += (standing(made, place) - true_) ** 2;
    sum += true_ - value;
    sumOfSquares += (true_ - value) ** 2;
    if (!known) yield;
  }
  const rms = Math.sqrt(squares / tested);
  const sd = Math.sqrt(Math.max(0, sumOfSquares / tested - (sum / tested) ** 2));
  const error = Number.isNaN(rms)
    ? Number.POSITIVE_INFINITY
    : rms <= tiny * Math.abs(value) || rms === 0
      ? 0
      : rms / sd;
  return { error, truth };
}

/** Second differences of the inputs that move f most, one value of f a step. */
function* bendsOf(
  f: (x: Float64Array) => number,
  { at, value, above, below }: Slopes,
  sample: readonly (number | Float64Array)[],
): Steps<readonly Bend[]> {
  const h = sample.map((column, i) => (typeof column === "number" ? 0 : 1.2 * deviationFrom(column, at[i]!)));
  const moves = (i: number): number => h[i]! * Math.max(Math.abs(above[i]!), Math.abs(below[i]!));
  const bent = [...at.keys()]
    .filter((i) => moves(i) > 0)
    .sort((i, j) => moves(j) - moves(i))
    .slice(0, mostBent);
  const x = at.slice();
  const alone = (i: number, side: number): number => (side > 0 ? above[i]! : -below[i]!) * side * h[i]!;
  const out: Bend[] = [];
  for (const [n, i] of bent.entries()) {
    const own = new Float64Array(4);
    for (const side of [1, -1]) {
      x[i] = at[i]! + 2 * side * h[i]!;
      const beyond = f(x) - value - 2 * alone(i, side);
      x[i] = at[i]!;
      // Nothing at 0 and at h, where the slope was taken; at 2 h what is left there.
      if (Number.isFinite(beyond)) own[side > 0 ? 0 : 3] = beyond / (2 * h[i]! ** 2);
      yield;
    }
    out.push({ i, j: i, by: own, h: h[i]! });
    for (const j of bent.slice(n + 1)) {
      const by = new Float64Array(4);
      for (const [q, [si, sj]] of sides.entries()) {
        x[i] = at[i]! + si * h[i]!;
        x[j] = at[j]! + sj * h[j]!;
        const together = f(x) - value - alone(i, si) - alone(j, sj);
        x[i] = at[i]!;
        x[j] = at[j]!;
        if (Number.isFinite(together)) by[q] = together / (h[i]! * h[j]!);
        yield;
      }
      out.push({ i, j, by, h: 0 });
    }
  }
  return out;
}
const sides = [
  [1, 1],
  [1, -1],
  [-1, 1],
  [-1, -1],
] as const;
const bendAt = ({ by, h }: Bend, di: number, dj: number): number =>
  by[(di < 0 ? 2 : 0) + (dj < 0 ? 1 : 0)]! * Math.abs(di) * (h > 0 ? Math.abs(di) - h : Math.abs(dj));

/**
 * The same over columns, one loop for each kind of pair. Which side a draw stands on is a coin's throw, which a processor guesses wrong half the
 * time: the side is put in by the number's size, |a| beside a, and the loops have no branch (five times as quick).
 */
function addBend(bend: Bend, p: number | Float64Array, q: number | Float64Array, out: Float64Array, n: number): void {
  if (typeof p === "number" && typeof q === "number") {
    const one = bendAt(bend, p, q);
    for (let k = 0; k < n; k++) out[k]! += one;
    return;
  }
  const { by, h } = bend;
  const [uu, ud, du, dd] = [by[0]!, by[1]!, by[2]!, by[3]!];
  if (h > 0) {
    const x = p as Float64Array;
    const [even, odd] = [(uu + dd) / 2, (uu - dd) / 2];
    for (let k = 0; k < n; k++) {
      const a = x[k]!;
      const size = Math.abs(a);
      out[k]! += (even * size + odd * a) * (size - h);
    }
  } else if (typeof p === "number" || typeof q === "number") {
    const still = (typeof p === "number" ? p : q) as number;
    const x = (typeof p === "number" ? q : p) as Float64Array;
    const up = (typeof p === "number" ? (still < 0 ? du : uu) : still < 0 ? ud : uu) * Math.abs(still);
    const down = (typeof p === "number" ? (still < 0 ? dd : ud) : still < 0 ? dd : du) * Math.abs(still);
    const [even, odd] = [(up + down) / 2, (up - down) / 2];
    for (let k = 0; k < n; k++) {
      const a = x[k]!;
      out[k]! += even * Math.abs(a) + odd * a;
    }
  } else {
    const [even, first, second, odd] = [
      (uu + ud + du + dd) / 4,
      (uu + ud - du - dd) / 4,
      (uu - ud + du - dd) / 4,
      (uu - ud - du + dd) / 4,
    ];
    for (let k = 0; k < n; k++) {
      const a = p[k]!;
      const b = q[k]!;
      const size = Math.abs(a);
      out[k]! += (even * size + first * a) * Math.abs(b) + (second * size + odd * a) * b;
    }
  }
}

type Slopes = Pick<Differences, "at" | "value" | "above" | "below">;
/** What stands for f at a place. */
export function standing(
  { at, value, above, below, bends }: Slopes & Pick<Differences, "bends">,
  x: Float64Array,
): number {
  let out = value;
  for (let i = 0; i < at.length; i++) {
    const d = x[i]! - at[i]!;
    if (d > 0) out += above[i]! * d;
    else if (d < 0) out -= below[i]! * d;
  }
  for (const bend of bends ?? []) out += bendAt(bend, x[bend.i]! - at[bend.i]!, x[bend.j]! - at[bend.j]!);
  return out;
}

/**
 * What stands for f over columns of n, into `out`. The answer marks the rows in which an input stands outside the reach, where f has to be computed; empty where
 * there are none. Undefined where a number that is the same in all rows stands outside it, or the differences are not good enough.
 */
export function standingOver(
  d: Differences,
  columns: readonly (number | Float64Array)[],
  n: number,
  out: Float64Array,
  enough = goodEnough,
): Uint8Array | undefined {
  if (!(d.error <= enough)) return undefined;
  let still = d.value;
  const moving: { readonly column: Float64Array; readonly i: number }[] = [];
  let far: Uint8Array | undefined;
  for (const [i, column] of columns.entries()) {
    const from = d.at[i]!;
    const reach = d.reach[i]! + 1e-12 * Math.abs(from);
    if (typeof column === "number") {
      const by = column - from;
      if (!(Math.abs(by) <= reach)) return undefined;
      still += by > 0 ? d.above[i]! * by : -d.below[i]! * by;
      continue;
    }
    moving.push({ column, i });
    if (farthestFrom(column, from) <= reach) continue;
    far ??= new Uint8Array(n);
    for (let k = 0; k < n; k++) if (!(Math.abs(column[k]! - from) <= reach)) far[k] = 1;
  }
  out.fill(still);
  for (const { column, i } of moving) {
    const from = d.at[i]!;
    const up = d.above[i]!;
    const down = -d.below[i]!;
    if (up === 0 && down === 0) continue;
    const [even, odd] = [(up - down) / 2, (up + down) / 2];
    for (let k = 0; k < n; k++) {
      const by = column[k]! - from;
      out[k]! += even * Math.abs(by) + odd * by;
    }
  }
  const off = new Map<number, number | Float64Array>();
  const offOf = (i: number): number | Float64Array => {
    const known = off.get(i);
    if (known !== undefined) return known;
    const [column, from] = [columns[i]!, d.at[i]!];
    const made = typeof column === "number" ? column - from : new Float64Array(n);
    if (typeof made === "object") for (let k = 0; k < n; k++) made[k] = (column as Float64Array)[k]! - from;
    off.set(i, made);
    return made;
  };
  for (const bend of d.bends ?? []) addBend(bend, offOf(bend.i), offOf(bend.j), out, n);
  return far ?? none;
}
const none: Uint8Array = new Uint8Array();

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
