import { expect, test } from "vitest";
import { isTyped, typedFrom, typedKey } from "./keep-typed.ts";
import { emptyCells } from "./typed.ts";

const blank = emptyCells(2, 1, 2);
const sheet = { cells: [[["431", ""]], [["", "9O"]]], settings: { v: "20" } };

test("what was typed comes back as it was typed, whether it is a number or not", () => {
  expect(typedFrom(JSON.stringify(sheet), blank)).toEqual(sheet);
});
test("what was typed into a card with other fields is left where it is", () => {
  expect(typedFrom(JSON.stringify(sheet), emptyCells(2, 1, 3))).toBeUndefined();
  expect(typedFrom(JSON.stringify(sheet), emptyCells(3, 1, 2))).toBeUndefined();
});
test.each([
  null,
  "",
  "{",
  "7",
  "[]",
  '{"cells":[[["1",2]],[["",""]]],"settings":{}}',
  '{"cells":[[["",""]],[["",""]]]}',
])("%s is no sheet of readings", (text) => {
  expect(typedFrom(text, blank)).toBeUndefined();
});
test("a setting alone counts as typed, an empty sheet does not", () => {
  expect(isTyped({ cells: blank, settings: {} })).toBe(false);
  expect(isTyped({ cells: blank, settings: { v: "" } })).toBe(false);
  expect(isTyped({ cells: blank, settings: { v: "20" } })).toBe(true);
});
test("no two projects, questions or trials share a place", () => {
  const keys = [
    typedKey("a", "b", "T-01"),
    typedKey("a b", "", "T-01"),
    typedKey("a", "b", "T-02"),
    typedKey("a", "b T-0", "1"),
  ];
  expect(new Set(keys).size).toBe(4);
});
