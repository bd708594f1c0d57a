import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, punchedTape, scene, sideCrossing, tapeWith, written } from "../scene.fixture.ts";
import { boardCurvature, keptShare, measuredCurvature, plasticCurvature, setCurvature, setShare } from "./set.ts";

// Boltzmann superposition of a power law: unpublished working notes, and by quadrature and step by step in validation/independent/hold.py. [derived]
describe("of the hub's curvature is left", () => {
  test.each([
    [0.3843174269, 0.03, 1e7, 1],
    [0.130577274, 0.03, 1e7, 1e5],
    [0.4279648706, 0.06, 1e7, 1e3],
    [0.03668118, 0.05, 1e6, 1e6],
    [0.00987942, 0.08, 1e6, 1e7],
  ])("%f at n %f, wound for %d s, free for %d s", (q, n, t, s) => expect(setShare({ n, t, s })).toBeCloseTo(q, 7));
});
describe("a strip", () => {
  const n = fc.double({ min: 0.005, max: 0.2, noNaN: true });
  const times = fc.double({ min: -8, max: 4, noNaN: true });
  test("keeps a share between 0 and 1, and less the longer it is free", () => {
    fc.assert(
      fc.property(n, times, (n_, p) => {
        const at = (x: number) => setShare({ n: n_, t: 1, s: x });
        const q = at(10 ** p);
        expect(q).toBeGreaterThan(0);
        expect(q).toBeLessThan(1);
        expect(at(2 * 10 ** p)).toBeLessThan(q);
      }),
      { seed: 411, numRuns: 200 },
    );
  });
  test("that comes off just now keeps all of it, and the law has no step where both times are alike", () => {
    expect(setShare({ n: 0.05, t: 1e6, s: 0 })).toBe(1);
    expect(setShare({ n: 0.05, t: 1, s: 1 - 1e-9 })).toBeCloseTo(setShare({ n: 0.05, t: 1, s: 1 + 1e-9 }), 9);
  });
  test("keeps 1 - (s/t)^n to within 0.005 while it is free for a hundredth of its time on the reel", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.06, noNaN: true }),
        fc.double({ min: -8, max: -2, noNaN: true }),
        (n_, p) => {
          const x = 10 ** p;
          expect(Math.abs(setShare({ n: n_, t: 1, s: x }) - (1 - x ** n_))).toBeLessThan(0.005);
        },
      ),
      { seed: 412, numRuns: 100 },
    );
  });
  test("without time on a reel, or with an exponent of 1, is refused", () => {
    expect(() => setShare({ n: 0.05, t: 0, s: 1 })).toThrow("wound for some time");
    expect(() => setShare({ n: 1, t: 1, s: 1 })).toThrow("creep exponent is 1");
  });
});

describe("in a scene", () => {
  test("8 mm tape comes off a small hub with more curvature than 12 mm tape off a large one", () => {
    const at = (W: number) => {
      const one = scene(sideCrossing(W), embossedTape(W));
      return nominal(one, setCurvature(one));
    };
    expect(at(8)).toBeGreaterThan(1.5 * at(12));
  });
  test("a hub of 100 mm and a share of 0.36 make 7.2 /m", () => {
    expect(plasticCurvature.value({ q_s: 0.36, N: 0.1 })).toBeCloseTo(7.2, 12);
  });
  test("a measured radius comes first, for plastic and for board", () => {
    const setRadius = written("t/R_s", "R_s", "90 mm measured");
    for (const kind of ["embossed", "punched"] as const) {
      const one = scene(sideCrossing(8), tapeWith(8, { "set radius": setRadius }, kind));
      expect(setCurvature(one)).toBe(measuredCurvature);
      expect(nominal(one, setCurvature(one))).toBeCloseTo(1 / 0.09, 9);
      for (const m of [plasticCurvature, boardCurvature, keptShare]) expect(m.reads(one)).toBeUndefined();
    }
  });
  test("board does not follow the law of plastic", () => {
    const board = scene(sideCrossing(8), punchedTape());
    expect(setCurvature(board)).toBe(boardCurvature);
    expect(keptShare.reads(board)).toBeUndefined();
  });
});
