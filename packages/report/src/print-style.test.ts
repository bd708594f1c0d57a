import fc from "fast-check";
import { expect, test } from "vitest";
import { cssString } from "./print-style.ts";

test("letters, digits and spaces stay; all else is written as its code point", () => {
  expect(cssString("Plover 2")).toBe('"Plover 2"');
  expect(cssString('a"}b')).toBe('"a\\22 \\7d b"');
});
test("no name ends the string, the rule or the style", () => {
  fc.assert(fc.property(fc.string({ unit: "binary" }), (name) => !/["'{}<>\n;]/.test(cssString(name).slice(1, -1))));
});
