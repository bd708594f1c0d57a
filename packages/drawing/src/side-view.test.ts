import { describe, expect, test } from "vitest";
import { elementsOf, pairs, pointsOf, shapeOf } from "./example.fixture.ts";
import { Shared, toSvg } from "./scene.ts";
import { locator, unitSheet } from "./sheet.ts";
import { sideBounds, sideRegion, sideView, sideWords } from "./side-view.ts";
import type { UnitShape } from "./unit-shape.ts";
import { onPaper } from "./view.ts";

const size = { width: 1040, height: 500 };
/** What the drawing's own words say of its scale, px a millimetre. */
const drawn = (shape: UnitShape, options: Partial<Parameters<typeof sideView>[1]> = {}) => {
  const svg = toSvg(sideView(shape, { ...size, ...options }), { prefix: "side" });
  return { svg, elements: elementsOf(svg) };
};
const scaleOf = (elements: ReturnType<typeof elementsOf>): number =>
  Number(elements.find((e) => e.attributes["data-scale"])!.attributes["data-scale"]);
/** On paper an eighth of the finest line the printer draws: 1 um there is 0.0038 px at 96 px an inch. */
const aMicrometre = 1e-3 * (96 / 25.4);

describe.each(pairs)("%s with %s", (unit, tape) => {
  const shape = shapeOf(unit, tape);
  const { svg, elements } = drawn(shape);
  const scale = scaleOf(elements);
  const inMain = elements.slice(0, elements.findIndex((e) => e.attributes.class === "detail") + 1 || undefined);

  test("is well formed, without a number that is none, and the same bytes twice", () => {
    expect(svg).not.toMatch(/NaN|Infinity|undefined|null/);
    expect(drawn(shape).svg).toBe(svg);
  });
  test("pockets stand at their pitch", () => {
    if (shape.kind === "punched") return;
    const flat = inMain.filter(
      (e) => e.attributes["data-pocket"] !== undefined && Number(e.attributes["data-pocket"]) <= 0,
    );
    const places = flat.map((e) => ({ n: Number(e.attributes["data-pocket"]), x: pointsOf(e.attributes.d!)[0]![0] }));
    expect(places.length).toBeGreaterThan(2);
    const at = new Map(places.map(({ n, x }) => [n, x]));
    for (const [n, x] of at)
      if (at.has(n - 1))
        expect(Math.abs(x - at.get(n - 1)! - shape.letters.P1 * 1e3 * scale)).toBeLessThan(aMicrometre);
  });
  test("pockets are as long and hang as deep as computed", () => {
    if (shape.kind === "punched") return;
    const [[x0, y0], [, y1], , [x1]] = pointsOf(
      inMain.find((e) => e.attributes["data-pocket"] === "0")!.attributes.d!,
    ) as [[number, number], [number, number], [number, number], [number, number]];
    expect(Math.abs(x1 - x0 - (shape.letters.A0 + 2 * shape.letters.wall) * 1e3 * scale)).toBeLessThan(aMicrometre);
    expect(Math.abs(y1 - y0 - shape.drop * 1e3 * scale)).toBeLessThan(aMicrometre);
  });
  test("the wheel has its teeth, its pitch circle and its tips where they are computed", () => {
    const wheel = shape.sprocket!;
    const circle = inMain.find((e) => e.attributes["data-what"] === "pitch circle")!.attributes;
    expect(Math.abs(Number(circle.r) - wheel.pitch * 1e3 * scale)).toBeLessThan(aMicrometre);
    const rim = inMain.find((e) => e.attributes["data-what"] === "wheel")!.attributes;
    const radii = pointsOf(rim.d!).map(([x, y]) => Math.hypot(x - Number(circle.cx), y - Number(circle.cy)));
    const tips = radii.filter((r) => Math.abs(r - wheel.tip * 1e3 * scale) < aMicrometre);
    // One in the middle of each tip; its corners stand a little farther from the axis, none beyond the tooth's own reach.
    expect(tips.length).toBeGreaterThanOrEqual(wheel.teeth);
    const reach = Math.max(...wheel.outline.map(([rho, half]) => Math.hypot(rho, half)));
    expect(Math.abs(Math.max(...radii) - reach * 1e3 * scale)).toBeLessThan(aMicrometre);
    // A tooth's feet stand on the body's tangent, half their length to the side.
    expect(Math.min(...radii)).toBeGreaterThanOrEqual(wheel.body * 1e3 * scale - aMicrometre);
    expect(Math.min(...radii)).toBeLessThan((wheel.body + 0.1e-3) * 1e3 * scale);
  });
  test("guides and rollers stand where the file puts them, on one scale and one origin", () => {
    const wheel = inMain.find((e) => e.attributes["data-what"] === "pitch circle")!.attributes;
    const [wx, wz] = shape.sprocket!.axis;
    const at = (x: number, z: number): [number, number] => [
      Number(wheel.cx) + (x - wx) * 1e3 * scale,
      Number(wheel.cy) - (z - wz) * 1e3 * scale,
    ];
    for (const g of shape.led!.guides) {
      if (g.name === "nip") continue;
      const found = inMain.find((e) => e.attributes["data-guide"] === g.name)!;
      const [x, y] = at(g.through[0], g.through[2]);
      if (found.name === "circle") {
        // A bar's face carries the guide's line: its centre is one radius off the line.
        const off = Math.hypot(Number(found.attributes.cx) - x, Number(found.attributes.cy) - y);
        expect(Math.abs(off - g.radius * 1e3 * scale)).toBeLessThan(2 * aMicrometre);
      } else {
        const corners = pointsOf(found.attributes.d!);
        const middle = [0, 1].map((k) => corners.reduce((sum, p) => sum + p[k]! / corners.length, 0)) as [
          number,
          number,
        ];
        expect(Math.hypot(middle[0] - x, middle[1] - y)).toBeLessThan(2 * aMicrometre);
      }
    }
    const lower = inMain.find((e) => e.attributes["data-what"] === "lower roller")!.attributes;
    const [nx, ny] = at(shape.nip!.axis[0], shape.nip!.axis[1] - shape.nip!.lower);
    expect(Math.hypot(Number(lower.cx) - nx, Number(lower.cy) - ny)).toBeLessThan(2 * aMicrometre);
    expect(Math.abs(Number(lower.r) - shape.nip!.lower * 1e3 * scale)).toBeLessThan(aMicrometre);
  });
  test("a twisted span narrows as its fibres do", () => {
    shape.led!.spans.forEach((span, i) => {
      const face = inMain.find((e) => e.attributes["data-span"] === `${i + 1}`);
      const half = shape.film.width / 2;
      const seen = span.fans.map((fan) => 2 * half * Math.hypot(fan[0], fan[2]) * 1e3 * scale);
      if (Math.max(...seen) < 1) {
        expect(face).toBeUndefined();
        return;
      }
      const [a, b, d, c] = pointsOf(face!.attributes.d!) as [
        [number, number],
        [number, number],
        [number, number],
        [number, number],
      ];
      expect(Math.hypot(a[0] - d[0], a[1] - d[1])).toBeCloseTo(seen[0]!, 2);
      expect(Math.hypot(b[0] - c[0], b[1] - c[1])).toBeCloseTo(seen[1]!, 2);
    });
  });
  test("nine stations carry their balloons, each within the drawing and none on another", () => {
    const { placed } = sideRegion(shape, { x: 18, y: 18, width: 1022, height: 482 });
    const places = Object.values(placed.balloons);
    expect(places).toHaveLength(9);
    for (const [x, y] of places) {
      expect(x > 18 && x < 1040 && y > 18 && y < 500).toBe(true);
      for (const [p, q] of places) if (p !== x || q !== y) expect(Math.hypot(p - x, q - y)).toBeGreaterThan(19);
    }
  });
  test("all of the unit lies on the sheet", () => {
    const { view } = sideRegion(shape, { x: 18, y: 18, width: 1022, height: 482 });
    const b = sideBounds(shape);
    const [[x0, y0], [x1, y1]] = [onPaper(view, [b.x0, b.z1]), onPaper(view, [b.x1, b.z0])];
    expect(x0 >= 18 && y0 >= 18 && x1 <= 1040 && y1 <= 500).toBe(true);
  });
  test("the spoken text names its numbers", () => {
    const words = sideWords(shape);
    expect(words).toContain(`Tape ${tape}`);
    expect(words).toContain(`${shape.sprocket!.teeth} teeth`);
    expect(words).toContain(`folds by ${((shape.led!.peelAngle * 180) / Math.PI).toFixed(0)} degrees`);
    for (const g of shape.led!.guides) expect(words).toContain(g.name);
    expect(words).not.toMatch(/−|NaN/);
  });
  test.each([
    [420, 300],
    [640, 620],
    [1500, 900],
  ])("the whole sheet draws at %d x %d", (width, height) => {
    const sheet = toSvg(unitSheet(shape, { width, height, stations: { 4: "stops", 7: "depends" } }), { prefix: "s" });
    expect(elementsOf(sheet)[0]!.attributes.viewBox).toBe(`0 0 ${width} ${height}`);
    expect(sheet).not.toMatch(/NaN|Infinity/);
  });
});

