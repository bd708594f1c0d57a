import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { over, sameDimension, times } from "./dimension.ts";
import { evaluate } from "./expression.ts";
import { parseQuantity } from "./notation.ts";
import { fromSI, toSI, unitNamed, unitNames, unitOf } from "./units.ts";

// Factors by definition of the units: SI brochure, 9th edition; gf with standard gravity 9.80665 m/s2. [remembered]
test.each([
  ["mm", 1e-3, "m"],
  ["cm", 1e-2, "m"],
  ["um", 1e-6, "m"],
  ["µm", 1e-6, "m"],
  ["\u03bcm", 1e-6, "m"],
  ["g", 1e-3, "kg"],
  ["mg", 1e-6, "kg"],
  ["ms", 1e-3, "s"],
  ["us", 1e-6, "s"],
  ["min", 60, "s"],
  ["h", 3600, "s"],
  ["d", 86_400, "s"],
  ["Hz", 1, "1/s"],
  ["kHz", 1000, "1/s"],
  ["rpm", 0.10471975511965978, "1/s"],
  ["mN", 1e-3, "N"],
  ["kN", 1000, "N"],
  ["gf", 0.00980665, "N"],
  ["J", 1, "N*m"],
  ["mJ", 1e-3, "N*m"],
  ["kPa", 1e3, "Pa"],
  ["MPa", 1e6, "Pa"],
  ["GPa", 1e9, "Pa"],
  ["mW", 1e-3, "N*m/s"],
  ["mV", 1e-3, "V"],
  ["mA", 1e-3, "A"],
  ["mohm", 1e-3, "ohm"],
  ["V", 1, "N*m/s/A"],
  ["ohm", 1, "V/A"],
  ["uF", 1e-6, "A*s/V"],
  ["nF", 1e-9, "A*s/V"],
  ["uH", 1e-6, "V*s/A"],
  ["mH", 1e-3, "V*s/A"],
  ["rad", 1, ""],
  ["mrad", 1e-3, ""],
  ["deg", 0.017453292519943295, ""],
  ["counts", 1, ""],
  ["%", 0.01, ""],
  ["degC", 1, "kelvin"],
])("1 %s is %f %s", (symbol, factor, coherent) => {
  const unit = unitOf(symbol);
  expect(unit.factor).toBeCloseTo(factor, 15);
  expect(unit.factor / factor).toBeCloseTo(1, 12);
  expect(sameDimension(unit.dimension, unitOf(coherent).dimension)).toBe(true);
  expect(unitOf(coherent).factor).toBe(1);
});

test("no letter of the tape but A is a unit on its own", () => {
  const letters = [
    "W",
    "F",
    "T",
    "T1",
    "T2",
    "R",
    "D0",
    "E1",
    "E2",
    "K0",
    "P0",
    "P1",
    "P2",
    "A0",
    "B0",
    "B1",
    "S0",
    "b",
  ];
  expect(letters.filter((letter) => unitNamed(letter))).toEqual([]);
});
test("a name every object has is no unit", () => {
  for (const word of ["constructor", "__proto__", "toString", "hasOwnProperty", ""])
    expect(unitNamed(word)).toBeUndefined();
});
test("every unit that is listed can be read", () => {
  for (const name of unitNames) expect(unitOf(name).factor).toBeGreaterThan(0);
});

describe("compound units", () => {
  test.each([
    ["N*mm", 1e-3, "N*m"],
    ["N/mm", 1e3, "N/m"],
    ["J/m^2", 1, "N/m"],
    ["mm/s", 1e-3, "m/s"],
    ["1/h", 1 / 3600, "1/s"],
    ["/h", 1 / 3600, "1/s"],
    ["/m", 1, "1/m"],
    ["1/m", 1, "1/m"],
    ["m/s^2", 1, "m/s/s"],
    ["g*mm^2", 1e-9, "kg*m*m"],
    ["mm^-1", 1e3, "1/m"],
    ["m^0.5*m^0.5", 1, "m"],
    ["N / mm * s", 1e3, "N*s/m"],
    ["", 1, "1"],
    ["1", 1, ""],
  ])("%j is %f %s", (text, factor, coherent) => {
    expect(unitOf(text).factor / factor).toBeCloseTo(1, 12);
    expect(sameDimension(unitOf(text).dimension, unitOf(coherent).dimension)).toBe(true);
  });
  test("a product and a quotient of any two units have the factors and dimensions of theirs", () => {
    const unit = fc.constantFrom(...unitNames);
    fc.assert(
      fc.property(unit, unit, fc.integer({ min: 1, max: 4 }), (a, b, p) => {
        const [x, y] = [unitOf(a), unitOf(b)];
        expect(unitOf(`${a}*${b}`).factor / (x.factor * y.factor)).toBeCloseTo(1, 12);
        expect(unitOf(`${a}/${b}`).factor / (x.factor / y.factor)).toBeCloseTo(1, 12);
        expect(unitOf(`${a}^${p}`).factor / x.factor ** p).toBeCloseTo(1, 12);
        expect(sameDimension(unitOf(`${a}*${b}`).dimension, times(x.dimension, y.dimension))).toBe(true);
        expect(sameDimension(unitOf(`${a}/${b}`).dimension, over(x.dimension, y.dimension))).toBe(true);
      }),
      { seed: 21, numRuns: 500 },
    );
  });
});

