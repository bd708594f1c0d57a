import { expect, test } from "vitest";
import { Playhead } from "./playhead.ts";

test("who looks at it hears of every move, and of nothing else", () => {
  const head = new Playhead();
  let heard = 0;
  const quiet = head.subscribe(() => heard++);
  head.set(0.01);
  head.set(0.01);
  head.set(Number.NaN);
  expect([head.time(), heard]).toEqual([0.01, 1]);
  quiet();
  head.set(0.02);
  expect([head.time(), heard]).toEqual([0.02, 1]);
});
