import { describe, expect, test } from "vitest";
import { embossedTape, nominal, scene, sideCrossing, withBends, withGears } from "../scene.fixture.ts";
import { checkJam, land, tear } from "./jam.ts";

// A moving mass of 10 kg at 90.1 mm/s holds 40.6 mJ; 0.48 of it against 2 N tears 9.8 mm. [An independent re-derivation, C15: 2 to 10 mm, derived]
test("the nominal drive tears a weak hole by 10 mm", () =>
  expect(tear.value({ e: 0.481, J: 1e-5, N: 1000, v: 0.0901, r_p: 1, F_hole: 2 })).toBeCloseTo(9.77e-3, 4));
test("twice the speed tears four times as far, twice the hole half as far", () => {
  const x = { e: 0.5, J: 1e-6, N: 40, v: 0.08, r_p: 15e-3, F_hole: 2 };
  expect(tear.value({ ...x, v: 0.16 }) / tear.value(x)).toBeCloseTo(4, 12);
  expect(tear.value({ ...x, F_hole: 4 }) / tear.value(x)).toBeCloseTo(0.5, 12);
});
describe("in a scene", () => {
  const driven = scene(withGears(8), embossedTape(8));
  test("is held against the land between two holes, 4 less 1.5 mm", () => {
    expect(nominal(driven, land) * 1e3).toBeCloseTo(2.5, 1);
    expect(nominal(driven, tear)).toBeGreaterThan(0);
  });
  test("is not applicable without a sprocket, a feed drive or the wheel of its worm, with the reason", () => {
    expect(checkJam.absent(driven)).toBeUndefined();
    expect(checkJam.absent(scene(sideCrossing(12), embossedTape(12)))).toBe("the unit has no feed drive");
    expect(checkJam.absent(scene(withBends(16), embossedTape(16)))).toBe("the unit has no sprocket");
    const { "wheel teeth": _, ...bare } = driven.unit["feed drive"]!;
    expect(checkJam.absent(scene({ ...driven.unit, "feed drive": bare }, driven.tape))).toBe(
      "the feed drive has a worm, and the teeth of its wheel are not given",
    );
  });
});
