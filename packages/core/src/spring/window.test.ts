import { expect, test } from "vitest";
import { Leaf } from "./leaf.ts";
import { armsWithin, windowAmiss } from "./window.ts";

const window = { from: 6e-3, to: 24e-3, arm: 4e-3 };
test("each arm counts from 0.4 of its width inside the frame", () => {
  // 6 mm - 0.4 of 4 mm is 4.4 mm, 24 mm + 1.6 mm is 25.6 mm. [by hand]
  const within = (from: number, to: number) => armsWithin(from * 1e-3, to * 1e-3, window);
  expect(within(3, 4.3)).toEqual([1, 1]);
  expect(within(10, 20)).toEqual([0, 1]);
  expect(within(26, 30)).toEqual([0, 0]);
  expect(within(4, 5)[0]).toBeCloseTo(0.4, 12);
  expect(within(4, 5)[1]).toBe(1);
  expect(within(0, 30)[1] - within(0, 30)[0]).toBeCloseTo(21.2 / 30, 12);
  expect(armsWithin(0, 1, undefined)).toEqual([0, 0]);
});
// Shell elements of large rotation: validation/independent/ccx/leaf3, tip down by 12.43284 mm. [derived]
test("a windowed leaf lies within 1.7 % of its shell model", () => {
  const leaf = new Leaf({ length: 30e-3, thickness: 0.15e-3, width: 24e-3, E: 185e9, nu: 0.3, window });
  const pressed = leaf.load({ y: -1 });
  expect(pressed.outcome === "solved" && Math.abs(pressed.tip.y / 12.43284e-3 + 1)).toBeLessThan(0.017);
});
// 6 M/(2 w t^2) with M = P (L - s) where the arms begin, 4.4 mm from the clamp; at the clamp 6 P L/(b t^2) is less. [by hand]
test.each([10, 20, 37])("of %i elements, the arms' ends near the clamp bear the greatest stress", (elements) => {
  const shape = { length: 30e-3, thickness: 0.15e-3, width: 24e-3, E: 185e9, nu: 0, window, elements };
  const pressed = new Leaf(shape).load({ y: -0.01 });
  if (pressed.outcome !== "solved") throw new Error(pressed.because);
  expect(pressed.at * 1e3).toBeCloseTo(4.4, 9);
  expect(pressed.stress / ((6 * 0.01 * 25.6e-3) / (8e-3 * 0.15e-3 ** 2))).toBeCloseTo(1, 3);
});
test("a window between two nodes counts by its length, without a step as it grows", () => {
  const tip = (to: number) => {
    const shape = { length: 30e-3, thickness: 0.15e-3, width: 24e-3, E: 185e9, nu: 0, elements: 20 };
    const pressed = new Leaf({ ...shape, window: { ...window, to } }).load({ y: -0.01 });
    return pressed.outcome === "solved" ? -pressed.tip.y : Number.NaN;
  };
  const grown = [0, 1, 2, 3, 4, 5, 6, 7, 8].map((i) => tip(15e-3 + i * 0.1e-3));
  const steps = grown.slice(1).map((y, i) => y - grown[i]!);
  for (const step of steps) expect(step / steps[0]!).toBeGreaterThan(0.8);
  for (const step of steps) expect(step / steps[0]!).toBeLessThan(1.2);
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
