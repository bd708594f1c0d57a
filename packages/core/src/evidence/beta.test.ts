import fc from "fast-check";
import { expect, test } from "vitest";
import { betaAbove, betaBelow, betaQuantile, lnBeta } from "./beta.ts";

// 1 - 0.05^(1/299572); symmetry; by hand 1 - (1-x)^3. [derived]
test("closed forms come out to the last digits", () => {
  expect(betaQuantile(0.95, 1, 299572) / -Math.expm1(Math.log(0.05) / 299572)).toBeCloseTo(1, 14);
  expect(betaQuantile(0.5, 0.5, 0.5)).toBeCloseTo(0.5, 13);
  expect(betaBelow(0.2, 1, 3)).toBeCloseTo(1 - 0.8 ** 3, 14);
  expect(betaBelow(0.3, 2, 2)).toBeCloseTo(3 * 0.09 - 2 * 0.027, 14);
  // The arcsine law.
  expect(betaBelow(0.1, 0.5, 0.5)).toBeCloseTo((2 / Math.PI) * Math.asin(Math.sqrt(0.1)), 13);
  expect(lnBeta(0.5, 0.5)).toBeCloseTo(Math.log(Math.PI), 13);
  expect(lnBeta(3, 4)).toBeCloseTo(-Math.log(60), 13);
});
// scipy 1.17, special.betaincinv. [derived]
test.each([
  [0.975, 4, 17, 0.37892682654531396],
  [0.025, 1200, 3, 0.994002493287919],
])("quantile %f of beta(%f, %f)", (p, a, b, x) => expect(betaQuantile(p, a, b) / x).toBeCloseTo(1, 13));
const shape = fc.double({ min: -1.5, max: 4, noNaN: true }).map((lg) => 10 ** lg);
test("a quantile has its share below it, from shapes of 0.03 to 10 000 and shares down to 1e-9", () => {
  const share = fc.double({ min: -9, max: -0.001, noNaN: true }).map((lg) => 10 ** lg);
  fc.assert(
    fc.property(share, shape, shape, (p, a, b) => {
      const x = betaQuantile(p, a, b);
      // Where the law heaps up at 1 a double can't lie near enough to it.
      if (x < 1 - 1e-6 && x > 1e-280) expect(betaBelow(x, a, b) / p).toBeCloseTo(1, 8);
    }),
    { seed: 31, numRuns: 500 },
  );
});
test("whole and nearly whole shapes agree: the sum and the fraction meet", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 400 }),
      fc.integer({ min: 1, max: 400 }),
      fc.double({ min: 0.01, max: 0.99, noNaN: true }),
      (a, b, x) => {
        expect(betaBelow(x, a, b)).toBeCloseTo(betaBelow(x, a + 1e-11, b + 1e-11), 9);
        expect(betaBelow(x, a, b) + betaAbove(x, a, b)).toBeCloseTo(1, 12);
      },
    ),
    { seed: 32, numRuns: 300 },
  );
});
test("no shape, share or place outside its range passes", () => {
  expect(() => betaQuantile(0.5, 0, 1)).toThrow("shapes above 0");
  expect(() => betaQuantile(1.5, 1, 1)).toThrow("between 0 and 1");
  expect(() => betaQuantile(Number.NaN, 2, 2)).toThrow(RangeError);
  expect(() => betaBelow(-0.1, 2, 2)).toThrow("between 0 and 1");
  expect(() => betaAbove(0.1, Number.NaN, 2)).toThrow("shapes above 0");
});
