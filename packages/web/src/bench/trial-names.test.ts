import { expect, test } from "vitest";
import { nextTrial } from "./trial-names.ts";

test("a new trial takes the first number that no file has", () => {
  expect(nextTrial(new Map())).toBe("T-01");
  expect(
    nextTrial(
      new Map([
        ["bench/T-01.yaml", ""],
        ["bench/T-03.yaml", ""],
      ]),
    ),
  ).toBe("T-02");
});
