import { expect, test } from "vitest";
import { elementsOf, pairs, pointsOf, shapeOf } from "./example.fixture.ts";
import { leavesPlane, planRegion, planView, planWords } from "./plan-view.ts";
import { toSvg } from "./scene.ts";

const size = { width: 700, height: 160 };
const sideways = pairs.filter(([unit]) => unit === "plover");

test("only the film that is led beside the tape has a plan", () => {
  for (const [unit, tape] of pairs) expect(planView(shapeOf(unit, tape), size) !== undefined).toBe(unit === "plover");
  expect(leavesPlane({ ...shapeOf("plover", "so8-12"), led: undefined })).toBe(false);
});
test.each(sideways)("%s with %s: guides stand where the file puts them, x and y", (unit, tape) => {
  const shape = shapeOf(unit, tape);
  const { view } = planRegion(shape, { x: 0, y: 0, ...size });
  const elements = elementsOf(toSvg(planView(shape, size)!, { prefix: "p" }));
  const at = (x: number, y: number) =>
    [view.origin[0] + x * 1e3 * view.scale, view.origin[1] - y * 1e3 * view.scale] as const;
  for (const g of shape.led!.guides) {
    const found = elements.find((e) => e.attributes["data-guide"] === g.name)!;
    const corners =
      found.name === "circle"
        ? [[Number(found.attributes.cx), Number(found.attributes.cy)] as const]
        : pointsOf(found.attributes.d!);
    const middle = [0, 1].map((k) => corners.reduce((sum, p) => sum + p[k]! / corners.length, 0)) as [number, number];
    const [x, y] = at(g.through[0], g.through[1]);
    expect(Math.hypot(middle[0] - x, middle[1] - y)).toBeLessThan(0.004);
  }
});
test.each(sideways)(
  "%s with %s: the film is its own width at the peel line and shrinks to its fan at the shoulder",
  (unit, tape) => {
    const shape = shapeOf(unit, tape);
    const { view } = planRegion(shape, { x: 0, y: 0, ...size });
    const face = elementsOf(toSvg(planView(shape, size)!, { prefix: "p" })).find(
      (e) => e.attributes["data-span"] === "1",
    )!;
    const [a, , d] = pointsOf(face.attributes.d!) as [[number, number], [number, number], [number, number]];
    expect(Math.hypot(a[0] - d[0], a[1] - d[1])).toBeCloseTo(shape.film.width * 1e3 * view.scale, 2);
  },
);
test("the words tell how far each guide stands from the peel line, along and across", () => {
  expect(planWords(shapeOf("plover", "so8-12"))).toBe(
    "From above: the film, 9.3 mm wide, passes back edge minus 7.0 mm from the peel line along the travel and 0.0 mm across, shoulder minus 61.0 mm from the peel line along the travel and 9.95 mm across and nip minus 115.0 mm from the peel line along the travel and 0.0 mm across.",
  );
});
test("a marked span is marked in the plan too", () => {
  const svg = toSvg(
    planView(shapeOf("plover", "so8-12"), { ...size, highlight: { kind: "span", from: "back edge", to: "shoulder" } })!,
    { prefix: "p" },
  );
  expect(svg).toContain('data-highlight="span"');
});
