import { describe, expect, test } from "vitest";
import { driven } from "../scene.fixture.ts";
import { checkClings, liftingCharge } from "./clings.ts";

const charge = (mg: number, l: number, w: number) =>
  (liftingCharge.value({
    e_0: 8.8541878e-12,
    m: mg * 1e-6,
    g: 9.80665,
    l_p: l * 1e-3,
    w_p: w * 1e-3,
  }) as number) * 1e6;
describe("a charge lifts a chip", () => {
  // Root of 2 by 8.854e-12 by 0.23e-6 by 9.80665 over 0.18e-6: 14.9 uC/m2, by hand; the chip's mass from memory. [derived]
  test("of 0.23 mg and 0.6 by 0.3 mm from 14.9 uC/m2 on", () => expect(charge(0.23, 0.6, 0.3)).toBeCloseTo(14.9, 1));
  test("twice as heavy by root two later", () => {
    expect(charge(2, 1, 1) / charge(1, 1, 1)).toBeCloseTo(Math.SQRT2, 12);
  });
});
describe("without a measured charge there is no verdict", () => {
  test("but what helps is said", () => {
    expect(checkClings.absent(driven.windingScene())).toMatch(/not measured: ionised air .* slow first peel/);
  });
  test("and with one it annoys and stops nothing", () => {
    expect(checkClings.absent(driven.sheetScene())).toBeUndefined();
    expect(checkClings.severity).toBe("N");
  });
});
