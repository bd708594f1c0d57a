/**
 * How a spread sits in its limits, and how tolerances add up.
 *
 *     Cp = (high - low)/(6 s),   Cpk = min(high - m, m - low)/(3 s)
 *     Cpk (1 -+ z sqrt(1/(9 n Cpk^2) + 1/(2 (n-1))))                      n readings; Bissell's limits (formula read in two method pages)
 *     Cp sqrt(chi2(out; n-1)/(n-1)) .. Cp sqrt(chi2(1-out; n-1)/(n-1))   (memory; exact for normal readings)
 *
 * m, s  mean and standard deviation of n readings (or known, without n: no interval)    low, high  limits, one or both
 *
 * Bissell's limits take the readings as normal and n as large: from about 25 readings on, and for Cpk above about 0.5, they hold close to what they state.
 * Neither index says anything of readings that drift, or of a law that is not normal.
 *
 *     worst case  sum |a_i| t_i,     root sum of squares  sqrt(sum (a_i t_i)^2)
 *
 * a_i  what one unit of part i adds to the closing dimension, 1 or -1 in a plain stack     t_i  its tolerance, +-
 *
 * The root sum of squares is 3 sd of the stack only where each tolerance is 3 sd of a centred normal law. A tolerance that only says "between"
 * has sd t/sqrt(3), and a few of them together reach less far than a normal law of their sd: `rectangularReach`.
 */
import { chiSquareQuantile } from "../evidence/gamma.ts";
import { phiInverse } from "../quantity/law.ts";
import { power } from "../quantity/power.ts";
import { rootBetween } from "../study/root.ts";

export interface Readings {
  readonly mean: number;
  readonly sd: number;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
  /** Readings that mean and sd come from; without it no interval is given. */
  readonly n?: number | undefined;
  /** Of the interval; 0.95 unless told. */
  readonly confidence?: number | undefined;
}
export interface Capability {
  /** Where there are two limits. */
  readonly cp?: number;
  readonly cpk: number;
  /** Of cpk, where n is known. */
  readonly interval?: readonly [number, number];
  /** Of cp, where n and both limits are known. */
  readonly cpInterval?: readonly [number, number];
  /** Why the interval should be taken with care. */
  readonly warnings: readonly string[];
}

/** Fewer readings than this: Bissell's limits hold less often than they say. */
const fewReadings = 25;

export function capability({ mean, sd, low, high, n, confidence = 0.95 }: Readings): Capability {
  if (!Number.isFinite(mean)) throw new RangeError(`the mean is ${mean}; it must be a finite number`);
  if (!(sd > 0 && sd < Number.POSITIVE_INFINITY))
    throw new RangeError(`the standard deviation is ${sd}; it must be above 0`);
  if (low === undefined && high === undefined) throw new RangeError("capability needs a limit: low, high or both");
  for (const limit of [low, high])
    if (limit !== undefined && !Number.isFinite(limit))
      throw new RangeError(`a limit is ${limit}; leave it out instead`);
  if (low !== undefined && high !== undefined && !(low < high))
    throw new RangeError(`the lower limit ${low} is not below the upper ${high}`);
  if (n !== undefined && !(Number.isInteger(n) && n >= 2))
    throw new RangeError(`${n} readings; a spread takes at least 2`);
  if (!(confidence > 0 && confidence < 1))
    throw new RangeError(`a confidence of ${confidence} is asked; it must lie between 0 and 1`);
  const cpk =
    Math.min(
      high === undefined ? Number.POSITIVE_INFINITY : high - mean,
      low === undefined ? Number.POSITIVE_INFINITY : mean - low,
    ) /
    (3 * sd);
  const cp = low !== undefined && high !== undefined ? (high - low) / (6 * sd) : undefined;
  const both = cp === undefined ? {} : { cp };
  if (n === undefined) return { ...both, cpk, warnings: [] };
  const out = (1 - confidence) / 2;
  const half = -phiInverse(out) * Math.sqrt(1 / (9 * n) + (cpk * cpk) / (2 * (n - 1)));
  const scaled = (share: number): number => Math.sqrt(chiSquareQuantile(share, n - 1) / (n - 1));
  const warnings: string[] = [];
  if (n < fewReadings)
    warnings.push(`${n} readings: below ${fewReadings} the limits of Cpk hold less often than they say`);
  if (cpk < 0.5) warnings.push("Cpk below 0.5: its limits hold less often than they say");
  return {
    ...both,
    cpk,
    interval: [cpk - half, cpk + half],
    ...(cp === undefined ? {} : { cpInterval: [cp * scaled(out), cp * scaled(1 - out)] as const }),
    warnings,
  };
}

