import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { driven, nominal, punchedTape } from "../scene.fixture.ts";
import { checkFloor, floorSag, sag } from "./floor.ts";

// A review of the working notes: 0.2 mm thick, 1.9 GPa, 1 N [derived]; 2 GPa by bisection, validation/independent/drive.py. [derived]
describe("a floor of 0.2 mm under 1 N", () => {
  test.each([
    [10, 0.29, 0.27895],
    [16, 0.49, 0.48181],
    [24, 0.72, 0.70099],
  ])("of %f mm gives by %f mm, of 2 GPa by %f mm", (a, soft, stiff) => {
    expect(sag(1, a * 1e-3, 0.2e-3, 1.9e9, 0.35) * 1e3).toBeCloseTo(soft, 2);
    expect(sag(1, a * 1e-3, 0.2e-3, 2e9, 0.35) * 1e3).toBeCloseTo(stiff, 5);
  });
});
test("a small push gives what a thin plate does, without loss of digits", () => {
  const D = (2e9 * 0.2e-3 ** 3) / (12 * (1 - 0.35 ** 2));
  expect(sag(1e-6, 1e-2, 0.2e-3, 2e9, 0.35) / ((0.0056 * 1e-4 * 1e-6) / D)).toBeCloseTo(1, 9);
});
test("the sag carries the push it came from", () => {
  const push = fc.double({ min: 0.01, max: 20, noNaN: true });
  const side = fc.double({ min: 1e-3, max: 0.04, noNaN: true });
  fc.assert(
    fc.property(push, side, (F, a) => {
      const w = sag(F, a, 0.25e-3, 2e9, 0.35);
      const D = (2e9 * 0.25e-3 ** 3) / (12 * (1 - 0.35 ** 2));
      expect((w * D) / (0.0056 * a * a) + (2.8 * 2e9 * 0.25e-3 * w ** 3) / (a * a)).toBeCloseTo(F, 9);
    }),
    { seed: 471, numRuns: 200 },
  );
});
describe("in a scene", () => {
  const sheet = driven.sheetScene();
  test("the groove's floor stops what gives further", () => {
    const soft = { F: 3, A_0: 0.03, B_0: 0.03, t: 0.2e-3, E: 2e9, nu: 0.35 };
    expect(floorSag.value({ ...soft, g_u: 0.4e-3 })).toBe(0.4e-3);
    expect(floorSag.value({ ...soft, g_u: -1e-3 })).toBe(0);
    expect(nominal(sheet, floorSag)).toBeGreaterThan(0);
  });
  test("board on its ledge and pockets on their floors are not judged", () => {
    expect(checkFloor.absent({ ...sheet, tape: punchedTape() })).toBe(
      "the pocket is cut into board that lies on its ledge",
    );
    const unit = { ...sheet.unit, tape: { ...sheet.unit.tape, "rests on": "floors" as const } };
    expect(checkFloor.absent({ ...sheet, unit })).toBe("the pocket rests on its floor");
  });
});
