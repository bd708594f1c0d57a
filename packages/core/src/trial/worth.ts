/**
 * What a trial piece is worth, in days, and which to make first.
 *
 *     P(stop) = P a + (1 - P)(1 - b),   saved = P a L - (1 - P)(1 - b) R - c
 *
 * P  belief that the check fails, over what is not known, not over scatter     a  chance that the piece catches a failing design     b  that it passes a good one
 * L  days lost if it is found late     R  days lost to a false alarm     c  days to print and test
 *
 * Order of independent trials of which the first stop ends the series: the worth of an order is sum (chance to get there) . saved, and two neighbours are
 * best swapped where saved/P(stop) rises: descending. Where questions stand by themselves: saved/c descending. Derived by interchange. The least expected days of a
 * series whose trials must all be made goes by c/P(stop) ascending (Mitten 1960, memory); that rule alone rewards false alarms, so it ranks nothing here.
 *
 * P is rarely known within a factor of two: saved is shown over P/2 .. min(1, 2 P), and a trial whose sign changes there is open, not ranked. Once a result is known
 * every P has moved: rank anew.
 */
export interface Trial {
  readonly fails: number;
  readonly catches: number;
  readonly passesGood: number;
  readonly late: number;
  readonly falseAlarm: number;
  readonly cost: number;
}
export interface Worth {
  readonly stop: number;
  readonly saved: number;
  /** Least and greatest saved over P/2 .. min(1, 2 P). */
  readonly range: readonly [number, number];
  readonly verdict: "worth it" | "open" | "not worth it";
  readonly perStop: number;
  readonly perDay: number;
}
export function trialWorth(trial: Trial): Worth {
  const { fails, catches, passesGood, late, falseAlarm, cost } = trial;
  for (const [name, chance] of [
    ["of failing", fails],
    ["to catch a failing design", catches],
    ["to pass a good one", passesGood],
  ] as const)
    if (!(chance >= 0 && chance <= 1)) throw new RangeError(`the chance ${name} is ${chance}; it must lie from 0 to 1`);
  for (const [name, days] of [
    ["lost if found late", late],
    ["lost to a false alarm", falseAlarm],
  ] as const)
    if (!(days >= 0 && days < Number.POSITIVE_INFINITY))
      throw new RangeError(`the days ${name} are ${days}; they must not be below 0`);
  if (!(cost > 0 && cost < Number.POSITIVE_INFINITY))
    throw new RangeError(`a trial takes ${cost} days; it must be above 0`);
  const savedAt = (P: number): number => P * catches * late - (1 - P) * (1 - passesGood) * falseAlarm - cost;
  const stop = fails * catches + (1 - fails) * (1 - passesGood);
  const saved = savedAt(fails);
  // Straight in P, so the ends hold the extremes.
  const ends = [savedAt(fails / 2), savedAt(Math.min(1, 2 * fails))];
  const range = [Math.min(...ends), Math.max(...ends)] as const;
  const verdict = range[0] > 0 ? "worth it" : range[1] <= 0 ? "not worth it" : "open";
  return {
    stop,
    saved,
    range,
    verdict,
    perStop: stop > 0 ? saved / stop : Math.sign(saved) * Number.POSITIVE_INFINITY,
    perDay: saved / cost,
  };
}

/** What a trial's result means for the others. */
export type Series = "first stop ends it" | "each by itself";
export interface Ranked<T> {
  /** Worth making whatever P is in its range, best first. */
  readonly ranked: readonly T[];
  /** Their worth hangs on P: find that out first. */
  readonly open: readonly T[];
  readonly dropped: readonly T[];
}
export function rankTrials<T extends Trial>(trials: readonly T[], series: Series): Ranked<T> {
  const known = trials.map((trial, i) => ({ trial, i, worth: trialWorth(trial) }));
  const key = ({ worth }: (typeof known)[number]): number =>
    series === "each by itself" ? worth.perDay : worth.perStop;
  const of = (verdict: Worth["verdict"]): T[] =>
    known
      .filter((k) => k.worth.verdict === verdict)
      .sort((a, b) => key(b) - key(a) || a.i - b.i)
      .map((k) => k.trial);
  return { ranked: of("worth it"), open: of("open"), dropped: of("not worth it") };
}
/** Days that a series saves in this order, when its first stop ends it. */
export function seriesWorth(trials: readonly Trial[]): number {
  let reach = 1;
  let sum = 0;
  for (const trial of trials) {
    const { stop, saved } = trialWorth(trial);
    sum += reach * saved;
    reach *= 1 - stop;
  }
  return sum;
}
/** Days that a series takes on average, in this order, when its first stop ends it. */
export function expectedDays(trials: readonly { readonly days: number; readonly stop: number }[]): number {
  let reach = 1;
  let sum = 0;
  for (const { days, stop } of trials) {
    checkStep(days, stop);
    sum += reach * days;
    reach *= 1 - stop;
  }
  return sum;
}
/** The order that takes the fewest days on average: days/P(stop) ascending. */
export function fewestDays<T extends { readonly days: number; readonly stop: number }>(trials: readonly T[]): T[] {
  for (const { days, stop } of trials) checkStep(days, stop);
  return [...trials].sort((a, b) => a.days * b.stop - b.days * a.stop);
}
function checkStep(days: number, stop: number): void {
  if (!(days >= 0 && days < Number.POSITIVE_INFINITY))
    throw new RangeError(`a trial takes ${days} days; it must not be below 0`);
  if (!(stop >= 0 && stop <= 1)) throw new RangeError(`the chance of a stop is ${stop}; it must lie from 0 to 1`);
}
