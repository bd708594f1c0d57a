import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Dimension, sameDimension } from "./dimension.ts";
import {
  dimensionOf,
  evaluate,
  type Node,
  NotationError,
  namesIn,
  parseExpression,
  reservedWords,
  tokens,
} from "./expression.ts";
import { printExpression } from "./notation.ts";
import { power } from "./power.ts";
import { byText, refusal, said } from "./refusal.fixture.ts";
import { trees } from "./tree.fixture.ts";

const seed = { seed: 23, numRuns: 3000 };
const letters: Readonly<Record<string, number>> = { W: 12, A0: 6.4, b: -0.75, gap: 0, mm: 5, rin: 1e-9 };
const value = (text: string) => evaluate(parseExpression(text), (name) => letters[name]);

/** Factors of the units below, typed by hand. */
const factors: Readonly<Record<string, number>> = {
  "": 1,
  mm: 1e-3,
  N: 1,
  deg: Math.PI / 180,
  g: 1e-3,
  "%": 0.01,
  "mm^2": 1e-6,
};
/** An evaluator that shares no line with ours: the same tree as JavaScript, bracketed throughout, which the engine parses and runs. */
function script(n: Node): string {
  switch (n.op) {
    case "num":
      return n.unit === ""
        ? `(${n.v})`
        : `(${n.v} * ${factors[n.unit === "mm^2" ? "mm" : n.unit]} ** ${n.unit === "mm^2" ? 2 : 1})`;
    case "sym":
      return `letters[${JSON.stringify(n.name)}]`;
    case "neg":
      return `(-(${script(n.a)}))`;
    case "call":
      return `Math.${n.f}(${n.args.map(script).join(", ")})`;
    default:
      // A last bit of a power may be all that is left of a difference; power.test.ts holds it against the language's own.
      return n.op === "^" ? `power(${script(n.a)}, ${script(n.b)})` : `((${script(n.a)}) ${n.op} (${script(n.b)}))`;
  }
}
/** The same tree in the notation, with all brackets and as much white space as one likes. */
function bracketed(n: Node, space: string): string {
  switch (n.op) {
    case "num":
      return `(${n.v}${n.unit === "" ? "" : ` ${n.unit}`})`;
    case "sym":
      return n.name;
    case "neg":
      return `(-${space}${bracketed(n.a, space)})`;
    case "call":
      return `${n.f}(${n.args.map((a) => bracketed(a, space)).join(`${space},`)})`;
    default:
      return `(${bracketed(n.a, space)}${space}${n.op}${space}${bracketed(n.b, space)})`;
  }
}
const anyTree = trees({
  numbers: fc.oneof(fc.integer({ min: 0, max: 9 }), fc.double({ min: 0, max: 1e4, noNaN: true })),
  units: ["", "", "mm", "N", "deg", "g", "%", "mm^2"],
  names: Object.keys(letters),
});

describe("an expression has the value that", () => {
  test("the same expression has as a script with all its brackets, however it is written", () => {
    fc.assert(
      fc.property(anyTree, fc.constantFrom("", " ", "  \t"), (tree, space) => {
        const expected = new Function("letters", "power", `return ${script(tree)}`)(letters, power);
        const near = (v: number) =>
          Object.is(v, expected) || v === expected || Math.abs(v - expected) <= 1e-9 * Math.abs(expected);
        expect(near(evaluate(tree, (name) => letters[name]))).toBe(true);
        expect(near(value(bracketed(tree, space)))).toBe(true);
        expect(near(value(printExpression(tree)))).toBe(true);
      }),
      seed,
    );
  });
  // Worked by hand.
  test.each([
    ["1 - 2 - 3", -4],
    ["12 / 3 / 2", 2],
    ["2^3^2", 512],
    ["-2^2", -4],
    ["(-2)^2", 4],
    ["2^-1", 0.5],
    ["2 * -3", -6],
    ["--4", 4],
    ["1 + 2 * 3 ^ 2", 19],
    ["(1 + 2) * 3", 9],
    ["10 - 2 * 3 - 1", 3],
    ["24 mm", 0.024],
    ["40 g + 1.7 g*W/mm", 0.04 + (1.7e-3 * 12) / 5],
    ["22 N*m", 22],
    ["5 mm^2", 5e-6],
    ["(5 mm)^2", 25e-6],
    ["45 %", 0.45],
    ["180 deg", Math.PI],
    ["1e-3 m", 0.001],
    ["1.5e3 um", 0.0015],
    ["2.", 2],
    ["max(1, 5, 3)", 5],
    ["min(W, A0)", 6.4],
    ["hypot(3, 4)", 5],
    ["abs(-3)", 3],
    ["sqrt(2)^2", 2.0000000000000004],
    ["acos(-1)", Math.PI],
    ["exp(0)", 1],
    ["teeth", undefined],
  ])("%s is %s", (text, expected) => {
    if (expected === undefined) expect(() => value(text)).toThrow(new RangeError(`no value for ${text}`));
    else expect(value(text)).toBeCloseTo(expected, 12);
  });
  test("a name given in the file has, though a unit has that name; a unit stands in only where there is none", () => {
    expect(value("2 * mm")).toBe(10);
    expect(value("2 mm")).toBe(0.002);
    expect(value("2 * um")).toBe(2e-6);
  });
});

