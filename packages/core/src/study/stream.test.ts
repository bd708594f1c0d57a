import { expect, test } from "vitest";
import { Stream } from "./stream.ts";

const take = (seed: number, name: string, n: number): number[] => {
  const stream = new Stream(seed, name);
  return Array.from({ length: n }, () => stream.normal());
};
test("a seed and a name give one stream, another name another", () => {
  expect(take(1, "a", 50)).toEqual(take(1, "a", 50));
  expect(take(1, "a", 50)).not.toEqual(take(1, "b", 50));
  expect(take(2, "a", 50)).not.toEqual(take(1, "a", 50));
});
// Of n normal numbers: mean within 4/sqrt n, second moment within 4 sqrt(2/n), fourth within 4 sqrt(96/n), beyond 3 with 0.0027.
test("its normal numbers have the moments and the tail of the law", () => {
  const n = 200_000;
  const z = take(11, "moments", n);
  const moment = (k: number) => z.reduce((s, v) => s + v ** k, 0) / n;
  expect(Math.abs(moment(1))).toBeLessThan(4 / Math.sqrt(n));
  expect(Math.abs(moment(2) - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
  expect(Math.abs(moment(3))).toBeLessThan(4 * Math.sqrt(15 / n));
  expect(Math.abs(moment(4) - 3)).toBeLessThan(4 * Math.sqrt(96 / n));
  const beyond = z.filter((v) => Math.abs(v) > 3).length / n;
  expect(Math.abs(beyond - 0.0026998)).toBeLessThan(4 * Math.sqrt(0.0027 / n));
});
test("its uniform numbers stay inside 0 and 1, half of them below a half", () => {
  const stream = new Stream(3, "u");
  const n = 20_000;
  let below = 0;
  for (let i = 0; i < n; i++) {
    const u = stream.uniform();
    expect(u > 0 && u < 1).toBe(true);
    if (u < 0.5) below++;
  }
  expect(Math.abs(below / n - 0.5)).toBeLessThan(4 * Math.sqrt(0.25 / n));
});
