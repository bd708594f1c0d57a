import { describe, expect, test } from "vitest";
import { checks } from "../checks.ts";
import { rootsOf } from "../quantity/model.ts";
import { scenes } from "../scene.fixture.ts";
import { addressesOfEach, beliefColumn, Cell, oneSd, type Standing, scatterColumn } from "./cell.ts";
import { Deviates } from "./deviates.ts";
import { check, closed, number, plainScene, solved } from "./plain.fixture.ts";

const scene = plainScene();
const still: Standing = { n: 1 };
const gapsOf = (cell: Cell, standing = still) => cell.gaps(standing).map((g) => g[0]!);
const sidesOf = (cell: Cell, standing = still) => cell.sideGaps(standing).map((g) => g[0]!);
const limit = (v: number) => number(`limit ${v}`, `${v}`);

describe("what a check rests on", () => {
  test("is found without evaluating anything, the same as what a cell of it reads", () => {
    const never = solved("never", { a: number("a", "2 sd 1"), b: number("b", "1..2 guess") }, () => {
      throw new Error("evaluated");
    });
    const list = [
      check("one", { value: never, atLeast: limit(1) }),
      check("two", { value: closed("c*d", { c: number("c", "3"), d: number("d", "1 \u00b10.1") }), atMost: limit(4) }),
    ];
    const found = addressesOfEach(scene, list).map((set) => [...set].sort());
    expect(found).toEqual([
      ["a", "b", "limit 1"],
      ["c", "d", "limit 4"],
    ]);
    expect(found[1]).toEqual([...new Cell(scene, [list[1]!]).addresses].sort());
  });
});

describe("the gap of a check", () => {
  const x = closed("a", { a: number("a", "12") });
  // By hand: 12 is 2 over 10 and 5 under 17.
  test("is the distance to its bound, positive where the window holds", () => {
    expect(gapsOf(new Cell(scene, [check("least", { value: x, atLeast: limit(10) })]))).toEqual([2]);
    expect(gapsOf(new Cell(scene, [check("least", { value: x, atLeast: limit(13) })]))).toEqual([-1]);
    expect(gapsOf(new Cell(scene, [check("most", { value: x, atMost: limit(17) })]))).toEqual([5]);
    expect(gapsOf(new Cell(scene, [check("most", { value: x, atMost: limit(11) })]))).toEqual([-1]);
  });
  test("is the lesser of the two in a window, and its sides are kept apart", () => {
    const cell = new Cell(scene, [
      check("one", { value: x, atMost: limit(14) }),
      check("window", { value: x, atLeast: limit(10), atMost: limit(17) }),
      check("other", { value: x, atLeast: limit(5), atMost: limit(12.5) }),
    ]);
    expect(gapsOf(cell)).toEqual([2, 2, 0.5]);
    expect(sidesOf(cell)).toEqual([2, 2, 5, 7, 0.5]);
    expect(cell.sidesOf).toEqual([[0], [1, 2], [3, 4]]);
  });
  // Value and bound both read b: what they share cancels, so the gap is a alone.
  test("is free of what value and bound share", () => {
    const b = number("b", "5 sd 3");
    const cell = new Cell(scene, [
      check("shared", { value: closed("a + b", { a: number("a", "2 sd 1"), b }), atLeast: closed("b", { b }) }),
    ]);
    const gap = cell.gaps({ n: 3, scatter: (g) => (g.address === "b" ? Float64Array.of(-4, 0, 4) : 0.5) })[0]!;
    expect(Array.from(gap)).toEqual([2.5, 2.5, 2.5]);
  });
  test("is minus infinity where the value or the bound gives no answer", () => {
    const a = number("a", "1 sd 1");
    const picky = solved("picky", { a }, ({ a: v }: { a: number }) => {
      if (v > 2) throw new RangeError("too much");
      return v;
    });
    const root = closed("sqrt(a)", { a });
    const cell = new Cell(scene, [
      check("value", { value: picky, atLeast: limit(0) }),
      check("bound", { value: closed("a", { a }), atMost: picky }),
      check("root", { value: root, atMost: limit(9) }),
    ]);
    // 0 is added because 1 - 1 seen from an upper bound is minus nought.
    const gaps = cell.gaps({ n: 3, scatter: () => Float64Array.of(0, 4, -2) }).map((g) => Array.from(g, (v) => v + 0));
    expect(gaps).toEqual([
      [1, Number.NEGATIVE_INFINITY, -1],
      [0, Number.NEGATIVE_INFINITY, 0],
      [8, 9 - Math.sqrt(5), Number.NEGATIVE_INFINITY],
    ]);
  });
  // A number without end is no answer either: no check may hold by it.
  test("is minus infinity where the value is without end, be it on the kind side", () => {
    const a = number("a", "1 sd 1");
    const cell = new Cell(scene, [check("inverse", { value: closed("1/a", { a }), atLeast: limit(0) })]);
    expect(Array.from(cell.gaps({ n: 2, scatter: () => Float64Array.of(0, -1) })[0]!)).toEqual([
      1,
      Number.NEGATIVE_INFINITY,
    ]);
  });
  test("goes into columns of an earlier call when they are handed in", () => {
    const a = number("a", "1 sd 1");
    const cell = new Cell(scene, [check("window", { value: closed("a", { a }), atLeast: limit(0), atMost: limit(5) })]);
    const first = cell.sideGaps({ n: 2, scatter: () => 1 });
    expect(first.map((g) => Array.from(g))).toEqual([
      [2, 2],
      [3, 3],
    ]);
    const second = cell.sideGaps({ n: 2, scatter: () => Float64Array.of(0, 2) }, first);
    expect(second[0]).toBe(first[0]);
    expect(first.map((g) => Array.from(g))).toEqual([
      [1, 3],
      [4, 2],
    ]);
  });
});

