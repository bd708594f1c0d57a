import fc from "fast-check";
import { expect, test } from "vitest";
import { phi, phiInverse } from "../quantity/law.ts";
import { normalScore } from "./normal-score.ts";

// Abramowitz and Stegun, table 26.5. [memory]
test.each([
  [0.5, 0],
  [0.75, 0.6744897501960817],
  [0.975, 1.959963984540054],
  [0.999, 3.090232306167813],
  [1e-9, -5.997807015007689],
])("the score of %f is %f", (u, z) => {
  expect(normalScore(u)).toBeCloseTo(z, 13);
});
// The other inverse rests on erfc's, by rational functions of other authors: the two share no coefficient. scipy 1.17.1's ndtri, a third one,
// says that of the two it is the other that strays by 7e-14 beyond 1e-16, this one by 7e-16. [read]
test("lies within 2 parts in 1e15 of the inverse by erfc down to 1e-16, within 1e-13 to 1e-300, and is odd about one half", () => {
  fc.assert(
    fc.property(fc.double({ min: -300, max: Math.log10(0.5), noNaN: true }), (exponent) => {
      const u = 10 ** exponent;
      const z = normalScore(u);
      const share = exponent > -16 ? 2e-15 : 1e-13;
      expect(Math.abs(z - phiInverse(u))).toBeLessThanOrEqual(share * Math.max(0.1, Math.abs(z)));
    }),
    { seed: 8, numRuns: 5000 },
  );
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 2 ** 31 - 1 }), (k) => {
      const u = (k + 0.5) * 2 ** -32;
      expect(normalScore(1 - u)).toBe(-normalScore(u));
    }),
    { seed: 9, numRuns: 2000 },
  );
});
test("gives its share back: the law at the score is the share", () => {
  for (const u of [1e-12, 1e-6, 0.01, 0.0749999, 0.0750001, 0.3, 0.9249999, 0.9250001, 0.999])
    expect(phi(normalScore(u)) / u).toBeCloseTo(1, 12);
});
