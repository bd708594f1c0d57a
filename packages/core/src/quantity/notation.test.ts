import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Dimension } from "./dimension.ts";
import { evaluate, type Node } from "./expression.ts";
import {
  checkDimension,
  isBare,
  type Level,
  parseQuantity,
  printExpression,
  printQuantity,
  type Status,
  sameQuantity,
  type Written,
  type WrittenExpression,
  type WrittenRange,
  type WrittenScatter,
  wayOut,
} from "./notation.ts";
import { byText, refusal, said } from "./refusal.fixture.ts";
import { num, trees } from "./tree.fixture.ts";
import { unitNames, unitOf } from "./units.ts";

const expression = (text: string) => parseQuantity(text) as WrittenExpression;
const range = (text: string) => parseQuantity(text) as WrittenRange;
/** Centre of a text, SI, with W = 12 mm and b = 9.3 mm. */
const centre = (text: string) =>
  evaluate(expression(text).node, (name) => ({ W: 0.012, b: 0.0093, K0: 0.0021, n: 3 })[name]);

describe("a quantity", () => {
  test.each([
    ["4.00 ±0.10 mm", 0.004],
    ["W + 0.45 ±0.10 mm", 0.01245],
    ["W - 0.45 ±0.10 mm", 0.01155],
    ["-0.15 ±0.10 mm", -0.00015],
    ["1.10 +0.05/-0 mm", 0.0011],
    ["22 ±3 N*mm", 0.022],
    ["5 ±1 /m", 5],
    ["0.05 ±0.01 J/m^2", 0.05],
    ["45 ±5 %", 0.45],
    ["0.3 sd 0.02 N", 0.3],
    ["0.3 sd 5 % per reel sd 20 mN", 0.0003],
  ])("lends the unit behind its tolerance or scatter to the number before it: the centre of %s is %f", (text, si) => {
    expect(centre(text)).toBeCloseTo(si, 12);
  });
  test.each([
    ["b/2 ±0.10 mm", 0.00465],
    ["W + b/2 ±0.10 mm", 0.01665],
    ["2*b ±0.10 mm", 0.0186],
    ["n*2*K0 ±0.10 mm", 0.0126],
    ["W^2 ±1 mm^2", 144e-6],
    ["W^2/W ±1 mm", 0.012],
    ["(0.5) ±0.1 mm", 0.5],
    ["max(W, 2 mm) ±0.1 mm", 0.012],
    ["5 cm ±1 mm", 0.05],
    ["0.45 N per reel sd 20 %", 0.45],
    ["0.45 per reel sd 20 %", 0.45],
  ])("keeps a factor, a divisor, an exponent and a number with its own unit: the centre of %s is %f", (text, si) => {
    expect(centre(text)).toBeCloseTo(si, 12);
  });

  test.each([
    ["4 ±0.1 mm", { minus: 0.1, plus: 0.1, unit: "mm" }],
    ["4 mm ±0", { minus: 0, plus: 0, unit: "" }],
    ["4 +0.2/-0.1 mm", { minus: 0.1, plus: 0.2, unit: "mm" }],
    ["4 -0.1/+0.2 mm", { minus: 0.1, plus: 0.2, unit: "mm" }],
    ["4 +0/-0.1 mm", { minus: 0.1, plus: 0, unit: "mm" }],
    ["W +0.2/-0.1 mm", { minus: 0.1, plus: 0.2, unit: "mm" }],
    ["4±0.1mm", { minus: 0.1, plus: 0.1, unit: "mm" }],
    ["4+0.2/-0.1mm", { minus: 0.1, plus: 0.2, unit: "mm" }],
    ["2 ±0.5 g*mm^2/s", { minus: 0.5, plus: 0.5, unit: "g*mm^2/s" }],
  ])("has a tolerance: %s", (text, tolerance) => {
    expect(expression(text).tolerance).toMatchObject(tolerance);
    expect(expression(text).scatters).toEqual([]);
    expect(expression(text).status).toBeUndefined();
  });
  test("has scatters, each with its level, its unit and its place", () => {
    const text = "0.4 N per reel sd 15 % per index sd 0.02 N sd 1 % measured";
    expect(expression(text)).toMatchObject({
      scatters: [
        { level: "reel", sd: 15, unit: "%" },
        { level: "index", sd: 0.02, unit: "N" },
        { level: undefined, sd: 1, unit: "%" },
      ],
      status: "measured",
    });
    expect(expression(text).scatters.map((s) => text.slice(s.at, s.at + s.length))).toEqual([
      "per reel sd 15 %",
      "per index sd 0.02 N",
      "sd 1 %",
    ]);
  });
  test("may be a tolerance and a scatter and a status at once", () => {
    expect(expression("W + 4 ±0.1 mm per unit sd 2 % guess")).toMatchObject({
      tolerance: { minus: 0.1, plus: 0.1, unit: "mm" },
      scatters: [{ level: "unit", sd: 2, unit: "%" }],
      status: "guess",
    });
  });
  test.each([
    ["0.2..0.5 N guess", { low: 0.2, high: 0.5, unit: "N", status: "guess" }],
    ["-60..60 /m guess", { low: -60, high: 60, unit: "1/m", status: "guess" }],
    ["-5..-2 mm measured", { low: -5, high: -2, unit: "mm", status: "measured" }],
    ["1.5..2.5 % guess", { low: 1.5, high: 2.5, unit: "%", status: "guess" }],
    ["0.08..0.20 mm", { low: 0.08, high: 0.2, unit: "mm" }],
    ["5..100 J/m^2 guess", { low: 5, high: 100, unit: "J/m^2", status: "guess" }],
    ["0.5..1.0 guess", { low: 0.5, high: 1, unit: "", status: "guess" }],
    ["1e-3..2e-3 m guess", { low: 1e-3, high: 2e-3, unit: "m", status: "guess" }],
    ["0.2..0.8 N per reel sd 20 % per index sd 8 % guess", { low: 0.2, high: 0.8, unit: "N", status: "guess" }],
  ])("may be a range: %s", (text, expected) => {
    expect(range(text)).toMatchObject({ form: "range", ...expected });
  });
  test("that is a formula ends where a tolerance begins, and a quotient by a negative number is no tolerance", () => {
    expect(expression("W + 3/-4 mm").tolerance).toMatchObject({ plus: 3, minus: 4 });
    expect(expression("W + 3/(-4)").tolerance).toBeUndefined();
    expect(expression("W + 3 mm/-n").tolerance).toBeUndefined();
    expect(centre("W + 3 mm/-n")).toBeCloseTo(0.011, 12);
  });
});

