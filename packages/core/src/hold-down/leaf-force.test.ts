import { describe, expect, test } from "vitest";
import { embossedTape, heldByLeaf, nominal, scene, tapeWith, written } from "../scene.fixture.ts";
import type { Unit } from "../unit/unit.ts";
import { leafForce, leafRate, movedForce, noLeafForce, noLeafRate, rateOf } from "./leaf-force.ts";

const withLeaf = (more: Partial<NonNullable<Unit["hold-down"]>>, without: readonly string[] = []) => {
  const unit = heldByLeaf(12);
  const held = Object.fromEntries(
    Object.entries({ ...unit["hold-down"]!, ...more }).filter(([name]) => !without.includes(name)),
  ) as unknown as NonNullable<Unit["hold-down"]>;
  return { ...unit, "hold-down": held };
};
// E b t^3/(4 L^3), by hand: 185 GPa, 5 by 0.15 mm, 24 mm. [derived]
test("a cantilever of 24 by 5 by 0.15 mm of spring steel gives 0.0565 N/mm", () => {
  const whole = { b: 5e-3, b_o: 5e-3, v_1: 0, v_2: 0 };
  expect(leafRate.value({ E: 185e9, t: 0.15e-3, L: 24e-3, ...whole }) / 1e3).toBeCloseTo(0.05646, 4);
});
test("a thicker tape presses the leaf harder by its rate, a thinner one never below nothing", () => {
  const at = (T: number) => movedForce.value({ F_0: 0.9, k: 100, T, T_b: 0.3e-3 });
  expect(at(0.5e-3)).toBeCloseTo(0.92, 12);
  expect(at(0.3e-3)).toBe(0.9);
  expect(movedForce.value({ F_0: 0.01, k: 1000, T: 0.1e-3, T_b: 0.3e-3 })).toBe(0);
});

describe("in a scene", () => {
  const thick = tapeWith(12, { T: written("t/T", "T", "0.5 mm") });
  test("a leaf pressed far is stiffer than the cantilever says", () => {
    const one = scene(heldByLeaf(12), embossedTape(12));
    expect(nominal(one, rateOf(one)!)).toBeGreaterThan(1.5 * nominal(one, leafRate));
  });
  test("the force follows the tape's thickness where the leaf's size is known", () => {
    const one = scene(heldByLeaf(12), thick);
    expect(nominal(one, leafForce(one))).toBeGreaterThan(0.9);
  });
  test("and is the file's for every tape where it isn't", () => {
    const one = scene(withLeaf({}, ["thickness"]), thick);
    expect(nominal(one, leafForce(one))).toBe(0.9);
    expect(noLeafRate(one)).toBe("thickness, width and free length of the leaf are not all given");
  });
  test("a leaf of a material that nobody knows is taken as spring steel, small against its length", () => {
    const one = scene(withLeaf({ material: "unobtainium" }, ["opening"]), embossedTape(12));
    expect(rateOf(one)).toBe(leafRate);
    expect(nominal(one, leafRate) / 1e3).toBeCloseTo(0.0586, 2);
  });
  // Arms of 5 mm from 3.8 to 16.2 mm of 24, 12.2 mm beside them: 5/12.2 + (20.2^3 - 7.8^3)/24^3 (1 - 5/12.2) of its compliance. [by hand]
  test("a window leaves it 1.3487 times as stiff as its arms alone would be", () => {
    for (const more of [{ material: "unobtainium" }, {}]) {
      const [cut, arms] = [withLeaf(more), withLeaf(more, ["opening"])].map((unit) => scene(unit, embossedTape(12)));
      expect(nominal(cut!, leafRate) / nominal(arms!, leafRate)).toBeCloseTo(1.3487, 4);
    }
  });
  test("a hold-down without a force says so", () => {
    expect(noLeafForce(scene(withLeaf({}, ["preload"]), embossedTape(12)))).toBe(
      "the hold-down's force on the tape is not given",
    );
  });
});
