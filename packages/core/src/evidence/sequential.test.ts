import { expect, test } from "vitest";
import { operatingPoint, sequentialLines, sequentialStep } from "./sequential.ts";

const plan = { good: 0.01, bad: 0.1, refuseGood: 0.05, passBad: 0.1 };
// NIST/SEMATECH handbook 6.2.6. [memory]
test("the handbook's plan has its lines, passes 24 clean items and refuses 2 bad ones", () => {
  const { h1, h2, slope } = sequentialLines(plan);
  expect(h1).toBeCloseTo(0.939, 3);
  expect(h2).toBeCloseTo(1.205, 3);
  expect(slope).toBeCloseTo(0.0397, 4);
  expect([sequentialStep(plan, 0, 23), sequentialStep(plan, 0, 24)]).toEqual(["go on", "pass"]);
  expect([sequentialStep(plan, 1, 1), sequentialStep(plan, 2, 2)]).toEqual(["go on", "refuse"]);
});
test("the operating curve passes through both stated errors and falls between", () => {
  expect(operatingPoint(plan, 0.01).pass).toBeCloseTo(0.95, 10);
  expect(operatingPoint(plan, 0.1).pass).toBeCloseTo(0.1, 10);
  const rates = [0.001, 0.01, 0.02, 0.03, 0.0397474, 0.05, 0.08, 0.1, 0.3];
  const passes = rates.map((p) => operatingPoint(plan, p).pass);
  for (let i = 1; i < passes.length; i++) expect(passes[i]).toBeLessThan(passes[i - 1]!);
});
test("where nothing drifts the curve is the one on either side of it", () => {
  const { slope } = sequentialLines(plan);
  const at = (d: number) => operatingPoint(plan, slope * (1 + d));
  expect(at(0).pass).toBeCloseTo((at(1e-4).pass + at(-1e-4).pass) / 2, 5);
  expect(at(0).cycles).toBeCloseTo((at(1e-4).cycles + at(-1e-4).cycles) / 2, 3);
});
// Review of the working notes. [derived]
test("one in ten thousand against one in a thousand takes 3950 cycles on average if good, 1890 if bad", () => {
  const feeder = { good: 1e-4, bad: 1e-3 };
  expect(Math.abs(operatingPoint(feeder, 1e-4).cycles - 3950)).toBeLessThan(10);
  expect(Math.abs(operatingPoint(feeder, 1e-3).cycles - 1890)).toBeLessThan(10);
});
test("rates the wrong way round and impossible counts are refused", () => {
  expect(() => sequentialLines({ good: 0.1, bad: 0.01 })).toThrow("not below the bad one");
  expect(() => sequentialLines({ good: 0.01, bad: 0.1, refuseGood: 0.6, passBad: 0.5 })).toThrow("together below 1");
  expect(() => sequentialStep(plan, 3, 2)).toThrow("no greater");
  expect(() => operatingPoint(plan, Number.NaN)).toThrow(RangeError);
});