describe("scatter between indexes", () => {
  // Three standard deviations to the side that is unkind to the bound: 12 - 3 - 10 = -1, 17 - (12 + 3) = 2. [by hand]
  const x = closed("a", { a: number("a", "12 per index sd 1") });
  test("stands 3 sd on the unkind side of a lower and of an upper bound", () => {
    expect(gapsOf(new Cell(scene, [check("least", { value: x, atLeast: limit(10) })]))).toEqual([-1]);
    expect(gapsOf(new Cell(scene, [check("most", { value: x, atMost: limit(17) })]))).toEqual([2]);
  });
  test("stands on the side unkind to each bound of one window", () => {
    const cell = new Cell(scene, [check("window", { value: x, atLeast: limit(5), atMost: limit(20) })]);
    expect(sidesOf(cell)).toEqual([12 - 3 - 5, 20 - 12 - 3]);
    expect(gapsOf(cell)).toEqual([4]);
  });
  test("in value and bound stands for each on its own unkind side, and what they share cancels", () => {
    const [a, b] = [number("a", "20 per index sd 2"), number("b", "10 per index sd 1")];
    const apart = check("apart", { value: closed("a", { a }), atLeast: closed("b", { b }) });
    const shared = check("shared", { value: closed("a + b", { a, b }), atLeast: closed("b", { b }) });
    expect(gapsOf(new Cell(scene, [apart, shared]))).toEqual([20 - 6 - (10 + 3), 20 - 6]);
  });
  // A lognormal share of 10 %: the logarithm's sd is sqrt(ln 1.01), three of them divide by exp(0.2993). [closed form]
  test("of a share divides or multiplies", () => {
    const a = number("a", "12 per index sd 10 %");
    const factor = Math.exp(3 * Math.sqrt(Math.log(1.01)));
    const cell = new Cell(scene, [
      check("window", { value: closed("a", { a }), atLeast: limit(5), atMost: limit(20) }),
    ]);
    expect(sidesOf(cell)[0]).toBeCloseTo(12 / factor - 5, 12);
    expect(sidesOf(cell)[1]).toBeCloseTo(20 - 12 * factor, 12);
  });
  // |a - 12| is 3 at both ends and 0 in the middle: either end is unkind to an upper bound, none to a lower one.
  test("that is unkind both ways stands on one of them, and on neither where both are kind", () => {
    const off = closed("abs(a - 12)", { a: number("a", "12 per index sd 1") });
    expect(gapsOf(new Cell(scene, [check("most", { value: off, atMost: limit(5) })]))).toEqual([2]);
    expect(gapsOf(new Cell(scene, [check("least", { value: off, atLeast: limit(-1) })]))).toEqual([1]);
  });
  test("stands at the worse end where the two differ but both are unkind", () => {
    const off = closed("abs(a - 11)", { a: number("a", "12 per index sd 1") });
    expect(gapsOf(new Cell(scene, [check("most", { value: off, atMost: limit(5) })]))).toEqual([1]);
  });
  test("that leaves the model without an answer on one side stands there", () => {
    const a = number("a", "2 per index sd 1");
    const cell = new Cell(scene, [check("root", { value: closed("sqrt(a)", { a }), atMost: limit(3) })]);
    expect(gapsOf(cell)).toEqual([Number.NEGATIVE_INFINITY]);
  });
  // A tolerance ends at its limits: nothing stands beyond them.
  test("written as limits stands at the unkind limit", () => {
    const cell = new Cell(scene, [
      check("least", { value: closed("a", { a: number("a", "12 ±1", { level: "index" }) }), atLeast: limit(10) }),
    ]);
    expect(gapsOf(cell)).toEqual([1]);
  });
  test("stays on its unkind side whatever the other scatters do, and is none of them", () => {
    const [a, b] = [number("a", "12 per index sd 1 per reel sd 2"), number("b", "1 sd 1")];
    const cell = new Cell(scene, [check("least", { value: closed("a + b", { a, b }), atLeast: limit(10) })]);
    expect(cell.scatters.map(({ given, which }) => `${given.address}#${which}`)).toEqual(["a#1", "b#0"]);
    expect(Array.from(cell.gaps({ n: 2, scatter: () => Float64Array.of(-1, 1) })[0]!)).toEqual([
      12 - 3 - 2 + 1 - 1 - 10,
      12 - 3 + 2 + 1 + 1 - 10,
    ]);
  });
});

