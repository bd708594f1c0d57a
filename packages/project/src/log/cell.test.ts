import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cellsOf, clockIn, isGapWord, isOverRange, type NumberSigns, numberIn, withUnit } from "./cell.ts";

const seeded = { seed: 1, numRuns: 300 };
const point: NumberSigns = { decimal: ".", thousands: "" };
const comma: NumberSigns = { decimal: ",", thousands: "" };
const everySigns: readonly NumberSigns[] = [
  point,
  comma,
  { decimal: ".", thousands: "," },
  { decimal: ",", thousands: "." },
  { decimal: ".", thousands: "'" },
  { decimal: ",", thousands: " " },
];
/** A whole number and its places as they are written with these signs. */
const written = (whole: number, places: string, { decimal, thousands }: NumberSigns): string => {
  let digits = `${Math.abs(whole)}`;
  for (let at = digits.length - 3; at > 0 && thousands !== ""; at -= 3)
    digits = `${digits.slice(0, at)}${thousands}${digits.slice(at)}`;
  return `${whole < 0 ? "-" : ""}${digits}${places === "" ? "" : `${decimal}${places}`}`;
};

describe("a number in a cell", () => {
  test("comes back whatever its decimal mark and its groups of three", () => {
    const whole = fc.integer({ min: -2_000_000_000, max: 2_000_000_000 }).filter((n) => n !== 0);
    const places = fc.array(fc.integer({ min: 0, max: 9 }), { maxLength: 5 }).map((d) => d.join(""));
    fc.assert(
      fc.property(whole, places, fc.constantFrom(...everySigns), (n, p, signs) => {
        expect(numberIn(written(n, p, signs), signs)).toBe(Number(`${n}.${p}`));
      }),
      seeded,
    );
  });
  test.each([
    ["-.5", -0.5],
    ["+2.", 2],
    ["−1.5", -1.5], // the minus of print
    ["1.5D+03", 1500],
    ["2d-1", 0.2],
    ["1E3", 1000],
  ])("%s is read as %d", (text, value) => {
    expect(numberIn(text, point)).toBe(value);
  });
  test("is none where a part of the cell is no number", () => {
    for (const text of ["", ".", "-", "1.2.3", "1,5", "1 5", "0x10", "1e", "e5", "5N", "--1", "Infinity", "1_000", "٣"])
      expect([text, numberIn(text, point)]).toEqual([text, undefined]);
  });
  test("has whole groups of three or none at all", () => {
    const signs: NumberSigns = { decimal: ".", thousands: "," };
    for (const text of ["1,23", "1234,567", "1,2345", ",123", "1,,234", "1.234,5"])
      expect([text, numberIn(text, signs)]).toEqual([text, undefined]);
    expect([numberIn("1234.5", signs), numberIn("1,234", signs)]).toEqual([1234.5, 1234]);
  });
  test("may be parted by the blanks and strokes of print", () => {
    const blanks: NumberSigns = { decimal: ",", thousands: " " };
    for (const blank of [" ", "\u00a0", "\u202f"]) expect(numberIn(`12${blank}345,5`, blanks)).toBe(12_345.5);
    expect(numberIn("12’345.5", { decimal: ".", thousands: "'" })).toBe(12_345.5);
  });
  test("too great for a double is none, not infinite", () => {
    expect([numberIn("1e308", point), numberIn("1e309", point), numberIn("-1e999", point)]).toEqual([
      1e308,
      undefined,
      undefined,
    ]);
  });
});

test("a word for no value and a word for out of range are different words, and neither is a number or a time", () => {
  const gaps = ["NaN", "-nan", "nan(ind)", "n/a", "NA", "null", "--", "—", "?", "*****", "#N/A", "#WERT!", "1.#QNAN"];
  const over = ["inf", "-Infinity", "+∞", "OL", "O.L", "O.L.", "overflow", "OVERRANGE", "overload", "under", "1.#INF"];
  const others = ["", "0", "on", "none of these", "old", "information", "a-", "#", "nano"];
  for (const [words, ...is] of [
    [gaps, true, false],
    [over, false, true],
    [others, false, false],
  ] as const)
    for (const word of words) expect([word, isGapWord(word), isOverRange(word)]).toEqual([word, ...is]);
  for (const word of [...gaps, ...over]) expect([numberIn(word, point), clockIn(word)]).toEqual([undefined, undefined]);
});

