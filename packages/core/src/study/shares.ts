import type { Given } from "../quantity/given.ts";
import type { Quantity } from "../quantity/model.ts";
import type { Inputs } from "./inputs.ts";
import { normalScores } from "./normal-score.ts";
import { largestFirst, SobolPoints } from "./sobol.ts";
import { finished, type Steps } from "./steps.ts";

/** What one input carries of the variance of a number. */
export interface Share {
  readonly name: string;
  /** S: by itself, what would be gone of the variance if it were fixed, on average. */
  readonly first: number;
  /** T: by itself and together with others, what would be left if all others were fixed. */
  readonly total: number;
  /** Standard errors, from scrambles apart; nought where the shares are exact. */
  readonly firstError: number;
  readonly totalError: number;
  /** T - S above 0.05: it acts together with others. */
  readonly together: boolean;
}
export interface Shares {
  readonly variance: number;
  readonly mean: number;
  /** additive: a sum of functions of one input each, whose shares are exact. drawn: by Jansen's estimators. */
  readonly how: "additive" | "drawn";
  /** In the order of the inputs. */
  readonly shares: readonly Share[];
  /** How many values were computed. */
  readonly calls: number;
}

/** A number as a function of independent inputs, column by column. */
export interface Shared {
  readonly names: readonly string[];
  /** uniform: u in (0, 1). even: t in (-1, 1). normal: a standard normal score. One for each input. */
  readonly laws: readonly ("uniform" | "even" | "normal")[];
  /**
   * Values at n points; the result may be written over by the next call. Columns of x are never written over between calls: what rests on the
   * same ones as in the last call need not be evaluated again.
   */
  at(x: readonly Float64Array[], n: number): Float64Array | number;
}
export interface ShareOptions {
  readonly seed?: number;
  /** Points of one scramble; a power of two is best. */
  readonly points?: number;
  /** Scrambles, each of its own: the standard errors come from their spread. */
  readonly scrambles?: number;
  /** How much each input counts, roughly: the largest get the first dimensions. Without it they are found from few points. */
  readonly importance?: ArrayLike<number>;
}

/** Points evaluated at once: the columns of a chain of a dozen inputs stay in the processor's nearer memory. */
const atOnce = 1024;

/**
 * Shares of the variance of a number that its inputs carry.
 *
 *     S_i = 1 - E[(f(B) - f(A_B^i))^2] / 2V,    T_i = E[(f(A) - f(A_B^i))^2] / 2V
 *
 * A, B  two sets of points, A_B^i A with input i from B;  V  variance of f over both
 *
 * Jansen 1999 (memory); Saltelli et al. 2010 (memory) for both at once. Points: Sobol' with Owen's scrambling, the inputs that count most in the
 * first dimensions, as many scrambles as asked for standard errors. sum S <= 1 <= sum T. Inputs must be independent: of those that go together
 * (correlated.ts) the share is that of their independent scores, in the order of the members.
 *
 * A number that is a sum of functions of one input each (tried at 16 points; a chain of lengths is) has S = T, by quadrature over each input alone
 * without a draw (Gauss, 24 nodes): exact for what is linear in its law's own coordinate, V_i = a_i^2 s_i^2. Where the number does not vary all shares are nought;
 * where it has no answer in some draw, it has no variance, and all are NaN.
 */
export const sharesOf = (f: Shared, options: ShareOptions = {}): Shares => finished(sharesInSteps(f, options));

/** The same, block by block. */
export function* sharesInSteps(f: Shared, options: ShareOptions = {}): Steps<Shares> {
  const { seed = 1, points = 4096, scrambles = 8 } = options;
  const exact = additive(f);
  if (exact) return exact;
  const study = new ShareStudy(f, { seed, points, scrambles, importance: options.importance ?? roughly(f, seed) });
  const sums: Float64Array[] = [];
  for (let block = 0; block < study.blocks; block++) {
    sums.push(study.block(block));
    yield;
  }
  return study.put(sums);
}

