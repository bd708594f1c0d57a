import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, oneSeal, overhead, scene, sideCrossing } from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { filmPath, type Vector } from "./path.ts";
import { checkStraight, greatestLean, leanOfLand } from "./straight.ts";

const degrees = (rad: number) => (rad * 180) / Math.PI;
const crossing = (W: number, height: number) => {
  const mm = 1e-3;
  const [out, H] = [-(W / 2 + 2) * mm, (height + 4) * mm];
  const guides = [
    { through: [-35 * mm, out, -H / 2] as Vector, along: [0, 0, 1] as Vector, rolls: false },
    { through: [-70 * mm, 0, -H - 2 * mm] as Vector, along: [0, -1, 0] as Vector, rolls: false },
  ];
  return filmPath([0, 0, mm], guides);
};
const leanOf = (W: number, height: number) =>
  greatestLean.value({ path: crossing(W, height), names: ["peel line", "side guide", "nip"] });

// Direction of the span against the peel line, validation/independent/film.py. [derived]
test("the greatest lean of a side crossing is that at the peel line: 9.658 degrees at 8 mm, 21.176 at 24 mm", () => {
  expect(degrees(leanOf(8, 2.5))).toBeCloseTo(9.658, 3);
  expect(degrees(leanOf(24, 12))).toBeCloseTo(21.1762, 3);
});
// Skew of the peel front b tan(lean/2) as the unpublished working notes tabulate it, rounded: 0.45, 1.0, 1.8, 4.0, 6.0 mm. [derived]
describe("the lean of the crossing skews the peel front", () => {
  test.each([
    [8, 2.5, 5.3, 0.45, 2],
    [12, 6.5, 9.3, 1.0, 1],
    [16, 8, 13.3, 1.8, 1],
    [24, 12, 21.3, 4.0, 1],
    [32, 12, 25.5, 6.0, 1],
  ])("at %i mm", (W, height, b, skew, digits) => {
    expect(b * Math.tan(leanOf(W, height) / 2)).toBeCloseTo(skew, digits);
  });
});
// A pocket of 7 mm on a pitch of 8 mm leaves 1 mm of land; 2 atan(1/9.3), by hand. [derived]
test("a film of 9.3 mm may lean by 12.27 degrees over a land of 1 mm", () => {
  expect(degrees(leanOfLand.value({ P_1: 8e-3, L: 7e-3, b: 9.3e-3 }))).toBeCloseTo(12.2745, 3);
});
test("the skew of the bound is the land, for any land and film", () => {
  const length = fc.double({ min: 1e-3, max: 0.05, noNaN: true });
  fc.assert(
    fc.property(length, length, (land, b) => {
      const lean = leanOfLand.value({ P_1: 0.06, L: 0.06 - land, b });
      expect((b * Math.tan(lean / 2)) / land).toBeCloseTo(1, 9);
    }),
    { seed: 41, numRuns: 200 },
  );
});
test("pockets longer than their pitch leave no room to lean", () => {
  expect(leanOfLand.value({ P_1: 4e-3, L: 4.2e-3, b: 5e-3 })).toBe(0);
});

describe("in a scene", () => {
  test("an overhead return runs straight", () => {
    expect(nominal(scene(overhead(24), embossedTape(24)), greatestLean)).toBe(0);
  });
  // Out of the plane by 13 in 50 mm at the back edge (15.1 degrees), 13 in 53 mm at the nip (14.2), 7 degrees at the shoulder. [derived]
  test("the worst place of a crossing is named", () => {
    const across = scene(sideCrossing(24), embossedTape(24));
    const inputs = new Realiser(across, [greatestLean]).run(asWritten).inputsOf(greatestLean, across);
    expect(greatestLean.where!(inputs)).toBe("kink over the back edge");
  });
  test("a film opened along one seal does not lean", () => {
    expect(checkStraight.absent(scene(oneSeal(), embossedTape(8)))).toContain('opened as "one seal"');
  });
});
