import fc from "fast-check";
import { expect, test } from "vitest";
import { allPivotsPositive, place, reach, solveBanded, stride } from "./banded.ts";

/** The same equations by elimination on a full square of rows, without a band. */
function solveFull(rows: readonly (readonly number[])[], right: readonly number[]): number[] {
  const a = rows.map((row, i) => [...row, right[i]!]);
  const n = a.length;
  for (let k = 0; k < n; k++) {
    const p = a.slice(k).reduce((best, row, i) => (Math.abs(row[k]!) > Math.abs(a[best]![k]!) ? i + k : best), k);
    [a[k], a[p]] = [a[p]!, a[k]!];
    for (let i = k + 1; i < n; i++) {
      const f = a[i]![k]! / a[k]![k]!;
      for (let j = k; j <= n; j++) a[i]![j]! -= f * a[k]![j]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--)
    x[k] = (a[k]![n]! - a[k]!.slice(k + 1, n).reduce((s, v, j) => s + v * x[k + 1 + j]!, 0)) / a[k]![k]!;
  return x;
}

test("a band of random unsymmetric numbers has the solution that full elimination finds", () => {
  const size = fc.integer({ min: 1, max: 40 });
  fc.assert(
    fc.property(size, fc.infiniteStream(fc.double({ min: -1, max: 1, noNaN: true })), (n, numbers) => {
      const next = (): number => numbers.next().value as number;
      const A = new Float64Array(stride * n);
      const rows = Array.from({ length: n }, () => new Array<number>(n).fill(0));
      for (let i = 0; i < n; i++)
        for (let j = Math.max(0, i - reach); j <= Math.min(n - 1, i + reach); j++) {
          // Small diagonals, so that rows are exchanged; away from nought, so that both solutions are well defined.
          const v = i === j ? 0.05 + next() * 0.01 : next() + (j === i + 1 ? 2 : 0) + (j === i - 1 ? -2 : 0);
          rows[i]![j] = v;
          A[place(i, j)] = v;
        }
      const right = Array.from({ length: n }, next);
      const wanted = solveFull(rows, right);
      const b = Float64Array.from(right);
      fc.pre(wanted.every((v) => Math.abs(v) < 1e4));
      expect(solveBanded(A, b, n)).toBe(true);
      wanted.forEach((v, i) => {
        expect(Math.abs(b[i]! - v)).toBeLessThan(1e-6 * Math.max(1, ...wanted.map(Math.abs)));
      });
    }),
    { seed: 41, numRuns: 60 },
  );
});
test("equations without a solution are said to have none", () => {
  const A = new Float64Array(stride * 2);
  for (const [i, j] of [
    [0, 0],
    [0, 1],
    [1, 0],
    [1, 1],
  ] as const)
    A[place(i, j)] = 1;
  expect(solveBanded(A, Float64Array.of(1, 2), 2)).toBe(false);
  expect(solveBanded(new Float64Array(stride), Float64Array.of(1), 1)).toBe(false);
});

test("a stiffness is found positive exactly where the energy of every displacement is", () => {
  // Springs in a row, the middle one of stiffness k: three unknowns, energy x1^2 + k (x2 - x1)^2 + (x3 - x2)^2 + x3^2.
  const springs = (k: number): Float64Array => {
    const A = new Float64Array(stride * 3);
    const rows = [
      [1 + k, -k, 0],
      [-k, k + 1, -1],
      [0, -1, 2],
    ];
    rows.forEach((row, i) => {
      row.forEach((v, j) => {
        A[place(i, j)] = v;
      });
    });
    return A;
  };
  // Determinant (1 + k)(2 (k + 1) - 1) - 2 k^2 = 3 k + 1 : it turns at k = -1/3, by hand.
  expect(allPivotsPositive(springs(-0.33), 3)).toBe(true);
  expect(allPivotsPositive(springs(-0.34), 3)).toBe(false);
  expect(allPivotsPositive(springs(-2), 3)).toBe(false);
});
