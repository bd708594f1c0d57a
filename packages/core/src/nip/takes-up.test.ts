import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, oneSeal, outside, overhead, scene, sideCrossing } from "../scene.fixture.ts";
import { checkTakesUp, released, slipWork, takenUp } from "./takes-up.ts";

// 0.2 mm over ten pitches of 4 mm, EIA-481-D p. 13 [read]: half a per cent, by hand.
test("a pitch of 8 mm may release 8.04 mm of film", () => {
  expect(released.value({ P_1: 8e-3, C_10: 0.2e-3, P_0: 4e-3 }) * 1e3).toBeCloseTo(8.04, 12);
});
test("rollers a quarter faster than the tape take up 10 mm where it moves 8", () => {
  expect(takenUp.value({ o: 1.25, P_1: 8e-3 }) * 1e3).toBeCloseTo(10, 12);
});
// Force times slipped length: 5 N over 0.3 of 8 mm. [derived]
test("a grip of 5 N that slips over 30 % of 8 mm costs 12 mJ an index", () => {
  expect(slipWork.value({ S: 5, o: 1.3, P_1: 8e-3 })).toBeCloseTo(12e-3, 15);
});
test("an overspeed of half a per cent just takes up the longest release, at any pitch", () => {
  fc.assert(
    fc.property(fc.double({ min: 2e-3, max: 0.1, noNaN: true }), (P_1) => {
      const most = released.value({ P_1, C_10: 0.2e-3, P_0: 4e-3 });
      expect(takenUp.value({ o: 1.005, P_1 }) / most).toBeCloseTo(1, 12);
      expect(takenUp.value({ o: 1, P_1 })).toBeLessThan(most);
    }),
    { seed: 111, numRuns: 100 },
  );
});
describe("in a scene", () => {
  test("the catalogue's ten-pitch error reaches the release", () => {
    const one = scene(overhead(24), embossedTape(24));
    expect(nominal(one, released) / 12e-3).toBeCloseTo(1.005, 12);
    expect(nominal(one, takenUp) / 12e-3).toBeCloseTo(1.25, 12);
  });
  test("without a nip, or without its overspeed, nothing is taken up", () => {
    expect(checkTakesUp.absent(scene(oneSeal(), embossedTape(8)))).toBe("the unit has no nip");
    const { nip, ...rest } = sideCrossing(12);
    const { overspeed: _, ...slow } = nip!;
    const one = scene({ ...rest, nip: slow }, embossedTape(12));
    expect(checkTakesUp.absent(one)).toBe("the nip's overspeed is not given");
    expect(slipWork.reads(one)).toBeUndefined();
  });
  test("rollers four times as fast as the tape are outside the range", () =>
    expect(outside(takenUp, { o: 4, P_1: 8e-3 })).toEqual(["o"]));
});
