import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import { embossedTape, nominal, oneSeal, punchedTape, scene, sideCrossing, withBends } from "../scene.fixture.ts";
import { checkLips, roomAllowed, roomNeeded, roomOver } from "./lips.ts";

// Sums of thicknesses, by hand. [derived]
test("lips 0.65 mm over the ledge leave 0.35 mm over a carrier of 0.3 mm", () => {
  expect(roomOver.value({ g: 0.65e-3, T: 0.3e-3 }) * 1e3).toBeCloseTo(0.35, 12);
});
test("a film of 60 um, a splice of 80 and free running of 50 need 0.19 mm; the second film of punched tape makes it 0.25", () => {
  const x = { T_1: 60e-6, t_s: 80e-6, c_r: 50e-6 };
  expect(roomNeeded.value({ ...x, n_f: 1 }) * 1e3).toBeCloseTo(0.19, 12);
  expect(roomNeeded.value({ ...x, n_f: 2 }) * 1e3).toBeCloseTo(0.25, 12);
});
test("teeth of 1.1 mm that must overlap by 0.3 mm allow an edge to lift by 0.8 mm", () => {
  expect(roomAllowed.value({ h: 1.1e-3, o_t: 0.3e-3 }) * 1e3).toBeCloseTo(0.8, 12);
});
test("a thicker carrier takes just its own thickness", () => {
  const length = fc.double({ min: 0, max: 2e-3, noNaN: true });
  fc.assert(
    fc.property(length, length, length, (g, T, more) => {
      expect(roomOver.value({ g, T }) - roomOver.value({ g, T: T + more })).toBeCloseTo(more, 15);
    }),
    { seed: 151, numRuns: 100 },
  );
});
describe("in a scene", () => {
  test("punched tape needs room for two films, embossed for one", () => {
    const films = (one: Parameters<typeof roomNeeded.reads>[0]) =>
      nominal(one, (roomNeeded.reads(one)! as { n_f: typeof roomNeeded }).n_f);
    expect(films(scene(sideCrossing(8), punchedTape()))).toBe(2);
    expect(films(scene(sideCrossing(8), embossedTape(8)))).toBe(1);
  });
  test("with a sprocket the lips must also keep the tape on its teeth; without one they need not", () => {
    const [driven, undriven] = [scene(sideCrossing(12), embossedTape(12)), scene(withBends(16), embossedTape(16))];
    expect(chosen(checkLips.atMost, driven)).toBe(roomAllowed);
    expect(chosen(checkLips.atMost, undriven)).toBeUndefined();
    expect(roomAllowed.reads(undriven)).toBeUndefined();
    const say = () => "x";
    expect(checkLips.because(say, driven)).toContain("rides up a tooth");
    expect(checkLips.because(say, undriven)).not.toContain("tooth");
  });
  test("a tape as thick as the lips are high has no room at all, and is still judged", () => {
    expect(roomOver.value({ g: 0.6e-3, T: 0.75e-3 })).toBeLessThan(0);
    expect(checkLips.absent(scene(oneSeal(), embossedTape(8)))).toBeUndefined();
  });
});
