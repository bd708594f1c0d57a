import { expect, test } from "vitest";
import { phi } from "../quantity/law.ts";
import { usualCosts } from "./costs.ts";
import { bestCut, sideOf } from "./power.ts";
import { callsOfPiece, callsOfPrototype, callsOfReading, type Stake, trialOf, worstOf } from "./stakes.ts";
import { trialWorth } from "./worth.ts";

const draws = 1000;
const even = new Float64Array(draws).fill(1 / draws);
/** Fails in the first `failing` draws. */
const stake = (failing: number, more: Partial<Stake> = {}): Stake => ({
  unit: "u",
  tape: `t${failing}`,
  check: "film.walk",
  station: 4,
  holds: Uint8Array.from({ length: draws }, (_, k) => (k < failing ? 0 : 1)),
  ...more,
});
const costs = {
  ...usualCosts,
  late: { printed: 20, bought: 20, board: 20 },
  further: 3,
  falseAlarm: { printed: 4, bought: 4, board: 4 },
};
const piece = { catches: 0.9, passesGood: 0.95 };

test("a piece for one pair saves what the worked table says: .35 .9 20 - .65 .05 4 - 1.5 days", () => {
  const stakes = [stake(350)];
  const trial = trialOf(stakes, even, callsOfPiece(stakes, 0, piece), 1.5, costs);
  expect(trial).toMatchObject({ falseAlarm: 4, cost: 1.5 });
  expect(trial.late).toBeCloseTo(20, 10);
  expect(trialWorth(trial).saved).toBeCloseTo(6.3 - 0.13 - 1.5, 10);
  expect(trialWorth(trial).stop).toBeCloseTo(0.3475, 10);
});
test("a fault found at one width is found for the wider ones too: two more pairs that fail with it are worth 2 x 3 x .9 x .35 days", () => {
  const one = [stake(350)];
  const three = [stake(350), stake(350, { tape: "wide" }), stake(350, { tape: "wider" })];
  const saved = (stakes: Stake[]): number =>
    trialWorth(trialOf(stakes, even, callsOfPiece(stakes, 0, piece), 1.5, costs)).saved;
  expect(saved(three) - saved(one)).toBeCloseTo(2 * 3 * 0.9 * 0.35, 10);
});
test("two checks of one pair are one loss, two units are two", () => {
  const pair = [stake(350), stake(350, { tape: "t350", check: "film.stick" })];
  const units = [stake(350), stake(350, { unit: "v" })];
  const late = (stakes: Stake[]): number => trialOf(stakes, even, callsOfPiece(stakes, 0, piece), 1.5, costs).late;
  expect(late(pair)).toBeCloseTo(20, 10);
  expect(late(units)).toBeCloseTo(40, 10);
});
test("a piece is cut for the pair that fails most", () => {
  expect(worstOf([stake(100), stake(350), stake(20)], even)).toBe(1);
});
test("a prototype shows every pair's fault, a piece only what fails with its own", () => {
  const apart = [
    stake(300),
    stake(0, { tape: "other", holds: Uint8Array.from({ length: draws }, (_, k) => (k >= 900 ? 0 : 1)) }),
  ];
  const sure = { catches: 1, passesGood: 1 };
  expect(trialOf(apart, even, callsOfPrototype(apart, sure), 1, costs).catches).toBeCloseTo(1, 10);
  expect(trialOf(apart, even, callsOfPiece(apart, 0, sure), 1, costs).catches).toBeCloseTo(0.75, 10);
});

/** An unknown even from 0 to 1. */
const values = Float64Array.from({ length: draws }, (_, k) => (k + 0.5) / draws);
const above = (limit: number): Stake =>
  stake(0, { holds: Uint8Array.from(values, (v) => (v > limit ? 0 : 1)), cut: { at: limit, stops: "above" } });

test("a perfect reading of the only unknown catches all and alarms for nothing never", () => {
  const stakes = [above(0.6)];
  const trial = trialOf(
    stakes,
    even,
    callsOfReading(stakes, values, () => 0),
    0.1,
    costs,
  );
  expect(trial.fails).toBeCloseTo(0.4, 10);
  expect([trial.catches, trial.passesGood]).toEqual([1, 1]);
});
// The integral of phi((u - t)/e) from t to 1, over 1 - t: 1 - e/((1 - t) sqrt(2 pi)) where e is small against 1 - t. [derived]
test("an error of 0.05 misses 0.05/(0.4 sqrt(2 pi)) of what fails", () => {
  const stakes = [above(0.6)];
  const trial = trialOf(
    stakes,
    even,
    callsOfReading(stakes, values, () => 0.05),
    0.1,
    costs,
  );
  expect(1 - trial.catches).toBeCloseTo(0.05 / (0.4 * Math.sqrt(2 * Math.PI)), 4);
  expect(1 - trial.passesGood).toBeCloseTo(0.05 / (0.6 * Math.sqrt(2 * Math.PI)), 4);
});
test("what another unknown decides, no reading of this one catches", () => {
  const blind = [
    stake(0, { holds: Uint8Array.from(values, (_, k) => (k % 10 === 0 ? 0 : 1)), cut: { at: 0.5, stops: "above" } }),
  ];
  const trial = trialOf(
    blind,
    even,
    callsOfReading(blind, values, () => 0),
    0.1,
    costs,
  );
  expect(trial.catches).toBeCloseTo(0.5, 10);
  expect(trialWorth(trial).saved).toBeLessThan(trialWorth({ ...trial, catches: 1, passesGood: 1 }).saved / 2);
});
test("the failing side of a tipping value is where more of belief fails", () => {
  expect(sideOf(0.6, values, above(0.6).holds, even).stops).toBe("above");
  expect(
    sideOf(
      0.4,
      values,
      Uint8Array.from(values, (v) => (v < 0.4 ? 0 : 1)),
      even,
    ).stops,
  ).toBe("below");
  expect(
    sideOf(
      2,
      values,
      Uint8Array.from(values, (v) => (v > 0.97 ? 0 : 1)),
      even,
    ).stops,
  ).toBe("above");
});
test("without a tipping value the best cut stands where failing and holding part", () => {
  expect(bestCut(values, above(0.6).holds, even)).toMatchObject({ stops: "above" });
  expect(bestCut(values, above(0.6).holds, even)!.at).toBeCloseTo(0.6, 3);
  expect(bestCut(values, new Uint8Array(draws).fill(1), even)).toBeUndefined();
});
test("weights move the chance of failing, not the draws", () => {
  const stakes = [above(0.6)];
  const tilted = values.map((v) => phi((0.6 - v) / 0.1));
  expect(
    trialOf(
      stakes,
      tilted,
      callsOfReading(stakes, values, () => 0),
      0.1,
      costs,
    ).fails,
  ).toBeLessThan(0.1);
});
