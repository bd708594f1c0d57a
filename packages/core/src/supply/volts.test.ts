import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import type { Quantity } from "../quantity/model.ts";
import { driven, embossedTape, nominal, outside, scene, sideCrossing } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import {
  barResistance,
  cableResistance,
  checkDrop,
  contactsCarry,
  farVolts,
  leastVolts,
  railCurrent,
  unitVolts,
} from "./volts.ts";

const sheet = driven.sheetScene();
const asked = (more: Partial<NonNullable<Scene["requirement"]["supply"]>>): Scene => ({
  ...sheet,
  requirement: { ...sheet.requirement, supply: { ...sheet.requirement.supply!, ...more } },
});
const wire = {
  R_f: cableResistance.value({ rho: 1.72e-8, l: 1.5, A: 4e-6 }),
  R_r: barResistance.value({ rho: 1.72e-8, l: 0.7, A: 4e-6 }),
};
const rail = (n: number, n_s: number) =>
  farVolts.value({
    V: 10,
    I_t: railCurrent.value({ n, n_s, I_1: 1.25, I_u: 0.12 }) as number,
    ...wire,
    n,
    n_s,
    I_1: 1.25,
    I_u: 0.12,
    R_c: 0.01,
    n_p: 2,
  }) as number;

describe("a rail of forty units over 1.5 m and 0.7 m of 4 mm2", () => {
  // A ladder of forty pieces solved by linear equations, validation/independent/drive.py; a contact of 10 mohm each way, doubled: 12.5 mV. [derived]
  test.each([
    [4, 9.83877],
    [40, 9.20074],
  ])("leaves the last of %d that start at once %f V less its contacts", (n_s, volts) => {
    expect(rail(40, n_s)).toBeCloseTo(volts - 1.25 * 0.01, 5);
  });
  test("sags more with every further unit that starts at once", () => {
    const some = fc.integer({ min: 1, max: 40 });
    fc.assert(
      fc.property(some, some, (p, q) => {
        expect(rail(40, Math.max(p, q))).toBeLessThanOrEqual(rail(40, Math.min(p, q)) + 1e-12);
      }),
      { seed: 431, numRuns: 100 },
    );
  });
  test("knows no more units starting than there are", () => expect(rail(8, 40)).toBeCloseTo(rail(8, 8), 12));
  // 40 by 2 by 10/16 A, by hand: the working notes' worst case. [derived]
  test("draws 50 A where both motors of every unit start at once", () => {
    expect(railCurrent.value({ n: 40, n_s: 40, I_1: (2 * 10) / 16, I_u: 0 })).toBeCloseTo(50, 12);
  });
});
// Copper of 24 gauge, 0.511 mm: 83.9 mohm a metre. [derived]
test("a metre of 0.511 mm wire has 84 mohm, and twice that there and back", () => {
  expect(cableResistance.value({ rho: 1.72e-8, l: 1, A: (Math.PI / 4) * 0.511e-3 ** 2 })).toBeCloseTo(2 * 0.08387, 4);
});
describe("contacts of 3 A", () => {
  // A design note: 20 % for every doubling. [read]
  test.each([
    [1, 3],
    [2, 4.8],
    [4, 7.68],
  ])("carry, %d together, %f A", (n_p, A) => expect(contactsCarry.value({ I_p: 3, n_p })).toBeCloseTo(A, 9));
  test("are outside the rule from 32 on", () => expect(outside(contactsCarry, { n_p: 32 })).toEqual(["n_p"]));
});
describe("in a scene", () => {
  test("the far unit has less than the rail, and what it needs is stated or its regulator's", () => {
    expect(nominal(sheet, unitVolts(sheet)!)).toBeLessThan(10);
    expect(nominal(sheet, leastVolts(sheet)!)).toBe(8);
    const winding = driven.windingScene();
    // 3.3 V and 1.5 V over. [derived]
    expect(nominal(winding, chosen<Quantity>(checkDrop.atLeast, winding)!)).toBeCloseTo(4.8, 12);
  });
  test("the sentence counts units in whole numbers", () => {
    expect(checkDrop.because(() => "x", sheet)).toMatch(/^4 of 40 units starting at once draw x /);
  });
  test("a rail without copper is not judged; without a motor it keeps its volts", () => {
    const { cable: _, bar: __, ...stiff } = sheet.requirement.supply!;
    expect(checkDrop.absent({ ...sheet, requirement: { ...sheet.requirement, supply: stiff } })).toBe(
      "project.yaml gives neither the cable of the supply nor the bar along the units",
    );
    const bare = { ...scene(sideCrossing(), embossedTape(12)), requirement: sheet.requirement };
    expect(unitVolts(bare)).toBe(sheet.requirement.supply!.volts);
    expect(checkDrop.absent(bare)).toBe("the unit has no feed drive");
  });
  test("a board that says nothing of what it needs is not judged", () => {
    const { supply: _, ...unit } = sheet.unit;
    expect(checkDrop.absent({ ...sheet, unit })).toBe(
      "the unit's supply gives neither the least volts at which its board works nor its regulator's dropout",
    );
  });
  test("all units start at once where the project does not say how many", () => {
    const { together: _, ...rest } = sheet.requirement.supply!;
    const all = { ...sheet, requirement: { ...sheet.requirement, supply: rest } };
    expect(nominal(all, farVolts)).toBeLessThan(nominal(sheet, farVolts));
    const alone = asked({});
    expect(nominal(alone, farVolts)).toBe(nominal(sheet, farVolts));
  });
});
