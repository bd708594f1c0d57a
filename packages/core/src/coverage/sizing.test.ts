import { describe, expect, test } from "vitest";
import type { Check } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import type { Scene } from "../scene.ts";
import { beliefDraws } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, check, closed, number, plainScene } from "../study/plain.fixture.ts";
import { finished } from "../study/steps.ts";
import { type Free, freeOf, isFault } from "./free.ts";
import { lowPoint } from "./low-point.ts";
import { type Sizing, type SizingResult, sizedTapesInSteps, sizeInSteps } from "./sizing.ts";
import { Windows, windowPoints } from "./windows.ts";

const deviates = new Deviates(1);
const even = alike(beliefDraws);
const sceneOf = (W: number, ...givens: readonly Given[]): Scene => ({
  ...plainScene(),
  unit: {
    name: "test",
    row: W,
    givens: new Map(givens.map((g) => [g.address, g])),
    film: {},
  } as unknown as Scene["unit"],
  tape: { row: W } as unknown as Scene["tape"],
});
const force = (address: string, text: string, lever?: readonly [number, number]): Given =>
  number(address, text, { unit: "N", ...(lever ? { lever } : {}) });
const N = force("unit/preload", "5.1 N", [0.5, 30]);
const mu = number("mu", "0.2..0.6 guess");
const atLeast = (
  id: string,
  formula: string,
  bound: string,
  names: Record<string, Given>,
  more: Partial<Check> = {},
): Check => check(id, { value: closed(formula, names, { unit: "N" }), atLeast: force(`least ${id}`, bound), ...more });
const atMost = (id: string, formula: string, bound: string, names: Record<string, Given>): Check =>
  check(id, { value: closed(formula, names, { unit: "N" }), atMost: force(`most ${id}`, bound) });
const free = (scenes: readonly Scene[], path: string, low: number, high: number): Free => {
  const made = freeOf(scenes, { path, bounds: () => [low, high] });
  if (isFault(made)) throw new Error(made.found);
  return made;
};
const asked = (
  scenes: readonly Scene[],
  checks: readonly Check[],
  marks: readonly [string, number, number][],
  more: Partial<Sizing> = {},
): Sizing => ({
  unit: "test",
  tapes: scenes.map((scene, i) => ({ tape: `tape ${i + 1}`, scene })),
  checks,
  deviates,
  weights: even,
  contradicted: new Set(),
  free: marks.map(([path, low, high]) => free(scenes, path, low, high)),
  starts: 2,
  ...more,
});
const size = (...of: Parameters<typeof asked>): SizingResult => finished(sizeInSteps(asked(...of)));
const one = sceneOf(12, N);
/** What 2 % of pairs take, in standard deviations of a normal scatter; from 2000 draws. [derived] */
const taken = 2.054;

describe("a nip between two walls", () => {
  const pulls = atLeast("pulls", "N", "5 N sd 0.2 N", { N });
  const slips = atMost("slips", "N", "9.2 N sd 0.4 N", { N });
  const found = size([one], [pulls, slips], [["preload", 4, 12]]);
  // (N - 5)/0.2 = (9.2 - N)/0.4 at N = 6.4; 7 sd less what the allowance takes. [derived]
  test("stands where both are as many standard deviations away", () => {
    expect(found.dimensions[0]!.by).toBeCloseTo(1.3, 9);
    expect(found.after.least).toBeGreaterThan(7 - taken - 0.15);
    expect(found.after.least).toBeLessThan(7 - taken + 0.15);
    expect(found.before.least).toBeLessThan(0.5 - taken + 0.15);
    expect(found.before.check).toBe("pulls");
  });
  test("is written to two figures, in its own words", () => {
    expect(found.lines).toEqual([
      { path: "preload", address: "unit/preload", width: undefined, text: "5.1 N", written: "6.4 N" },
    ]);
  });
  test("gains for the one and has the other pay, and says what the move buys", () => {
    expect(found.gains.map((c) => [c.check, c.before.verdict, c.after.verdict])).toEqual([["pulls", "stops", "feeds"]]);
    expect(found.pays.every((c) => c.check === "slips" && c.after.verdict === "feeds")).toBe(true);
    expect(found.front.map(({ path, open }) => [path, open])).toEqual([
      [undefined, 1],
      ["preload", 0],
    ]);
    expect(found.tapes[0]).toMatchObject({ before: { verdict: "stops" }, after: { verdict: "feeds" } });
  });
  test("ends at the same least gap from every start", () => {
    const ends = size([one], [pulls, slips], [["preload", 4, 12]], { starts: 5 }).starts.map((s) => s.least);
    expect(ends).toHaveLength(5);
    for (const end of ends) expect(Math.abs(end - ends[0]!)).toBeLessThan(0.02);
  });
  // The same walls on two tapes of one width are the same problem.
  test("is the same where each wall is another tape's", () => {
    const [a, b] = [sceneOf(12, N), sceneOf(16, N)];
    const on = (W: number, of: Check): Check => ({
      ...of,
      absent: ({ tape }) => (tape.row === W ? undefined : "not here"),
    });
    const apart = size([a, b], [on(12, pulls), on(16, slips)], [["preload", 4, 12]]);
    expect(apart.dimensions[0]!.by).toBeCloseTo(1.3, 9);
    expect(apart.after.least).toBeCloseTo(found.after.least, 9);
  });
});

