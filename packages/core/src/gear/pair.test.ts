import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type GearPair, meshOf, tightCentre, undercutLimit } from "./pair.ts";

const deg = Math.PI / 180;
const pair = (
  module: number,
  teeth: readonly [number, number],
  centre: number,
  more: Partial<GearPair> = {},
): GearPair => ({
  module,
  pressure: 20 * deg,
  teeth,
  shifts: [0, 0],
  centre,
  ...more,
});

// Page of worked values "Profile Shifted External Spur Gears": module 3, shifts 0.6 and 0.36, axes 56.5 mm, tips shortened by 0.1267 modules. [read]
test("12 and 24 teeth shifted by 0.6 and 0.36 work at 26.0888 deg with a contact ratio of 1.202", () => {
  const p = pair(3, [12, 24], 56.5, { shifts: [0.6, 0.36], shortening: 0.96 - 0.83333 });
  expect(meshOf(p).working / deg).toBeCloseTo(26.0888, 4);
  expect(meshOf(p).contactRatio).toBeCloseTo(1.202, 3);
  expect(tightCentre(p)).toBeCloseTo(56.5, 3);
});
// Norton, Design of Machinery: diametral pitch 6. [memory]
test("19 and 37 teeth have a contact ratio of 1.62, and 22.89 deg when their axes are opened by 2 %", () => {
  expect(meshOf(pair(1 / 6, [19, 37], 56 / 12)).contactRatio).toBeCloseTo(1.62, 2);
  expect(meshOf(pair(1 / 6, [19, 37], (56 / 12) * 1.02)).working / deg).toBeCloseTo(22.89, 2);
});
// Khurmi and Gupta, Theory of Machines. [memory]
test("30 and 80 teeth of 12 mm with tips of 10 mm touch over a path of 52.3 mm", () => {
  const m = meshOf(pair(12, [30, 80], 660, { addendum: 10 / 12 }));
  expect(m.contactRatio * m.basePitch).toBeCloseTo(52.3, 1);
});
// Shigley, Mechanical Engineering Design: 14 in opened to 14.25 in, 22.56 deg with radii rounded to 0.01 in. [memory]
test("16 and 40 teeth opened by a quarter of an inch work near 22.6 deg", () =>
  expect(Math.abs(meshOf(pair(0.5, [16, 40], 14.25)).working / deg - 22.56)).toBeLessThan(0.06));
// A rack-cut tooth, point by point: validation/independent/gear.py. [derived]
describe("undercut takes part of the path away", () => {
  test.each([
    [10, 40, 0.5, [0, 0], 12.5, 1.5415, 1.0941],
    [8, 8, 0.5, [0, 0], 4, 1.3069, 0.5248],
    [9, 30, 1, [0.3, -0.3], 19.5, 1.4277, 1.2666],
  ] as const)("of %s and %s teeth, module %s", (z1, z2, m, shifts, centre, ratio, usable) => {
    const mesh = meshOf(pair(m, [z1, z2], centre, { shifts }));
    expect(mesh.contactRatio).toBeCloseTo(ratio, 3);
    expect(Math.abs(mesh.usable - usable)).toBeLessThan(2e-3);
    expect(mesh.undercut[0]).toBe(true);
  });
  // 2/sin^2: 17.1 teeth at 20 deg, 31.9 at 14.5 deg. [textbooks, memory]
  test("below 17.1 teeth at 20 deg and 31.9 at 14.5 deg", () => {
    expect(undercutLimit(20 * deg)).toBeCloseTo(17.1, 1);
    expect(undercutLimit(14.5 * deg)).toBeCloseTo(31.9, 1);
    expect(meshOf(pair(1, [17, 40], 28.5)).undercut).toEqual([true, false]);
    expect(meshOf(pair(1, [18, 40], 29)).undercut).toEqual([false, false]);
  });
  test("and a shift cures it", () => {
    const shifts = [0.5, 0] as const;
    const p = pair(1, [10, 40], 0, { shifts });
    const mesh = meshOf({ ...p, centre: tightCentre(p) });
    expect(mesh.undercut).toEqual([false, false]);
    expect(mesh.usable).toBeCloseTo(mesh.contactRatio, 9);
  });
});
describe("as the axes move apart", () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const any = fc.record({
    z1: fc.integer({ min: 10, max: 60 }),
    z2: fc.integer({ min: 10, max: 60 }),
    x1: number(-0.2, 0.6),
    x2: number(-0.2, 0.6),
    a: number(15, 25),
  });
  test("backlash and clearance grow, contact shrinks", () => {
    fc.assert(
      fc.property(any, number(0.005, 0.3), ({ z1, z2, x1, x2, a }, more) => {
        const p = pair(1, [z1, z2], 0, { shifts: [x1, x2], pressure: a * deg });
        const A = tightCentre(p);
        const [near, far] = [meshOf({ ...p, centre: A }), meshOf({ ...p, centre: A + more })];
        expect(near.backlash).toBeCloseTo(0, 9);
        expect(far.backlash).toBeGreaterThan(0);
        expect(far.clearance - near.clearance).toBeCloseTo(more, 9);
        expect(far.contactRatio).toBeLessThan(near.contactRatio);
        expect(near.usable).toBeLessThanOrEqual(near.contactRatio + 1e-9);
      }),
      { seed: 612, numRuns: 200 },
    );
  });
  // 2 x 0.1 mm x tan 20 deg, first order. [derived]
  test("a tenth of a millimetre gives 0.073 mm of backlash at 20 deg", () =>
    expect(meshOf(pair(0.5, [40, 40], 20.1)).backlash).toBeCloseTo(2 * 0.1 * Math.tan(20 * deg), 2));
});
test("every rack-cut pair gives numbers, never none", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 4, max: 80 }),
      fc.integer({ min: 4, max: 80 }),
      fc.double({ min: -0.5, max: 1, noNaN: true }),
      (z1, z2, x) => {
        const p = pair(1, [z1, z2], 0, { shifts: [x, 0] });
        let centre: number;
        try {
          centre = tightCentre(p);
        } catch (e) {
          expect(e).toBeInstanceOf(RangeError);
          return;
        }
        const mesh = meshOf({ ...p, centre: centre + 0.05 });
        for (const v of [mesh.usable, mesh.contactRatio, mesh.backlash, mesh.clearance, mesh.working])
          expect(v).toSatisfy(Number.isFinite);
      },
    ),
    { seed: 613, numRuns: 300 },
  );
});
describe("gears that are none are refused in words", () => {
  const good = pair(0.5e-3, [20, 24], 11e-3);
  test.each([
    [{ module: 0 }, "a module of 0 mm makes no teeth"],
    [{ pressure: 0 }, "a pressure angle of 0 deg makes no gear: it lies between 3 and 57 deg"],
    [{ teeth: [3, 24] }, "a gear with 3 teeth is none: it needs a whole number of 4 or more"],
    [{ teeth: [20, 24.5] }, "a gear with 24.5 teeth is none: it needs a whole number of 4 or more"],
    [{ centre: -1e-3 }, "two axes -1 mm apart carry no gears"],
    [{ centre: 10e-3 }, "gears of 20 and 24 teeth, module 0.5 mm, can't mesh 10 mm apart: their base circles meet"],
  ] as const)("%o", (change, words) => expect(() => meshOf({ ...good, ...change } as GearPair)).toThrow(words));
});
