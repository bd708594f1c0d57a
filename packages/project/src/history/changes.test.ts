import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { changed, readChanges, takingBack, toJson } from "./changes.ts";
import { anySpot, anyText, changeAt } from "./text.fixture.ts";

test("a change taken back gives the same bytes, carriage returns among them", () => {
  fc.assert(
    fc.property(anyText, anySpot, (text, spot) => {
      const change = changeAt(text, spot);
      expect(changed(changed(text, change), takingBack(change, text))).toBe(text);
    }),
    { seed: 1, numRuns: 1000 },
  );
});
test("a change written as JSON and read again does the same", () => {
  fc.assert(
    fc.property(anyText, anySpot, (text, spot) => {
      const change = changeAt(text, spot);
      const again = readChanges(JSON.parse(JSON.stringify(toJson(change))), text.length);
      expect(typeof again === "string" ? again : changed(text, again)).toBe(changed(text, change));
    }),
    { seed: 2, numRuns: 1000 },
  );
});
describe("what is sent is refused", () => {
  test.each([
    ["changes that are no list", "x", "the changes are not a list"],
    ["nothing", undefined, "the changes are not a list"],
    ["a negative length", [-1, 4], "-1 is no length"],
    ["a length that is not whole", [1.5, 1.5], "1.5 is no length"],
    ["a length that is not finite", [Number.NaN], "null is no length"],
    ["a length as text", [["3", "x"]], '["3","x"] is no length'],
    ["an empty part", [[], 3], "[] is no length"],
    ["an inserted number", [[3, 4]], "an inserted line is not text"],
    ["an inserted line of two lines", [[3, "a\nb"]], "an inserted line holds a line break"],
    ["changes for a shorter text", [2], "the changes are for a text of 2 characters, this one has 3"],
    ["changes for a longer text", [2, [2, "x"]], "the changes are for a text of 4 characters, this one has 3"],
    ["lengths beyond all numbers", [2 ** 60], "1152921504606847000 is no length"],
  ])("%s", (_, json, reason) => expect(readChanges(json, 3)).toBe(reason));
});
test("parts of no length do no harm", () => {
  const changes = readChanges([0, [0], 1, [0, "x"], 0, 2, [0, ""]], 3);
  expect(typeof changes === "string" ? changes : changed("abc", changes)).toBe("axbc");
});
