import { describe, expect, test } from "vitest";
import { embossedTape, scene, sideCrossing, tapeWith, written } from "../scene.fixture.ts";
import { tapeBetween } from "./between.ts";
import { usualReel } from "./reel.ts";
import { nominalOf } from "./served.ts";

test("8 mm tape comes on 178 mm reels, wider tape on 330 mm, unless its file says otherwise", () => {
  expect(nominalOf(usualReel(8).diameter) * 1e3).toBeCloseTo(178, 9);
  expect(nominalOf(usualReel(12).diameter) * 1e3).toBeCloseTo(330, 9);
  expect(nominalOf(usualReel(12).hub) * 1e3).toBeCloseTo(100, 9);
  const own = tapeWith(12, { reel: { diameter: written("t/A", "A", "178 mm"), hub: written("t/N", "N", "60 mm") } });
  expect(nominalOf(own.reel.diameter) * 1e3).toBeCloseTo(178, 9);
});
test("two tapes of one width share a reel's figures", () => expect(usualReel(24)).toBe(usualReel(16)));

describe("between two tapes", () => {
  const measured = (W: number) =>
    tapeWith(W, {
      stiffness: written(`t${W}/EI`, "EI", `${W * 5} N*mm^2 measured`, "N*mm^2"),
      "set radius": written(`t${W}/R_s`, "R_s", "90 mm measured"),
    });
  test("what was measured on both lies between them", () => {
    const half = tapeBetween(measured(12), measured(24), 18, [16, 24]);
    expect(half.stiffness).toBeDefined();
    expect(half.setRadius).toBeDefined();
  });
  test("what was measured on one of them was not measured there", () => {
    for (const pair of [
      [measured(12), embossedTape(24)],
      [embossedTape(12), measured(24)],
    ] as const) {
      const half = tapeBetween(...pair, 18, [16, 24]);
      expect(half.stiffness).toBeUndefined();
      expect(half.setRadius).toBeUndefined();
    }
  });
  test("the reel's hub lies between theirs", () => {
    const hub = tapeBetween(embossedTape(8), embossedTape(12), 10, [8, 12]).reel.hub;
    expect(scene(sideCrossing(8), embossedTape(8)).tape.reel.hub).not.toBe(hub);
  });
});
