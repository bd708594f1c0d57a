import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  embossedTape,
  heldByLeaf,
  nominal,
  oneSeal,
  outside,
  scene,
  sideCrossing,
  tapeWith,
  withBends,
  written,
} from "../scene.fixture.ts";
import { checkJerks, dragOfReel, mostDrag, outerTurn, reelInertia, snatch, spillDrag, woundMass } from "./jerks.ts";

// Review of the unpublished working notes, B3: 13 in, 24 mm, 300 kg/m3, outer turn 160 mm, hub 50 mm; 7 in, 8 mm, 600 kg/m3. [derived]
describe("a full reel", () => {
  const wound = (rho_w: number, W: number, R_o: number, N: number) =>
    woundMass.value({ rho_w, W, pi: Math.PI, R_o, N });
  const m = wound(300, 24e-3, 0.16, 0.1);
  const m_eq = reelInertia.value({ m, N: 0.1, R_o: 0.16 });
  test("of 13 in weighs 0.52 kg and feels like 0.29 kg at its outer turn", () => {
    expect(m).toBeCloseTo(0.52, 2);
    expect(m_eq).toBeCloseTo(0.287, 3);
  });
  test("of 13 in snatches with 2.2 N at 90 mm/s and wants 0.155 N of drag for 30 mm of loop", () => {
    expect(snatch.value({ v: 0.09, k: 2000, m_eq })).toBeCloseTo(2.16, 2);
    expect(spillDrag.value({ m_eq, v: 0.09, x_l: 0.03 })).toBeCloseTo(0.155, 3);
  });
  test("of 7 in snatches with 0.9 N and wants 0.03 N", () => {
    const light = reelInertia.value({ m: wound(600, 8e-3, 0.085, 0.06), N: 0.06, R_o: 0.085 });
    expect(snatch.value({ v: 0.09, k: 2000, m_eq: light })).toBeCloseTo(0.9, 1);
    expect(spillDrag.value({ m_eq: light, v: 0.09, x_l: 0.03 })).toBeCloseTo(0.03, 2);
  });
});
// The differential equation of a mass met by a spring: validation/independent/hold.py. [derived]
test("0.29 kg met at 90 mm/s by 2 N/mm pull with 2.1675 N, and 0.1566 N stop them from twice that within 30 mm", () => {
  expect(snatch.value({ v: 0.09, k: 2000, m_eq: 0.29 })).toBeCloseTo(2.1675, 4);
  expect(spillDrag.value({ m_eq: 0.29, v: 0.09, x_l: 0.03 })).toBeCloseTo(0.1566, 4);
});
test("a heavier reel never wants less drag nor leaves more room for it", () => {
  const mass = fc.double({ min: 0.01, max: 2, noNaN: true });
  fc.assert(
    fc.property(mass, mass, (a, b) => {
      const [light, heavy] = [Math.min(a, b), Math.max(a, b)];
      const low = (m_eq: number) => spillDrag.value({ m_eq, v: 0.08, x_l: 0.03 });
      const high = (m_eq: number) =>
        mostDrag.value({ F_hole: 3, F_s: snatch.value({ v: 0.08, k: 2000, m_eq }), T_e: 0.4, F_d: 0.3, F_f: 0.4 });
      expect(low(heavy)).toBeGreaterThanOrEqual(low(light));
      expect(high(heavy)).toBeLessThanOrEqual(high(light));
    }),
    { seed: 421, numRuns: 100 },
  );
});

describe("in a scene", () => {
  const one = scene(heldByLeaf(8), embossedTape(8));
  test("8 mm tape on its small reel has a window between spilling and tearing", () => {
    expect(nominal(one, spillDrag)).toBeLessThan(nominal(one, dragOfReel));
    expect(nominal(one, dragOfReel)).toBeLessThan(nominal(one, mostDrag));
  });
  test("the hold-down's friction takes from what the reel may drag", () => {
    const { F_f } = mostDrag.reads(one)! as { F_f: { id?: string } };
    expect(F_f.id).toBe("hold.drag");
    const bare = scene(sideCrossing(8), embossedTape(8));
    expect(mostDrag.reads(bare)!.F_f).toMatchObject({ address: "bound/no force" });
  });
  test("a weighed reel comes before a guess of its mass", () => {
    const reel = {
      diameter: written("t/A", "A", "178 mm"),
      hub: written("t/N", "N", "60 mm"),
      mass: written("t/m", "m", "210 g", "g"),
    };
    const weighed = scene(heldByLeaf(12), tapeWith(12, { reel }));
    // 210 g by (1 + (30/84)^2)/2. [by hand]
    expect(nominal(weighed, reelInertia)).toBeCloseTo(0.105 * (1 + (30 / 84) ** 2), 9);
    expect(nominal(weighed, outerTurn) * 1e3).toBeCloseTo(84, 9);
  });
  test("the unit's room for a loop comes before what is assumed of it", () => {
    const own = spillDrag.reads(one)!.x_l;
    expect(own).toMatchObject({ text: "40 mm" });
    const bare = scene(sideCrossing(8), embossedTape(8));
    expect(spillDrag.reads(bare)!.x_l).toBe(bare.requirement.assume["loop room"]);
  });
  test("without a wheel no hole can tear, which is said", () => {
    for (const none of [scene(oneSeal(8), embossedTape(8)), scene(withBends(16), embossedTape(16))])
      expect(checkJerks.absent(none)).toBe("the unit has no sprocket");
  });
  test("a tape run at half a metre a second is outside the range", () => {
    expect(outside(snatch, { v: 0.5, k: 2000, m_eq: 0.3 })).toEqual(["v"]);
  });
});
