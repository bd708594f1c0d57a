import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  embossedTape,
  nominal,
  oneSeal,
  outside,
  overhead,
  scene,
  sideCrossing,
  withBends,
  written,
} from "../scene.fixture.ts";
import { bindingLength, checkYaw, wallForce, yaw, yawAcross, yawAlong, yawLength, yawMoment } from "./yaw.ts";

// A rectangle turned about its tooth until a corner touches: validation/independent/yaw.py. The review of the unpublished working notes
// prints 26/13/8, 86/43/26, 152/76/45, 735/368/221 um for 0.225 mm to either wall over 30, 60, 100 mm. [derived]
const table = [
  [8, 3.5, [26.24, 13.12, 7.87], [26, 13, 8]],
  [24, 11.5, [86.23, 43.12, 25.87], [86, 43, 26]],
  [44, 20.2, [151.46, 75.75, 45.45], [152, 76, 45]],
  // The notes take F 98.0 mm; EIA-481-D p. 15 has 98.2.
  [200, 98.0, [734.82, 367.49, 220.5], [735, 368, 221]],
] as const;
describe("yaw moves the pocket at the pick", () => {
  const error = (F: number, l: number) => yawAlong.value({ psi: yaw.value({ c: 0.45, W: 0, l }), F }) * 1e3;
  test.each(table)("of %i mm tape", (_, F, turned, printed) => {
    [30, 60, 100].forEach((l, i) => {
      // Two parts in a thousand for the small angle.
      expect(Math.abs(error(F, l) / turned[i]! - 1)).toBeLessThan(2e-3);
      expect(Math.abs(error(F, l) - printed[i]!)).toBeLessThanOrEqual(0.5 + 1e-9);
    });
  });
  test("across by 52.5 um where the wheel stands 14 mm from the pick and the tape turns by 3.75 mrad", () => {
    expect(yaw.value({ c: 24.45, W: 24, l: 60 }) * 1e3).toBeCloseTo(3.74978, 3);
    expect(yawAcross.value({ psi: 3.75e-3, s_w: 14, s_p: 0 }) * 1e3).toBeCloseTo(52.497, 2);
    expect(yawAcross.value({ psi: 3.75e-3, s_w: -14, s_p: 0 })).toBeCloseTo(0.0525, 9);
  });
  test("by nothing in a channel as narrow as the tape, or narrower", () => {
    expect(yaw.value({ c: 24, W: 24, l: 60 })).toBe(0);
    expect(yaw.value({ c: 23.9, W: 24, l: 60 })).toBe(0);
  });
  test("in proportion to the play and against the guided length", () => {
    const size = fc.double({ min: 0.1, max: 3, noNaN: true });
    fc.assert(
      fc.property(size, size, size, (play, l, more) => {
        const psi = yaw.value({ c: 24 + play, W: 24, l: 30 * l });
        expect(yaw.value({ c: 24 + play * more, W: 24, l: 30 * l })).toBeCloseTo(psi * more, 9);
        expect(yaw.value({ c: 24 + play, W: 24, l: 30 * l * more })).toBeCloseTo(psi / more, 9);
      }),
      { seed: 331, numRuns: 100 },
    );
  });
});

// Where the determinant of the three equations of the rigid tape is nought: validation/independent/yaw.py. [derived]
describe("the tape jams askew at a guided length of", () => {
  test.each([
    [24, 7.175],
    [44, 14.175],
  ])("%i mm tape, friction 0.35: %f mm", (W, l) => {
    expect(bindingLength.value({ mu_w: 0.35, W, E_1: 1.75 })).toBeCloseTo(l, 9);
  });
});
describe("the walls bear", () => {
  // Drag 0.6 N in the tape's middle, film 1.8 N forward at the pocket of 24 mm tape; N from three linear equations: the same program. [derived]
  const M = yawMoment.value({ F_h: 0.6, W: 24, E_1: 1.75, F_f: 1.8, F: 11.5 });
  test("a moment of -14.55 N mm with 0.275 N over 60 mm", () => {
    expect(M).toBeCloseTo(-14.55, 12);
    expect(wallForce.value({ M, l: 60, l_b: 7.175 })).toBeCloseTo(0.27544, 5);
  });
  // Drag alone: 0.6 N by 10.25 mm, by hand. [derived]
  test("6.15 N mm where no film is led", () => {
    expect(yawMoment.value({ F_h: 0.6, W: 24, E_1: 1.75, F_f: 0, F: 11.5 })).toBeCloseTo(6.15, 12);
  });
  test("more the nearer the guided length comes to jamming, and a negative force beyond it", () => {
    const share = fc.double({ min: 0.01, max: 0.98, noNaN: true });
    fc.assert(
      fc.property(share, share, (p, q) => {
        const [near, far] = [Math.max(p, q), Math.min(p, q)];
        const at = (s: number) => wallForce.value({ M, l: 7 / s, l_b: 7 });
        expect(at(near)).toBeGreaterThanOrEqual(at(far));
        expect(wallForce.value({ M, l: 7 * near, l_b: 7 })).toBeLessThan(0);
      }),
      { seed: 332, numRuns: 100 },
    );
  });
});

