import { describe, expect, test } from "vitest";
import { one } from "../quantity/bound.ts";
import { embossedTape, nominal, scene, sideCrossing, written } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import { pitchAddedUp, pocketAcross, pocketAlong, singleHole, widerHole } from "./reel-errors.ts";

const usual = scene(sideCrossing(12), embossedTape(12));
const withLetters = (letters: Partial<Scene["tape"]["letters"]>): Scene => ({
  ...usual,
  tape: { ...usual.tape, letters: { ...usual.tape.letters, ...letters } },
});
describe("how much of its limits a letter uses", () => {
  test("the catalogue's share, where the catalogue gives it; all, where a tape's file does", () => {
    expect(pocketAlong.reads(usual)!.q_t).toBe(usual.requirement.assume["tape practice"]);
    const own = withLetters({ P2: written("tapes/made up/P2", "P_2", "2.00 ±0.05 mm") });
    expect(pocketAlong.reads(own)!.q_t).toBe(one);
  });
  test("a letter without limits is no error", () => {
    const F = written("tapes/made up/F", "F", "5.5 mm");
    expect(pocketAcross.reads(withLetters({ F }))).toBeUndefined();
  });
  test("a tape with its own pitch has no errors of single holes, but one that adds up where it has limits", () => {
    const P0 = written("tapes/made up/P0", "P_0", "4.00 ±0.02 mm");
    expect(singleHole.reads(usual)).toBeDefined();
    expect(singleHole.reads(withLetters({ P0 }))).toBeUndefined();
    expect(pitchAddedUp.reads(withLetters({ P0 }))!.q_t).toBe(one);
  });
});
test("as written every reel lies where its limits have their middle, but for limits that are uneven", () => {
  expect(nominal(usual, pocketAcross)).toBeCloseTo(0, 12);
  // D_0 is 1.5 +0.1/-0 mm: as written a hole is 50 um narrower than the middle, and the tape lies half of that ahead, by the share used. [read]
  const share = nominal(usual, usual.requirement.assume["tape practice"]);
  expect(nominal(usual, widerHole)).toBeCloseTo((share * 50e-6) / 2, 9);
});
// A pitch 1 um long over 15 pitches is 15 um, a pitch 1 um short as much the other way. By hand. [derived]
test("the pitch adds up from the pick to the wheel by the pitches between them", () => {
  const at = (P: number): number => pitchAddedUp.value({ q_t: 1, s_w: 0.06, s_p: 0, P, P_w: 4e-3 });
  expect(at(4.001e-3)).toBeCloseTo(15e-6, 12);
  expect(at(3.999e-3)).toBeCloseTo(-15e-6, 12);
  expect(at(4e-3)).toBe(0);
});
