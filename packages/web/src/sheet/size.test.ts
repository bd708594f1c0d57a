import { expect, test } from "vitest";
import { sizeOf } from "./size.ts";

test("with usual letters a drawing has the room there is, in whole pixels", () => {
  expect(sizeOf(900.6, 500.2, 16)).toEqual({ width: 900, height: 500, zoom: 1 });
});
test("letters twice as large make the drawing twice as large, on half the room", () => {
  expect(sizeOf(900, 500, 32)).toEqual({ width: 450, height: 250, zoom: 2 });
});
test("no letters are so large that a drawing has no room, and none so small that it shrinks", () => {
  expect(sizeOf(480, 300, 32)).toEqual({ width: 320, height: 200, zoom: 1.5 });
  expect(sizeOf(200, 300, 32).zoom).toBe(1);
  expect(sizeOf(900, 500, 10).zoom).toBe(1);
});
