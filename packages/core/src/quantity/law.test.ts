import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { believed, endsOfGuess, phi, phiInverse, scattered, sdOfLogarithm, unknownBetween } from "./law.ts";

const seed = { seed: 22, numRuns: 1000 };

// Quantiles of the standard normal law: Abramowitz and Stegun, table 26.5, and the usual tables of percentage points. [remembered]
const quantiles: readonly (readonly [p: number, z: number])[] = [
  [0.5, 0],
  [0.6, 0.2533471031357997],
  [0.75, 0.6744897501960817],
  [0.8, 0.8416212335729143],
  [0.9, 1.2815515655446004],
  [0.95, 1.6448536269514722],
  [0.975, 1.959963984540054],
  [0.99, 2.3263478740408408],
  [0.995, 2.5758293035489004],
  [0.999, 3.090232306167813],
  [0.9995, 3.2905267314918945],
  [0.9999, 3.719016485455709],
  [0.99999, 4.264890793922825],
];
describe("the normal law", () => {
  test.each(quantiles)("%f of it lies below %f", (p, z) => {
    expect(phiInverse(p)).toBeCloseTo(z, 9);
    expect(phiInverse(1 - p)).toBeCloseTo(-z, 9);
    expect(phi(z)).toBeCloseTo(p, 13);
    expect(phi(-z)).toBeCloseTo(1 - p, 13);
  });
  // 1 - Phi(1), (2), (3), (6): Abramowitz and Stegun, tables 26.1 and 26.2. [remembered]
  test.each([
    [-1, 0.15865525393145707],
    [-2, 0.022750131948179195],
    [-3, 0.0013498980316300946],
    [-6, 9.865876450376946e-10],
  ])("the tail below %i is %f", (z, p) => {
    expect(phi(z) / p).toBeCloseTo(1, 12);
  });
  test("its inverse gives the chance back to twelve digits, down to 1e-15", () => {
    fc.assert(
      fc.property(fc.double({ min: -15, max: Math.log10(0.5), noNaN: true }), (exponent) => {
        const p = 10 ** exponent;
        expect(phi(phiInverse(p)) / p).toBeCloseTo(1, 12);
      }),
      seed,
    );
    expect(phi(phiInverse(1e-15)) / 1e-15).toBeCloseTo(1, 12);
  });
  test("its inverse is odd about one half and rises", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-9, max: 0.5, noNaN: true }),
        fc.double({ min: 1e-9, max: 0.5, noNaN: true }),
        (p, q) => {
          expect(phiInverse(1 - p)).toBeCloseTo(-phiInverse(p), 6);
          if (p < q) expect(phiInverse(p)).toBeLessThanOrEqual(phiInverse(q));
        },
      ),
      seed,
    );
  });
});

const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true });
describe("a guess", () => {
  test("has its ends at 2.5 % and 97.5 % of belief", () => {
    fc.assert(
      fc.property(finite(-100, 100), finite(0.001, 100), (low, width) => {
        const unknown = unknownBetween(low, low + width);
        const near = (v: number, wanted: number) =>
          expect(Math.abs(v - wanted)).toBeLessThan(1e-9 * (Math.abs(wanted) + width));
        near(believed(unknown, phiInverse(0.025)), low);
        near(believed(unknown, phiInverse(0.975)), low + width);
      }),
      seed,
    );
    expect(endsOfGuess).toBeCloseTo(phiInverse(0.975), 9);
  });
  test("with both ends positive has its geometric mean as median, else its middle", () => {
    expect(believed(unknownBetween(0.2, 0.8), 0)).toBeCloseTo(0.4, 12);
    expect(believed(unknownBetween(0, 0.8), 0)).toBeCloseTo(0.4, 12);
    expect(believed(unknownBetween(-60, 60), 0)).toBe(0);
    expect(believed(unknownBetween(-4, -1), 0)).toBeCloseTo(-2.5, 12);
  });
  test("with both ends positive is never believed to be negative, however far out", () => {
    fc.assert(
      fc.property(finite(1e-6, 10), finite(1e-6, 10), finite(-8, 8), (low, width, z) => {
        expect(believed(unknownBetween(low, low + width), z)).toBeGreaterThan(0);
      }),
      seed,
    );
  });
  test("rises with its coordinate", () => {
    fc.assert(
      fc.property(finite(-10, 10), finite(0.01, 10), finite(-6, 6), finite(-6, 6), (low, width, y, z) => {
        fc.pre(y < z);
        const unknown = unknownBetween(low, low + width);
        expect(believed(unknown, y)).toBeLessThanOrEqual(believed(unknown, z));
      }),
      seed,
    );
  });
});

test("a switch is one with its chance and nought otherwise", () => {
  const unknown = { law: "switch", chance: 0.3, words: ["free", "clamped"] } as const;
  const step = phiInverse(1 - 0.3);
  expect(believed(unknown, step - 1e-6)).toBe(0);
  expect(believed(unknown, step + 1e-6)).toBe(1);
  expect(believed({ ...unknown, chance: 1 }, -8)).toBe(1);
  expect(believed({ ...unknown, chance: 0 }, 8)).toBe(0);
});

describe("scatter", () => {
  test("between limits stays between them and reaches both", () => {
    fc.assert(
      fc.property(finite(-10, 10), finite(0, 2), finite(0, 2), finite(-1, 1), (x, minus, plus, t) => {
        const scatter = { level: "unit", law: "uniform", from: -minus, to: plus } as const;
        const v = scattered(x, scatter, t);
        expect(v).toBeGreaterThanOrEqual(x - minus - 1e-12);
        expect(v).toBeLessThanOrEqual(x + plus + 1e-12);
        expect(scattered(x, scatter, -1)).toBeCloseTo(x - minus, 12);
        expect(scattered(x, scatter, 1)).toBeCloseTo(x + plus, 12);
      }),
      seed,
    );
  });
  test("of one-sided limits has its middle between them, not at the number written", () => {
    expect(scattered(1.1, { level: "unit", law: "uniform", from: 0, to: 0.05 }, 0)).toBeCloseTo(1.125, 12);
  });
  test("with a standard deviation moves by so many of them", () => {
    expect(scattered(4, { level: "index", law: "normal", sd: 0.03 }, -3)).toBeCloseTo(3.91, 12);
  });
  test("as a share multiplies: it changes no sign, and equal steps up and down cancel", () => {
    const scatter = { level: "reel", law: "lognormal", sd: sdOfLogarithm(0.2) } as const;
    expect(scattered(scattered(0.4, scatter, 1.7), scatter, -1.7)).toBeCloseTo(0.4, 12);
    expect(scattered(-0.4, scatter, 9)).toBeLessThan(0);
    expect(scattered(0.4, scatter, 0)).toBe(0.4);
  });
  // Mean exp(s^2/2), variance (exp(s^2) - 1) exp(s^2) of the lognormal law with median 1. [derived]
  test.each([0.05, 0.2, 0.8, 3])("of a share of %f has that standard deviation over its mean", (share) => {
    const s = sdOfLogarithm(share);
    const mean = Math.exp((s * s) / 2);
    const variance = (Math.exp(s * s) - 1) * Math.exp(s * s);
    expect(Math.sqrt(variance) / mean).toBeCloseTo(share, 12);
  });
  test("as written leaves a number where it stands", () => {
    expect(scattered(2, { level: "reel", law: "normal", sd: 1 }, 0)).toBe(2);
    expect(scattered(2, { level: "unit", law: "uniform", from: -1, to: 1 }, 0)).toBe(2);
  });
});
