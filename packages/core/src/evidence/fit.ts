import { power } from "../quantity/power.ts";
/**
 * Least squares of a law that is not linear in its parameters: damped steps from two starts or more.
 *
 *     minimise S(b) = |y - f(b)|^2:   step d from  min |J d - r|^2 + mu |D d|^2,   r = y - f(b),   J = df/db
 *
 * J by central differences (h = 6e-6 of the parameter); D the greatest norm a column of J has had; both triangles by Householder (linear-fit.ts). The
 * damping mu follows the gain, what a step lowered of what it should have (Levenberg 1944, Marquardt 1963, Moré 1978, Nielsen 1999; memory). A step that leads to no
 * number is refused like one that leads uphill.
 *
 * Least squares may end in a hollow that is not the deepest, or slide to where the law has gone flat, and no sign of it is in the numbers. So it starts
 * from at least two places and says where they end: starts that end at different depths are a finding, and so is an end where a parameter no longer
 * matters. Parameters are good to about 7 digits. `sd` are first-order, from J at the end: they hold where the law is near to linear over a few of them.
 */
import { Triangle } from "./linear-fit.ts";

export interface FitEnd {
  readonly b: Float64Array;
  readonly sd: Float64Array;
  readonly rss: number;
  readonly residualSd: number;
  /** The last steps no longer lowered S and every parameter still matters. */
  readonly settled: boolean;
  /** Evaluations of the law over all readings. */
  readonly calls: number;
}
export interface Fit extends FitEnd {
  /** Where each start ended. */
  readonly ends: readonly FitEnd[];
  /** What the ends say of each other; nothing where all agree. */
  readonly findings: readonly string[];
}
export interface FitProblem {
  readonly y: ArrayLike<number>;
  /** Writes what the law gives for every reading into `out`. */
  readonly law: (b: Float64Array, out: Float64Array) => void;
  /** Two or more. */
  readonly starts: readonly ArrayLike<number>[];
}

export function fit({ y, law, starts }: FitProblem): Fit {
  if (starts.length < 2)
    throw new RangeError(`${starts.length} start; a fit needs at least two, to see whether they agree`);
  const n = starts[0]!.length;
  const m = y.length;
  if (n === 0 || m < n)
    throw new RangeError(`${m} readings for ${n} parameters; there must be at least as many readings`);
  for (let i = 0; i < m; i++)
    if (!Number.isFinite(y[i])) throw new RangeError(`reading ${i + 1} is ${y[i]}; it must be finite`);
  for (const start of starts) {
    if (start.length !== n) throw new RangeError(`a start has ${start.length} parameters, another ${n}`);
    for (let j = 0; j < n; j++)
      if (!Number.isFinite(start[j])) throw new RangeError(`a start has ${start[j]} for parameter ${j + 1}`);
  }
  const ends = starts.map((start) => descend(y, law, Float64Array.from(start)));
  const inOrder = [...ends].sort((a, b) => depth(a) - depth(b));
  const best = inOrder[0]!;
  if (!Number.isFinite(best.rss)) throw new RangeError("the law gives no number at any of the starts");
  const findings: string[] = [];
  const scale = meanSquare(y) * m;
  ends.forEach((end, i) => {
    if (end === best) return;
    const say = (text: string) =>
      findings.push(`start ${i + 1} ${text}; residual sd ${end.residualSd}, the best has ${best.residualSd}`);
    if (!Number.isFinite(end.rss)) say("gives no number");
    else if (end.rss > best.rss * (1 + 1e-6) + 1e-20 * scale)
      say(end.settled ? "ends in another minimum" : "does not settle");
    else if (end.b.some((v, j) => Math.abs(v - best.b[j]!) > 1e-4 * Math.abs(best.b[j]!) + 1e-3 * (best.sd[j]! || 0)))
      say("ends elsewhere at the same depth: the readings do not fix the parameters");
  });
  if (!best.settled)
    findings.push("the best end has not settled: a parameter no longer matters there, or the steps ran out");
  return { ...best, ends, findings };
}
const depth = (end: FitEnd): number => (Number.isFinite(end.rss) ? end.rss : Number.POSITIVE_INFINITY);
const meanSquare = (y: ArrayLike<number>): number => {
  let s = 0;
  for (let i = 0; i < y.length; i++) s += y[i]! ** 2;
  return s / y.length;
};

