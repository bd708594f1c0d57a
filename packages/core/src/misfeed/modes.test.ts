import { expect, test } from "vitest";
import { checks } from "../checks.ts";
import { modes } from "./modes.ts";
import { checkMiss } from "./pick-miss.ts";

test("every mode rests on checks of the register, or on one index at the pick", () => {
  const known = new Set([...checks, checkMiss].map((c) => c.id));
  for (const { id, checks: mine } of modes)
    expect(
      mine.filter((c) => !known.has(c)),
      id,
    ).toEqual([]);
});
test("no check makes two modes, so that none is counted twice", () => {
  const all = modes.flatMap((m) => m.checks);
  expect(new Set(all).size).toBe(all.length);
});
test("no two modes have one id or one title", () => {
  expect(new Set(modes.map((m) => m.id)).size).toBe(modes.length);
  expect(new Set(modes.map((m) => m.title)).size).toBe(modes.length);
});