/** Shares of a quantity of a scene; belief at its medians, or where it is put. */
export function sharesOfInputs(
  inputs: Inputs,
  quantity: Quantity,
  options: ShareOptions & { readonly belief?: (given: Given) => number } = {},
): Shares {
  return sharesOf(sharedInputs(inputs, quantity, options.belief), options);
}
export function sharedInputs(inputs: Inputs, quantity: Quantity, belief?: (given: Given) => number): Shared {
  return {
    names: inputs.axes.map(({ given, which, level }) => `${level} ${given.address}#${which}`),
    laws: inputs.even.map((even) => (even ? "even" : "normal")),
    at: (x, n) => inputs.runOwn(n, x, belief, undefined, true)(quantity),
  };
}

const uniformInto = {
  uniform: (_: Float64Array) => {},
  even: (c: Float64Array) => {
    for (let k = 0; k < c.length; k++) c[k] = 2 * c[k]! - 1;
  },
  normal: (c: Float64Array) => normalScores(c),
} as const;

/**
 * Jansen's sums in blocks that may be computed anywhere, in any order: one worker or five give the same bits, because `put` adds them in theirs.
 */
export class ShareStudy {
  private readonly f: Shared;
  private readonly options: Required<ShareOptions>;
  private readonly dimension: readonly number[];
  private readonly perScramble: number;
  private readonly size: number;
  /** How many blocks there are. */
  readonly blocks: number;
  /** The number with every input in its middle: sums are of what lies off it, so that a large mean takes no digits from the variance. */
  private readonly middle: number;
  private at: { readonly scramble: number; readonly points: SobolPoints } | undefined;
  constructor(f: Shared, options: Required<ShareOptions>) {
    this.f = f;
    this.options = options;
    this.dimension = largestFirst(options.importance);
    this.size = Math.min(atOnce, options.points);
    this.perScramble = Math.ceil(options.points / this.size);
    this.blocks = this.perScramble * options.scrambles;
    const middle = valuesOf(
      f,
      f.laws.map((law) => Float64Array.of(law === "uniform" ? 0.5 : 0)),
      1,
    )[0]!;
    this.middle = Number.isFinite(middle) ? middle : 0;
  }
  /** n, sum and sum of squares of f - f(middle) over A and B, then for each input the sums of squared differences for S and for T. */
  block(block: number): Float64Array {
    const { f } = this;
    const d = f.names.length;
    const scramble = Math.floor(block / this.perScramble);
    const from = (block % this.perScramble) * this.size;
    const n = Math.min(this.size, this.options.points - from);
    if (this.at?.scramble !== scramble) this.at = { scramble, points: this.pointsOf(scramble) };
    const column = (i: number, set: 0 | 1): Float64Array => {
      const c = this.at!.points.uniform(2 * this.dimension[i]! + set, from, n);
      uniformInto[f.laws[i]!](c);
      return c;
    };
    const a = f.names.map((_, i) => column(i, 0));
    const b = f.names.map((_, i) => column(i, 1));
    const fa = valuesOf(f, a, n);
    const fb = valuesOf(f, b, n);
    const out = new Float64Array(3 + 2 * d);
    out[0] = 2 * n;
    for (let k = 0; k < n; k++) {
      const [p, q] = [fa[k]! - this.middle, fb[k]! - this.middle];
      out[1]! += p + q;
      out[2]! += p * p + q * q;
    }
    for (let i = 0; i < d; i++) {
      const before = a[i]!;
      a[i] = b[i]!;
      const c = f.at(a, n);
      a[i] = before;
      let [first, total] = [0, 0];
      for (let k = 0; k < n; k++) {
        const v = typeof c === "number" ? c : c[k]!;
        const s = fb[k]! - v;
        const t = fa[k]! - v;
        first += s * s;
        total += t * t;
      }
      out[3 + 2 * i] = first;
      out[4 + 2 * i] = total;
    }
    return out;
  }
  /** Dimensions 2 p and 2 p + 1 are A's and B's of the p-th largest input: the pair of a large one lies where points are spread best. */
  private pointsOf(scramble: number): SobolPoints {
    const names = new Array<string>(2 * this.dimension.length);
    this.dimension.forEach((p, i) => {
      names[2 * p] = `A ${this.f.names[i]}`;
      names[2 * p + 1] = `B ${this.f.names[i]}`;
    });
    return new SobolPoints((this.options.seed + Math.imul(scramble, 0x9e3779b9)) | 0, names);
  }
  /** The shares from all blocks' sums, in their order. */
  put(sums: readonly Float64Array[]): Shares {
    const { names } = this.f;
    const d = names.length;
    const each = Array.from({ length: this.options.scrambles }, (_, s) => {
      const of = new Float64Array(3 + 2 * d);
      for (let k = 0; k < this.perScramble; k++) addTo(of, sums[s * this.perScramble + k]!);
      return of;
    });
    const all = new Float64Array(3 + 2 * d);
    for (const of of each) addTo(all, of);
    const varianceOf = (of: Float64Array): number => Math.max(0, of[2]! / of[0]! - (of[1]! / of[0]!) ** 2);
    const variance = varianceOf(all);
    const mean = this.middle + all[1]! / all[0]!;
    const varies = !(variance <= 1e-24 * mean * mean);
    const first = (of: Float64Array, i: number): number => 1 - of[3 + 2 * i]! / of[0]! / varianceOf(of);
    const total = (of: Float64Array, i: number): number => of[4 + 2 * i]! / of[0]! / varianceOf(of);
    return {
      variance,
      mean,
      how: "drawn",
      calls: (all[0]! / 2) * (d + 2),
      shares: names.map((name, i): Share => {
        if (!varies) return { name, first: 0, total: 0, firstError: 0, totalError: 0, together: false };
        const [s, t] = [first(all, i), total(all, i)];
        return {
          name,
          first: s,
          total: t,
          firstError: errorOf(each.map((of) => first(of, i))),
          totalError: errorOf(each.map((of) => total(of, i))),
          together: t - s > 0.05,
        };
      }),
    };
  }
}
function addTo(sum: Float64Array, x: Float64Array): void {
  for (let j = 0; j < sum.length; j++) sum[j]! += x[j]!;
}
/** Standard error of the mean of independent values; of one alone nothing is known. */
function errorOf(x: readonly number[]): number {
  if (x.length < 2) return Number.NaN;
  const mean = x.reduce((sum, v) => sum + v, 0) / x.length;
  return Math.sqrt(x.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (x.length - 1) / x.length);
}
function valuesOf(f: Shared, x: readonly Float64Array[], n: number): Float64Array {
  const c = f.at(x, n);
  return typeof c === "number" ? new Float64Array(n).fill(c) : c.slice(0, n);
}

