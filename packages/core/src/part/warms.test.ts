import { describe, expect, test } from "vitest";
import { driven, nominal } from "../scene.fixture.ts";
import { checkWarms, warmShift } from "./warms.ts";

const shift = (x_d: number, s_w: number, more = {}) =>
  (warmShift.value({ x_p: 0, x_d, a_f: 65e-6, dT: 15, q_w: 0, a_t: 85e-6, s_w, s_p: 0, ...more }) as number) * 1e6;
// A review of the working notes: 58 um of frame, 18 um of tape, at 15 K; 58.5 and 17.85 by hand. [derived]
describe("15 K", () => {
  test("move a pick 60 mm from its datum by 58.5 um with the frame, by 17.85 um with 14 mm of carrier", () => {
    expect(shift(-0.06, 0)).toBeCloseTo(58.5, 9);
    expect(shift(0, 0.014)).toBeCloseTo(17.85, 9);
    expect(shift(-0.06, 0.014)).toBeCloseTo(76.35, 9);
  });
  test("on either side of the datum move it alike", () => expect(shift(0.06, -0.014)).toBeCloseTo(76.35, 9));
});
describe("in a scene", () => {
  const sheet = driven.sheetScene();
  test("a mount without a datum is not judged, nor is a project without a pick tool", () => {
    const { datum: _, ...mount } = sheet.unit.mount!;
    expect(checkWarms.absent({ ...sheet, unit: { ...sheet.unit, mount } })).toBe(
      "the mount gives no datum from which the pick's place is set",
    );
    const { pickTool: __, ...requirement } = sheet.requirement;
    expect(checkWarms.absent({ ...sheet, requirement })).toBe(
      "project.yaml gives no radius that the pick tool forgives",
    );
  });
  test("it enters the pick error and stops no tape", () => {
    expect(checkWarms.severity).toBe("A");
    expect(nominal(sheet, warmShift)).toBeGreaterThan(0);
  });
});
