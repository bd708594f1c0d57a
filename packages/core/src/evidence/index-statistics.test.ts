import { describe, expect, test } from "vitest";
import { finished } from "../study/steps.ts";
import { indexesByCommand, indexesByNumber, indexesByTravel, indexStatistics, runSummary } from "./index-statistics.ts";

const floats = (...x: readonly number[]): Float64Array => Float64Array.from(x);
const mm = 1e-3;

describe("an index begins", () => {
  test("where its number changes, whatever gaps lie between", () => {
    expect([...finished(indexesByNumber(floats(0, 0, Number.NaN, 0, 1, 1, 3)))]).toEqual([0, 4, 6, 7]);
  });
  test("where the command rises through half its range", () => {
    expect([...finished(indexesByCommand(floats(0, 1, 1, 0, 0.2, 0.9, 0)))]).toEqual([1, 5, 7]);
    expect([...finished(indexesByCommand(floats(2, 2, 2)))]).toEqual([3]);
  });
  test("where the tape has moved on by a pitch, and not again where it is pulled back", () => {
    const x = floats(0, 1, 3.9, 4, 5, 3.9, 4.1, 8, 13).map((v) => v * mm);
    expect([...finished(indexesByTravel(x, 4 * mm))]).toEqual([0, 3, 7, 8, 9]);
  });
  test("nowhere without a pitch", () => {
    expect(() => finished(indexesByTravel(floats(0, 1), 0))).toThrow("a pitch of 0 m; it must be above 0");
  });
});

// By hand: 1, 2, 6 have the mean 3 and the variance (4 + 1 + 9)/2. [derived]
test("an index has the mean, deviation and extremes of its rows; a gap is no row and never 0", () => {
  const s = finished(indexStatistics(floats(1, 2, 6, Number.NaN, -1, Number.NaN), Int32Array.of(0, 4, 5, 6)));
  expect([...s.mean]).toEqual([3, -1, Number.NaN]);
  expect(s.sd[0]).toBeCloseTo(Math.sqrt(7), 12);
  expect([...s.greatest]).toEqual([6, -1, Number.NaN]);
  expect([...s.least]).toEqual([1, -1, Number.NaN]);
  expect([...s.rows]).toEqual([3, 1, 0]);
  expect([...s.at]).toEqual([2, 4, -1]);
});
test("a large offset costs the deviation no digits", () => {
  const s = finished(indexStatistics(floats(1e9 + 1, 1e9 + 2, 1e9 + 6), Int32Array.of(0, 3)));
  expect(s.sd[0]).toBeCloseTo(Math.sqrt(7), 12);
});

/** A trace of 0.2 mm a row: a mean of 2 N with waves at P1 = 12 mm and P0 = 4 mm, and one seal overlap. */
function traced(of: {
  readonly a1: number;
  readonly a0: number;
  readonly slope?: number;
  readonly bump?: number;
  readonly length?: number;
}) {
  const n = Math.round((of.length ?? 1000) / 0.2) + 1;
  const travel = Float64Array.from({ length: n }, (_, i) => i * 0.2 * mm);
  const values = travel.map((x, i) => {
    const wave = of.a1 * Math.sin((2 * Math.PI * x) / (12 * mm)) + of.a0 * Math.sin((2 * Math.PI * x) / (4 * mm) + 1);
    return 2 + wave + (of.slope ?? 0) * (x / (n * 0.2 * mm) - 0.5) + (of.bump === i ? 3 : 0) + 1e-3 * Math.sin(i * i);
  });
  const starts = finished(indexesByTravel(travel, 12 * mm));
  const by = finished(indexStatistics(values, starts));
  const run = (plateau?: readonly [number, number]) =>
    finished(runSummary({ values, starts, along: travel, isTravel: true, P1: 12 * mm, P0: 4 * mm, plateau }, by));
  return { run, values, travel };
}

