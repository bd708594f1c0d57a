import fc from "fast-check";
import { expect, test } from "vitest";
import { expectedDays, fewestDays, rankTrials, seriesWorth, type Trial, trialWorth } from "./worth.ts";

// Invented trials of the working notes. [derived, by hand]
const tooth: Trial = { fails: 0.1, catches: 0.95, passesGood: 0.95, late: 15, falseAlarm: 3, cost: 0.5 };
const nip: Trial = { fails: 0.2, catches: 0.8, passesGood: 0.9, late: 12, falseAlarm: 3, cost: 1 };
const film: Trial = { fails: 0.35, catches: 0.9, passesGood: 0.95, late: 20, falseAlarm: 4, cost: 1.5 };
const whole: Trial = { fails: 0.6, catches: 0.5, passesGood: 0.9, late: 8, falseAlarm: 8, cost: 12 };

test("the film walk stops the series once in three and saves 4.67 days", () => {
  const got = trialWorth(film);
  expect(got.stop).toBeCloseTo(0.3475, 12);
  expect(got.saved).toBeCloseTo(4.67, 12);
  expect(got.perStop).toBeCloseTo(13.44, 2);
  expect(got.verdict).toBe("worth it");
});
test("a trial that pays at twice its P and not at half of it is open, one that never pays is dropped", () => {
  // At P/2: 0.05 . 0.95 . 15 - 0.95 . 0.05 . 3 - 0.5 = 0.07. [derived]
  expect(trialWorth(tooth).range[0]).toBeCloseTo(0.07, 10);
  expect(trialWorth(nip)).toMatchObject({ verdict: "open" });
  expect(trialWorth(whole)).toMatchObject({ verdict: "not worth it" });
  expect(rankTrials([tooth, nip, film, whole], "first stop ends it")).toEqual({
    ranked: [film, tooth],
    open: [nip],
    dropped: [whole],
  });
});
const trials = fc.array(
  fc.record({
    fails: fc.double({ min: 0.05, max: 0.5, noNaN: true }),
    catches: fc.double({ min: 0.5, max: 1, noNaN: true }),
    passesGood: fc.double({ min: 0.8, max: 1, noNaN: true }),
    late: fc.double({ min: 5, max: 40, noNaN: true }),
    falseAlarm: fc.double({ min: 0, max: 5, noNaN: true }),
    cost: fc.double({ min: 0.1, max: 0.2, noNaN: true }),
  }),
  { minLength: 2, maxLength: 5 },
);
const orders = <T>(list: readonly T[]): T[][] =>
  list.length < 2
    ? [[...list]]
    : list.flatMap((one, i) => orders(list.filter((_, j) => j !== i)).map((rest) => [one, ...rest]));
test("no order of trials worth making saves more days than theirs", () => {
  fc.assert(
    fc.property(trials, (list) => {
      const { ranked } = rankTrials(list, "first stop ends it");
      const best = Math.max(...orders(ranked).map(seriesWorth));
      expect(seriesWorth(ranked)).toBeGreaterThanOrEqual(best - 1e-9);
    }),
    { seed: 13, numRuns: 100 },
  );
});
// Review of the working notes, all six orders. [derived]
test("film first saves 5.57 days, tooth first 4.43", () => {
  expect(seriesWorth([film, tooth, nip])).toBeCloseTo(5.57, 2);
  expect(seriesWorth([tooth, nip, film])).toBeCloseTo(4.43, 2);
});
test("a test that cries wolf ranks lower, not higher", () => {
  const wolf = { ...tooth, passesGood: 0.7 };
  expect(trialWorth(wolf).perStop).toBeLessThan(trialWorth(tooth).perStop);
});
// Days 1, 3, 2, 8, chances 0.05, 0.3, 0.1, 0.6: the rule of ratios. [derived]
test("the fewest days go by days over chance, as trying all orders does", () => {
  const four = [
    { days: 1, stop: 0.05 },
    { days: 3, stop: 0.3 },
    { days: 2, stop: 0.1 },
    { days: 8, stop: 0.6 },
  ];
  expect(expectedDays(fewestDays(four))).toBeCloseTo(9.412, 10);
  expect(Math.min(...orders(four).map(expectedDays))).toBeCloseTo(9.412, 10);
  expect(expectedDays(four)).toBeCloseTo(9.968, 10);
});
test("chances beyond 0..1 and days below 0 are refused", () => {
  expect(() => trialWorth({ ...film, fails: 1.2 })).toThrow("chance of failing");
  expect(() => trialWorth({ ...film, catches: Number.NaN })).toThrow("chance to catch");
  expect(() => trialWorth({ ...film, late: -1 })).toThrow("found late");
  expect(() => trialWorth({ ...film, cost: 0 })).toThrow("above 0");
  expect(() => expectedDays([{ days: -1, stop: 0 }])).toThrow("below 0");
});
