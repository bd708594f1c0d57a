import { describe, expect, test } from "vitest";
import { eachOnce, faultOf, ProjectError, showError } from "./error.ts";

const error = (lineText: string, column: number, length: number, hint?: string, file = "units/left.yaml", line = 14) =>
  new ProjectError({ file, line, column, length }, lineText, "24.2 without a unit", "a length", hint);

describe("an error as text", () => {
  test("has its place, what was found and expected, the line with what is meant underlined, and the way out", () => {
    expect(showError(error("  width: 24.2", 10, 4, 'Write "24.2 mm", or "W + 0.2 mm" to follow the tape.'))).toBe(
      `units/left.yaml:14:10: found 24.2 without a unit, expected a length
14 |   width: 24.2
              ^^^^
Write "24.2 mm", or "W + 0.2 mm" to follow the tape.`,
    );
  });
  test("ends with the underline where there is no way out", () => {
    expect(showError(error("  width: 24.2", 10, 4))).toBe(
      `units/left.yaml:14:10: found 24.2 without a unit, expected a length
14 |   width: 24.2
              ^^^^`,
    );
  });
  test("underlines one sign at least, and never beyond the line", () => {
    expect(
      showError(error("", 1, 0))
        .split("\n")
        .slice(1),
    ).toEqual(["14 |", "     ^"]);
    expect(
      showError(error("abc", 2, 99))
        .split("\n")
        .slice(1),
    ).toEqual(["14 | abc", "      ^^"]);
  });
  test("keeps the underline below its text where the line holds tabs", () => {
    expect(
      showError(error("\twidth:\t24.2", 9, 4))
        .split("\n")
        .slice(1),
    ).toEqual(["14 |  width: 24.2", "             ^^^^"]);
  });
  test("lets nothing through that moves the cursor or turns the line round", () => {
    const nasty = "a\u001b[31m\u202eb\u0007\u2028c\ufeff";
    const text = showError(
      new ProjectError({ file: "a.yaml", line: 1, column: 1, length: 3 }, nasty, `"${nasty}"`, "b", nasty),
    );
    expect(text).toBe(
      [
        'a.yaml:1:1: found "a\ufffd[31m\ufffdb\ufffd\ufffdc\ufffd", expected b',
        "1 | a\ufffd[31m\ufffdb\ufffd\ufffdc\ufffd",
        "    ^^^",
        "a\ufffd[31m\ufffdb\ufffd\ufffdc\ufffd",
      ].join("\n"),
    );
  });
  const long = `${"a".repeat(150)}HERE${"b".repeat(150)}`;
  test("shows a long line around the place, its ends marked", () => {
    const [, line, under] = showError(error(long, 151, 4)).split("\n");
    expect(line).toBe(`14 | …${"a".repeat(40)}HERE${"b".repeat(56)}…`);
    expect(under).toBe(`${" ".repeat(46)}^^^^`);
    expect(line!.slice(46, 50)).toBe("HERE");
  });
  test("shows the beginning of a long line where the place is there", () => {
    const [, line, under] = showError(error(`HERE${"b".repeat(200)}`, 1, 4)).split("\n");
    expect(line).toBe(`14 | HERE${"b".repeat(96)}…`);
    expect(under).toBe("     ^^^^");
  });
  test("marks no end where the line ends within what is shown", () => {
    const [, line, under] = showError(error(`${"a".repeat(150)}HERE`, 151, 4)).split("\n");
    expect(line).toBe(`14 | …${"a".repeat(40)}HERE`);
    expect(under).toBe(`${" ".repeat(46)}^^^^`);
  });
});

test("an error is an Error with its sentence as message, for whoever throws it on", () => {
  expect(error("x", 1, 1)).toBeInstanceOf(Error);
  expect(error("x", 1, 1).message).toBe("found 24.2 without a unit, expected a length");
  expect(error("x", 1, 1).name).toBe("ProjectError");
});

describe("of several errors", () => {
  const at = (file: string, line: number, column: number, found: string, expected: string) =>
    new ProjectError({ file, line, column, length: 1 }, "", found, expected);
  test("those at one place that expect the same are one fault, whatever was found at each width", () => {
    const [narrow, wide] = [
      at("a.yaml", 1, 2, "3 m at W = 8 mm", "at most 2 m"),
      at("a.yaml", 1, 2, "4 m at W = 12 mm", "at most 2 m"),
    ];
    expect(faultOf(narrow)).toBe(faultOf(wide));
    expect(eachOnce([narrow, wide])).toEqual([narrow]);
  });
  test("those that differ in file, line, column or what they expect are all kept", () => {
    const all = [
      at("a.yaml", 1, 2, "x", "y"),
      at("b.yaml", 1, 2, "x", "y"),
      at("a.yaml", 2, 2, "x", "y"),
      at("a.yaml", 1, 3, "x", "y"),
      at("a.yaml", 1, 2, "x", "z"),
    ];
    expect(eachOnce(all)).toHaveLength(5);
  });
  test("the order is that of files, lines and columns, and at one place that of their coming", () => {
    const all = [
      at("b.yaml", 1, 1, "f", "y"),
      at("a.yaml", 10, 1, "e", "y"),
      at("a.yaml", 9, 8, "d", "y"),
      at("a.yaml", 9, 7, "b", "y"),
      at("a.yaml", 9, 7, "c", "z"),
    ];
    expect(eachOnce(all).map((e) => e.found)).toEqual(["b", "c", "d", "e", "f"]);
  });
});