describe("the names of an expression", () => {
  test("come once each, in order of first use, units among them where they stand alone", () => {
    expect(namesIn(parseExpression("teeth*P0/(2*pi) - T/2 + max(T, teeth*mm)"))).toEqual([
      "teeth",
      "P0",
      "pi",
      "T",
      "mm",
    ]);
    expect(namesIn(parseExpression("2 mm + 3 deg"))).toEqual([]);
  });
  test("with actual before them are names of their own", () => {
    expect(namesIn(parseExpression("actual W - W"))).toEqual(["actual W", "W"]);
  });
});

describe("an expression keeps where its parts stand", () => {
  test.each([
    ["  W + 2 mm", "W + 2 mm"],
    ["(W + 2 mm) * 3", "(W + 2 mm) * 3"],
    ["-max(W, T)", "-max(W, T)"],
    ["actual   W", "actual   W"],
    ["5 mm^2", "5 mm^2"],
    ["4 %", "4 %"],
  ])("%j from its first to its last sign", (text, whole) => {
    const { at, length } = parseExpression(text);
    expect(text.slice(at, at + length)).toBe(whole);
  });
  test("a bracketed part with its brackets", () => {
    const tree = parseExpression("2 * (W - 1 mm)") as Node & { b: Node };
    expect([tree.b.at, tree.b.length]).toEqual([4, 10]);
  });
});

describe("splits a text", () => {
  test.each([
    ["24.2", ["24.2"]],
    ["0.2..0.5", ["0.2", "..", "0.5"]],
    ["2..5", ["2", "..", "5"]],
    ["2.e3", ["2.e3"]],
    ["1e3", ["1e3"]],
    ["2e3mm", ["2", "e3mm"]],
    ["4±0.1", ["4", "±", "0.1"]],
    ["W_1*b2", ["W_1", "*", "b2"]],
    ["µm", ["µm"]],
  ])("%j into %j", (text, parts) => {
    expect(tokens(text).map((t) => t.text)).toEqual([...parts, ""]);
  });
});

const dimensions: Readonly<Record<string, Dimension>> = {
  W: [1, 0, 0, 0, 0],
  A0: [1, 0, 0, 0, 0],
  v: [1, 0, -1, 0, 0],
  load: [0, 1, 0, 0, 0],
  n: [0, 0, 0, 0, 0],
};
const dimension = (text: string) =>
  dimensionOf(parseExpression(text), (name) => (Object.hasOwn(dimensions, name) ? dimensions[name] : undefined));
