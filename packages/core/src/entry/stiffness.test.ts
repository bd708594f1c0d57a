import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  embossedTape,
  nominal,
  outside,
  punchedTape,
  scene,
  sideCrossing,
  tapeWith,
  written,
} from "../scene.fixture.ts";
import {
  flangeStiffness,
  highStiffness,
  landStiffness,
  lowStiffness,
  pocketSection,
  pocketShare,
  stiffness,
  stiffnessBetween,
  stiffnessBounds,
} from "./stiffness.ts";

// Unpublished working notes, compliant parts: 8 mm tape of 0.3 mm, B1 4 mm, K0 1 mm, walls 0.2 mm, pocket share 0.55, 1.9 GPa. [derived]
describe("8 mm tape without its holes", () => {
  const tape = { E: 1.9e9, T: 0.3e-3, W: 8e-3, D_0: 0, P_0: 4e-3 };
  const EI_l = landStiffness.value(tape);
  test("is as stiff as 34.2 N mm2 where it is bare", () => expect(EI_l * 1e6).toBeCloseTo(34.2, 10));
  test("is 22.06 N mm2 where its walls give way and 72.96 where they hold", () => {
    const EI_f = flangeStiffness.value({ ...tape, B_1: 4e-3 });
    const I_p = pocketSection.value({ T: 0.3e-3, W: 8e-3, B_1: 4e-3, K_0: 1e-3, t_w: 0.2e-3 });
    expect(lowStiffness.value({ a: 0.55, EI_l, EI_f }) * 1e6).toBeCloseTo(22.06, 2);
    expect(highStiffness.value({ a: 0.55, EI_l, E: 1.9e9, I_p }) * 1e6).toBeCloseTo(72.96, 2);
  });
});
// Flexibility averaged over where pocket and hole stand, fibres of the section one by one: validation/independent/hold.py. [derived]
test("12 mm tape with its holes lies between 25.09 and 373.1 N mm2", () => {
  const tape = { E: 1.9e9, T: 0.3e-3, W: 12e-3, D_0: 1.55e-3, P_0: 4e-3 };
  const EI_l = landStiffness.value(tape);
  const EI_f = flangeStiffness.value({ ...tape, B_1: 5.8e-3 });
  const I_p = pocketSection.value({ T: 0.3e-3, W: 12e-3, B_1: 5.8e-3, K_0: 2.1e-3, t_w: 0.3e-3 });
  expect(lowStiffness.value({ a: 7 / 8, EI_l, EI_f }) * 1e6).toBeCloseTo(25.092, 2);
  expect(highStiffness.value({ a: 7 / 8, EI_l, E: 1.9e9, I_p }) * 1e6).toBeCloseTo(373.127, 2);
});
test("twice the thickness makes any strip eight times as stiff", () => {
  const size = fc.double({ min: 0.1e-3, max: 0.6e-3, noNaN: true });
  fc.assert(
    fc.property(size, (T) => {
      const at = (t: number) => landStiffness.value({ E: 2e9, T: t, W: 12e-3, D_0: 1.55e-3, P_0: 4e-3 });
      expect(at(2 * T) / at(T)).toBeCloseTo(8, 9);
    }),
    { seed: 401, numRuns: 50 },
  );
});
test("the share between the bounds counts on a logarithmic scale, and never beyond them", () => {
  const at = (q_w: number) => stiffnessBetween.value({ EI_lo: 20e-6, EI_hi: 80e-6, q_w });
  expect(at(0.5) * 1e6).toBeCloseTo(40, 9);
  expect(at(1) * 1e6).toBeCloseTo(80, 9);
  expect(at(7) * 1e6).toBeCloseTo(80, 9);
});

describe("in a scene", () => {
  const one = scene(sideCrossing(12), embossedTape(12));
  test("an unmeasured tape lies between its bounds, whatever is believed", () => {
    const [low, high] = stiffnessBounds(one).map((m) => nominal(one, m));
    expect(nominal(one, stiffness(one))).toBeGreaterThan(low!);
    expect(nominal(one, stiffness(one))).toBeLessThan(high!);
  });
  test("a measured stiffness comes first, and has no bounds to show", () => {
    const own = scene(
      sideCrossing(12),
      tapeWith(12, { stiffness: written("t/EI", "EI", "45 N*mm^2 measured", "N*mm^2") }),
    );
    expect(nominal(own, stiffness(own)) * 1e6).toBeCloseTo(45, 9);
    expect(stiffnessBounds(own)).toEqual([]);
  });
  test("board has no walls: flanges alone carry on beside its holes", () => {
    const board = scene(sideCrossing(8), punchedTape());
    expect(stiffness(board)).toBe(lowStiffness);
    expect(highStiffness.reads(board)).toBeUndefined();
    expect(pocketSection.reads(board)).toBeUndefined();
    // 0.75 mm against 0.25 mm of plastic, about as stiff a stuff: some 27 times the stiffness. [derived]
    const plastic = scene(sideCrossing(8), embossedTape(8));
    expect(nominal(board, landStiffness) / nominal(plastic, landStiffness)).toBeGreaterThan(20);
  });
  test("a pocket longer than its pitch counts as 95 % of it, one wider than the tape leaves a tenth of its width", () => {
    expect(pocketShare.value({ L: 9e-3, P_1: 8e-3 })).toBe(0.95);
    const tape = { E: 1.9e9, T: 0.3e-3, W: 8e-3, D_0: 0, P_0: 4e-3 };
    expect(flangeStiffness.value({ ...tape, B_1: 9e-3 })).toBeCloseTo(landStiffness.value(tape) / 10, 12);
  });
  test("a modulus of steel and a tape of 2 mm are outside the range", () => {
    expect(outside(landStiffness, { E: 2e11, T: 2e-3 })).toEqual(["E", "T"]);
  });
});
