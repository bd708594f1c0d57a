import fc from "fast-check";
import { expect, test } from "vitest";
import { measured } from "./direct.ts";
import { measuredPlain } from "./direct-plain.ts";

// Worked by hand: k 4, m (0 + 3 . 2)/4 = 1.5; SS 2; nu 5, nu s^2 = 2 . 1 + 2 + (3/4) . 4 = 7, s^2 1.4. [derived]
test("three readings about 2 draw a guess of 0 three quarters of the way", () => {
  const found = measuredPlain({ mean: 0, scatter: 1 }, [1, 2, 3]);
  expect(found.mean).toBeCloseTo(1.5, 12);
  expect(found.nu).toBe(5);
  expect(found.scatter).toBeCloseTo(Math.sqrt(1.4), 12);
  expect(found.sd).toBeCloseTo(Math.sqrt(1.4 / 4), 12);
});
// Student's t, 5 degrees of freedom, 97.5 %: 2.570582 (printed tables; memory).
test("95 % of belief in the middle reaches 2.5706 scales either way", () => {
  const [low, high] = measuredPlain({ mean: 0, scatter: 1 }, [1, 2, 3]).middle(0.95);
  expect((high - low) / 2).toBeCloseTo(2.570582 * Math.sqrt(0.35), 5);
});
test("it is the same algebra as in logarithms", () => {
  const x = fc.double({ min: 0.2, max: 5, noNaN: true });
  fc.assert(
    fc.property(fc.array(x, { minLength: 1, maxLength: 8 }), x, (readings, median) => {
      const logs = measured({ median, scatter: 0.3 }, readings);
      const plain = measuredPlain({ mean: Math.log(median), scatter: 0.3 }, readings.map(Math.log));
      expect(plain.mean).toBeCloseTo(Math.log(logs.median), 9);
      expect(plain.sd).toBeCloseTo(logs.sd, 9);
    }),
  );
});
test("a scatter of nothing is refused, for it leaves no room to learn", () => {
  expect(() => measuredPlain({ mean: 0, scatter: 0 }, [1])).toThrow("must be above 0");
});
