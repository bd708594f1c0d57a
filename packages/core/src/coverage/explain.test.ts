import { describe, expect, test } from "vitest";
import { checks } from "../checks.ts";
import { checkPulls } from "../nip/window.ts";
import { scenes } from "../scene.fixture.ts";
import { check, closed, number, plainScene, solved } from "../study/plain.fixture.ts";
import { type Explained, explain, placeText } from "./explain.ts";

const scene = plainScene();
const N = number("plover/nip.preload", "6.0 ±0.5 N", { unit: "N" });
const mu = number("plover/nip.mu", "0.2..0.8 guess");
const grip = closed("2*N*mu", { N, mu }, { symbol: "S", unit: "N", title: "traction limit" });
const one = check("one", {
  value: grip,
  atLeast: number("least", "1 N", { unit: "N" }),
  atMost: number("most", "20 N", { unit: "N" }),
});

describe("the drill-down of a check", () => {
  const { value, least, most } = explain(one, scene)!;
  // By hand: the median of 0.2..0.8 on a logarithmic scale is 0.4, and 2 * 6 N * 0.4 = 4.8 N.
  test("shows the value, its equation in print and with its numbers", () => {
    expect(value).toMatchObject({
      symbol: "S",
      title: "traction limit",
      unit: "N",
      shown: "4.800 N",
      form: "closed",
      equation: "2·N·μ",
      filled: "2·6.000 N·0.4000",
      source: "invented for the tests (judgement)",
    });
    expect(value.value).toBeCloseTo(4.8, 12);
  });
  test("ends at the numbers somebody gave: text, address, letter, and what scatters or is unknown", () => {
    expect(value.rests.map((r) => r.symbol)).toEqual(["N", "μ"]);
    expect(value.rests[0]).toMatchObject({
      title: "6.0 ±0.5 N",
      shown: "6.000 N",
      rests: [],
      given: { address: "plover/nip.preload", text: "6.0 ±0.5 N", letter: "d", unknown: false, scatters: ["unit"] },
    });
    expect(value.rests[1]).toMatchObject({
      shown: "0.4000",
      given: { address: "plover/nip.mu", letter: "g", unknown: true, scatters: [] },
    });
    expect(value.rests[0]!.equation).toBeUndefined();
  });
  test("shows both bounds the same way", () => {
    expect([least!.shown, most!.shown]).toEqual(["1.000 N", "20.00 N"]);
    expect(explain(check("half", { value: grip, atLeast: N }), scene)!.most).toBeUndefined();
  });
  test("opens a number whose text is a formula", () => {
    const W = number("tape/W", "24 mm", { unit: "mm" });
    const c = number("plover/width", "W + 0.45 ±0.10 mm", { unit: "mm", names: { W } });
    const row = explain(
      check("c", { value: closed("c - W", { c, W }, { unit: "m" }), atLeast: number("b", "0 mm", { unit: "mm" }) }),
      scene,
    )!.value;
    expect(row.rests[0]).toMatchObject({
      shown: "24.45 mm",
      equation: "W + 0.45 mm",
      filled: "24.00 mm + 0.45 mm",
      given: { text: "W + 0.45 ±0.10 mm" },
    });
    expect(row.rests[0]!.rests[0]!.given!.address).toBe("tape/W");
  });
  test("numbers the members of a list, and names those of a group", () => {
    const [a, b, d] = [number("a", "1"), number("b", "2"), number("d", "3")];
    const m = solved(
      "m",
      { pieces: [{ long: a }, { long: b }], end: d, kind: "bar" },
      ({ end }: { end: number }) => end,
    );
    const row = explain(check("m", { value: m, atLeast: number("x", "0") }), scene)!.value;
    expect(row.rests.map((r) => r.symbol)).toEqual(["pieces 1 long", "pieces 2 long", "end"]);
    expect(row).toMatchObject({ form: "solved", equation: "found by its code", shown: "3.000" });
    expect(row.filled).toBeUndefined();
  });
  test("of a solver's result shows what it rests on and no number", () => {
    const a = number("a", "1");
    const result = solved("result", { a }, ({ a: v }: { a: number }) => ({ v }), { unit: "", title: "a path" });
    const m = solved("m", { r: result }, ({ r }: { r: { v: number } }) => r.v);
    const row = explain(check("m", { value: m, atLeast: number("x", "0") }), scene)!.value;
    expect(row.rests[0]).toMatchObject({ title: "a path", value: null, shown: "" });
    expect(row.rests[0]!.rests[0]!.given!.address).toBe("a");
  });
  test("is undefined where the check does not apply", () => {
    expect(explain({ ...one, absent: () => "none" }, scene)).toBeUndefined();
    expect(explain({ ...one, value: () => undefined }, scene)).toBeUndefined();
  });
  test("says that a model has no number where its code finds none", () => {
    const broken = solved("broken", { a: number("a", "1") }, () => {
      throw new RangeError("none");
    });
    expect(explain(check("b", { value: broken, atLeast: number("x", "0") }), scene)!.value.shown).toBe("no number");
  });
});

describe("real checks", () => {
  const leaves = (row: Explained): Explained[] => (row.rests.length === 0 ? [row] : row.rests.flatMap(leaves));
  test.each(scenes)("%s: every check that applies leads down to numbers somebody gave", (_, real) => {
    let open = 0;
    for (const c of checks) {
      const told = explain(c, real);
      if (!told) continue;
      open++;
      for (const row of [told.value, told.least, told.most])
        for (const leaf of row ? leaves(row) : []) expect(leaf.given?.text ?? leaf.form).toBeTruthy();
    }
    expect(open).toBeGreaterThan(0);
  });
  test("the nip's grip is 2 faces of friction times preload in numbers", () => {
    const told = explain(checkPulls, scenes[0]![1])!;
    expect(told.value.filled).toMatch(/^6\.000 N·\(0\.\d+ \+ 0\.\d+\)$/);
    expect(told.value.rests).toHaveLength(3);
    expect(told.least).toBeDefined();
  });
});

test("a place is file, line and column; a source is named with how it is known", () => {
  expect(placeText({ file: "units/plover.yaml", line: 14, column: 10, length: 4 })).toBe("units/plover.yaml:14:10");
  expect(placeText({ cite: "EIA-481-D", how: "read" })).toBe("EIA-481-D (read)");
});
