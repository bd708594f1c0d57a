/**
 * What a trace of peel force along the tape says: its plateau, trend, ripple, peaks, and how many readings it is worth.
 *
 *     plateau   from 25 mm to 5 mm before the end; a short tape: from the third pocket on; at least 10 ripple periods or 100 mm
 *     trend     slope . length/mean beyond 0.1: report thirds, no single mean
 *     peaks     highest points that stand out by more than 3 noise sd; far ones above median + 3 . 1.4826 MAD
 *     locked    share of the ripple's variance at a pitch and its overtones, by least squares: it comes again with every pocket, so it is no scatter
 *     worth     n (1 - phi)/(1 + phi), phi lag-one; standard error sd/sqrt(worth)
 *
 * F(s)  force at equal steps of travel, N over m     noise sd  1.4826 median |second difference|/sqrt(6), which a slow ripple hardly enters
 *
 * Leaving out the first 25 mm and using 100 mm or more follows the peel standards (ISO 11339: memory; ASTM D1876, average after the first peak over a stated length:
 * read in its abstract). The limits of trend, peaks and resolution are those of the working notes (unpublished). A trace sampled coarser than a tenth of its ripple
 * loses its peaks: it is read all the same, but `usable` says no.
 */
import { linearFit } from "./linear-fit.ts";
import { checkReadings, median, quantileAt, sorted, summary } from "./summary.ts";

export interface Trace {
  /** Force at equal steps, N. */
  readonly force: ArrayLike<number>;
  /** Travel between two readings, m. */
  readonly step: number;
  /** Pitch of the pockets, m: the period of the ripple. */
  readonly pocketPitch: number;
  /** Pitch of the sprocket holes, m. */
  readonly holePitch?: number | undefined;
}
export interface PeelReading {
  /** Indexes of the plateau's first and last reading. */
  readonly plateau: readonly [number, number];
  readonly mean: number;
  readonly sd: number;
  /** sd of the mean. */
  readonly ripple: number;
  readonly least: number;
  readonly greatest: number;
  /** 99 % point. */
  readonly high: number;
  /** Change over the plateau as a share of the mean. */
  readonly trend: number;
  /** Means of the three thirds, where there is a trend. */
  readonly thirds?: readonly [number, number, number];
  readonly peaks: {
    readonly count: number;
    readonly median: number;
    readonly least: number;
    readonly greatest: number;
    readonly far: number;
  };
  /** Share of the ripple that comes again with every pocket, and with every hole; absent where the trace cannot tell. */
  readonly lockedToPockets?: number;
  readonly lockedToHoles?: number;
  readonly lagOne: number;
  readonly worth: number;
  readonly standardError: number;
  /** Fine enough and long enough to be believed. */
  readonly usable: boolean;
  readonly findings: readonly string[];
}
const lead = 0.025;
const tail = 0.005;
const enough = 0.1;
const fewestPeriods = 10;
const greatestTrend = 0.1;

export function peelTrace({ force, step, pocketPitch, holePitch }: Trace): PeelReading {
  checkReadings(force);
  if (!(step > 0 && step < Number.POSITIVE_INFINITY))
    throw new RangeError(`a step of ${step} m between readings; it must be above 0`);
  if (!(pocketPitch > 0)) throw new RangeError(`a pocket pitch of ${pocketPitch} m; it must be above 0`);
  if (holePitch !== undefined && !(holePitch > 0))
    throw new RangeError(`a hole pitch of ${holePitch} m; it must be above 0`);
  const findings: string[] = [];
  const length = (force.length - 1) * step;
  const least = Math.min(enough, fewestPeriods * pocketPitch);
  const short = length < lead + tail + enough;
  const from = Math.ceil((short ? Math.min(lead, 3 * pocketPitch) : lead) / step - 1e-9);
  const to = Math.floor((length - tail) / step + 1e-9);
  if (to - from < 9)
    throw new RangeError(`a trace of ${mm(length)} mm with ${force.length} readings leaves no plateau to read`);
  const used = (to - from) * step;
  let usable = true;
  if (used < least * (1 - 1e-9)) {
    usable = false;
    findings.push(`too short: ${mm(used)} mm of plateau, it takes ${mm(least)} mm`);
  }
  if (step > pocketPitch / 10 + 1e-12) {
    usable = false;
    findings.push(
      `too coarse: a reading every ${mm(step)} mm loses the peaks of a ripple of ${mm(pocketPitch)} mm, it takes one every ${mm(pocketPitch / 10)} mm`,
    );
  }
  const F = Float64Array.from({ length: to - from + 1 }, (_, i) => force[from + i]!);
  const n = F.length;
  const s = summary(F);
  if (!(s.mean > 0)) throw new RangeError(`the plateau's mean is ${s.mean} N; a peel force is above 0`);
  const sd = s.sd!;
  const along = Float64Array.from({ length: n }, (_, i) => i / (n - 1) - 0.5);
  const ones = new Float64Array(n).fill(1);
  const slope = linearFit([ones, along], F).b[1]!;
  const trend = slope / s.mean;
  const drifts = Math.abs(trend) > greatestTrend;
  if (drifts)
    findings.push(
      `trend: the force changes by ${Math.round(100 * trend)} % over the plateau; read its thirds, not its mean`,
    );
  const third = (k: number): number => summary(F.subarray(Math.floor((k * n) / 3), Math.floor(((k + 1) * n) / 3))).mean;
  const lagOne = s.lagOne ?? 0;
  const locked = (pitch: number): number | undefined => lockedShare(F, along, ones, step, pitch);
  const toPockets = locked(pocketPitch);
  const toHoles = holePitch === undefined ? undefined : locked(holePitch);
  return {
    plateau: [from, to],
    mean: s.mean,
    sd,
    ripple: sd / s.mean,
    least: s.least,
    greatest: s.greatest,
    high: quantileAt(sorted(F), 0.99),
    trend,
    ...(drifts ? { thirds: [third(0), third(1), third(2)] as const } : {}),
    peaks: peaksOf(F),
    ...(toPockets === undefined ? {} : { lockedToPockets: toPockets }),
    ...(toHoles === undefined ? {} : { lockedToHoles: toHoles }),
    lagOne,
    worth: s.worth,
    standardError: sd / Math.sqrt(s.worth),
    usable,
    findings,
  };
}
const mm = (metres: number): string => String(+(metres * 1e3).toPrecision(4));

