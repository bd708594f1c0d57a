/**
 * A reading of something guessed, as what it says of every belief draw and as the value that may be written.
 *
 *     L(y | x_k) = [1 + (ybar - x_k)^2/(nu u^2)]^(-(nu+1)/2),   nu = nu0 + n - 1,   nu s^2 = nu0 s0^2 + SS,   u^2 = s^2/n + e^2
 *
 * x_k  the guess at belief draw k; both in logarithms where the guess is on a log scale     ybar, SS  mean and squares of the readings, one a unit or reel
 * s0   scatter between units, worth nu0 = 2 readings: that of the number's text where it has one, else a third of the guess's own sd
 * e    what all readings share: the instrument's own standard deviation
 *
 * That is the likelihood of the middle with the scatter integrated out (normal law, scaled inverse chi-square; algebra), so it weighs draws of any law of
 * the guess. What is written is the conjugate answer of direct.ts and direct-plain.ts: the guess counts for (s0/its own sd)^2 readings. Holds for
 * readings that are independent: average those of one reel first.
 */
import type { Given } from "../quantity/given.ts";
import { endsOfGuess, phi } from "../quantity/law.ts";
import { beliefColumn, valueAt } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";
import { measured, studentQuantile } from "./direct.ts";
import { measuredPlain } from "./direct-plain.ts";
import { summary } from "./summary.ts";
import type { Evidence } from "./taken.ts";

/** Readings of one unknown: one a unit or reel, SI. */
export interface DirectReading {
  readonly trial: string;
  readonly given: Given;
  readonly readings: readonly number[];
  /** What was counted: readings of one reel, or of one unit, are one. */
  readonly per: "reel" | "unit";
  /** sd that all readings share, SI; nothing where left out. */
  readonly shared?: number | undefined;
}
/** What may be written in place of the guess, SI. */
export interface MeasuredValue {
  readonly middle: number;
  /** Holds the middle in 95 % of belief. */
  readonly low: number;
  readonly high: number;
  /** Scatter between units or reels: a log sd where `log`, else SI. */
  readonly scatter: number;
  readonly log: boolean;
  readonly n: number;
  readonly warnings: readonly string[];
}
const scatterWorth = 2;
/** A guess is wide because nobody knows, not because units differ so much: a third of it is taken for scatter (judgement). */
const scatterOfGuess = 1 / 3;

/** Why a number cannot be read directly; undefined where it can. */
export function notRead(given: Given): string | undefined {
  const { unknown } = given;
  if (!unknown) return `${given.address} is no guess any more: "${given.text}" stands in the file`;
  if (unknown.law === "switch")
    return `${given.address} is one thing or the other (${unknown.words.join(", ")}): write which`;
  if (unknown.law === "between") return `${given.address} lies between two others: measure those`;
  return undefined;
}

interface Prior {
  readonly log: boolean;
  /** Middle and sd of the guess, and scatter between units, on the scale of `log`. */
  readonly middle: number;
  readonly sd: number;
  readonly scatter: number;
}
function priorOf(given: Given): Prior {
  const why = notRead(given);
  const { unknown } = given;
  if (why !== undefined || !unknown || unknown.law === "switch" || unknown.law === "between")
    throw new RangeError(why ?? "no guess");
  const log = unknown.law === "lognormal";
  const [low, high] = log ? [Math.log(unknown.low), Math.log(unknown.high)] : [unknown.low, unknown.high];
  const sd = (high - low) / (2 * endsOfGuess);
  const own = given.scatters.filter((s) => s.level !== "index");
  const stated = Math.hypot(
    ...own.map((s) => {
      if (s.law === "uniform") return (s.to - s.from) / Math.sqrt(12) / (log ? Math.exp((low + high) / 2) : 1);
      if (s.law === "lognormal") return log ? s.sd : s.sd * Math.abs((low + high) / 2);
      return log ? s.sd / Math.exp((low + high) / 2) : s.sd;
    }),
  );
  return { log, middle: (low + high) / 2, sd, scatter: stated > 0 ? stated : scatterOfGuess * sd };
}
interface OnScale {
  readonly y: readonly number[];
  readonly shared: number;
}
function onScale({ readings, shared = 0, given }: DirectReading, log: boolean): OnScale {
  if (readings.length === 0) throw new RangeError(`${given.address} has no reading`);
  if (!log) return { y: readings, shared };
  for (const v of readings)
    if (!(v > 0)) throw new RangeError(`a reading of ${given.address} is ${v}; by its guess it is above 0`);
  const middle = readings.reduce((sum, v) => sum + v, 0) / readings.length;
  return { y: readings.map(Math.log), shared: shared / middle };
}

/** What the readings say of each belief draw. */
export function directEvidence(reading: DirectReading, deviates: Deviates): Evidence {
  const { trial, given } = reading;
  const prior = priorOf(given);
  const { y, shared } = onScale(reading, prior.log);
  const { n, mean, sd = 0 } = summary(y);
  const nu = scatterWorth + n - 1;
  const s = Math.sqrt((scatterWorth * prior.scatter ** 2 + (n - 1) * sd * sd) / nu);
  const u = Math.hypot(s / Math.sqrt(n), shared);
  const z = beliefColumn(deviates, given);
  const off = Float64Array.from(z, (coordinate) => {
    const x = valueAt(given, coordinate);
    return (mean - (prior.log ? Math.log(x) : x)) / u;
  });
  return {
    trial,
    log: off.map((t) => (-(nu + 1) / 2) * Math.log1p((t * t) / nu)),
    atMost: off.map((t) => phi(t)),
    atLeast: off.map((t) => phi(-t)),
    // Whatever the readings are, some value of the number gives them: few draws near it contradict nothing.
    sharp: () => true,
    blames: `the guess of ${given.address}`,
  };
}

/** The value that may be written in place of the guess. */
export function measuredValue(reading: DirectReading): MeasuredValue {
  const { given, per } = reading;
  const prior = priorOf(given);
  const { y, shared } = onScale(reading, prior.log);
  const n = y.length;
  const guess = { scatter: prior.scatter, worth: (prior.scatter / prior.sd) ** 2, scatterWorth };
  const found = prior.log
    ? measured({ median: Math.exp(prior.middle), ...guess }, reading.readings)
    : measuredPlain({ mean: prior.middle, ...guess }, y);
  const middle = "median" in found ? Math.log(found.median) : found.mean;
  const reach = studentQuantile(0.975, found.nu) * Math.hypot(found.sd, shared);
  const back = (v: number): number => (prior.log ? Math.exp(v) : v);
  return {
    middle: back(middle),
    low: back(middle - reach),
    high: back(middle + reach),
    scatter: found.scatter,
    log: prior.log,
    n,
    warnings:
      n < 3 ? [`${n} ${per}${n === 1 ? "" : "s"} measured: the scatter is mostly guessed; measure at least 3`] : [],
  };
}
