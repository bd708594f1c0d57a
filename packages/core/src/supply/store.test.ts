import { expect, test } from "vitest";
import { driven, embossedTape, scene, sideCrossing } from "../scene.fixture.ts";
import { firstDip, regenerated } from "./store.ts";

// 1.25 A for 50 us at 0.2 V: 312.5 uF, by hand. [derived]
test("312.5 uF dip by 0.2 V in the first 50 us of 1.25 A", () => {
  expect(firstDip.value({ I_1: 1.25, t_l: 50e-6, C: 312.5e-6 })).toBeCloseTo(0.2, 12);
});
// 45 mJ into 220 uF at 10 V: root of 100 + 0.09/220e-6, by hand. [derived]
test("a rotor of 45 mJ would lift 220 uF from 10 V to 22.6 V", () => {
  expect(regenerated.value({ V: 10, J: 1e-8, k: 10 / 3000, C: 220e-6 })).toBeCloseTo(22.563, 3);
});
test("a board without bulk capacitors stores nothing", () => {
  const bare = { ...scene(sideCrossing(), embossedTape(12)), requirement: driven.onRail };
  expect([firstDip.reads(bare), regenerated.reads(bare)]).toEqual([undefined, undefined]);
});
