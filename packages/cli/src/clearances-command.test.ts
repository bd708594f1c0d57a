import { describe, expect, test } from "vitest";
import { exampleFolder, tapeworthy } from "./cli.fixture.ts";

describe("clearances of the example", () => {
  const { code, out } = tapeworthy(["clearances", exampleFolder]);
  test("ends with 0 and names every pair that is not meant to touch once", () => {
    expect(code).toBe(0);
    expect(out).not.toMatch(/undefined|NaN/);
    const lines = out.split("\n").filter((line) => /pocket \/ board {2}/.test(line));
    expect(lines).toHaveLength(2);
  });
  // The example keeps every gap it wants; the first of each unit has least to spare.
  test("has none that is too near, and the tightest pair leads", () => {
    expect(out).not.toContain("too near");
    expect(out).toMatch(/where\n {2}tape \/ side wall +0\.40 +0\.30/);
  });
  // What an overhead return costs and saves: head room against slots.
  test("says what the overhead return costs: head room, and what it saves: a slot at 12 and at 24 mm", () => {
    const [plover = "", dunlin = ""] = out.split("Dunlin");
    expect(plover).toContain("at 12 mm  24 mm wide, 2 slots; 5.7 mm over the tape");
    expect(plover).toContain("at 24 mm  39 mm wide, 3 slots");
    expect(dunlin).toContain("at 12 mm  15 mm wide, 1 slot; 30 mm over the tape");
    expect(dunlin).toContain("at 24 mm  27 mm wide, 2 slots; 30 mm over the tape");
  });
});
test("a body put into the tape's way is too near, with its place and tape", () => {
  const { out } = tapeworthy([
    "clearances",
    exampleFolder,
    "--unit",
    "dunlin",
    "--vary",
    "dunlin/bodies.board.box.4=10 mm",
  ]);
  expect(out).toMatch(/tape \/ board +−\d+ +0\.30 +\S+ +too near, /);
});
test("a unit that is not there is refused with the nearest name", () => {
  const { code, err } = tapeworthy(["clearances", exampleFolder, "--unit", "dunlim"]);
  expect(code).toBe(2);
  expect(err).toContain('Did you mean "dunlin"?');
});
