import { describe, expect, test } from "vitest";
import type { Scene } from "../scene.ts";
import { none } from "./dimension.ts";
import { belief, type Cite, centreOf, type Given, given, isPlace, namesOf, tabled, worstLetter } from "./given.ts";
import { believed, sdOfLogarithm } from "./law.ts";
import { type Level, parseQuantity } from "./notation.ts";
import { unitOf } from "./units.ts";

const scene = {} as Scene;
const place = { file: "units/a.yaml", line: 3, column: 7, length: 4 };
const read = (
  text: string,
  unit = "mm",
  level: Level = "unit",
  more: Partial<Parameters<typeof given>[0]> = {},
): Given =>
  given({
    address: "a/x",
    symbol: "x",
    text,
    origin: place,
    dimension: unitOf(unit).dimension,
    written: parseQuantity(text),
    level,
    ...more,
  });
const cite: Cite = { cite: "a table", how: "read" };

describe("a given", () => {
  test("keeps its text, its address and its place, and has its unit in SI", () => {
    const g = read("4.00 ±0.10 mm");
    expect(g).toMatchObject({
      kind: "given",
      address: "a/x",
      symbol: "x",
      text: "4.00 ±0.10 mm",
      unit: "m",
      shownIn: "mm",
      origin: place,
    });
    expect(isPlace(g.origin)).toBe(true);
    expect(isPlace(cite)).toBe(false);
    expect(read("22 ±3 N*mm", "N*mm").unit).toBe("N*m");
    expect(read("0.03 J/m^2", "J/m^2").unit).toBe("N/m");
  });
  test("has its centre in SI, with the names of its text", () => {
    expect(centreOf(read("4.00 ±0.10 mm"), () => undefined)).toBeCloseTo(0.004, 12);
    expect(centreOf(read("W + 0.45 ±0.10 mm"), (n) => (n === "W" ? 0.012 : undefined))).toBeCloseTo(0.01245, 12);
    expect(() => centreOf(read("W + 0.45 mm"), () => undefined)).toThrow(new RangeError("no value for W"));
    expect(namesOf(read("W + max(T, 0.45 mm) - W ±0.10 mm"))).toEqual(["W", "T"]);
    expect(namesOf(read("0.2..0.5 mm guess"))).toEqual([]);
  });
  test("that is a range is an unknown with no expression; its centre is the median of its belief", () => {
    const g = read("0.2..0.8 mm guess");
    expect(g.expression).toBeUndefined();
    expect(g.unknown).toEqual({ law: "lognormal", low: 2e-4, high: 8e-4 });
    expect(centreOf(g, () => undefined)).toBeCloseTo(4e-4, 12);
    expect(centreOf(g, () => undefined, 1)).toBe(believed(g.unknown!, 1));
    expect(read("-60..60 /m guess", "/m").unknown).toEqual({ law: "normal", low: -60, high: 60 });
    expect(read("1.5..2.5 % guess", "").unknown).toEqual({ law: "lognormal", low: 0.015, high: 0.025 });
  });
  test("is a lever or settable only where its field says so", () => {
    expect(read("4 mm").lever).toBeUndefined();
    expect(read("4 mm").settable).toBeUndefined();
    expect(read("4 mm", "mm", "unit", { lever: [0.001, 0.01], settable: true })).toMatchObject({
      lever: [0.001, 0.01],
      settable: true,
    });
  });
});

describe("a scatter", () => {
  test.each<[Level]>([["unit"], ["reel"]])("without a level is at the level of its file: %s", (level) => {
    expect(read("4 ±0.1 mm", "mm", level).scatters).toEqual([{ level, law: "uniform", from: -1e-4, to: 1e-4 }]);
    expect(read("4 mm sd 0.1 mm", "mm", level).scatters).toEqual([{ level, law: "normal", sd: 1e-4 }]);
    expect(read("4 mm sd 8 %", "mm", level).scatters).toEqual([{ level, law: "lognormal", sd: sdOfLogarithm(0.08) }]);
  });
  test("with a level keeps it, in a file of any level", () => {
    const text = "0.4 N per reel sd 15 % per index sd 8 % per unit sd 0.01 N";
    expect(read(text, "N", "unit").scatters.map((s) => s.level)).toEqual(["reel", "index", "unit"]);
  });
  test("comes after the tolerance, in the order of the text", () => {
    expect(read("4 +0.2/-0.1 mm per reel sd 0.05 mm sd 2 %").scatters).toEqual([
      { level: "unit", law: "uniform", from: -1e-4, to: 2e-4 },
      { level: "reel", law: "normal", sd: 5e-5 },
      { level: "unit", law: "lognormal", sd: sdOfLogarithm(0.02) },
    ]);
  });
  test("of no width is none", () => {
    expect(read("4 ±0 mm").scatters).toEqual([]);
    expect(read("4 +0/-0 mm").scatters).toEqual([]);
  });
  test("around an unknown stays beside its belief", () => {
    const g = read("0.2..0.8 N per reel sd 20 % guess", "N", "reel");
    expect(g.unknown).toBeDefined();
    expect(g.scatters).toHaveLength(1);
  });
});

