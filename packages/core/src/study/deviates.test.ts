import fc from "fast-check";
import { expect, test } from "vitest";
import { phi } from "../quantity/law.ts";
import { blockSize, Deviates } from "./deviates.ts";

const far = 100_000;
const correlation = (a: Float64Array, b: Float64Array, shift = 0): number => {
  const n = a.length - shift;
  let [sa, sb, aa, bb, ab] = [0, 0, 0, 0, 0];
  for (let k = 0; k < n; k++) {
    const x = a[k]!;
    const y = b[k + shift]!;
    sa += x;
    sb += y;
    aa += x * x;
    bb += y * y;
    ab += x * y;
  }
  return (ab - (sa * sb) / n) / Math.sqrt((aa - (sa * sa) / n) * (bb - (sb * sb) / n));
};
/** Four standard errors of a correlation of independent columns. */
const chance = 4 / Math.sqrt(far);
/** Chi-square over 101 equal cells of numbers in [0, 1). */
const chiSquare = (uniform: ArrayLike<number>): number => {
  const cells = new Float64Array(101);
  for (let k = 0; k < uniform.length; k++) cells[Math.floor(uniform[k]! * 101)]!++;
  const even = uniform.length / 101;
  return cells.reduce((sum, n) => sum + (n - even) ** 2 / even, 0);
};
// Chi-square with 100 degrees of freedom: 61.918 at 0.1 % and 149.449 at 99.9 %. NIST/SEMATECH e-Handbook, 1.3.6.7.4. [memory; confirmed
// with an independent implementation of the inverse]
const [least, most] = [61.918, 149.449];
const address = (i: number) => `scatter unit plover/film.guides.${i}.x#0`;

test("one seed gives the same bits every time, in whatever order the inputs are asked for", () => {
  const first = new Deviates(7);
  const second = new Deviates(7);
  const before = [0, 1, 2].map((i) => first.normal(address(i), 5000));
  const after = [2, 1, 0].map((i) => second.normal(address(i), 5000)).reverse();
  expect(after).toEqual(before);
});
// What would happen with one stream for all: the second input would take its numbers after the first one's.
test("a new input does not reshuffle the others", () => {
  const without = new Deviates(7);
  const withIt = new Deviates(7);
  withIt.normal("scatter unit plover/new part#0", 9000);
  withIt.between("scatter unit plover/another#0", 3);
  expect(withIt.normal(address(1), 9000)).toEqual(without.normal(address(1), 9000));
});
test("an input's draws differ from another's, and from its own under another seed", () => {
  const [a, b] = [new Deviates(7), new Deviates(8)];
  const one = a.normal(address(1), 1000);
  for (const other of [a.normal(address(2), 1000), b.normal(address(1), 1000)])
    for (let k = 0; k < 1000; k++) expect(other[k]).not.toBe(one[k]);
});
test("draw n does not depend on how many are asked for, across the edges of blocks", () => {
  const lengths = fc.constantFrom(
    1,
    2,
    1000,
    blockSize - 1,
    blockSize,
    blockSize + 1,
    2 * blockSize - 1,
    2 * blockSize,
    2 * blockSize + 1,
    10_000,
  );
  fc.assert(
    fc.property(lengths, fc.integer(), (n, seed) => {
      const long = new Deviates(seed);
      const short = new Deviates(seed);
      expect(short.normal("z", n)).toEqual(long.normal("z", 12_500).slice(0, n));
      expect(short.between("t", n)).toEqual(long.between("t", 12_500).slice(0, n));
    }),
    { seed: 4096, numRuns: 60 },
  );
});
// 4096 is what the seeds of recorded results rest on; another size gives other draws.
test("a block holds 4096 draws and starts a stream of its own", () => {
  expect(blockSize).toBe(4096);
  const z = new Deviates(3).normal("z", 3 * blockSize);
  const blocks = [0, 1, 2].map((b) => z.slice(b * blockSize, (b + 1) * blockSize));
  for (let k = 0; k < blockSize; k++) expect(new Set(blocks.map((b) => b[k])).size).toBe(3);
  expect(Math.abs(correlation(blocks[0]!, blocks[1]!))).toBeLessThan(4 / Math.sqrt(blockSize));
});