/** Total shares from 256 points: enough to say which inputs come first. */
function roughly(f: Shared, seed: number): number[] {
  const even = f.names.map(() => 1);
  const study = new ShareStudy(f, { seed: seed ^ 0x5bd1e995, points: 256, scrambles: 1, importance: even });
  return study.put([study.block(0)]).shares.map(({ total }) => total);
}

/** Nodes and weights of Gauss's quadrature over a law, from a law's own three-term recurrence; the mean over the law is sum w f(x). */
interface Rule {
  readonly x: Float64Array;
  readonly w: Float64Array;
  /** The law's orthonormal polynomials of the last quarter of degrees, at the nodes. */
  readonly high: readonly Float64Array[];
}
const nodes = 24;
/**
 * Roots of the orthonormal polynomial p_n by Newton from between the roots of p_(n-1), weights 1/sum p_k^2 (Christoffel; memory).
 * x p_k = b_(k+1) p_(k+1) + b_k p_(k-1), with b_k = sqrt k for the normal law and k/sqrt(4 k^2 - 1) for the even one on [-1, 1].
 */
function rule(b: (k: number) => number, reach: number): Rule {
  const value = (x: number, n: number): { readonly p: number; readonly squares: number } => {
    let [before, p, squares] = [0, 1, 0];
    for (let k = 0; k < n; k++) {
      squares += p * p;
      [before, p] = [p, (x * p - (k === 0 ? 0 : b(k)) * before) / b(k + 1)];
    }
    return { p, squares };
  };
  let roots: number[] = [];
  for (let n = 1; n <= nodes; n++) {
    const ends = [-reach, ...roots, reach];
    roots = ends.slice(1).map((right, i) => {
      let [low, high] = [ends[i]!, right];
      const sign = Math.sign(value(low, n).p);
      for (let step = 0; step < 200 && high - low > 1e-15 * reach; step++) {
        const middle = (low + high) / 2;
        if (Math.sign(value(middle, n).p) === sign) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    });
  }
  const high = Array.from({ length: nodes / 4 }, (_, k) =>
    Float64Array.from(roots, (x) => value(x, (3 * nodes) / 4 + k).p),
  );
  return { x: Float64Array.from(roots), w: Float64Array.from(roots, (x) => 1 / value(x, nodes).squares), high };
}
let rules: Readonly<Record<"normal" | "even" | "uniform", Rule>> | undefined;
function rulesOf(): Readonly<Record<"normal" | "even" | "uniform", Rule>> {
  if (rules) return rules;
  const even = rule((k) => k / Math.sqrt(4 * k * k - 1), 1);
  rules = {
    normal: rule((k) => Math.sqrt(k), 2 * Math.sqrt(nodes)),
    even,
    uniform: { ...even, x: even.x.map((t) => (t + 1) / 2) },
  };
  return rules;
}

const tried = 16;
/** Exact shares of a sum of functions of one input each; undefined where the number is none, or where one input alone is too kinked to integrate. */
function additive(f: Shared): Shares | undefined {
  const d = f.names.length;
  const rule = rulesOf();
  const middle = f.laws.map((law) => (law === "uniform" ? 0.5 : 0));
  // One call: the middle, each input over its nodes with the others in the middle, and points at which the sum of the parts is tried.
  const n = 1 + d * nodes + tried;
  const x = f.names.map((_, i) => new Float64Array(n).fill(middle[i]!));
  for (let i = 0; i < d; i++) x[i]!.set(rule[f.laws[i]!].x, 1 + i * nodes);
  // A shuffle of the nodes for each input: known parts at new places together.
  const at = (i: number, k: number): number => (7 * k * (i + 1) + 5 * i + 3 * k * k) % nodes;
  for (let k = 0; k < tried; k++) for (let i = 0; i < d; i++) x[i]![1 + d * nodes + k] = rule[f.laws[i]!].x[at(i, k)]!;
  const values = valuesOf(f, x, n);
  if (!values.every(Number.isFinite)) return undefined;
  const f0 = values[0]!;
  const part = (i: number, j: number): number => values[1 + i * nodes + j]! - f0;
  const moments = f.names.map((_, i) => {
    const { w } = rule[f.laws[i]!];
    let [mean, square] = [0, 0];
    for (let j = 0; j < nodes; j++) mean += w[j]! * part(i, j);
    for (let j = 0; j < nodes; j++) square += w[j]! * (part(i, j) - mean) ** 2;
    return { mean, variance: square };
  });
  const variance = moments.reduce((sum, m) => sum + m.variance, 0);
  const spread = Math.sqrt(variance);
  for (let k = 0; k < tried; k++) {
    let [sum, size] = [f0, Math.abs(f0)];
    for (let i = 0; i < d; i++) {
      sum += part(i, at(i, k));
      size += Math.abs(part(i, at(i, k)));
    }
    if (Math.abs(values[1 + d * nodes + k]! - sum) > 1e-9 * spread + 1e-12 * size) return undefined;
  }
  if (!f.names.every((_, i) => smooth(rule[f.laws[i]!], (j) => part(i, j), variance))) return undefined;
  return {
    variance,
    mean: f0 + moments.reduce((sum, m) => sum + m.mean, 0),
    how: "additive",
    calls: n,
    shares: f.names.map((name, i): Share => {
      const share = variance > 0 ? moments[i]!.variance / variance : 0;
      return { name, first: share, total: share, firstError: 0, totalError: 0, together: false };
    }),
  };
}
/** Whether a rule integrates a part and its square: its coefficients of the last degrees carry nothing of the variance. A kink's do. */
const smooth = ({ w, high }: Rule, part: (j: number) => number, variance: number): boolean =>
  high.reduce((sum, p) => sum + p.reduce((c, v, j) => c + v * w[j]! * part(j), 0) ** 2, 0) <= 1e-10 * variance;