describe("a dimension that buys nothing", () => {
  const L = force("unit/spring", "3 N", [0.5, 30]);
  const scene = sceneOf(12, N, L);
  const pulls = atLeast("pulls", "N", "5 N sd 0.2 N", { N });
  const slips = atMost("slips", "N", "9.2 N sd 0.4 N", { N });
  const holds = atLeast("holds", "L", "1 N sd 0.01 N", { L });
  test("stays, and where it would have gone is told", () => {
    const found = size(
      [scene],
      [pulls, slips, holds],
      [
        ["preload", 4, 12],
        ["spring", 1, 9],
      ],
    );
    expect(found.dimensions.map(({ path, by }) => [path, by === 0])).toEqual([
      ["preload", false],
      ["spring", true],
    ]);
    expect(found.lines.map(({ path }) => path)).toEqual(["preload"]);
  });
  test("is moved no farther than it has to be", () => {
    // The spring is the wall at 1.05 N; the nip takes over as the wall at 0.99 of what can be had.
    const weak = force("unit/spring", "1.05 N", [0.5, 30]);
    const held = atLeast("holds", "L", "1 N sd 0.1 N", { L: weak });
    const found = size(
      [sceneOf(12, N, weak)],
      [pulls, slips, held],
      [
        ["preload", 4, 12],
        ["spring", 1, 9],
      ],
    );
    const [, spring] = found.dimensions;
    // 7 standard deviations of 0.1 N above 1 N. [derived]
    expect(1.05 + spring!.by).toBeGreaterThan(1.65);
    expect(1.05 + spring!.by).toBeLessThan(1.85);
  });
});

describe("a check that no value within the bounds settles is set aside", () => {
  const pulls = atLeast("pulls", "N", "5 N sd 0.2 N", { N });
  const slips = atMost("slips", "N", "9.2 N sd 0.4 N", { N });
  const hangs = atLeast("hangs", "N*mu", "4 N", { N, mu });
  const beyond = atLeast("beyond", "N*mu", "20 N", { N, mu });
  const apart = check("apart", { value: closed("mu", { mu }), atLeast: number("least apart", "0.5") });
  test("with what it hangs on, and the rest is sized without it", () => {
    const found = size([one], [pulls, slips, hangs, beyond, apart], [["preload", 4, 12]]);
    expect(found.aside.map(({ check: id, why }) => [id, why])).toEqual([
      ["hangs", "guess"],
      ["beyond", "bounds"],
      ["apart", "unmoved"],
    ]);
    expect(found.aside[0]!.unknown).toEqual({ address: "mu", symbol: "mu" });
    // At 12 N mu of 1/3 is enough: about half of a guess from 0.2 to 0.6, even in its logarithm. [derived]
    expect(found.aside[0]!.best).toBeGreaterThan(0.4);
    expect(found.aside[0]!.best).toBeLessThan(0.6);
    expect(found.dimensions[0]!.by).toBeCloseTo(1.3, 9);
    expect(found.tapes[0]!.after.verdict).not.toBe("feeds");
  });
  test("but one that can be brought to feed is in question", () => {
    // mu N >= 1.5 in 95 % of belief wants N of 1.5 over the 51st of 1000 frictions, about 0.22. [derived]
    const wants = atLeast("wants", "N*mu", "1.5 N", { N, mu });
    const found = size([one], [wants], [["preload", 4, 12]]);
    expect(found.aside).toEqual([]);
    expect(found.tapes[0]!.after.verdict).toBe("feeds");
  });
});

