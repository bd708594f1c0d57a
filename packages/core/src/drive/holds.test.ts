import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import type { Quantity } from "../quantity/model.ts";
import { driven, embossedTape, nominal, scene, sideCrossing } from "../scene.fixture.ts";
import { checkHolds } from "./holds.ts";
import { wormEfficiency } from "./motor.ts";

const deg = (d: number) => (d * Math.PI) / 180;
const sheet = driven.sheetScene();
const limit = nominal(sheet, chosen<Quantity>(checkHolds.atMost, sheet)!);

// A gear maker's note: locks below an efficiency of 0.45, unsure up to 0.55. [read]
test("a worm is trusted to lock below 45 %", () => expect(limit).toBeCloseTo(0.45, 12));
// A review of the working notes: 4.5 deg tips at a friction of 0.089, 4.0 deg locks over all of 0.08 to 0.25. [derived]
describe("over frictions of 0.08 to 0.25", () => {
  const frictions = Array.from({ length: 18 }, (_, i) => 0.08 + 0.01 * i);
  test("a lead of 4.0 deg locks at every one of them", () => {
    for (const mu of frictions) expect(wormEfficiency(deg(4), deg(20), mu)).toBeLessThan(limit);
  });
  test("a lead of 4.5 deg does not at 0.08, and does from 0.09 on", () => {
    const locks = frictions.map((mu) => wormEfficiency(deg(4.5), deg(20), mu) < limit);
    expect(locks[0]).toBe(false);
    expect(locks.slice(1)).not.toContain(false);
  });
});
describe("in a scene", () => {
  test("a drive without a worm is not judged, and a unit without a drive neither", () => {
    expect(checkHolds.absent(driven.windingScene())).toBe(
      "the feed drive has no worm; what else holds the tape while it stands is not judged",
    );
    expect(checkHolds.absent(scene(sideCrossing(), embossedTape(12)))).toBe("the unit has no feed drive");
  });
  test("the worm of 4.0 deg holds as written", () => {
    expect(checkHolds.absent(sheet)).toBeUndefined();
    expect(nominal(sheet, chosen(checkHolds.value, sheet)!)).toBeLessThan(limit);
  });
});
