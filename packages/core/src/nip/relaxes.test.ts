import { describe, expect, test } from "vitest";
import {
  embossedTape,
  heldByBend,
  heldByLeaf,
  heldByRib,
  nominal,
  oneSeal,
  outside,
  punchedTape,
  scene,
} from "../scene.fixture.ts";
import { checkRelaxes, preloadLeft, preloadNeeded, springExponent } from "./relaxes.ts";

// 1000^-0.1 and 1000^-0.0044. [derived]
test("half of a printed flexure's force may be gone after 1000 h, 3 % of a steel coil's", () => {
  expect(preloadLeft.value({ N: 8, r: 1000, n: 0.1 })).toBeCloseTo(4.009, 3);
  expect(preloadLeft.value({ N: 8, r: 1000, n: 0.0044 }) / 8).toBeCloseTo(0.97, 3);
});
test("a film that takes 1.2 N wants 2 N between rollers of 0.2 and 0.4", () => {
  expect(preloadNeeded.value({ F: 1.2, mu_1: 0.2, mu_2: 0.4 })).toBeCloseTo(2, 12);
});
describe("in a scene", () => {
  const coil = scene(heldByLeaf(12), embossedTape(12));
  const printed = scene(heldByRib(24), embossedTape(24));
  test("a steel coil keeps more of its force than a printed hinge", () => {
    const left = (one: typeof coil) => nominal(one, preloadLeft) / nominal(one, one.unit.nip!.preload!);
    expect(left(coil)).toBeGreaterThan(0.96);
    expect(left(printed)).toBeLessThan(0.8);
  });
  test("a hinge of a known plastic has that plastic's exponent, one without a word the range of all", () => {
    expect(springExponent(printed)).toMatchObject({ address: "catalogue/relaxation exponent of petg" });
    const unit = heldByRib(24);
    const { material: _, ...spring } = unit.nip!.spring!;
    const bare = scene({ ...unit, nip: { ...unit.nip!, spring } }, embossedTape(24));
    expect(springExponent(bare)).toBe(bare.requirement.assume["printed creep"]);
  });
  test("without a spring or a nip it is not judged, and says why", () => {
    expect(checkRelaxes.absent(scene(heldByBend(8), punchedTape()))).toBe(
      "what presses the rollers together is not given",
    );
    expect(checkRelaxes.absent(scene(oneSeal(8), embossedTape(8)))).toBe("the unit has no nip");
  });
  test("it counts as life; an exponent of 0.3 is outside the range", () => {
    expect(checkRelaxes.severity).toBe("L");
    expect(outside(preloadLeft, { N: 8, r: 1000, n: 0.3 })).toEqual(["n"]);
  });
});
