import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import {
  embossedTape,
  heldByBend,
  heldByLeaf,
  heldByRib,
  nominal,
  punchedTape,
  scene,
  written,
} from "../scene.fixture.ts";
import type { Unit } from "../unit/unit.ts";
import { checkRides, followed, steppedOver, underRib } from "./rides.ts";

const withLeaf = (more: Partial<NonNullable<Unit["hold-down"]>>) => {
  const unit = heldByLeaf(12);
  return scene({ ...unit, "hold-down": { ...unit["hold-down"]!, ...more } }, embossedTape(12));
};
test("0.9 N on 0.1 N/mm follow the tape down by 9 mm", () =>
  expect(followed.value({ F: 0.9, k: 100 })).toBeCloseTo(9e-3, 12));
// 0.24 of 142 mg is 34.1 mg; at 80 mm/s 1.09e-7 J over 0.9 N: 0.12 um. By hand. [derived]
test("behind a splice of 0.08 mm a strip leaf hops by a tenth of a micrometre", () => {
  const leaf = { t_s: 0.08e-3, rho: 7900, b: 5e-3, t: 0.15e-3, L: 24e-3, v: 0.08, F: 0.9 };
  expect((steppedOver.value(leaf) - 0.08e-3) * 1e6).toBeCloseTo(0.1213, 3);
});
describe("in a scene", () => {
  const gap = (one: ReturnType<typeof withLeaf>) =>
    nominal(one, chosen(checkRides.value, one)!) - nominal(one, chosen(checkRides.atLeast, one)!);
  test("a soft leaf rides over a splice, a block of steel with hardly any force doesn't", () => {
    expect(gap(withLeaf({}))).toBeGreaterThan(1e-3);
    const stiff = withLeaf({
      thickness: written("u/t", "t", "1 mm"),
      "free length": written("u/L", "L", "10 mm"),
      preload: written("u/F", "F_0", "0.5 N", "N"),
    });
    expect(gap(stiff)).toBeLessThan(0);
  });
  test("a rib is asked for room for films and a splice", () => {
    const one = scene(heldByRib(24), embossedTape(24));
    expect(chosen(checkRides.value, one)).toBe(underRib);
    const low = heldByRib(24);
    const tight = scene(
      { ...low, "hold-down": { ...low["hold-down"]!, gap: written("u/g", "g_r", "0.4 mm") } },
      embossedTape(24),
    );
    expect(gap(one)).toBeGreaterThan(0);
    expect(gap(tight)).toBeLessThan(0);
  });
  test("a leaf of unknown size and a run-off bend are not judged, and say why", () => {
    const unit = heldByLeaf(12);
    const { thickness: _, ...bare } = unit["hold-down"]!;
    expect(checkRides.absent(scene({ ...unit, "hold-down": bare }, embossedTape(12)))).toBe(
      "thickness, width and free length of the leaf are not all given",
    );
    expect(checkRides.absent(scene(heldByBend(8), punchedTape()))).toContain("its own stiffness");
    const rib = heldByRib(24);
    expect(checkRides.absent(scene({ ...rib, "hold-down": { kind: "rib" } }, embossedTape(24)))).toBe(
      "the height between ledge and rib is not given",
    );
  });
});
