import { describe, expect, test } from "vitest";
import { pieceValue, settingsOf } from "./read-off.ts";
import { heatPath, heatUp, hotWinding, magnetFade, twoTemperatures } from "./warming.ts";

describe("a winding's heat", () => {
  // Copper: R = R_c (1 + a (T - T_c)), a = 0.00393 a kelvin at 20 degC, handbooks. [memory]
  test("comes back from its resistance, and a winding that is not warmer shows the cold temperature", () => {
    const set = settingsOf(hotWinding);
    const R = (T: number): number => 16 * (1 + set.a! * (T - set.T_c!));
    for (const T of [23, 60, 110]) expect(pieceValue(hotWinding, [{ R_h: R(T), R_c: 16 }], set)).toBeCloseTo(T, 9);
  });
  // C T' = P with nothing lost, stepped: 2 W into 1.6 J/K. [derived]
  test("its capacity comes back from how fast it warms under a known power", () => {
    let T = 24;
    for (let i = 0; i < 1000; i++) T += (2 / 1.6) * 0.01;
    expect(pieceValue(heatUp, [{ T_1: T, T_2: 24, V: 5, I: 0.4, t: 10 }], {})).toBeCloseTo(1.6, 9);
  });
  // In the steady state what is put in leaves through the path: P = dT/R. [derived]
  test("and its path, from where it settles: twice the power settles twice as far above", () => {
    const settles = (P: number): number => 24 + 44 * P;
    for (const I of [0.2, 0.4])
      expect(pieceValue(heatPath, [{ T_1: settles(2.5 * I), T_2: 24, V: 2.5, I }], {})).toBeCloseTo(44, 9);
  });
});
test("a magnet that loses 0.15 % a kelvin shows so at any speed", () => {
  for (const V_2 of [2, 5])
    expect(pieceValue(magnetFade, [{ V_1: V_2 * (1 - 0.0015 * 45), V_2, T_1: 68, T_2: 23 }], {})).toBeCloseTo(
      0.0015,
      12,
    );
});
test("two temperatures differ by the same whatever the room", () => {
  for (const room of [5, 30])
    expect(pieceValue(twoTemperatures, [{ T_1: room + 11.5, T_2: room }], {})).toBeCloseTo(11.5, 12);
});
