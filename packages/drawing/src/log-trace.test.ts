import { describe, expect, test } from "vitest";
import {
  alongAt,
  type LogLane,
  type LogTraceInput,
  logFrame,
  logTrace,
  logWords,
  plateauFlags,
  plateauSliders,
  xAlong,
} from "./log-trace.ts";
import { linesOf, marked } from "./marked.fixture.ts";
import { expectClear, expectSound } from "./pick-lettering.fixture.ts";
import { type Shape, toSvg } from "./scene.ts";
import { thinned } from "./thinned.ts";

/** Invented: a pull that rises, ripples with the pockets and has one peak; the film's edge about its middle. */
const n = 2201;
const travel = Float64Array.from({ length: n }, (_, i) => i * 1e-4);
const pull = travel.map((s) => (s < 0.01 ? s * 190 : 1.9 + 0.2 * Math.sin((2 * Math.PI * s) / 0.012)));
pull[1270] = 2.9;
const edgeAt = travel.map((s) => 1e-4 * Math.sin(s / 0.013));
const lane = (more: Partial<LogLane> = {}): LogLane => ({
  name: "pull",
  shownIn: "N",
  style: "film",
  trace: thinned(travel, pull, 700),
  mean: 1.9,
  sd: 0.14,
  limits: [
    { at: 2.86, words: "nip holds 2.86" },
    { at: 40, words: "film breaks 40" },
  ],
  outliers: [{ along: 0.127, value: 2.9, row: 1270, words: "seal overlap" }],
  statistics: [
    { term: "mean", words: "1.90 N", strong: true },
    { term: "ripple", words: "7.4 %" },
    { term: "outliers, kept", words: "1" },
  ],
  ...more,
});
const edge: LogLane = {
  name: "film edge",
  shownIn: "mm",
  style: "seal",
  trace: thinned(travel, edgeAt, 700),
  mean: 0,
  sd: 7e-5,
  statistics: [{ term: "std dev", words: "0.07 mm" }],
};
const input = (more: Partial<LogTraceInput> = {}): LogTraceInput => ({
  title: "Log T-07 run 3",
  along: { name: "travel", shownIn: "mm" },
  from: 0,
  to: 0.22,
  plateau: [0.025, 0.205],
  pitches: [
    { name: "P1", pitch: 0.012, share: 0.79 },
    { name: "P0", pitch: 0.004 },
  ],
  lanes: [edge, lane()],
  ...more,
});
const wide = { width: 1000, height: 400 };
const pointsOf = (s: Shape | undefined): [number, number][] =>
  s?.kind === "path"
    ? s.d.flatMap((d): [number, number][] => (d[0] === "M" || d[0] === "L" ? [[d[1], d[2]]] : []))
    : [];

