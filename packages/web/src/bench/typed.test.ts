import { expect, test } from "vitest";
import { emptyCells, filledIn, numberTyped, readingsOf } from "./typed.ts";

test("a number is taken with a point or a comma, and with nothing else in it", () => {
  expect(["431", " 0,34 ", ".5", "−2"].map(numberTyped)).toEqual([431, 0.34, 0.5, -2]);
  expect(["", "4 31", "1.2.3", "1e5", "431 g"].map(numberTyped).every(Number.isNaN)).toBe(true);
});
test("only whole readings count, and a piece without one is no piece", () => {
  const cells = [
    [
      ["431", "92"],
      ["418", ""],
    ],
    [
      ["", ""],
      ["", ""],
    ],
    [
      ["440", "90"],
      ["", ""],
    ],
  ];
  expect(readingsOf(cells)).toEqual({ pieces: [[[431, 92]], [[440, 90]]], wrong: undefined });
});
test("what is typed and is no number is named", () => {
  expect(readingsOf([[["43l", "92"]]]).wrong).toBe("43l");
});
test("a new card has a cell for each number that its method asks for", () => {
  expect(emptyCells(3, 5, 2).flat(2)).toHaveLength(30);
});
test("every field with a number counts, in a reading that is whole or not; what is no number does not", () => {
  expect(filledIn([[["431", ""]], [["", "9O"]], [["1", "2,5"]]])).toBe(3);
});
