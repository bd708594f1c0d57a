import { expect, test } from "vitest";
import { gauge } from "./gauge.ts";

// Ranges of 1 throughout, people at 0 and 1, parts at 0 and 10: EV K1, AV sqrt(K2^2 - EV^2/4), PV 10 K3. [derived]
test("two people, two trials, two parts come out as by hand", () => {
  const of = (person: number) => [0, 1].map((trial) => [0, 10].map((part) => person + trial + part));
  const got = gauge([of(0), of(1)]);
  expect(got.meanRange).toBe(1);
  expect(got.persons).toBe(1);
  expect(got.ev).toBeCloseTo(0.8862, 12);
  expect(got.av).toBeCloseTo(Math.sqrt(0.5 - 0.8862 ** 2 / 4), 12);
  expect(got.pv).toBeCloseTo(10 * Math.SQRT1_2, 12);
  expect(got.share).toBeCloseTo(got.grr / got.tv, 12);
});
test("what a person adds below the noise of repeating counts as nothing", () => {
  const of = (person: number) => [0, 1].map((trial) => [0, 10].map((part) => 0.1 * person + trial + part));
  expect(gauge([of(0), of(1)]).av).toBe(0);
});
test("uneven, too large and equal readings are refused", () => {
  expect(() => gauge([])).toThrow("has constants for");
  expect(() =>
    gauge([
      [
        [1, 2],
        [1, 2],
      ],
      [[1, 2], [1]],
    ]),
  ).toThrow("as often as the others");
  expect(() =>
    gauge([
      [
        [1, 1],
        [1, 1],
      ],
      [
        [1, 1],
        [1, 1],
      ],
    ]),
  ).toThrow("does not resolve");
  expect(() =>
    gauge([
      [
        [1, Number.NaN],
        [1, 1],
      ],
      [
        [1, 1],
        [1, 1],
      ],
    ]),
  ).toThrow("finite");
});
