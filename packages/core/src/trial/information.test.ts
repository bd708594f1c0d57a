import { expect, test } from "vitest";
import { goOrNot, perfectInformation, readingsInformation, unitLoss } from "./information.ts";

// Integrals of the normal tail by scipy, validation/independent/counts.py. [derived]
test.each([
  [0, 0.3989422804014327],
  [0.5, 0.197796557401306],
  [2, 0.008490702616829635],
  [3, 0.00038215431704772325],
])("unit loss at %f", (u, loss) => expect(unitLoss(u) / loss).toBeCloseTo(1, 11));
test("the unit loss falls by the tail it leaves, also where its series takes over", () => {
  // dL1/du = -(1 - Phi(u)); over a short step L1 is convex. [derived]
  expect(unitLoss(6) / unitLoss(6 - 1e-9)).toBeCloseTo(1, 4);
  let last = unitLoss(0);
  for (let u = 0.1; u < 12; u += 0.1) {
    expect(unitLoss(u)).toBeLessThan(last);
    last = unitLoss(u);
  }
});
// By hand: max(0, 24 - 30), 0.4 . 60, 0.36 . 60 - 0.12 . 50. [derived]
test("a trial of a doubtful venture is worth 15.6 days, perfect knowledge 24", () => {
  const got = goOrNot({ works: 0.4, gain: 60, loss: 50 }, { passesGood: 0.9, passesBad: 0.2 });
  expect(got.prior).toBe(0);
  expect(got.perfect).toBeCloseTo(24, 12);
  expect(got.trial).toBeCloseTo(15.6, 12);
});
test("readings are worth less than perfect knowledge, and more of them come up to it", () => {
  const belief = { mean: 1, sd: 2 };
  expect(perfectInformation(belief)).toBeCloseTo(0.39559311480261206, 11);
  expect(readingsInformation(belief, 2)).toBeCloseTo(0.19964122837424575, 11);
  expect(readingsInformation(belief, 2, 4)).toBeGreaterThan(readingsInformation(belief, 2));
  expect(readingsInformation(belief, 0)).toBeCloseTo(perfectInformation(belief), 13);
  expect(perfectInformation({ mean: -3, sd: 0 })).toBe(0);
});
test("what is no belief is refused", () => {
  expect(() => perfectInformation({ mean: Number.NaN, sd: 1 })).toThrow("finite");
  expect(() => readingsInformation({ mean: 0, sd: 1 }, -1)).toThrow("below 0");
  expect(() => readingsInformation({ mean: 0, sd: 1 }, 1, 0)).toThrow("1 or more");
  expect(() => goOrNot({ works: 2, gain: 1, loss: 1 }, { passesGood: 1, passesBad: 0 })).toThrow("from 0 to 1");
  expect(() => unitLoss(-1)).toThrow("below 0");
});
