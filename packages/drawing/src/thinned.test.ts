import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { thinned } from "./thinned.ts";

const rising = (n: number): Float64Array => Float64Array.from({ length: n }, (_, i) => i);

test("a single high row among a million is still there", () => {
  const n = 1_000_000;
  const x = rising(n);
  const y = new Float64Array(n);
  y[654_321] = 7;
  const t = thinned(x, y, 800);
  expect(Math.max(...t.y)).toBe(7);
  expect(t.x[t.y.indexOf(7)]).toBe(654_321);
  expect(t.x.length).toBeLessThanOrEqual(4 * 800);
  expect(t.rows).toBe(n);
});
test("few rows are all kept, in their order", () => {
  const y = [3, 1, 4, 1, 5];
  const t = thinned(rising(5), y, 100);
  expect([...t.y]).toEqual(y);
  expect([...t.x]).toEqual([0, 1, 2, 3, 4]);
});
test("least, greatest, first and last row of every column are among the points, and nothing else", () => {
  const values = fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 2, maxLength: 400 });
  fc.assert(
    fc.property(values, fc.integer({ min: 1, max: 30 }), (y, columns) => {
      const n = y.length;
      const t = thinned(rising(n), y, columns);
      const column = (i: number): number => Math.min(columns - 1, Math.floor((i * columns) / (n - 1)));
      // A rounded product may put a row that lies on the border of two columns into either.
      const onBorder = (i: number): boolean => Math.abs(((i * columns) / (n - 1)) % 1) < 1e-9;
      const kept = new Set(t.x);
      for (let c = 0; c < columns; c++) {
        const rows = [...y.keys()].filter((i) => column(i) === c && !onBorder(i));
        const found = [...t.x].filter((i) => column(i) === c);
        expect(found.length).toBeLessThanOrEqual(6);
        if (rows.length === 0) continue;
        const inColumn = [...y.keys()].filter((i) => Math.abs(column(i) - c) <= 1 && kept.has(i)).map((i) => y[i]!);
        expect(Math.max(...inColumn)).toBeGreaterThanOrEqual(Math.max(...rows.map((i) => y[i]!)));
        expect(Math.min(...inColumn)).toBeLessThanOrEqual(Math.min(...rows.map((i) => y[i]!)));
      }
      for (const [k, i] of t.x.entries()) expect(t.y[k]).toBe(y[i]);
      expect([...t.x]).toEqual([...t.x].sort((a, b) => a - b));
      expect(kept.has(0)).toBe(true);
      expect(kept.has(n - 1)).toBe(true);
    }),
  );
});
describe("a gap", () => {
  test("as wide as a column stays a gap, and is never 0", () => {
    const y = Float64Array.from({ length: 1000 }, (_, i) => (i >= 400 && i < 500 ? Number.NaN : 2));
    const t = thinned(rising(1000), y, 20);
    expect([...t.y].some(Number.isNaN)).toBe(true);
    expect([...t.y].filter((v) => !Number.isNaN(v)).every((v) => v === 2)).toBe(true);
  });
  test("between rows that lie far apart is none", () => {
    const t = thinned([0, 50, 100], [1, 2, 3], 500);
    expect([...t.y]).toEqual([1, 2, 3]);
  });
});
test("a stretch keeps the row before it and the row behind it, so that the line reaches both edges", () => {
  const t = thinned(rising(100), rising(100), 10, { from: 40.5, to: 59.5 });
  expect(t.x[0]).toBe(40);
  expect(t.x.at(-1)).toBe(60);
  expect(t.rows).toBe(19);
});
test("rows that run back fall into the columns in which they lie, and are no more points than others", () => {
  const n = 10_000;
  const x = Float64Array.from({ length: n }, (_, i) => (i % 2 === 0 ? i : n - i));
  const t = thinned(x, rising(n), 50);
  expect(t.x.length).toBeLessThanOrEqual(200);
});
test("a tape that stands still all along is drawn in one column", () => {
  const t = thinned([3, 3, 3, 3], [1, 9, 0, 2], 10);
  expect([...t.y]).toEqual([1, 9, 0, 2]);
});
test("places and values of different numbers are refused", () => {
  expect(() => thinned([1, 2], [1], 10)).toThrow("2 places and 1 values");
  expect(() => thinned([1], [1], 0)).toThrow("whole number above 0");
});
test("a million rows become no more than four points a column", () => {
  const n = 1_000_000;
  const y = Float64Array.from({ length: n }, (_, i) => Math.sin(i / 500));
  const { x } = thinned(rising(n), y, 900);
  expect(x.length).toBeLessThanOrEqual(4 * 900);
  expect(x.length).toBeGreaterThan(900);
});
