import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  embossedTape,
  nominal,
  oneSeal,
  overhead,
  punchedTape,
  scene,
  sideCrossing,
  withBends,
} from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { pocketDrop } from "../tape/pocket.ts";
import { checkDepth, checkWidth, roomBeside, roomUnder } from "./groove.ts";

const down = (radius: number) => ({ radius, turn: -0.5 });
const up = (radius: number) => ({ radius, turn: 0.5 });
const flat = { d: 3e-3, drop: 2.1e-3, L: 11.2e-3, arcs: [], thickness: [] };

// Height of an arc over its chord, from the angle it spans: validation/independent/pockets.py. [derived]
describe("a rigid pocket inside a bend hangs deeper by", () => {
  test.each([
    [30, 11.2, 0.527301],
    [15, 4, 0.133931],
    [32, 12, 0.567533],
  ])("on a radius of %f mm and %f mm long: %f mm", (r, L, h) => {
    const at = (arcs: object[]) => roomUnder.value({ ...flat, L: L * 1e-3, arcs });
    expect((at([]) - at([down(r * 1e-3)])) * 1e3).toBeCloseTo(h, 6);
  });
});
// Farthest corner hypot(sqrt(r^2 - L^2/4) + drop, L/2) = 37.64 mm, inside 38 mm. validation/independent/pockets.py. [derived]
test("a pocket outside a bend needs no more depth than on the flat", () => {
  expect(Math.hypot(Math.sqrt(30 ** 2 - 10 ** 2) + 8, 10)).toBeLessThan(38);
  expect(roomUnder.value({ ...flat, L: 20e-3, arcs: [up(30e-3)] })).toBe(roomUnder.value({ ...flat, L: 20e-3 }));
});
test("a groove 3 mm deep leaves 0.9 mm under a pocket that hangs 2.1 mm, 0.1 less under a carrier 0.1 thicker held from above", () => {
  expect(roomUnder.value(flat) * 1e3).toBeCloseTo(0.9, 12);
  expect(roomUnder.value({ ...flat, thickness: [{ T: 0.4e-3, T_u: 0.3e-3 }] }) * 1e3).toBeCloseTo(0.8, 12);
});
test("the chord is never less than L^2/(8 r), and the sharpest bend counts", () => {
  const radius = fc.double({ min: 12e-3, max: 0.3, noNaN: true });
  const length = fc.double({ min: 1e-3, max: 20e-3, noNaN: true });
  fc.assert(
    fc.property(radius, radius, length, (p, q, L) => {
      const under = (...radii: number[]) => roomUnder.value({ ...flat, L, arcs: radii.map(down) });
      const r = Math.min(p, q);
      expect(flat.d - flat.drop - under(p, q)).toBeGreaterThanOrEqual(((L * L) / (8 * r)) * (1 - 1e-9));
      expect(under(p, q)).toBe(under(r));
    }),
    { seed: 141, numRuns: 200 },
  );
});
test("a pocket longer than the bend is wide has no answer", () => {
  expect(roomUnder.value({ ...flat, L: 0.05, arcs: [down(0.02)] })).toBeNaN();
});

// Margin 0.75 less half the extra width, the offset of the middles and half the play. By hand. [derived]
test("room beside the pocket: 0.75 - 0.1 - 0.05 - 0.225 = 0.375 mm", () => {
  const x = { m: 0.75, B_1: 5.4, B_u: 5.2, E_1: 1.8, F: 5.5, E_u: 1.75, F_u: 5.5, c: 12.45, W: 12 };
  expect(roomBeside.value(x)).toBeCloseTo(0.375, 12);
  expect(roomBeside.value({ ...x, E_1: 1.7 })).toBeCloseTo(0.375, 12);
});

describe("in a scene", () => {
  test("the same pocket in the unit's own channel hangs as deep as its letters say", () => {
    const one = scene(sideCrossing(12), embossedTape(12));
    // Groove K0 + 0.9 mm; wall taken as the carrier, so the drop is K0. [derived]
    expect(nominal(one, roomUnder) * 1e3).toBeCloseTo(0.9, 9);
    expect(nominal(one, pocketDrop) * 1e3).toBeCloseTo(2.1, 9);
  });
  test("a bend that turns down is where it hangs deepest", () => {
    const one = scene(withBends(16), embossedTape(16));
    const run = new Realiser(one, [roomUnder]).run(asWritten);
    expect(roomUnder.where!(run.inputsOf(roomUnder, one))).toBe("bend 1 of the route");
    expect(roomUnder.where!({ ...run.inputsOf(roomUnder, one), arcs: [up(0.04)] })).toBe("on the straight");
  });
  test("a unit that fixes the cover side reads both thicknesses", () => {
    const { thickness } = roomUnder.reads(scene(overhead(24), embossedTape(24)))! as { thickness: readonly unknown[] };
    expect(thickness).toHaveLength(1);
  });
  test("punched tape, a tape that rests on its floors, and an unknown pocket have no such room to judge", () => {
    const paper = scene(sideCrossing(8), punchedTape());
    expect(checkDepth.absent(paper)).toBe("punched tape has no pockets below its underside");
    expect(roomUnder.reads(paper)).toBeUndefined();
    const unit = sideCrossing(12);
    const resting = scene({ ...unit, tape: { ...unit.tape, "rests on": "floors" } }, embossedTape(12));
    expect(checkDepth.absent(resting)).toContain("it is their support");
    const { B1: _, ...letters } = unit.letters;
    const unknown = scene({ ...unit, letters }, embossedTape(12));
    expect(checkWidth.absent(unknown)).toBe("the pocket the unit is built for is not given");
    expect(roomBeside.reads(unknown)).toBeUndefined();
    expect(checkWidth.absent(scene(oneSeal(), embossedTape(8)))).toBeUndefined();
  });
});
