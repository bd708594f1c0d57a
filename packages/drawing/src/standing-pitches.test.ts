import { describe, expect, test } from "vitest";
import { type PitchShare, standingPitches } from "./standing-pitches.ts";
import { thinned } from "./thinned.ts";

/** Invented: 220 mm of a pull, a row every 0.5 mm, thinned to the width of a screen. */
const at = Float64Array.from({ length: 441 }, (_, i) => i * 5e-4);
const trace = (f: (s: number) => number) => thinned(at, at.map(f), 900);
const wave = (pitch: number, peak: number) => (s: number) => 2 + 0.2 * Math.cos((2 * Math.PI * (s - peak)) / pitch);
const plateau = [0.025, 0.205] as const;
const P = (name: string, pitch: number, share: number | undefined): PitchShare => ({ name, pitch, share });
const flat = trace(() => 2);

describe("a pitch stands out", () => {
  // Of 15 periods noise gives it 3.27/15 = 0.218 or less in 999 of 1000 traces. [derived]
  test.each([
    [0.21, []],
    [0.22, ["P1"]],
  ])("of 15 periods with %d of the ripple: %o", (share, names) => {
    const found = standingPitches([P("P1", 0.012, share)], plateau, trace(wave(0.012, 0.03)));
    expect(found.map((p) => p.name)).toEqual(names);
  });
  test("with less where there are more periods to tell", () => {
    const of = trace(wave(0.004, 0.03));
    expect(standingPitches([P("P0", 0.004, 0.09)], plateau, of)).toHaveLength(1);
    expect(standingPitches([P("P0", 0.004, 0.09)], [0.025, 0.085], of)).toHaveLength(0);
  });
  test("only with what isn't another's, where the other's waves are among its own", () => {
    const of = trace(wave(0.004, 0.03));
    expect(standingPitches([P("P1", 0.012, 0.8), P("P0", 0.004, 0.79)], plateau, of).map((p) => p.name)).toEqual([
      "P0",
    ]);
    expect(standingPitches([P("P1", 0.012, 0.8), P("P0", 0.004, 0.3)], plateau, of).map((p) => p.name)).toEqual([
      "P1",
      "P0",
    ]);
    // 20 mm over 4 mm is the fourth overtone, which the share does not hold.
    expect(standingPitches([P("P1", 0.02, 0.8), P("P0", 0.004, 0.79)], plateau, of).map((p) => p.name)).toEqual([
      "P1",
      "P0",
    ]);
  });
  test("once where two are one, and not at all where the statistics can't tell", () => {
    const of = trace(wave(0.004, 0.03));
    expect(standingPitches([P("P1", 0.004, 0.8), P("P0", 0.004, 0.8)], plateau, of).map((p) => p.name)).toEqual([
      "P1 = P0",
    ]);
    expect(standingPitches([P("P1", 0.012, undefined)], plateau, of)).toEqual([]);
  });
  test("never on fewer than three periods", () => {
    expect(standingPitches([P("P1", 0.07, 1)], plateau, trace(wave(0.07, 0.03)))).toEqual([]);
  });
});

// Noise alone, white and smoothed, by a generator with a fixed seed: the share that least squares give it, as the statistics do. [derived]
test.each([1, 4, 12])("noise smoothed over %i rows gets more than that in few traces of a thousand", (smooth) => {
  let seed = 7;
  const random = (): number => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return seed / 2 ** 32 - 0.5;
  };
  const n = 360;
  let over = 0;
  for (let t = 0; t < 1000; t++) {
    const raw = Array.from({ length: n + smooth }, () => random() + random() + random());
    const v = Array.from({ length: n }, (_, i) => raw.slice(i, i + smooth).reduce((a, b) => a + b, 0));
    const mean = v.reduce((a, b) => a + b, 0) / n;
    let [all, locked] = [0, 0];
    for (const one of v) all += (one - mean) ** 2;
    // 360 rows of 0.5 mm are 15 whole periods of 24 rows: the waves are orthogonal.
    for (let k = 1; k <= 4; k++) {
      let [a, b] = [0, 0];
      for (let i = 0; i < n; i++) {
        a += v[i]! * Math.cos((2 * Math.PI * k * i) / 24);
        b += v[i]! * Math.sin((2 * Math.PI * k * i) / 24);
      }
      locked += (2 / n) * (a * a + b * b);
    }
    if (standingPitches([P("P1", 0.012, locked / all)], plateau, flat).length > 0) over++;
  }
  expect(over).toBeLessThanOrEqual(5);
});

describe("the first peak", () => {
  test.each([0.0251, 0.028, 0.0369])("is found where it lies, %d m", (peak) => {
    const [found] = standingPitches([P("P1", 0.012, 0.8)], plateau, trace(wave(0.012, peak)));
    expect(found!.first).toBeCloseTo(peak, 3);
  });
  test("is that of the whole wave, not of its first overtone alone, and a trend moves it by little", () => {
    // A narrow peak on a slope: the fundamental alone has its top there too, half a period apart is its foot.
    const peaked = (s: number): number =>
      2 + 3 * s + Math.exp(10 * (Math.cos((2 * Math.PI * (s - 0.031)) / 0.012) - 1));
    const [found] = standingPitches([P("P1", 0.012, 0.8)], plateau, trace(peaked));
    expect(found!.first).toBeCloseTo(0.031, 3);
  });
  test("is looked for in the plateau alone", () => {
    const jump = (s: number): number => (s < 0.02 ? 50 : wave(0.012, 0.03)(s));
    expect(standingPitches([P("P1", 0.012, 0.8)], plateau, trace(jump))[0]!.first).toBeCloseTo(0.03, 3);
  });
});
