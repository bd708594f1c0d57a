import { describe, expect, test } from "vitest";
import { embossedTape, nominal, scene, sideCrossing, withBends, withGears, written } from "../scene.fixture.ts";
import { checkNipMeshes, nipBacklash, nipContactRatio, nipMeshSpare, nipOpening, opening } from "./nip-meshes.ts";

const lift = { axis: [0, 0], lower: 5, upper: 6, about: [-14, 2], by: (3 * Math.PI) / 180 } as const;
// Upper axis from (14, 4) about the pivot to (13.7715, 4.7272); its distance to (14, -7) less 11. [derived]
test("a turn of 3 deg about a pivot 14 mm behind opens the nip by 0.729 mm", () =>
  expect(nipOpening(lift)).toBeCloseTo(0.72945, 5));
test("a nip that does not turn does not open, and the sign of the turn does not matter", () => {
  expect(nipOpening({ ...lift, by: 0 })).toBeCloseTo(0, 12);
  expect(nipOpening({ ...lift, by: -lift.by })).toBe(nipOpening(lift));
});
describe("in a scene", () => {
  const geared = scene(withGears(8), embossedTape(8));
  const nip = geared.unit.nip!;
  const by = (text: string) =>
    scene(
      { ...geared.unit, nip: { ...nip, lifts: { ...nip.lifts!, by: written("by", "phi", text, "deg") } } },
      geared.tape,
    );
  test("the farther the nip opens, the less its gears keep in touch; backlash is counted closed", () => {
    const [little, wide] = [by("0.2 deg"), by("3 deg")];
    expect(nominal(wide, opening)).toBeGreaterThan(nominal(little, opening));
    expect(nominal(wide, nipContactRatio)).toBeLessThan(nominal(little, nipContactRatio));
    expect(nominal(wide, nipContactRatio)).toBeLessThan(1);
    expect(nominal(wide, nipBacklash)).toBeCloseTo(nominal(little, nipBacklash), 12);
    expect(nominal(wide, nipMeshSpare)).toBeLessThan(0);
    expect(nominal(little, nipMeshSpare)).toBeGreaterThan(0);
  });
  test("without a lift the nip is taken closed, and said so", () => {
    const { lifts: _, ...still } = nip;
    const s = scene({ ...geared.unit, nip: still }, geared.tape);
    expect(nominal(s, nipContactRatio)).toBeGreaterThan(nominal(geared, nipContactRatio));
    expect(checkNipMeshes.because((q) => `<${q.symbol}>`, s)).toBe(
      "The nip's gears keep <eps_u> pairs of teeth in touch, where <eps_0> are wanted; closed they have <j> of backlash.",
    );
    expect(checkNipMeshes.because((q) => `<${q.symbol}>`, geared)).toMatch(
      /^The nip opens by <D>; its gears then keep/,
    );
  });
  test("is not applicable without a nip, or without gears in it", () => {
    expect(checkNipMeshes.absent(scene(withBends(16), embossedTape(16)))).toMatch(
      /^(the unit has no nip|no gears join the nip's rollers)$/,
    );
    expect(checkNipMeshes.absent(scene(sideCrossing(12), embossedTape(12)))).toBe("no gears join the nip's rollers");
  });
});
