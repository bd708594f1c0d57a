/**
 * Linear equations whose matrix has five diagonals either side of the middle: the band of a chain of nodes with three unknowns each.
 *
 * Row i holds the columns i - 5 .. i + 10 in `stride` places: five more to the right than the matrix has, for what row exchanges bring in.
 * Gaussian elimination with row pivoting, in place; matrix and right-hand side are used up.
 */
export const reach = 5;
export const stride = 3 * reach + 1;

/** Place of row i, column j; only |i - j| <= reach may be written before the solve. */
export const place = (i: number, j: number): number => stride * i + j - i + reach;

/** Solves A x = b for n unknowns; x replaces b. False where a pivot vanishes or is not a number. */
export function solveBanded(A: Float64Array, b: Float64Array, n: number): boolean {
  for (let k = 0; k < n; k++) {
    const lastRow = Math.min(n - 1, k + reach);
    const width = Math.min(n - 1, k + 2 * reach) - k;
    const own = stride * k + reach;
    let pivot = k;
    let most = Math.abs(A[own]!);
    for (let i = k + 1; i <= lastRow; i++) {
      const v = Math.abs(A[stride * i + k - i + reach]!);
      if (v > most) {
        most = v;
        pivot = i;
      }
    }
    if (!(most > 0)) return false;
    if (pivot !== k) {
      const other = stride * pivot + k - pivot + reach;
      for (let j = 0; j <= width; j++) {
        const held = A[own + j]!;
        A[own + j] = A[other + j]!;
        A[other + j] = held;
      }
      const held = b[k]!;
      b[k] = b[pivot]!;
      b[pivot] = held;
    }
    const d = 1 / A[own]!;
    for (let i = k + 1; i <= lastRow; i++) {
      const row = stride * i + k - i + reach;
      const f = A[row]! * d;
      if (f === 0) continue;
      for (let j = 1; j <= width; j++) A[row + j] = A[row + j]! - f * A[own + j]!;
      b[i] = b[i]! - f * b[k]!;
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    const width = Math.min(n - 1, k + 2 * reach) - k;
    const own = stride * k + reach;
    let s = b[k]!;
    for (let j = 1; j <= width; j++) s -= A[own + j]! * b[k + j]!;
    b[k] = s / A[own]!;
    if (!Number.isFinite(b[k]!)) return false;
  }
  return true;
}

/**
 * True where elimination without exchanges meets positive pivots only: a symmetric matrix is positive definite then, and a state it is the stiffness
 * of stays where it is. The matrix is used up.
 */
export function allPivotsPositive(A: Float64Array, n: number): boolean {
  for (let k = 0; k < n; k++) {
    const own = stride * k + reach;
    if (!(A[own]! > 0)) return false;
    const d = 1 / A[own]!;
    const width = Math.min(n - 1, k + reach) - k;
    for (let i = 1; i <= width; i++) {
      const row = stride * (k + i) - i + reach;
      const f = A[row]! * d;
      if (f === 0) continue;
      for (let j = 1; j <= width; j++) A[row + j] = A[row + j]! - f * A[own + j]!;
    }
  }
  return true;
}
