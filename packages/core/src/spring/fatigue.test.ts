import { expect, test } from "vitest";
import { enduranceLimit, fatigueUse } from "./fatigue.ts";

// Johansson and Nordberg: 0.45 of 1700 MPa is 765 MPa, never above Rp0.2. [read]
test("strip of 1700 MPa bears an amplitude of 765 MPa, less at a cut edge, never above yield", () => {
  expect(enduranceLimit.value({ q_f: 0.45, q_e: 1, q_y: 0.8, R_m: 1700 })).toBeCloseTo(765, 9);
  expect(enduranceLimit.value({ q_f: 0.45, q_e: 0.6, q_y: 0.8, R_m: 1700 })).toBeCloseTo(459, 9);
  expect(enduranceLimit.value({ q_f: 0.45, q_e: 1, q_y: 0.3, R_m: 1700 })).toBeCloseTo(510, 9);
});
// Drawn from ratio -1 the line passes at 0.31 where 0.35 is published at ratio 0: S_a = S_m, 1/(1/0.45 + 1). [derived from read]
test("Goodman's line from ratio -1 lies below what is published at ratio 0", () => {
  const amplitude = 1 / (1 / 0.45 + 1);
  expect(amplitude).toBeCloseTo(0.31, 3);
  expect(amplitude).toBeLessThan(0.35);
  expect(fatigueUse.value({ S_a: amplitude, S_0: 0.45, S_m: amplitude, R_m: 1 })).toBeCloseTo(1, 12);
});
