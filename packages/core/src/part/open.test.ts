import { describe, expect, test } from "vitest";
import { indexJolt } from "../cycle/index-model.ts";
import type { Model } from "../quantity/model.ts";
import { driven, embossedTape, nominal, oneSeal, scene } from "../scene.fixture.ts";
import { noOpenPart, openIndexes, speedChange } from "./open.ts";

const sheet = driven.sheetScene();
// 9 mm from the peel line to the pick over a pitch of 8 mm, by hand. [derived]
test("9 mm of open tape at a pitch of 8 mm are 1.125 indexes in the open", () => {
  expect(nominal(sheet, openIndexes)).toBeCloseTo(9 / 8, 9);
});
describe("the tape's speed changes within a millisecond", () => {
  // A fifth of 10 V over 3 mV s and 480 to 1 at 15.28 mm: 21.2 mm/s, by hand. [derived]
  test("by a share of what the drive runs at without a load, where its motor is known", () => {
    const model = speedChange(sheet) as Model;
    expect(model.value({ q_v: 0.2, V: 10, r_p: 15.28e-3, k: 3e-3, N: 480 }) * 1e3).toBeCloseTo(21.22, 2);
    // The simulated index of this scene lies within what is believed of the share.
    const free = nominal(sheet, model) / Math.sqrt(0.06 * 0.5);
    const share = nominal(sheet, indexJolt) / free;
    expect(share).toBeGreaterThan(0.06);
    expect(share).toBeLessThan(0.5);
  });
  test("by what is assumed where nobody knows the motor", () => {
    const one = scene(oneSeal(), sheet.tape);
    expect(speedChange(one)).toMatchObject({ address: "assume/speed change" });
  });
});
describe("a part in the open is not judged", () => {
  test("while its figures are not given, and which ones is said", () => {
    const bare = { ...sheet, tape: embossedTape(12) };
    expect(noOpenPart(bare, "partMass", "partLength")).toBe(
      "the tape file does not give the part's mass and length along the travel",
    );
    expect(noOpenPart(sheet, "partMass", "partHeight", "partLength", "partWidth")).toBeUndefined();
  });
  test("in a unit that does not say where its film is opened", () => {
    const one = { ...scene(oneSeal(), sheet.tape) };
    expect(noOpenPart(one, "partHeight")).toBe("the unit file does not say where the film is opened");
  });
  test("on a route without a pick", () => {
    const route = sheet.unit.tape.route.filter((p) => p.mark !== "pick");
    const one = { ...sheet, unit: { ...sheet.unit, tape: { ...sheet.unit.tape, route } } };
    expect(noOpenPart(one, "partHeight")).toBe('the route has no mark "pick"');
    expect(openIndexes.reads(one)).toBeUndefined();
  });
});
