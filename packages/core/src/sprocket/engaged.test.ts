import { describe, expect, test } from "vitest";
import { embossedTape, nominal, scene, sideCrossing, withBends, withGears } from "../scene.fixture.ts";
import { checkEngaged, fewestTeeth, teethInTape, teethInWrappedTape } from "./engaged.ts";

const pi = Math.PI;
// z = 24, tips 1.2 and 1.3 mm over the underside. [Sprocket, drive and index cycle, 2.2 (unpublished working notes): 2.9 and 3.06, derived]
test.each([
  [1.2, 2.95],
  [1.3, 3.06],
])("with tips %s mm over the tape's underside %s teeth stand in it on the mean", (h, n) =>
  expect(teethInTape.value({ r_b: 15.1289, o_t: 0, r_t: 15.1289 + h, z: 24, pi })).toBeCloseTo(n, 2),
);
test("round the wheel a quarter turn adds six of 24 teeth", () => {
  const x = { r_b: 15.1289, o_t: 0.3, r_t: 16.3, z: 24, pi };
  expect(teethInWrappedTape.value({ ...x, alpha: pi / 2 }) - teethInTape.value(x)).toBeCloseTo(6, 12);
});
test("a tip below the overlap wanted holds nothing", () =>
  expect(teethInTape.value({ r_b: 15, o_t: 0.3, r_t: 15.2, z: 24, pi })).toBe(0));
describe("in a scene", () => {
  test("the mean with no overlap wanted lies between the fewest and one more", () => {
    const s = scene(sideCrossing(12), embossedTape(12));
    expect(nominal(s, fewestTeeth)).toBeGreaterThanOrEqual(1);
    expect(nominal(s, teethInTape)).toBeLessThan(nominal(s, fewestTeeth) + 1);
  });
  test("a wrapped wheel is judged by its own count", () => {
    const s = scene(withGears(8), embossedTape(8));
    expect(typeof checkEngaged.value === "function" && checkEngaged.value(s)).toBe(teethInWrappedTape);
  });
  test("is not applicable without a sprocket", () =>
    expect(checkEngaged.absent(scene(withBends(16), embossedTape(16)))).toBe("the unit has no sprocket"));
});
