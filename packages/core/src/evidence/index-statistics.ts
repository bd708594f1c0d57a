/**
 * What a log says index by index, and of a run as a whole: kept when a log is read, so that nobody needs its million rows again.
 *
 *     by number    an index begins where its number changes        by command   where a command rises through half its range
 *     by travel    where floor(x/P) grows for the first time       P the pitch by which the tape is moved on
 *     mean_i, sd_i, greatest_i, least_i  over the rows of index i that hold a number
 *     outlier      greatest_i > median + 3 . 1.4826 MAD of all greatest_i: kept, marked by its row
 *     lag-one and independent readings   of the means of the indexes, which is what a further trial repeats
 *
 * x     travel, m       P   pitch, m        F   whatever was logged, SI
 *
 * Rows within an index are not independent, so the standard error rests on the indexes. The trend is a straight line through the rows of the plateau.
 * Ripple at a pitch, peaks and the plateau are those of `peelTrace`, of the trace laid on equal steps of travel: where the tape stands still, its many
 * rows count as one. Below three indexes there is no lag-one; without travel there is no ripple at a pitch.
 */
import type { Steps } from "../study/steps.ts";
import { peelTrace } from "./peel-trace.ts";
import { independentReadings, median, summary } from "./summary.ts";

/** First row of each index, and behind them the row after the last. */
export type IndexRows = Int32Array;
const rowsPerStep = 32_768;

export function* indexesByNumber(number: Float64Array): Steps<IndexRows> {
  const from: number[] = [];
  let before = Number.NaN;
  for (let i = 0; i < number.length; i++) {
    if (i % rowsPerStep === rowsPerStep - 1) yield undefined;
    const now = number[i]!;
    if (Number.isNaN(now) || now === before) continue;
    before = now;
    from.push(i);
  }
  return Int32Array.from([...from, number.length]);
}
export function* indexesByCommand(command: Float64Array): Steps<IndexRows> {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < command.length; i++) {
    if (i % rowsPerStep === rowsPerStep - 1) yield undefined;
    least = Math.min(least, Number.isNaN(command[i]!) ? least : command[i]!);
    greatest = Math.max(greatest, Number.isNaN(command[i]!) ? greatest : command[i]!);
  }
  const middle = (least + greatest) / 2;
  const from: number[] = [];
  let high = false;
  if (greatest > least)
    for (let i = 0; i < command.length; i++) {
      if (i % rowsPerStep === rowsPerStep - 1) yield undefined;
      const now = command[i]!;
      if (Number.isNaN(now)) continue;
      if (now > middle && !high) from.push(i);
      high = now > middle;
    }
  return Int32Array.from([...from, command.length]);
}
export function* indexesByTravel(travel: Float64Array, pitch: number): Steps<IndexRows> {
  if (!(pitch > 0)) throw new RangeError(`a pitch of ${pitch} m; it must be above 0`);
  const from: number[] = [];
  let last = Number.NaN;
  let zero = Number.NaN;
  for (let i = 0; i < travel.length; i++) {
    if (i % rowsPerStep === rowsPerStep - 1) yield undefined;
    const x = travel[i]!;
    if (Number.isNaN(x)) continue;
    if (Number.isNaN(zero)) zero = x;
    // A position written as 4.000 lies at the beginning of its index whatever its last bit is.
    const k = Math.floor((x - zero) / pitch + 1e-6);
    if (!(k <= last)) {
      from.push(i);
      last = k;
    }
  }
  return Int32Array.from([...from, travel.length]);
}

