import { expect, test } from "vitest";
import { embossedTape, heldByLeaf, nominal, scene } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import { stressAllowed } from "./stress.ts";

const of = (material: string): Scene =>
  scene({ ...heldByLeaf(12), "hold-down": { ...heldByLeaf(12)["hold-down"]!, material } }, embossedTape(12));

// 0.75 of 0.8 of 1500 MPa, by hand. [derived]
test("the stress that leaves no set is a share of yield; of a plastic a smaller one", () => {
  expect(stressAllowed.value({ q_s: 0.75, q_y: 0.8, R_m: 1500e6 })).toBeCloseTo(900e6, 0);
  const petg = of("PETG");
  // Half of 0.8 to 1 of 44 to 56 MPa.
  expect(nominal(petg, stressAllowed)).toBeGreaterThan(0.5 * 0.8 * 44e6);
  expect(nominal(petg, stressAllowed)).toBeLessThan(0.5 * 56e6);
});
test("it rises with the temper that the file names", () => {
  const soft = nominal(of("spring steel 1.4310 +C1150"), stressAllowed);
  const hard = nominal(of("spring steel 1.4310 +C1700"), stressAllowed);
  expect(hard / soft).toBeGreaterThan(1.4);
});
