import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { none } from "./dimension.ts";
import { tabled } from "./given.ts";
import { figures, showIn, shownUnit, showValue } from "./show.ts";
import { unitOf } from "./units.ts";

describe("a number with its significant figures", () => {
  test.each([
    [24.45, 2, "24"],
    [24.55, 3, "24.6"],
    [2.55, 2, "2.6"],
    [-2.55, 2, "−2.6"],
    [7.65, 2, "7.7"],
    [0.105, 2, "0.11"],
    [1.005, 3, "1.01"],
    [2.549, 2, "2.5"],
    [0.0345, 2, "0.035"],
    [0.0996, 2, "0.10"],
    [99.6, 2, "100"],
    [9.96, 2, "10"],
    [0.96, 1, "1"],
    [1.745, 3, "1.75"],
    [-0.15, 2, "−0.15"],
    [-12.5, 2, "−13"],
    [0, 2, "0"],
    [-0, 2, "0"],
    [1, 2, "1.0"],
    [1, 4, "1.000"],
    [12345, 2, "12000"],
    [99999, 2, "100000"],
    [123456, 2, "1.2e+5"],
    [-123456, 2, "−1.2e+5"],
    [0.00001, 2, "0.000010"],
    [0.0000012, 2, "1.2e-6"],
    [-0.0000012, 2, "−1.2e-6"],
    [Number.NaN, 2, "no number"],
    [Number.POSITIVE_INFINITY, 2, "without end"],
    [Number.NEGATIVE_INFINITY, 2, "minus without end"],
  ])("%f to %i figures is %s", (v, count, text) => {
    expect(figures(v, count)).toBe(text);
  });
  test("is within half a unit of its last figure, and has no more figures than asked for", () => {
    const size = fc.double({ min: -8, max: 8, noNaN: true });
    fc.assert(
      fc.property(size, fc.boolean(), fc.integer({ min: 1, max: 6 }), (exponent, minus, count) => {
        const v = (minus ? -1 : 1) * 10 ** exponent;
        const text = figures(v, count).replace("−", "-");
        expect(Math.abs(Number(text) / v - 1)).toBeLessThanOrEqual(0.5 * 10 ** (1 - count) * 1.0001);
        const digits = text
          .replace(/e.*/, "")
          .replace(/^-?0*\.?0*/, "")
          .replace(".", "");
        const whole = text.includes(".") || text.includes("e") ? digits : digits.replace(/0+$/, "");
        // Rounding up to the next power of ten may show one nought more.
        expect(whole.length).toBeLessThanOrEqual(count + (/^10*$/.test(digits) ? 1 : 0));
      }),
      { seed: 27, numRuns: 2000 },
    );
  });
});

const cite = { cite: "invented for this test", how: "judgement" } as const;
const g = (text: string, unit: string) => tabled("test/x", "x", text, unitOf(unit).dimension, cite);
describe("a value is shown", () => {
  test.each([
    ["mm", 0.01245, "12 mm"],
    ["%", 0.023, "2.3 %"],
    ["", 1.5, "1.5"],
    ["1/m", 20, "20 /m"],
    ["deg", Math.PI / 2, "90 deg"],
    ["N*mm", 0.022, "22 N*mm"],
    ["mm", -1e-4, "−0.10 mm"],
    ["mm", 1e-13, "0 mm"],
    ["mm", -1e-17, "0 mm"],
  ])("in %j: %f is %s", (unit, v, text) => {
    expect(showIn(unit, v)).toBe(text);
  });
  test("in the unit of its text, else the customary one, with as many figures as asked for", () => {
    expect(showValue(g("400 um", "mm"), 4.1e-4)).toBe("410 um");
    expect(showValue(g("-20 deg", "deg"), -0.349)).toBe("−20 deg");
    expect(showValue(g("0.03 J/m^2", "J/m^2"), 0.0312, 3)).toBe("0.0312 J/m^2");
    expect(shownUnit(g("W + 1 mm", "mm"))).toBe("mm");
    expect(showValue(g("1.25", ""), 1.25, 3)).toBe("1.25");
  });
  test("of a model in its own unit where none is customary", () => {
    const heat = { kind: "model", unit: "kelvin" } as Parameters<typeof showValue>[0];
    expect(showValue(heat, 12)).toBe("12 kelvin");
    expect(showValue({ ...heat, unit: "N", shownIn: "mN" } as typeof heat, 0.012)).toBe("12 mN");
    expect(showValue({ ...heat, unit: "1" } as typeof heat, 1.3)).toBe("1.3");
    expect(showValue({ ...heat, unit: "m" } as typeof heat, 0.0013)).toBe("1.3 mm");
  });
});
test("a plain number has no unit to show", () => {
  expect(shownUnit(g("2", ""))).toBe("");
  expect(g("2", "").dimension).toEqual(none);
});
