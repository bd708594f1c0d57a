import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseQuantity } from "../quantity/notation.ts";
import { number } from "../study/plain.fixture.ts";
import { measuredText, measuredWords } from "./written.ts";

const value = { middle: 0.2431, low: 0.2252, high: 0.2624, scatter: 0.05, log: true, n: 4, warnings: [] };
describe("a measured value in a file", () => {
  test("keeps belief in the middle apart from the scatter of the next reel", () => {
    expect(measuredText(number("plover/film.friction", "0.18..0.35 guess"), value, "reel")).toBe(
      "0.225..0.263 per reel sd 5 % measured",
    );
    expect(measuredWords(number("plover/film.friction", "0.18..0.35 guess"), value)).toBe("0.243 ±0.019");
  });
  test("has the unit that the guess was written in", () => {
    const T = number("tapes/x/T", "0.20..0.40 mm guess", { unit: "mm" });
    expect(measuredText(T, { ...value, middle: 0.2431e-3, low: 0.2252e-3, high: 0.2624e-3 }, "reel")).toBe(
      "0.225..0.263 mm per reel sd 5 % measured",
    );
  });
  test("by the metre or the kelvin is written so that it reads again", () => {
    const curl = number("tapes/x/film.curl", "5..40 /m guess", { unit: "/m" });
    const text = measuredText(curl, { ...value, middle: 12, low: 11, high: 13, scatter: 0.5, log: false }, "reel");
    expect(text).toMatch(/^11\.0\.\.13\.0 \/m per reel sd 0\.5 \/m measured$/);
    expect(parseQuantity(text)).toMatchObject({ form: "range", low: 11, high: 13 });
  });
  test("keeps the scatter between indexes that the guess had", () => {
    const seal = number("tapes/x/film.seal", "0.2..0.8 N per index sd 8 % guess", { unit: "N" });
    expect(measuredText(seal, value, "reel")).toMatch(/per reel sd 5 % per index sd 8 % measured$/);
  });
  test("that may be negative scatters in its own unit", () => {
    const drift = number("u/drift", "-0.2..0.4 mm guess", { unit: "mm" });
    expect(
      measuredText(drift, { ...value, middle: 0, low: -0.05e-3, high: 0.05e-3, scatter: 0.02e-3, log: false }, "unit"),
    ).toBe("-0.0500..0.0500 mm per unit sd 0.02 mm measured");
  });
  test("never says less than is believed, and is read as a measured range", () => {
    const x = fc.double({ min: 0.01, max: 900, noNaN: true });
    fc.assert(
      fc.property(x, fc.double({ min: 1.001, max: 3, noNaN: true }), (low, ratio) => {
        const text = measuredText(
          number("u/x", "1..2 guess"),
          { ...value, low, high: low * ratio, middle: low },
          "unit",
        );
        const written = parseQuantity(text);
        if (written.form !== "range") throw new Error(text);
        expect(written.status).toBe("measured");
        expect(written.low).toBeLessThanOrEqual(low * (1 + 1e-9));
        expect(written.high).toBeGreaterThanOrEqual(low * ratio * (1 - 1e-9));
      }),
    );
  });
});
