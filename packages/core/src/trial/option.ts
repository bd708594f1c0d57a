/**
 * One way to settle a question, against both things that can be done without it: going on as drawn, and changing the design at once.
 *
 * The days it saves (worth.ts) count against going on. Where P is so large that changing the design at once costs less, (1 - P) R < P L, a trial is worth only what it tells
 * then (information.ts): a piece or a prototype that costs more is not worth it, whatever it saves against going on. A card is spared that: it costs next to nothing, and what it
 * tells of one unknown often decides only together with the next. On 200 invented shops (speed/src/shops.ts, the stand-in) a right decision took 1.2 days (95 %: 0.9 to 1.7), and 0.9 with
 * truths outside the ranges; with the way taken that saves most, not most a day, 1.3 and 1.3; with pieces made by days saved alone 1.8 (1.4 to 2.3).
 */
import { goOrNot } from "./information.ts";
import { type Trial, trialWorth, type Worth } from "./worth.ts";

export type TrialKind = "card" | "trial piece" | "whole prototype";
export interface Weighed extends Trial {
  readonly kind: TrialKind;
  readonly worth: Worth;
  readonly standing: Worth["verdict"];
  /** Days that knowing everything, and that this trial, are worth to somebody who would otherwise do the better of the two. */
  readonly information: { readonly perfect: number; readonly trial: number };
  /** A change of the design at once costs less than going on untested. */
  readonly changeAtOnce: boolean;
}
export function weighed(kind: TrialKind, trial: Trial): Weighed {
  const worth = trialWorth(trial);
  const venture = { works: 1 - trial.fails, gain: trial.falseAlarm, loss: trial.late };
  const told = goOrNot(venture, { passesGood: trial.passesGood, passesBad: 1 - trial.catches });
  const tooDear = kind !== "card" && told.trial <= trial.cost;
  return {
    ...trial,
    kind,
    worth,
    standing: tooDear ? "not worth it" : worth.verdict,
    information: { perfect: told.perfect, trial: told.trial },
    changeAtOnce: told.prior === 0,
  };
}
const rank = { "worth it": 0, open: 1, "not worth it": 2 } as const;
/** Best first: what is worth it for certain, then what saves most for a day of it: the dearer one can still be made once the cheaper has answered. */
export const bestFirst = (a: Weighed, b: Weighed): number =>
  rank[a.standing] - rank[b.standing] || b.worth.perDay - a.worth.perDay;
