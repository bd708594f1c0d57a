import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { curl, momentFactor, stripNumber } from "./anticlastic.ts";

// The transverse balance of the strip solved as a boundary value problem: validation/independent/spring.py. [derived]
describe("a strip of 0.2 mm on a radius of 10 mm, nu 0.3, takes of a plate's moment", () => {
  test.each([
    [1, 0.9089200086, 0.9106769947],
    [3, 2.7267600259, 0.9426219512],
    [10, 9.0892000863, 0.9851384557],
  ])("at %i mm width (strip number %f): %f", (b, lam, factor) => {
    expect(stripNumber(b, 0.2, 10, 0.3)).toBeCloseTo(lam, 9);
    expect(momentFactor(b, 0.2, 0.3, 0.1)).toBeCloseTo(factor, 9);
  });
});
test("series and closed form of the curl meet where one takes over from the other", () => {
  const below = curl(0.3 - 1e-9);
  const above = curl(0.3 + 1e-9);
  expect(below.F).toBeCloseTo(above.F, 9);
  expect(below.slope).toBeCloseTo(above.slope, 8);
});
test("the slope of the curl is its derivative", () => {
  for (const lam of [0.1, 0.5, 1, 2.5, 7, 40]) {
    const h = 1e-5 * lam;
    expect(curl(lam).slope).toBeCloseTo((curl(lam + h).F - curl(lam - h).F) / (2 * h), 6);
  }
});
test("a narrow strip bends like a beam, a wide one like a plate, and none beyond either", () => {
  expect(momentFactor(0.01, 0.2, 0.3, 0.1)).toBeCloseTo(1 - 0.09, 6);
  expect(momentFactor(5000, 0.2, 0.3, 0.1)).toBeCloseTo(1, 3);
  const of = fc.double({ min: 1e-4, max: 0.2, noNaN: true });
  fc.assert(
    fc.property(
      of,
      of,
      fc.double({ min: 0.1, max: 300, noNaN: true }),
      fc.double({ min: 0, max: 0.49, noNaN: true }),
      (b, t, k, nu) => {
        const factor = momentFactor(b, t, nu, k);
        expect(factor).toBeGreaterThanOrEqual(1 - nu * nu - 1e-9);
        expect(factor).toBeLessThanOrEqual(1 + 1e-9);
      },
    ),
    { seed: 7, numRuns: 200 },
  );
});
// M is the derivative of the energy D b (k - k0)^2/2 (1 - nu^2 F(lam(k))) by k. [derived]
test("of a curved strip the moment is the derivative of its energy", () => {
  const [b, t, nu, k0] = [8, 0.15, 0.3, 1 / 60];
  const energy = (k: number): number =>
    ((k - k0) ** 2 / 2) * (1 - nu * nu * curl(stripNumber(b, t, 1 / Math.abs(k), nu)).F);
  for (const k of [0.04, 0.01, -0.02, 0.1]) {
    const h = 1e-6;
    const moment = (energy(k + h) - energy(k - h)) / (2 * h);
    expect(momentFactor(b, t, nu, k, k0) * (k - k0)).toBeCloseTo(moment, 8);
  }
});
