import { ChangeSet } from "@codemirror/state";
import { type Given, isPlace } from "@tapeworthy/core";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { texts, unit } from "./curlew.fixture.ts";
import { applied, type Edit, inverse, replaced, valueChanged } from "./edit.ts";
import { example } from "./example.fixture.ts";
import { readProject } from "./project.ts";

const project = readProject(texts).project!;
const curlew = (address: string): Given => project.givens.get(`curlew/${address}`)!;
const file = "units/curlew.yaml";
/** Lines of two texts that are not the same, from one. */
const changedLines = (before: string, after: string): number[] => {
  const [a, b] = [before.split("\n"), after.split("\n")];
  expect(b).toHaveLength(a.length);
  return a.flatMap((line, i) => (line === b[i] ? [] : [i + 1]));
};

describe("changing a number", () => {
  test("changes its line and no other, and leaves what stands behind it", () => {
    const edit = valueChanged(texts, curlew("tape.section.width"), "W + 0.60 ±0.10 mm");
    const after = applied(edit, unit);
    expect(edit.file).toBe(file);
    expect(changedLines(unit, after)).toEqual([22]);
    expect(after.split("\n")[21]).toBe("    width: W + 0.60 ±0.10 mm # both sides together");
  });
  test("of every number of the example changes one line, keeps all the rest, and the number reads back", () => {
    const whole = readProject(example).project!;
    let count = 0;
    const variants = [...whole.units.values()].flatMap((u) => [...u.variants.values()]);
    for (const g of new Set([...whole.givens.values(), ...variants.flatMap((v) => [...v.givens.values()])])) {
      if (!isPlace(g.origin)) continue;
      const text = example.get(g.origin.file)!;
      const edit = valueChanged(example, g, "12.34 mm");
      const after = applied(edit, text);
      expect(changedLines(text, after)).toEqual([g.origin.line]);
      const [was, is] = [text, after].map((t) => t.split("\n")[(g.origin as { line: number }).line - 1]!);
      expect(is).toBe(
        `${was!.slice(0, g.origin.column - 1)}12.34 mm${was!.slice(g.origin.column - 1 + g.origin.length)}`,
      );
      expect(applied(inverse(edit, text), after)).toBe(text);
      if (count++ % 20 === 0) expect(() => parse(after)).not.toThrow();
    }
    expect(count).toBeGreaterThan(400);
  });
  test("of a number that stands in no file is refused", () => {
    expect(() => valueChanged(texts, project.requirement.breakSafety, "2")).toThrow(
      new RangeError("project/safety.film break stands in no file"),
    );
  });
  test("of a number whose file is gone is refused", () => {
    expect(() => valueChanged(new Map(), curlew("let.gap"), "2 mm")).toThrow(
      new RangeError("there is no file units/curlew.yaml"),
    );
  });
  test("of a letter that follows from others is refused: it stands nowhere", () => {
    const T2 = project.units.get("curlew")!.variants.get(8)!.letters.T2 as Given;
    expect(T2.text).toBe("K0 + T + T1");
    expect(() => valueChanged(texts, T2, "2 mm")).toThrow("stands in no file");
  });
});

describe("an edit", () => {
  const edit = valueChanged(texts, curlew("let.gap"), "0.7 mm");
  test("taken back restores every byte, carriage returns and a missing last line break among them", () => {
    for (const text of [unit, unit.replaceAll("\n", "\r\n"), unit.trimEnd(), `\ufeff${unit}`]) {
      const p = readProject(new Map([...texts, [file, text]])).project!;
      const e = valueChanged(new Map([[file, text]]), p.givens.get("curlew/let.gap")!, "0.7 mm");
      const after = applied(e, text);
      expect(after).toBe(text.replace("0.60 ±0.15 mm", "0.7 mm"));
      expect(applied(inverse(e, text), after)).toBe(text);
    }
  });
  test("and another are one, in their order", () => {
    const between = applied(edit, unit);
    const files = new Map([...texts, [file, between]]);
    const second = valueChanged(files, readProject(files).project!.givens.get("curlew/nip.overspeed")!, "1.3");
    const both: Edit = { file, changes: edit.changes.compose(second.changes) };
    const after = applied(both, unit);
    expect(after).toBe(applied(second, between));
    expect(changedLines(unit, after)).toEqual([9, 35]);
    expect(applied(inverse(both, unit), after)).toBe(unit);
  });
  test("goes into JSON and comes back", () => {
    const again: Edit = { file, changes: ChangeSet.fromJSON(JSON.parse(JSON.stringify(edit.changes))) };
    expect(applied(again, unit)).toBe(applied(edit, unit));
  });
  test("made for another text is refused", () => {
    expect(() => applied(edit, `${unit} `)).toThrow(RangeError);
  });
});

