import { type Given, given, parseQuantity, type Quantity, quantity, type Scene, unitOf } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { checkLimits, type Limit } from "./limits.ts";

const place = (line: number) => ({ file: "a.yaml", line, column: 1, length: 1 });
let line = 0;
const number = (
  text: string,
  unit = "mm",
  reads: Record<string, Quantity> = {},
  bounds: Parameters<typeof quantity>[2] = {},
): Limit => ({
  given: given({
    address: `a/${text}`,
    symbol: "x",
    text,
    origin: place(++line),
    dimension: unitOf(unit).dimension,
    written: parseQuantity(text),
    level: "unit",
    reads: () => reads,
  }),
  field: quantity(unit, "what it means", bounds),
  place: place(line),
});
const said = (limits: readonly Limit[], longest?: number): string[] => {
  const out: string[] = [];
  checkLimits(
    limits,
    {} as Scene,
    " at W = 8 mm",
    (_, found, expected, hint) => out.push(`found ${found}, expected ${expected}${hint ? `. ${hint}` : ""}`),
    longest,
  );
  return out;
};

describe("a number is refused", () => {
  test.each([
    ["4 mm", "mm", { least: 5 }, "found 4 mm, expected at least 5 mm: what it means"],
    ["4 mm", "mm", { most: 3 }, "found 4 mm, expected at most 3 mm: what it means"],
    ["4000 um", "mm", { most: 3 }, "found 4000 um, expected at most 3 mm: what it means"],
    ["-4 mm", "mm", { least: -3 }, "found -4 mm, expected at least -3 mm: what it means"],
    ["45 deg", "deg", { most: 40 }, "found 45 deg, expected at most 40 deg: what it means"],
    ["28 /h", "1/h", { most: 20 }, "found 28 /h, expected at most 20 /h: what it means"],
    ["2", "", { most: 0.4 }, 'found 2, expected at most 0.4: what it means. Write "2 %".'],
    ["50 %", "", { most: 0.4 }, "found 50 %, expected at most 40 %: what it means"],
    ["500", "", { most: 0.4 }, "found 500, expected at most 0.4: what it means"],
    ["1/0*1 mm", "mm", {}, "found a value that is not finite, expected a finite number"],
    ["sqrt(-1)*1 mm", "mm", {}, "found a value that is not finite, expected a finite number"],
    ["2.5 m", "mm", {}, "found 2.5 m, expected at most 2 m: nothing of a unit is longer"],
    ["-2.5 m", "mm", {}, "found -2.5 m, expected at most 2 m: nothing of a unit is longer"],
    ["0.2..40 mm guess", "mm", { most: 20 }, "found 40 mm, expected at most 20 mm: what it means"],
    ["-1..4 mm guess", "mm", { least: 0 }, "found -1 mm, expected at least 0 mm: what it means"],
  ])("%s (in %j, %j)", (text, unit, bounds, message) => {
    expect(said([number(text, unit, {}, bounds)], 2)).toEqual([message]);
  });
  test("with what it is made of, and where, if it names anything", () => {
    const W = number("8 mm").given;
    const n = number("0.5", "").given;
    expect(said([number("W*n", "mm", { W, n }, { most: 3 })])).toEqual([
      "found 4 mm at W = 8 mm, expected at most 3 mm: what it means. It is made of W = 8 mm, n = 0.5.",
    ]);
    expect(said([number("W/(n - 0.5)", "mm", { W, n })])).toEqual([
      "found a value that is not finite at W = 8 mm, expected a finite number. It is made of W = 8 mm, n = 0.5.",
    ]);
  });
});

describe("a number is not refused", () => {
  test.each([
    ["5 mm", { least: 5, most: 5 }],
    ["0 mm", { least: 0, most: 0 }],
    ["-3 mm", { least: -3, most: -3 }],
    ["0.1 mm + 0.2 mm", { least: 0.3, most: 0.3 }],
    ["1e-9 mm", {}],
  ])("on its bounds: %s in %j", (text, bounds) => {
    expect(said([number(text, "mm", {}, bounds)])).toEqual([]);
  });
  test("for a length where nothing says how long it may be", () => {
    expect(said([number("2.5 m")])).toEqual([]);
  });
  test("for resting on one that is, in whatever order they come", () => {
    const bad = number("1/0*1 mm");
    const above = number("x + 1 mm", "mm", { x: bad.given });
    const top = number("y*2", "mm", { y: above.given });
    const other = number("9 mm", "mm", {}, { most: 3 });
    const expected = ["found a value that is not finite, expected a finite number"];
    expect(said([bad, above, top])).toEqual(expected);
    expect(said([top, above, bad])).toEqual(expected);
    expect(said([top, other, bad])).toHaveLength(2);
  });
  test("for resting on a letter that only the tape on the reel has", () => {
    const follows = number("actual W", "mm", { "actual W": undefined as unknown as Given }, { most: 3 });
    expect(said([follows, number("x*2", "mm", { x: follows.given }, { most: 3 })])).toEqual([]);
  });
});