export interface StackPart {
  readonly size: number;
  /** What one unit of it adds to the closing dimension; 1 unless told, -1 for a part that takes away. */
  readonly by?: number | undefined;
  /** Plus or minus. */
  readonly tolerance: number;
}
/** Closing dimension of a stack as written, its worst case and its root sum of squares, both plus or minus. */
export function stack(parts: readonly StackPart[]): { nominal: number; worst: number; rss: number } {
  if (parts.length === 0) throw new RangeError("a stack of no parts has no closing dimension");
  let nominal = 0;
  let worst = 0;
  for (const { size, by = 1, tolerance } of parts) {
    if (!Number.isFinite(size) || !Number.isFinite(by))
      throw new RangeError(`a part of size ${size}, taken ${by} times`);
    if (!(tolerance >= 0 && tolerance < Number.POSITIVE_INFINITY))
      throw new RangeError(`a tolerance is ${tolerance}; it must be finite and not below 0`);
    nominal += by * size;
    worst += Math.abs(by) * tolerance;
  }
  return { nominal, worst, rss: Math.hypot(...parts.map(({ by = 1, tolerance }) => by * tolerance)) };
}
/** The tolerance that n equal parts may have each, so that their worst case is `total`. */
export const shareOfWorst = (total: number, n: number): number => {
  if (!(Number.isInteger(n) && n > 0)) throw new RangeError(`${n} parts share a tolerance; it takes 1 or more`);
  return total / n;
};
/** Standard deviation of a sum of independent things, from theirs and what each counts. */
export function sdOfSum(sds: readonly number[], by: readonly number[] = []): number {
  for (const sd of sds) if (!(sd >= 0)) throw new RangeError(`a standard deviation is ${sd}; it must not be below 0`);
  return Math.hypot(...sds.map((sd, i) => sd * (by[i] ?? 1)));
}
/** Standard deviation of a law that is even between -t and t. */
export const sdOfRectangle = (halfWidth: number): number => halfWidth / Math.sqrt(3);

/**
 * Half the width that holds a share of a sum of independent even laws between -t_i and t_i, exactly:
 *
 *     P(|S| > h) = 2/(n! 2^n t_1..t_n) . sum over subsets A of (-1)^|A| (T - 2 sum_A t - h)^n where that is positive,   T = sum t_i
 *
 * n up to 16 (2^n terms). Derived: the volume of a cube's corner beyond a plane; Irwin-Hall where all t_i are equal.
 */
export function rectangularReach(halfWidths: readonly number[], share = 0.95): number {
  const t = halfWidths.filter((w) => w !== 0);
  if (t.length === 0) return 0;
  if (t.length > 16) throw new RangeError(`${t.length} even laws are too many to add exactly; 16 at most`);
  for (const w of t)
    if (!(w > 0 && w < Number.POSITIVE_INFINITY)) throw new RangeError(`half a width is ${w}; it must not be below 0`);
  if (!(share > 0 && share < 1)) throw new RangeError(`a share of ${share} is asked; it must lie between 0 and 1`);
  const n = t.length;
  const total = t.reduce((a, b) => a + b, 0);
  const subsets = Array.from({ length: 2 ** n }, (_, bits) => {
    let sum = 0;
    let sign = 1;
    for (let i = 0; i < n; i++)
      if (bits & (1 << i)) {
        sum += 2 * t[i]!;
        sign = -sign;
      }
    return { sign, corner: (total - sum) / total };
  });
  let scale = 2;
  for (const [i, w] of t.entries()) scale *= total / (2 * w * (i + 1));
  const beyond = (h: number): number =>
    scale * subsets.reduce((sum, { sign, corner }) => sum + (corner > h ? sign * power(corner - h, n) : 0), 0);
  return total * (rootBetween((h) => beyond(h) - (1 - share), 0, 1, 1e-15) ?? 1);
}
