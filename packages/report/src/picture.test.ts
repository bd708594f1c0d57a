import { expect, test } from "vitest";
import { pictureSvg } from "./picture.ts";
import { elementsOf, few } from "./report.fixture.ts";

const of = { unit: "plover", tape: "so20-24", theme: "light" } as const;
const svg = pictureSvg(few(), of)!;

test("the picture stands alone: one SVG with its rules and lettering, no outside address, no link", () => {
  const [first] = elementsOf(svg);
  expect(first).toMatchObject({ name: "svg", attributes: { role: "img", width: "928" } });
  expect(svg).toContain("<style>@font-face");
  expect([...svg.matchAll(/https?:[^"'\s)]*/g)].map(([found]) => found)).toEqual(["http://www.w3.org/2000/svg"]);
  expect(elementsOf(svg).map((e) => e.name)).not.toContain("a");
});
test("it marks the place of the tape's first finding, and its cell on the map", () => {
  const marked = elementsOf(svg)
    .map((e) => e.attributes["data-highlight"])
    .filter((h) => h !== undefined);
  expect(marked.length).toBeGreaterThan(0);
  expect(svg).toContain('class="hand-line"');
});
test("light and dark differ in their tokens alone", () => {
  const dark = pictureSvg(few(), { ...of, theme: "dark" })!;
  const bare = (text: string) => text.replace(/<style>[\s\S]*?<\/style>/, "");
  expect(bare(dark)).toBe(bare(svg));
  expect(dark).not.toBe(svg);
});
test("a tape or unit that is not there has no picture", () => {
  expect(pictureSvg(few(), { ...of, tape: "no-such" })).toBeUndefined();
  expect(pictureSvg(few(), { ...of, unit: "no-such" })).toBeUndefined();
});
