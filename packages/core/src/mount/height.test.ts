import { describe, expect, test } from "vitest";
import { bentUnitWith, boxed, mm, round, turning, unitWith, with12, with24 } from "../clearance/clearance.fixture.ts";
import { embossedTape, nominal, oneSeal, scene, withBodies } from "../scene.fixture.ts";
import { checkHeight, height } from "./height.ts";

// Guides, boxes and a roller by hand. [derived]
describe("the height of a unit over its tape", () => {
  test("is that of its highest guide with its radius, where nothing stands higher", () => {
    // Nip line at z = 12, radius 5.
    expect(nominal(with24(bentUnitWith([])), height) / mm).toBeCloseTo(17, 9);
  });
  test("is that of its highest body, and not of room that belongs to the machine", () => {
    const motor = boxed("motor", [0, 12, 20, 24], [0, 9]);
    expect(nominal(with24(bentUnitWith([motor])), height) / mm).toBeCloseTo(24, 9);
    const head = { "keep out": [boxed("head", [0, 30, 9, 60], [0, 9])] };
    expect(nominal(with24(bentUnitWith([motor], head)), height) / mm).toBeCloseTo(24, 9);
  });
  test("counts what lifts where it is highest", () => {
    const roller = round("roller", [0, 18, 6], [0, 12], { lifts: "true" });
    // About (-14, 14) by 3 degrees: 14 sin 3 - 4 (1 - cos 3) up.
    const a = Math.PI / 60;
    const one = with24(bentUnitWith([roller], turning(3, -14, 14)));
    expect(nominal(one, height) / mm).toBeCloseTo(24 + 14 * Math.sin(a) - 4 * (1 - Math.cos(a)), 9);
  });
  test("counts the film that stands on edge beside the channel", () => {
    // Shoulder at z = -2: half the film above it, 9.5 mm of it or so; the back edge reaches 4.5.
    const one = with12(unitWith([]));
    const b = nominal(one, one.unit.letters.b!);
    expect(nominal(one, height)).toBeCloseTo(Math.max(4.5 * mm, -2 * mm + b / 2), 9);
  });
  test("is nothing for a unit without guides and bodies", () => {
    expect(nominal(scene(oneSeal(8), embossedTape(8)), height)).toBe(0);
  });
});
describe("the check", () => {
  test("holds it against the height the file asserts", () => {
    expect(checkHeight.absent(scene(withBodies(), embossedTape(12)))).toBeUndefined();
  });
  test("is not applicable where none is asserted, and says how high it stands", () => {
    expect(checkHeight.absent(with24(bentUnitWith([])))).toBe("no height is asserted; it stands 17.0 mm over the tape");
    const flat = with24(bentUnitWith([boxed("sheet", [0, 5, 0, 9], [0, 3])]));
    expect(checkHeight.absent(flat)).toContain("a height that can't be told");
  });
});
