import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { strip } from "./strip.ts";
import { slackTwist } from "./twist.ts";

// Root of the tension-only integral in small strain, validation/independent/film.py. [derived]
describe("the middle fibre first goes slack", () => {
  test.each([
    [5.3, 40, 0.5, 79600, 1.272859],
    [20, 100, 1, 225000, 0.365148],
    [13.3, 38.5, 0.65, 79600, 0.35139],
  ])("at %f mm in %f mm under %f N, Eh %f N/m: at %f", (b, L, P, Eh, twist) => {
    expect(slackTwist({ P, Eh, b: b * 1e-3, L: L * 1e-3 })).toBeCloseTo(twist, 5);
  });
  // The same with exact chords: 1.27354 and 0.36518. [derived]
  test("within 0.1 % of what exact chords say", () => {
    expect(slackTwist({ P: 0.5, Eh: 79600, b: 5.3e-3, L: 40e-3 }) / 1.27354).toBeCloseTo(1, 2.9);
    expect(slackTwist({ P: 1, Eh: 225000, b: 20e-3, L: 100e-3 }) / 0.36518).toBeCloseTo(1, 3);
  });
});
// Green 1937: twist per length times width is sqrt(24 T), T the mean strain. 0.65 N on 13.3 mm of 79.6 kN/m: 0.1214. [memory, derived again]
test("a film of 13.3 mm under 0.65 N goes slack at a twist of 0.1214 per width", () => {
  expect(slackTwist({ P: 0.65, Eh: 79600, b: 13.3e-3, L: 13.3e-3 })).toBeCloseTo(0.1214, 4);
});
test("a little less twist leaves no fibre slack, a little more leaves the middle slack", () => {
  const width = fc.double({ min: 0.004, max: 0.03, noNaN: true });
  fc.assert(
    fc.property(
      width,
      fc.double({ min: 2, max: 8, noNaN: true }),
      fc.double({ min: 0.05, max: 1, noNaN: true }),
      (b, slender, P) => {
        const [Eh, L] = [79600, b * slender];
        const threshold = slackTwist({ P, Eh, b, L });
        fc.pre(threshold < 1.5);
        const slackAt = (twist: number) => strip((y) => Math.hypot(L, twist * y), b, Eh, P, "free").slack;
        expect(slackAt(0.97 * threshold)).toBe(0);
        expect(slackAt(1.05 * threshold)).toBeGreaterThan(0);
      },
    ),
    { seed: 221, numRuns: 60 },
  );
});
test("a film that is pushed is refused", () => {
  expect(() => slackTwist({ P: -1, Eh: 79600, b: 0.01, L: 0.04 })).toThrow(
    "the pull is -1 N; a film that is pushed has no taut fibre",
  );
});