/** One value an index in every list. An index without a number has NaN. */
export interface IndexStatistics {
  readonly first: Int32Array;
  readonly rows: Int32Array;
  readonly mean: Float64Array;
  readonly sd: Float64Array;
  readonly greatest: Float64Array;
  readonly least: Float64Array;
  /** The row of the greatest value. */
  readonly at: Int32Array;
}
export function* indexStatistics(values: Float64Array, starts: IndexRows): Steps<IndexStatistics> {
  const n = starts.length - 1;
  const out = {
    first: starts.slice(0, n),
    rows: new Int32Array(n),
    mean: new Float64Array(n),
    sd: new Float64Array(n),
    greatest: new Float64Array(n),
    least: new Float64Array(n),
    at: new Int32Array(n),
  };
  let since = 0;
  for (let k = 0; k < n; k++) {
    const [from, to] = [starts[k]!, starts[k + 1]!];
    // Deviations are taken from a first value, so that a large offset costs no digits.
    let [count, sum, squares, offset] = [0, 0, 0, Number.NaN];
    let [greatest, least, at] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, -1];
    for (let i = from; i < to; i++) {
      const v = values[i]!;
      if (Number.isNaN(v)) continue;
      if (count === 0) offset = v;
      count++;
      sum += v - offset;
      squares += (v - offset) * (v - offset);
      if (v > greatest) {
        greatest = v;
        at = i;
      }
      if (v < least) least = v;
    }
    out.rows[k] = count;
    out.mean[k] = count > 0 ? offset + sum / count : Number.NaN;
    out.sd[k] = count > 1 ? Math.sqrt(Math.max(0, squares - (sum * sum) / count) / (count - 1)) : Number.NaN;
    out.greatest[k] = count > 0 ? greatest : Number.NaN;
    out.least[k] = count > 0 ? least : Number.NaN;
    out.at[k] = at;
    since += to - from;
    if (since >= rowsPerStep) {
      since = 0;
      yield undefined;
    }
  }
  return out;
}

/** A force or whatever was logged, with what says where on the tape it was. */
export interface LoggedRun {
  readonly values: Float64Array;
  readonly starts: IndexRows;
  /** Travel, m, or time, s: what the flags of the plateau stand on. */
  readonly along?: Float64Array | undefined;
  /** True where `along` is travel. */
  readonly isTravel: boolean;
  /** Pocket pitch and pitch of the sprocket holes, m. */
  readonly P1?: number | undefined;
  readonly P0?: number | undefined;
  /** Flags that a person has set, on `along`. */
  readonly plateau?: readonly [from: number, to: number] | undefined;
}
export interface RunSummary {
  /** On `along`, or row numbers where there is none. */
  readonly plateau: readonly [from: number, to: number];
  /** Rows between the flags that hold a number. */
  readonly rows: number;
  readonly gaps: number;
  readonly mean: number;
  readonly sd: number;
  readonly greatest: number;
  readonly least: number;
  /** sd over mean; absent where the mean is not above 0. */
  readonly ripple?: number;
  readonly rippleAtP1?: number;
  readonly rippleAtP0?: number;
  /** Slope times length over mean. */
  readonly trend?: number;
  readonly peaks?: {
    readonly count: number;
    readonly median: number;
    readonly least: number;
    readonly greatest: number;
  };
  readonly lagOne?: number;
  readonly independent: number;
  readonly indexes: number;
  /** Rows of the outliers, all of them kept. */
  readonly outliers: readonly number[];
  readonly findings: readonly string[];
}
/** Steps a trace is laid on at most; of a longer one the middle is looked at. */
const mostPlaces = 12_000;
const [lead, tail] = [0.025, 0.005];

