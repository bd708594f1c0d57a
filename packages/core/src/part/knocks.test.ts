import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { driven } from "../scene.fixture.ts";
import { carryingSpeed, checkKnocks, knockSpeed, thrownSpeed } from "./knocks.ts";

const knock = (dv: number, play: number, mu_p = 0.3) =>
  knockSpeed.value({ dv, mu_p, g: 9.80665, A_0: 2e-3 + play, l_p: 2e-3 }) as number;

// 60 mm/s in a millisecond is 60 m/s2; less 2.942 of friction over 20 um: root of 2 by 57.058 by 20e-6, by hand. [derived]
test("60 mm/s in a millisecond and 20 um of play knock with 47.8 mm/s", () => {
  expect(knock(0.06, 20e-6) * 1e3).toBeCloseTo(47.77, 2);
});
describe("a knock", () => {
  test("is never faster than the whole change of speed", () => {
    const speed = fc.double({ min: 0, max: 0.3, noNaN: true });
    const play = fc.double({ min: 0, max: 2e-3, noNaN: true });
    fc.assert(
      fc.property(speed, play, (dv, c) => {
        expect(knock(dv, c)).toBeLessThanOrEqual(dv);
      }),
      { seed: 461, numRuns: 200 },
    );
  });
  test("is none without play, with a part too long for its pocket, or while friction holds the part", () => {
    expect([knock(0.06, 0), knock(0.06, -1e-4), knock(0.002, 1e-4)]).toEqual([0, 0, 0]);
  });
});
// A wall that leans by 5 deg and gives half back: 1.5 by sin 5 cos 5 is 0.130, by hand. [derived]
test("a wall that turns 13 % of it upward throws a part that knocks with 50 mm/s up with 6.5", () => {
  const turned = 1.5 * Math.sin(Math.PI / 36) * Math.cos(Math.PI / 36);
  expect(thrownSpeed.value({ q_u: turned, v: 50 })).toBeCloseTo(6.51, 2);
});
// Half of the root of 2 by 9.80665 by 1 mm: 70 mm/s, by hand. [derived]
test("half of what throws a part 1 mm high is 70 mm/s", () => {
  expect(carryingSpeed.value({ q_k: 0.5, g: 9.80665, K_0: 1e-3 }) * 1e3).toBeCloseTo(70.02, 2);
});
test("a part of unknown length is not judged", () => {
  expect(checkKnocks.absent(driven.windingScene())).toBe(
    "the tape file does not give the part's length along the travel",
  );
});
