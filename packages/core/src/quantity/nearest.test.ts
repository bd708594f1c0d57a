import { expect, test } from "vitest";
import { didYouMean, nearest } from "./nearest.ts";

test.each([
  ["preloda", ["preload", "radius"], "preload"],
  ["Preload", ["preload", "radius"], "preload"],
  ["prelod", ["preload", "radius"], "preload"],
  ["radius", ["preload", "radius"], "radius"],
  ["KO", ["A0", "K0", "B0"], "K0"],
  ["MM", ["mm", "um"], "mm"],
  ["w", ["T", "W"], "W"],
])("%s out of %j was meant to be %s", (word, list, meant) => {
  expect(nearest(word, list)).toBe(meant);
  expect(didYouMean(word, list)).toBe(`Did you mean "${meant}"?`);
});

test.each([
  ["roller", ["preload", "radius"]],
  ["x", ["m", "s", "g"]],
  ["", ["a", "b"]],
  ["inch", ["mm", "um", "min", "cm"]],
  ["a".repeat(80), ["a".repeat(79)]],
  ["preload", []],
])("%s out of %j was meant to be none of them", (word, list) => {
  expect(nearest(word, list)).toBeUndefined();
  expect(didYouMean(word, list)).toBeUndefined();
});

test("of two that are equally near the first is taken", () => {
  expect(nearest("gop", ["gap", "top"])).toBe("gap");
});