describe("the dimension of an expression", () => {
  test.each<[string, Dimension]>([
    ["W + 2 mm", [1, 0, 0, 0, 0]],
    ["W*A0", [2, 0, 0, 0, 0]],
    ["W/A0", [0, 0, 0, 0, 0]],
    ["load*v^2/2", [2, 1, -2, 0, 0]],
    ["sqrt(W)", [0.5, 0, 0, 0, 0]],
    ["W^0.5 * W^-1.5", [-1, 0, 0, 0, 0]],
    ["W^(2)", [2, 0, 0, 0, 0]],
    ["2^n", [0, 0, 0, 0, 0]],
    ["max(0, W)", [1, 0, 0, 0, 0]],
    ["W - 0", [1, 0, 0, 0, 0]],
    ["0 + W", [1, 0, 0, 0, 0]],
    ["hypot(W, 3 mm)", [1, 0, 0, 0, 0]],
    ["abs(-v)", [1, 0, -1, 0, 0]],
    ["sin(W/A0 * 20 deg)", [0, 0, 0, 0, 0]],
    ["1.9 g*W/mm", [0, 1, 0, 0, 0]],
    ["3 J/m^2 - 2 N/m", [0, 1, -2, 0, 0]],
    ["5 mm^2", [2, 0, 0, 0, 0]],
    ["40 h + 0.1 h*W/mm", [0, 0, 1, 0, 0]],
  ])("%s is %j", (text, expected) => {
    expect(sameDimension(dimension(text), expected)).toBe(true);
  });

  // Dimensional homogeneity (Buckingham 1914): with the units of length, mass and time k times as small, every quantity's number grows
  // by its own powers of k. A check that needs none of our rules. [derived]
  test("says how its value grows when the base units shrink", () => {
    const numbers = fc.integer({ min: 1, max: 4 });
    const tree = trees({
      numbers,
      units: [""],
      names: Object.keys(dimensions),
      functions: ["max", "min", "hypot", "abs", "sqrt"],
    });
    const scale = fc.double({ min: 0.5, max: 3, noNaN: true });
    let compared = 0;
    fc.assert(
      fc.property(tree, fc.tuple(scale, scale, scale), (node, k) => {
        let d: Dimension;
        try {
          d = dimensionOf(node, (name) => dimensions[name]);
        } catch (e) {
          expect(e).toBeInstanceOf(NotationError);
          return;
        }
        const at = { W: 12, A0: 6.4, v: 0.8, load: 2.5, n: 1.25 } as Record<string, number>;
        const grown = (by: Dimension) => k[0] ** by[0] * k[1] ** by[1] * k[2] ** by[2];
        const before = evaluate(node, (name) => at[name]);
        const after = evaluate(node, (name) => at[name]! * grown(dimensions[name]!));
        if (!Number.isFinite(before) || Math.abs(before) < 1e-6 || Math.abs(before) > 1e6) return;
        // Differences that cancel leave rounding, which grows otherwise.
        if (Math.abs(after / before / grown(d) - 1) > 1e-6) expect(cancels(node, at)).toBe(true);
        if (!sameDimension(d, [0, 0, 0, 0, 0])) compared++;
      }),
      { seed: 24, numRuns: 4000 },
    );
    expect(compared).toBeGreaterThan(200);
  });
});
/** Whether some sum in it is a thousandth of its terms or less. */
function cancels(n: Node, at: Readonly<Record<string, number>>): boolean {
  if (n.op === "num" || n.op === "sym") return false;
  if (n.op === "neg") return cancels(n.a, at);
  if (n.op === "call") return n.args.some((a) => cancels(a, at));
  const v = (m: Node) => Math.abs(evaluate(m, (name) => at[name]));
  if ((n.op === "+" || n.op === "-") && v(n) < 1e-3 * v(n.a)) return true;
  return cancels(n.a, at) || cancels(n.b, at);
}