describe("the guided length upstream of the wheel", () => {
  const x = { L: 60e-3, lines: [90e-3, 9e-3], arcs: [], s_w: 14e-3, s_0: 0 };
  test("is what the file says, but no more than the route has there", () => {
    expect(yawLength.value(x)).toBe(60e-3);
    expect(yawLength.value({ ...x, L: 1 }) * 1e3).toBeCloseTo(113, 9);
  });
  // A quarter turn of 40 mm is 62.8 mm long. By hand. [derived]
  test("counts bends along their arcs, and a wheel ahead of the placed mark by what lies between", () => {
    const bent = { ...x, L: 1, lines: [10e-3], arcs: [{ radius: 40e-3, turn: -Math.PI / 2 }] };
    expect(yawLength.value(bent) * 1e3).toBeCloseTo(10 + 20 * Math.PI + 14, 9);
    expect(yawLength.value({ ...bent, s_0: 5e-3 }) * 1e3).toBeCloseTo(5 + 20 * Math.PI + 14, 9);
  });
  test("has no answer where the wheel stands before the route begins", () => {
    expect(() => yawLength.value({ ...x, s_w: -0.2 })).toThrow("before the beginning of the route");
  });
  test("of an overhead unit without a guided length is 96 + 10 + 14 mm of its route", () => {
    expect(nominal(scene(overhead(24), embossedTape(24)), yawLength) * 1e3).toBeCloseTo(120, 9);
    expect(nominal(scene(sideCrossing(12), embossedTape(12)), yawLength) * 1e3).toBeCloseTo(60, 9);
  });
});

describe("in a scene", () => {
  test("60 mm of 12 mm tape with 0.45 mm of play turn by 3.75 mrad: 20.6 um along, 52.5 um across", () => {
    const unit = sideCrossing(12);
    const section = { ...unit.tape.section, width: written("u/width", "c", "12.45 mm") };
    const one = scene({ ...unit, tape: { ...unit.tape, section } }, embossedTape(12));
    expect(nominal(one, yaw) * 1e3).toBeCloseTo(3.75, 9);
    expect(nominal(one, yawAlong) * 1e6).toBeCloseTo(20.625, 6);
    expect(nominal(one, yawAcross) * 1e6).toBeCloseTo(52.5, 6);
  });
  test("a wheel with hardly any guide behind it jams the tape; the usual one doesn't", () => {
    const guided = (text: string) => {
      const unit = sideCrossing(24);
      const section = { ...unit.tape.section, "guided length": written("u/guided", "L", text) };
      const one = scene({ ...unit, tape: { ...unit.tape, section } }, embossedTape(24));
      return nominal(one, yawLength) - nominal(one, bindingLength);
    };
    expect(guided("4 mm")).toBeLessThan(0);
    expect(guided("60 mm")).toBeGreaterThan(0.03);
  });
  test("where no film is led its pull on the tape counts as nothing", () => {
    const { film: _, ...rest } = sideCrossing(12);
    const unled = scene({ ...rest, film: { opens: "middle cut" } }, embossedTape(12));
    const { F_f } = yawMoment.reads(unled)! as { F_f: { address: string } };
    expect(F_f.address).toBe("bound/no force");
    expect(nominal(unled, yawMoment)).toBeGreaterThan(0);
  });
  test("without a sprocket nothing says where the tape turns", () => {
    const none = scene(oneSeal(), embossedTape(8));
    expect(checkYaw.absent(none)).toBe("the unit has no sprocket");
    for (const m of [yaw, yawAlong, yawAcross, yawLength, wallForce]) expect(m.reads(none)).toBeUndefined();
    expect(checkYaw.absent(scene(withBends(16), embossedTape(16)))).toBe("the unit has no sprocket");
  });
  test("without a pick mark only the error across is missing", () => {
    const unit = sideCrossing(12);
    const route = unit.tape.route.map((p) => (p.mark === "pick" ? { mark: "place" } : p)) as typeof unit.tape.route;
    const place = { ...unit.tape.place, mark: "place" };
    const one = scene({ ...unit, tape: { ...unit.tape, route, place } }, embossedTape(12));
    expect(yawAcross.reads(one)).toBeUndefined();
    expect(yawAlong.reads(one)).toBeDefined();
  });
  test("a friction of 1 and a guided length of 3 m are outside the range", () => {
    expect(outside(bindingLength, { mu_w: 1, W: 0.024, E_1: 1.75e-3 })).toEqual(["mu_w"]);
    expect(outside(yawLength, { L: 3 })).toEqual(["L"]);
  });
});