describe("is refused", () => {
  const theEnd = "expected the end of the quantity";
  test.each(
    [
      said("", "^", "found the end, expected a quantity"),
      said("   ", "   ^", "found the end, expected a quantity"),
      said(
        "1.2 W",
        "    ^",
        'found "W" right after a number, expected a unit',
        'A letter is multiplied with a star: "1.2 * W".',
      ),
      said("3..2 mm guess", "^^^^", "found 3..2, expected the lower end first", 'Write "2..3 mm guess".'),
      said("3..2", "^^^^", "found 3..2, expected the lower end first", 'Write "2..3".'),
      said("-2..-3 /m", "^^^^^^", "found -2..-3, expected the lower end first", 'Write "-3..-2 /m".'),
      said("2..2 mm", "^^^^", "found 2..2, expected two ends", 'Both ends are 2: write "2 mm".'),
      said(
        "0.2..W",
        "     ^",
        'found "W", expected a number',
        'A range is two plain numbers and a unit: "0.2..0.5 N guess".',
      ),
      said(
        "0.2..",
        "     ^",
        "found the end, expected a number",
        'A range is two plain numbers and a unit: "0.2..0.5 N guess".',
      ),
      said("W..3 mm", " ^^", `found "..", ${theEnd}`, 'A range is two plain numbers and a unit: "0.2..0.5 N guess".'),
      said(
        "0.2 N..0.5 N",
        "     ^^",
        `found "..", ${theEnd}`,
        'A range is two plain numbers and a unit: "0.2..0.5 N guess".',
      ),
      said("..5 mm", "^^", 'found "..", expected a number or a letter'),
      said(
        "1..2..3 mm",
        "    ^^",
        `found "..", ${theEnd}`,
        'A range is two plain numbers and a unit: "0.2..0.5 N guess".',
      ),
      said("0.2..1e999 N", "     ^^^^^", 'found "1e999", expected a finite number'),
      said("1..1e308 GPa", "^", 'found "1", expected a finite number'),
      said("4 ±T", "   ^", 'found "T", expected a number', "A tolerance is a number; a letter can't be one."),
      said("4 ±(0.1) mm", "   ^", 'found "(", expected a number'),
      said("4 ±-0.1 mm", "   ^", 'found "-", expected a number', "±0.1 goes both ways without a sign."),
      said("4 ±", "   ^", "found the end, expected a number"),
      said(
        "±0.1 mm",
        "^",
        'found "±", expected a number or a letter',
        "A tolerance stands behind a number or a letter.",
      ),
      said("4 ±1e999 mm", "   ^^^^^", 'found "1e999", expected a finite number'),
      said("4 ±1e308 GPa", "   ^^^^^", 'found "1e308", expected a finite number'),
      said("4 +0.1/-1e308 GPa", "   ^^^", 'found "0.1", expected a finite number'),
      said(
        "4 +-0.1 mm",
        "  ^^",
        'found "+-", expected an operator, or "±"',
        'A tolerance is written "4.00 ±0.10 mm" or "4.00 +0.1/-0.2 mm".',
      ),
      said(
        "4 +/-0.1 mm",
        "  ^^^",
        'found "+/-", expected an operator, or "±"',
        'A tolerance is written "4.00 ±0.10 mm" or "4.00 +0.1/-0.2 mm".',
      ),
      said("4 ±0.1 ±0.2 mm", "       ^", `found "±", ${theEnd}`, "A quantity has one tolerance."),
      said("4 ±0.1 mm +0.1/-0.2 mm", "          ^", `found "+", ${theEnd}`, "A quantity has one tolerance."),
      said(
        "4 mm sd 0.1 mm ±0.2 mm",
        "               ^",
        `found "±", ${theEnd}`,
        "A tolerance stands before the scatter.",
      ),
      said(
        "1..2 mm ±0.1 mm",
        "        ^",
        `found "±", ${theEnd}`,
        "A range has no tolerance: its ends say how far it goes.",
      ),
      said(
        "(W + 4 ±0.1 mm)",
        "       ^",
        'found "±", expected ")"',
        "A tolerance stands behind the whole quantity, outside its brackets.",
      ),
      said(
        "2 * (4 +0.1/-0.2 mm)",
        "       ^",
        'found "+", expected ")"',
        "A tolerance stands behind the whole quantity, outside its brackets.",
      ),
      said(
        "max(W, 4 ±0.1 mm)",
        "         ^",
        'found "±", expected "," or ")"',
        "A tolerance stands behind the whole quantity, outside its brackets.",
      ),
      said(
        "4 ±0.1 mm * 2",
        "          ^",
        `found "*", ${theEnd}`,
        "What is added or multiplied stands before the tolerance and the scatter.",
      ),
      said(
        "4 ±0.1 mm + 1 mm",
        "          ^",
        `found "+", ${theEnd}`,
        "What is added or multiplied stands before the tolerance and the scatter.",
      ),
      said(
        "24,2 mm",
        "  ^",
        `found ",", ${theEnd}`,
        "The decimal sign is a point: 24.2. Several values make a list: [1 mm, 2 mm].",
      ),
      said(
        "4 ±0,1 mm",
        "    ^",
        `found ",", ${theEnd}`,
        "The decimal sign is a point: 24.2. Several values make a list: [1 mm, 2 mm].",
      ),
      said(
        "0,2..0,5 N guess",
        " ^",
        `found ",", ${theEnd}`,
        "The decimal sign is a point: 24.2. Several values make a list: [1 mm, 2 mm].",
      ),
      said(
        "W mm",
        "  ^^",
        'found "mm", expected a tolerance, a scatter, guess, measured or the end',
        'A unit stands right after its number: "2 mm".',
      ),
      said("W T", "  ^", 'found "T", expected a tolerance, a scatter, guess, measured or the end'),
      said("4 ±0.1 mm W", "          ^", 'found "W", expected a scatter, guess, measured or the end'),
      said(
        "0.2..0.5 N gues",
        "           ^^^^",
        'found "gues", expected a scatter, guess, measured or the end',
        'Did you mean "guess"?',
      ),
      said(
        "(4 mm) measurd",
        "       ^^^^^^^",
        'found "measurd", expected a tolerance, a scatter, guess, measured or the end',
        'Did you mean "measured"?',
      ),
      said(
        "4 mm guess measured",
        "           ^^^^^^^^",
        `found "measured", ${theEnd}`,
        '"guess" is the last word of a quantity.',
      ),
      said(
        "4 mm measured sd 0.1 mm",
        "              ^^",
        `found "sd", ${theEnd}`,
        '"measured" is the last word of a quantity.',
      ),
      said("4 mm guess 5", "           ^", `found "5", ${theEnd}`),
      said(
        "guess 4 mm",
        "^^^^^",
        'found "guess", expected a number or a letter',
        '"guess" stands at the end: "0.2..0.5 N guess".',
      ),
      said("2 (W)", "  ^", `found "(", ${theEnd}`, 'A product is written with a star: "2 * (W + 1 mm)".'),
      said("W)", " ^", `found ")", ${theEnd}`, 'There is no "(" that it closes.'),
      said("4 mm %", "     ^", `found "%", ${theEnd}`, "A percent sign stands right after its number: 2 %"),
      said("4 mm 5", "     ^", `found "5", ${theEnd}`),
      said(
        "0.4 N per lot sd 2 %",
        "          ^^^",
        'found "lot", expected reel, unit or index',
        'For example "per reel sd 20 %".',
      ),
      said("0.4 N per reel 2 %", "               ^", 'found "2", expected "sd"', 'For example "per reel sd 20 %".'),
      said("0.4 N per reel", "              ^", 'found the end, expected "sd"', 'For example "per reel sd 20 %".'),
      said("0.4 N sd", "        ^", "found the end, expected a number", 'For example "sd 0.03 mm" or "sd 8 %".'),
      said("0.4 N sd W", "         ^", 'found "W", expected a number', 'For example "sd 0.03 mm" or "sd 8 %".'),
      said(
        "0.4 N sd 0 %",
        "      ^^^^^^",
        "found sd 0, expected a scatter above nought",
        "Leave it out where nothing scatters.",
      ),
      said("0.4 N sd 1e200 %", "         ^^^^^", 'found "1e200", expected a finite number'),
      said(
        "5 ±1 mm^0",
        "        ^",
        'found "0", expected a whole number from 1 to 9',
        'A power behind a unit is the unit\'s; to raise the number with it write "(2 mm)^n".',
      ),
      said(
        "5 ±1 mm*2",
        "       ^",
        `found "*", ${theEnd}`,
        "What is added or multiplied stands before the tolerance and the scatter.",
      ),
      said(
        "5 mm^2^3",
        "      ^",
        'found "^", expected one power behind a unit',
        'A power behind a unit is the unit\'s; to raise the number with it write "(2 mm)^n".',
      ),
      said("4 mm NaN", "     ^^^", 'found "NaN", expected a tolerance, a scatter, guess, measured or the end'),
      said(
        "inf mm",
        "    ^^",
        'found "mm", expected a tolerance, a scatter, guess, measured or the end',
        'A unit stands right after its number: "2 mm".',
      ),
    ].map(byText),
  )("%j", (text, message) => {
    expect(refusal(() => parseQuantity(text), text)).toBe(message);
  });
});