describe("the letter of evidence", () => {
  test.each([
    ["4 mm", "d"],
    ["4 ±0.1 mm", "d"],
    ["W + 4 mm", "d"],
    ["4 mm measured", "m"],
    ["0.2..0.5 mm measured", "m"],
    ["4 mm guess", "g"],
    ["0.2..0.5 mm guess", "g"],
    ["0.2..0.5 mm", "g"],
  ])("of %s is %s", (text, letter) => {
    expect(read(text).letter).toBe(letter);
  });
  test("of a table is d where it was read or derived, else g, unless a status is written", () => {
    const from = (how: Cite["how"], text = "4 mm") =>
      tabled("catalogue/x", "x", text, [1, 0, 0, 0, 0], { cite: "a table", how }).letter;
    expect([from("read"), from("derived"), from("memory"), from("judgement")]).toEqual(["d", "d", "g", "g"]);
    expect(from("read", "1..2 mm guess")).toBe("g");
    expect(from("memory", "4 mm measured")).toBe("m");
  });
  test("that is the worst of several is g before d before m", () => {
    expect(worstLetter(["m", "d", "g"])).toBe("g");
    expect(worstLetter(["m", "d"])).toBe("d");
    expect(worstLetter(["m"])).toBe("m");
    expect(worstLetter([])).toBe("m");
  });
});

describe("the unit a given is shown in", () => {
  test.each([
    ["4 mm", "mm", "mm"],
    ["400 um", "mm", "um"],
    ["-20 deg", "deg", "deg"],
    ["90 deg - 20 deg", "deg", "deg"],
    ["2 %", "", "%"],
    ["1.5", "", ""],
    ["0.03 J/m^2", "J/m^2", "J/m^2"],
    ["22 N*mm", "N*mm", "N*mm"],
    ["22 ±3 N*mm", "N*mm", "N*mm"],
    ["28 /h", "1/h", "1/h"],
    ["80 mm/s", "mm/s", "mm/s"],
    ["5 mm^2", "mm^2", "mm^2"],
    ["3.5 GPa", "GPa", "GPa"],
    ["0.2..0.5 N guess", "N", "N"],
    ["-60..60 /m guess", "/m", "1/m"],
    ["1.5..6 mrad guess", "mrad", "mrad"],
  ])("is the one in its text: %s", (text, unit, shown) => {
    expect(read(text, unit).shownIn).toBe(shown);
  });
  test.each([
    ["W + 400 um", "mm", "mm"],
    ["40 g + 1.7 g*W/mm", "g", "g"],
    ["1 m + 3 mm", "mm", "mm"],
    ["3.4 h + 0.1 h*W/mm", "h", "ms"],
    ["tan(20 deg)", "", ""],
    ["2*3 N", "N", "N"],
    ["6 N/W^0.5*W^0.5", "N", "N"],
    ["W*mm/mm", "mm", "mm"],
  ])("is the customary one where the text is a formula: %s", (text, unit, shown) => {
    expect(read(text, unit).shownIn).toBe(shown);
  });
});

test("what a given reads is asked of the scene, and nothing where its text names nothing", () => {
  const W = read("12 mm");
  const g = read("W + 1 mm", "mm", "unit", { reads: () => ({ W }) });
  expect(g.reads(scene)).toEqual({ W });
  expect(W.reads(scene)).toEqual({});
});

test("a belief switch says its two words and its chance, and is one or nought", () => {
  const front = belief("assume/front", "s_f", ["free", "clamped"], 0.5, { cite: "nobody knows", how: "judgement" });
  expect(front).toMatchObject({
    text: "free or clamped, clamped with 50 %",
    letter: "g",
    unit: "1",
    scatters: [],
    dimension: none,
  });
  expect(centreOf(front, () => undefined, -3)).toBe(0);
  expect(centreOf(front, () => undefined, 3)).toBe(1);
});
