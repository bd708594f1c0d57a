import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Method } from "./method.ts";
import { readOff } from "./read-off.ts";
import { look, trial, trialOfHeat, trialOfStrain } from "./trying.ts";

const answered = (m: Method, pieces: readonly (readonly (readonly number[])[])[]) => {
  const a = readOff(m, { pieces });
  if (a.kind !== "answer") throw new Error(`${a.found}. ${a.wayOut}`);
  return a;
};

describe("a limit caught between what runs and what fails", () => {
  test("lies half way, wherever on the ladder it was caught", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 900 }), fc.integer({ min: 1, max: 90 }), (low, steps) => {
        const [runs, fails] = [low / 1000, (low + steps) / 1000];
        const { value, within } = answered(trial, [[[runs, fails]]]);
        expect(value).toBeCloseTo((2 * low + steps) / 2000, 12);
        expect(value - within).toBeGreaterThan(runs);
        expect(value + within).toBeLessThan(fails);
      }),
      { seed: 131, numRuns: 200 },
    );
  });
  // Evenly between 0.10 and 0.12: 95 in 100 lie within 0.95 of the half width of 0.01. [derived]
  test("on one reel is known to 0.95 of half the step that was taken, not of the scale's step", () => {
    expect(answered(trial, [[[0.1, 0.12]]]).within).toBeCloseTo(0.0095, 4);
    expect(answered(trial, [[[0.1, 0.2]]]).within).toBeCloseTo(0.0475, 3);
  });
  test("is no better known for five reels that all fail at the same step", () => {
    const one = answered(trial, [[[0.1, 0.12]]]).within;
    expect(answered(trial, Array(5).fill([[0.1, 0.12]])).within).toBeCloseTo(one, 12);
  });
  // Midpoints 0.11, 0.13, 0.15: s = 0.02, over root 3 0.01155; Student's 4.303 at two degrees of freedom. [derived]
  test("on reels that differ by more than the step is as uncertain as they differ", () => {
    const a = answered(trial, [[[0.1, 0.12]], [[0.12, 0.14]], [[0.14, 0.16]]]);
    expect(a.value).toBeCloseTo(0.13, 12);
    expect(a.freedom).toBe(2);
    expect(a.within).toBeCloseTo(0.0497, 4);
  });
  test("is refused where a smaller one fails than runs, or the same one does both", () => {
    const way =
      "The case that fails must lie above the one that runs. Where a larger one runs, the limit is not this number alone: look what else differs.";
    expect(readOff(trial, { pieces: [[[0.12, 0.1]]] })).toEqual({
      kind: "refusal",
      found: "Reading 1 of reel 1: smallest value that fails (0.1) is not above largest value that runs (0.12)",
      wayOut: way,
    });
    expect(readOff(trial, { pieces: [[[0.1, 0.1]]] })).toMatchObject({ wayOut: way });
  });
  test("needs a case that runs: nought is none", () =>
    expect(readOff(trial, { pieces: [[[0, 0.1]]] })).toMatchObject({
      found: "Reading 1 of reel 1: largest value that runs is 0",
    }));
});
test("a strain is typed in percent and comes out as a share", () => {
  const a = answered(trialOfStrain, [[[1.8, 2.2]]]);
  expect(a.value).toBeCloseTo(0.02, 12);
  expect(a.within).toBeCloseTo(0.0019, 5);
});
test("a temperature is typed as the oven shows it, for a motor each, and five degrees apart is known to 2.4", () => {
  const a = answered(trialOfHeat, [[[100, 105]]]);
  expect(a.value).toBe(102.5);
  expect(a.within).toBeCloseTo(0.95 * 2.5, 2);
  expect(readOff(trialOfHeat, { pieces: [[[105, 100]]] })).toMatchObject({
    found:
      "Reading 1 of motor 1: lowest temperature that harms it (100) is not above highest temperature that leaves it sound (105)",
  });
});
describe("which of two is seen, not read", () => {
  test("the first answer is nought, the second one", () => {
    expect(answered(look, [[[1], [1]]]).value).toBe(0);
    expect(answered(look, [[[2], [2]]]).value).toBe(1);
  });
  test("is as sure of the one answer as of the other: what is seen has no step", () => {
    for (const y of [1, 2]) expect(answered(look, [[[y]], [[y]], [[y]]]).within).toBe(0);
  });
  test.each([3, 7, 1.5])("%d is no answer", (y) =>
    expect(readOff(look, { pieces: [[[y]]] })).toMatchObject({ kind: "refusal", wayOut: "Write 1 or 2." }),
  );
  test("looks that differ are neither", () => {
    expect(answered(look, [[[1], [2]]]).value).toBe(0.5);
    const a = answered(look, [
      [[2], [2]],
      [[2], [2]],
      [[1], [1]],
    ]);
    expect(a.value).toBeCloseTo(2 / 3, 12);
    expect(a.within).toBeGreaterThan(0.5);
  });
  test("it is caught between no two ends, and no look stands above another", () => {
    expect(look.between).toBeUndefined();
    expect(look.order).toEqual([]);
  });
});
