import { describe, expect, test } from "vitest";
import { phi, phiInverse } from "../quantity/law.ts";
import { beliefDraws, Cell } from "./cell.ts";
import { Deviates } from "./deviates.ts";
import { firstOrder, jointGaps, type Margin, marginOf } from "./margin.ts";
import { alike, check, closed, number, plainScene, solved } from "./plain.fixture.ts";

const even = alike(beliefDraws);
const bound = (v: number, text = `${v}`) => number("bound", v < 0 ? `-${-v}` : text);
const cellOf = (one: ReturnType<typeof check>) => new Cell(plainScene(), [one]);
const marginFor = (one: ReturnType<typeof check>, weights = even, seed = 1): Margin => {
  const cell = cellOf(one);
  const deviates = new Deviates(seed);
  return marginOf(cell, deviates, 0, jointGaps(cell, deviates)[0]!, weights);
};
/** A guess on a plain scale whose normal law has that sd: its ends are the 2.5 and 97.5 % points. */
const guess = (name: string, sd: number) =>
  number(name, `-${(1.959963984540054 * sd).toFixed(12)}..${(1.959963984540054 * sd).toFixed(12)} guess`);

describe("a linear gap of normal inputs", () => {
  // gap = d + u + x + y with sd 3, 4, 12 of 13: beta = d/13. [closed form]
  const linear = (d: number) =>
    check("linear", {
      value: closed("u + x + y", { u: guess("u", 3), x: number("x", "0 sd 4"), y: number("y", "0 per reel sd 12") }),
      atLeast: bound(-d),
    });
  // 4000 draws: at beta 1 the chance 0.159 is known to 0.0058, the margin to 0.024; at 2, 0.0023 and 0.043. Bound: four of these.
  test.each([
    [0, 4 * 0.02],
    [1, 4 * 0.024],
    [-1, 4 * 0.024],
    [2, 4 * 0.043],
  ])("has the margin beta = %d, drawn", (beta, within) => {
    const m = marginFor(linear(13 * beta));
    expect(m.how).toBe("drawn");
    expect(Math.abs(m.margin - beta)).toBeLessThan(within);
  });
  test("has the margin beta beyond the drawn range, to first order", () => {
    for (const beta of [3.5, 4.2, 5.5]) {
      const m = marginFor(linear(13 * beta));
      expect(m.how).toBe("first order");
      expect(m.margin).toBeCloseTo(beta, 4);
    }
  });
  test("is capped at plus and minus six", () => {
    expect(marginFor(linear(13 * 9))).toMatchObject({ margin: 6, how: "first order" });
    expect(marginFor(linear(-13 * 9))).toMatchObject({ margin: -6, how: "drawn" });
  });
  test("has one margin for one seed, and much the same for another", () => {
    expect(marginFor(linear(13))).toEqual(marginFor(linear(13)));
    expect(marginFor(linear(13), even, 2).margin).not.toBe(marginFor(linear(13)).margin);
    expect(Math.abs(marginFor(linear(13), even, 2).margin - 1)).toBeLessThan(4 * 0.024);
  });
});

describe("the margin", () => {
  test("is drawn from twenty failures on, else to first order", () => {
    const cell = cellOf(check("one", { value: closed("x", { x: number("x", "0 sd 1") }), atLeast: bound(-2) }));
    const gaps = (failing: number) => Float64Array.from({ length: 4000 }, (_, k) => (k < failing ? -1 : 1));
    const deviates = new Deviates(1);
    expect(marginOf(cell, deviates, 0, gaps(20), even)).toMatchObject({
      how: "drawn",
      margin: expect.closeTo(-phiInverse(20 / 4000), 9),
    });
    expect(marginOf(cell, deviates, 0, gaps(19), even)).toMatchObject({ how: "first order" });
    // x has sd 1 and the bound stands 2 below it.
    expect(marginOf(cell, deviates, 0, gaps(19), even).margin).toBeCloseTo(2, 4);
  });
  // The first 500 belief draws fail and have a fifth of the weight.
  test("weighs belief draws by the record", () => {
    const u = number("u", "1..2 guess");
    const cell = cellOf(check("one", { value: closed("u", { u }), atLeast: bound(0) }));
    const gaps = Float64Array.from({ length: 4000 }, (_, k) => (k % beliefDraws < 500 ? -1 : 1));
    const weights = Float64Array.from({ length: beliefDraws }, (_, k) => (k < 500 ? 1 : 4));
    expect(marginOf(cell, new Deviates(1), 0, gaps, weights).margin).toBeCloseTo(-phiInverse(0.2), 12);
    expect(marginOf(cell, new Deviates(1), 0, gaps, even).margin).toBeCloseTo(0, 12);
  });
  test("counts draws without an answer as failing", () => {
    const x = number("x", "0 sd 1");
    const m = solved("m", { x }, ({ x: v }: { x: number }) => {
      if (v > 1) throw new RangeError("none");
      return 1;
    });
    // P(x > 1) = 0.158655. [normal table]
    expect(Math.abs(phi(-marginFor(check("one", { value: m, atLeast: bound(0) })).margin) - 0.158655)).toBeLessThan(
      4 * 0.0058,
    );
  });
});

