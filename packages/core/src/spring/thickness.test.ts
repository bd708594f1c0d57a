import { expect, test } from "vitest";
import { outside } from "../scene.fixture.ts";
import { forceSwing } from "./thickness.ts";

// +-0.005 of 0.15 mm is 10 % of the force, 0.010 is 21 %: by hand. [derived]
test("thickness swings the force by 10 % in class C and 21 % in class A", () => {
  expect(forceSwing.value({ d: 0.005, t: 0.15 })).toBeCloseTo(0.1034, 4);
  expect(forceSwing.value({ d: 0.01, t: 0.15 })).toBeCloseTo(0.2136, 4);
});
test("strip thicker than the class was read for is outside the range", () => {
  expect(outside(forceSwing, { d: 0.008e-3, t: 0.2e-3 })).toEqual(["t"]);
  expect(outside(forceSwing, { d: 0.008e-3, t: 0.15e-3 })).toEqual([]);
});
