import { finished } from "@tapeworthy/core";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { NumberSigns } from "./cell.ts";
import { apart, dialectSteps, type Found, type NotFound, type Separator, type Wish } from "./dialect.ts";

const looked = (text: string, wish: Wish = {}): Found | NotFound => finished(dialectSteps(text.split("\n"), wish));
const found = (text: string, wish: Wish = {}): Found => {
  const of = looked(text, wish);
  if (!("dialect" in of)) throw new Error(of.found);
  return of;
};
const refused = (text: string, wish: Wish = {}): NotFound => {
  const of = looked(text, wish);
  if ("dialect" in of) throw new Error("read all the same");
  return of;
};
const many = (n: number, row: (i: number) => string): string => Array.from({ length: n }, (_, i) => row(i)).join("\n");

describe("the dialect of a table", () => {
  // Groups of three are shown by numbers above a thousand with places behind them: no other mark can be meant then.
  const ways: readonly (readonly [Separator, NumberSigns])[] = [
    [",", { decimal: ".", thousands: "" }],
    [",", { decimal: ".", thousands: "'" }],
    [";", { decimal: ",", thousands: "" }],
    [";", { decimal: ",", thousands: "." }],
    [";", { decimal: ".", thousands: "," }],
    ["\t", { decimal: ",", thousands: " " }],
    ["|", { decimal: ".", thousands: " " }],
    [" ", { decimal: ",", thousands: "" }],
    [" ", { decimal: ".", thousands: "," }],
  ];
  test("is the one it was written in, whatever stands in it", () => {
    // Two places: they can't be a group of three.
    const number = fc.integer({ min: 100_001, max: 99_999_999 }).filter((n) => n % 100 !== 0);
    const table = fc.array(fc.tuple(number, number), { minLength: 3, maxLength: 8 });
    fc.assert(
      fc.property(table, fc.constantFrom(...ways), (rows, [separator, signs]) => {
        const cell = (n: number): string => {
          const whole = `${Math.floor(n / 100)}`.replace(/\B(?=(\d{3})+$)/g, signs.thousands);
          return `${whole}${signs.decimal}${`${n % 100}`.padStart(2, "0")}`;
        };
        const lines = rows.map((row) => row.map(cell).join(separator));
        const { dialect, names, ambiguous, decimalUnseen } = found([`Zeit${separator}Kraft`, ...lines].join("\n"));
        expect(dialect).toMatchObject({ separator, ...signs, header: 1, units: 0, first: 2 });
        expect([names, ambiguous, decimalUnseen]).toEqual([["Zeit", "Kraft"], undefined, false]);
      }),
      { seed: 1, numRuns: 200 },
    );
  });
  test("puts header, units and first row where they stand, past what is above and between them", () => {
    const { dialect, names, units } = found("Rig;2\n\nt;pull\n\nms;cN\n\n0;1,5\n1;1,7\n");
    expect(dialect).toMatchObject({ header: 3, units: 5, first: 7 });
    expect([names, units]).toEqual([
      ["t", "pull"],
      ["ms", "cN"],
    ]);
  });
  test("has no header where numbers stand alone, and is less sure of itself", () => {
    const { dialect, names } = found("0;1.5\n1;1.7\n2;1.6\n");
    expect([dialect.header, names]).toEqual([0, ["column 1", "column 2"]]);
    expect(dialect.sure).toBeLessThan(found("t;F\n0;1.5\n1;1.7\n2;1.6\n").dialect.sure);
  });
  test.each(["#", "%", "//", "!"])(
    "takes what begins with %s for a comment, and finds the header behind it",
    (sign) => {
      const { dialect, names } = found(`${sign} rig 2\n${sign} t;F\n0;1.5\n${sign} bump\n1;1.7\n`);
      expect(dialect).toMatchObject({ comment: sign, header: 2, first: 3, sure: 1 });
      expect(names).toEqual(["t", "F"]);
    },
  );
  test("is surest where every line fits, and less so with each that does not", () => {
    const sure = [0, 2, 6].map(
      (n) => found(`t;F\n${many(20, (i) => (i < 20 - n ? `${i};1.5` : "pause"))}`).dialect.sure,
    );
    // 18 and 14 of 20 lines fit.
    expect(sure).toEqual([1, 0.9, 0.7]);
  });
  test("shows the cell whose mark could be either, unless the user says which it is", () => {
    const text = "t;F\n0;3\n1;2,250\n2;1,375\n";
    expect(found(text).ambiguous).toEqual({ line: 3, cell: "2,250" });
    expect(found(text, { decimal: "," }).ambiguous).toBeUndefined();
    expect(found(text, { decimal: ".", thousands: "," })).toMatchObject({ dialect: { thousands: "," } });
    // Three places of which one begins with 0, or four: they are no groups.
    expect(found("t;F\n0;0,250\n1;1,375\n").ambiguous).toBeUndefined();
    expect(found("t;F\n0;1,2500\n1;1,375\n").ambiguous).toBeUndefined();
  });
  test("tells what each column holds, and which has held nothing yet", () => {
    const { kinds, undecided } = found("at;F;state;none\n12:00:00;1.5;on;\n12:00:01;-;off;\n12:00:02;1.7;on;NaN\n");
    expect(kinds).toEqual(["clock", "number", "text", "number"]);
    expect(undecided).toEqual([false, false, false, true]);
    expect(found("card;F\n1;2\n2;3\n", { texts: ["card"] }).kinds).toEqual(["text", "number"]);
  });
  test("is looked for further down where the first lines hold no number", () => {
    const { dialect, names } = found(
      `${many(200, (i) => `note ${i} of nobody`).replace(/\d/g, "x")}\nt;F\n0;1.5\n1;2.5`,
    );
    expect([dialect.header, dialect.first, names]).toEqual([201, 202, ["t", "F"]]);
  });
  test("is what the user says, line by line", () => {
    const text = "a;b\n1;2\nc;d\n3;4\n5;6\n";
    expect(found(text, { first: 4 })).toMatchObject({ dialect: { header: 3, first: 4 }, names: ["c", "d"] });
    expect(found(text, { first: 4, header: 1 })).toMatchObject({ dialect: { header: 1, first: 4 }, names: ["a", "b"] });
    expect(found("a,b;c\n1,2;3\n4,5;6\n", { separator: "," })).toMatchObject({ dialect: { separator: "," } });
  });
});