describe("is refused as an expression", () => {
  test.each(
    [
      said("", "^", "found the end, expected a number or a letter"),
      said("W +", "   ^", "found the end, expected a number or a letter"),
      said("W + * 2", "    ^", 'found "*", expected a number or a letter'),
      said("+2 mm", "^", 'found "+", expected a number or a letter', "Leave the plus sign out."),
      said("()", " ^", 'found ")", expected a number or a letter'),
      said("(W", "  ^", 'found the end, expected ")"'),
      said("W)", " ^", 'found ")", expected an operator'),
      said("W T", "  ^", 'found "T", expected an operator'),
      said("2 3", "  ^", 'found "3", expected an operator'),
      said("max(W T)", "      ^", 'found "T", expected "," or ")"'),
      said("max(W)", "^^^^^^", "found 1 argument to max(), expected 2 to 8"),
      said("sqrt(W, T)", "^^^^^^^^^^", "found 2 arguments to sqrt(), expected 1"),
      said("hypot(W, T, b)", "^^^^^^^^^^^^^^", "found 3 arguments to hypot(), expected 2"),
      said(
        "sqr(W)",
        "^^^",
        'found "sqr(...)", expected one of the functions max min hypot abs sqrt sin cos tan asin acos atan exp',
        'Did you mean "sqrt"?',
      ),
      said(
        "rin(W)",
        "^^^",
        'found "rin(...)", expected one of the functions max min hypot abs sqrt sin cos tan asin acos atan exp',
        'Did you mean "min"?',
      ),
      said(
        "teeth(W)",
        "^^^^^",
        'found "teeth(...)", expected one of the functions max min hypot abs sqrt sin cos tan asin acos atan exp',
        'A product is written with a star: "teeth * (W + 1 mm)".',
      ),
      said(
        "constructor(W)",
        "^^^^^^^^^^^",
        'found "constructor(...)", expected one of the functions max min hypot abs sqrt sin cos tan asin acos atan exp',
        'A product is written with a star: "constructor * (W + 1 mm)".',
      ),
      said(
        "1.2 W",
        "    ^",
        'found "W" right after a number, expected a unit',
        'A letter is multiplied with a star: "1.2 * W".',
      ),
      said(
        "2 A0",
        "  ^^",
        'found "A0" right after a number, expected a unit',
        'A letter is multiplied with a star: "2 * A0".',
      ),
      said(
        "2 max(W, T)",
        "  ^^^",
        'found "max" right after a number, expected a unit',
        'A product is written with a star: "2 * max(...)".',
      ),
      said(
        "2 actual W",
        "  ^^^^^^",
        'found "actual" right after a number, expected a unit',
        'A product is written with a star: "2 * actual W".',
      ),
      said(
        "2 gap",
        "  ^^^",
        'found "gap" right after a number, expected a unit',
        'Did you mean "GPa"? A name is multiplied with a star: "2 * gap".',
      ),
      said(
        "2 spool",
        "  ^^^^^",
        'found "spool" right after a number, expected a unit',
        'Units are mm, um, deg, N, g, s and the like. A name is multiplied with a star: "2 * spool".',
      ),
      said("2 MM", "  ^^", 'found "MM" right after a number, expected a unit', 'Did you mean "mm"?'),
      said("2 Mpa", "  ^^^", 'found "Mpa" right after a number, expected a unit', 'Did you mean "MPa"?'),
      said(
        "2 degs",
        "  ^^^^",
        'found "degs" right after a number, expected a unit',
        'Did you mean "deg"? A name is multiplied with a star: "2 * degs".',
      ),
      said(
        "5 mm2",
        "  ^^^",
        'found "mm2" right after a number, expected a unit',
        'Write the power of a unit as "mm^2".',
      ),
      said(
        "5 mm^x",
        "     ^",
        'found "x", expected a whole number from 1 to 9',
        'A power behind a unit is the unit\'s; to raise the number with it write "(2 mm)^n".',
      ),
      said(
        "5 mm^12",
        "     ^^",
        'found "12", expected a whole number from 1 to 9',
        'A power behind a unit is the unit\'s; to raise the number with it write "(2 mm)^n".',
      ),
      said("1e999 mm", "^^^^^", 'found "1e999", expected a finite number'),
      said("1e308 GPa", "^^^^^", 'found "1e308", expected a finite number'),
      said(
        "guess + 1",
        "^^^^^",
        'found "guess", expected a number or a letter',
        '"guess" stands at the end: "0.2..0.5 N guess".',
      ),
      said(
        "2 * sd",
        "    ^^",
        'found "sd", expected a number or a letter',
        'A scatter stands behind its number: "0.4 N per reel sd 15 %".',
      ),
      said(
        "4 +-0.1 mm",
        "  ^^",
        'found "+-", expected an operator, or "±"',
        'A tolerance is written "4.00 ±0.10 mm" or "4.00 +0.1/-0.2 mm".',
      ),
      said(
        "4 + / - 0.1 mm",
        "  ^^^^^",
        'found "+/-", expected an operator, or "±"',
        'A tolerance is written "4.00 ±0.10 mm" or "4.00 +0.1/-0.2 mm".',
      ),
    ].map(byText),
  )("%s", (text, message) => {
    expect(refusal(() => parseExpression(text), text)).toBe(message);
  });

  test.each([
    ["brackets", "(".repeat(65) + "1" + ")".repeat(65), 64, "("],
    ["signs", "-".repeat(66) + "1", 64, "-"],
    ["powers", `${"2^".repeat(70)}1`, 128, "2"],
    ["functions", `${"max(1, ".repeat(70)}1${")".repeat(70)}`, 445, "1"],
  ])("%s nested more than 64 deep", (_, text, at, found) => {
    const under = `${" ".repeat(at)}${"^".repeat(found.length)}`;
    const message = said(text, under, `found "${found}", expected a shorter expression`, "It is nested too deeply.");
    expect(refusal(() => parseExpression(text), text)).toBe(message);
  });
  test("what is nested 60 deep is read", () => {
    expect(value(`${"(".repeat(60)}1${")".repeat(60)}`)).toBe(1);
  });
  test("a text longer than any formula", () => {
    const text = `1${" + 1".repeat(600)}`;
    expect(refusal(() => parseExpression(text), text)).toBe(
      said(text, "^", "found 2401 characters, expected a quantity of at most 2000"),
    );
    expect(value(`1${" + 1".repeat(490)}`)).toBe(491);
  });

  test.each([
    ["4 − 1 mm", "  ^", "−", 'Write the minus sign as "-".'],
    ["4 × W", "  ^", "×", 'Write the multiplication sign as "*".'],
    ["4·W", " ^", "·", 'Write the multiplication sign as "*".'],
    ["W ÷ 2", "  ^", "÷", 'Write the division sign as "/".'],
    ["20°", "  ^", "°", 'Write degrees as "deg".'],
    ["4 Ω", "  ^", "Ω", 'Write ohms as "ohm".'],
    ["W²", " ^", "²", 'Write the square as "^2".'],
    ["W³", " ^", "³", 'Write the cube as "^3".'],
    ["0.2…0.5", "   ^", "…", 'Write a range as "0.2..0.5 N guess".'],
    ["≤ 3 mm", "^", "≤", "An unknown is written as a range: 0.2..0.5 N guess"],
    [".5 mm", "^", ".", "Write a nought before the point: 0.5"],
    ["= W", "^", "=", "A formula is written without its equals sign."],
  ])("a sign that is not the notation's: %s", (text, under, found, hint) => {
    expect(refusal(() => parseExpression(text), text)).toBe(
      said(text, under, `found "${found}", expected a number, a letter or an operator`, hint),
    );
  });
  test.each([
    ["4 mm; 5 mm", "    ^", ";"],
    ["4 $", "  ^", "$"],
    ["4 \u{1f600}", "  ^^", "\u{1f600}"],
    ["W & T", "  ^", "&"],
    ["\u00e4 + 1", "^", "\u00e4"],
  ])("a sign that is nobody's: %s", (text, under, found) => {
    expect(refusal(() => parseExpression(text), text)).toBe(
      said(text, under, `found "${found}", expected a number, a letter or an operator`),
    );
  });
});

