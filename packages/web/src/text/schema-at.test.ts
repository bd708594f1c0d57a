import { jsonSchema } from "@tapeworthy/project";
import { describe, expect, test } from "vitest";
import { keysAt, meaningAt, schemasAt, valuesAt } from "./schema-at.ts";

const unit = jsonSchema("unit");
const labels = (options: readonly { readonly label: string }[]) => options.map(({ label }) => label);

describe("keys", () => {
  test("of the file are its members, those it needs first", () => {
    const keys = keysAt(unit, []);
    expect(labels(keys)).toEqual(expect.arrayContaining(["format", "unit", "tape", "nip", "built for", "let"]));
    const needed = keys.map(({ required }) => required);
    expect(needed.indexOf(false)).toBeGreaterThan(needed.lastIndexOf(true));
  });
  test("of the section are those of the section", () => {
    expect(labels(keysAt(unit, ["tape", "section"]))).toEqual(
      expect.arrayContaining(["width", "ledge", "groove", "lips"]),
    );
    expect(labels(keysAt(unit, ["tape", "section"]))).not.toContain("route");
  });
  test("of a piece of the route are those of any piece", () => {
    expect(labels(keysAt(unit, ["tape", "route", 3]))).toEqual(["line", "arc", "mark"]);
  });
  test("of a width's pocket are the letters of a pocket", () => {
    expect(labels(keysAt(unit, ["built for", "24"]))).toEqual(expect.arrayContaining(["A0", "B0", "K0", "P1", "T"]));
  });
  test("of a place that is none there are none", () => {
    expect(keysAt(unit, ["tape", "sction"])).toEqual([]);
    expect(keysAt(unit, ["unit", "name"])).toEqual([]);
  });
});
describe("values", () => {
  test("of a word are the words of its list", () => {
    expect(labels(valuesAt(unit, ["tape", "rests on"]))).toEqual(["underside", "cover side", "floors"]);
  });
  test("of a number is an example in its notation", () => {
    expect(labels(valuesAt(unit, ["tape", "section", "width"]))).toEqual(["W + 0.45 ±0.10 mm"]);
  });
});
describe("meanings", () => {
  test("of a number name what it is and its unit", () => {
    expect(meaningAt(unit, ["tape", "section", "width"])).toEqual({
      means: "clear width of the channel (mm)",
      example: "W + 0.45 ±0.10 mm",
    });
  });
  test("of an item of a tuple are its own", () => {
    expect(meaningAt(unit, ["tape", "place", "x"])?.means).toBe("its x (mm)");
    expect(meaningAt(unit, ["nip", "axis", 1])?.means).toContain("z");
  });
  test("of a place that is none there is none", () => {
    expect(meaningAt(unit, ["nothing"])).toBeUndefined();
    expect(schemasAt(unit, ["nothing", "at", "all"])).toEqual([]);
  });
});
