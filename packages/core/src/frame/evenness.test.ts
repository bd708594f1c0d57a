import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Evenness, evenness, hardEvenness, inSeries, lambdaOf, longest, touching } from "./evenness.ts";

const hook = (play = 0, stiffness = Number.POSITIVE_INFINITY) => ({ stiffness, play });
const close = (got: number, expected: number, digits: number) => expect(got).toBeCloseTo(expected, digits);

// Unpublished working notes, compliant parts: closed forms, confirmed there by beam elements. [derived]
describe("a shaft clamped at its root, its far end free", () => {
  test.each([
    [0.5, 0.9693774968, 0.9877458018],
    [1, 0.6238102552, 0.8485066183],
    [1.5, 0.0600858776, 0.6113797934],
  ])("of length %f presses with %f at its tip, %f on average", (L, tip, mean) => {
    close(evenness(L).tip, tip, 9);
    close(evenness(L).mean, mean, 9);
  });
  test("opens at its tip from a quarter of a wave on", () => {
    close(evenness(Math.PI / 2).tip, 0, 12);
    expect(evenness(1.7).tip).toBeLessThan(0);
    expect(evenness(1.5).least).toBeGreaterThan(0);
  });
  test("follows its closed forms at any length", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 4, noNaN: true }), (L) => {
        const [C, S, c, s] = [Math.cosh(L), Math.sinh(L), Math.cos(L), Math.sin(L)];
        close(evenness(L).tip, (2 * C * c) / (C * C + c * c), 9);
        close(evenness(L).mean, (S * C + s * c) / (L * (C * C + c * c)), 9);
      }),
      { seed: 461, numRuns: 100 },
    );
  });
});
describe("a root that gives", () => {
  test.each([
    [0.5, 1, 0.7630446071],
    [1, 5, 0.4358919463],
    [1, 1, 0.0631605966],
  ])("length %f, root %f: %f at the tip", (L, kappa, tip) => close(evenness(L, kappa).tip, tip, 9));
  test("never presses the tip harder than a stiffer one", () => {
    const spring = fc.double({ min: 0.05, max: 50, noNaN: true });
    fc.assert(
      fc.property(spring, spring, fc.double({ min: 0.1, max: 1.2, noNaN: true }), (a, b, L) => {
        expect(evenness(L, Math.max(a, b)).tip).toBeGreaterThanOrEqual(evenness(L, Math.min(a, b)).tip - 1e-12);
        expect(evenness(L).tip).toBeGreaterThanOrEqual(evenness(L, a).tip - 1e-12);
      }),
      { seed: 462, numRuns: 100 },
    );
  });
});
describe("a hook at the far end", () => {
  // The notes read the least off a grid: 0.7274615642 at 2, where the least itself is 0.7274597 (a grid of 100 000). [derived]
  test.each([
    [1, 0.9786968359, 6],
    [2, 0.7274597135, 8],
    [3, 0.2648467126, 5],
  ])("without play, length %f: the least is %f", (L, least, digits) =>
    close(evenness(L, undefined, hook()).least, least, digits),
  );
  // 400 beam elements: validation/independent/hold.py. [derived]
  test.each([
    ["play 0.1", evenness(2, undefined, hook(0.1)), 0.9, 0.696042],
    ["a spring of 5 with play 0.05", evenness(2, undefined, hook(0.05, 5)), 0.610991, 0.570169],
    ["a root of 2, length 1", evenness(1, 2, hook()), 1, 0.961534],
  ] as [string, Evenness, number, number][])("%s", (_, { tip, least }, far, low) => {
    close(tip, far, 4);
    close(least, low, 4);
  });
  test("with more play than the tip gives does nothing", () => {
    const { tip } = evenness(0.5);
    expect(evenness(0.5, undefined, hook(1 - tip + 0.01))).toEqual(evenness(0.5));
    expect(evenness(0.5, undefined, hook(1 - tip - 0.01)).tip).toBeGreaterThan(tip);
  });
});
describe("bearings at both ends", () => {
  // The same program. [derived]
  test.each([
    [1, 0.949979, 0.96798],
    [2.5, 0.22339, 0.498858],
  ])("length %f: %f in the middle, %f on average", (L, least, mean) => {
    const got = evenness(L, 0, "bearing");
    close(got.least, least, 5);
    close(got.mean, mean, 5);
    close(got.at, 0.5, 2);
  });
});
// Springs that can't pull are let go one by one until all that hold press: validation/independent/hold.py, 800 elements. [derived]
describe("a nip that can't pull touches", () => {
  test.each([
    [1.573, 2.2, undefined],
    [1.0615, 2.2, 1],
    [1.5, 1.5, undefined],
  ])("over %f of %f on a root of %s", (length, L, kappa) => close(touching(L, kappa), length, 2));
});
test("what has no answer is refused in words", () => {
  expect(() => evenness(0)).toThrow("lambda l is 0");
  expect(() => evenness(longest + 1)).toThrow(`lambda l is ${longest + 1}`);
  expect(() => evenness(Number.NaN)).toThrow("lambda l is NaN");
  expect(() => evenness(1, -1)).toThrow("the root's spring is -1");
  expect(() => evenness(1, 0)).toThrow("needs a second bearing");
  expect(() => evenness(1, undefined, hook(0, -1))).toThrow("hook's stiffness is -1");
});
// 6 k phi/(N l) = 0.175: review of the unpublished working notes, A8, and 20 000 springs in validation/independent/hold.py. [derived]
describe("a hard nip of 8 N over 21 mm, 10 mrad out of parallel", () => {
  test("keeps 0.70 on a carrier of 0.49 N m per rad, and is open on a screwed one of 271", () => {
    close(hardEvenness(0.49, 10e-3, 8, 21e-3), 0.70213, 5);
    expect(hardEvenness(271, 10e-3, 8, 21e-3)).toBeLessThan(-0.9);
  });
  test("without force it has no evenness", () =>
    expect(() => hardEvenness(0.3, 5e-3, 0, 21e-3)).toThrow("no evenness"));
});
test("two shafts alike are half as stiff as one, and lambda is the fourth root", () => {
  expect(inSeries(3, 3)).toBeCloseTo(1.5, 12);
  expect(lambdaOf(64, 1)).toBeCloseTo(2, 12);
});
