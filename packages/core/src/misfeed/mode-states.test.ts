import { describe, expect, test } from "vitest";
import type { Check } from "../quantity/check.ts";
import { check, closed, number, plainScene, solved } from "../study/plain.fixture.ts";
import { ModeStates, sidesOf } from "./mode-states.ts";

const scene = plainScene();
const statesOf = (...list: Check[]) =>
  new ModeStates(
    scene,
    list.flatMap((c) => sidesOf(c, scene)),
  );
const x = number("x", "10 per reel sd 2 per index sd 1");
const both = check("both", {
  value: closed("x + u", { x, u: number("u", "-2..2 guess") }),
  atLeast: number("low", "7"),
  atMost: number("high", "15"),
});

describe("windows as limit states", () => {
  const states = statesOf(both);
  test("have one a side, over scatter of every level", () => {
    expect(states.names).toEqual(["both least", "both most"]);
    expect(states.axes.map(({ given, level }) => `${given.address} ${level}`)).toEqual(["x reel", "x index"]);
  });
  test("are the gaps of the two sides, by hand", () => {
    const out = states.at([Float64Array.of(0, 1), Float64Array.of(0, -3)], 2);
    expect([out[0]![0], out[1]![0]]).toEqual([3, 5]);
    expect([out[0]![1], out[1]![1]]).toEqual([10 + 2 - 3 - 7, 15 - 9]);
  });
  test("move with belief, and have it as further coordinates where it is asked for", () => {
    states.belief = () => 1.959963984540054;
    expect(states.at([Float64Array.of(0), Float64Array.of(0)], 1)[0]![0]).toBeCloseTo(5, 9);
    states.belief = () => 0;
    const wide = states.overBelief();
    expect(wide.dimensions).toBe(3);
    const out = wide.at([Float64Array.of(0, 0), Float64Array.of(0, 0), Float64Array.of(0, -1.959963984540054)], 2);
    expect(out[0]![0]).toBeCloseTo(3, 9);
    expect(out[0]![1]).toBeCloseTo(1, 9);
    expect(states.belief(x)).toBe(0);
  });
  test("without an answer fail", () => {
    const none = solved("none", { x }, ({ x: v }: { x: number }) => {
      if (v > 11) throw new RangeError("none");
      return v;
    });
    const out = statesOf(check("none", { value: none, atLeast: number("b", "0") })).at(
      [Float64Array.of(0, 1), Float64Array.of(0, 0)],
      2,
    );
    expect(out[0]![0]).toBe(10);
    expect(out[0]![1]).toBe(Number.NEGATIVE_INFINITY);
  });
  test("stand by differences where a model is costly, and are computed where the truth is asked for", () => {
    let computed = 0;
    const costly = solved(
      "costly",
      { x },
      ({ x: v }: { x: number }) => {
        computed++;
        return v + 0.004 * v ** 3;
      },
      { costly: true },
    );
    const states = statesOf(check("c", { value: costly, atLeast: number("b", "0") }));
    states.at([Float64Array.of(1), Float64Array.of(0)], 1);
    computed = 0;
    states.at([Float64Array.of(2), Float64Array.of(0)], 1);
    expect(computed).toBe(0);
    expect(states.truly(Float64Array.of(2, 0))).toEqual([14 + 0.004 * 14 ** 3]);
  });
});

describe("windows that can't break as drawn", () => {
  const limits = (room: string) =>
    check("limits", {
      value: closed("a - b", { a: number("a", "10 ±1"), b: number("b", "5 ±1", { level: "reel" }) }),
      atLeast: number("least", room),
    });
  test("are those that only limits move, and that stay open with all of them unkind", () => {
    expect(statesOf(limits("2.9")).cannotFail).toBe(true);
    expect(statesOf(limits("3.1")).cannotFail).toBe(false);
    expect(statesOf(both).cannotFail).toBe(false);
  });
});
test("a check that does not apply has no sides", () =>
  expect(sidesOf(check("off", { value: closed("x", { x }), atLeast: x, absent: () => "not here" }), scene)).toEqual(
    [],
  ));