describe("limits of a drawing", () => {
  // Three tolerances ±a_i, one bound at d from their unkind corner: the failing corner has the volume d^3/(6 * 2a 2b 2c). [closed form]
  const [a, b, c] = [0.3, 0.2, 0.1];
  const corner = (d: number) =>
    check("corner", {
      value: closed("c - W - k", {
        c: number("c", `24.45 ±${b}`),
        W: number("W", `24 ±${a}`, { level: "reel" }),
        k: number("k", `0 ±${c}`),
      }),
      atLeast: number("bound", `${(0.45 - (a + b + c) + d).toFixed(9)}`.replace(/^-/, "-")),
    });
  const volume = (d: number) => d ** 3 / (6 * 8 * a * b * c);
  test("have the chance of the corner's volume, drawn", () => {
    // The corner is a tetrahedron while d is at most the least width, 0.2: its volume is 0.0277 there.
    const d = 0.2;
    const m = marginFor(corner(d));
    expect(m.how).toBe("drawn");
    expect(volume(d)).toBeCloseTo(0.0278, 4);
    expect(Math.abs(phi(-m.margin) - volume(d))).toBeLessThan(4 * Math.sqrt(volume(d) / 4000));
  });
  // Overstated 2 to 5 times by the plane through the nearest failing point: it cuts off more than the corner.
  test("are overstated by the first order, which is why it is marked and used only where draws are too few", () => {
    const d = 0.1;
    const m = marginFor(corner(d));
    expect(m.how).toBe("first order");
    const ratio = phi(-m.margin) / volume(d);
    expect(ratio).toBeGreaterThan(1.3);
    expect(ratio).toBeLessThan(6);
  });
  test("that leave the unkind corner open can't fail as drawn", () => {
    expect(marginFor(corner(-0.0001))).toMatchObject({ margin: 6, how: "cannot fail as drawn" });
    expect(marginFor(corner(0.001)).how).toBe("first order");
  });
  test("can fail as soon as anything without limits moves the gap, be it little", () => {
    const withTail = check("tail", {
      value: closed("a + x", { a: number("a", "5 ±1"), x: number("x", "0 sd 0.01") }),
      atLeast: bound(3.9),
    });
    expect(marginFor(withTail).how).toBe("first order");
    const withUnknown = check("guess", {
      value: closed("a + u", { a: number("a", "5 ±1"), u: guess("u", 0.01) }),
      atLeast: bound(3.9),
    });
    expect(marginFor(withUnknown).how).toBe("first order");
  });
  test("of a check that nothing moves: it can't fail, or fails for sure", () => {
    const still = (v: number) => check("still", { value: closed("a", { a: number("a", "5") }), atLeast: bound(v) });
    expect(marginFor(still(4))).toMatchObject({ margin: 6, how: "cannot fail as drawn" });
    expect(marginFor(still(6))).toMatchObject({ margin: -6, how: "drawn" });
  });
});

describe("first order", () => {
  // A product of lognormals is linear in its logarithm: the nearest failing point is exact. beta = ln(median/bound)/sqrt(sum s^2).
  test("is exact for a product of lognormals", () => {
    const cell = cellOf(
      check("product", {
        value: closed("N*s", { N: number("N", "6 sd 12 %"), s: number("s", "1 per reel sd 20 %") }),
        atLeast: bound(2),
      }),
    );
    const sd = Math.sqrt(Math.log(1.0144) + Math.log(1.04));
    expect(firstOrder(cell)).toBeCloseTo(Math.log(3) / sd, 2);
  });
  // The nearest point of a circle of radius 4 about (1, 0) is 3 from the middle.
  test("finds the nearest point of a curved limit", () => {
    const cell = cellOf(
      check("circle", {
        value: closed("hypot(x - 1, y)", { x: number("x", "0 sd 1"), y: number("y", "0 sd 1") }),
        atMost: bound(4),
      }),
    );
    expect(firstOrder(cell)).toBeCloseTo(3, 1);
  });
  test("is minus the distance where the middle fails", () => {
    expect(
      firstOrder(cellOf(check("under", { value: closed("x", { x: number("x", "0 sd 2") }), atLeast: bound(3) }))),
    ).toBeCloseTo(-1.5, 4);
  });
  // x uniform over ±1 fails above 0.9: P = 0.05, z = 1.644854.
  test("sees a tolerance through the normal law of the same chance", () => {
    expect(
      firstOrder(cellOf(check("limit", { value: closed("x", { x: number("x", "0 ±1") }), atMost: bound(0.9) }))),
    ).toBeCloseTo(1.644854, 3);
  });
  test("is six where nothing moves the gap", () => {
    expect(
      firstOrder(cellOf(check("still", { value: closed("x*0", { x: number("x", "0 sd 1") }), atMost: bound(1) }))),
    ).toBe(6);
    expect(firstOrder(cellOf(check("fails", { value: closed("5", {}), atMost: bound(1) })))).toBe(-6);
  });
});

