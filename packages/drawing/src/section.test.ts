import { describe, expect, test } from "vitest";
import { elementsOf, pairs, pointsOf, shapeOf } from "./example.fixture.ts";
import { toSvg } from "./scene.ts";
import {
  channelLines,
  grooveRegion,
  grooveSection,
  grooveWords,
  nipRegion,
  nipSection,
  nipWords,
  trackUnderBand,
} from "./section.ts";

const area = { x: 0, y: 0, width: 300, height: 220 };
const wide = (d: string): number => {
  const xs = pointsOf(d).map(([x]) => x);
  return Math.max(...xs) - Math.min(...xs);
};
const tall = (d: string): number => {
  const ys = pointsOf(d).map(([, y]) => y);
  return Math.max(...ys) - Math.min(...ys);
};

describe.each(pairs)("across the groove, %s with %s", (unit, tape) => {
  const shape = shapeOf(unit, tape);
  const { view } = grooveRegion(shape, area);
  const px = view.scale * 1e3;
  const elements = elementsOf(toSvg(grooveSection(shape, area), { prefix: "g" }));
  const what = (name: string) => elements.filter((e) => e.attributes["data-what"] === name).map((e) => e.attributes);

  test("channel, tape and film are as wide as computed, to a thousandth of a pixel", () => {
    expect(wide(what("channel")[0]!.d!)).toBeCloseTo(shape.section.width.value * px, 2);
    expect(wide(what("carrier")[0]!.d!)).toBeCloseTo(shape.letters.W * px, 2);
    expect(wide(what("film")[0]!.d!)).toBeCloseTo(shape.film.width * px, 2);
    for (const track of what("seal track")) expect(Number(track.width)).toBeCloseTo(shape.film.track * px, 2);
  });
  test("the channel is as deep as drawn, and the pocket hangs in it", () => {
    expect(tall(what("channel")[0]!.d!)).toBeCloseTo((shape.section.depth.value + shape.section.lipGap.value) * px, 2);
    if (shape.kind === "embossed") {
      expect(tall(what("pocket")[0]!.d!)).toBeCloseTo(shape.drop * px, 2);
      expect(wide(what("pocket")[0]!.d!)).toBeCloseTo(shape.letters.B1 * px, 2);
    } else expect(what("pocket")).toEqual([]);
  });
  test("nothing leaves its region, and nothing is no number", () => {
    const svg = toSvg(grooveSection(shape, area), { prefix: "g" });
    expect(svg).not.toMatch(/NaN|Infinity/);
    for (const e of elements)
      if (e.name === "path" && e.attributes["data-what"])
        for (const [x, y] of pointsOf(e.attributes.d!)) expect(x >= 0 && x <= 300 && y >= 0 && y <= 220).toBe(true);
  });
});

test("a pressed pocket has a floor within the tape and nothing below it; its words say what tape it is", () => {
  const paper = shapeOf("plover", "paper-8");
  const pressed = { ...paper, kind: "pressed", letters: { ...paper.letters, K0: 0.4e-3 } } as const;
  const { view } = grooveRegion(pressed, area);
  const elements = elementsOf(toSvg(grooveSection(pressed, area), { prefix: "g" }));
  const [floor] = elements.filter((e) => e.attributes["data-what"] === "pocket").map((e) => e.attributes.d!);
  expect(tall(floor!)).toBeCloseTo((pressed.letters.T - 0.4e-3) * view.scale * 1e3, 2);
  expect(wide(floor!)).toBeCloseTo(pressed.letters.B0 * view.scale * 1e3, 2);
  expect(grooveWords(pressed)).toContain("The tape is pressed: nothing hangs below it");
  expect(grooveWords(paper)).toContain("The tape is punched: nothing hangs below it");
});

