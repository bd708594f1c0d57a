import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import { driven, nominal } from "../scene.fixture.ts";
import { checkRegulator, linearJunction, switchingJunction } from "./regulator.ts";

// 6.7 V by 80 mA is 0.536 W; at 110 K/W 59 K over the room. By hand. [derived]
test("a linear regulator from 10 to 3.3 V at 80 mA and 110 K/W is 59 K warm", () => {
  expect(linearJunction.value({ T_a: 25, V: 10, V_o: 3.3, I: 0.08, R_t: 110 })).toBeCloseTo(83.96, 9);
});
test("one that is given less than it should give warms nothing", () => {
  expect(linearJunction.value({ T_a: 25, V: 3, V_o: 3.3, I: 0.08, R_t: 110 })).toBe(25);
});
// 3.3 V by 80 mA at 85 %: 46.6 mW lost. By hand. [derived]
test("a switching one of 85 % at the same load loses 47 mW", () => {
  expect(switchingJunction.value({ T_a: 0, V_o: 3.3, I: 0.08, e: 0.85, R_t: 1 })).toBeCloseTo(0.04659, 5);
});
describe("in a scene", () => {
  const [linear, switching] = [driven.sheetScene(), driven.windingScene()];
  test("its kind decides which is computed", () => {
    expect(chosen(checkRegulator.value, linear)).toBe(linearJunction);
    expect(chosen(checkRegulator.value, switching)).toBe(switchingJunction);
    expect(nominal(switching, switchingJunction)).toBeLessThan(nominal(linear, linearJunction));
  });
  test("a switching one without its efficiency is not judged, nor is a board without a regulator", () => {
    const { efficiency: _, ...regulator } = switching.unit.supply!.regulator!;
    const unknown = { ...switching, unit: { ...switching.unit, supply: { ...switching.unit.supply!, regulator } } };
    expect(checkRegulator.absent(unknown)).toBe("the switching regulator's efficiency is not given");
    const { regulator: __, ...supply } = switching.unit.supply!;
    expect(checkRegulator.absent({ ...switching, unit: { ...switching.unit, supply } })).toBe(
      "the unit's supply gives no regulator",
    );
  });
});
