import { describe, expect, test } from "vitest";
import { bothEnds, oneEnd } from "./foundation.ts";

const beam = (L: number) => ({ k: 4 * L ** 4, EI: 1, l: 1 });
// Hetenyi 1946, section 19, equations 37a and 37b, in a scanned handout [read]; beam elements agree. [derived]
describe("both ends pressed alike", () => {
  test.each([
    [1, 0.5165398132, 0.4907019068],
    [2, 0.046102464, 0.022974565],
    [4, 0.0078482674, -0.0009219763],
  ])("length %f: %f at the ends, %f in the middle", (L, end, middle) => {
    expect(bothEnds(beam(L), 1, 0)).toBeCloseTo(end, 9);
    expect(bothEnds(beam(L), 1, 1)).toBeCloseTo(end, 9);
    expect(bothEnds(beam(L), 1, 0.5)).toBeCloseTo(middle, 9);
  });
});
// Hetenyi 1946, finite beam with one end loaded [memory]; beam elements agree. [derived]
describe("one end pressed", () => {
  test.each([
    [1, 1.0094592673, -0.4929194541],
    [4, 0.007818567, 2.97003553e-5],
  ])("length %f: %f under the load, %f at the far end", (L, loaded, far) => {
    expect(oneEnd(beam(L), 1).loaded).toBeCloseTo(loaded, 9);
    expect(oneEnd(beam(L), 1).far).toBeCloseTo(far, 9);
  });
  test("two such loads, one at either end, are both ends pressed alike", () => {
    for (const L of [0.5, 1.3, 3]) {
      const { loaded, far } = oneEnd(beam(L), 1);
      expect(loaded + far).toBeCloseTo(bothEnds(beam(L), 1, 0), 9);
    }
  });
});
test("a beam without stiffness or length is refused", () => {
  expect(() => bothEnds({ k: 0, EI: 1, l: 1 }, 1, 0)).toThrow("found 0, 1, 1");
  expect(() => oneEnd({ k: 1, EI: 1, l: -1 }, 1)).toThrow("found 1, 1, -1");
});
