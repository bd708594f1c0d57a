import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { dearestFirst, patienceOf } from "./dearest-first.mjs";
import { root } from "./setup.mjs";

test("patience is what stands behind a test, in whatever lines, or beside its name, and no other number", () => {
  expect(patienceOf('test("a", () => {\n  expect(1).toBe(1);\n}, 120_000);\n')).toBe(120_000);
  expect(patienceOf('test("a", () => expect(b()).toBe(1), 60_000);')).toBe(60_000);
  expect(patienceOf('test.each([1])(\n  "%d",\n  (n) => {\n    use(n);\n  },\n  180_000,\n);\n')).toBe(180_000);
  expect(patienceOf('test("a", { timeout: 90_000 }, () => {});\nbeforeAll(() => {}, 1_000);\n')).toBe(91_000);
  expect(patienceOf('const size = "7".repeat(1_500_000);\nlisten(20_000);\nexpect(f(a, 30_000)).toBe(0);\n')).toBe(0);
});
test("files of more patience come first, the others stay in their order", () => {
  const files = ["b 0", "c 0", "a 9", "d 3", "e 0"];
  expect(dearestFirst(files, (file) => Number(file.split(" ")[1]))).toEqual(["a 9", "d 3", "b 0", "c 0", "e 0"]);
});
test("the page's tests, which take minutes, have more patience than those of a parser", () => {
  const of = (/** @type {string} */ path) => patienceOf(readFileSync(join(root, path), "utf8"));
  expect(of("packages/web/src/page.test.ts")).toBeGreaterThan(1_000_000);
  expect(of("packages/core/src/quantity/notation.test.ts")).toBe(0);
});
