/**
 * The step that raises the least of several linear functions most, within a box.
 *
 *     max t   with   f_j + g_j . d >= t  for every j,   low_i <= d_i <= high_i
 *
 * f_j  value of function j here;  g_j  its slope along each dimension;  d  the step
 *
 * A linear program, solved by the simplex method on a dense table (Dantzig 1963; Bland's rule 1977 once it stands still, so it ends). With
 * d = low and t the least function there, every bound is kept from the start, so no first phase is needed. Made for a dozen dimensions and a
 * few hundred functions. Slopes and values must be finite.
 */
export function bestStep(
  values: ArrayLike<number>,
  slopes: readonly ArrayLike<number>[],
  low: ArrayLike<number>,
  high: ArrayLike<number>,
): { readonly step: Float64Array; readonly least: number } {
  const k = low.length;
  const m = values.length;
  // Columns: y_i = d_i - low_i, then s = t - t0, then the right side; slack of row r is the basis at first.
  const width = k + 2;
  const height = m + k;
  const atLow = Float64Array.from({ length: m }, (_, j) => {
    let f = values[j]!;
    for (let i = 0; i < k; i++) f += slopes[j]![i]! * low[i]!;
    return f;
  });
  const t0 = Math.min(...atLow);
  const scale = Math.max(1e-300, ...atLow.map((f) => Math.abs(f - t0)));
  const table = Array.from({ length: height + 1 }, () => new Float64Array(width));
  for (let j = 0; j < m; j++) {
    for (let i = 0; i < k; i++) table[j]![i] = -slopes[j]![i]!;
    table[j]![k] = 1;
    table[j]![k + 1] = atLow[j]! - t0;
  }
  for (let i = 0; i < k; i++) {
    table[m + i]![i] = 1;
    table[m + i]![k + 1] = Math.max(0, high[i]! - low[i]!);
  }
  const goal = table[height]!;
  goal[k] = -1;
  const basis = Array.from({ length: height }, (_, r) => width + r);
  const outside = Array.from({ length: k + 1 }, (_, c) => c);
  const dust = 1e-11;
  let stood = 0;
  for (let turn = 0; turn < 50 * (height + width); turn++) {
    // The column that gains most; once nothing is gained for a while, the first that gains at all.
    let column = -1;
    for (let c = 0; c <= k; c++) {
      if (goal[c]! >= -dust * (c === k ? 1 : scale)) continue;
      const better = stood > 20 ? outside[c]! < (outside[column] ?? Infinity) : goal[c]! < (goal[column] ?? 0);
      if (column < 0 || better) column = c;
    }
    if (column < 0) break;
    let row = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let r = 0; r < height; r++) {
      const a = table[r]![column]!;
      if (a <= dust) continue;
      const ratio = table[r]![k + 1]! / a;
      if (ratio < least - dust || (ratio <= least && basis[r]! < basis[row]!)) {
        least = ratio;
        row = r;
      }
    }
    if (row < 0) break;
    stood = least > dust * scale ? 0 : stood + 1;
    pivot(table, row, column);
    [basis[row], outside[column]] = [outside[column]!, basis[row]!];
  }
  const step = Float64Array.from({ length: k }, (_, i) => low[i]!);
  basis.forEach((v, r) => {
    if (v < k) step[v]! = low[v]! + Math.max(0, table[r]![k + 1]!);
  });
  for (let i = 0; i < k; i++) step[i] = Math.min(high[i]!, step[i]!);
  let t = Number.POSITIVE_INFINITY;
  for (let j = 0; j < m; j++) {
    let f = values[j]!;
    for (let i = 0; i < k; i++) f += slopes[j]![i]! * step[i]!;
    t = Math.min(t, f);
  }
  return { step, least: t };
}
/** Exchanges what a row stands for with what a column stands for, in a table that keeps the columns outside the basis alone. */
function pivot(table: readonly Float64Array[], row: number, column: number): void {
  const mine = table[row]!;
  const p = mine[column]!;
  for (let c = 0; c < mine.length; c++) mine[c]! /= p;
  mine[column] = 1 / p;
  for (const [r, other] of table.entries()) {
    if (r === row) continue;
    const a = other[column]!;
    if (a === 0) continue;
    for (let c = 0; c < other.length; c++) if (c !== column) other[c]! -= a * mine[c]!;
    other[column] = -a / p;
  }
}
