import { describe, expect, test } from "vitest";
import { applied } from "./edit.ts";
import { example as texts } from "./example.fixture.ts";
import { GivenStore } from "./given-store.ts";
import { writtenForWidth } from "./per-width.ts";
import { readProject } from "./project.ts";

const unit = (middle: string): string =>
  `format: 1\nunit: A\nserves: {kind: embossed, W: [12, 24]}\n${middle}tape:\n  a: 1\n`;
const written = (text: string, width = 24, path = "nip.preload", value = "7 ±1 N"): string =>
  applied(writtenForWidth(text, "units/a.yaml", width, path, value), text);

describe("a number for one width", () => {
  test("begins `per width` before the members that describe the unit, above their comment", () => {
    expect(written(unit("let:\n  a: 1 mm\n\n# the run\n"))).toBe(
      unit("let:\n  a: 1 mm\n\nper width:\n  24: {nip.preload: 7 ±1 N}\n\n# the run\n"),
    );
    expect(written("format: 1\nunit: A")).toBe("format: 1\nunit: A\nper width:\n  24: {nip.preload: 7 ±1 N}\n");
  });
  test("gets a line of its own where the width has none, in order of the widths, under the comments that are there", () => {
    const text = unit("per width:   # ours\n    12: {a.b: 1 mm}   # small\n    32: {a.b: 2 mm}   # large\n\n");
    expect(written(text)).toBe(text.replace("    32:", "    24: {nip.preload: 7 ±1 N}\n    32:"));
    expect(written(text, 44)).toBe(text.replace("# large\n", "# large\n    44: {nip.preload: 7 ±1 N}\n"));
    expect(written(text, 8)).toBe(text.replace("    12:", "    8: {nip.preload: 7 ±1 N}\n    12:"));
  });
  test("joins the others of its width, in a line or in a block", () => {
    const flow = unit("per width:\n  24: {a.b: 1 mm}   # one\n");
    expect(written(flow)).toBe(flow.replace("1 mm}", "1 mm, nip.preload: 7 ±1 N}"));
    const block = unit("per width:\n  24:\n    a.b: 1 mm   # one\n    c: 2 mm   # two\n  32: {a.b: 3 mm}\n");
    expect(written(block)).toBe(block.replace("# two\n", "# two\n    nip.preload: 7 ±1 N\n"));
    expect(written(unit("per width: {12: {a.b: 1 mm}, 32: {a.b: 2 mm}}\n"))).toBe(
      unit("per width: {12: {a.b: 1 mm}, 24: {nip.preload: 7 ±1 N}, 32: {a.b: 2 mm}}\n"),
    );
    expect(written(unit("per width: {24: {}}\n"))).toBe(unit("per width: {24: {nip.preload: 7 ±1 N}}\n"));
  });
  test("takes the place of what the width said before", () => {
    const text = unit("per width:\n  24: {nip.preload: 5 N, a.b: 1 mm}   # one\n");
    expect(written(text)).toBe(text.replace("5 N", "7 ±1 N"));
    expect(written(unit("per width:\n  24:\n    nip.preload: '5 N'   # one\n"))).toBe(
      unit("per width:\n  24:\n    nip.preload: 7 ±1 N   # one\n"),
    );
  });
  test("is put in quotes where YAML would read something else", () => {
    expect(written(unit(""), 24, "a.b, c", "max(1 mm, 2 mm)")).toContain('24: {"a.b, c": "max(1 mm, 2 mm)"}');
  });
  test("keeps the line ends of the file's lines", () => {
    const text = unit("per width:\n  24:\n    a.b: 1 mm\n").replaceAll("\n", "\r\n");
    expect(written(text)).toBe(text.replace("1 mm\r\n", "1 mm\r\n    nip.preload: 7 ±1 N\r\n"));
  });
  test("is refused in a text that is no unit file", () => {
    for (const text of ["", "- a\n", "{a: 1}", "a: [1\n", "per width: 3\ntape: 1\n", "per width: {24: 5}\n"])
      expect(() => written(text)).toThrow(RangeError);
    expect(() => written(unit("per width: {24: {nip.preload: [1, 2]}}\n"))).toThrow('"nip.preload" at 24 is no number');
  });
});

describe("in the example", () => {
  const file = "units/plover.yaml";
  const store = new GivenStore();
  /** For every width the texts of its numbers, those of overrides under the paths they replace. */
  const numbersIn = (text: string): Map<number, Map<string, string>> => {
    const { project, errors } = readProject(new Map([...texts, [file, text]]), store);
    expect(errors).toEqual([]);
    return new Map(
      [...project!.units.get("plover")!.variants].map(([width, { givens }]) => [
        width,
        new Map([...givens].map(([address, g]) => [address.replace(/^plover\/(per width\.\d+\.)?/, ""), g.text])),
      ]),
    );
  };
  // Every number of the family, written anew for each of two widths: the one that has overrides and one that has none.
  test.each([16, 24])(
    "every number of the family can be written for %d mm, and no other width or number changes",
    (width) => {
      const text = texts.get(file)!;
      const before = numbersIn(text);
      const paths = [...before.get(width)!.keys()].filter((path) => !path.startsWith("built for"));
      expect(paths.length).toBeGreaterThan(80);
      for (const path of paths.filter((_, i) => i % 4 === 0)) {
        const old = before.get(width)!.get(path)!;
        // The same number, said to be measured: right for every text without a status.
        const fresh = /guess|measured/.test(old) ? old : `${old} measured`;
        const after = written(text, width, path, fresh);
        const expected = new Map([...before, [width, new Map([...before.get(width)!, [path, fresh]])]]);
        expect(numbersIn(after)).toEqual(expected);
        const kept = text.split("\n").filter((line) => after.split("\n").includes(line)).length;
        expect(text.split("\n").length - kept).toBeLessThanOrEqual(1);
      }
    },
  );
});
