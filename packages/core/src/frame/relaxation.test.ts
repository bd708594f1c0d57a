import { describe, expect, test } from "vitest";
import { exponentOf, forceLeft } from "./relaxation.ts";

// Creep moduli at 1 h and 1000 h: PC UV grade 2200 and 1900 MPa, a conditioned polyamide 1400 and 930 MPa, data sheets. [read]
describe("two moduli give the exponent of", () => {
  test.each([
    ["PC", 2200, 1900, 0.021223],
    ["a conditioned polyamide", 1400, 930, 0.059215],
  ])("%s", (_, first, last, n) => {
    expect(exponentOf(first, last, 1000)).toBeCloseTo(n, 5);
    expect(forceLeft(n, 1000)).toBeCloseTo(last / first, 4);
  });
});
// 1000^-0.03 and 1000^-0.1. [derived]
test("printed plastic keeps 0.81 to 0.50 of its force for 1000 h", () => {
  expect(forceLeft(0.03, 1000)).toBeCloseTo(0.813, 3);
  expect(forceLeft(0.1, 1000)).toBeCloseTo(0.501, 3);
});
test("no time is refused", () => expect(() => forceLeft(0.05, 0)).toThrow("0 times the first reading"));
