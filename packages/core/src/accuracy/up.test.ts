import { expect, test } from "vitest";
import { driven, nominal, written } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import { deeperPocket, rideUp, thickerCarrier } from "./up.ts";

const sheet = driven.sheetScene();
const tapeOf = (letters: Partial<Scene["tape"]["letters"]>, rests: "floor" | "cover side"): Scene => ({
  unit: { ...sheet.unit, tape: { ...sheet.unit.tape, "rests on": rests } as Scene["unit"]["tape"] },
  tape: { ...sheet.tape, letters: { ...sheet.tape.letters, ...letters } },
  requirement: sheet.requirement,
});
// 2.7 mm in place of the middle of 2.5 +0.3/-0.1 mm, which is 2.6 mm. By hand. [derived]
test("a pocket 0.1 mm deeper than the middle of its limits lowers the part by 0.1 mm", () => {
  expect(deeperPocket.value({ X: 2.7e-3, X_m: 2.6e-3 })).toBeCloseTo(-0.1e-3, 12);
  const K0 = written("tapes/made up/K0", "K_0", "2.5 +0.3/-0.1 mm");
  expect(nominal(tapeOf({ K0 }, "cover side"), deeperPocket)).toBeCloseTo(0.1e-3, 12);
});
test("a carrier's thickness lowers the part only where the cover side is what is fixed, and only by a file's own limits", () => {
  const T = written("tapes/made up/T", "T", "0.3 ±0.05 mm");
  expect(thickerCarrier.reads(tapeOf({ T }, "cover side"))).toBeDefined();
  expect(thickerCarrier.reads(tapeOf({ T }, "floor"))).toBeUndefined();
  const ofCatalogue = written("catalogue/T", "T", "0.3 ±0.05 mm");
  expect(thickerCarrier.reads(tapeOf({ T: ofCatalogue }, "cover side"))).toBeUndefined();
});
test("a tape rides up by half of the room under its lips either way, and not at all where they touch it", () => {
  expect(rideUp.value({ s_l: 0.5e-3 })).toBeCloseTo(0.25e-3, 12);
  expect(rideUp.value({ s_l: -0.1e-3 })).toBe(0);
});
