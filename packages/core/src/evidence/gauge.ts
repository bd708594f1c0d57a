/**
 * How much of a spread is the measuring: repeatability and reproducibility by averages and ranges.
 *
 *     EV = K1 Rbar                          Rbar  mean range of one person's trials of one part
 *     AV = sqrt((K2 xdiff)^2 - EV^2/(n r))  xdiff greatest less least mean of a person; n parts, r trials; 0 where negative
 *     GRR = hypot(EV, AV),   PV = K3 Rp,   TV = hypot(GRR, PV)     Rp  range of the parts' means
 *
 * All in standard deviations. K1 = 1/d2 of ranges of r readings; K2, K3 = 1/d2* of one range of k persons, n parts. The constants are those of the public forms of
 * the method, 2 or 3 trials, 2 or 3 persons, 2 to 10 parts (K1..K3 of 3, 3 and 10 read on a form; the rest memory). A range uses fewer of the readings than a
 * standard deviation does: take it as good to a third with 10 parts.
 */
export interface Gauge {
  readonly meanRange: number;
  readonly persons: number;
  /** Repeatability: the same person and part again. */
  readonly ev: number;
  /** Reproducibility: from person to person. */
  readonly av: number;
  readonly grr: number;
  /** From part to part. */
  readonly pv: number;
  readonly tv: number;
  /** GRR of TV. */
  readonly share: number;
}
const K1: Readonly<Record<number, number>> = { 2: 0.8862, 3: 0.5908 };
const K2: Readonly<Record<number, number>> = { 2: Math.SQRT1_2, 3: 0.5231 };
const K3: Readonly<Record<number, number>> = {
  2: Math.SQRT1_2,
  3: 0.5231,
  4: 0.4467,
  5: 0.403,
  6: 0.3742,
  7: 0.3534,
  8: 0.3375,
  9: 0.3249,
  10: 0.3146,
};
/** readings[person][trial][part]. */
export function gauge(readings: readonly (readonly (readonly number[])[])[]): Gauge {
  const people = readings.length;
  const trials = readings[0]?.length ?? 0;
  const parts = readings[0]?.[0]?.length ?? 0;
  const [k1, k2, k3] = [K1[trials], K2[people], K3[parts]];
  if (k1 === undefined || k2 === undefined || k3 === undefined)
    throw new RangeError(
      `${people} persons, ${trials} trials, ${parts} parts; the method has constants for 2 or 3 persons, 2 or 3 trials and 2 to 10 parts`,
    );
  for (const person of readings)
    for (const trial of person) {
      if (person.length !== trials || trial.length !== parts)
        throw new RangeError("every person must measure every part as often as the others");
      for (const x of trial)
        if (!Number.isFinite(x)) throw new RangeError(`a reading is ${x}; it must be a finite number`);
    }
  const range = (x: readonly number[]): number => Math.max(...x) - Math.min(...x);
  const mean = (x: readonly number[]): number => x.reduce((a, b) => a + b, 0) / x.length;
  const each = Array.from({ length: parts }, (_, p) => p);
  const meanRange = mean(readings.flatMap((person) => each.map((p) => range(person.map((trial) => trial[p]!)))));
  const persons = range(readings.map((person) => mean(person.flat())));
  const partRange = range(each.map((p) => mean(readings.flatMap((person) => person.map((trial) => trial[p]!)))));
  const ev = k1 * meanRange;
  const av = Math.sqrt(Math.max(0, (k2 * persons) ** 2 - (ev * ev) / (parts * trials)));
  const grr = Math.hypot(ev, av);
  const pv = k3 * partRange;
  const tv = Math.hypot(grr, pv);
  if (!(tv > 0)) throw new RangeError("all readings are equal: the gauge does not resolve anything");
  return { meanRange, persons, ev, av, grr, pv, tv, share: grr / tv };
}
