import { expect, test } from "vitest";
import { shearOverBending } from "./shear.ts";

// 3 EI/(kappa G A l^2) of a rectangle, by hand: 0.81 (h/l)^2 at 5/6 and 0.35. [derived]
test("shear adds 1.3 % to a cantilever 8 heights long, 9 % to one of 3", () => {
  expect(shearOverBending(1, 8, 0.35)).toBeCloseTo(0.01266, 5);
  expect(shearOverBending(1, 3, 0.35)).toBeCloseTo(0.09, 4);
});
test("a cantilever without height or length is refused", () => {
  expect(() => shearOverBending(0, 3, 0.35)).toThrow("0 m high and 3 m long");
  expect(() => shearOverBending(1, 0, 0.35)).toThrow("1 m high and 0 m long");
});