function peaksOf(F: Float64Array): PeelReading["peaks"] {
  const n = F.length;
  const bends = Float64Array.from({ length: n - 2 }, (_, i) => Math.abs(F[i]! - 2 * F[i + 1]! + F[i + 2]!));
  const noise = (1.4826 * median(bends)) / Math.sqrt(6);
  const { least, greatest } = summary(F);
  const stands = Math.max(3 * noise, 1e-9 * (greatest - least));
  const found: number[] = [];
  for (let i = 1; i < n - 1; i++) {
    if (!(F[i]! > F[i - 1]!)) continue;
    // A flat top counts once, at its first reading.
    let end = i;
    while (end < n - 1 && F[end + 1] === F[i]) end++;
    if (end === n - 1 || F[end + 1]! > F[i]!) continue;
    if (prominence(F, i) > stands) found.push(F[i]!);
  }
  if (found.length === 0) return { count: 0, median: Number.NaN, least: Number.NaN, greatest: Number.NaN, far: 0 };
  const middle = median(found);
  const spread = 1.4826 * median(found.map((p) => Math.abs(p - middle)));
  const far = found.filter((p) => p > middle + Math.max(3 * spread, stands)).length;
  return { count: found.length, median: middle, least: Math.min(...found), greatest: Math.max(...found), far };
}
/** How far one must go down from a peak before a higher one can be reached; to the trace's ends on either side. */
function prominence(F: Float64Array, peak: number): number {
  const down = (by: 1 | -1): number => {
    let low = F[peak]!;
    for (let i = peak + by; i >= 0 && i < F.length && F[i]! <= F[peak]!; i += by) low = Math.min(low, F[i]!);
    return low;
  };
  return F[peak]! - Math.max(down(1), down(-1));
}
/** Share of variance, trend taken off, that waves of the pitch and its overtones up to the fourth take away. */
function lockedShare(
  F: Float64Array,
  along: Float64Array,
  ones: Float64Array,
  step: number,
  pitch: number,
): number | undefined {
  const n = F.length;
  if ((n - 1) * step < 3 * pitch) return undefined;
  const columns: Float64Array[] = [ones, along];
  for (let k = 1; k <= 4; k++) {
    if (k * step > 0.4 * pitch) break;
    for (const wave of [Math.cos, Math.sin])
      columns.push(Float64Array.from({ length: n }, (_, i) => wave((2 * Math.PI * k * i * step) / pitch)));
  }
  if (columns.length === 2 || n <= columns.length) return undefined;
  const before = linearFit([ones, along], F).rss;
  return before > 0 ? Math.max(0, 1 - linearFit(columns, F).rss / before) : undefined;
}

export interface PeelledReel {
  /** Median of the plateau, N. */
  readonly force: number;
  /** Log sd within the trace. */
  readonly ripple: number;
  /** Speed of the film, m/s. */
  readonly speed: number;
}
/**
 * From reels to the model: median force at the reference speed, log sd between reels, ripple within an index, and where two speeds or more were run the exponent n of
 * P ~ v^n by least squares of ln P on ln v. The two scatters belong to different levels and stay apart.
 */
export function peelForModel(reels: readonly PeelledReel[], referenceSpeed: number, exponent?: number) {
  if (reels.length === 0) throw new RangeError("no reel was peeled: nothing to tell the model");
  for (const { force, ripple, speed } of reels)
    if (!(force > 0 && ripple >= 0 && speed > 0))
      throw new RangeError(`a reel with ${force} N, ripple ${ripple} at ${speed} m/s; force and speed must be above 0`);
  if (!(referenceSpeed > 0)) throw new RangeError(`a reference speed of ${referenceSpeed} m/s; it must be above 0`);
  const lnV = reels.map((r) => Math.log(r.speed / referenceSpeed));
  const lnP = reels.map((r) => Math.log(r.force));
  const speeds = new Set(reels.map((r) => r.speed)).size;
  const line = speeds >= 2 ? linearFit([lnV.map(() => 1), lnV], lnP) : undefined;
  const n = line?.b[1] ?? exponent ?? 0;
  const warnings: string[] = [];
  if (!line && lnV[0] !== 0 && exponent === undefined)
    warnings.push("one speed alone: the force is not carried to the reference speed");
  if (reels.length < 3)
    warnings.push(
      `${reels.length} ${reels.length === 1 ? "reel says" : "reels say"} little about others: peel at least 3`,
    );
  const atReference = lnP.map((l, i) => l - n * lnV[i]!);
  return {
    P_ref: Math.exp(median(atReference)),
    reelSd: reels.length > 1 ? summary(atReference).sd! : undefined,
    indexSd: median(reels.map((r) => r.ripple)),
    n: line ? n : undefined,
    nSd: line && reels.length > 2 ? line.sd[1]! : undefined,
    warnings,
  };
}
