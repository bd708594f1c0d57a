import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Given } from "../quantity/given.ts";
import { embossedTape, nominal, scene, sideCrossing, written } from "../scene.fixture.ts";
import { isLetterOfCatalogue, middleOf } from "./middle.ts";

const one = scene(sideCrossing(12), embossedTape(12));
describe("the middle of a number's limits", () => {
  // (plus - minus)/2 from where it stands. [derived]
  test("lies half of what one limit is wider than the other from what is written", () => {
    const tenth = fc.integer({ min: 0, max: 300 });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), tenth, tenth, (x, plus, minus) => {
        fc.pre(plus + minus > 0);
        const q = written(`made up/${x}`, "x", `${x / 100} +${plus / 1000}/-${minus / 1000} mm`);
        expect(nominal(one, middleOf(q)!) * 1e3).toBeCloseTo(x / 100 + (plus - minus) / 2000, 9);
      }),
      { seed: 82, numRuns: 100 },
    );
  });
  test("does not scatter itself, is the same number each time, and leaves a normal scatter where it stands", () => {
    const q = written("made up/scattered", "x", "2 ±0.1 mm per reel sd 0.03 mm");
    const middle = middleOf(q)!;
    expect(middle.scatters).toEqual([]);
    expect(middleOf(q)).toBe(middle);
    expect(nominal(one, middle)).toBe(0.002);
  });
  test("is none where nothing scatters, also for a guess: it is fixed, if not known", () =>
    expect(middleOf(written("made up/guess", "x", "1..2 mm guess"))).toBeUndefined());
});
test("a letter of the catalogue is told from a file's, and of one between two, either that counts", () => {
  const catalogue = written("catalogue/made up", "X", "2 mm");
  const file = written("tapes/made up/X", "X", "2 mm");
  expect([isLetterOfCatalogue(catalogue), isLetterOfCatalogue(file)]).toEqual([true, false]);
  const blend = (share: number): Given => ({ ...file, blend: { of: [catalogue, file], share } }) as unknown as Given;
  expect([0, 0.5, 1].map((share) => isLetterOfCatalogue(blend(share)))).toEqual([true, true, false]);
});
