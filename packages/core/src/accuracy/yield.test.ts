import { expect, test } from "vitest";
import { driven, nominal } from "../scene.fixture.ts";
import { familiesOf, usualFamilies } from "./yield.ts";

const sheet = driven.sheetScene();
const radius = (name: string): number => nominal(sheet, usualFamilies.find((f) => f.name === name)!.radius) * 1e3;
// Chip codes in hundredths of an inch: 0603 is 0.8 mm wide; SO-8 bodies are 3.9 mm. 0.3 of the side, at most 0.8 mm. By hand; common practice, no source.
test.each([
  ["chip 0201", 0.09],
  ["chip 0603", 0.24],
  ["chip 0805", 0.38],
  ["SO-8", 0.8],
  ["QFP and modules", 0.8],
])("a %s may be off by %f mm", (name, mm) => {
  expect(Math.abs(radius(name) - mm)).toBeLessThan(1e-9);
});
test("a larger part never forgives less, and turns are forgiven less where there are leads", () => {
  const radii = usualFamilies.map((f) => nominal(sheet, f.radius));
  expect(radii).toEqual([...radii].sort((a, b) => a - b));
  const turn = (lead: boolean): number[] =>
    usualFamilies.filter((f) => f.name.startsWith("chip") !== lead).map((f) => nominal(sheet, f.turn!));
  expect(Math.max(...turn(true))).toBeLessThan(Math.min(...turn(false)));
});
test("a project's own families stand in place of the usual ones, not beside them", () => {
  const own = [usualFamilies[2]!];
  expect(familiesOf({ ...sheet, requirement: { ...sheet.requirement, pickFamilies: own } })).toBe(own);
  expect(familiesOf(sheet)).toBe(usualFamilies);
});
