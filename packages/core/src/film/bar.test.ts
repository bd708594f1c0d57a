import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, oneSeal, scene, withBends } from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { barStrain, checkBar } from "./bar.ts";
import { filmOuter } from "./laminate.ts";

const strain = (c: number, ...r: number[]) => barStrain.value({ c, r, names: r.map(String) });

// c = 10.58 um of the usual laminate: over 0.5 mm 2.1 %, over 0.6 mm 1.76 %, as the unpublished working notes and their review print. [derived]
test("the usual film strains by 2.1 % over a bar of half a millimetre and by 1.76 % over 0.6 mm", () => {
  expect(strain(10.5779e-6, 0.5e-3) * 100).toBeCloseTo(2.1, 1);
  expect(strain(10.5779e-6, 0.6e-3) * 100).toBeCloseTo(1.763, 3);
});
test("a film of 50 um solid polyester strains by 5 % over half a millimetre: half its thickness over the radius", () => {
  expect(strain(25e-6, 0.5e-3)).toBeCloseTo(0.05, 15);
});
test("only the smallest bar counts, wherever it stands", () => {
  const radius = fc.double({ min: 0.2e-3, max: 0.02, noNaN: true });
  fc.assert(
    fc.property(fc.array(radius, { minLength: 1, maxLength: 5 }), (radii) => {
      expect(strain(1e-5, ...radii)).toBeCloseTo(1e-5 / Math.min(...radii), 12);
      expect(strain(1e-5, ...radii.slice().reverse())).toBe(strain(1e-5, ...radii));
    }),
    { seed: 71, numRuns: 200 },
  );
});
test("an edge without a radius strains without end", () => expect(strain(1e-5, 0)).toBe(Number.POSITIVE_INFINITY));

describe("in a scene", () => {
  const bent = scene(withBends(16), embossedTape(16));
  test("the peel edge of 0.8 mm is the smallest, not the bar of 2 mm", () => {
    expect(nominal(bent, barStrain)).toBeCloseTo(nominal(bent, filmOuter) / 0.8e-3, 12);
    const inputs = new Realiser(bent, [barStrain]).run(asWritten).inputsOf(barStrain, bent);
    expect(barStrain.where!(inputs)).toBe("peel edge, radius 0.80 mm");
  });
  test("a film that is not led passes no bar", () => {
    expect(barStrain.reads(scene(oneSeal(), embossedTape(8)))).toBeUndefined();
    expect(checkBar.absent(scene(oneSeal(), embossedTape(8)))).toContain('opened as "one seal"');
  });
});
