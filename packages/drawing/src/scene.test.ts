import { expect, test } from "vitest";
import { elementsOf } from "./example.fixture.ts";
import {
  box,
  circle,
  type Drawing,
  DrawingBug,
  escaped,
  fixed,
  group,
  line,
  part,
  path,
  Shared,
  stacked,
  text,
  toSvg,
} from "./scene.ts";

const drawing = (shapes: Drawing["shapes"] = [], more: Partial<Drawing> = {}): Drawing => ({
  title: "Side view",
  desc: "A unit.",
  width: 200,
  height: 100,
  shapes,
  ...more,
});

test("every drawing is an image with a title and a description that it is labelled by", () => {
  const [svg, title, desc] = elementsOf(toSvg(drawing(), { prefix: "a" }));
  expect(svg?.attributes).toMatchObject({ role: "img", "aria-labelledby": "a-title a-desc", viewBox: "0 0 200 100" });
  expect([title, desc]).toEqual([
    { name: "title", attributes: { id: "a-title" } },
    { name: "desc", attributes: { id: "a-desc" } },
  ]);
});
test("no id is used twice, and every id begins with the prefix", () => {
  const svg = toSvg(
    drawing([
      box([0, 0], 9, 9, "", { fill: "hatch" }),
      box([9, 0], 9, 9, "", { fill: "hatch" }),
      box([9, 9], 9, 9, "", { fill: "unknown" }),
      group([line([0, 0], [1, 1], "thin")], { clip: { circle: [5, 5], r: 4 } }),
      group([line([0, 0], [1, 1], "thin")], { clip: { circle: [5, 5], r: 4 } }),
      group([line([0, 0], [1, 1], "thin")], { clip: { box: [5, 5], width: 4, height: 4 } }),
    ]),
    { prefix: "left-1" },
  );
  const ids = elementsOf(svg).flatMap((e) => (e.attributes.id ? [e.attributes.id] : []));
  expect(new Set(ids).size).toBe(ids.length);
  expect(ids.every((id) => id.startsWith("left-1-"))).toBe(true);
  const used = [...svg.matchAll(/url\(#([^)]+)\)/g)].map(([, id]) => id);
  expect(used.filter((id) => !ids.includes(id!))).toEqual([]);
  expect(ids).toHaveLength(6);
});
test.each(["", "1a", "a b", 'a"', "a<"])("a prefix of %j is refused: it can't begin an id", (prefix) => {
  expect(() => toSvg(drawing(), { prefix })).toThrow("can't begin an id");
});
test("names with markup in them stay text", () => {
  const nasty = `</text><script>alert("1")</script>&amp;'`;
  const svg = toSvg(
    drawing(
      [text([0, 0], nasty, "t1", { data: { address: nasty } }), text([0, 0], [{ text: nasty, class: "strong" }], "t1")],
      { title: nasty, desc: nasty },
    ),
    { prefix: "a" },
  );
  expect(elementsOf(svg).map((e) => e.name)).not.toContain("script");
  expect(svg.match(/&lt;script&gt;/g)).toHaveLength(5);
});
test("control characters and halves of surrogates, which no XML may hold, are left out", () => {
  expect(escaped("a\u0000\u0008\u001fb\ud800c\udc00d\uffff\n\t😀")).toBe("abcd\n\t😀");
});
test.each([
  [1 / 3, "0.333"],
  [-0.0001, "0"],
  [1e-9, "0"],
  [12, "12"],
  [-1.23456, "-1.235"],
  [1e6 + 0.5, "1000000.5"],
])("a coordinate of %d is written %s", (v, written) => {
  expect(fixed(v)).toBe(written);
});
test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
  "a coordinate of %d is our bug and says so",
  (v) => {
    expect(() => toSvg(drawing([circle([v, 0], 1, "thin")]), { prefix: "a" })).toThrow(DrawingBug);
    expect(() => toSvg(drawing([path([["M", 0, v]], "thin")]), { prefix: "a" })).toThrow("please report");
  },
);
test("a drawing that stands alone carries its rules, and they can't end its style early", () => {
  const svg = toSvg(drawing(), { prefix: "a", style: "</style><x>" });
  expect(svg).toContain("<style>&lt;/style>&lt;x></style>");
  expect(svg).not.toContain("</style><x>");
});
test("no drawing carries a colour of its own", () => {
  const svg = toSvg(drawing([box([0, 0], 9, 9, "of-paper", { fill: "fails" }), text([0, 0], "a", "strong")]), {
    prefix: "a",
  });
  expect(svg).not.toMatch(/#[0-9a-f]{3,6}\b|rgb|style=|stroke="|fill="(?!url)/i);
});

test("a part that two drawings share is written once, and both point at it", () => {
  const shared = new Shared("page");
  const wheel = part("wheel", [
    group([circle([5, 5], 4, "outline", { fill: "hatch" })], { clip: { circle: [5, 5], r: 4 } }),
  ]);
  const [a, b] = ["a", "b"].map((prefix) =>
    toSvg(drawing([wheel, box([0, 0], 9, 9, "", { fill: "hatch" })]), { prefix, shared }),
  ) as [string, string];
  expect(a).toContain('<use href="#page-wheel"/>');
  expect(a).not.toMatch(/<circle|<pattern|<defs/);
  const all = a + b + shared.svg();
  const ids = elementsOf(all).flatMap((e) => (e.attributes.id ? [e.attributes.id] : []));
  expect(new Set(ids).size).toBe(ids.length);
  const used = [...all.matchAll(/url\(#([^)]+)\)|href="#([^"]+)"/g)].map(([, url, href]) => url ?? href!);
  expect(used.filter((id) => !ids.includes(id))).toEqual([]);
  expect(all.match(/<circle/g)).toHaveLength(2);
});
test("a part of a drawing that stands alone is drawn in place", () => {
  const svg = toSvg(drawing([part("wheel", [circle([5, 5], 4, "outline")])]), { prefix: "a" });
  expect(svg).toContain("<g><circle");
  expect(svg).not.toContain("<use");
});
test("a group that leads somewhere is a link with a spoken name, and the drawing then is no image", () => {
  const cell = group([box([0, 0], 9, 9, "clear")], { link: { href: '#a"b', label: "stops <first>", id: "cell" } });
  const svg = toSvg(drawing([cell]), { prefix: "a", role: "group" });
  expect(svg).toContain('<a id="cell" href="#a&quot;b" aria-label="stops &lt;first&gt;">');
  expect(elementsOf(svg)[0]!.attributes.role).toBe("group");
});
test("a window shows a part of the drawing's coordinates at the drawing's size", () => {
  const [svg] = elementsOf(toSvg(drawing([], { window: { x: 20, y: 10, width: 400, height: 200 } }), { prefix: "a" }));
  expect(svg!.attributes).toMatchObject({ width: "200", height: "100", viewBox: "20 10 400 200" });
});
test("drawings under each other keep their own coordinates, each shifted below the last", () => {
  const one = drawing([circle([5, 5], 4, "outline")], { height: 40, desc: "First." });
  const both = stacked([one, drawing([circle([7, 7], 4, "thin")], { width: 90, desc: "Second." })], "Both");
  expect([both.width, both.height, both.desc]).toEqual([200, 140, "First. Second."]);
  const svg = toSvg(both, { prefix: "a" });
  expect(svg).toContain('<g transform="translate(0 0)"><circle class="outline" cx="5" cy="5"');
  expect(svg).toContain('<g transform="translate(0 40)"><circle class="thin" cx="7" cy="7"');
});