describe("a number is taken to SI as it is written", () => {
  const written = (text: string): number => {
    const q = parseQuantity(text);
    return evaluate(
      q.form === "expression" ? q.node : { op: "num", v: q.low, unit: q.unit, at: 0, length: 0 },
      () => undefined,
    );
  };
  // The language reads "205e-3" as the double nearest to 0.205: that is what a person means by 205 mm.
  const tens: readonly (readonly [string, number])[] = [
    ...["mm", "g", "ms", "mN", "mJ", "mW", "mV", "mA", "mohm", "mH", "mrad"].map((u) => [u, 3] as const),
    ...["um", "µm", "us", "mg", "uF", "uH"].map((u) => [u, 6] as const),
    ["nF", 9],
    ["cm", 2],
    ["%", 2],
    ["m", 0],
    ["kN", -3],
    ["MPa", -6],
    ["GPa", -9],
  ];
  test.each(tens)("1 to 3000 %s, and their tenths, hundredths and thousandths, to the last bit", (unit, places) => {
    for (let n = 1; n <= 3000; n++)
      for (const decimals of [0, 1, 2, 3]) {
        const text = `${Number(`${n}e${-decimals}`)} ${unit}`;
        const meant = Number(`${n}e${-decimals - places}`);
        if (written(text) !== meant) expect.fail(`${text} is ${written(text)}`);
      }
  });
  test("so 205 mm and 24.3 mm read as a person writes them in metres, and so do the ends of a range and a tolerance", () => {
    expect([written("205 mm"), written("24.3 mm"), written("12 gf")]).toEqual([0.205, 0.0243, 0.1176798]);
    expect(written("205..310 mm guess")).toBe(0.205);
    expect(205 * 1e-3).not.toBe(0.205);
    expect(24.3 / 1e3).not.toBe(0.0243);
  });
  // By hand: 3 /h = 3/3600 = 1/1200; 45 /min = 3/4 a second; 7.2 m/h = 2 mm/s. [derived]
  test("a unit of a whole part is divided by it once", () => {
    expect(toSI(3, unitOf("1/h"))).toBe(1 / 1200);
    expect(toSI(45, unitOf("1/min"))).toBe(0.75);
    expect(toSI(7.2, unitOf("m/h"))).toBe(0.002);
    expect(toSI(205, unitOf("N*mm"))).toBe(0.205);
    expect(toSI(33, unitOf("g*mm^2"))).toBe(33e-9);
    expect(toSI(90, unitOf("deg"))).toBe(Math.PI / 2);
  });
  test("the way back gives the number that was written", () => {
    const units = fc.constantFrom(...unitNames, "N*mm", "N/mm", "mm/s", "1/h", "g*mm^2", "J/m^2", "");
    fc.assert(
      fc.property(units, fc.integer({ min: -3_000_000, max: 3_000_000 }), (name, n) => {
        const [unit, v] = [unitOf(name), n / 1000];
        const back = fromSI(toSI(v, unit), unit);
        if (!unit.fraction) expect(back).toBeCloseTo(v, 9);
        else expect(back).toBe(v);
      }),
      { seed: 22, numRuns: 3000 },
    );
  });
  test("a number of more decimals, and one too great to count in them, keeps its size", () => {
    const v = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 });
    fc.assert(
      fc.property(fc.constantFrom(...unitNames), v, (name, x) => {
        const unit = unitOf(name);
        const si = toSI(x, unit);
        expect(Math.abs(si - x * unit.factor)).toBeLessThanOrEqual(4e-16 * Math.abs(si) + 1e-300);
        expect(Math.abs(fromSI(si, unit) - x)).toBeLessThanOrEqual(9e-16 * Math.abs(x) + 1e-300);
      }),
      { seed: 23, numRuns: 3000 },
    );
    expect(toSI(Number.POSITIVE_INFINITY, unitOf("mm"))).toBe(Number.POSITIVE_INFINITY);
    expect(toSI(Number.NaN, unitOf("mm"))).toBeNaN();
    expect(fromSI(Number.NEGATIVE_INFINITY, unitOf("%"))).toBe(Number.NEGATIVE_INFINITY);
  });
});

test.each([
  ["km", '"km" is no unit'],
  ["N*parsec", '"parsec" is no unit'],
  ["W", '"W" is no unit'],
  ["N m", '"N m" is no unit'],
  ["mm^", '"mm^" is no unit'],
  ["J//m", '"J//m" is no unit'],
  ["mm*", '"mm*" is no unit'],
  ["*mm", '"*mm" is no unit'],
  ["4 mm", '"4 mm" is no unit'],
  ["m^x", '"m^x" is no unit'],
  ["mm)", '"mm)" is no unit'],
])("%j is refused: %s", (text, message) => {
  expect(() => unitOf(text)).toThrow(new RangeError(message));
});
