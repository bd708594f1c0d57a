import { expect, test } from "vitest";
import { shareHolding, showShare, showVerdict, verdictOf } from "./verdict.ts";

// The rule: feeds from 95 %, stops to 5 %, both ends included; between them it depends.
test.each([
  [1, "feeds"],
  [0.951, "feeds"],
  [0.95, "feeds"],
  [0.949, "depends"],
  [0.5, "depends"],
  [0.051, "depends"],
  [0.05, "stops"],
  [0.049, "stops"],
  [0, "stops"],
])("a share of %d %s", (share, verdict) => {
  expect(verdictOf(share)).toBe(verdict);
});
// 950 weights of a thousandth add up to 0.9500000000000006 or 0.9499999999999994, as the sum is taken.
test("950 of 1000 like draws feed and 50 stop, however the sum is rounded", () => {
  const weights = new Float64Array(1000).fill(1 / 1000);
  const holding = (n: number, from: number) =>
    Float64Array.from({ length: 1000 }, (_, k) => ((k + from) % 1000 < n ? 1 : -1));
  for (const from of [0, 1, 333, 777]) {
    expect(verdictOf(shareHolding([holding(950, from)], weights))).toBe("feeds");
    expect(verdictOf(shareHolding([holding(949, from)], weights))).toBe("depends");
    expect(verdictOf(shareHolding([holding(51, from)], weights))).toBe("depends");
    expect(verdictOf(shareHolding([holding(50, from)], weights))).toBe("stops");
  }
});

test("a draw holds where every gap is nought or more, and counts by its weight", () => {
  const a = Float64Array.of(1, 0, -1, 2, Number.NEGATIVE_INFINITY);
  const b = Float64Array.of(1, 2, 3, -1e-12, 1);
  const weights = Float64Array.of(1, 2, 3, 4, 6);
  expect(shareHolding([a], weights)).toBeCloseTo(7 / 16, 12);
  expect(shareHolding([b], weights)).toBeCloseTo(12 / 16, 12);
  // Together: the first two draws.
  expect(shareHolding([a, b], weights)).toBeCloseTo(3 / 16, 12);
});
test("no order of the checks and no size of the weights changes a share", () => {
  const a = Float64Array.of(1, -1, 1, 1);
  const b = Float64Array.of(1, 1, -1, 1);
  const weights = Float64Array.of(0.1, 0.2, 0.3, 0.4);
  expect(shareHolding([a, b], weights)).toBe(shareHolding([b, a], weights));
  expect(
    shareHolding(
      [a, b],
      weights.map((w) => 8 * w),
    ),
  ).toBe(shareHolding([a, b], weights));
});
test("a gap that is no number does not hold", () => {
  expect(shareHolding([Float64Array.of(Number.NaN, 1)], Float64Array.of(1, 1))).toBe(0.5);
});

test.each([
  [1, "100 %"],
  [0, "0 %"],
  [0.9999, "over 99 %"],
  [0.0001, "under 1 %"],
  [0.949, "94 %"],
  [0.9499, "94 %"],
  [0.95, "95 %"],
  [0.051, "6 %"],
  [0.414, "41 %"],
])("a share of %d reads %s, never rounded across a verdict's limit", (share, text) => {
  expect(showShare(share)).toBe(text);
});
test("only depends carries its share in its name", () => {
  expect(showVerdict("depends", 0.41)).toBe("depends 41 %");
  expect(showVerdict("feeds", 0.97)).toBe("feeds");
  expect(showVerdict("n/a", null)).toBe("n/a");
});