export function* runSummary(run: LoggedRun, by: IndexStatistics): Steps<RunSummary> {
  const { values, along, isTravel, P1, P0 } = run;
  const findings: string[] = [];
  const [begin, end] = bounds(values, along);
  yield undefined;
  // Twenty places a pitch where the rows are as dense, which costs a wave 1 % of its variance; ten cost it 3 %.
  const trace =
    isTravel && along && P1
      ? ((yield* laidOut(values, along, Math.min(P1, P0 ?? P1) / 20, 0.9, run.plateau)) ??
        (yield* laidOut(values, along, Math.min(P1, P0 ?? P1) / 10, 0.5, run.plateau)))
      : undefined;
  yield undefined;
  let read: ReturnType<typeof peelTrace> | undefined;
  if (trace)
    try {
      read = peelTrace({ force: trace.force, step: trace.step, pocketPitch: P1!, holePitch: P0 });
      findings.push(...read.findings);
      if (trace.cut)
        findings.push(
          `ripple and peaks are those of the middle ${+(trace.force.length * trace.step).toPrecision(3)} m`,
        );
    } catch (e) {
      if (!(e instanceof RangeError)) throw e;
      findings.push(e.message);
    }
  yield undefined;
  const plateau: readonly [number, number] =
    run.plateau ?? (isTravel && end - begin > 3 * (lead + tail) ? [begin + lead, end - tail] : [begin, end]);
  if (!run.plateau && isTravel && plateau[0] === begin)
    findings.push("too short to leave its ends out: all of it is the plateau");
  // Two passes: the mean first.
  const inside = (i: number): boolean => {
    const x = along ? along[i]! : i;
    return x >= plateau[0] && x <= plateau[1];
  };
  const first = {
    rows: 0,
    gaps: 0,
    sum: 0,
    offset: Number.NaN,
    greatest: Number.NEGATIVE_INFINITY,
    least: Number.POSITIVE_INFINITY,
  };
  for (let i = 0; i < values.length; i += rowsPerStep) {
    addRows(first, values, along, plateau, i, Math.min(values.length, i + rowsPerStep));
    yield undefined;
  }
  const { rows, gaps, greatest, least } = first;
  if (rows === 0) throw new RangeError(`no number between the flags ${plateau[0]} and ${plateau[1]}`);
  const mean = first.offset + first.sum / rows;
  const second = { squares: 0, sx: 0, sxx: 0, sxy: 0 };
  const centre = (plateau[0] + plateau[1]) / 2;
  for (let i = 0; i < values.length; i += rowsPerStep) {
    addSquares(second, values, along, plateau, mean, centre, i, Math.min(values.length, i + rowsPerStep));
    yield undefined;
  }
  const { squares, sx, sxx, sxy } = second;
  const sd = rows > 1 ? Math.sqrt(squares / (rows - 1)) : 0;
  const width = sxx - (sx * sx) / rows;
  const slope = width > 0 ? sxy / width : 0;
  // Indexes that begin and end between the flags.
  const means: number[] = [];
  const tops: number[] = [];
  const where: number[] = [];
  for (let k = 0; k < by.mean.length; k++) {
    const next = k + 1 < by.mean.length ? by.first[k + 1]! : values.length;
    if (Number.isNaN(by.mean[k]!) || !inside(by.first[k]!) || !inside(next - 1)) continue;
    means.push(by.mean[k]!);
    tops.push(by.greatest[k]!);
    where.push(by.at[k]!);
  }
  const outliers: number[] = [];
  if (tops.length >= 5) {
    const middle = median(tops);
    const spread = 1.4826 * median(tops.map((t) => Math.abs(t - middle)));
    for (const [k, t] of tops.entries())
      if (spread > 0 ? t > middle + 3 * spread : t > middle + 1e-9 * Math.abs(middle)) outliers.push(where[k]!);
  }
  const s = means.length > 0 ? summary(means) : undefined;
  const lagOne = s?.lagOne;
  if (means.length < 3)
    findings.push(
      `${means.length === 1 ? "1 whole index" : `${means.length} whole indexes`} between the flags: too few for a lag-one correlation`,
    );
  return {
    plateau,
    rows,
    gaps,
    mean,
    sd,
    greatest,
    least,
    ...(mean > 0 ? { ripple: sd / mean, trend: (slope * (plateau[1] - plateau[0])) / mean } : {}),
    ...(read?.lockedToPockets === undefined ? {} : { rippleAtP1: read.lockedToPockets }),
    ...(read?.lockedToHoles === undefined ? {} : { rippleAtP0: read.lockedToHoles }),
    ...(read && read.peaks.count > 0
      ? {
          peaks: {
            count: read.peaks.count,
            median: read.peaks.median,
            least: read.peaks.least,
            greatest: read.peaks.greatest,
          },
        }
      : {}),
    ...(lagOne === undefined ? {} : { lagOne }),
    independent:
      means.length === 0
        ? 1
        : lagOne === undefined || Math.abs(lagOne) >= 1
          ? means.length
          : independentReadings(means.length, lagOne),
    indexes: means.length,
    outliers,
    findings,
  };
}

// The rows are gone over in plain functions: in one that pauses, every sum would be an object of its own, and a million rows a million of them.

