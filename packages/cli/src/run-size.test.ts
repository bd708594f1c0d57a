import { fileURLToPath } from "node:url";
import type { SizingResult } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { readFolder } from "./folder.ts";
import { load } from "./load.ts";
import { paintFor } from "./paint.ts";
import { freed } from "./run-size.ts";
import { showProposals, showSize } from "./show-size.ts";

const texts = readFolder(fileURLToPath(new URL("../../../examples/saltgrass", import.meta.url)));
const file = "units/dunlin.yaml";
/** The example's second unit, nothing of it free. */
const unit = texts.get(file)!.replace(/^free:.*\n(?: .*\n?)*/m, "");
const project = load(new Map(texts).set(file, unit));
const told = (verdict: "feeds" | "depends" | "stops", share: number, margin: number) => ({ verdict, share, margin });
/** A sizing as it might come out; every figure made up. */
const result: SizingResult = {
  unit: "dunlin",
  seed: 1,
  dimensions: [
    {
      path: "nip.preload",
      symbol: "preload",
      unit: "kg*m/s^2",
      shownIn: "N",
      bounds: [{ W: 12, low: 3, high: 9 }],
      drawn: [{ W: 12, value: 5.5 }],
      by: 0.7,
    },
    {
      path: "let.rlow",
      symbol: "rlow",
      unit: "m",
      shownIn: "mm",
      bounds: [{ W: 12, low: 4e-3, high: 8e-3 }],
      drawn: [{ W: 12, value: 5e-3 }],
      by: 0,
      idle: 1e-3,
    },
  ],
  before: { least: -1.2, tape: "dpak-16", check: "groove.lips" },
  after: { least: 0.4, tape: "radio-44", check: "nip.even" },
  tapes: [
    {
      tape: "dpak-16",
      W: 16,
      before: { verdict: "stops", share: 0.02, least: -1.2 },
      after: { verdict: "feeds", share: 0.97, least: 0.4 },
    },
  ],
  front: [
    { path: undefined, least: -1.2, open: 3 },
    { path: "nip.preload", least: 0.4, open: 1 },
  ],
  pays: [
    {
      tape: "radio-44",
      W: 44,
      check: "nip.slips",
      station: 7,
      before: told("feeds", 1, 4.2),
      after: told("feeds", 0.98, 2.6),
    },
  ],
  gains: [
    {
      tape: "dpak-16",
      W: 16,
      check: "groove.lips",
      station: 2,
      before: told("stops", 0.02, -0.8),
      after: told("feeds", 0.99, 3.1),
    },
  ],
  aside: [
    {
      tape: "holder-44",
      W: 44,
      check: "reel.jerks",
      station: 1,
      verdict: "depends",
      share: 0.41,
      why: "guess",
      best: 0.62,
      unknown: { address: "assume/wound density", symbol: "rho_w" },
    },
  ],
  widths: [{ W: 16, before: -0.2, after: 0.3, moves: [{ path: "tape.section.lips.gap", by: 1e-4 }] }],
  lines: [
    { path: "nip.preload", address: "dunlin/nip.preload", width: undefined, text: "5.5 ±0.4 N", written: "6.2 ±0.4 N" },
    {
      path: "tape.section.lips.gap",
      address: "dunlin/tape.section.lips.gap",
      width: 16,
      text: "T + 0.35 ±0.10 mm",
      written: "T + 0.45 ±0.10 mm",
    },
  ],
  starts: [
    { from: [0, 0], to: [0.7, 0], least: 0.41 },
    { from: [1, 1e-3], to: [0.7, 0], least: 0.4 },
  ],
  evaluations: 300,
  stopped: false,
};

const paint = paintFor({});
const known = { weighed: true, effective: 324 };

describe("the trade of a sizing", () => {
  const text = showSize(result, known, paint, 100);
  test("says what moves, what comes through, and the least gap before and after", () => {
    expect(text).toContain("dunlin: 1 dimension moves; 1 check comes through and none breaks");
    expect(text).toMatch(/Least gap −?[\d.]+ to −?[\d.]+ standard deviations/);
  });
  test("has who pays and who gains with verdict and margin, and what is set aside with what to measure", () => {
    expect(text).toMatch(/What gains[\s\S]*dpak-16 +groove.lips +stops −0.8 → feeds 3.1/);
    expect(text).toMatch(/holder-44 \(41 %, at best 62 %\)/);
    expect(text).toMatch(/Measure first:\s+assume\/wound\s+density/);
  });
  test("has every line as it would be written, those of one width named", () => {
    expect(text).toContain("nip.preload: 6.2 ±0.4 N");
    expect(text).toContain("per width 16: tape.section.lips.gap: T + 0.45 ±0.10 mm");
    expect(text).toContain("The record of known units is weighed in (324 of 1000 draws).");
  });
  test("says that it was stopped, where it was", () => {
    expect(showSize({ ...result, stopped: true }, known, paint, 100)).toContain("the best so far");
    expect(text).not.toContain("the best so far");
  });
});

describe("what a call frees", () => {
  test("stands beside what the file does, and in its place", () => {
    expect(freed(project, "dunlin", []).map(({ path }) => path)).toEqual([]);
    const [free] = freed(project, "dunlin", ["nip.preload=3..9 N"]);
    const drawn = free!.drawn[0]!.value;
    expect(free!.least).toBeCloseTo(3 - drawn, 9);
    expect(free!.most).toBeCloseTo(9 - drawn, 9);
    const marked = load(new Map(texts).set(file, `${unit.trimEnd()}\nfree: {nip.preload: 4..8 N}\n`));
    expect(freed(marked, "dunlin", []).map(({ bounds }) => [bounds[0]!.low, bounds[0]!.high])).toEqual([[4, 8]]);
    expect(freed(marked, "dunlin", ["nip.preload=3..9 N"])[0]!.bounds[0]).toMatchObject({ low: 3, high: 9 });
  });
  test("is refused with the way out: no path, no bounds, bounds the wrong way round, of another unit, or of no lever", () => {
    const refused = (wish: string) => () => freed(project, "dunlin", [wish]);
    expect(refused("nip.preload")).toThrow("PATH=LOW..HIGH");
    expect(refused("nip.preload=fast")).toThrow("--free nip.preload");
    expect(refused("nip.preload=9..3 N")).toThrow("--free nip.preload");
    expect(refused("nip.preload=3..9 mm")).toThrow("bounds in N");
    expect(refused("nip.friction=0.1..0.5")).toThrow("--free nip.friction");
    expect(refused("nip.prelode=3..9 N")).toThrow("--free nip.prelode");
  });
});

describe("where nothing is free", () => {
  test("what would matter is proposed as the lines a file would have", () => {
    const proposals = [{ path: "nip.preload", bounds: "3..9 N", because: [{ tape: "dpak-16", check: "nip.pulls" }] }];
    const text = showProposals("dunlin", proposals, 4, paint, 100);
    expect(text).toContain("nip.preload: 3..9 N");
    expect(text).toContain("dpak-16");
  });
});