test("the spoken text of Plover on its 12 mm tape", () => {
  expect(sideWords(shapeOf("plover", "so8-12"))).toBe(
    "Drawn to scale from the side, cut along the pocket row; the tape travels from left to right. Tape so8-12: embossed, 12.05 mm wide, pockets every 8.0 mm, hanging 2.1 mm below the carrier. " +
      "From peel to pick 9.0 mm along the tape. The route is straight. The film folds by 152 degrees at the peel line and passes back edge, shoulder and nip; 120.07 mm from the peel line to the nip. " +
      "It turns by 91 degrees from back edge to shoulder and by 93 degrees from shoulder to nip. Nip of two rollers, radius 5.0 mm and 5.0 mm, minus 124.0 mm along and minus 14.9 mm up from the origin. " +
      "Sprocket wheel of 24 teeth, pitch radius 15.28 mm, 14.0 mm behind the pick. Bodies: side wall, peel motor, feed motor and board. Kept out of: machine rail and pick tool.",
  );
});

describe("what is asked to be marked", () => {
  const plover = shapeOf("plover", "carrier-24");
  const dunlin = shapeOf("dunlin", "carrier-24");
  const marked = (shape: UnitShape, highlight: Parameters<typeof sideView>[1]["highlight"]) =>
    drawn(shape, highlight ? { highlight } : {}).elements.filter((e) => e.attributes["data-highlight"] !== undefined);
  test.each([
    ["a span", plover, { kind: "span", from: "back edge", to: "shoulder" }],
    ["a guide", plover, { kind: "guide", name: "shoulder" }],
    ["the peel line", plover, { kind: "guide", name: "peel line" }],
    ["a bend", dunlin, { kind: "bend", number: 1 }],
    ["a station", dunlin, { kind: "station", station: 7 }],
  ] as const)("%s gets a dashed line about it, and the words say so", (_, shape, place) => {
    expect(marked(shape, place).length).toBeGreaterThan(0);
    expect(sideWords(shape, { highlight: place })).toContain("Marked: ");
  });
  test("nothing is drawn for a place the unit does not have", () => {
    expect(marked(plover, { kind: "bend", number: 1 })).toEqual([]);
    expect(marked(plover, { kind: "guide", name: "no such" })).toEqual([]);
    expect(marked(plover, undefined)).toEqual([]);
  });
  test("the zone of the marked place is told and stands out in the frame", () => {
    const sheet = unitSheet(plover, {
      width: 1060,
      height: 490,
      highlight: { kind: "span", from: "back edge", to: "shoulder" },
    });
    expect(sheet.zone).toMatch(/^[A-F][1-8]$/);
    const svg = toSvg(sheet, { prefix: "s" });
    expect(svg).toContain(`<text class="is-hand" x="9"`);
    expect(svg).toContain(`>${sheet.zone!.slice(1)}</text>`);
  });
  test("an unknown is marked where it acts, in its own words", () => {
    const { svg } = drawn(plover, {
      asked: { place: { kind: "station", station: 4 }, label: "film friction μ", note: "guess 0.18 to 0.35" },
    });
    expect(svg).toContain("film friction μ");
    expect(svg).toContain("Not known: film friction μ, guess 0.18 to 0.35.");
  });
});
test("a station that stops carries a mark besides its colour", () => {
  const { svg } = drawn(shapeOf("plover", "so8-12"), { stations: { 4: "stops", 7: "depends", 1: "feeds" } });
  expect(svg.match(/class="mark stops"/g)).toHaveLength(1);
  expect(svg.match(/class="mark depends"/g)).toHaveLength(1);
  expect(svg).toContain("Station 4, peel, stops and station 7, nip, depends.");
});
test("a unit that opens one seal, without nip, wheel or bodies, draws what it has", () => {
  const { led: _l, nip: _n, sprocket: _s, holdDown: _h, ...rest } = shapeOf("plover", "sensor-8");
  const bare: UnitShape = {
    ...rest,
    led: undefined,
    nip: undefined,
    sprocket: undefined,
    holdDown: undefined,
    drives: [],
    bodies: [],
    keepOut: [],
  };
  const svg = toSvg(unitSheet(bare, { width: 900, height: 480 }), { prefix: "s" });
  expect(
    elementsOf(svg)
      .filter((e) => e.attributes.class === "station")
      .map((e) => e.attributes["data-station"]),
  ).toEqual(["1", "2", "4", "5"]);
  expect(svg).not.toContain("B–B");
});
test("names out of a file stay text in the drawing", () => {
  const shape = shapeOf("plover", "so8-12");
  const svg = toSvg(sideView({ ...shape, unit: "<b>&", bodies: [{ ...shape.bodies[1]!, name: '"><script>' }] }, size), {
    prefix: "a",
  });
  expect(elementsOf(svg).map((e) => e.name)).not.toContain("script");
});
test("while a hand moves something, balloons and detail keep their places", () => {
  const size = { width: 1060, height: 490 };
  const before = unitSheet(shapeOf("dunlin", "so8-12"), size);
  const free = unitSheet(shapeOf("dunlin", "so16-16"), size);
  const kept = unitSheet(shapeOf("dunlin", "so16-16"), { ...size, keep: before.placed });
  expect(free.placed).not.toEqual(before.placed);
  expect(kept.placed).toEqual(before.placed);
});
describe("marks of which a page shows one at a time", () => {
  const span = { kind: "span", from: "back edge", to: "shoulder" } as const;
  const asked = { place: { kind: "station", station: 4 }, label: "peel front", note: "free or clamped" } as const;
  const shape = shapeOf("plover", "carrier-24");
  const size = { width: 928, height: 364, share: "u-24" };
  const overlays = [
    { name: "o1", place: span },
    { name: "o2", place: { kind: "station", station: 7 }, asked },
  ] as const;
  const shared = new Shared("page");
  const sheet = unitSheet(shape, { ...size, overlays });
  const svg = toSvg(sheet, { prefix: "s", shared });
  test("stand in a group each, under their names, and know their zones", () => {
    const groups = elementsOf(svg).filter((e) => e.attributes.class === "overlay");
    expect(groups.map((e) => e.attributes["data-overlay"])).toEqual(["o1", "o2"]);
    expect([...sheet.zones.keys()]).toEqual(["o1", "o2"]);
    for (const zone of sheet.zones.values()) expect(zone).toMatch(/^[A-F][1-6]$/);
    expect(svg).toContain("peel front");
  });
  test("move nothing else: balloons and detail stay where they are without them", () => {
    expect(unitSheet(shape, size).placed).toEqual(sheet.placed);
  });
  test("are drawn small with the same geometry, which is written once for both", () => {
    const small = locator(sheet, "o1", { width: 300 });
    const text = toSvg(small, { prefix: "l", shared });
    const defs = shared.svg();
    expect(text).toContain('href="#page-u-24-side"');
    expect(text).toContain('href="#page-u-24-plan"');
    expect(text).toContain('href="#page-u-24-o1"');
    expect(text).not.toContain("<path");
    expect(defs.match(/id="page-u-24-side"/g)).toHaveLength(1);
    expect(small.height / small.width).toBeCloseTo(small.window!.height / small.window!.width, 2);
    expect(small.desc).toContain(`zone ${sheet.zones.get("o1")}`);
    elementsOf(defs + text);
  });
  test("a place that the unit does not have has marks of nothing, and no zone", () => {
    const none = unitSheet(shape, { ...size, overlays: [{ name: "o9", place: { kind: "bend", number: 3 } }] });
    expect(none.zones.has("o9")).toBe(false);
    expect(toSvg(none, { prefix: "s" })).toMatch(/data-overlay="o9"><g><\/g><\/g>/);
  });
});
test("a balloon keeps clear of the frame together with its mark", () => {
  for (const [unit, tape] of pairs) {
    const sheet = unitSheet(shapeOf(unit, tape), {
      width: 928,
      height: 364,
      stations: { 2: "stops", 4: "stops", 7: "depends" },
    });
    for (const n of [2, 4, 7] as const) {
      const [x, y] = sheet.placed.balloons[n]!;
      expect([unit, tape, n, x - 10 > 18 && y - 19 > 17 && x + 21 < 928 && y + 10 < 364]).toEqual([
        unit,
        tape,
        n,
        true,
      ]);
    }
  }
});