describe("a run", () => {
  // Two waves of amplitudes a and b share the variance as a^2 : b^2; their sd is sqrt((a^2 + b^2)/2). [derived]
  test("shares its ripple between the pocket pitch and the hole pitch as the squares of their waves", () => {
    const only1 = traced({ a1: 0.3, a0: 0 }).run();
    expect(only1.rippleAtP1).toBeGreaterThan(0.99);
    expect(only1.rippleAtP0).toBeLessThan(0.01);
    const both = traced({ a1: 0.3, a0: 0.15 }).run();
    // 4 mm is the third overtone of 12 mm, so what comes with every hole comes with every pocket too.
    expect(both.rippleAtP1).toBeGreaterThan(0.99);
    expect(both.rippleAtP0).toBeCloseTo(0.15 ** 2 / (0.3 ** 2 + 0.15 ** 2), 2);
    expect(both.sd).toBeCloseTo(Math.sqrt((0.3 ** 2 + 0.15 ** 2) / 2), 2);
    expect(both.ripple).toBeCloseTo(both.sd / both.mean, 12);
  });
  test("leaves out the first 25 mm and the last 5 mm, or what lies outside the flags", () => {
    const { run } = traced({ a1: 0.3, a0: 0 });
    expect(run().plateau.map((x) => Math.round(x * 1e6))).toEqual([25_000, 995_000]);
    const flagged = run([0.1, 0.34]);
    expect([flagged.plateau, flagged.indexes]).toEqual([[0.1, 0.34], 19]);
    expect(flagged.rows).toBe(1201);
  });
  test("has the trend of a straight line over its plateau", () => {
    // 0.4 N over 1000.2 mm, of which 970 mm are the plateau, over 2 N. [derived]
    expect(traced({ a1: 0, a0: 0, slope: 0.4 }).run().trend).toBeCloseTo((0.4 * 970) / 1000.2 / 2, 3);
  });
  test("keeps an outlier and names its row", () => {
    const { run, values } = traced({ a1: 0.3, a0: 0, bump: 2500 });
    const s = run();
    expect(s.outliers).toEqual([2500]);
    expect(s.greatest).toBe(values[2500]);
    expect(traced({ a1: 0.3, a0: 0.1 }).run().greatest).toBeLessThan(2.5);
  });
  test("that stands still for most of its rows is read by travel, not by rows", () => {
    const { values, travel } = traced({ a1: 0.3, a0: 0 });
    // Each twentieth row a hundred times: the tape rests there.
    const rest = [...travel.keys()].flatMap((i) => Array.from({ length: i % 20 === 0 ? 100 : 1 }, () => i));
    const [v, x] = [Float64Array.from(rest, (i) => values[i]!), Float64Array.from(rest, (i) => travel[i]!)];
    const starts = finished(indexesByTravel(x, 12 * mm));
    const by = finished(indexStatistics(v, starts));
    const s = finished(runSummary({ values: v, starts, along: x, isTravel: true, P1: 12 * mm, P0: 4 * mm }, by));
    expect(s.rippleAtP1).toBeGreaterThan(0.99);
  });
  test("has one index after another correlated, and is worth the fewer readings", () => {
    const { run } = traced({ a1: 0, a0: 0, slope: 1 });
    const s = run();
    expect(s.lagOne).toBeGreaterThan(0.9);
    expect(s.independent).toBeLessThan(0.1 * s.indexes);
  });
  test("without travel has no ripple at a pitch; with gaps it counts them", () => {
    const values = Float64Array.from({ length: 100 }, (_, i) => (i % 10 === 3 ? Number.NaN : 1 + (i % 2)));
    const starts = Int32Array.from({ length: 11 }, (_, i) => i * 10);
    const by = finished(indexStatistics(values, starts));
    const s = finished(runSummary({ values, starts, isTravel: false }, by));
    expect([s.gaps, s.rows, s.indexes, s.rippleAtP1]).toEqual([10, 90, 10, undefined]);
  });
  test("with flags beside the log is refused", () => {
    expect(() => traced({ a1: 0, a0: 0 }).run([5, 6])).toThrow("no number between the flags 5 and 6");
  });
  test("on a short piece says that nothing was left out", () => {
    const s = traced({ a1: 0.1, a0: 0, length: 60 }).run();
    expect(s.findings.join("; ")).toContain("too short to leave its ends out: all of it is the plateau");
  });
});
