import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  embossedTape,
  heldByLeaf,
  nominal,
  oneSeal,
  scene,
  sideCrossing,
  tapeWith,
  written,
} from "../scene.fixture.ts";
import { acrossPlay, checkOpening, leastRoom, openingRoom } from "./opening.ts";

const x = {
  windows: [
    { x: 10, y: 7, name: "the window in the cover" },
    { x: 11, y: 8, name: "the window in the hold-down" },
  ],
  A_0: 6.4,
  B_0: 5.2,
  e_t: 0.5,
  along: 0.45,
  across: 0.55,
};
// 7 - 5.2 - 0.5 - 0.55 across, 10 - 6.4 - 0.5 - 0.45 along, by hand. [derived]
test("the tightest of two windows in two directions is the finding, and says which", () => {
  expect(leastRoom(x).room).toBeCloseTo(0.75, 12);
  expect(leastRoom(x).where).toBe("the window in the cover, across the tape");
  const long = { ...x, A_0: 9 };
  expect(leastRoom(long).room).toBeCloseTo(0.05, 12);
  expect(leastRoom(long).where).toBe("the window in the cover, along the travel");
});
test("a second window never makes more room", () => {
  const size = fc.double({ min: 3, max: 20, noNaN: true });
  fc.assert(
    fc.property(size, size, (a, b) => {
      const one = leastRoom({ ...x, windows: [x.windows[0]!] }).room;
      expect(leastRoom({ ...x, windows: [x.windows[0]!, { x: a, y: b, name: "w" }] }).room).toBeLessThanOrEqual(one);
    }),
    { seed: 451, numRuns: 100 },
  );
});
test("a pocket off the middle costs twice its offset across", () => {
  const at = (F: number) => acrossPlay.value({ c: 12.45, W: 12, E_1: 1.75, F, E_u: 1.75, F_u: 5.5 });
  expect(at(5.5)).toBeCloseTo(0.45, 12);
  expect(at(5.6)).toBeCloseTo(0.65, 12);
  expect(at(5.4)).toBeCloseTo(0.65, 12);
});
describe("in a scene", () => {
  test("a unit's own pockets leave room, a pocket 3 mm longer does not", () => {
    expect(nominal(scene(heldByLeaf(12), embossedTape(12)), openingRoom)).toBeGreaterThan(0.5e-3);
    const long = tapeWith(12, { A0: written("t/A0", "A_0", "9.4 mm") });
    expect(nominal(scene(heldByLeaf(12), long), openingRoom)).toBeLessThan(0);
  });
  test("a unit with neither window is not judged, and says so", () => {
    for (const one of [scene(sideCrossing(12), embossedTape(12)), scene(oneSeal(8), embossedTape(8))]) {
      expect(checkOpening.absent(one)).toBe("neither the cover nor the hold-down has a window over the pocket");
      expect(openingRoom.reads(one)).toBeUndefined();
    }
  });
});
