/**
 * What it is worth to know more before deciding.
 *
 *     L1(u) = phi(u) - u (1 - Phi(u))                           unit normal loss
 *     perfect:  K s L1(|m|/s);   by n readings of error e:  K s' L1(|m|/s'),   s' = s^2/sqrt(s^2 + e^2/n)
 *
 * m  margin believed, to be acted on where positive     s  sd of that belief     e  sd of one reading, in units of the margin     K  days per unit of margin
 *
 * Two actions, a loss that grows straight with the margin, normal belief (Raiffa and Schlaifer 1961; memory). Of a go or no-go trial: the expectation over its results of the
 * better action, less the better action without it.
 */
import { phi } from "../quantity/law.ts";

/** Unit normal loss, for u >= 0; keeps its digits to about u = 30. */
export function unitLoss(u: number): number {
  if (!(u >= 0)) throw new RangeError(`the unit loss is asked at ${u}; it must not be below 0`);
  const density = Math.exp(-0.5 * u * u) / Math.sqrt(2 * Math.PI);
  if (u < 6) return density - u * phi(-u);
  // Both terms nearly cancel: the series of their difference in 1/u^2.
  const i = 1 / (u * u);
  return density * i * (1 - i * (3 - i * (15 - i * (105 - i * (945 - i * 10395)))));
}
export interface NormalBelief {
  readonly mean: number;
  readonly sd: number;
  /** Days per unit of margin; 1 unless told. */
  readonly days?: number | undefined;
}
/** Worth of knowing the margin exactly. */
export function perfectInformation({ mean, sd, days = 1 }: NormalBelief): number {
  check(mean, sd, days);
  return sd === 0 ? 0 : days * sd * unitLoss(Math.abs(mean) / sd);
}
/** Worth of n readings of that error. */
export function readingsInformation(belief: NormalBelief, error: number, n = 1): number {
  check(belief.mean, belief.sd, belief.days ?? 1);
  if (!(error >= 0)) throw new RangeError(`a reading's error is ${error}; it must not be below 0`);
  if (!(Number.isInteger(n) && n >= 1)) throw new RangeError(`${n} readings; it takes 1 or more`);
  if (belief.sd === 0) return 0;
  return perfectInformation({ ...belief, sd: belief.sd ** 2 / Math.sqrt(belief.sd ** 2 + error ** 2 / n) });
}
export interface Venture {
  /** Chance that it works. */
  readonly works: number;
  /** Days won if it works, and lost if not; leaving it alone wins and loses nothing. */
  readonly gain: number;
  readonly loss: number;
}
/** Worth of going on without a trial, of perfect knowledge, and of a trial that passes a good one and a bad one with those chances. */
export function goOrNot(
  { works, gain, loss }: Venture,
  trial: { readonly passesGood: number; readonly passesBad: number },
) {
  for (const chance of [works, trial.passesGood, trial.passesBad])
    if (!(chance >= 0 && chance <= 1)) throw new RangeError(`a chance is ${chance}; it must lie from 0 to 1`);
  for (const days of [gain, loss])
    if (!(days >= 0 && days < Number.POSITIVE_INFINITY))
      throw new RangeError(`days won or lost are ${days}; they must not be below 0`);
  const best = (good: number, bad: number): number => Math.max(0, good * gain - bad * loss);
  const prior = best(works, 1 - works);
  const passed = best(works * trial.passesGood, (1 - works) * trial.passesBad);
  const refused = best(works * (1 - trial.passesGood), (1 - works) * (1 - trial.passesBad));
  return { prior, perfect: works * gain - prior, trial: passed + refused - prior };
}
function check(mean: number, sd: number, days: number): void {
  if (!Number.isFinite(mean)) throw new RangeError(`a margin of ${mean}; it must be finite`);
  if (!(sd >= 0 && sd < Number.POSITIVE_INFINITY))
    throw new RangeError(`the sd of a belief is ${sd}; it must be finite and not below 0`);
  if (!(days >= 0)) throw new RangeError(`${days} days per unit of margin; it must not be below 0`);
}
