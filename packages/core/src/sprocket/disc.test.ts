import { describe, expect, test } from "vitest";
import {
  embossedTape,
  nominal,
  punchedTape,
  scene,
  sideCrossing,
  tapeWith,
  withBodies,
  written,
} from "../scene.fixture.ts";
import { rowOf } from "../tape/catalogue.ts";
import type { EmbossedRow } from "../tape/figures/embossed.ts";
import { checkDisc, discReach, pocketSide } from "./disc.ts";

const mm = 1e-3;
const given = (letter: string, text: string) => ({
  [letter]: written(`own/${letter}`, letter, text, "mm", {}, "reel"),
});
const letters = (E1: string, F: string, B1: string) =>
  tapeWith(12, { ...given("E1", E1), ...given("F", F), ...given("B1", B1) });

// EIA-481-D, tables of the embossed tape: E1 1.75; F 3.5, 5.5, 7.5, 11.5; B1 at most 4.35, 8.2, 12.1, 20.1 mm. [read] 3.075 = 1.75 + 3.5 - 4.35/2. [derived]
test.each([
  [8, "3.5 mm", "4.35 mm", 3.075],
  [12, "5.5 mm", "8.2 mm", 3.15],
  [16, "7.5 mm", "12.1 mm", 3.2],
  [24, "11.5 mm", "20.1 mm", 3.2],
])("on %s mm tape the widest pocket begins 3.1 to 3.2 mm from the edge", (_, F, B1, expected) => {
  expect(nominal(scene(withBodies(), letters("1.75 mm", F, B1)), pocketSide) / mm).toBeCloseTo(expected, 9);
});
test("the catalogue's rows say the same", () => {
  const side = (width: number) => {
    const { E1, F, B1 } = rowOf("embossed", width) as EmbossedRow;
    return pocketSide.value({ E_1: E1.value, F: F.value, B_1: B1.value });
  };
  for (const [width, expected] of [
    [8, 3.075],
    [12, 3.15],
    [16, 3.2],
    [24, 3.2],
  ] as const)
    expect(side(width)).toBeCloseTo(expected, 9);
});

describe("the check", () => {
  const one = (tape = letters("1.75 mm", "5.5 mm", "8.2 mm")) => scene(withBodies(), tape);
  test("needs the disc's far face and the gap wanted by default", () => {
    // Disc to 2.2 mm, gap 0.30 mm.
    expect(nominal(one(), discReach) / mm).toBeCloseTo(2.5, 9);
  });
  test("takes a gap of its own where the file gives one for the disc", () => {
    const unit = {
      ...withBodies(),
      clearances: { ...withBodies().clearances, "tape pocket / disc": written("gaps/disc", "g", "0.7 mm") },
    };
    expect(nominal(scene(unit, embossedTape(12)), discReach) / mm).toBeCloseTo(2.9, 9);
  });
  test("follows the served tape's letters, not those the unit is built for", () => {
    expect(nominal(one(letters("1.85 mm", "5.6 mm", "6 mm")), pocketSide) / mm).toBeCloseTo(4.45, 9);
  });
  test("is not applicable without pockets, wheel or disc, with the reason", () => {
    expect(checkDisc.absent(one())).toBeUndefined();
    expect(checkDisc.absent(scene(withBodies(), punchedTape()))).toBe(
      "punched tape has no pockets below its underside",
    );
    expect(checkDisc.absent(scene(sideCrossing(12), embossedTape(12)))).toBe(
      "the unit file does not say how wide the wheel's disc is",
    );
    const { sprocket: _, ...without } = withBodies();
    expect(checkDisc.absent(scene(without, embossedTape(12)))).toBe("the unit has no sprocket");
  });
});
