import { expect, test } from "vitest";
import { elementsOf, pointsOf } from "./example.fixture.ts";
import { type LadderInput, ladder, ladderWords } from "./ladder.ts";
import { toSvg } from "./scene.ts";

const points = (f: (w: number) => number, spread = 0.5) =>
  [8, 12, 16, 24, 32].map((W) => ({ W, value: f(W), low: f(W) - spread, high: f(W) + spread }));
const input: LadderInput = {
  unit: "Plover",
  kind: "margin",
  allowed: 2.05,
  widths: [8, 12, 16, 24, 32],
  wanted: [12, 16],
  lines: [
    { check: "film.mismatch", name: "mismatch", points: points((w) => 7 - w * 0.4, 1) },
    { check: "groove.lips", name: "lips <x>", points: points(() => 3.3, 0.1) },
    {
      check: "entry.pockets",
      name: "pockets",
      points: [
        { W: 8, value: 6, low: 6, high: 6 },
        { W: 16, value: 5, low: 5, high: 5 },
        { W: 16, value: 3, low: 3, high: 3 },
        { W: 32, value: 1, low: 1, high: 1 },
      ],
    },
  ],
  crossings: [
    { check: "film.mismatch", W: 12.4, label: "between 12 and 16 (about 12.4)", from: "stops" },
    { check: "film.mismatch", W: 9.9, label: "between 8 and 12 (about 9.9)", from: "depends" },
    { check: "entry.pockets", W: 24, label: "at 24", from: "stops" },
  ],
  jumps: [{ W: 16, step: "P1 8 to 12 mm" }],
};
const size = { width: 560, height: 440 };
const svg = toSvg(ladder(input, size), { prefix: "l" });
const elements = elementsOf(svg);

test("points stand on one scale of width and one of margin", () => {
  const d = pointsOf(elements.find((e) => e.attributes["data-check"] === "film.mismatch")!.attributes.d!);
  const [a, b, c] = [d[0]!, d[1]!, d[4]!];
  expect((b[0] - a[0]) / (c[0] - a[0])).toBeCloseTo((12 - 8) / (32 - 8), 4);
  expect((b[1] - a[1]) / (c[1] - a[1])).toBeCloseTo(4 / 24, 4);
});
test("a crossing stands on the line of the allowance, at its width", () => {
  const cross = elements.filter((e) => e.attributes["data-crossing"] !== undefined);
  expect(cross.map((e) => e.attributes["data-w"])).toEqual(["9.9", "12.4", "24"]);
  const line = pointsOf(elements.find((e) => e.attributes["data-check"] === "film.mismatch")!.attributes.d!);
  const x = (w: number) => line[0]![0] + ((w - 8) / 24) * (line[4]![0] - line[0]![0]);
  for (const e of cross) {
    const [top] = pointsOf(e.attributes.d!);
    expect(top![0]).toBeCloseTo(x(Number(e.attributes["data-w"])), 2);
  }
  expect(new Set(cross.map((e) => pointsOf(e.attributes.d!)[0]![1])).size).toBe(1);
});
test("labels are the caller's words, and a jump says what takes the step", () => {
  for (const words of [
    "mismatch stops between 12 and 16 (about 12.4)",
    "mismatch depends between 8 and 12 (about 9.9)",
    "pockets stops at 24",
    "P1 8 to 12 mm",
  ])
    expect(svg).toContain(words);
  expect(svg).toContain("stops between 12 and 16 (about 12.4), mismatch");
});
test("names at the right end keep apart", () => {
  const names = elements.filter(
    (e) =>
      e.name === "text" &&
      Number(e.attributes.x) > size.width - 96 &&
      Number(e.attributes.y) < size.height - 40 &&
      Number(e.attributes.y) > 60,
  );
  const ys = names.map((e) => Number(e.attributes.y)).sort((a, b) => a - b);
  for (let i = 1; i < ys.length; i++) expect(ys[i]! - ys[i - 1]!).toBeGreaterThanOrEqual(11.9);
});
test("the words name what stops first and every other crossing", () => {
  expect(ladderWords(input)).toBe(
    "Margin of 3 checks over the tape's width, 8 to 32 mm. Depends between 8 and 12 (about 9.9), mismatch; stops between 12 and 16 (about 12.4), mismatch. Pockets: stops at 24. Steps: P1 8 to 12 mm at 16 mm.",
  );
});
test("shares are drawn against the 95 % from which a tape feeds", () => {
  const share = toSvg(
    ladder(
      {
        ...input,
        kind: "share",
        allowed: 0.95,
        lines: [{ check: "a.b", name: "b", points: points((w) => 1 - w / 40, 0.05) }],
        crossings: [],
        jumps: [],
      },
      size,
    ),
    { prefix: "l" },
  );
  expect(share).toContain("feeds from 95 %");
  expect(share).toContain("no check crosses the line");
  expect(share).not.toMatch(/NaN|Infinity/);
});
test("names with markup in them stay text, and two runs give the same bytes", () => {
  expect(svg).toContain("lips &lt;x&gt;");
  expect(toSvg(ladder(input, size), { prefix: "l" })).toBe(svg);
});
test("no lines, one width: it draws all the same", () => {
  const text = toSvg(
    ladder({ ...input, lines: [], crossings: [], jumps: [], widths: [12] }, { width: 300, height: 200 }),
    { prefix: "l" },
  );
  expect(text).not.toMatch(/NaN|Infinity/);
});
test("belief is drawn about the one check that decides, and about no other", () => {
  const svg = toSvg(ladder(input, { width: 900, height: 480 }), { prefix: "l" });
  expect(svg.match(/class="ask-veil"/g)).toHaveLength(1);
});
test("checks that lie on the cap all the way are counted where they are many", () => {
  const flat = (n: number) =>
    Array.from({ length: n }, (_, i) => ({
      check: `calm.${i}`,
      name: `calm ${i}`,
      points: [8, 12].map((W) => ({ W, value: 6, low: 6, high: 6 })),
    }));
  const names = (n: number) => {
    const drawn = { ...input, lines: [...input.lines, ...flat(n)] };
    const svg = toSvg(ladder(drawn, { width: 900, height: 480 }), { prefix: "l" });
    return [svg.includes(">calm 0<"), svg.includes(`>${n} others<`)];
  };
  expect(names(2)).toEqual([true, false]);
  expect(names(8)).toEqual([false, true]);
});