describe("is refused for its dimension", () => {
  test.each(
    [
      said(
        "12 -0.1 mm",
        "^^^^^^^^^^",
        "found 12 -0.1 mm, expected a tolerance with both sides, or a difference with both units",
        'For a one-sided tolerance write "12 +0/-0.1 mm"; for a difference "12 mm - 0.1 mm".',
      ),
      said(
        "12 + 0.1 mm",
        "^^^^^^^^^^^",
        "found 12 +0.1 mm, expected a tolerance with both sides, or a sum with both units",
        'For a one-sided tolerance write "12 +0.1/-0 mm"; for a sum "12 mm + 0.1 mm".',
      ),
      said(
        "W + 0.45",
        "^^^^^^^^",
        "found a length plus a plain number, expected things of one kind",
        'Give 0.45 a unit: "0.45 mm".',
      ),
      said(
        "3 - 2*v",
        "^^^^^^^",
        "found a plain number minus a speed, expected things of one kind",
        'Give 3 a unit: "3 mm/s".',
      ),
      said("2 * (W + load)", "    ^^^^^^^^^^", "found a length plus a mass, expected things of one kind"),
      said("W*A0 - W", "^^^^^^^^", "found an area minus a length, expected things of one kind"),
      said(
        "max(W, 4)",
        "^^^^^^^^^",
        "found max() of a length beside a plain number, expected things of one kind",
        'Give 4 a unit: "4 mm".',
      ),
      said("min(W, 2 N)", "^^^^^^^^^^^", "found min() of a length beside a force, expected things of one kind"),
      said("sin(W)", "^^^^^^", "found sin() of a length, expected a plain number"),
      said("exp(-3 s)", "^^^^^^^^^", "found exp() of a time, expected a plain number"),
      said("W^A0", "  ^^", "found an exponent with a unit, expected a plain number"),
      said("2^W", "  ^", "found an exponent with a unit, expected a plain number"),
      said("W^n", "  ^", "found a length raised to something computed, expected a number as exponent"),
      said("W^(1/2)", "  ^^^^^", "found a length raised to something computed, expected a number as exponent"),
      said("W^10", "  ^^", "found a length raised to 10, expected an exponent from -9 to 9"),
      said("W^-1e9", "  ^^^^", "found a length raised to -1000000000, expected an exponent from -9 to 9"),
      said("W + gpa", "    ^^^", 'found "gpa", expected a letter of the tape, a let name or a unit'),
      said("constructor", "^^^^^^^^^^^", 'found "constructor", expected a letter of the tape, a let name or a unit'),
      said("actual gap", "^^^^^^^^^^", 'found "actual gap", expected a letter of the tape, a let name or a unit'),
    ].map(byText),
  )("%s", (text, message) => {
    expect(refusal(() => dimension(text), text)).toBe(message);
  });
});

test("no word of the notation can be a name of one's own", () => {
  expect([...reservedWords].sort()).toEqual(
    [
      "guess",
      "measured",
      "per",
      "sd",
      "actual",
      "max",
      "min",
      "hypot",
      "abs",
      "sqrt",
      "sin",
      "cos",
      "tan",
      "asin",
      "acos",
      "atan",
      "exp",
    ].sort(),
  );
});
