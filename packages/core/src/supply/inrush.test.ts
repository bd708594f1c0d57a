import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import { driven, nominal } from "../scene.fixture.ts";
import { checkInrush, overshoot, peakCurrent, plugCurrent, plugPeak, plugRatio } from "./inrush.ts";

describe("a ceramic of 10 uF plugged into 10 V", () => {
  // A review of the working notes: 80 mohm and 1 uH ring to 16.7 V; steps in time say 16.69917. [derived]
  test("through 80 mohm and 1 uH rings to 16.7 V", () => {
    expect(overshoot(10, 0.08, 1e-6, 10e-6)).toBeCloseTo(16.69917, 4);
  });
  // A converter maker's note: up to twice the volts. [read]
  test("without resistance doubles the volts, and never more than doubles them", () => {
    expect(overshoot(10, 0, 1e-6, 10e-6)).toBeCloseTo(20, 12);
    const loop = fc.double({ min: 1e-3, max: 10, noNaN: true });
    const henry = fc.double({ min: 1e-8, max: 1e-5, noNaN: true });
    fc.assert(
      fc.property(loop, henry, (R, L) => {
        const volts = overshoot(10, R, L, 10e-6);
        expect(volts).toBeGreaterThanOrEqual(10);
        expect(volts).toBeLessThanOrEqual(20);
      }),
      { seed: 441, numRuns: 200 },
    );
  });
  test("through 2 ohm and 1 uH does not ring at all", () => expect(overshoot(10, 2, 1e-6, 10e-6)).toBeCloseTo(10, 9));
});
describe("220 uF plugged into 10 V", () => {
  // Steps in time, validation/independent/drive.py. [derived]
  test.each([
    [0.15, 1e-6, 50.7479],
    [0.03, 0.5e-6, 138.5716],
  ])("through %f ohm and %f H draw %f A at the peak", (R, L, A) => {
    expect(peakCurrent(10, R, L, 220e-6)).toBeCloseTo(A, 3);
  });
  test("draw no more than volts over resistance, and close to it without inductance", () => {
    expect(peakCurrent(10, 0.15, 1e-13, 220e-6)).toBeCloseTo(10 / 0.15, 2);
    const henry = fc.double({ min: 1e-9, max: 1e-4, noNaN: true });
    fc.assert(
      fc.property(henry, (L) => {
        expect(peakCurrent(10, 0.15, L, 220e-6)).toBeLessThanOrEqual(10 / 0.15);
      }),
      { seed: 443, numRuns: 200 },
    );
  });
  test("have no jump where the damping is critical", () => {
    const R = 2 * Math.sqrt(1e-6 / 220e-6);
    const [below, at, above] = [1 - 1e-7, 1, 1 + 1e-7].map((s) => peakCurrent(10, R * s, 1e-6, 220e-6));
    expect(below! / at!).toBeCloseTo(1, 5);
    expect(above! / at!).toBeCloseTo(1, 5);
  });
  test("through a loop of nothing are refused", () => {
    expect(() => peakCurrent(10, 0, 1e-6, 1e-6)).toThrow(
      "a loop needs resistance, inductance and capacitance above nothing",
    );
  });
});
describe("in a scene", () => {
  const [sheet, winding] = [driven.sheetScene(), driven.windingScene()];
  test("a board that gives its volts is held to them, one that gives a surge as well to the worse of both", () => {
    expect(chosen(checkInrush.value, sheet)).toBe(plugPeak);
    expect(chosen(checkInrush.value, winding)).toBe(plugRatio);
    expect(plugRatio.where!({ V_p: 10, V_w: 20, I_p: 50, I_w: 60 })).toBe("the current");
    expect(plugRatio.where!({ V_p: 19, V_w: 20, I_p: 5, I_w: 60 })).toBe("the volts");
  });
  test("a board that gives its surge alone is held to that", () => {
    const { withstands: _, ...supply } = winding.unit.supply!;
    const one = { ...winding, unit: { ...winding.unit, supply } };
    expect(chosen(checkInrush.value, one)).toBe(plugCurrent);
    expect(checkInrush.absent(one)).toBeUndefined();
  });
  test("a soft start takes current and ringing away", () => {
    const { "soft start": _, ...supply } = winding.unit.supply!;
    const hard = { ...winding, unit: { ...winding.unit, supply } };
    expect(nominal(hard, plugCurrent)).toBeGreaterThan(3 * nominal(winding, plugCurrent));
    expect(nominal(hard, plugPeak)).toBeGreaterThanOrEqual(nominal(winding, plugPeak));
  });
  test("what is missing is said", () => {
    const without = (...names: string[]) => ({
      ...sheet,
      unit: {
        ...sheet.unit,
        supply: Object.fromEntries(Object.entries(sheet.unit.supply!).filter(([k]) => !names.includes(k))),
      },
    });
    expect(checkInrush.absent(without("ceramic", "bulk"))).toBe("the unit's supply gives no capacitors");
    expect(checkInrush.absent(without("withstands"))).toBe(
      "the unit's supply gives neither the volts it withstands nor the surge it bears",
    );
    const { supply: _, ...requirement } = sheet.requirement;
    expect(checkInrush.absent({ ...sheet, requirement })).toBe("project.yaml gives no supply");
  });
});
