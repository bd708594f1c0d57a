import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  anything,
  customaryUnit,
  type Dimension,
  dimensionInUnits,
  dimensionInWords,
  isPure,
  none,
  over,
  power,
  sameDimension,
  times,
} from "./dimension.ts";
import { unitOf } from "./units.ts";

const seed = { seed: 20, numRuns: 500 };
const length: Dimension = [1, 0, 0, 0, 0];
const force: Dimension = [1, 1, -2, 0, 0];
const exponent = fc.integer({ min: -4, max: 4 });
const dimension = fc.tuple(exponent, exponent, exponent, exponent, exponent) as fc.Arbitrary<Dimension>;
/** Halves come from square roots. */
const halves = dimension.map((d) => d.map((v) => v / 2) as unknown as Dimension);

describe("dimensions are a group under multiplication", () => {
  test("the order of factors does not matter", () => {
    fc.assert(
      fc.property(halves, halves, halves, (a, b, c) => {
        expect(sameDimension(times(a, b), times(b, a))).toBe(true);
        expect(sameDimension(times(times(a, b), c), times(a, times(b, c)))).toBe(true);
      }),
      seed,
    );
  });
  test("a plain number changes nothing, and division undoes multiplication", () => {
    fc.assert(
      fc.property(halves, halves, (a, b) => {
        expect(sameDimension(times(a, none), a)).toBe(true);
        expect(sameDimension(over(times(a, b), b), a)).toBe(true);
        expect(isPure(over(a, a))).toBe(true);
      }),
      seed,
    );
  });
  test("powers multiply, and the power of a product is the product of the powers", () => {
    fc.assert(
      fc.property(halves, halves, exponent, exponent, (a, b, p, q) => {
        expect(sameDimension(power(power(a, p), q), power(a, p * q))).toBe(true);
        expect(sameDimension(power(times(a, b), p), times(power(a, p), power(b, p)))).toBe(true);
        expect(sameDimension(power(a, 2), times(a, a))).toBe(true);
      }),
      seed,
    );
  });
});

describe("a bare nought", () => {
  test("goes with every dimension, from either side", () => {
    for (const d of [none, length, force]) {
      expect(sameDimension(anything, d)).toBe(true);
      expect(sameDimension(d, anything)).toBe(true);
    }
  });
  test("is known by identity: another plain number does not go with a length", () => {
    expect(sameDimension([0, 0, 0, 0, 0], length)).toBe(false);
  });
});

test.each<[Dimension, string, string]>([
  [none, "a plain number", "1"],
  [length, "a length", "m"],
  [[2, 0, 0, 0, 0], "an area", "m^2"],
  [[3, 0, 0, 0, 0], "something in m^3", "m^3"],
  [[0, 1, 0, 0, 0], "a mass", "kg"],
  [[0, 0, 1, 0, 0], "a time", "s"],
  [[1, 0, -1, 0, 0], "a speed", "m/s"],
  [[1, 0, -2, 0, 0], "something in m/s^2", "m/s^2"],
  [force, "a force", "N"],
  [[2, 1, -2, 0, 0], "a torque or an energy", "N*m"],
  [[0, 1, -2, 0, 0], "a force per length", "N/m"],
  [[-1, 1, -2, 0, 0], "a pressure", "Pa"],
  [[2, 1, -3, -1, 0], "a voltage", "V"],
  [[0, 0, 0, 1, 0], "a current", "A"],
  [[2, 1, -3, -2, 0], "a resistance", "ohm"],
  [[0, 0, 0, 0, 1], "a temperature difference", "kelvin"],
  [[-1, 0, 0, 0, 0], "a curvature", "1/m"],
  [[0, 0, -1, 0, 0], "a rate per time", "1/s"],
  [[0, -1, 0, 0, 0], "a rate per mass", "1/kg"],
  [[0.5, 0, 0, 0, 0], "something in m^0.5", "m^0.5"],
  [[1, 1, -1, -1, 0], "something in m*kg/s/A", "m*kg/s/A"],
])("%j is %s, in %s", (d, words, units) => {
  expect(dimensionInWords(d)).toBe(words);
  expect(dimensionInUnits(d)).toBe(units);
});

test("the coherent unit written out is read back as the same dimension with a factor of one", () => {
  fc.assert(
    fc.property(halves, (d) => {
      const unit = unitOf(dimensionInUnits(d));
      expect(sameDimension(unit.dimension, d)).toBe(true);
      expect(unit.factor).toBe(1);
    }),
    seed,
  );
});

test.each([
  ["m", "mm"],
  ["kg", "g"],
  ["s", "ms"],
  ["m/s", "mm/s"],
  ["N", "N"],
  ["N*m", "N*mm"],
  ["N/m", "N/mm"],
  ["Pa", "MPa"],
  ["V", "V"],
  ["A", "A"],
  ["ohm", "ohm"],
  ["1/m", "1/m"],
  ["kelvin", ""],
  ["1", ""],
])("what is measured in %s is customarily written in %j", (coherent, customary) => {
  const d = unitOf(coherent).dimension;
  expect(customaryUnit(d)).toBe(customary);
  if (customary !== "") expect(sameDimension(unitOf(customary).dimension, d)).toBe(true);
});
