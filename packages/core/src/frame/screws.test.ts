import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { clampedStiffness, screwNamed, screwNames, screwStiffness, tippingStiffness } from "./screws.ts";

// Frusta of 30 degrees after Shigley [memory], figures of the unpublished working notes. [derived]
describe("M3 over 6 mm of plastic of 2 GPa", () => {
  const M3 = screwNamed("M3")!;
  test("clamps with 6660 N/mm, the screw itself has 173 kN/mm", () => {
    expect(clampedStiffness(3e-3, 6e-3, 2e9) / 1e3).toBeCloseTo(6660, -1);
    expect((M3.area * 206e9) / 6e-3 / 1e6).toBeCloseTo(173, 0);
  });
  test("in series is softer than either", () => {
    const both = screwStiffness(M3, 6e-3, 2e9, 1);
    expect(both).toBeLessThan(clampedStiffness(3e-3, 6e-3, 2e9));
    expect(both / 1e6).toBeCloseTo(6.41, 2);
  });
});
// ISO 898-1, nominal stress areas. [memory]
describe("stress area of", () => {
  test.each([
    ["M2", 2.07],
    ["M3", 5.03],
    ["m4", 8.78],
    [" M5 ", 14.2],
  ])("%s is %f mm2", (size, area) => expect(screwNamed(size)!.area * 1e6).toBeCloseTo(area, 1));
  test("what is no screw of the list is not known", () => {
    for (const word of [undefined, "3 mm", "M7", "constructor", ""]) expect(screwNamed(word)).toBeUndefined();
    expect(screwNames).toContain("M3");
  });
});
test("less infill is softer, whatever the screw", () => {
  const share = fc.double({ min: 0.05, max: 1, noNaN: true });
  fc.assert(
    fc.property(fc.constantFrom(...screwNames), share, share, (size, a, b) => {
      const at = (q: number) => screwStiffness(screwNamed(size)!, 6e-3, 2e9, q);
      expect(at(Math.min(a, b))).toBeLessThanOrEqual(at(Math.max(a, b)));
    }),
    { seed: 471, numRuns: 100 },
  );
});
// Review of the unpublished working notes, A8: 6.7 kN/mm each, 9 mm apart. [derived]
test("two screws stand against tipping with 271 N m per rad", () => {
  expect(tippingStiffness(6.7e6, [-4.5e-3, 4.5e-3])).toBeCloseTo(271.35, 2);
});
test("plastic without a modulus, a screw without infill are refused", () => {
  expect(() => clampedStiffness(3e-3, 6e-3, 0)).toThrow("found 0.003, 0.006, 0");
  expect(() => screwStiffness(screwNamed("M3")!, 6e-3, 2e9, 0)).toThrow("infill of 0 holds nothing");
});