describe.each(pairs)("across the nip, %s with %s", (unit, tape) => {
  const shape = shapeOf(unit, tape);
  const { view } = nipRegion(shape, area)!;
  const px = view.scale * 1e3;
  const svg = toSvg(nipSection(shape, area)!, { prefix: "n" });
  const elements = elementsOf(svg);

  test("rollers are as thick as they are, and meet at the film", () => {
    for (const [name, r] of [
      ["lower roller", shape.nip!.lower],
      ["upper roller", shape.nip!.upper],
    ] as const) {
      const d = elements.find((e) => e.attributes["data-what"] === name)!.attributes.d!;
      expect(tall(d)).toBeCloseTo(2 * r * px, 2);
    }
    expect(svg).not.toMatch(/NaN|Infinity/);
  });
  test("the film and its tracks lie edge to edge as wide as they are", () => {
    const film = elements.find((e) => e.attributes["data-what"] === "film")!.attributes;
    expect(wide(film.d!)).toBeCloseTo(shape.film.width * px, 2);
    const tracks = elements
      .filter((e) => e.attributes["data-what"] === "seal track")
      .map((e) => Number(e.attributes.x));
    const outer = Math.max(...tracks) + shape.film.track * px;
    expect(outer - Math.min(...tracks)).toBeCloseTo((shape.film.width - 2 * shape.film.inset) * px, 2);
  });
});

test("a band of the whole film grips whole tracks; one of a third leaves them free", () => {
  const plover = shapeOf("plover", "so8-12");
  expect(trackUnderBand(plover)).toBeCloseTo(plover.film.track, 12);
  expect(trackUnderBand(shapeOf("dunlin", "so8-12"))).toBe(0);
});
// Film 10 mm, tracks 1 mm at the very edge: their inner edges stand 4 mm from the middle, a band of 9 mm reaches 4.5. [derived]
test("a band of 9 mm on a film of 10 mm covers half a millimetre of each track at its edge", () => {
  const shape = shapeOf("dunlin", "so8-12");
  const made = {
    ...shape,
    film: { width: 10e-3, track: 1e-3, inset: 0 },
    nip: { ...shape.nip!, grip: { value: 9e-3 } },
  };
  expect(trackUnderBand(made)).toBeCloseTo(0.5e-3, 12);
  expect(nipWords(made)).toContain("0.5 mm of each seal track lie under the band");
});
test("the tape lies in the middle of its channel, the groove about the pocket the unit is cut to", () => {
  const { wall, groove, floor } = channelLines(shapeOf("plover", "so8-12"));
  const shape = shapeOf("plover", "so8-12");
  expect(wall[0]).toBeCloseTo(-(wall[1] - shape.letters.W), 12);
  // Cut to B0 5.2 with walls of 0.30: 5.8 mm and 0.75 beside it on each side, about 7.25. [derived from the unit file]
  expect(groove.map((v) => +(v * 1e3).toFixed(6))).toEqual([3.6, 10.9]);
  expect(floor).toBeCloseTo(-2.8e-3, 12);
});
test("the words name widths, depth and what hangs", () => {
  expect(grooveWords(shapeOf("plover", "so8-12"))).toBe(
    "Across the groove: a tape 12.05 mm wide in a channel 12.45 mm wide. Ledges carry 2.6 mm at the sprocket side and 0.7 mm at the far side; lips reach over by 0.9 mm and 0.7 mm, 0.65 mm above the ledges. " +
      "The pocket's middle lies 7.37 mm from the edge; it hangs 2.1 mm down in a groove 2.8 mm deep, with 0.75 mm drawn beside it. The cover film is 9.3 mm wide with a seal track of 0.49 mm at each edge.",
  );
  expect(grooveWords(shapeOf("plover", "paper-8"))).toContain("nothing hangs below it");
});
test("a number that may be changed carries its address", () => {
  const svg = toSvg(nipSection(shapeOf("dunlin", "so8-12"), area)!, { prefix: "n" });
  expect(svg).toContain('data-address="dunlin/nip.rollers.grip"');
  expect(svg).toContain('data-address="dunlin/nip.preload"');
});
test("a unit without rollers has no section across them", () => {
  expect(nipSection({ ...shapeOf("plover", "so8-12"), nip: undefined }, area)).toBeUndefined();
});