describe("the line of names", () => {
  const head = (...lines: string[]) => {
    const { dialect, names, units } = found(`${lines.join("\n")}\n${many(9, (i) => `${i};${i}.5`)}\n`);
    return { header: dialect.header, units: dialect.units, names, of: units };
  };
  test("is none that is only ruled", () => {
    expect(head("t;F", "---;---")).toEqual({ header: 1, units: 0, names: ["t", "F"], of: ["", ""] });
    expect(head("t;F", "s;N", "===;===")).toEqual({ header: 1, units: 2, names: ["t", "F"], of: ["s", "N"] });
    expect(head("t;F", "", "-----", "")).toMatchObject({ header: 1, names: ["t", "F"] });
  });
  test("and that of units stand above a comment too", () =>
    expect(head("t;F", "s;N", "# go")).toEqual({ header: 1, units: 2, names: ["t", "F"], of: ["s", "N"] }));
  test("gives every column a name of its own, whatever is written twice", () => {
    for (const line of ["t;F;F;F (2)", "F (2);F;F;F", "F;F;F (2);F (2)", ";;;", "column 2;;;"]) {
      const { names } = found(`${line}\n${many(9, (i) => `${i};1;2;3`)}\n`, { header: 1 });
      expect(new Set(names).size, line).toBe(4);
    }
    expect(found(`t;F;F\n${many(9, (i) => `${i};1;2`)}\n`).names).toEqual(["t", "F", "F (2)"]);
  });
});
describe("a header's cell", () => {
  test.each([
    ["pull[N]", "pull", "N"],
    ["pull [ N ]", "pull", "N"],
    ["pull <cN>", "pull", "cN"],
    ["pull {cN}", "pull", "cN"],
    ["Kraft, N", "Kraft", "N"],
    ["T: degC", "T", "degC"],
    ["F_max_N", "F_max", "N"],
    // In square brackets stands a unit, even one that nobody knows; in round ones it may be a remark.
    ["pull [zork]", "pull", "zork"],
    ["pull (zork)", "pull (zork)", ""],
    // One letter that ends a word is no unit of time or length.
    ["run_h", "run_h", ""],
    ["[N]", "[N]", ""],
    ["", "", ""],
    // A unit may hold the sign that parts it from its name.
    ["v / mm/s", "v", "mm/s"],
    ["speed in mm/s", "speed", "mm/s"],
    ["speed_mm/s", "speed", "mm/s"],
    ["stress, N/mm^2", "stress", "N/mm^2"],
  ])('"%s" is "%s" in "%s"', (cell, name, unit) => {
    expect(apart(cell)).toEqual({ name, unit });
  });
  test("comes apart again, however it was put together", () => {
    const name = fc.constantFrom("pull", "Zeit 2", "F max", "edge (left)");
    const unit = fc.constantFrom("N", "cN", "ms", "%", "degC", "N*mm");
    const put = fc.constantFrom<(n: string, u: string) => string>(
      (n, u) => `${n} [${u}]`,
      (n, u) => `${n}(${u})`,
      (n, u) => `${n} / ${u}`,
      (n, u) => `${n}_${u}`,
      (n, u) => `${n} in ${u}`,
    );
    fc.assert(
      fc.property(name, unit, put, (n, u, together) => {
        expect(apart(together(n, u))).toEqual({ name: n, unit: u });
      }),
      { seed: 1, numRuns: 200 },
    );
  });
});

test("what is no table is refused with line, found, expected and the way out", () => {
  expect(refused("\n\nonly words\nand more\n\n")).toEqual({
    line: 3,
    column: 1,
    found: "no column of numbers in the first lines",
    expected: "rows of numbers, with a header over them",
    hint: "Is this the right file? If its numbers begin further down, say where: --first LINE.",
  });
  expect(refused("t;F\n0;1\n", { first: 9 })).toMatchObject({ line: 3, found: "3 lines" });
  expect(refused("\nF,x\n1,5,2,5\n1,6,2,7")).toMatchObject({
    line: 3,
    found: "4 whole numbers under 2 names",
    expected: "2 cells",
  });
});
