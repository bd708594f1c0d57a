import { describe, expect, test } from "vitest";
import { type ProjectError, showError } from "./error.ts";
import { type MapSource, parseSource, SourceFile } from "./source.ts";
import { builtForByWidth, overridesByWidth, servedWidths } from "./widths.ts";

/** The members of an invented unit file that speak of widths, and what they come to. */
function read(text: string) {
  const source = new SourceFile("units/knot.yaml", `format: 1\n${text}`);
  const { tree } = parseSource(source);
  const root = tree as MapSource;
  const errors: ProjectError[] = [];
  const served = servedWidths(source, root, errors);
  const at = (name: string) => root.entries.get(name)?.value;
  const overrides = overridesByWidth(source, at("per width"), served, errors);
  const missing = source.place(0, 6);
  const built = builtForByWidth(source, at("built for"), missing, served, errors);
  return { served, overrides, built, missing, said: errors.map(showError).join("\n\n") };
}

describe("the widths a unit serves", () => {
  test("are those of its list, in its order", () => {
    const { served, said } = read("serves: {W: [24, 8]}\n");
    expect([served.widths, said]).toEqual([[24, 8], ""]);
    expect(["24", "8", "12", "8.0"].map((key) => served.serves(key))).toEqual([true, true, false, false]);
  });
  test("are names of the catalogue as they stand there: neither a number beside them nor one in other digits", () => {
    const { served, said } = read("serves: {W: [13, 08, 24]}\n");
    expect(served.widths).toEqual([24]);
    expect(said.match(/found [^,]+/g)).toEqual(['found "13"', 'found "08"']);
  });
  test("that are refused still count as served: nothing more is said where they are spoken of again", () => {
    const { served, said } = read("serves: {W: [24 mm, 8]}\nper width:\n  24: {nip.preload: 7 N}\n");
    expect(served.widths).toEqual([8]);
    expect(said).toMatch(/^units\/knot.yaml:2:14: found "24 mm", expected a width of the catalogue: 4, 8, 12, /);
    expect(said.split("\n").at(-1)).toBe("Widths are the standard's names, without a unit: 24.");
  });
  test("count once each", () => {
    const { served, said } = read("serves: {W: [8, 8]}\n");
    expect(served.widths).toEqual([8]);
    expect(said).toBe(
      "units/knot.yaml:2:17: found the width 8 a second time, expected each width once\n2 | serves: {W: [8, 8]}\n                    ^",
    );
  });
  test("are those it speaks of where it has no list, so that the rest can be read", () => {
    const { served, said } = read("built for: {24: a, 32: b, 13: c}\n");
    expect([served.widths, said, served.serves("13")]).toEqual([[24, 32], "", true]);
    // The narrowest of the catalogue where it speaks of none.
    expect(read("name: Knot\n").served.widths).toEqual([4]);
  });
  test("are asked for where the list is empty", () => {
    const { served, said } = read("serves: {W: []}\nbuilt for: {12: a}\n");
    expect(served.widths).toEqual([12]);
    expect(said).toContain("units/knot.yaml:2:10: found no width, expected at least one width");
  });
});

describe("what changes at one width", () => {
  test("is a group of paths for each width that has one", () => {
    const { overrides, said } = read("serves: {W: [8, 12, 24]}\nper width:\n  24: {a.b: 1 mm, c: 2}\n  8: {c: 3}\n");
    expect([...overrides].map(([w, m]) => [w, [...m.entries.keys()]])).toEqual([
      [24, ["a.b", "c"]],
      [8, ["c"]],
    ]);
    expect(said).toBe("");
  });
  test("is nothing where the file says nothing of it", () => {
    expect(read("serves: {W: [8]}\n").overrides.size).toBe(0);
  });
  test("is refused for a width that is not served, with those that are", () => {
    const { overrides, said } = read("serves: {W: [8, 12]}\nper width:\n  16: {c: 3}\n  12: {c: 4}\n");
    expect([...overrides.keys()]).toEqual([12]);
    expect(said).toBe(
      'units/knot.yaml:4:3: found the width "16", expected one of the widths it serves: 8, 12\n4 |   16: {c: 3}\n      ^^',
    );
  });
  test("is refused where there are no widths, or no paths under one", () => {
    expect(read("serves: {W: [8]}\nper width: 5\n").said).toContain(
      "3:12: found no widths, expected widths, each with the paths it changes",
    );
    expect(read("serves: {W: [8]}\nper width:\n  8: 7 N\n").said).toContain(
      "4:6: found no paths, expected paths into this file, each with its value",
    );
  });
});

describe("what a width is built for", () => {
  test("is what stands under it; where nothing does, the place where it ought to", () => {
    const { built, missing, said } = read("serves: {W: [8, 12]}\nbuilt for: {8: chip}\n");
    expect(built.at(8)).toMatchObject({ value: { kind: "scalar", text: "chip" } });
    expect([built.at(12), said]).toEqual([{ missing }, ""]);
    expect(read("serves: {W: [8]}\n").built.at(8)).toEqual({ missing });
  });
  test("is not missed once more where a width beside it was refused: it may be that one, misspelt", () => {
    const { built, said } = read("serves: {W: [8, 12]}\nbuilt for: {8: chip, 21: coil}\n");
    expect([built.at(12), built.at(8)]).toEqual([undefined, { value: expect.objectContaining({ text: "chip" }) }]);
    expect(said).toContain('found the width "21", expected one of the widths it serves: 8, 12');
  });
  test("is refused where it stands without a width", () => {
    const { built, said } = read("serves: {W: [8]}\nbuilt for: chip\n");
    expect(built.at(8)).toBeUndefined();
    expect(said).toContain("3:12: found no widths, expected widths, each with the pocket it is cut to");
  });
});
