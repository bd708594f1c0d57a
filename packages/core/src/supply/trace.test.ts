import { describe, expect, test } from "vitest";
import { driven, nominal, outside } from "../scene.fixture.ts";
import { bothRunning, checkTrace, traceRise } from "./trace.ts";

const mil = 25.4e-6;
// IPC-2221 fit: k 0.048 and 0.024, exponents 0.44 and 0.725 [read]; widths for 10 and 20 K worked out from them. [derived]
describe("35 um of copper", () => {
  test.each([
    ["outside", 0.048, 1, 11.83, 10],
    ["inside", 0.024, 1, 30.76, 10],
    ["outside", 0.048, 5, 71.5, 20],
  ])("%s (%f) with %f A and %f mil warms by %f K", (_, c, I, w, rise) => {
    expect(traceRise.value({ I, c, w: w * mil, t: 1.378 * mil })).toBeCloseTo(rise, 1);
  });
  test("twice as wide or twice as thick warms alike, by a third", () => {
    const at = (w: number, t: number) => traceRise.value({ I: 1, c: 0.048, w, t }) as number;
    expect(at(2e-3, 35e-6)).toBeCloseTo(at(1e-3, 70e-6), 12);
    expect(at(2e-3, 35e-6) / at(1e-3, 35e-6)).toBeCloseTo(2 ** (-0.725 / 0.44), 9);
  });
});
test("a plane of 20 mm is outside the fit", () => {
  expect(outside(traceRise, { I: 1, c: 0.048, w: 20e-3, t: 35e-6 })).toEqual(["w"]);
});
describe("in a scene", () => {
  const sheet = driven.sheetScene();
  test("both motors running count, and the board", () => expect(nominal(sheet, bothRunning)).toBeGreaterThan(0.03));
  test("a unit without a trace, or without a motor, is not judged", () => {
    const { trace: _, ...supply } = sheet.unit.supply!;
    expect(checkTrace.absent({ ...sheet, unit: { ...sheet.unit, supply } })).toBe("the unit's supply gives no trace");
    const { "feed drive": __, "peel drive": ___, ...still } = sheet.unit;
    expect(checkTrace.absent({ ...sheet, unit: still })).toBe("no motor of the unit is known together with its supply");
  });
});
