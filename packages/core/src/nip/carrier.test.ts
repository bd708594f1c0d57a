import { describe, expect, test } from "vitest";
import {
  embossedTape,
  heldByLeaf,
  heldByRib,
  nominal,
  outside,
  scene,
  sideCrossing,
  written,
} from "../scene.fixture.ts";
import type { Unit } from "../unit/unit.ts";
import {
  carrierTorsion,
  hingeTorsion,
  hookPlay,
  rootSpring,
  screwTorsion,
  shaftLength,
  shaftStiffness,
  unknownScrew,
} from "./carrier.ts";

// E pi d^4/128 of two steel shafts of 4 mm, by hand. [derived]
test("two steel shafts of 4 mm, one against the other, have 1.294 N m2", () => {
  expect(shaftStiffness.value({ E: 206e9, pi: Math.PI, d: 4e-3 })).toBeCloseTo(1.2944, 3);
});
// Review of the unpublished working notes, A8: PETG of 2 GPa, 11 by 1.2 by 8 mm. [derived]
test("a hinge of 11 by 1.2 by 8 mm turns at 0.30 N m per rad", () => {
  expect(hingeTorsion.value({ E: 2e9, b: 8e-3, t: 1.2e-3, l: 11e-3 })).toBeCloseTo(0.299, 3);
});
describe("in a scene", () => {
  const leaf = scene(heldByLeaf(12), embossedTape(12));
  const rib = scene(heldByRib(24), embossedTape(24));
  test("a hinge decides how a carrier turns, screws where there is none, a figure before both", () => {
    expect(carrierTorsion(rib)).toBe(hingeTorsion);
    expect(carrierTorsion(leaf)).toBe(screwTorsion);
    const given = written("u/k", "k_phi", "0.5 N*m", "N*m");
    const unit = heldByRib(24);
    const own = { ...unit, nip: { ...unit.nip!, rollers: { ...unit.nip!.rollers!, "carrier torsion": given } } };
    expect(carrierTorsion(scene(own, embossedTape(24)))).toBe(given);
    expect(carrierTorsion(scene(sideCrossing(12), embossedTape(12)))).toBeUndefined();
  });
  test("screws hold hundreds of times stiffer than a printed hinge", () => {
    expect(nominal(leaf, screwTorsion)).toBeGreaterThan(100 * nominal(rib, hingeTorsion));
  });
  test("the hinge's material counts: steel is stiffer than what is printed", () => {
    const unit = heldByRib(24);
    const steel: Unit = {
      ...unit,
      nip: { ...unit.nip!, spring: { ...unit.nip!.spring!, material: "spring steel 1.4310" } },
    };
    expect(nominal(scene(steel, embossedTape(24)), hingeTorsion)).toBeGreaterThan(50 * nominal(rib, hingeTorsion));
  });
  test("a shaft of aluminium is a third as stiff as one of steel", () => {
    const of = (material: string) => {
      const unit = heldByLeaf(12);
      const shaft = { ...unit.nip!.rollers!.shaft!, material };
      const own = { ...unit, nip: { ...unit.nip!, rollers: { ...unit.nip!.rollers!, shaft } } };
      return nominal(scene(own, embossedTape(12)), shaftStiffness);
    };
    expect(of("aluminium") / of("steel")).toBeCloseTo(70 / 206, 9);
    expect(of("brass") / of("silver steel")).toBeCloseTo(100 / 206, 9);
    expect(of("POM") / of("steel")).toBeLessThan(0.02);
  });
  test("a shaft is as long as the file says, else as the grip is wide", () => {
    expect(nominal(leaf, shaftLength(leaf)!)).toBeGreaterThan(nominal(leaf, leaf.tape.film.width));
    const bare = scene(sideCrossing(12), embossedTape(12));
    expect(shaftLength(bare)).toBe(bare.tape.film.width);
  });
  test("screws of an unknown size are no spring, and the size is named", () => {
    const unit = heldByLeaf(12);
    const odd = scene({ ...unit, joints: [{ ...unit.joints![0]!, size: "M7" }] }, embossedTape(12));
    expect(rootSpring(odd)).toBeUndefined();
    expect(unknownScrew(odd)).toContain('"M7"');
  });
  test("a hook's play is its joint's, and nothing where no joint is hooked", () => {
    const play = written("u/p", "p", "0.05 mm");
    const unit = heldByLeaf(12);
    expect(hookPlay(scene({ ...unit, joints: [{ name: "hook", kind: "hooked", play }] }, embossedTape(12)))).toBe(play);
    expect(nominal(leaf, hookPlay(leaf))).toBe(0);
  });
  test("a shaft of 100 mm is outside the range", () => {
    expect(outside(shaftStiffness, { E: 2e11, pi: 3, d: 0.1 })).toEqual(["d"]);
  });
});