test.each([0, 1, 2, 3, 20_240, -5])("seed %i fills the unit interval evenly", (seed) => {
  const t = new Deviates(seed).between(address(seed), far);
  const found = chiSquare(t.map((v) => (v + 1) / 2));
  expect(found).toBeGreaterThan(least);
  expect(found).toBeLessThan(most);
});
// The distribution function turns normal deviates into even ones.
test.each([0, 1, 2, 3, 20_240, -5])("seed %i gives normal deviates with the normal law's shares", (seed) => {
  const z = new Deviates(seed).normal(address(seed), far);
  const found = chiSquare(z.map((v) => phi(v)));
  expect(found).toBeGreaterThan(least);
  expect(found).toBeLessThan(most);
});
// Only the first draws of many inputs enter a small study: they must be even too, not only the draws of one long stream.
test("the first draws of 20 000 addresses fill the unit interval evenly", () => {
  const deviates = new Deviates(1);
  const found = chiSquare(Array.from({ length: 20_000 }, (_, i) => (deviates.between(address(i), 1)[0]! + 1) / 2));
  expect(found).toBeGreaterThan(least);
  expect(found).toBeLessThan(most);
});
// Normal: mean 0, variance 1, skewness 0, fourth moment 3; standard errors 1, sqrt 2, sqrt 15, sqrt 96 over sqrt n. Uniform in [-1, 1]:
// mean 0, variance 1/3, fourth moment 1/5; standard errors sqrt(1/3), sqrt(4/45), sqrt(16/225). [closed form]
test("moments are those of the laws within four standard errors", () => {
  const deviates = new Deviates(11);
  const moment = (x: Float64Array, p: number) => x.reduce((sum, v) => sum + v ** p, 0) / x.length;
  const close = (found: number, exact: number, error: number) =>
    expect(Math.abs(found - exact)).toBeLessThan((4 * error) / Math.sqrt(far));
  const z = deviates.normal("z", far);
  close(moment(z, 1), 0, 1);
  close(moment(z, 2), 1, Math.sqrt(2));
  close(moment(z, 3), 0, Math.sqrt(15));
  close(moment(z, 4), 3, Math.sqrt(96));
  const t = deviates.between("t", far);
  close(moment(t, 1), 0, Math.sqrt(1 / 3));
  close(moment(t, 2), 1 / 3, Math.sqrt(4 / 45));
  close(moment(t, 4), 1 / 5, Math.sqrt(16 / 225));
  expect(t.every((v) => v > -1 && v < 1)).toBe(true);
  expect(z.every(Number.isFinite)).toBe(true);
});
test("inputs, laws and lags are not correlated", () => {
  const deviates = new Deviates(1);
  const column = (i: number) => deviates.normal(address(i), far);
  for (let i = 0; i < 8; i++) {
    // Addresses that differ in one digit, the same address under the other law, and neighbouring draws.
    expect(Math.abs(correlation(column(i), column(i + 1)))).toBeLessThan(chance);
    expect(Math.abs(correlation(column(i), deviates.between(address(i), far)))).toBeLessThan(chance);
    for (const lag of [1, 2, 7]) expect(Math.abs(correlation(column(i), column(i), lag))).toBeLessThan(chance);
  }
  for (const [a, b] of [
    ["belief u", "scatter unit u#0"],
    ["scatter unit u#0", "scatter reel u#0"],
    ["scatter unit u#0", "scatter unit u#1"],
    ["ab", "ba"],
  ] as const)
    expect(Math.abs(correlation(deviates.normal(a, far), deviates.normal(b, far)))).toBeLessThan(chance);
});
test("seeds 0 to 3 are not alike", () => {
  const columns = [0, 1, 2, 3].map((seed) => new Deviates(seed).normal("z", far));
  for (let i = 0; i < 4; i++)
    for (let j = i + 1; j < 4; j++) expect(Math.abs(correlation(columns[i]!, columns[j]!))).toBeLessThan(chance);
});
test("no two of 20 000 inputs share their draws", () => {
  const deviates = new Deviates(1);
  expect(new Set(Array.from({ length: 20_000 }, (_, i) => deviates.between(address(i), 1)[0])).size).toBe(20_000);
});
