import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { driven, nominal, outside } from "../scene.fixture.ts";
import { checkLifts, floorKick, hop, hopHeight, hopRoom } from "./lifts.ts";

// The working notes, and validation/independent/drive.py: a sine and a stone by steps in time. [derived]
describe("a floor that shakes", () => {
  test.each([
    [2, 100, 62.101],
    [5, 100, 322.927],
    [10, 100, 1254.447],
    [2, 300, 6.9],
    [5, 1000, 3.229],
  ])("with %f times gravity at %f Hz throws a part up by %f um", (n, f, um) => {
    expect(hop(n, f) * 1e6).toBeCloseTo(um, 2);
  });
  test("with no more than gravity throws nothing", () => {
    expect(hop(1, 100)).toBe(0);
    expect(hop(0, 100)).toBe(0);
  });
  test("faster throws lower, harder throws higher", () => {
    const harder = fc.double({ min: 1.01, max: 20, noNaN: true });
    const faster = fc.double({ min: 50, max: 2000, noNaN: true });
    fc.assert(
      fc.property(harder, faster, (n, f) => {
        expect(hop(n, 2 * f)).toBeCloseTo(hop(n, f) / 4, 12);
        expect(hop(n + 0.1, f)).toBeGreaterThan(hop(n, f));
      }),
      { seed: 451, numRuns: 200 },
    );
  });
  test("at 0 Hz is refused", () => expect(() => hop(2, 0)).toThrow("a floor that shakes at 0 Hz does not shake"));
});
// 98 mm/s in a millisecond are ten times gravity, a tenth of it is once. By hand. [derived]
test("a tenth of 98 mm/s in a millisecond is gravity itself", () => {
  expect(floorKick.value({ q_z: 0.1, dv: 0.0980665, g: 9.80665 })).toBeCloseTo(1, 12);
});
test("a part higher than its pocket has no room to hop", () => {
  expect(hopRoom.value({ q_h: 0.3, K_0: 1, h_p: 1.2 })).toBe(0);
  expect(hopRoom.value({ q_h: 0.3, K_0: 2, h_p: 1.5 })).toBeCloseTo(0.15, 12);
});
test("a floor at 5 Hz is outside the range", () => {
  expect(outside(hopHeight, { n: 2, f: 5, g: 9.81 })).toEqual(["f"]);
});
test("in a scene a part without a height is not judged, one with room stays", () => {
  const sheet = driven.sheetScene();
  expect(checkLifts.absent(sheet)).toBeUndefined();
  expect(checkLifts.absent(driven.windingScene())).toBe("the tape file does not give the part's height");
  expect(nominal(sheet, hopHeight)).toBeLessThan(nominal(sheet, hopRoom));
});
