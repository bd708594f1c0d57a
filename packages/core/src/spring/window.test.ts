import { expect, test } from "vitest";
import { Leaf } from "./leaf.ts";
import { stripsAt, windowAmiss } from "./window.ts";

const window = { from: 6e-3, to: 24e-3, arm: 4e-3 };
test("each arm counts from 0.4 of its width inside the frame", () => {
  expect(stripsAt(4.3e-3, 24e-3, window)).toEqual({ count: 1, width: 24e-3 });
  expect(stripsAt(4.5e-3, 24e-3, window)).toEqual({ count: 2, width: 4e-3 });
  expect(stripsAt(25.5e-3, 24e-3, window)).toEqual({ count: 2, width: 4e-3 });
  expect(stripsAt(25.7e-3, 24e-3, window)).toEqual({ count: 1, width: 24e-3 });
  expect(stripsAt(15e-3, 24e-3, undefined)).toEqual({ count: 1, width: 24e-3 });
});
// Shell elements of large rotation: validation/independent/ccx/leaf3, tip down by 12.43284 mm. [derived]
test("a windowed leaf lies within 1.7 % of its shell model", () => {
  const leaf = new Leaf({ length: 30e-3, thickness: 0.15e-3, width: 24e-3, E: 185e9, nu: 0.3, window });
  const pressed = leaf.load({ y: -1 });
  expect(pressed.outcome === "solved" && Math.abs(pressed.tip.y / 12.43284e-3 + 1)).toBeLessThan(0.017);
});
test("a window that does not fit its leaf is refused, with the reason", () => {
  expect(windowAmiss(window, 30e-3, 24e-3)).toBeUndefined();
  expect(windowAmiss(window, 20e-3, 24e-3)).toBe(
    "the window runs from 0.006 m to 0.024 m, which is not within a leaf of 0.02 m",
  );
  expect(() => new Leaf({ length: 30e-3, thickness: 0.15e-3, width: 7e-3, E: 185e9, nu: 0.3, window })).toThrow(
    "two arms of 0.004 m do not fit a leaf 0.007 m wide",
  );
});
