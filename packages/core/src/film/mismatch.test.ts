import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, oneSeal, outside, overhead, scene, sideCrossing } from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { checkMismatch, chordMismatch, flatFilm, flatMismatch, mismatch } from "./mismatch.ts";
import { filmPath, type Span, type Vector } from "./path.ts";

const turned = (L: number, degrees: number): Span => {
  const twist = (degrees * Math.PI) / 180;
  return { length: L, run: [L, 0, 0], fan: [0, Math.cos(twist) - 1, Math.sin(twist)], twist };
};

// Elementary geometry: the chord of the edge is hypot(L, b sin(phi/2)). [derived]
describe("a free twist leaves the edge longer than the middle", () => {
  test.each([
    [5.3, 36, 90, 0.005403994102880283],
    [13.3, 40, 90, 0.027267309418536945],
    [10, 50, 45, 0.002924655383578223],
  ])("by the chord's excess at %f mm in %f mm over %f degrees", (b, L, degrees, excess) => {
    expect(chordMismatch(turned(L * 1e-3, degrees), b * 1e-3) / excess).toBeCloseTo(1, 9);
  });
});
// L/b at which a quarter turn reaches the mismatch, by bisection: validation/independent/film.py. [derived]
describe("a quarter turn", () => {
  test.each([
    [1, 4.98755, 5.53977],
    [2, 3.51799, 3.9075],
  ])("reaches %i %% at %f widths by chords and at %f as a flat film", (percent, chord, flat) => {
    expect(chordMismatch(turned(chord, 90), 1) * 100).toBeCloseTo(percent, 4);
    expect(flatMismatch(Math.PI / 2, 1, flat) * 100).toBeCloseTo(percent, 4);
  });
});

// The invented side crossing: lengths of 4001 fibres less their least-squares line, validation/independent/film.py. [derived]
const coverWidth: Readonly<Record<number, number>> = { 8: 5.3, 12: 9.3, 16: 13.3, 24: 21.3, 32: 25.5, 44: 37.5 };
const height: Readonly<Record<number, number>> = { 8: 2.5, 12: 6.5, 16: 8, 24: 12, 32: 12, 44: 16 };
const crossing = (W: number, L: number) => {
  const mm = 1e-3;
  const [out, H] = [-(W / 2 + 2) * mm, (height[W]! + 4) * mm];
  const guides = [
    { through: [-L * mm, out, -H / 2] as Vector, along: [0, 0, 1] as Vector, rolls: false },
    { through: [-2 * L * mm, 0, -H - 2 * mm] as Vector, along: [0, -1, 0] as Vector, rolls: false },
  ];
  const { spans } = filmPath([0, 0, mm], guides);
  return Math.max(...spans.map((s) => chordMismatch(s, coverWidth[W]! * mm))) * 100;
};
describe("the side crossing has the mismatch of an independent script", () => {
  test.each([
    [8, 0.5516, 0.2285],
    [12, 1.6415, 0.6936],
    [16, 3.2342, 1.396],
    [24, 7.5304, 3.4288],
    [32, 9.8088, 4.6966],
    [44, 17.582, 9.2269],
  ])("at %i mm: %f %% in 35 mm and %f %% in 55 mm", (W, short, long) => {
    expect(crossing(W, 35) / short).toBeCloseTo(1, 3);
    expect(crossing(W, 55) / long).toBeCloseTo(1, 3);
  });
});

const share = fc.double({ min: -1, max: 1, noNaN: true });
const span = fc.record({ length: fc.double({ min: 0.02, max: 0.1, noNaN: true }), fan: fc.tuple(share, share, share) });
/** Lengths at 2001 points, slope by sums: the same quantity by brute force. */
function byHand({ run, fan }: Span, b: number): number {
  const n = 2000;
  const y = Array.from({ length: n + 1 }, (_, i) => b * (i / n - 0.5));
  const l = y.map((v) => Math.hypot(run[0] + v * fan[0], run[1] + v * fan[1], run[2] + v * fan[2]));
  // Simpson's weights, so that the sums are integrals.
  const w = y.map((_, i) => (i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2));
  const slope = y.reduce((sum, v, i) => sum + w[i]! * v * l[i]!, 0) / y.reduce((sum, v, i) => sum + w[i]! * v * v, 0);
  const rest = l.map((v, i) => v - slope * y[i]!);
  return Math.max(...rest) - Math.min(...rest);
}
test("eight-point quadrature finds what 2001 fibres show, for any span as wide as long", () => {
  fc.assert(
    fc.property(span, fc.double({ min: 0.05, max: 1, noNaN: true }), ({ length, fan }, relative) => {
      const one: Span = { length, run: [length, 0, 0], fan: fan.map((v) => v) as unknown as Vector, twist: 0 };
      const b = relative * length;
      expect(Math.abs(chordMismatch(one, b) * length - byHand(one, b)) / length).toBeLessThan(2e-6);
    }),
    { seed: 21, numRuns: 100 },
  );
});
test("scaling width and length together changes nothing, and a wider film never has less", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.01, max: 0.1, noNaN: true }),
      fc.double({ min: 0.1, max: 1, noNaN: true }),
      fc.integer({ min: 1, max: 179 }),
      (L, relative, degrees) => {
        const m = chordMismatch(turned(L, degrees), relative * L);
        expect(chordMismatch(turned(3 * L, degrees), 3 * relative * L)).toBeCloseTo(m, 12);
        expect(chordMismatch(turned(L, degrees), 1.1 * relative * L)).toBeGreaterThanOrEqual(m);
        expect(m).toBeLessThanOrEqual(flatMismatch((degrees * Math.PI) / 180, relative * L, L) + 1e-12);
      },
    ),
    { seed: 22, numRuns: 200 },
  );
});
test("guides that fan out in one plane cost skew alone", () => {
  expect(chordMismatch({ length: 0.04, run: [0.04, 0, 0], fan: [0.4, 0, 0], twist: 0 }, 0.02)).toBeCloseTo(0, 14);
});

describe("in a scene", () => {
  const across = scene(sideCrossing(24), embossedTape(24));
  // Spans of (-48, 13, -5.35) and (-50, -13, -12) mm from their points: 50.0 and 53.0 mm, the shorter one worse. [derived]
  test("the worst span is named with its ends and its length", () => {
    const inputs = new Realiser(across, [mismatch]).run(asWritten).inputsOf(mismatch, across);
    expect(mismatch.where!(inputs)).toBe("span back edge to shoulder, 50 mm");
  });
  test("the flat film has more of it than its chords", () => {
    expect(nominal(across, flatFilm)).toBeGreaterThan(nominal(across, mismatch));
  });
  test("an overhead return has none", () => {
    expect(nominal(scene(overhead(24), embossedTape(24)), mismatch)).toBeCloseTo(0, 12);
  });
  test("a film opened along one seal has no span to judge", () => {
    const one = scene(oneSeal(), embossedTape(8));
    expect(mismatch.reads(one)).toBeUndefined();
    expect(checkMismatch.absent(one)).toContain("not peeled off whole");
  });
  test("a film wider than any tape is outside the range", () => expect(outside(mismatch, { b: 0.25 })).toEqual(["b"]));
});
