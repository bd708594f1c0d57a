import { allCards, type CardDecides, cardFor, cardPictures } from "@tapeworthy/core";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cardAxis } from "./card-axis.ts";
import { cardPicture } from "./card-picture.ts";
import { type Drawing, type Shape, toSvg } from "./scene.ts";
import { textWidth } from "./text-width.ts";

interface Box {
  readonly words: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly foot: number;
}
const texts = (shapes: readonly Shape[]): Box[] =>
  shapes.flatMap((s): Box[] => {
    if (s.kind === "group") return texts(s.shapes);
    if (s.kind !== "text" || typeof s.text !== "string") return [];
    const w = textWidth(s.text, 10.5, /strong|is-/.test(s.class ?? ""));
    const left = s.at[0] - (s.anchor === "end" ? w : s.anchor === "middle" ? w / 2 : 0);
    return [{ words: s.text, left, right: left + w, top: s.at[1] - 8.4, foot: s.at[1] + 2.4 }];
  });
const hiding = (all: readonly Box[]): string[] =>
  all.flatMap((a, i) =>
    all
      .slice(i + 1)
      .filter((b) => a.left < b.right && b.left < a.right && a.top < b.foot && b.top < a.foot)
      .map((b) => `${a.words} / ${b.words}`),
  );
const beyond = (d: Drawing): string[] =>
  texts(d.shapes)
    .filter((t) => t.left < 0 || t.right > d.width || t.top < -0.5 || t.foot > d.height)
    .map((t) => t.words);
const points = (shapes: readonly Shape[]): number[][] =>
  shapes.flatMap((s): number[][] => {
    if (s.kind === "circle")
      return [
        [s.at[0] - s.r, s.at[1] - s.r],
        [s.at[0] + s.r, s.at[1] + s.r],
      ];
    if (s.kind === "box")
      return [
        [s.at[0], s.at[1]],
        [s.at[0] + s.width, s.at[1] + s.height],
      ];
    if (s.kind !== "path") return [];
    return s.d.flatMap((d) => (d[0] === "Z" ? [] : [d[0] === "C" ? [d[5], d[6]] : [d[1], d[2]]]));
  });

describe.each([300, 330, 380, 440, 520])("at %i px", (width) => {
  test.each(allCards().map((c) => [c.id, c] as const))(
    "the set-up of %s hides no word and stays on its paper",
    (_, card) => {
      const d = cardPicture(card, { width });
      expect(hiding(texts(d.shapes))).toEqual([]);
      expect(beyond(d)).toEqual([]);
      for (const [x, y] of points(d.shapes)) {
        expect(x).toBeGreaterThanOrEqual(-0.01);
        expect(x).toBeLessThanOrEqual(width + 0.01);
        expect(y).toBeGreaterThanOrEqual(-0.01);
        expect(y).toBeLessThanOrEqual(d.height + 0.01);
      }
    },
  );
});
test("every set-up is drawn, and says in words what it shows and names", () => {
  for (const picture of cardPictures) {
    const card = allCards().find((c) => c.method.picture === picture)!;
    const d = cardPicture(card, { width: 340 });
    expect(d.desc, picture).toMatch(/^[A-Z].+\. Named from above: .+\.$/);
    expect(toSvg(d, { prefix: "p" })).toBe(toSvg(cardPicture(card, { width: 340 }), { prefix: "p" }));
  }
});
test("what the card sets is written beside the thing", () => {
  const capstan = cardPicture(cardFor("plover/film.friction")!, { width: 400 });
  expect(
    texts(capstan.shapes)
      .map((t) => t.words)
      .join(" "),
  ).toContain("180°");
  const hole = cardPicture(cardFor("assume/hole strength of plastic")!, { width: 400 });
  expect(
    texts(hole.shapes)
      .map((t) => t.words)
      .join(" "),
  ).toContain("pin 1.5 mm");
});
test("no leader ends on words: each ends left of the column", () => {
  const d = cardPicture(cardFor("plover/film.friction")!, { width: 360 });
  const column = Math.min(
    ...texts(d.shapes)
      .filter((t) => t.words !== "Not to scale.")
      .map((t) => t.left),
  );
  const ends = d.shapes.flatMap((s) => (s.kind === "path" && s.class === "leader" ? [Number(s.d[1]![1])] : []));
  expect(ends.length).toBeGreaterThan(4);
  for (const x of ends) expect(x).toBeLessThan(column);
});

const decides = (low: number, high: number, tipping: number | null, shareIfMeasured: number): CardDecides => ({
  unit: "Plover",
  tape: "so20-24",
  check: "nip.pulls",
  decisive: {
    address: "plover/film.friction",
    symbol: "mu",
    tipping,
    guess: { low, high },
    unit: "1",
    shownIn: "",
    shareIfMeasured,
  },
});
describe("the axis to mark a mean on", () => {
  test("puts the tipping value, the stopping side and the guess where they are", () => {
    const d = cardAxis(decides(0.18, 0.35, 0.34, 0.99), {
      width: 340,
      shownIn: "",
      answer: { value: 0.34, within: 0.01 },
    });
    const data = d.shapes.flatMap((s) => ("data" in s && s.data ? [s.data] : []));
    const tip = Number(data.find((x) => x.tipping)!.tipping);
    expect(Number(data.find((x) => x.mean)!.mean)).toBeCloseTo(tip, 9);
    expect(data.find((x) => x.stops)!.stops).toBe("above");
    const said = texts(d.shapes).map((t) => t.words);
    expect(said).toContain("stops above 0.34");
    expect(said).toContain("so20-24 feeds");
    expect(d.desc).toBe(
      "film friction: you guess 0.18 to 0.35. so20-24 stops above 0.34. Measured 0.34, give or take 0.010.",
    );
  });
  test("says so where nothing tips", () => {
    expect(cardAxis(decides(0.2, 0.5, null, 0.4), { width: 340, shownIn: "" }).desc).toContain(
      "Nothing tips on it alone.",
    );
  });
  test("hides no word for any guess, tipping value and width", () => {
    const share = fc.double({ min: 0.02, max: 0.98, noNaN: true });
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 1e4, noNaN: true }),
        fc.double({ min: 1.05, max: 50, noNaN: true }),
        share,
        share,
        fc.integer({ min: 300, max: 520 }),
        (low, ratio, t, pass, width) => {
          const high = low * ratio;
          const d = cardAxis(decides(low, high, low + (high - low) * t, pass), { width, shownIn: "" });
          expect(hiding(texts(d.shapes))).toEqual([]);
          expect(beyond(d)).toEqual([]);
        },
      ),
      { seed: 11, numRuns: 500 },
    );
  });
});