describe("levels", () => {
  const reel = number("b reel", "1 ±1", { level: "reel" });
  const unit = number("c unit", "2 sd 1", { level: "unit" });
  const both = number("a both", "3 per reel sd 1 per unit sd 5 %");
  const guess = number("d guess", "1..2 guess");
  const loose = number("e guess", "1..2 sd 10 % guess");
  const value = closed("a + b + c + d + e", { a: both, b: reel, c: unit, d: guess, e: loose });
  const cell = new Cell(scene, [check("sum", { value, atLeast: limit(0) })]);

  test("scatter is between reels and units; an unknown is no scatter, but may have some of its own", () => {
    expect(
      cell.scatters.map(
        ({ given, which }) => `${given.address}: ${given.scatters[which]!.level} ${given.scatters[which]!.law}`,
      ),
    ).toEqual([
      "a both: reel normal",
      "a both: unit lognormal",
      "b reel: reel uniform",
      "c unit: unit normal",
      "e guess: unit lognormal",
    ]);
    expect(cell.unknowns.map((g) => g.address)).toEqual(["d guess", "e guess"]);
  });
  // Six numbers with a level, an address and a law each.
  test("every level, every address and every scatter of a number has draws of its own; belief rests on the address alone", () => {
    const deviates = new Deviates(1);
    const columns = [
      ...cell.scatters.map(({ given, which }) => scatterColumn(deviates, given, which, 10)),
      ...cell.unknowns.map((g) => beliefColumn(deviates, g, 10)),
    ];
    expect(new Set(columns.map((c) => c[3])).size).toBe(columns.length);
    const twin = number("d guess", "7..9 guess", { unit: "" });
    expect(beliefColumn(deviates, twin, 10)).toEqual(beliefColumn(deviates, guess, 10));
  });
  // A tolerance is uniform between its limits, so its sd is the half width over sqrt 3. [closed form]
  test("one sd of a tolerance is its half width over the square root of three", () => {
    expect(oneSd(reel, 0)).toBeCloseTo(0.5773502691896258, 15);
    expect(oneSd(unit, 0)).toBe(1);
    expect(oneSd(loose, 0)).toBe(1);
    const t = scatterColumn(new Deviates(1), reel, 0, 100_000);
    expect(t.reduce((s, v) => s + v * v, 0) / t.length).toBeCloseTo(1 / 3, 2);
  });
  test("an unknown and its scatter move the value one after the other", () => {
    const alone = new Cell(scene, [check("loose", { value: closed("e", { e: loose }), atLeast: limit(0) })]);
    const z = 1.959963984540054;
    const sd = Math.sqrt(Math.log(1.01));
    expect(alone.gaps({ n: 1, unknown: () => z, scatter: () => -1 })[0]![0]).toBeCloseTo(2 * Math.exp(-sd), 12);
  });
  test("what is left out of a standing stays as written: unknowns at their medians", () => {
    expect(gapsOf(cell)[0]).toBeCloseTo(3 + 1 + 2 + 2 * Math.SQRT2, 12);
  });
});

