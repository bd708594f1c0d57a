import { expect, test } from "vitest";
import { type Frame, leastOver, type Motion } from "./moving.ts";

const frame = (more: Partial<Frame>): Frame => ({
  x: 0,
  z: 0,
  cos: 1,
  sin: 0,
  speed: 0,
  acceleration: 0,
  turn: 0,
  swing: 0,
  ...more,
});
/** Along x at speed 1. */
const passing: Motion = { frame: (t) => frame({ x: t, speed: 1 }), unsteady: 1 };
/** Along x at speed 1, turning by one radian per unit. */
const rolling: Motion = {
  frame: (t) => frame({ x: t, cos: Math.cos(t), sin: Math.sin(t), speed: 1, turn: 1 }),
  unsteady: 1,
};

// A point that passes another, a square that passes through a post, a stick that rolls: by hand. [derived]
test("a point that passes another is nearest abreast of it", () => {
  const least = leastOver([0, 0], passing, -3, 7, [2, 5], Number.POSITIVE_INFINITY)!;
  expect(least.d).toBeCloseTo(5, 7);
  expect(least.t).toBeCloseTo(2, 3);
});
test("a square that passes through a thin post is deepest when the post stands in its middle", () => {
  const square = [-1, -1, 1, -1, 1, 1, -1, 1];
  const least = leastOver(square, passing, -4, 4, [0.5, -9, 0.5, 9], Number.POSITIVE_INFINITY)!;
  expect(least.d).toBeCloseTo(-1, 7);
  expect(least.t).toBeCloseTo(0.5, 7);
});
test("a stick that rolls like a wheel's spoke touches the ground as often as it comes round, not just where it began", () => {
  // Its tip runs a cycloid: height -cos t with the hub at 0, so that it is 1 above the ground at z = -2 whenever it points down.
  const spoke = [0, 0, 0, -1];
  const least = leastOver(spoke, rolling, 1, 7, [-20, -2, 20, -2], Number.POSITIVE_INFINITY)!;
  expect(least.d).toBeCloseTo(1, 7);
  expect(least.t).toBeCloseTo(2 * Math.PI, 3);
});
test("nothing nearer than asked for is no least", () => {
  expect(leastOver([0, 0], passing, -3, 7, [2, 5], 5)).toBeUndefined();
  expect(leastOver([0, 0], passing, -3, 7, [2, 5], 5.001)!.d).toBeCloseTo(5, 7);
});
test("a motion that stands still has the distance it has", () => {
  expect(leastOver([0, 0], passing, 2, 2, [2, 5], Number.POSITIVE_INFINITY)).toEqual({ d: 5, t: 2 });
});
