import { describe, expect, test } from "vitest";
import {
  embossedTape,
  heldByLeaf,
  heldByRib,
  nominal,
  scene,
  sideCrossing,
  withBends,
  written,
} from "../scene.fixture.ts";
import { checkSkip, flankSlope, highestOverlap, rise } from "./skip.ts";

const pi = Math.PI;
// 16.23 cos(7.5 deg) - 15.13. [derived]
test("with tips 1.1 mm over the underside the highest of 24 teeth is never below 0.961 mm", () =>
  expect(highestOverlap.value({ r_t: 16.23, z: 24, alpha: 0, r_b: 15.13, pi })).toBeCloseTo(0.9611, 3));
test("round a wheel a tooth always stands upright", () =>
  expect(highestOverlap.value({ r_t: 16.23, z: 24, alpha: 0.5, r_b: 15.13, pi })).toBeCloseTo(1.1, 9));
test("fewer teeth leave a deeper valley between two of them", () =>
  expect(highestOverlap.value({ r_t: 6, z: 8, alpha: 0, r_b: 5, pi })).toBeLessThan(
    highestOverlap.value({ r_t: 6, z: 16, alpha: 0, r_b: 5, pi }),
  ));

describe("in a scene", () => {
  const leaf = scene(heldByLeaf(12), embossedTape(12));
  test("a leaf stronger than the wedge of the flank leaves the tape down", () => {
    const held = leaf.unit["hold-down"]!;
    const with_ = (preload: string) => {
      const s = scene(
        { ...leaf.unit, "hold-down": { ...held, preload: written("preload", "F_0", preload, "N") } },
        leaf.tape,
      );
      return nominal(s, rise(s));
    };
    // 0.6 N of pull on a flank of some 27 deg push up with 0.3 N.
    expect(with_("3 N")).toBeCloseTo(with_("2 N"), 12);
    expect(with_("0.01 N")).toBeGreaterThan(with_("2 N"));
  });
  test("a rib is not pushed up; without a hold-down the lips alone stop the tape", () => {
    const rib = scene(heldByRib(24), embossedTape(24));
    const none = scene(sideCrossing(12), embossedTape(12));
    expect(rise(rib).id).toBe("hold.lift-under-rib");
    expect(rise(none).id).toBe("sprocket.rise-without-hold-down");
    expect(nominal(none, rise(none))).toBeGreaterThan(nominal(none, none.requirement.assume["rest bow"]));
  });
  // acos(15.13/16.23) = 21.2 deg. [derived]
  test("a pushing flank can lean as far as its tip does where it comes in", () => {
    expect((flankSlope.value({ phi: 0, r_b: 15.13, r_t: 16.23 }) * 180) / Math.PI).toBeCloseTo(21.2, 1);
    expect(flankSlope.value({ phi: 0.3, r_b: 15, r_t: 14 })).toBeCloseTo(0.3, 12);
    const { tooth } = leaf.unit.sprocket!;
    expect(nominal(leaf, flankSlope)).toBeGreaterThan(
      nominal(leaf, tooth.flank ?? leaf.requirement.assume["tooth flank"]),
    );
  });
  test("is not applicable without a sprocket", () =>
    expect(checkSkip.absent(scene(withBends(16), embossedTape(16)))).toBe("the unit has no sprocket"));
});
