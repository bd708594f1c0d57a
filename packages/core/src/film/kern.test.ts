import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, oneSeal, overhead, scene, sideCrossing } from "../scene.fixture.ts";
import { checkKern, face, kern } from "./kern.ts";
import { strip } from "./strip.ts";

// Design notes on the cover film, rounded: 7.1 mm for the 21.3 mm film of 24 mm tape, 1.8 mm for the 5.3 mm film of 8 mm tape. [derived]
test("the middle third of wide film is 7.1 mm, of narrow film 1.8 mm", () => {
  expect(kern.value({ b: 21.3e-3 }) * 1e3).toBeCloseTo(7.1, 10);
  expect(kern.value({ b: 5.3e-3 }) * 1e3).toBeCloseTo(1.8, 1);
});
// Middle third of a rectangular section: e = P/(Eh b) (1 + 12 x y/b^2) is 0 at an edge for x = b/6. [derived]
test("a pull within half that face of the middle leaves no fibre slack, one beyond it does", () => {
  const [b, Eh, P] = [0.0213, 79600, 0.65];
  const mean = P / (Eh * b);
  const pulledAt = (x: number) => strip((y) => 1 + (mean * (12 * x * y)) / (b * b), b, Eh, P, "clamped");
  fc.assert(
    fc.property(fc.double({ min: 0, max: 0.999, noNaN: true }), (share) => {
      const x = (share * kern.value({ b })) / 2;
      const { slack, offset } = pulledAt(x);
      expect(slack).toBe(0);
      expect(offset).toBeCloseTo(x, 5);
    }),
    { seed: 61, numRuns: 50 },
  );
  expect(pulledAt(0.55 * kern.value({ b })).slack).toBeGreaterThan(0);
});

describe("in a scene", () => {
  test("a nip that grips the whole film has the film's width as its face", () => {
    const one = scene(sideCrossing(12), embossedTape(12));
    expect(nominal(one, face)).toBeCloseTo(3 * nominal(one, kern), 12);
  });
  test("a band of its own comes from the unit file: 0.3 of the width it is built for", () => {
    expect(nominal(scene(overhead(24), embossedTape(24)), face)).toBeCloseTo(0.3 * 21.3e-3, 9);
  });
  test("the check is silent without rollers, and never stops a tape", () => {
    const { nip: _, ...rest } = sideCrossing(12);
    expect(checkKern.absent(scene(rest, embossedTape(12)))).toBe("the unit has no nip rollers");
    expect(checkKern.severity).toBe("N");
    expect(face.reads(scene(oneSeal(), embossedTape(8)))).toBeUndefined();
  });
});
