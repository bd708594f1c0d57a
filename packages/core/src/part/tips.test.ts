import { describe, expect, test } from "vitest";
import { driven, punchedTape } from "../scene.fixture.ts";
import { checkTips, tippingSpeed } from "./tips.ts";

const tip = (L: number, H: number) => (tippingSpeed.value({ g: 9.80665, L: L * 1e-3, H: H * 1e-3 }) as number) * 1e3;
// A block swung over its foot by steps in time, validation/independent/drive.py; the working notes print 156, 254, 292. [derived]
describe("a block stopped at its foot tips over from", () => {
  test.each([
    [0.6, 0.3, 155.703],
    [1.6, 0.8, 254.262],
    [1.0, 0.35, 291.559],
  ])("%f by %f mm: %f mm/s", (L, H, v) => expect(tip(L, H)).toBeCloseTo(v, 2));
  test("four times the size, twice the speed", () => expect(tip(4, 2) / tip(1, 0.5)).toBeCloseTo(2, 9));
  test("a tall block sooner than a flat one", () => expect(tip(1, 1)).toBeLessThan(tip(1, 0.5)));
});
describe("in a scene", () => {
  const sheet = driven.sheetScene();
  test("walls cut square are not applicable, and that is said", () => {
    expect(checkTips.absent({ ...sheet, tape: { ...sheet.tape, kind: "punched" } })).toBe(
      "the pocket's walls are cut square and higher than half the part, which can't tip over them",
    );
    expect(checkTips.absent({ ...sheet, tape: punchedTape() })).toContain("cut square");
  });
  test("a moulded pocket with a known part is judged", () => expect(checkTips.absent(sheet)).toBeUndefined());
});
