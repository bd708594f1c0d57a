import { expect, test } from "vitest";
import { elementsOf } from "./example.fixture.ts";
import { frameShapes, scaleBar, zoneAt, zonesFor } from "./frame.ts";
import { toSvg } from "./scene.ts";

const zones = zonesFor(1060);
test("corners lie in the first and last zones, and a point off the sheet in the nearest", () => {
  expect([
    zoneAt([19, 19], 1060, 490, zones),
    zoneAt([1059, 489], 1060, 490, zones),
    zoneAt([-50, 900], 1060, 490, zones),
  ]).toEqual(["A1", "F8", "F1"]);
});
test("the letter of a point is the one drawn beside it", () => {
  const svg = toSvg(
    { title: "", desc: "", width: 1060, height: 490, shapes: frameShapes(1060, 490, zones) },
    { prefix: "f" },
  );
  const letters = [...svg.matchAll(/<text class="quiet" x="9" y="([\d.]+)" text-anchor="middle">([A-F])</g)].map(
    ([, y, letter]) => [Number(y), letter!] as const,
  );
  expect(letters).toHaveLength(6);
  for (const [y, letter] of letters) expect(zoneAt([500, y - 4], 1060, 490, zones)[0]).toBe(letter);
});
test("narrow sheets have fewer zones across", () => {
  expect([500, 900, 1400].map((w) => zonesFor(w).columns)).toEqual([4, 6, 8]);
});
test.each([1, 3.47, 5.12, 9, 40])("the bar is whole millimetres long at %d px/mm and fits a hand's width", (scale) => {
  const svg = toSvg(
    { title: "", desc: "", width: 200, height: 40, shapes: scaleBar([10, 30], scale) },
    { prefix: "s" },
  );
  const boxes = elementsOf(svg).filter((e) => e.name === "rect");
  const long = Math.max(...boxes.map((e) => Number(e.attributes.x) + Number(e.attributes.width))) - 10;
  const said = Number(/>(\d+) mm</.exec(svg)![1]);
  expect(long).toBeCloseTo(said * scale, 2);
  expect(long).toBeLessThanOrEqual(110);
});
