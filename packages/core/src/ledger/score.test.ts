import { describe, expect, test } from "vitest";
import type { Frozen } from "./frozen.ts";
import { scored } from "./score.ts";

const frozen = (more: Partial<Frozen> = {}): Frozen => ({
  id: "L-01",
  trial: "T-01",
  question: "nip.pulls",
  unit: "plover",
  tape: "x",
  predicted: { median: 2, low: 1, high: 4 },
  fails: { median: 0.1, low: 0.01, high: 0.4 },
  share: 0.8,
  sha: "0".repeat(64),
  date: "2026-03-01",
  seed: 1,
  version: "0.1.0",
  key: new Map(),
  ...more,
});
const value = (v: number, uncertainty = 0) => ({ kind: "value", value: v, uncertainty }) as const;

describe("a reading held against a prediction", () => {
  // ln 2 of a prediction whose ends are a factor 2 away at 95 %: sd ln 2/1.96 = 0.3537. [derived]
  test("is compared on the scale of its shares, with the prediction's uncertainty in the validation's", () => {
    const s = scored(frozen(), value(3));
    expect(s.error).toBeCloseTo(Math.log(1.5), 12);
    expect(s.validation).toBeCloseTo(Math.log(2) / 1.959963984540054, 12);
    expect(s).toMatchObject({ inside: true, agreed: true, log: true });
  });
  test("outside the interval by less than both uncertainties allow agrees, and is said to lie outside", () => {
    expect(scored(frozen(), value(4.1, 0.5))).toMatchObject({ inside: false, agreed: true });
  });
  test("beyond both uncertainties misses", () => {
    expect(scored(frozen(), value(9, 0.1))).toMatchObject({ inside: false, agreed: false });
  });
  // A prediction of -1..1 and an uncertainty of 0.2: sqrt(0.5102^2 + 0.2^2). [derived]
  test("that may be negative is compared as it is", () => {
    const s = scored(frozen({ predicted: { median: 0, low: -1, high: 1 } }), value(0.3, 0.2));
    expect(s.log).toBe(false);
    expect(s.validation).toBeCloseTo(Math.hypot(1 / 1.959963984540054, 0.2), 12);
  });
  test("of a prediction that foretold no value is refused", () => {
    expect(() => scored(frozen({ predicted: undefined }), value(1))).toThrow("foretold no value");
  });
});
describe("pieces held against a prediction", () => {
  const pieces = (failed: number, run: number, low = 0.01, high = 0.4) =>
    scored(frozen({ fails: { median: 0.1, low, high } }), { kind: "pieces", failed, run });
  test("that failed as often as any chance in the interval gives agree", () => {
    expect(pieces(0, 10).agreed).toBe(true);
    expect(pieces(4, 10).agreed).toBe(true);
  });
  // P(X >= 10 | 10, 0.4) = 0.4^10 = 1.05e-4, twice. [derived]
  test("that all failed where at most 4 in 10 were foretold miss", () => {
    expect(pieces(10, 10).chance).toBeCloseTo(2 * 0.4 ** 10, 12);
    expect(pieces(10, 10).agreed).toBe(false);
  });
  // P(X <= 0 | 10, 0.6) = 0.4^10. [derived]
  test("that all held where most were to fail miss as well", () => {
    expect(pieces(0, 10, 0.6, 0.9).chance).toBeCloseTo(2 * 0.4 ** 10, 12);
  });
  test("with a chance of nothing or of all at an end give a number", () => {
    expect(pieces(0, 5, 0, 1)).toMatchObject({ chance: 1, agreed: true });
    expect(pieces(1, 5, 0, 0).chance).toBe(0);
  });
  test("more failed than tried are refused", () => {
    expect(() => pieces(3, 2)).toThrow("no greater");
  });
});
