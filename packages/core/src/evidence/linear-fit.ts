/**
 * Least squares of a law linear in its parameters, by orthogonal triangles.
 *
 *     minimise |y - X b|^2:   X D^-1 = Q R (Householder, D the norms of X's columns),   R D b = Q' y,   sd_j = s sqrt((R'R)^-1_jj)/D_j
 *
 * s^2 = |y - X b|^2/(m - p), m readings, p parameters. Never forms X'X, which would square the loss of digits; the solution is corrected once from residuals
 * summed with their rounding carried. Columns of which one nearly follows from the others (a diagonal of R below 1e-13 of its column) are refused: no
 * data of double length tells such parameters apart. Golub 1965; memory.
 */
import { compensated } from "./summary.ts";

export interface LinearFit {
  readonly b: Float64Array;
  /** Standard deviations of b; not numbers where there are no more readings than parameters. */
  readonly sd: Float64Array;
  readonly residualSd: number;
  readonly rss: number;
}
/** columns[j][i] is what parameter j counts in reading i; a column of ones gives a constant. */
export function linearFit(columns: readonly ArrayLike<number>[], y: ArrayLike<number>): LinearFit {
  const p = columns.length;
  const m = y.length;
  if (p === 0 || m < p)
    throw new RangeError(`${m} readings for ${p} parameters; there must be at least as many readings`);
  for (const column of columns)
    if (column.length !== m) throw new RangeError(`a column has ${column.length} values beside ${m} readings`);
  for (const column of [...columns, y])
    for (let i = 0; i < m; i++)
      if (!Number.isFinite(column[i])) throw new RangeError(`value ${i + 1} is ${column[i]}; it must be finite`);
  const norms = Float64Array.from(columns, (c) => {
    let sum = 0;
    for (let i = 0; i < m; i++) sum += c[i]! * c[i]!;
    return Math.sqrt(sum);
  });
  const a = new Float64Array(m * p);
  columns.forEach((c, j) => {
    for (let i = 0; i < m; i++) a[j * m + i] = c[i]! / (norms[j]! || 1);
  });
  const triangle = new Triangle(a, m, p);
  for (let j = 0; j < p; j++)
    if (!(Math.abs(triangle.diagonal(j)) > 1e-13))
      throw new RangeError(
        `column ${j + 1} follows from those before it: the readings cannot tell these parameters apart`,
      );
  const b = triangle.solve(Float64Array.from(y));
  for (let j = 0; j < p; j++) b[j]! /= norms[j]!;
  const residuals = new Float64Array(m);
  const rest = (): void => {
    for (let i = 0; i < m; i++) residuals[i] = exactRest(y[i]!, columns, b, i);
  };
  rest();
  const correction = triangle.solve(residuals.slice());
  for (let j = 0; j < p; j++) b[j]! += correction[j]! / norms[j]!;
  rest();
  const rss = compensated(m, (i) => residuals[i]! ** 2);
  const residualSd = m > p ? Math.sqrt(rss / (m - p)) : Number.NaN;
  const sd = triangle.spread().map((v, j) => (v * residualSd) / norms[j]!);
  return { b, sd, residualSd, rss };
}
/** y - sum x b of one reading; each product split so that its rounding is kept (Dekker 1971; memory). */
function exactRest(y: number, columns: readonly ArrayLike<number>[], b: Float64Array, i: number): number {
  const n = columns.length;
  return compensated(2 * n + 1, (k) => {
    if (k === 0) return y;
    const j = (k - 1) >> 1;
    const u = columns[j]![i]!;
    const v = -b[j]!;
    const product = u * v;
    if (k & 1) return product;
    const [uh, vh] = [split(u), split(v)];
    return (u - uh) * (v - vh) - (product - uh * vh - (u - uh) * vh - uh * (v - vh));
  });
}
const split = (u: number): number => {
  const t = 134217729 * u;
  return t - (t - u);
};

/** Householder's triangle of a tall matrix, kept by columns: a[j m + i]. Written over by it. */
export class Triangle {
  private readonly a: Float64Array;
  private readonly m: number;
  private readonly n: number;
  private readonly diagonals: Float64Array;
  private readonly scales: Float64Array;
  constructor(a: Float64Array, m: number, n: number) {
    this.a = a;
    this.m = m;
    this.n = n;
    this.diagonals = new Float64Array(n);
    this.scales = new Float64Array(n);
    for (let k = 0; k < n; k++) {
      let norm = 0;
      for (let i = k; i < m; i++) norm += a[k * m + i]! ** 2;
      norm = Math.sqrt(norm);
      const head = a[k * m + k]!;
      const diagonal = head > 0 ? -norm : norm;
      this.diagonals[k] = diagonal;
      if (norm === 0) continue;
      a[k * m + k] = head - diagonal;
      // v'v/2 with v = (head - diagonal, rest)
      this.scales[k] = 1 / (norm * (norm + Math.abs(head)));
      for (let j = k + 1; j < n; j++) this.reflect(k, a, j * m);
    }
  }
  diagonal(j: number): number {
    return this.diagonals[j]!;
  }
  /** Element of the triangle, i <= j. */
  at(i: number, j: number): number {
    return i === j ? this.diagonals[i]! : this.a[j * this.m + i]!;
  }
  /** Q' y, in place. */
  rotate(y: Float64Array): Float64Array {
    for (let k = 0; k < this.n; k++) this.reflect(k, y, 0);
    return y;
  }
  /** The least-squares solution; y is written over. A direction without weight gets 0. */
  solve(y: Float64Array): Float64Array {
    this.rotate(y);
    const d = new Float64Array(this.n);
    for (let i = this.n - 1; i >= 0; i--) {
      let s = y[i]!;
      for (let j = i + 1; j < this.n; j++) s -= this.at(i, j) * d[j]!;
      d[i] = this.diagonals[i] === 0 ? 0 : s / this.diagonals[i]!;
    }
    return d;
  }
  /** Square roots of the diagonal of (R'R)^-1: norms of the rows of R^-1. */
  spread(): Float64Array {
    const { n } = this;
    const out = new Float64Array(n);
    for (let c = 0; c < n; c++) {
      const x = new Float64Array(n);
      for (let i = c; i >= 0; i--) {
        let s = i === c ? 1 : 0;
        for (let j = i + 1; j <= c; j++) s -= this.at(i, j) * x[j]!;
        x[i] = s / this.diagonals[i]!;
      }
      for (let i = 0; i <= c; i++) out[i]! += x[i]! ** 2;
    }
    return out.map(Math.sqrt);
  }
  private reflect(k: number, y: Float64Array, from: number): void {
    const { a, m } = this;
    if (this.scales[k] === 0) return;
    let t = 0;
    for (let i = k; i < m; i++) t += a[k * m + i]! * y[from + i]!;
    t *= this.scales[k]!;
    for (let i = k; i < m; i++) y[from + i]! -= t * a[k * m + i]!;
  }
}
