import fc from "fast-check";
import { expect, test } from "vitest";
import { difference } from "./difference.ts";

const applied = (a: string, { from, to, insert }: ReturnType<typeof difference>): string =>
  a.slice(0, from) + insert + a.slice(to);

test("the one stretch in which two texts differ turns the one into the other", () => {
  const text = fc.string({ unit: fc.constantFrom("a", "b", "\n"), maxLength: 12 });
  fc.assert(
    fc.property(text, text, (a, b) => {
      expect(applied(a, difference(a, b))).toBe(b);
    }),
  );
});
test("it is as short as it can be at both ends", () => {
  expect(difference("one two three", "one 2 three")).toEqual({ from: 4, to: 7, insert: "2" });
  expect(difference("same", "same")).toEqual({ from: 4, to: 4, insert: "" });
});
