import { describe, expect, test } from "vitest";
import type { RigidNumbers } from "./rigid.ts";
import { countError, shiftByDrag, shiftByVolts } from "./stops.ts";

const cold: RigidNumbers = {
  V: 12,
  R: 16,
  R_b: 0.6,
  k: 3e-3,
  J: 1e-8,
  T_0: 1.5e-4,
  N: 320,
  e: 0.5,
  J_w: 4e-7,
  M: 0.02,
  m_eq: 0.05,
};
const hot: RigidNumbers = { ...cold, V: 11.2, R: 19.5, k: 2.8e-3 };
const radius = (24 * 4e-3) / (2 * Math.PI);
const place = { r_p: radius, S: 4e-3, slow: false } as const;

/**
 * Where the tape stops that is braked `lead` before its end: rotor and load as one body under volts, the rotor alone as it is shorted, in small
 * steps of the midpoint rule. Written anew from the two equations of motion.
 */
function stopOf(x: RigidNumbers, lead: number): number {
  const h = 1e-6;
  const perTurn = radius / x.N;
  const R = x.R + x.R_b;
  const T = x.T_0 + x.M / (x.N * x.e);
  const all = x.J + (x.J_w + x.m_eq * radius ** 2) / (x.N ** 2 * x.e);
  let [w, angle] = [0, 0];
  const go = (J: number, volts: number): void => {
    const push = (speed: number): number => ((x.k * (volts - x.k * speed)) / R - T) / J;
    const half = w + (h / 2) * push(w);
    angle += h * half;
    w += h * push(half);
  };
  while (angle * perTurn < place.S - lead) go(all, x.V);
  while (w > 0) go(x.J, 0);
  return angle * perTurn;
}
/** The lead with which it stops on its travel, by halving. */
function leadOf(x: RigidNumbers): number {
  let low = 0;
  let high: number = place.S;
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2;
    if (stopOf(x, middle) > place.S) low = middle;
    else high = middle;
  }
  return low;
}
const lead = leadOf(cold);

describe("against the equations of motion in small steps, within 2 um", () => {
  test("the shift to the least volts, hot", () => {
    const e_v = shiftByVolts.value({ cold, hot, ...place });
    expect(e_v).toBeGreaterThan(20e-6);
    expect(Math.abs(e_v - Math.abs(stopOf(hot, lead) - place.S))).toBeLessThan(2e-6);
  });
  test("the shift as the drag grows by a third", () => {
    const e_d = shiftByDrag.value({ cold, h: 1 / 3, ...place });
    expect(e_d).toBeGreaterThan(5e-6);
    expect(Math.abs(e_d - Math.abs(stopOf({ ...cold, M: (4 / 3) * cold.M }, lead) - place.S))).toBeLessThan(2e-6);
  });
});
test("nothing shifts where nothing changes", () => {
  expect(shiftByVolts.value({ cold, hot: cold, ...place })).toBeLessThan(1e-9);
  expect(shiftByDrag.value({ cold, h: 0, ...place })).toBeLessThan(1e-9);
});
test("a slow approach shifts less than full speed up to the brake", () => {
  const slow = { share: 0.3, over: 1.5e-3 };
  expect(shiftByVolts.value({ cold, hot, ...place, slow })).toBeLessThan(shiftByVolts.value({ cold, hot, ...place }));
});
test("an index that cannot be driven hot shifts by its whole travel, and none by more", () => {
  expect(shiftByVolts.value({ cold, hot: { ...cold, V: 0.1 }, ...place })).toBe(4e-3);
  expect(shiftByVolts.value({ cold, hot: { ...cold, V: 200 }, ...place })).toBeLessThanOrEqual(4e-3);
});
// 96 mm a turn over 1200 counts are 80 um a count. By hand. [derived]
test("half a count of 1200 on a wheel of 24 teeth is 40 um at the tape", () => {
  expect(countError.value({ pi: Math.PI, r_p: radius, c: 1200 })).toBeCloseTo(40e-6, 12);
});
