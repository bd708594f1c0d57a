import { power } from "../quantity/power.ts";
/**
 * Force that is left of a fixed deflection after a time.
 *
 *     F(t)/F(t_1) = (t/t_1)^-n
 *
 * t time, t_1 time at which the force was read, the same unit; n exponent: 0.021 of PC, 0.059 of a conditioned polyamide (creep moduli of two data
 * sheets, read), 0.03 .. 0.10 taken for printed plastic, for which no 1000 h curve was found. From a creep modulus: the factor sin(n pi)/(n pi)
 * between creep and relaxation is 0.999 at n = 0.02 and 0.984 at 0.1. Loads above half of the strength and temperatures within 20 K of the glass
 * transition fade faster: outside its range.
 */
export const forceLeft = (n: number, times: number): number => {
  if (!(times > 0)) throw new RangeError(`${times} times the first reading is no time`);
  return power(times, -n);
};
/** Exponent from two moduli that stand `times` apart. */
export const exponentOf = (first: number, last: number, times: number): number =>
  Math.log(first / last) / Math.log(times);
