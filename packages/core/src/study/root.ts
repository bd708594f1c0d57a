/**
 * Root of a continuous function between two points of opposite sign, by Brent's method.
 *
 * Brent 1973, Algorithms for Minimization without Derivatives, ch. 4 (memory). Stops when the bracket is narrower than `tolerance`
 * or the value is 0; at most 300 evaluations (flat roots need over 100). Returns undefined where both ends have the same sign or an end is not finite.
 */
export function rootBetween(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance: number,
): number | undefined {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (!Number.isFinite(fa) || !Number.isFinite(fb)) return undefined;
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (fa > 0 === fb > 0) return undefined;
  let c = a;
  let fc = fa;
  let step = b - a;
  let last = step;
  for (let i = 0; i < 300; i++) {
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      step = last = b - a;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const near = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2;
    const half = (c - b) / 2;
    if (Math.abs(half) <= near || fb === 0) return b;
    if (Math.abs(last) >= near && Math.abs(fa) > Math.abs(fb)) {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const r = fb / fc;
        const t = fa / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(near * q), Math.abs(last * q))) {
        last = step;
        step = p / q;
      } else step = last = half;
    } else step = last = half;
    a = b;
    fa = fb;
    b += Math.abs(step) > near ? step : Math.sign(half) * near;
    fb = f(b);
    if (!Number.isFinite(fb)) return undefined;
  }
  return b;
}