describe.each([
  [1000, 400],
  [700, 330],
  [380, 420],
])("at %i by %i px", (width, height) => {
  test("no word hides another or leaves the paper", () => {
    const d = logTrace(input(), { width, height });
    const flags = plateauFlags(input(), { width, height });
    expectClear({ ...d, shapes: [...d.shapes, ...flags.shapes] });
    expectSound(d);
    expectSound(flags);
  });
  test("traces, limits and means stay between the ends of their lanes", () => {
    const size = { width, height };
    const frame = logFrame(input(), size);
    const d = logTrace(input(), size);
    for (const key of ["trace", "limit", "mean"])
      for (const s of marked(d.shapes, key))
        for (const [x, y] of pointsOf(s)) {
          expect(x).toBeGreaterThanOrEqual(frame.x0 - 4.01);
          expect(x).toBeLessThanOrEqual(frame.x1 + 4.01);
          expect(y).toBeGreaterThanOrEqual(frame.y0 - 0.01);
          expect(y).toBeLessThanOrEqual(d.height);
        }
  });
});
test("the same log gives the same bytes", () => {
  expect(toSvg(logTrace(input(), wide), { prefix: "l" })).toBe(toSvg(logTrace(input(), wide), { prefix: "l" }));
});
test("the outlier is an open triangle over its own place, named by its row and kept", () => {
  const d = logTrace(input(), wide);
  const [triangle] = marked(d.shapes, "outlier");
  expect(triangle?.class).toBe("tight-line");
  expect(pointsOf(triangle)[0]![0]).toBeCloseTo(xAlong(logFrame(input(), wide), 0.127), 6);
  expect(linesOf(d)).toContain("seal overlap, 127 mm, row 1270, kept");
});
test("outliers that crowd are told by their number", () => {
  const crowd = Array.from({ length: 5 }, (_, i) => ({ along: 0.1 + i * 0.002, value: 2.5 }));
  const d = logTrace(input({ lanes: [lane({ outliers: crowd })] }), wide);
  expect(marked(d.shapes, "outlier")).toHaveLength(5);
  expect(linesOf(d)).toContain("5 outliers, kept");
});
test("a limit far beyond the trace does not flatten it, and is named with an arrow", () => {
  const d = logTrace(input({ lanes: [lane()] }), wide);
  expect(marked(d.shapes, "limit").map((s) => s.data!.limit)).toEqual(["nip holds 2.86"]);
  expect(linesOf(d)).toContain("film breaks 40 ↑");
  const ys = pointsOf(marked(d.shapes, "trace")[0]).map(([, y]) => y);
  expect(Math.max(...ys) - Math.min(...ys)).toBeGreaterThan(150);
});
test("mean and spread are drawn within the plateau alone", () => {
  const frame = logFrame(input(), wide);
  const d = logTrace(input(), wide);
  for (const s of marked(d.shapes, "mean"))
    expect(pointsOf(s).map(([x]) => x)).toEqual([xAlong(frame, 0.025), xAlong(frame, 0.205)]);
  for (const s of marked(d.shapes, "spread")) expect(s.kind === "box" && s.at[0]).toBeCloseTo(xAlong(frame, 0.025), 9);
});
// 180 mm of plateau hold 15 pitches of 12 mm and 45 of 4 mm: 16 and 46 teeth. [derived]
test("a pitch with a first peak has its teeth and faint lines there and a pitch apart, up to the plateau's end", () => {
  const pitches = [
    { name: "P1", pitch: 0.012, first: 0.033, share: 0.794 },
    { name: "P0", pitch: 0.004, first: 0.029, share: 0.31 },
  ];
  const frame = logFrame(input({ pitches }), wide);
  const d = logTrace(input({ pitches }), wide);
  const [p1, p0] = marked(d.shapes, "peaks").map((s) => pointsOf(s).filter((_, i) => i % 2 === 0));
  // From 33 to 205 mm: 15 of 12 mm; from 29 mm 45 of 4 mm, of which every third is one of those. [derived]
  expect(p1!.map(([x]) => x)).toEqual(
    Array.from({ length: 15 }, (_, i) => expect.closeTo(xAlong(frame, 0.033 + i * 0.012), 6)),
  );
  expect(p0).toHaveLength(45 - 15);
  const teeth = pointsOf(marked(d.shapes, "comb")[0]);
  expect(teeth[0]![0]).toBeCloseTo(xAlong(frame, 0.033), 6);
  expect(linesOf(d)).toContain("P1 12 mm");
  expect(linesOf(d)).toContain("79 % of the ripple");
  expect(logWords(input({ pitches }))).toContain(
    "79 % of the ripple comes again with every P1 of 12 mm, its first peak at 33 mm.",
  );
  // Too near for lines they stay a comb.
  expect(
    marked(logTrace(input({ pitches }), { width: 380, height: 400 }).shapes, "peaks").map(
      (s) => pointsOf(s).length / 2,
    ),
  ).toEqual([15]);
});
test("combs have a tooth every pitch from where the plateau begins", () => {
  const combs = marked(logTrace(input(), wide).shapes, "comb");
  expect(combs.map((c) => (pointsOf(c).length - 2) / 2)).toEqual([16, 46]);
  const [first] = pointsOf(combs[0]);
  expect(first![0]).toBeCloseTo(xAlong(logFrame(input(), wide), 0.025), 9);
});
test("a gap lifts the pen", () => {
  const holed = pull.map((v, i) => (i > 900 && i < 1100 ? Number.NaN : v));
  const d = logTrace(input({ lanes: [lane({ trace: thinned(travel, holed, 700) })] }), wide);
  const [trace] = marked(d.shapes, "trace");
  expect(trace?.kind === "path" && trace.d.filter((s) => s[0] === "M")).toHaveLength(2);
});
test("a lane with nothing in it is drawn empty, not thrown", () => {
  const empty = lane({ trace: thinned([], [], 10), outliers: [], limits: [] });
  expect(toSvg(logTrace(input({ lanes: [empty] }), wide), { prefix: "e" })).toContain("<svg");
  expect(toSvg(logTrace(input({ lanes: [] }), wide), { prefix: "e" })).toContain("<svg");
});
test("degrees of the air are shown by their own nought", () => {
  const t = thinned([0, 0.1, 0.2], [293.15, 294.15, 295.15], 100);
  const d = logTrace(
    input({ lanes: [{ name: "air", shownIn: { words: "°C", factor: 1, zero: 273.15 }, trace: t }] }),
    wide,
  );
  const words = linesOf(d);
  expect(words).toContain("air, °C");
  expect(words).toContain("21");
});

