import fc from "fast-check";
import { expect, test } from "vitest";
import { rootBetween } from "./root.ts";

const seeded = { seed: 1973, numRuns: 400 };

// Roots in closed form, but for two: the fixed point of the cosine, 0.739085133215160641655 (OEIS A003957), and the cubic on which Wallis
// showed Newton's method in 1685, 2.094551481542326591 (OEIS A007493). [memory; both confirmed by substitution below]
test.each<readonly [name: string, f: (x: number) => number, low: number, high: number, root: number]>([
  ["a line", (x) => 3 * x - 1, -4, 9, 1 / 3],
  ["a square", (x) => x * x - 2, 0, 2, Math.SQRT2],
  ["an exponential far from its root", (x) => Math.exp(x) - 1e-8, -40, 40, Math.log(1e-8)],
  ["a logarithm", (x) => Math.log(x) - 3, 1e-9, 1e3, Math.exp(3)],
  ["the fixed point of the cosine", (x) => Math.cos(x) - x, 0, 1, 0.7390851332151607],
  ["Wallis's cubic", (x) => x ** 3 - 2 * x - 5, 2, 3, 2.0945514815423265],
  ["a root at a kink", (x) => Math.abs(x - 1) - 2 + (x > 1 ? 0 : 5), 1.5, 6, 3],
  ["a pole on the far side", (x) => 1 / (x - 5) + 1, -20, 4.9, 4],
  ["a step, which has no root but a change of sign", (x) => (x < 0.3 ? -1 : 2), -1, 1, 0.3],
])("%s is solved to the tolerance", (_, f, low, high, root) => {
  expect(Math.abs(rootBetween(f, low, high, 1e-10)! - root)).toBeLessThan(1e-10);
  expect(Math.abs(rootBetween(f, high, low, 1e-10)! - root)).toBeLessThan(1e-10);
});
test("the two remembered roots are roots", () => {
  expect(Math.cos(0.7390851332151607) - 0.7390851332151607).toBeCloseTo(0, 15);
  expect(2.0945514815423265 ** 3 - 2 * 2.0945514815423265 - 5).toBeCloseTo(0, 13);
});

test("an end that is a root is returned as it stands", () => {
  expect(rootBetween((x) => x - 2, 2, 5, 1e-3)).toBe(2);
  expect(rootBetween((x) => x - 5, 2, 5, 1e-3)).toBe(5);
  expect(rootBetween((x) => 2 - x, 2, 5, 1e-3)).toBe(2);
  expect(rootBetween((x) => 5 - x, 2, 5, 1e-3)).toBe(5);
});
test("without a change of sign there is no root, be both ends above or below nought", () => {
  expect(rootBetween((x) => x * x + 1, -1, 1, 1e-6)).toBeUndefined();
  expect(rootBetween((x) => -x * x - 1, -1, 1, 1e-6)).toBeUndefined();
  // Two roots between the ends are no change of sign.
  expect(rootBetween((x) => x * x - 0.25, -1, 1, 1e-6)).toBeUndefined();
});
test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
  "an end with the value %s has no root",
  (bad) => {
    expect(rootBetween((x) => (x === 0 ? bad : x - 0.5), 0, 1, 1e-6)).toBeUndefined();
    expect(rootBetween((x) => (x === 1 ? bad : x - 0.5), 0, 1, 1e-6)).toBeUndefined();
  },
);
test("a value that is no number between the ends gives no root, and no wrong one", () => {
  expect(rootBetween((x) => (x > 0.2 && x < 0.8 ? Number.NaN : x - 0.5), 0, 1, 1e-9)).toBeUndefined();
});

// The function changes its sign within one tolerance of what is returned, whatever its shape. Monotone pieces with a kink and a power.
test("the root lies within one tolerance of a change of sign", () => {
  const bounded = fc.double({ min: -50, max: 50, noNaN: true });
  const power = fc.constantFrom(1, 3, 5, 1 / 3);
  fc.assert(
    fc.property(
      bounded,
      power,
      fc.double({ min: 0.01, max: 100, noNaN: true }),
      fc.double({ min: 0.001, max: 60, noNaN: true }),
      fc.double({ min: 0.001, max: 60, noNaN: true }),
      fc.integer({ min: 2, max: 9 }),
      (root, p, kink, left, right, digits) => {
        const f = (x: number) => {
          const d = x - root;
          return Math.sign(d) * Math.abs(d) ** p * (d > 0 ? kink : 1);
        };
        const tolerance = 10 ** -digits;
        const found = rootBetween(f, root - left, root + right, tolerance)!;
        expect(found).toBeGreaterThanOrEqual(root - left);
        expect(found).toBeLessThanOrEqual(root + right);
        expect(Math.abs(found - root)).toBeLessThanOrEqual(tolerance + 1e-12);
      },
    ),
    seeded,
  );
});
// Brent's method is worth its name: bisection from 80 wide to 1e-12 takes 46 evaluations.
test("a smooth function is solved in far fewer evaluations than by halving", () => {
  let calls = 0;
  const root = rootBetween(
    (x) => {
      calls++;
      return Math.exp(x) - 2;
    },
    -40,
    40,
    1e-12,
  );
  expect(root).toBeCloseTo(Math.LN2, 12);
  expect(calls).toBeLessThan(25);
});