interface Sums {
  rows: number;
  gaps: number;
  sum: number;
  offset: number;
  greatest: number;
  least: number;
}
function addRows(
  of: Sums,
  values: Float64Array,
  along: Float64Array | undefined,
  [begin, end]: readonly [number, number],
  from: number,
  to: number,
): void {
  let { rows, gaps, sum, offset, greatest, least } = of;
  for (let i = from; i < to; i++) {
    const x = along ? along[i]! : i;
    if (!(x >= begin && x <= end)) continue;
    const v = values[i]!;
    if (Number.isNaN(v)) {
      gaps++;
      continue;
    }
    if (rows === 0) offset = v;
    rows++;
    sum += v - offset;
    if (v > greatest) greatest = v;
    if (v < least) least = v;
  }
  of.rows = rows;
  of.gaps = gaps;
  of.sum = sum;
  of.offset = offset;
  of.greatest = greatest;
  of.least = least;
}
function addSquares(
  of: { squares: number; sx: number; sxx: number; sxy: number },
  values: Float64Array,
  along: Float64Array | undefined,
  [begin, end]: readonly [number, number],
  mean: number,
  centre: number,
  from: number,
  to: number,
): void {
  let { squares, sx, sxx, sxy } = of;
  for (let i = from; i < to; i++) {
    const place = along ? along[i]! : i;
    const v = values[i]!;
    if (!(place >= begin && place <= end) || Number.isNaN(v)) continue;
    const x = place - centre;
    const d = v - mean;
    squares += d * d;
    sx += x;
    sxx += x * x;
    sxy += x * d;
  }
  of.squares = squares;
  of.sx = sx;
  of.sxx = sxx;
  of.sxy = sxy;
}
/** Adds rows to the places of a trace where they fall. */
function pour(
  { sum, count, from, step }: { sum: Float64Array; count: Float64Array; from: number; step: number },
  values: Float64Array,
  travel: Float64Array,
  begin: number,
  end: number,
): void {
  const n = sum.length;
  for (let i = begin; i < end; i++) {
    const k = Math.round((travel[i]! - from) / step);
    if (!(k >= 0 && k < n) || Number.isNaN(values[i]!)) continue;
    sum[k]! += values[i]!;
    count[k]! += 1;
  }
}
function bounds(values: Float64Array, along: Float64Array | undefined): [number, number] {
  if (!along) return [0, values.length - 1];
  let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < along.length; i++) {
    const x = along[i]!;
    if (x < least) least = x;
    if (x > greatest) greatest = x;
  }
  return [least, greatest];
}

/** A trace on equal steps of travel: the mean of the rows at each place, straight between neighbours where there is none; undefined where too few places have one. */
function* laidOut(
  values: Float64Array,
  travel: Float64Array,
  step: number,
  dense: number,
  flags: readonly [number, number] | undefined,
): Steps<{ force: Float64Array; step: number; cut: boolean } | undefined> {
  let [from, to] = bounds(values, travel);
  // What is read of a trace leaves out its ends: with flags, the ends that it leaves out lie beyond them.
  if (flags) [from, to] = [Math.max(from, flags[0] - lead), Math.min(to, flags[1] + tail)];
  const whole = Math.floor((to - from) / step + 1e-6) + 1;
  if (!(whole >= 10)) return undefined;
  // A long trace is laid on the coarser steps, so that more of it is looked at.
  if (whole > mostPlaces && dense > 0.5) return undefined;
  const cut = whole > mostPlaces;
  if (cut) from += ((whole - mostPlaces) / 2) * step;
  const n = Math.min(whole, mostPlaces);
  const sum = new Float64Array(n);
  const count = new Float64Array(n);
  const places = { sum, count, from, step };
  for (let i = 0; i < values.length; i += rowsPerStep) {
    pour(places, values, travel, i, Math.min(values.length, i + rowsPerStep));
    yield undefined;
  }
  const force = new Float64Array(n);
  let last = -1;
  let filled = 0;
  for (let k = 0; k < n; k++) {
    if (count[k] === 0) continue;
    force[k] = sum[k]! / count[k]!;
    filled++;
    for (let j = last + 1; j < k; j++)
      force[j] = last < 0 ? force[k]! : force[last]! + ((force[k]! - force[last]!) * (j - last)) / (k - last);
    last = k;
  }
  if (last < 0 || filled < dense * n) return undefined;
  for (let j = last + 1; j < n; j++) force[j] = force[last]!;
  return { force, step, cut };
}
