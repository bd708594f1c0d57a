import { expect, test } from "vitest";
import { paintFor, wrapped } from "./paint.ts";

test("colour appears on a terminal only, and never where NO_COLOR is set", () => {
  expect(paintFor({ isTTY: true }, {}).stops("x")).toBe("\u001b[31mx\u001b[39m");
  expect(paintFor({}, {}).stops("x")).toBe("x");
  expect(paintFor({ isTTY: true }, { NO_COLOR: "1" }).stops("x")).toBe("x");
  expect(paintFor({ isTTY: true }, { TERM: "dumb" }).stops("x")).toBe("x");
});
test("no wrapped line is longer than the width unless one word is", () => {
  const text = "one two three four five six seven".repeat(3);
  for (const line of wrapped(text, 20, "  ").split("\n")) expect(line.length).toBeLessThanOrEqual(22);
  expect(wrapped("a".repeat(30), 10)).toBe("a".repeat(30));
});
