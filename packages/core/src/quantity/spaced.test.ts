import { expect, test } from "vitest";
import { spaced } from "./spaced.ts";

test("a space stands before every three digits and nowhere else", () => {
  expect([0, 7, 999, 1000, 29_956, 149_786, 1e6, 1.25e10].map(spaced)).toEqual([
    "0",
    "7",
    "999",
    "1 000",
    "29 956",
    "149 786",
    "1 000 000",
    "12 500 000 000",
  ]);
});
test("what is no whole number is rounded first", () => {
  expect(spaced(999.5)).toBe("1 000");
  expect(spaced(-1234.4)).toBe("-1 234");
});
