import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { driven, nominal, outside, sideCrossing, written } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import {
  constantOf,
  type DriveData,
  frictionTorqueOf,
  inductanceOf,
  inertiaOf,
  motors,
  noMotor,
  resistanceOf,
  wormBackEfficiency,
  wormEfficiency,
} from "./motor.ts";

const withFeed = (change: (d: DriveData) => DriveData): Scene => {
  const scene = driven.sheetScene();
  return { ...scene, unit: { ...scene.unit, "feed drive": change(scene.unit["feed drive"]!) } };
};
const deg = (d: number) => (d * Math.PI) / 180;

describe("a sheet", () => {
  // 75.81:1, 12 V, 450 rpm, 0.08 A, 0.75 A, 1.0 kgf cm: a gear motor's data sheet [read]; R, k and efficiency by hand. [derived]
  test("of 12 V, 0.08 A, 450 rpm behind 75.81 to 1 and 0.75 A is a motor of 16 ohm and 3.0 mV s", () => {
    const R = motors.feed.resistance.value({ V_s: 12, I_s: 0.75 });
    expect(R).toBeCloseTo(16, 12);
    const k = motors.feed.constant.value({ V_s: 12, I_0: 0.08, R, N_h: 75.81, w_0: 47.1239 });
    expect(k * 1e3).toBeCloseTo(3.0007, 4);
    expect(motors.feed.headEfficiency.value({ M_s: 0.0980665, N_h: 75.81, k, I_s: 0.75, I_0: 0.08 })).toBeCloseTo(
      0.6434,
      4,
    );
    expect(motors.feed.friction.value({ k, I_0: 0.08 })).toBeCloseTo(2.4e-4, 6);
  });
  test("and a winding say one thing: the winding comes first", () => {
    const both = withFeed((d) => ({
      ...d,
      winding: {
        resistance: written("own/R", "R", "9.5 ohm", "ohm"),
        constant: written("own/k", "k", "4.2 mN*m/A", "mN*m/A"),
      },
    }));
    expect(nominal(both, resistanceOf(both, "feed")!)).toBe(9.5);
    expect(nominal(both, constantOf(both, "feed")!)).toBeCloseTo(4.2e-3, 12);
    // No friction in the winding, so the sheet's 70 mA by the winding's constant. [derived]
    expect(nominal(both, frictionTorqueOf(both, "feed")!)).toBeCloseTo(4.2e-3 * 0.07, 12);
  });
  test("that takes no less current free than held fast is refused in words", () => {
    const odd = withFeed((d) => ({
      ...d,
      sheet: { ...d.sheet!, "no-load current": written("own/I_0", "I_0", "0.72 A", "A") },
    }));
    expect(noMotor(odd, "feed")).toBe(
      "the sheet of the feed drive's motor gives no less current without a load than held fast",
    );
  });
});
describe("a motor that is not known", () => {
  test("says so, and has no resistance, rather than a usual one", () => {
    const bare = withFeed(() => ({ motor: "some motor" }));
    expect(noMotor(bare, "feed")).toBe(
      "the feed drive gives neither its motor's sheet nor its winding, so its resistance is not known",
    );
    expect(resistanceOf(bare, "feed")).toBeUndefined();
    expect(frictionTorqueOf(bare, "feed")).toBeUndefined();
    expect(noMotor({ ...bare, unit: sideCrossing() }, "peel")).toBe("the unit has no peel drive");
  });
  test("in its inductance and its rotor has what is believed of small motors", () => {
    const scene = driven.sheetScene();
    // Roots of 0.3 by 4 mH and of 4 by 25 g mm2: medians of the guesses. [derived]
    expect(nominal(scene, inductanceOf(scene, "feed"))).toBeCloseTo(Math.sqrt(0.3 * 4) * 1e-3, 9);
    expect(nominal(scene, inertiaOf(scene, "feed"))).toBeCloseTo(10e-9, 12);
  });
});
describe("the gears", () => {
  test("of 12 to 1 and a worm of one start on 40 teeth are 480 to 1", () => {
    expect(nominal(driven.sheetScene(), motors.feed.ratio)).toBe(480);
  });
  test("of 30 to 1 with 10 to 1 behind and no worm are 300 to 1", () => {
    expect(nominal(driven.windingScene(), motors.feed.ratio)).toBe(300);
  });
  test("with a worm and no teeth for its wheel say what is missing", () => {
    const { "wheel teeth": _, ...rest } = driven.sheetDriven()["feed drive"]!;
    const odd = withFeed(() => rest);
    expect(noMotor(odd, "feed")).toBe("the feed drive has a worm, and the teeth of its wheel are not given");
    expect(motors.feed.ratio.reads(odd)).toBeUndefined();
    expect(motors.feed.efficiency.reads(odd)).toBeUndefined();
  });
  test("pass on the product of what each passes on", () => {
    const scene = driven.sheetScene();
    const [e, head, worm] = [motors.peel.efficiency, 0.65, motors.peel.wormForward].map((q) =>
      typeof q === "number" ? q : nominal(scene, q),
    );
    expect(e).toBeCloseTo(head! * worm!, 12);
  });
});
describe("a worm", () => {
  // Forces on a flank in three dimensions, validation/independent/drive.py. [derived]
  test.each([
    [4.5, 20, 0.12, 0.377469, -0.616404],
    [9, 14.5, 0.05, 0.747937, 0.668458],
  ])("of %f deg, pressure angle %f deg, friction %f passes on %f forward and %f back", (l, a, mu, e, back) => {
    expect(wormEfficiency(deg(l), deg(a), mu)).toBeCloseTo(e, 6);
    expect(wormBackEfficiency(deg(l), deg(a), mu)).toBeCloseTo(back, 6);
  });
  test("locks exactly from the friction cos a tan l on, and then passes on less than half forward", () => {
    const lead = fc.double({ min: 0.01, max: 0.5, noNaN: true });
    const pressure = fc.double({ min: 0.2, max: 0.5, noNaN: true });
    fc.assert(
      fc.property(lead, pressure, (l, a) => {
        const mu = Math.cos(a) * Math.tan(l);
        expect(wormBackEfficiency(l, a, mu * 1.001)).toBeLessThan(0);
        expect(wormBackEfficiency(l, a, mu * 0.999)).toBeGreaterThan(0);
        expect(wormEfficiency(l, a, mu)).toBeLessThan(0.5);
      }),
      { seed: 401, numRuns: 200 },
    );
  });
  test("without friction loses nothing either way", () => {
    expect(wormEfficiency(0.1, 0.35, 0)).toBeCloseTo(1, 12);
    expect(wormBackEfficiency(0.1, 0.35, 0)).toBeCloseTo(1, 12);
  });
  // Mott, Machine Elements, 4th ed., p. 343: lead 1.5708 in on 2.000 in is 14.04 deg. [read]
  test("of a lead of 1.5708 at 14.04 deg has a pitch diameter of 2", () => {
    expect(motors.feed.wormDiameter.value({ m: 0.25, n_w: 2, lambda: deg(14.0362) })).toBeCloseTo(2, 4);
  });
  test("of 60 deg is outside the range, and so is a friction of 0.9", () => {
    expect(outside(motors.feed.wormForward, { lambda: deg(60), alpha_n: deg(20), mu_w: 0.9 })).toEqual([
      "lambda",
      "mu_w",
    ]);
  });
});