const dimensions: Readonly<Record<string, Dimension>> = { W: [1, 0, 0, 0, 0], n: [0, 0, 0, 0, 0] };
const names = (name: string): Dimension | undefined => (Object.hasOwn(dimensions, name) ? dimensions[name] : undefined);
describe("is refused in a field of", () => {
  const fields: Readonly<Record<string, string>> = {
    length: "mm",
    number: "",
    force: "N",
    torque: "N*mm",
    "force per length": "N/mm",
    time: "h",
    rate: "1/h",
    curvature: "1/m",
  };
  const asked = (text: string, unit: string, kind = {}) =>
    refusal(() => checkDimension(parseQuantity(text), unitOf(unit).dimension, names, text, kind), text);
  test.each(
    [
      [
        "length",
        said(
          "24.2",
          "^^^^",
          "found 24.2 without a unit, expected a length",
          'Write "24.2 mm", or "W + 0.2 mm" to follow the tape.',
        ),
      ],
      [
        "length",
        said(
          "24.20",
          "^^^^^",
          "found 24.20 without a unit, expected a length",
          'Write "24.20 mm", or "W + 0.2 mm" to follow the tape.',
        ),
      ],
      [
        "length",
        said(
          "0",
          "^",
          "found 0 without a unit, expected a length",
          'Write "0 mm", or "W + 0.2 mm" to follow the tape.',
        ),
      ],
      [
        "length",
        said(
          "-5",
          "^^",
          "found -5 without a unit, expected a length",
          'Write "-5 mm", or "W + 0.2 mm" to follow the tape.',
        ),
      ],
      [
        "length",
        said(
          "4 ±0.1",
          "^^^^^^",
          "found 4 ±0.1 without a unit, expected a length",
          'Write "4 ±0.1 mm", or "W + 0.2 mm" to follow the tape.',
        ),
      ],
      [
        "length",
        said(
          "4 sd 0.1",
          "^^^^^^^^",
          "found 4 sd 0.1 without a unit, expected a length",
          'Write "4 sd 0.1 mm", or "W + 0.2 mm" to follow the tape.',
        ),
      ],
      [
        "length",
        said(
          "0.2..0.5 guess",
          "^^^^^^^^^^^^^^",
          "found 0.2..0.5 guess without a unit, expected a length",
          'Write "0.2..0.5 mm guess".',
        ),
      ],
      [
        "length",
        said("0.2..0.5", "^^^^^^^^", "found 0.2..0.5 without a unit, expected a length", 'Write "0.2..0.5 mm guess".'),
      ],
      ["length", said("4 N", "^^^", "found a force, expected a length")],
      ["length", said("W*W", "^^^", "found an area, expected a length")],
      ["length", said("n", "^", "found a plain number, expected a length")],
      ["length", said("W/W + 1", "^^^^^^^", "found a plain number, expected a length")],
      ["length", said("0.2..0.5 N guess", "^^^^^^^^^^^^^^^^", "found a force, expected a length")],
      [
        "length",
        said(
          "4 mm ±0.1",
          "     ^^^^",
          "found a tolerance of a plain number, expected a length",
          "Write the unit after the tolerance; it counts for both: 4.00 ±0.10 mm.",
        ),
      ],
      [
        "length",
        said(
          "W ±0.1",
          "  ^^^^",
          "found a tolerance of a plain number, expected a length",
          "Write the unit after the tolerance; it counts for both: 4.00 ±0.10 mm.",
        ),
      ],
      ["length", said("W ±0.1 N", "  ^^^^^^", "found a tolerance of a force, expected a length")],
      [
        "length",
        said(
          "4 mm sd 0.1",
          "     ^^^^^^",
          "found a scatter of a plain number, expected a length",
          'Give it a unit, or a share: "sd 8 %".',
        ),
      ],
      [
        "length",
        said("4 mm per reel sd 0.1 N", "     ^^^^^^^^^^^^^^^^^", "found a scatter of a force, expected a length"),
      ],
      ["number", said("2 mm", "^^^^", "found a length, expected a plain number")],
      [
        "number",
        said(
          "2*3 ±0.1 mm",
          "    ^^^^^^^",
          "found a tolerance of a length, expected a plain number",
          "Give the numbers before it their units too.",
        ),
      ],
      ["force", said("6", "^", "found 6 without a unit, expected a force", 'Write "6 N".')],
      ["torque", said("22", "^^", "found 22 without a unit, expected a torque or an energy", 'Write "22 N*mm".')],
      ["force per length", said("1.5 N", "^^^^^", "found a force, expected a force per length")],
      ["time", said("3", "^", "found 3 without a unit, expected a time", 'Write "3 ms".')],
      [
        "curvature",
        said("10..20", "^^^^^^", "found 10..20 without a unit, expected a curvature", 'Write "10..20 /m guess".'),
      ],
      ["rate", said("28", "^^", "found 28 without a unit, expected a rate per time")],
    ].map(([field, message]) => [field!, ...byText(message!)] as const),
  )("%s: %s", (field, text, message) => {
    expect(asked(text, fields[field]!)).toBe(message);
  });
  test("length, without the letters where no letter may be followed, and without a guess where a set may stand", () => {
    expect(asked("24.2", "mm", { follows: false })).toBe(
      said("24.2", "^^^^", "found 24.2 without a unit, expected a length", 'Write "24.2 mm".'),
    );
    expect(asked("0.1..0.2", "mm", { set: true })).toBe(
      said("0.1..0.2", "^^^^^^^^", "found 0.1..0.2 without a unit, expected a length", 'Write "0.1..0.2 mm".'),
    );
  });
  test("anything nothing, but what does not go together in itself", () => {
    const any = (text: string) => checkDimension(parseQuantity(text), undefined, names, text);
    expect(any("24.2")).toEqual([0, 0, 0, 0, 0]);
    expect(any("0")).toEqual([0, 0, 0, 0, 0]);
    expect(any("W*W")).toEqual([2, 0, 0, 0, 0]);
    expect(any("1..2 N guess")).toEqual([1, 1, -2, 0, 0]);
    expect(() => any("W ±0.1 N")).toThrow("found a tolerance of a force, expected a length");
  });
});