describe("the flags of the plateau", () => {
  test("are two sliders with a name, a value and bounds that never cross", () => {
    const [from, to] = plateauSliders(input(), wide);
    expect(from).toMatchObject({ which: "from", name: "the plateau begins", value: 0.025, low: 0, words: "25 mm" });
    expect(to).toMatchObject({ which: "to", name: "the plateau ends", value: 0.205, high: 0.22, words: "205 mm" });
    expect(from!.high).toBeLessThan(to!.value);
    expect(to!.low).toBeGreaterThan(from!.value);
  });
  // 220 mm in 200 steps is 1.1 mm: the next round step is 2 mm. [derived]
  test("step by a round number of the unit shown", () => {
    const [from] = plateauSliders(input(), wide);
    expect(from!.step).toBeCloseTo(2e-3, 12);
    expect(from!.large).toBeCloseTo(20e-3, 12);
  });
  test("are no smaller than 24 px and don't lie over each other until they meet", () => {
    for (const plateau of [
      [0.025, 0.205],
      [0.1, 0.112],
      [0.1, 0.101],
      [0, 0.22],
    ] as const) {
      const [from, to] = plateauSliders(input({ plateau }), wide);
      for (const s of [from!, to!]) {
        expect(s.target.width).toBeGreaterThanOrEqual(24);
        expect(s.target.height).toBeGreaterThanOrEqual(24);
        expect(s.at[0]).toBeGreaterThanOrEqual(s.target.x - 0.01);
        expect(s.at[0]).toBeLessThanOrEqual(s.target.x + s.target.width + 0.01);
      }
      if (to!.at[0] - from!.at[0] >= 24)
        expect(from!.target.x + from!.target.width).toBeLessThanOrEqual(to!.target.x + 0.01);
    }
  });
  test("come back from paper to where they stand", () => {
    const frame = logFrame(input(), wide);
    for (const s of plateauSliders(input(), wide)) expect(alongAt(frame, s.at[0])).toBeCloseTo(s.value, 12);
    expect(alongAt(frame, -100)).toBe(0);
    expect(alongAt(frame, 5000)).toBeCloseTo(0.22, 12);
  });
  test("are none where a log has no plateau", () => {
    const { plateau: _, ...without } = input();
    expect(plateauSliders(without, wide)).toEqual([]);
    expect(marked(logTrace(without, wide).shapes, "plateau")).toEqual([]);
  });
});
test("the log is told: plateau, statistics, limits, outliers", () => {
  expect(logWords(input({ lanes: [lane()] }))).toBe(
    "Pull over 220 mm of travel. Plateau from 25 mm to 205 mm. 79 % of the ripple comes again with every P1 of 12 mm. P0 of 4 mm is marked. Pull: mean 1.90 N, ripple 7.4 %, outliers, kept 1. Limit: nip holds 2.86. Limit: film breaks 40. 1 outlier, kept: 2.90 N at 127 mm.",
  );
});