describe("the letter of evidence", () => {
  /** Variances a^2, b^2, c^2 of a sum: the shares are known. */
  const sum = (texts: readonly [m: string, d: string, g: string]) =>
    check("sum", {
      value: closed("a + b + c", {
        a: number("a", texts[0]),
        b: number("b", texts[1], { letter: "d" }),
        c: number("c", texts[2]),
      }),
      atLeast: bound(-100),
    });
  // Variance shares 0.9, 0.05, 0.05: only the measured one carries a tenth. Four numbers in all, the bound among them.
  test("is that of the inputs which carry at least a tenth of the gap's variance; the rest are counted", () => {
    expect(marginFor(sum(["0 sd 3 measured", "0 sd 0.7", "0 sd 0.7 guess"]))).toMatchObject({ letter: "m", more: 3 });
  });
  test("is the worst of those that carry: a drawing before a measurement, a guess before both", () => {
    expect(marginFor(sum(["0 sd 3 measured", "0 sd 1.5", "0 sd 0.5 guess"]))).toMatchObject({ letter: "d", more: 2 });
    expect(marginFor(sum(["0 sd 3 measured", "0 sd 0.5", "0 sd 1.5 guess"]))).toMatchObject({ letter: "g", more: 2 });
    expect(marginFor(sum(["0 sd 3 measured", "0 sd 1.5", "0 sd 1.5 guess"]))).toMatchObject({ letter: "g", more: 1 });
  });
  // Shares by the squares: 9 : 1.4^2 = 1.96 of 10.96 is 18 %; 0.8^2 = 0.64 of 9.64 is 6.6 %.
  test("counts a guess from a tenth of the variance on, belief and scatter together", () => {
    expect(marginFor(sum(["0 sd 3 measured", "0", `-${1.96 * 1.4}..${1.96 * 1.4} guess`]))).toMatchObject({
      letter: "g",
    });
    expect(marginFor(sum(["0 sd 3 measured", "0", `-${1.96 * 0.8}..${1.96 * 0.8} guess`]))).toMatchObject({
      letter: "m",
    });
  });
  // With sd 0.9 by belief and by scatter 1.62 of 10.62 are 15 %, though neither alone reaches a tenth; with 0.55 each it is 6 %.
  test("adds up what one number carries by belief and by scatter", () => {
    const range = (sd: number) => `-${(1.959964 * sd).toFixed(6)}..${(1.959964 * sd).toFixed(6)} sd ${sd} guess`;
    expect(marginFor(sum(["0 sd 3 measured", "0", range(0.55)]))).toMatchObject({ letter: "m" });
    expect(marginFor(sum(["0 sd 3 measured", "0", range(0.9)]))).toMatchObject({ letter: "g" });
  });
  test("is the worst of all where nothing varies", () => {
    expect(marginFor(sum(["1 measured", "1", "1 guess"]))).toMatchObject({ letter: "g", more: 4 });
  });
  test("counts a number that only a formula names among the others", () => {
    const d = number("d", "1 sd 3 measured");
    const e = number("e", "2*d", { names: { d } });
    expect(marginFor(check("formula", { value: closed("e", { e }), atLeast: bound(-100) }))).toMatchObject({
      letter: "m",
      more: 2,
    });
  });
});

describe("best and worst", () => {
  // Unknowns at their kind and unkind ends, scatter as written: u between 1 and 4, v between 2 and 5. [by hand]
  test("are the gap at the corners of belief", () => {
    const [u, v, a] = [number("u", "1..4 guess"), number("v", "2..5 guess"), number("a", "10 sd 2")];
    const m = marginFor(check("corners", { value: closed("a + u - v", { u, v, a }), atLeast: bound(3) }));
    expect(m.best).toBeCloseTo(10 + 4 - 2 - 3, 9);
    expect(m.worst).toBeCloseTo(10 + 1 - 5 - 3, 9);
  });
  test("are the gap itself where nothing is unknown", () => {
    const m = marginFor(check("still", { value: closed("a", { a: number("a", "10 sd 2") }), atLeast: bound(3) }));
    expect([m.best, m.worst]).toEqual([7, 7]);
  });
});
