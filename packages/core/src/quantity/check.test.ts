import { expect, test } from "vitest";
import type { Scene } from "../scene.ts";
import { noLength, one } from "./bound.ts";
import { chosen, stations } from "./check.ts";

test("the stations go along the tape from the entry to the supply", () => {
  expect(Object.values(stations)).toEqual([
    "entry",
    "groove",
    "hold-down",
    "peel",
    "pick",
    "sprocket",
    "nip",
    "drive",
    "supply",
  ]);
});

test("a scene chooses the quantity a check is held against, or has none", () => {
  const scene = { requirement: { allowPairs: 0.02 } } as Scene;
  expect(chosen(one, scene)).toBe(one);
  expect(chosen((s: Scene) => (s.requirement.allowPairs > 0 ? noLength : undefined), scene)).toBe(noLength);
  expect(chosen(() => undefined, scene)).toBeUndefined();
  expect(chosen(undefined, scene)).toBeUndefined();
});
