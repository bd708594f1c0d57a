import { describe, expect, test } from "vitest";
import { directions } from "./directions.ts";

/** Degree of a polynomial over the field of two: place of its leading bit. */
const degreeOf = (polynomial: number): number => 31 - Math.clz32(polynomial);
const rows = directions.map(([polynomial, ...m], i) => ({ dimension: i + 2, polynomial: polynomial!, m }));
/** The least power of x that is 1 modulo a polynomial with a constant term. */
function orderOfX(polynomial: number): number {
  const top = 1 << degreeOf(polynomial);
  let x = 1;
  for (let k = 1; ; k++) {
    x <<= 1;
    if (x & top) x ^= polynomial;
    if (x === 1) return k;
  }
}
/** How many numbers below n share no divisor with it. */
const coprime = (n: number): number => {
  const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));
  return Array.from({ length: n }, (_, i) => i + 1).filter((i) => divisor(i, n) === 1).length;
};

test("there is a row for each of dimensions 2 to 128", () => {
  expect(rows).toHaveLength(127);
  expect(rows.at(-1)!.dimension).toBe(128);
});
describe("polynomials", () => {
  // x has the order 2^s - 1 modulo a primitive polynomial of degree s. [memory]
  test("are primitive", () => {
    for (const { dimension, polynomial } of rows) {
      expect(polynomial % 2, `dimension ${dimension}`).toBe(1);
      expect(orderOfX(polynomial), `dimension ${dimension}`).toBe(2 ** degreeOf(polynomial) - 1);
    }
  });
  test("go up, so that none stands twice and low degrees come first", () => {
    for (const [i, { polynomial }] of rows.entries())
      if (i > 0) expect(polynomial).toBeGreaterThan(rows[i - 1]!.polynomial);
  });
  // There are phi(2^s - 1)/s primitive polynomials of degree s: 1, 1, 2, 2, 6, 6, 18, 16, 48. [memory]
  test("of every degree below the last are all there", () => {
    const counts = Array.from({ length: 9 }, (_, s) => rows.filter((r) => degreeOf(r.polynomial) === s + 1).length);
    // Degree 1 is x + 1 alone.
    expect(counts).toEqual([1, 1, 2, 2, 6, 6, 18, 16, 48]);
    for (let s = 2; s <= 9; s++) expect(counts[s - 1]).toBe(coprime(2 ** s - 1) / s);
    expect(degreeOf(rows.at(-1)!.polynomial)).toBe(10);
  });
});
describe("first numbers", () => {
  test("are as many as the polynomial's degree", () => {
    for (const { dimension, polynomial, m } of rows)
      expect(m.length, `dimension ${dimension}`).toBe(degreeOf(polynomial));
  });
  // m_i odd and below 2^i: the direction m_i/2^i ends in the i-th digit, so that points of one dimension never fall together. [derived]
  test("are odd, and the i-th is below 2^i", () => {
    for (const { dimension, m } of rows)
      for (const [i, one] of m.entries()) {
        expect(Number.isInteger(one) && one > 0 && one % 2 === 1, `m_${i + 1} of dimension ${dimension}`).toBe(true);
        expect(one, `m_${i + 1} of dimension ${dimension}`).toBeLessThan(2 ** (i + 1));
      }
  });
  test("are no other row's of the same degree: no two dimensions begin alike for longer than their own numbers", () => {
    const begun = rows.map(({ polynomial, m }) => `${degreeOf(polynomial)}: ${m}`);
    expect(begun.filter((b, i) => begun.indexOf(b) !== i)).toEqual([]);
  });
});