describe("widths that want opposite things", () => {
  const narrow = sceneOf(12, N);
  const wide = sceneOf(24, N);
  const light: Check = {
    ...atMost("light", "N", "5 N sd 0.2 N", { N }),
    absent: ({ tape }) => (tape.row === 12 ? undefined : "no"),
  };
  const heavy: Check = {
    ...atLeast("heavy", "N", "8 N sd 0.2 N", { N }),
    absent: ({ tape }) => (tape.row === 24 ? undefined : "no"),
  };
  test("get values of their own as the last resort, after the common move", () => {
    const found = size([narrow, wide], [light, heavy], [["preload", 2, 12]]);
    expect(found.after.least).toBeLessThan(0);
    expect(found.widths.map(({ W }) => W)).toEqual([12, 24]);
    for (const width of found.widths) expect(width.after).toBeGreaterThanOrEqual(0);
    const lines = found.lines.filter(({ width }) => width !== undefined);
    expect(lines.map(({ width, path }) => [width, path])).toEqual([
      [12, "preload"],
      [24, "preload"],
    ]);
    expect(Number.parseFloat(lines[0]!.written)).toBeLessThan(5);
    expect(Number.parseFloat(lines[1]!.written)).toBeGreaterThan(8);
  });
  test("and none where the common move is enough", () => {
    expect(size([narrow, wide], [heavy], [["preload", 2, 12]]).widths).toEqual([]);
  });
});

test("a sizing that is stopped tells the best it had", () => {
  const pulls = atLeast("pulls", "N", "5 N sd 0.2 N", { N });
  const slips = atMost("slips", "N", "9.2 N sd 0.4 N", { N });
  let asks = 0;
  const found = size([one], [pulls, slips], [["preload", 4, 12]], { starts: 50, stop: () => ++asks > 6 });
  expect(found.stopped).toBe(true);
  expect(found.starts.length).toBeLessThan(3);
  expect(found.after.least).toBeGreaterThanOrEqual(found.before.least);
});

describe("the window of a dimension", () => {
  const pulls = atLeast("pulls", "N", "5 N sd 0.2 N", { N });
  const slips = atMost("slips", "N - L/4", "9.2 N sd 0.4 N", { N, L: force("unit/spring", "4 N", [0.5, 30]) });
  const L = force("unit/spring", "4 N", [0.5, 30]);
  const sizing = asked(
    [sceneOf(12, N, L)],
    [pulls, slips],
    [
      ["preload", 4, 12],
      ["spring", 2, 8],
    ],
  );
  const { tapes } = finished(sizedTapesInSteps(sizing));
  const windows = new Windows(tapes, sizing.free);
  finished(windows.table([1, 0]));
  // Pulls holds from 5 + 0.2*2.054, slips up to 9.2 + L/4 - 0.4*2.054: 5.41 to 9.38 N at L = 4. [derived]
  test("runs from where the one wall feeds to where the other does, and names both", () => {
    const [preload] = windows.at([1, 0]);
    expect(preload!.at).toHaveLength(windowPoints);
    expect(preload!.runs).toHaveLength(1);
    const [run] = preload!.runs;
    expect(5.1 + run!.from).toBeGreaterThan(5.37);
    expect(5.1 + run!.from).toBeLessThan(5.45);
    expect(5.1 + run!.to).toBeGreaterThan(9.3);
    expect(5.1 + run!.to).toBeLessThan(9.46);
    expect([run!.below?.check, run!.above?.check]).toEqual(["pulls", "slips"]);
  });
  test("is that of the place dragged to, exact where dimensions do nothing together", () => {
    const [preload, spring] = windows.at([3.9, 1.5]);
    const low = (x: number[]): number => {
      const gaps = tapes[0]!.at(x);
      return lowPoint(tapes[0]!.least(gaps), tapes[0]!.weight);
    };
    for (const n of [0, 45, 90]) expect(preload!.least[n]!).toBeCloseTo(low([preload!.at[n]!, 1.5]), 6);
    for (const n of [0, 45, 90]) expect(spring!.least[n]!).toBeCloseTo(low([3.9, spring!.at[n]!]), 6);
  });
  test("has no run where nothing feeds", () => {
    const [, spring] = windows.at([-1, 0]);
    expect(spring!.runs).toEqual([]);
  });
});
