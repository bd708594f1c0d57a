import { expect, test } from "vitest";
import { noLength, one } from "./bound.ts";
import { centreOf } from "./given.ts";

test("bounds by definition neither scatter nor are guessed", () => {
  for (const bound of [noLength, one]) {
    expect(bound.scatters).toEqual([]);
    expect(bound.unknown).toBeUndefined();
    expect(bound.letter).toBe("d");
  }
  expect(centreOf(noLength, () => undefined)).toBe(0);
  expect(noLength.unit).toBe("m");
  expect(centreOf(one, () => undefined)).toBe(1);
  expect(one.unit).toBe("1");
});