test("a quantity is bare where its number has no unit, signed or not, a range or not", () => {
  for (const text of ["24", "-24", "4 ±0.1", "0.2..0.5 guess", "0"]) expect(isBare(parseQuantity(text))).toBe(true);
  for (const text of ["24 mm", "W", "2*3", "4 ±0.1 mm", "0.2..0.5 N", "--4"])
    expect(isBare(parseQuantity(text))).toBe(false);
  expect(wayOut("20", parseQuantity("20"), "deg")).toBe('Write "20 deg".');
  expect(wayOut("-20 ±1", parseQuantity("-20 ±1"), "deg")).toBe('Write "-20 ±1 deg".');
  expect(wayOut("20", parseQuantity("20"), "")).toBeUndefined();
});

describe("a quantity written out", () => {
  test.each([
    ["4.00 ±0.10 mm", "4 ±0.1 mm"],
    ["W+0.45±0.10mm", "W + 0.45 ±0.1 mm"],
    ["1.10 -0/+0.05 mm", "1.1 +0.05/-0 mm"],
    ["4 +0.1/-0.1 mm", "4 ±0.1 mm"],
    ["2*(W+T)/(b-1 mm)", "2 * (W + T) / (b - 1 mm)"],
    ["-(drop + gap)", "-(drop + gap)"],
    ["a-(b-c)", "a - (b - c)"],
    ["(a-b)-c", "a - b - c"],
    ["a/(b*c)", "a / (b * c)"],
    ["a/b*c", "a / b * c"],
    ["(a^b)^c", "(a^b)^c"],
    ["a^b^c", "a^b^c"],
    ["(-a)^2", "(-a)^2"],
    ["-a^2", "-a^2"],
    ["a - -b", "a - -b"],
    ["W + 3/(-4)", "W + 3 / (-4)"],
    ["5 mm^2", "5 mm^2"],
    ["(5 mm)^2", "(5 mm)^2"],
    ["actual W+1 mm", "actual W + 1 mm"],
    ["5 ±1 /m", "5 ±1 /m"],
    ["0.2..0.8 N per reel sd 20 % per index sd 8 % guess", "0.2..0.8 N per reel sd 20 % per index sd 8 % guess"],
    ["-60..60 1/m guess", undefined],
    ["max( W ,b,  2 mm )", "max(W, b, 2 mm)"],
    ["1e-7 m", "1e-7 m"],
    ["1000000000000000000000 um", "1e+21 um"],
  ])("%s becomes %s", (text, printed) => {
    if (printed === undefined) expect(() => parseQuantity(text)).toThrow();
    else expect(printQuantity(parseQuantity(text))).toBe(printed);
  });

  const seed = { seed: 25, numRuns: 4000 };
  test("is read back as the same quantity, and written out again the same way", () => {
    fc.assert(
      fc.property(quantities(), (written) => {
        const text = printQuantity(written);
        const again = parseQuantity(text);
        if (!sameQuantity(again, written))
          throw new Error(`${text}\n${JSON.stringify(written)}\n${JSON.stringify(again)}`);
        expect(printQuantity(again)).toBe(text);
      }),
      seed,
    );
  });
  test("needs no brackets that it could do without", () => {
    fc.assert(
      fc.property(anyTree, (tree) => {
        const text = printExpression(tree);
        for (const [from, to] of brackets(text)) {
          const without = `${text.slice(0, from)} ${text.slice(from + 1, to)} ${text.slice(to + 1)}`;
          let same = false;
          try {
            same = sameQuantity(parseQuantity(without), { form: "expression", node: tree, scatters: [] });
          } catch {
            // Without them it is no quantity at all.
          }
          // The brackets of 3 / (-4) keep it apart from a tolerance.
          if (same && !/\/ \(-/.test(text.slice(from - 2, from + 2)))
            throw new Error(`${text} says the same as ${without}`);
        }
      }),
      { seed: 26, numRuns: 2000 },
    );
  });
  test("says the same whatever its spaces, and another quantity does not", () => {
    expect(sameQuantity(parseQuantity("W+0.45±0.1mm"), parseQuantity(" W + 0.45 ± 0.10 mm "))).toBe(true);
    expect(sameQuantity(parseQuantity("W + 0.45 ±0.1 mm"), parseQuantity("W + 0.45 mm ±0.1 mm"))).toBe(true);
    expect(sameQuantity(parseQuantity("W + 0.45 ±0.1 mm"), parseQuantity("W + 0.45 ±0.2 mm"))).toBe(false);
    expect(sameQuantity(parseQuantity("0.2..0.5 N guess"), parseQuantity("0.2..0.5 N measured"))).toBe(false);
    expect(sameQuantity(parseQuantity("a - (b - c)"), parseQuantity("a - b - c"))).toBe(false);
  });
});

/** Brackets of a text that are not a function's, from the opening to its closing one. */
function brackets(text: string): (readonly [from: number, to: number])[] {
  const open: number[] = [];
  const out: (readonly [number, number])[] = [];
  for (let i = 0; i < text.length; i++) {
    if (text[i] === "(") open.push(i);
    if (text[i] !== ")") continue;
    const from = open.pop()!;
    if (!/[a-z]$/.test(text.slice(0, from))) out.push([from, i]);
  }
  return out;
}

const number = fc.oneof(
  fc.integer({ min: 0, max: 2000 }),
  fc.integer({ min: 0, max: 99999 }).map((v) => v / 1000),
  fc.double({ min: 0, max: 1e15, noNaN: true }),
  fc.double({ min: 1e-12, max: 1e-3, noNaN: true }),
  fc.constantFrom(1e21, 1e-7, 123456789012345),
);
const powers = ["mm^2", "m^3", "s^2", "g^9"];
const anyTree = trees({
  numbers: number,
  units: ["", "", "", ...unitNames, ...powers],
  names: ["W", "A0", "b", "w_t", "gap", "pi", "mm", "h", "N", "min", "actual W", "actual T2", "x_1"],
});

/** Units as they stand after a tolerance, a scatter or a range: `N*mm`, `J/m^2`, `/h`. */
const compound = fc
  .tuple(
    fc.constantFrom(...unitNames.filter((u) => u !== "%"), ...powers),
    fc.boolean(),
    fc.array(fc.tuple(fc.constantFrom("*", "/"), fc.constantFrom("mm", "s", "N", "h", "m^2", "kelvin")), {
      maxLength: 2,
    }),
  )
  .map(([first, below, more]) => `${below ? "1/" : ""}${first}${more.map(([sign, unit]) => sign + unit).join("")}`);
const anyUnit = fc.oneof(fc.constantFrom("", "mm", "N", "%", "deg"), compound);
const scatter = fc
  .record({
    level: fc.constantFrom<(Level | undefined)[]>("reel", "unit", "index", undefined),
    sd: number.filter((v) => v > 0),
    unit: anyUnit,
  })
  .map((s): WrittenScatter => ({ ...s, at: 0, length: 1 }));
const tail = fc.record({
  scatters: fc.array(scatter, { maxLength: 3 }),
  status: fc.constantFrom<(Status | undefined)[]>("guess", "measured", undefined),
});
const withStatus = <T extends object>(w: T & { status: Status | undefined }) => {
  const { status, ...rest } = w;
  return status ? { ...rest, status } : rest;
};

/** Every quantity that a text can say. */
function quantities(): fc.Arbitrary<Written> {
  const signed = fc.tuple(number, fc.boolean()).map(([v, minus]) => (minus ? -v : v) + 0);
  const ranges = fc.record({ a: signed, b: signed, unit: anyUnit, tail }).filter(({ a, b }) => a !== b);
  const tolerance = fc.record({ minus: number, plus: number, same: fc.boolean(), unit: anyUnit });
  const expressions = fc.record({ node: anyTree, tolerance: fc.option(tolerance), tail });
  return fc.oneof(
    {
      arbitrary: ranges.map(
        ({ a, b, unit, tail: t }) =>
          withStatus({ form: "range" as const, low: Math.min(a, b), high: Math.max(a, b), unit, ...t }) as Written,
      ),
      weight: 1,
    },
    {
      arbitrary: expressions.map(({ node, tolerance: t, tail: more }) => {
        const limits = t && { minus: t.minus, plus: t.same ? t.minus : t.plus, unit: t.unit, at: 0, length: 1 };
        const unit = limits?.unit ?? more.scatters.find((s) => s.unit !== "%")?.unit ?? "";
        const behind = limits ?? more.scatters[0];
        const lent = behind && unit !== "" ? withCentre(node, unit) : node;
        return withStatus({
          form: "expression" as const,
          node: lent,
          ...(limits ? { tolerance: limits } : {}),
          ...more,
        }) as Written;
      }),
      weight: 4,
    },
  );
}
/** A bare number at the very end, as a whole term, has the unit that stands behind the tolerance or the scatter. */
function withCentre(n: Node, unit: string): Node {
  if (n.op === "num") return n.unit === "" ? num(n.v, unit) : n;
  if (n.op === "neg" && (n.a.op === "num" || n.a.op === "neg")) return { ...n, a: withCentre(n.a, unit) };
  if ((n.op === "+" || n.op === "-") && n.b.op !== "+" && n.b.op !== "-") return { ...n, b: withCentre(n.b, unit) };
  return n;
}
