import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, punchedTape, scene, sideCrossing, tapeWith, written } from "../scene.fixture.ts";
import { noPockets, pocketDrop, pocketLength } from "./pocket.ts";

// Nominal pockets of package-materials sheets [read], walls 0.2 mm and carrier 0.3 mm: K0 + wall - T, by hand. [derived]
describe("a pocket hangs below the tape's underside", () => {
  test.each([
    ["SOIC-16 wide", 2.7, 2.6],
    ["SOT-223", 1.9, 1.8],
    ["TO-263", 5.0, 4.9],
  ])("%s, %f mm deep: by %f mm", (_, K_0, drop) => {
    expect(pocketDrop.value({ K_0: K_0 * 1e-3, t_w: 0.2e-3, T: 0.3e-3 }) * 1e3).toBeCloseTo(drop, 9);
  });
});
test("a pocket of 10.75 mm with walls of 0.2 mm is 11.15 mm long outside", () => {
  expect(pocketLength.value({ A_0: 10.75e-3, t_w: 0.2e-3 }) * 1e3).toBeCloseTo(11.15, 9);
});
test("with walls as thick as the carrier the drop is the pocket's depth", () => {
  const length = fc.double({ min: 1e-4, max: 0.02, noNaN: true });
  fc.assert(
    fc.property(length, length, (K_0, T) => {
      expect(pocketDrop.value({ K_0, t_w: T, T })).toBeCloseTo(K_0, 15);
    }),
    { seed: 161, numRuns: 100 },
  );
});
describe("in a scene", () => {
  test("walls of the tape's own count", () => {
    const one = scene(
      sideCrossing(12),
      tapeWith(12, { T: written("t/T", "T", "0.30 mm"), wall: written("t/wall", "t_w", "0.20 mm") }),
    );
    expect(nominal(one, pocketDrop) * 1e3).toBeCloseTo(2.0, 9);
    expect(nominal(one, pocketLength) * 1e3).toBeCloseTo(6.8, 9);
  });
  test("punched tape has no pocket below its underside", () => {
    expect(pocketDrop.reads(scene(sideCrossing(8), punchedTape()))).toBeUndefined();
    expect(noPockets("punched")).toBe("punched tape has no pockets below its underside");
    expect(noPockets("embossed")).toBeUndefined();
    expect(noPockets("pressed")).toBe("pressed tape has no pockets below its underside");
    expect(nominal(scene(sideCrossing(8), embossedTape(8)), pocketDrop)).toBeGreaterThan(0);
  });
  // A window of 1.9 mm in board has no walls of its own. [derived]
  test("a pocket in board is no longer outside than inside", () => {
    expect(nominal(scene(sideCrossing(8), punchedTape()), pocketLength) * 1e3).toBeCloseTo(1.9, 9);
    const pressed = tapeWith(8, { K0: written("t/K0", "K0", "0.3 mm") }, "pressed");
    expect(nominal(scene(sideCrossing(8), pressed), pocketLength) * 1e3).toBeCloseTo(1.9, 9);
  });
});