describe("a time in a cell", () => {
  // 12 h = 43 200 s; 2000-03-01 is day 11 017 since 1970: 30 years of 365 days, 7 leap days up to 1999 and 31 + 29 days. [derived]
  test.each([
    ["12:30:01", 45_001],
    ["0:00:00,5", 0.5],
    ["100:00:00", 360_000],
    ["2000-03-01", 11_017 * 86_400],
    ["2000-03-01T12:00:00.250", 11_017 * 86_400 + 43_200.25],
    ["2000-03-01 00:00:00Z", 11_017 * 86_400],
  ])("%s is %d s", (text, seconds) => {
    expect(clockIn(text)).toBe(seconds);
  });
  test("grows with its digits", () => {
    const two = (n: number): string => `${n}`.padStart(2, "0");
    const ofDay = (s: number): string => `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
    const second = fc.integer({ min: 0, max: 86_399 });
    fc.assert(
      fc.property(second, (s) => {
        expect(clockIn(ofDay(s))).toBe(s);
        expect(clockIn(`1970-01-02 ${ofDay(s)}`)).toBe(86_400 + s);
      }),
      seeded,
    );
  });
  test("is none without seconds, with 60 minutes, or where something else stands beside it", () => {
    for (const text of ["", "Z", "12:30", "12:60:00", "12:00:61", "2000-3-1", "at 12:00:00", "12:00:00 x", "1.5"])
      expect([text, clockIn(text)]).toEqual([text, undefined]);
  });
});

test("a number with its unit comes apart, with or without a blank between them", () => {
  expect(withUnit("1.25 N", point)).toEqual({ value: 1.25, unit: "N" });
  expect(withUnit("12.5e3mm", point)).toEqual({ value: 12500, unit: "mm" });
  expect(withUnit("1.2E-05N", point)).toEqual({ value: 1.2e-5, unit: "N" });
  expect(withUnit("-41,5%", comma)).toEqual({ value: -41.5, unit: "%" });
  expect(withUnit("23 °C", point)).toEqual({ value: 23, unit: "°C" });
  expect(withUnit("80mm/s", point)).toEqual({ value: 80, unit: "mm/s" });
  expect(withUnit("1.2E-05N", point)).toEqual({ value: 1.2e-5, unit: "N" });
  for (const text of ["", "N", "5", "N 5", "1,5 N", "reel 5 N", "5 N left"])
    expect(withUnit(text, point)).toBeUndefined();
});

describe("the cells of a line", () => {
  const cell = fc.string({ unit: fc.constantFrom(..."ab1,;|\t .-'\""), maxLength: 6 }).map((text) => text.trim());
  test("come back from between quotes, whatever stands in them", () => {
    const quote = fc.constantFrom('"', "'");
    fc.assert(
      fc.property(
        fc.array(cell, { minLength: 1, maxLength: 5 }),
        fc.constantFrom(..."; \t,|"),
        quote,
        (cells, sign, q) => {
          const line = cells.map((text) => `${q}${text.replaceAll(q, q + q)}${q}`).join(sign);
          const back = cellsOf(line, sign, q);
          expect([back.cells, back.open, back.quoted]).toEqual([cells, -1, true]);
          // Each begins at its quote.
          expect(back.starts.map((at) => line[at])).toEqual(cells.map(() => q));
        },
      ),
      seeded,
    );
  });
  test("are parted at every separator, and empty cells count", () => {
    expect(cellsOf(";a; ;", ";", '"')).toEqual({
      cells: ["", "a", "", ""],
      starts: [0, 1, 4, 5],
      open: -1,
      quoted: false,
    });
    expect(cellsOf("", ";", '"').cells).toEqual([""]);
  });
  test("between blanks are parted by any number of them, and none at the ends", () => {
    expect(cellsOf("  1.5   2  x ", " ", '"')).toEqual({
      cells: ["1.5", "2", "x"],
      starts: [2, 8, 11],
      open: -1,
      quoted: false,
    });
  });
  test("hold a quote that stands within them as it is; one that opens and does not close is told by its place", () => {
    expect(cellsOf('12" reel;5', ";", '"')).toMatchObject({ cells: ['12" reel', "5"], open: -1, quoted: false });
    expect(cellsOf('1; "a;b', ";", '"')).toMatchObject({ cells: ["1"], open: 3 });
    expect(cellsOf('1; "a;b', ";", "")).toMatchObject({ cells: ["1", '"a', "b"], open: -1 });
  });
});
test("a day that is in no calendar is no date", () => {
  for (const day of ["2026-02-30", "2026-13-45", "2026-00-10", "2026-04-31T10:00:00", "2025-02-29"])
    expect([day, clockIn(day)]).toEqual([day, undefined]);
  // 59 days of 86 400 s after New Year. [derived]
  expect(clockIn("2024-02-29")! - clockIn("2024-01-01")!).toBe(59 * 86_400);
});
