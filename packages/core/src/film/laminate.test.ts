import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { outside } from "../scene.fixture.ts";
import { filmD, filmEh, filmNeutral, filmOuter } from "./laminate.ts";

interface Layers {
  readonly E_1: number;
  readonly h_1: number;
  readonly E_2: number;
  readonly h_2: number;
}
const film = (layers: Layers, nu = 0.38) => {
  const Eh = filmEh.value({ ...layers });
  const z_n = filmNeutral.value({ ...layers, Eh });
  const D = filmD.value({ ...layers, z_n, nu });
  return { Eh, z_n, D, c: filmOuter.value({ z_n, h_1: layers.h_1 }) };
};
const usual: Layers = { E_1: 4.5e9, h_1: 16e-6, E_2: 0.2e9, h_2: 38e-6 };

// Integrated through 400 000 slices by validation/independent/film.py. [derived]
describe("the laminate agrees with slices summed through its thickness", () => {
  test.each([
    ["16 um of polyester on 38 um", usual, 79600, 8.72131e-6, 10.5779e-6],
    ["12 um on 38 um", { ...usual, h_1: 12e-6 }, 61600, 6.69296e-6, 9.08442e-6],
    ["25 um on 30 um", { ...usual, h_1: 25e-6, h_2: 30e-6 }, 118500, 1.2409e-5, 13.8924e-6],
    ["54 um of polyester in two layers", { E_1: 4.5e9, h_1: 27e-6, E_2: 4.5e9, h_2: 27e-6 }, 243000, 69.0147e-6, 27e-6],
  ])("%s", (_, layers, Eh, D, z_n) => {
    const found = film(layers);
    expect(found.Eh / Eh).toBeCloseTo(1, 10);
    expect(found.D / D).toBeCloseTo(1, 5);
    expect(found.z_n / z_n).toBeCloseTo(1, 5);
  });
});

// Strip theory of a single layer: E h^3/(12 (1 - nu^2)), neutral line in the middle. [derived]
test("without a sealing layer the film is a plain strip", () => {
  const { D, z_n, c } = film({ E_1: 4e9, h_1: 20e-6, E_2: 0, h_2: 0 }, 0.3);
  expect(D).toBeCloseTo((4e9 * 8e-15) / 12 / 0.91, 15);
  expect(z_n).toBeCloseTo(10e-6, 15);
  expect(c).toBeCloseTo(10e-6, 15);
});
// Design notes on the cover film: modulus times total thickness is wrong by a factor 3 and 8. [derived]
test("a solid film of the same 54 um is 3 times stiffer in stretch and 8 times in bending", () => {
  const solid = film({ E_1: 4.5e9, h_1: 54e-6, E_2: 0, h_2: 0 });
  expect(solid.Eh / film(usual).Eh).toBeCloseTo(3.05, 2);
  expect(solid.D / film(usual).D).toBeCloseTo(7.91, 2);
});
test("a sealing layer as thick and stiff as the other moves the neutral line to the joint, the far face one layer away", () => {
  expect(film({ E_1: 2e9, h_1: 30e-6, E_2: 2e9, h_2: 30e-6 }).c).toBeCloseTo(30e-6, 15);
});

const layers = fc.record({
  E_1: fc.double({ min: 1e9, max: 6e9, noNaN: true }),
  h_1: fc.double({ min: 8e-6, max: 60e-6, noNaN: true }),
  E_2: fc.double({ min: 0, max: 1e9, noNaN: true }),
  h_2: fc.double({ min: 0, max: 80e-6, noNaN: true }),
});
test("twice the thickness is eight times the bending stiffness, and the neutral line stays inside the film", () => {
  fc.assert(
    fc.property(layers, (one) => {
      const twice = film({ ...one, h_1: 2 * one.h_1, h_2: 2 * one.h_2 });
      const once = film(one);
      expect(twice.D / once.D).toBeCloseTo(8, 9);
      expect(once.z_n).toBeGreaterThan(0);
      expect(once.z_n).toBeLessThan(one.h_1 + one.h_2);
      expect(once.c).toBeGreaterThanOrEqual(one.h_1 / 2 - 1e-18);
    }),
    { seed: 3, numRuns: 200 },
  );
});

test("a rubbery sheet and a Poisson's ratio of 0.5 are outside the range", () => {
  expect(outside(filmEh, { ...usual, E_1: 5e6 })).toEqual(["E_1"]);
  expect(outside(filmD, { ...usual, nu: 0.5 })).toEqual(["nu"]);
  expect(outside(filmD, { ...usual, nu: 0.38 })).toEqual([]);
});
test("a film without stiffness has no neutral line", () => {
  expect(film({ E_1: 0, h_1: 16e-6, E_2: 0, h_2: 38e-6 }).z_n).toBeNaN();
});