const mostSteps = 3000;
function descend(y: ArrayLike<number>, law: FitProblem["law"], start: Float64Array): FitEnd {
  const m = y.length;
  const n = start.length;
  let calls = 0;
  let b: Float64Array = start;
  let trial: Float64Array = new Float64Array(n);
  let r: Float64Array = new Float64Array(m);
  let rTrial: Float64Array = new Float64Array(m);
  const up = new Float64Array(m);
  const down = new Float64Array(m);
  const rest = (at: Float64Array, into: Float64Array): number => {
    law(at, into);
    calls++;
    let S = 0;
    for (let i = 0; i < m; i++) {
      into[i] = y[i]! - into[i]!;
      S += into[i]! * into[i]!;
    }
    return S;
  };
  let S = rest(b, r);
  const D = new Float64Array(n);
  const J = new Float64Array(m * n);
  const damped = new Float64Array(2 * n * n);
  const right = new Float64Array(2 * n);
  const moved = Float64Array.from(b);
  /** The triangle of J at b; columns without a number are none. */
  const slopes = (): Triangle => {
    moved.set(b);
    for (let j = 0; j < n; j++) {
      const h = 6e-6 * Math.max(Math.abs(b[j]!), 1e-8);
      moved[j] = b[j]! + h;
      const high = moved[j]!;
      law(moved, up);
      moved[j] = b[j]! - h;
      law(moved, down);
      const width = high - moved[j]!;
      moved[j] = b[j]!;
      let norm = 0;
      for (let i = 0; i < m; i++) {
        const slope = (up[i]! - down[i]!) / width;
        J[j * m + i] = Number.isFinite(slope) ? slope : 0;
        norm += J[j * m + i]! ** 2;
      }
      D[j] = Math.max(D[j]!, Math.sqrt(norm)) || 1;
    }
    calls += 2 * n;
    return new Triangle(J, m, n);
  };
  let mu = 1e-2;
  let nu = 2;
  let still = 0;
  if (Number.isFinite(S))
    for (let step = 0; step < mostSteps && still < 3; step++) {
      const triangle = slopes();
      const rotated = triangle.rotate(r.slice());
      let taken = false;
      for (let attempt = 0; attempt < 60 && !taken; attempt++) {
        damped.fill(0);
        right.fill(0);
        for (let j = 0; j < n; j++) {
          for (let i = 0; i <= j; i++) damped[j * 2 * n + i] = triangle.at(i, j);
          damped[j * 2 * n + n + j] = Math.sqrt(mu) * D[j]!;
          right[j] = rotated[j]!;
        }
        const d = new Triangle(damped, 2 * n, n).solve(right);
        let size = 0;
        let along = 0;
        for (let j = 0; j < n; j++) {
          trial[j] = b[j]! + d[j]!;
          size = Math.max(size, Math.abs(d[j]!) / (Math.abs(b[j]!) + 1e-300));
        }
        // What the step should lower S by: |J d|^2 + 2 mu |D d|^2.
        for (let i = 0; i < n; i++) {
          let s = 0;
          for (let j = i; j < n; j++) s += triangle.at(i, j) * d[j]!;
          along += s * s + 2 * mu * (D[i]! * d[i]!) ** 2;
        }
        const next = rest(trial, rTrial);
        const gain = (S - next) / along;
        if (next < S || (next === S && size < 1e-12)) {
          const lowered = (S - next) / S;
          still = lowered < 1e-14 || (along < 1e-14 * S && size < 1e-9) ? still + 1 : 0;
          [b, trial] = [trial, b];
          [r, rTrial] = [rTrial, r];
          S = next;
          mu = Math.max(1e-16, mu * Math.max(1 / 5, 1 - power(2 * Math.min(gain, 1) - 1, 3)));
          nu = 2;
          taken = true;
          if (S === 0) still = 3;
        } else {
          if (along < 1e-13 * S && size < 1e-7) break;
          mu *= nu;
          nu = Math.min(2 * nu, 64);
          if (mu > 1e18) break;
        }
      }
      if (!taken) still = 3;
    }
  const residualSd = m > n ? Math.sqrt(S / (m - n)) : Number.NaN;
  if (!Number.isFinite(S))
    return { b, sd: new Float64Array(n).fill(Number.NaN), rss: S, residualSd, settled: false, calls };
  const triangle = slopes();
  let matters = true;
  for (let j = 0; j < n; j++) if (!(Math.abs(triangle.diagonal(j)) > 1e-12 * D[j]!)) matters = false;
  const sd = triangle.spread().map((v) => v * residualSd);
  return { b, sd, rss: S, residualSd, settled: matters && still >= 3, calls };
}
