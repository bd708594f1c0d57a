import type { SizedLine } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { example } from "./example.fixture.ts";
import { readProject } from "./project.ts";
import { sizedText } from "./sized-text.ts";

const file = "units/dunlin.yaml";
const line = (path: string, text: string, written: string, width?: number): SizedLine => ({
  path,
  address: `dunlin/${path}`,
  width,
  text,
  written,
});
const lines = [
  line("nip.preload", "5.5 ±0.4 N", "6.2 ±0.4 N"),
  line("tape.section.lips.gap", "T + 0.35 ±0.10 mm", "T + 0.45 ±0.10 mm", 16),
];

describe("what a sizing writes", () => {
  test("is its lines alone, as one text of the unit's file that reads well again", () => {
    const { file: changed, text } = sizedText(example, "dunlin", lines);
    expect(changed).toBe(file);
    const [was, is] = [example.get(file)!, text].map((t) => t.split("\n"));
    expect(is!.filter((l) => !was!.includes(l))).toEqual([
      "  16: {tape.section.lips.gap: T + 0.45 ±0.10 mm}",
      "  preload: 6.2 ±0.4 N",
    ]);
    expect(was!.filter((l) => !is!.includes(l))).toEqual(["  preload: 5.5 ±0.4 N"]);
    const { project } = readProject(new Map(example).set(file, text));
    expect(project!.units.get("dunlin")!.overridesAt(16).get("tape.section.lips.gap")).toBe("T + 0.45 ±0.10 mm");
  });
  test("of a number that stands elsewhere, or that does not read, is refused", () => {
    const tapes = { ...line("x", "", "1 mm"), address: "tapes/so8-12/W" };
    expect(() => sizedText(example, "dunlin", [tapes])).toThrow("stands in tapes/so8-12.yaml");
    expect(() => sizedText(example, "dunlin", [line("nip.nothing", "", "1 N")])).toThrow(
      "no number dunlin/nip.nothing",
    );
    expect(() => sizedText(example, "dunlin", [line("nip.preload", "", "6.2 furlongs")])).toThrow("do not read");
  });
});
