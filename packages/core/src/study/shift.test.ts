import { describe, expect, test } from "vitest";
import { decide } from "./allowance.ts";
import { Cell } from "./cell.ts";
import { Deviates } from "./deviates.ts";
import { check, closed, number, plainScene, solved } from "./plain.fixture.ts";
import { type Shift, shiftInSteps } from "./shift.ts";
import { finished } from "./steps.ts";

const deviates = new Deviates(1);
const draws = Array.from({ length: 50 }, (_, i) => 20 * i + 7);
const least = number("least", "1");
function shiftOf(
  one: ReturnType<typeof check>,
  members: readonly string[],
  reach = 1e-9,
): { cell: Cell; shift: Shift } {
  const cell = new Cell(plainScene(), [one]);
  const deciding = decide(cell, deviates);
  return { cell, shift: finished(shiftInSteps(cell, { deciding, members, reach, draws, deviates })) };
}
const full = (one: ReturnType<typeof check>, member: string, by: number): number[] => {
  const moved = (g: { readonly address: string }) => (g.address === member ? by : undefined);
  const { gap } = decide(new Cell(plainScene(), [one]), deviates, { moved })[0]!;
  return draws.map((k) => gap[k]!);
};

const [u, e] = [number("u", "1..3 guess"), number("e", "0 sd 0.2")];
const a = number("a", "2 ±0.1");

describe("deciding gaps at some draws, a number moved", () => {
  test("are the drawn ones where it stands where it stood, true quantiles among them", () => {
    // Scatter that bends with what is unknown: near nought its quantiles are drawn truly.
    const bent = { v: number("v", "2..8 guess"), s: number("s", "0.2..1.5 guess"), x: number("x", "0 sd 1"), a };
    const one = check("bent", { value: closed("v*a/2 - exp(s*x)", bent), atLeast: number("least", "0.5") });
    expect(decide(new Cell(plainScene(), [one]), deviates)[0]!.drawn).toBeGreaterThan(0);
    const { shift } = shiftOf(one, ["a"]);
    shift.at(0.7);
    expect([...shift.at(0).decided[0]!.gap].map((g) => +g.toFixed(12))).toEqual(
      full(one, "a", 0).map((g) => +g.toFixed(12)),
    );
  });
  test("are exact where the number only adds to the gap", () => {
    const one = check("sum", { value: closed("u + a + e", { u, a, e }), atLeast: least });
    const { shift } = shiftOf(one, ["a"]);
    for (const by of [-1.5, 0.3, 8])
      for (const [row, g] of full(one, "a", by).entries()) expect(shift.at(by).decided[0]!.gap[row]).toBeCloseTo(g, 9);
  });
  test("take less or more for scatter as it grows with the number: within a twentieth of what scatter takes", () => {
    const s = number("s", "1 per reel sd 15 %");
    const one = check("product", { value: closed("u*a*s", { u, a, s }), atLeast: least });
    const { shift, cell } = shiftOf(one, ["a"]);
    for (const by of [-1, -0.2, 0.5, 2]) {
      const moved = shift.at(by).decided[0]!;
      const written = cell.gaps({
        n: 1000,
        unknown: (g) => deviates.normal(`belief ${g.address}`, 1000),
        moved: (g) => (g.address === "a" ? by : undefined),
      })[0]!;
      for (const [row, g] of full(one, "a", by).entries()) {
        const takes = written[draws[row]!]! - g;
        // The tolerance of a does not grow with it: the shape of the scatter changes a little, which is not followed.
        expect(Math.abs(moved.gap[row]! - g)).toBeLessThan(0.05 * takes);
      }
    }
  });
  test("of a window are those of the nearer side", () => {
    const one = check("window", {
      value: closed("u + a + e", { u, a, e }),
      atLeast: number("l", "3"),
      atMost: number("m", "5"),
    });
    const { shift } = shiftOf(one, ["a"]);
    for (const by of [-0.8, 0.8])
      for (const [row, g] of full(one, "a", by).entries()) expect(shift.at(by).decided[0]!.gap[row]).toBeCloseTo(g, 1);
  });
  test("know a number that reads the moved one, and every number as written", () => {
    const b = number("b", "a + 1 ±0.05", { names: { a } });
    const value = closed("u*b", { u, b });
    const one = check("reads", { value, atLeast: least });
    const { nominal } = shiftOf(one, ["a"]).shift.at(0.5);
    expect(nominal.number(value)).toBeCloseTo(Math.sqrt(3) * 3.5, 12);
    expect(nominal.number(least)).toBe(1);
  });
});

describe("the scatter's spread", () => {
  const one = check("grows", { value: closed("a * s", { a, s: e }), atLeast: least });
  const off = (shift: Shift, by: number): number => {
    const truth = full(one, "a", by);
    return Math.max(...shift.at(by).decided[0]!.gap.map((g, row) => Math.abs(g - truth[row]!)));
  };
  test("stands as it was within a quarter of the reach, until it is taken afresh there; beyond it is taken at once", () => {
    const { shift } = shiftOf(one, ["a"], 1);
    const stale = off(shift, 0.2);
    finished(shift.renew(0.2));
    expect(off(shift, 0.2)).toBeLessThan(stale / 5);
    expect(off(shiftOf(one, ["a"], 0.7).shift, 0.2)).toBeLessThan(stale / 5);
  });
});

describe("a costly model", () => {
  const curved = (x: { a: number; u: number }): number => x.a * x.a + x.u;
  const costly = solved("costly", { a, u }, curved, { costly: true });
  const one = check("costly", { value: costly, atLeast: least });
  test("moves by its slopes on either side, by itself where it is asked to and beyond the reach", () => {
    const { shift } = shiftOf(one, ["a"], 1);
    const at = (by: number, exact?: boolean) => shift.at(by, exact).nominal.number(costly);
    const middle = Math.sqrt(3);
    // Slope above 2 over half the reach: (2.5^2 - 4)/0.5 = 4.5; below: (4 - 1.5^2)/0.5 = 3.5. [derived]
    expect(at(0.4)).toBeCloseTo(4 + 4.5 * 0.4 + middle, 9);
    expect(at(-0.4)).toBeCloseTo(4 - 3.5 * 0.4 + middle, 9);
    expect(at(0.4, true)).toBeCloseTo(2.4 ** 2 + middle, 9);
    expect(at(1.2)).toBeCloseTo(3.2 ** 2 + middle, 9);
    finished(shift.renew(1.2));
    expect(at(1.2)).toBeCloseTo(3.2 ** 2 + middle, 9);
    expect(at(1.3)).toBeCloseTo(3.2 ** 2 + 6.9 * 0.1 + middle, 9);
  });
  test("that does not rest on what is moved is left alone", () => {
    const other = solved("other", { u, e }, (x: { u: number; e: number }) => x.u + x.e, { costly: true });
    const sum = check("both", { value: closed("a + o", { a, o: other }), atLeast: least });
    const { shift } = shiftOf(sum, ["a"], 1);
    for (const [row, g] of full(sum, "a", 0.6).entries()) expect(shift.at(0.6).decided[0]!.gap[row]).toBeCloseTo(g, 9);
  });
});
