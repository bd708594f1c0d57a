import fc from "fast-check";
import { expect, test } from "vitest";
import { angleOfInvolute, inv } from "./involute.ts";

// Tables of involutes: inv 14.5 deg 0.005545, inv 20 deg 0.014904, inv 25 deg 0.029975. [memory] 21.2990642859 and 23.8707609654 deg: a worked sheet to ISO 21771:2007. [read]
test.each([
  [14.5, 0.005545, 6],
  [20, 0.014904, 6],
  [25, 0.029975, 6],
  [21.2990642859, 0.0181260949, 9],
  [23.8707609654, 0.0259052382, 9],
])("inv %s deg is %s", (a, value, digits) => expect(inv((a * Math.PI) / 180)).toBeCloseTo(value, digits));
test("its inverse gives the angle back", () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 1.35, noNaN: true }), (a) => {
      expect(angleOfInvolute(inv(a)) / a).toBeCloseTo(1, 10);
    }),
    { seed: 611, numRuns: 200 },
  );
  expect(angleOfInvolute(0)).toBe(0);
});
test("the series for small angles meets the formula", () => expect(inv(0.0199999) / inv(0.0200001)).toBeCloseTo(1, 4));
test("no involute reaches inside its base circle", () =>
  expect(() => angleOfInvolute(-0.01)).toThrow("inv a = -0.01: no involute reaches inside its base circle"));
