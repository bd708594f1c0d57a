import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import { embossedTape, heldByLeaf, heldByRib, nominal, outside, scene, written } from "../scene.fixture.ts";
import type { Unit } from "../unit/unit.ts";
import { checkDrag, dragBudget, holdDrag, shareOfHole } from "./drag.ts";

const withLeaf = (more: Partial<NonNullable<Unit["hold-down"]>>) => {
  const unit = heldByLeaf(12);
  return scene({ ...unit, "hold-down": { ...unit["hold-down"]!, ...more } }, embossedTape(12));
};
// 0.9 N by 0.3 above and 0.2 below, by hand. [derived]
test("both faces rub: 0.9 N at 0.3 and 0.2 drag with 0.45 N", () => {
  expect(holdDrag.value({ F: 0.9, mu_h: 0.3, mu_w: 0.2 })).toBeCloseTo(0.45, 12);
});
describe("in a scene", () => {
  test("the leaf of 0.9 N drags less than a third of what a hole bears, one of 3 N more", () => {
    const gap = (one: ReturnType<typeof withLeaf>) =>
      nominal(one, chosen(checkDrag.atMost, one)!) - nominal(one, holdDrag);
    expect(gap(withLeaf({}))).toBeGreaterThan(0);
    expect(gap(withLeaf({ preload: written("u/N", "F_0", "3 N", "N") }))).toBeLessThan(0);
  });
  test("the file's friction and its budget come first", () => {
    const own = withLeaf({
      friction: written("u/mu", "mu", "0.2", ""),
      "drag budget": written("u/F_a", "F_a", "0.5 N", "N"),
    });
    expect(nominal(own, dragBudget(own))).toBe(0.5);
    expect(holdDrag.reads(own)!.mu_h).toMatchObject({ text: "0.2" });
    expect(dragBudget(withLeaf({}))).toBe(shareOfHole);
  });
  test("a rib rubs only where the tape touches it, so nothing is asked of it", () => {
    const one = scene(heldByRib(24), embossedTape(24));
    expect(checkDrag.absent(one)).toContain("held by a rib");
    expect(holdDrag.reads(one)).toBeUndefined();
  });
  test("a friction of 1.5 is outside the range", () => {
    expect(outside(holdDrag, { F: 1, mu_h: 1.5, mu_w: 0.2 })).toEqual(["mu_h"]);
  });
});