describe("the checks of a cell", () => {
  const a = number("a", "1");
  test("are those that apply: a check without value or bounds, or with a reason to be absent, is left out", () => {
    const value = closed("a", { a });
    const checks = [
      check("applies", { value, atLeast: limit(0) }),
      check("has a reason", { value, atLeast: limit(0), absent: () => "no such member" }),
      check("has no value", { value: () => undefined, atLeast: limit(0) }),
      check("has no bound", { value, atMost: () => undefined }),
      check("has one of two", { value, atLeast: () => undefined, atMost: limit(3) }),
    ];
    const cell = new Cell(scene, checks);
    expect(cell.checks.map((c) => c.id)).toEqual(["applies", "has one of two"]);
    expect(gapsOf(cell)).toEqual([1, 2]);
  });
  test("know which numbers they rest on, through formulas and bounds", () => {
    const b = number("b", "2*a", { names: { a } });
    const c = number("c", "3");
    const cell = new Cell(scene, [check("one", { value: closed("2*b", { b }), atLeast: c })]);
    expect([a, b, c].map((g) => cell.readsGiven(g))).toEqual([true, true, true]);
    expect(cell.readsGiven(number("d", "1"))).toBe(false);
  });
  // Other checks may lie on other sides of an index scatter: their layout must not touch this one's numbers.
  test("give the same gaps alone and in company", () => {
    const [x, y, u] = [
      number("x", "5 per index sd 1 per unit sd 0.3"),
      number("y", "3 ±0.5 mm", { unit: "mm" }),
      number("u", "0.5..2 guess"),
    ];
    const value = closed("x*u + y/mm", { x, y, u });
    const list = [
      check("low", { value, atLeast: limit(3) }),
      check("high", { value, atMost: limit(14) }),
      check("window", { value: closed("x/u", { x, u }), atLeast: limit(1), atMost: limit(9) }),
      check("plain", { value: closed("u", { u }), atMost: limit(2) }),
    ];
    const deviates = new Deviates(5);
    const standing: Standing = {
      n: 50,
      unknown: (g) => beliefColumn(deviates, g, 50),
      scatter: (g, w) => scatterColumn(deviates, g, w, 50),
    };
    const together = new Cell(scene, list).gaps(standing);
    for (const [i, one] of list.entries()) expect(new Cell(scene, [one]).gaps(standing)[0]).toEqual(together[i]);
  });
});

// Draws go by address: two numbers at one address would move as one.
test.each(scenes)("%s: no two numbers of its checks stand at one address", (_, real) => {
  const cell = new Cell(real, checks);
  const roots = new Set(cell.quantities.flatMap((q) => [...rootsOf(q, real)]));
  const moving = [...roots].filter((g) => g.unknown !== undefined || g.scatters.length > 0);
  expect(new Set(moving.map((g) => g.address)).size).toBe(moving.length);
});
