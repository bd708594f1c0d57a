import fc from "fast-check";
import { expect, test } from "vitest";
import { drivenScene } from "./cycle.fixture.ts";
import { absentTime, allowedTime, checkTime } from "./time.ts";

const s = drivenScene(12);
// 2 mm at 50 mm/s are 40 ms, 12 mm are 240 ms. By hand. [derived]
test("a pitch at film speed takes its time where the project asks for less, and no longer than asked where it asks for more", () => {
  expect(allowedTime.value({ t_i: 0.1, P_1: 2e-3, v: 0.05 })).toBe(0.1);
  expect(allowedTime.value({ t_i: 0.1, P_1: 12e-3, v: 0.05 })).toBeCloseTo(0.24, 12);
});
test("a longer pitch never makes the allowed time shorter, a faster film never longer", () => {
  const pitch = fc.double({ min: 2e-3, max: 56e-3, noNaN: true });
  const speed = fc.double({ min: 0.01, max: 0.3, noNaN: true });
  fc.assert(
    fc.property(pitch, pitch, speed, speed, (p, q, u, v) => {
      const t = (P_1: number, film: number): number => allowedTime.value({ t_i: 0.1, P_1, v: film });
      expect(t(Math.max(p, q), u)).toBeGreaterThanOrEqual(t(Math.min(p, q), u));
      expect(t(p, Math.max(u, v))).toBeLessThanOrEqual(t(p, Math.min(u, v)));
    }),
    { seed: 76, numRuns: 200 },
  );
});
test("a project that asks for no index time is told so, one that does is judged", () => {
  const { indexTime: _, ...rest } = s.requirement;
  expect(absentTime({ ...s, requirement: rest })).toBe("project.yaml asks for no index time");
  expect(absentTime(s)).toBeUndefined();
});
test("the sentence says when the film is left out of the simulation, and only then", () => {
  const say = () => "x";
  const { "peel drive": _, ...unit } = s.unit;
  expect(checkTime.because(say, s)).not.toContain("without its film");
  expect(checkTime.because(say, { ...s, unit })).toMatch(/\(without its film: .+\)\.$/);
});
