import fc from "fast-check";
import { expect, test } from "vitest";
import { greatestChange, type Lanes, laneAt, laneNames, Trace } from "./lanes.ts";

/** Lanes of t and tape alone, the others 0. */
const lanesOf = (points: readonly (readonly [t: number, v: number])[]): Lanes => {
  const trace = new Trace();
  for (const [t, v] of points) {
    const lanes = trace.next();
    lanes[laneNames.indexOf("t")]![trace.length - 1] = t;
    lanes[laneNames.indexOf("tapeSpeed")]![trace.length - 1] = v;
  }
  return trace.lanes();
};

test("a trace of 5000 steps keeps every one of them", () => {
  const lanes = lanesOf(Array.from({ length: 5000 }, (_, i) => [i * 1e-4, i * i]));
  expect(lanes.t).toHaveLength(5000);
  expect([lanes.tapeSpeed[511], lanes.tapeSpeed[512], lanes.tapeSpeed[4999]]).toEqual([511 ** 2, 512 ** 2, 4999 ** 2]);
});
test("between steps a lane is a straight line, and beyond its ends it stays", () => {
  const lanes = lanesOf([
    [0, 1],
    [1, 3],
    [1, 5],
    [2, 7],
  ]);
  expect([-1, 0, 0.5, 1, 1.5, 2, 9].map((t) => laneAt(lanes, "tapeSpeed", t))).toEqual([1, 1, 2, 5, 6, 7, 7]);
});
// 2 m/s² for 3 ms, then rest: 2 mm/s a millisecond. [derived]
test("a speed that climbs by 2 mm/s in a millisecond changes by no more than that", () => {
  const lanes = lanesOf([
    [0, 0],
    [1e-3, 0],
    [4e-3, 6e-3],
    [9e-3, 6e-3],
  ]);
  const { change, t } = greatestChange(lanes, "tapeSpeed", 1e-3);
  expect(change).toBeCloseTo(2e-3, 12);
  expect(t).toBeGreaterThanOrEqual(1e-3 - 1e-12);
});
test("an impact counts whole however short its steps are", () => {
  for (const width of [1e-4, 1e-6, 1e-9]) {
    const lanes = lanesOf([
      [0, 0],
      [5e-3, 0],
      [5e-3 + width, 0.04],
      [9e-3, 0.04],
    ]);
    expect(greatestChange(lanes, "tapeSpeed", 1e-3).change).toBeCloseTo(0.04, 12);
  }
});
test("no pair of times a millisecond apart differs by more than the greatest change", () => {
  const steps = fc.array(
    fc.tuple(fc.double({ min: 1e-6, max: 8e-4, noNaN: true }), fc.double({ min: -1, max: 1, noNaN: true })),
    {
      minLength: 4,
      maxLength: 30,
    },
  );
  fc.assert(
    fc.property(steps, fc.double({ min: 0, max: 1, noNaN: true }), (list, share) => {
      let t = 0;
      const lanes = lanesOf(
        list.map(([dt, v]) => {
          t += dt;
          return [t, v];
        }),
      );
      const begin = lanes.t[0]! + share * (t - 1e-3 - lanes.t[0]!);
      fc.pre(t - lanes.t[0]! > 1e-3);
      const here = Math.abs(laneAt(lanes, "tapeSpeed", begin + 1e-3) - laneAt(lanes, "tapeSpeed", begin));
      expect(here).toBeLessThanOrEqual(greatestChange(lanes, "tapeSpeed", 1e-3).change + 1e-9);
    }),
    { seed: 31, numRuns: 300 },
  );
});
