import { describe, expect, test } from "vitest";
import { embossedTape, nominal, scene, sideCrossing, withGears, written } from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import type { Unit } from "../unit/unit.ts";
import { checkMeshes, contactRatio, meshBacklash, meshSpare } from "./meshes.ts";

const geared = scene(withGears(8), embossedTape(8));
const with_ = (change: Partial<Unit>) => scene({ ...geared.unit, ...change }, geared.tape);
const peel = geared.unit["peel drive"]!;
const where = (s: typeof geared) =>
  meshSpare.where!(new Realiser(s, [meshSpare]).run(asWritten).inputsOf(meshSpare, s), s);

test("worms and gear pairs of both drives are held, and the worst is named", () => {
  expect(checkMeshes.absent(geared)).toBeUndefined();
  expect(nominal(geared, meshSpare)).toBeGreaterThan(0);
  expect(where(geared)).toMatch(/^(worm of the (feed|peel) drive|gears 1 of the peel drive): (contact|backlash|room)/);
});
test("a worm whose axes stand too near jams, one too far lets go", () => {
  const at = (centre: string) =>
    with_({ "peel drive": { ...peel, worm: { ...peel.worm!, centre: written("c", "A", centre) } } });
  // Worm of 0.5/tan 4.5 deg = 6.353 mm, wheel of 10 mm: 8.177 mm as drawn. [derived]
  expect(nominal(at("8.0 mm"), meshBacklash)).toBeLessThan(0);
  expect(where(at("8.0 mm"))).toBe("worm of the peel drive: backlash");
  expect(nominal(at("8.9 mm"), contactRatio)).toBeLessThan(1.1);
  expect(where(at("8.9 mm"))).toBe("worm of the peel drive: contact");
});
describe("is not applicable, with the reason", () => {
  test("without worm and gears", () =>
    expect(checkMeshes.absent(scene(sideCrossing(12), embossedTape(12)))).toBe(
      "no drive gives a worm with its wheel's teeth, or a pair of gears",
    ));
  test("to a pair of one gear, or of three shifts", () => {
    const [g] = peel["gear pairs"]!;
    expect(
      checkMeshes.absent(with_({ "peel drive": { ...peel, "gear pairs": [{ ...g!, teeth: [g!.teeth[0]!] }] } })),
    ).toBe("the peel drive's gears give 1 numbers of teeth; a pair has two");
    expect(
      checkMeshes.absent(
        with_({ "peel drive": { ...peel, "gear pairs": [{ ...g!, shifts: [...g!.shifts!, g!.shifts![0]!] }] } }),
      ),
    ).toBe("the peel drive's gears give 3 profile shifts; a pair has two");
  });
});
test("gears whose base circles meet give no number, and the pair says why", () => {
  const [g] = peel["gear pairs"]!;
  const s = with_({ "peel drive": { ...peel, "gear pairs": [{ ...g!, centre: written("c", "A", "9 mm") }] } });
  expect(nominal(s, meshSpare)).toBeNaN();
});
