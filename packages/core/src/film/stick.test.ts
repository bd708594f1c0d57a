import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, oneSeal, outside, overhead, scene, sideCrossing } from "../scene.fixture.ts";
import { checkStick, criticalTack, straightening, tackEnergy, trackOverlap } from "./stick.ts";

// The usual laminate by slices, validation/independent/film.py.
const D = 8.721307e-6;

// D b/(2 R^2 o) by hand, R 6 mm, both tracks 1.4 mm; the review of the unpublished working notes prints 0.459 .. 2.206. [derived]
describe("a flat film is just carried round a roller of 6 mm", () => {
  test.each([
    [5.3, 0.459],
    [9.3, 0.805],
    [13.3, 1.151],
    [21.3, 1.843],
    [25.5, 2.206],
  ])("at a width of %f mm by %f J/m2", (b, G) => {
    expect(criticalTack({ D, b: b * 1e-3, R: 6e-3, o: 1.4e-3 })).toBeCloseTo(G, 3);
  });
});
// (1 - R/R_c)^2 with R 6 mm and a curl of 10 mm: 0.4^2 and 1.6^2. [derived]
test("a curl of 10 mm towards the roller leaves 0.16 of that, away from it 2.56 times", () => {
  const flat = { D, b: 21.3e-3, R: 6e-3, o: 1.4e-3 };
  expect(criticalTack({ ...flat, k_0: 100 }) / criticalTack(flat)).toBeCloseTo(0.16, 12);
  expect(criticalTack({ ...flat, k_0: -100 }) / criticalTack(flat)).toBeCloseTo(2.56, 12);
});
test("at the critical tack straightening frees just what the tracks hold", () => {
  const x = { D, b: 21.3e-3, R: 6e-3, k_0: 20 };
  const G_t = criticalTack({ ...x, o: 1.4e-3 });
  expect(tackEnergy.value({ G_t, o: 1.4e-3 }) / straightening.value(x)).toBeCloseTo(1, 12);
});

const across = { w_t: 0.7e-3, s: 0.3e-3, e_w: 0.4e-3 };
// Design notes: half gap 9.65 mm against a half face of 3.0 mm and 0.4 mm of wander. [derived]
test("a face of 6 mm in the middle of a 21.3 mm film touches no track", () => {
  expect(trackOverlap.value({ ...across, f: 6e-3, b: 21.3e-3 })).toBe(0);
});
test("a face as wide as the film lies on both tracks whole", () => {
  expect(trackOverlap.value({ ...across, f: 21.3e-3, b: 21.3e-3 })).toBeCloseTo(1.4e-3, 15);
});
// Inner edge of the track 9.65 mm out; face to 9.5, wander 0.4: 0.25 mm of each track. [derived]
test("a face of 19 mm lies on a quarter of a millimetre of each track", () => {
  expect(trackOverlap.value({ ...across, f: 19e-3, b: 21.3e-3 })).toBeCloseTo(0.5e-3, 12);
});
test("the overlap is never less than nothing nor more than both tracks, and a wider face never lessens it", () => {
  const face = fc.double({ min: 0, max: 0.03, noNaN: true });
  fc.assert(
    fc.property(face, face, (p, q) => {
      const of = (f: number) => trackOverlap.value({ ...across, f, b: 21.3e-3 });
      expect(of(p)).toBeGreaterThanOrEqual(0);
      expect(of(p)).toBeLessThanOrEqual(1.4e-3 + 1e-15);
      expect(of(Math.max(p, q))).toBeGreaterThanOrEqual(of(Math.min(p, q)));
    }),
    { seed: 81, numRuns: 200 },
  );
});

describe("in a scene", () => {
  test("the greater of two rollers counts: 6 mm, which frees less than one of 5 mm", () => {
    const returned = scene(overhead(24), embossedTape(24, "heat activated"));
    const { R } = straightening.reads(returned)! as { R: typeof straightening };
    expect(nominal(returned, R)).toBeCloseTo(6e-3, 12);
  });
  test("a middle grip touches no track; a full one touches both", () => {
    expect(nominal(scene(overhead(24), embossedTape(24)), trackOverlap)).toBe(0);
    const full = scene(sideCrossing(12), embossedTape(12));
    const { w_t } = trackOverlap.reads(full)! as { w_t: typeof trackOverlap };
    expect(nominal(full, trackOverlap)).toBeCloseTo(2 * nominal(full, w_t), 12);
  });
  test("without rollers nothing sticks", () => {
    const { nip: _, ...rest } = sideCrossing(12);
    expect(checkStick.absent(scene(rest, embossedTape(12)))).toBe("the unit has no nip rollers");
    expect(straightening.reads(scene(oneSeal(), embossedTape(8)))).toBeUndefined();
  });
  test("a roller of 20 mm and a curl of 5 mm are outside the range", () => {
    expect(outside(straightening, { D, b: 0.02, R: 20e-3, k_0: 200 })).toEqual(["R", "k_0"]);
  });
});