describe("a value", () => {
  const place = (text: string, value: string) => {
    const from = text.indexOf(value);
    return { file, line: 1, column: from + 1, length: value.length };
  };
  const put = (text: string, old: string, value: string) => applied(replaced(text, place(text, old), value), text);
  test.each([
    ['a: "x" # c', '"x"', "y", 'a: "y" # c'],
    ["a: 'x'", "'x'", "y", "a: 'y'"],
    ['a: "x"', '"x"', 'say "y" \\', 'a: "say \\"y\\" \\\\"'],
    ["a: 'x'", "'x'", "it's", "a: 'it''s'"],
    ["{a: 1 mm, b: 2}", "1 mm", "-20 deg", "{a: -20 deg, b: 2}"],
    ["{a: 1 mm, b: 2}", "1 mm", "-(W + 1 mm)", "{a: -(W + 1 mm), b: 2}"],
    ["{a: 1 mm, b: 2}", "1 mm", "max(W, 2 mm)", '{a: "max(W, 2 mm)", b: 2}'],
    ["{a: 1 mm, b: 2}", "1 mm", "-(max(1 mm, 2 mm))", '{a: "-(max(1 mm, 2 mm))", b: 2}'],
    ["a: x", "x", "board: left", 'a: "board: left"'],
    ["a: x", "x", "left:", 'a: "left:"'],
    ["a: x", "x", "left #1", 'a: "left #1"'],
    ["a: x", "x", "#1", 'a: "#1"'],
    ["a: x", "x", "", 'a: ""'],
    ["a: x", "x", "- y", 'a: "- y"'],
    ["a: x", "x", "two\nlines", 'a: "two\\nlines"'],
    ["a: x", "x", "%y", 'a: "%y"'],
    ["a: x", "x", "a:b#c-d", "a: a:b#c-d"],
    ["a: x", "x", "4 ±0.1 mm", "a: 4 ±0.1 mm"],
  ])("in %s: %s becomes %j", (text, old, value, after) => {
    expect(put(text, old, value)).toBe(after);
    expect(Object.values(parse(after, { schema: "failsafe" }) as object)[0]).toBe(value);
  });
  test("of any text reads back as that text, wherever it stands", () => {
    const value = fc.oneof(
      fc.string({ maxLength: 12 }),
      fc.string({ unit: fc.constantFrom(..."ab -:#,[]{}'\"\\&*!|>%@`?.±\n\t0"), maxLength: 8 }),
    );
    const holders = ["a: OLD", "{a: OLD, b: 1}", "a: [OLD]", 'a: "OLD"', "a: 'OLD'", "a: OLD # c"];
    fc.assert(
      fc.property(value, fc.constantFrom(...holders), (v, holder) => {
        fc.pre(
          ![...v].some((c) => /(?![\t\n])[\p{Cc}\u2028\u2029]/u.test(c)) && !(holder.includes("'") && /\n/.test(v)),
        );
        const old = holder.match(/["']?OLD["']?/)![0];
        const after = put(holder, old, v);
        const read = (parse(after, { schema: "failsafe" }) as { a: string | string[] }).a;
        expect(Array.isArray(read) ? read[0] : read, after).toBe(v);
        expect(after.split("\n")).toHaveLength(1);
      }),
      { seed: 28, numRuns: 3000 },
    );
  });
});
