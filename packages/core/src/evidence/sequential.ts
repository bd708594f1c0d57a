/**
 * Counting until it is clear: Wald's sequential test of a good rate against a bad one.
 *
 *     k = ln(p1 (1-p0)/(p0 (1-p1))),   h1 = ln((1-a)/b)/k,   h2 = ln((1-b)/a)/k,   s = ln((1-p0)/(1-p1))/k
 *     after n cycles with f failures: good while f <= s n - h1, bad while f >= s n + h2, else go on
 *
 * p0, p1  good and bad rate, p0 < p1     a  chance to refuse a good unit     b  chance to pass a bad one
 *
 * Operating curve, by a parameter t: p = (1 - ((1-p1)/(1-p0))^t)/((p1/p0)^t - ((1-p1)/(1-p0))^t), chance to pass L = (A^t - 1)/(A^t - B^t), A = (1-b)/a, B = b/(1-a);
 * mean cycles (L ln B + (1-L) ln A)/(p ln(p1/p0) + (1-p) ln((1-p1)/(1-p0))). All by Wald's approximation, which takes the lines as just reached: the true
 * errors are a little smaller, the true mean a little longer. Wald 1947; memory. Cycles that fail alike and each by itself.
 */
import { rootBetween } from "../study/root.ts";
import { checkRate } from "./clean-runs.ts";

export interface SequentialPlan {
  readonly good: number;
  readonly bad: number;
  /** Chance to refuse a good unit, and to pass a bad one. */
  readonly refuseGood?: number | undefined;
  readonly passBad?: number | undefined;
}
export interface SequentialLines {
  readonly h1: number;
  readonly h2: number;
  readonly slope: number;
  /** The first number of cycles at which a unit without a failure passes. */
  readonly firstPass: number;
  /** The first number of cycles at which a unit that failed in all of them is refused. */
  readonly firstRefusal: number;
}

export function sequentialLines(plan: SequentialPlan): SequentialLines {
  const { good, bad, a, b } = checked(plan);
  const k = Math.log((bad * (1 - good)) / (good * (1 - bad)));
  const h1 = Math.log((1 - a) / b) / k;
  const h2 = Math.log((1 - b) / a) / k;
  const slope = (Math.log1p(-good) - Math.log1p(-bad)) / k;
  return { h1, h2, slope, firstPass: Math.ceil(h1 / slope), firstRefusal: Math.ceil(h2 / (1 - slope)) };
}
/** What to do after `run` cycles of which `failed` failed. */
export function sequentialStep(plan: SequentialPlan, failed: number, run: number): "pass" | "refuse" | "go on" {
  if (!(Number.isInteger(run) && run >= 0 && Number.isInteger(failed) && failed >= 0 && failed <= run))
    throw new RangeError(`${failed} of ${run} cycles failed; both must be whole numbers, the first no greater`);
  const { h1, h2, slope } = sequentialLines(plan);
  if (failed <= slope * run - h1) return "pass";
  return failed >= slope * run + h2 ? "refuse" : "go on";
}
/** Chance that a unit with that rate passes, and how many cycles that takes on average. */
export function operatingPoint(plan: SequentialPlan, rate: number): { pass: number; cycles: number } {
  const { good, bad, a, b } = checked(plan);
  checkRate(rate);
  const lnA = Math.log((1 - b) / a);
  const lnB = Math.log(b / (1 - a));
  const up = Math.log(bad / good);
  const down = Math.log1p(-bad) - Math.log1p(-good);
  const drift = rate * up + (1 - rate) * down;
  // t solves E[(likelihood ratio)^t] = 1 beside t = 0; it is 1 at the good rate, -1 at the bad one, 0 where nothing drifts.
  const moment = (t: number): number => Math.log(rate * Math.exp(t * up) + (1 - rate) * Math.exp(t * down));
  let t = 0;
  if (Math.abs(drift) > 1e-9 * up * rate) {
    const away = drift < 0 ? 1 : -1;
    let near = 1;
    while (moment(away * near) > 0 && near > 1e-9) near /= 2;
    let far = 2 * near;
    while (moment(away * far) < 0) far *= 2;
    t = away * (rootBetween((x) => moment(away * x), near, far, 1e-13) ?? near);
  }
  if (Math.abs(t) < 1e-7) {
    const pass = lnA / (lnA - lnB);
    const squares = rate * up * up + (1 - rate) * down * down;
    return { pass, cycles: (-lnA * lnB) / squares };
  }
  const pass = Math.expm1(t * lnA) / (Math.exp(t * lnA) - Math.exp(t * lnB));
  return { pass, cycles: (pass * lnB + (1 - pass) * lnA) / drift };
}

function checked({ good, bad, refuseGood: a = 0.05, passBad: b = 0.05 }: SequentialPlan) {
  checkRate(good);
  checkRate(bad);
  if (!(good < bad)) throw new RangeError(`the good rate ${good} is not below the bad one ${bad}`);
  if (!(a > 0 && b > 0 && a + b < 1))
    throw new RangeError(`chances of error ${a} and ${b} must be above 0 and together below 1`);
  return { good, bad, a, b };
}
