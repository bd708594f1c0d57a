import { describe, expect, test } from "vitest";
import { meshOf } from "./pair.ts";
import { type WormPair, wormMeshOf } from "./worm.ts";

const deg = Math.PI / 180;
const worm: WormPair = { module: 0.5, starts: 1, lead: 4.5 * deg, pressure: 20 * deg, teeth: 40, opened: 0 };

// Mott, Machine Elements in Mechanical Design, 4th ed., p. 343: lead 1.5708 in on a diameter of 2 in has a lead angle of 14.04 deg. [read]
test("a lead of 1.5708 in at 14.04 deg sits on a worm of 2 in", () => {
  const { centre } = wormMeshOf({ ...worm, module: 1.5708 / Math.PI / 4, starts: 4, lead: 14.04 * deg, teeth: 40 });
  expect(2 * (centre - (20 * 1.5708) / Math.PI / 4)).toBeCloseTo(2, 2);
});
test("a worm's axial section is a rack: the contact of a gear of a million teeth", () => {
  const rack = meshOf({ module: 0.5, pressure: 20 * deg, teeth: [40, 1_000_000], shifts: [0, 0], centre: 250_010 });
  expect(wormMeshOf({ ...worm, lead: 1e-6 }).contactRatio).toBeCloseTo(rack.contactRatio, 3);
});
describe("as the axes move apart", () => {
  test("backlash grows by twice the tangent of the axial angle, contact shrinks", () => {
    const [near, far] = [wormMeshOf(worm), wormMeshOf({ ...worm, opened: 0.1 })];
    const axial = Math.atan(Math.tan(20 * deg) / Math.cos(4.5 * deg));
    expect(far.backlash - near.backlash).toBeCloseTo(0.2 * Math.tan(axial), 12);
    expect(far.contactRatio).toBeLessThan(near.contactRatio);
    expect(far.clearance - near.clearance).toBeCloseTo(0.1, 12);
  });
  test("axes too near jam", () => expect(wormMeshOf({ ...worm, opened: -0.1 }).backlash).toBeLessThan(0));
});
test("a wheel of 16 teeth is undercut, of 20 not", () => {
  expect(wormMeshOf({ ...worm, teeth: 16 }).undercut).toBe(true);
  expect(wormMeshOf({ ...worm, teeth: 20 }).undercut).toBe(false);
});
describe("a worm that is none is refused in words", () => {
  test.each([
    [{ module: 0 }, "a module of 0 mm makes no teeth"],
    [{ starts: 0 }, "a worm with 0 starts is none"],
    [{ lead: 0 }, "a worm's lead angle lies between 0 and 80 deg"],
    [{ pressure: 0 }, "a worm's pressure angle lies between 3 and 57 deg"],
    [{ teeth: 3 }, "a worm wheel with 3 teeth is none: it needs a whole number of 4 or more"],
  ])("%o", (change, words) => expect(() => wormMeshOf({ ...worm, ...change })).toThrow(words));
});
