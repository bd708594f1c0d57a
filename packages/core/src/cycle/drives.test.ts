import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type DriveDesign, type IndexDesign, troubles } from "./design.ts";
import { bareDesign, inventedDesign, randomDesign, seeded } from "./drives.ts";
import { isConstant, periodic } from "./tooth-play.ts";
import { wormFriction } from "./worm.ts";

const designs = (seed: number, n: number): IndexDesign[] => {
  const random = seeded(seed);
  return Array.from({ length: n }, () => randomDesign(random));
};
const mean = (x: readonly number[]): number => x.reduce((a, b) => a + b, 0) / x.length;

describe("numbers from a seed", () => {
  test("are the same again, and others for another seed", () => {
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const [a, b, other] = [seeded(seed), seeded(seed), seeded(seed + 1)];
        const first = Array.from({ length: 20 }, a);
        expect(Array.from({ length: 20 }, b)).toEqual(first);
        expect(Array.from({ length: 20 }, other)).not.toEqual(first);
      }),
      { seed: 151, numRuns: 200 },
    );
  });
  test("lie evenly from 0 to below 1, and one says nothing of the next", () => {
    const n = 20_000;
    const random = seeded(5);
    const x = Array.from({ length: n }, random);
    expect(x.every((v) => v >= 0 && v < 1)).toBe(true);
    // Five standard errors: an even law's standard deviation is 1/root 12. [derived]
    expect(Math.abs(mean(x) - 0.5)).toBeLessThan(5 / Math.sqrt(12 * n));
    const tenths = Array.from({ length: 10 }, (_, k) => x.filter((v) => Math.floor(v * 10) === k).length);
    for (const count of tenths) expect(Math.abs(count - n / 10)).toBeLessThan(5 * Math.sqrt(n * 0.09));
    const r = mean(x.slice(1).map((v, i) => (v - 0.5) * (x[i]! - 0.5))) * 12;
    expect(Math.abs(r)).toBeLessThan(5 / Math.sqrt(n));
  });
});
describe("the invented unit", () => {
  test("runs, and is made anew for each who asks", () => {
    expect(troubles(inventedDesign())).toEqual([]);
    expect(inventedDesign()).toEqual(inventedDesign());
    expect(inventedDesign().feed).not.toBe(inventedDesign().feed);
  });
  // 24 holes of 4 mm round the wheel. [derived]
  test("has a wheel of 24 teeth, and indexes by one hole", () => {
    expect((2 * Math.PI * inventedDesign().wheel.radius) / 24).toBeCloseTo(4e-3, 6);
    expect(inventedDesign().commands.travel).toBe(4e-3);
  });
  // No-load speed V/k over the ratio by the wheel's radius: 10/3e-3/480 rad/s by 15.28 mm is 106 mm/s, 4 mm in 38 ms without a load. [derived]
  test("can pull its 4 mm within the 60 ms that are said of it", () => {
    const { feed, wheel, commands } = inventedDesign();
    const speed = (feed.volts / feed.k / feed.ratio) * wheel.radius;
    expect(commands.travel / speed).toBeCloseTo(0.038, 3);
    expect(commands.travel / speed).toBeLessThan(0.06);
  });
});
describe("a design at random", () => {
  // Drawn where they are asked for, so that what is wrong with the draw fails the test that says so.
  const thousand = () => designs(7, 1000);
  const drivesOf = (many: readonly IndexDesign[]): DriveDesign[] => many.flatMap((d) => [d.feed, d.peel!]);
  const within = (what: readonly number[], low: number, high: number): void => {
    expect(Math.min(...what)).toBeGreaterThanOrEqual(low * (1 - 1e-12));
    expect(Math.max(...what)).toBeLessThanOrEqual(high * (1 + 1e-12));
    // A thousand draws come near both ends.
    const near = (high - low) / 20;
    expect(Math.min(...what)).toBeLessThan(low + near);
    expect(Math.max(...what)).toBeGreaterThan(high - near);
  };
  test("is the same for the same numbers", () => {
    // Functions of the wheel's angle are held as samples, so designs compare whole.
    expect(designs(3, 5)).toEqual(designs(3, 5));
    expect(designs(3, 1)).not.toEqual(designs(4, 1));
  });
  test("has tape, seal, tooth play and volts as wide as is said of them", () => {
    const many = thousand();
    const drives = drivesOf(many);
    within(
      many.map((d) => d.tape.mass),
      1e-3,
      60e-3,
    );
    within(
      many.map((d) => d.film!.peelForce),
      0.1,
      1.5,
    );
    within(
      drives.map((d) => d.volts),
      6,
      12,
    );
    const constant = many.filter((d) => isConstant(d.wheel.play));
    within(
      constant.map((d) => d.wheel.play.hi[0]! - d.wheel.play.lo[0]!),
      0,
      0.3e-3,
    );
  });
  test("never sticks with less than it slides with", () => {
    const many = thousand();
    for (const { tape } of many) {
      expect(tape.sticking).toBeGreaterThanOrEqual(tape.sliding);
      expect(tape.sticking).toBeLessThanOrEqual(1.6 * tape.sliding);
    }
  });
  test("has gears that lock and gears that run back, nips that slip and nips that hold", () => {
    const many = thousand();
    const drives = drivesOf(many);
    const locking = drives.filter((d) => d.backward <= 0).length;
    expect(locking).toBeGreaterThan(200);
    expect(drives.length - locking).toBeGreaterThan(200);
    const slips = many.filter((d) => d.film!.traction < d.film!.peelForce).length;
    expect(slips).toBeGreaterThan(50);
    expect(many.length - slips).toBeGreaterThan(50);
  });
  test("has the efficiency of its worm, which is one of 20 degrees", () => {
    const drives = drivesOf(thousand());
    const of = ({ worm }: DriveDesign) => wormFriction(worm!.lead, worm!.friction, worm!.pressure);
    for (const d of [...drives, inventedDesign().feed, inventedDesign().peel!]) {
      expect({ forward: d.forward, backward: d.backward }).toEqual(of(d));
      expect((d.worm!.pressure * 180) / Math.PI).toBeCloseTo(20, 1);
    }
  });
  // Half of them, give or take five standard errors of a fair coin. [derived]
  test("has every second wheel wavy by up to 20 um, alike from tooth to tooth, its play the same all round", () => {
    const many = thousand();
    const wavy = many.map((d) => d.wheel.play).filter((p) => !isConstant(p));
    expect(Math.abs(wavy.length - 500)).toBeLessThan(5 * Math.sqrt(250));
    const slope = new Float64Array(1);
    for (const { pitch, lo, hi } of wavy) {
      expect((2 * Math.PI) / pitch).toBeCloseTo(24, 9);
      const play = hi[0]! - lo[0]!;
      const off = Math.max(...lo.map((v, i) => Math.abs(hi[i]! - v - play)));
      expect(off).toBeLessThan(1e-12);
      expect(Math.max(...lo) + play / 2).toBeLessThanOrEqual(20.001e-6);
      expect(periodic(lo, pitch, 0.1 + pitch, slope)).toBeCloseTo(periodic(lo, pitch, 0.1, slope), 12);
    }
  });
});
test("a bare unit has nothing left that rubs, bears or drives, and runs for as long as it is told", () => {
  const d = bareDesign(0.25);
  expect(d.peel).toBeUndefined();
  expect(d.film).toBeUndefined();
  const { feed, wheel, tape, reel } = d;
  expect([feed.T0, feed.shaftFriction, tape.sliding, tape.sticking, tape.viscous, reel.friction]).toEqual(
    Array(6).fill(0),
  );
  expect([feed.stiffness, wheel.stiffness, wheel.damping, reel.stiffness, reel.damping]).toEqual(Array(5).fill(0));
  expect([feed.forward, feed.backward, feed.worm]).toEqual([1, 1, undefined]);
  expect(d.commands.end).toBe(0.25);
  expect(d.commands.feedStart).toBeGreaterThan(d.commands.end);
});
