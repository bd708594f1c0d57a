import fc from "fast-check";
import { expect, test } from "vitest";
import { promise, roundedDown } from "./promise.ts";

const clean = (m: number, run: number) => Array.from({ length: m }, () => ({ failed: 0, run }));
// Review of the working notes: 24 000 and 6 600 must be said as 20 000 and 5 000. [derived]
test("none in 20 000 on four units: 1 in 20 000 with the model, 1 in 5 000 were all alike", () => {
  const got = promise({ units: clean(4, 5000), reels: 4, model: { median: 1e-5 } });
  expect(1 / got.withModel!.rate).toBeCloseTo(24_226, -2);
  expect([got.withModel!.oneIn, got.alike.oneIn]).toEqual([20_000, 5000]);
  expect(got.unlike.oneIn).toBeLessThanOrEqual(got.alike.oneIn);
  expect(got.badUnits).toBeCloseTo(1 - 0.05 ** 0.25, 12);
  expect(got.sentence).toBe(
    `fewer than 1 in 20 000 for a unit and reel drawn like those tested, 95 %, from 0 failures in 20 000 cycles on 4 units and 4 reels and the model; by test alone 1 in ${got.unlike.oneIn}, and 1 in 5 000 were all units alike`.replace(
      /in (\d)(\d{3}),/,
      "in $1 $2,",
    ),
  );
});
test("rounding goes down to 1, 2 or 5 and never up", () => {
  expect([6600, 24_000, 5000, 4999, 1, 9.99, 0.3].map(roundedDown)).toEqual([5000, 20_000, 5000, 2000, 1, 5, 0.2]);
  expect(roundedDown(1 / (1 / 20_000))).toBe(20_000);
  fc.assert(
    fc.property(fc.double({ min: 1e-3, max: 1e9, noNaN: true }), (x) => {
      const down = roundedDown(x);
      expect(down).toBeLessThanOrEqual(x * (1 + 1e-9));
      expect(down * 2.5).toBeGreaterThanOrEqual(x * (1 - 1e-9));
    }),
    { seed: 11 },
  );
});
test("one unit on one reel is warned of, with its whole sentence", () => {
  const got = promise({ units: [{ failed: 1, run: 20_000 }], reels: 1 });
  expect(got.warnings.slice(0, 2)).toEqual([
    "1 unit says little about others: test at least 3",
    "1 reel says little about others: run at least 3",
  ]);
  expect(got.badUnits).toBeUndefined();
  expect(got.sentence).toContain("from 1 failure in 20 000 cycles on 1 unit and 1 reel");
});
test("failures in one unit, one unit with most of the cycles and strong differences are warned of", () => {
  const sits = promise({ units: [{ failed: 9, run: 5000 }, ...clean(3, 5000)], reels: 3 }).warnings;
  expect(sits.some((w) => w.startsWith("failures sit in unit 1"))).toBe(true);
  expect(sits.some((w) => w.startsWith("units differ so much"))).toBe(true);
  const most = promise({ units: [{ failed: 0, run: 9000 }, ...clean(3, 1000)], reels: 3 }).warnings;
  expect(most).toContain("one unit ran 75 % of the cycles: the bound is mostly about that unit");
});
test("ten units alike that failed here and there are not warned of", () => {
  expect(
    promise({ units: Array.from({ length: 10 }, (_, i) => ({ failed: i % 2, run: 1000 })), reels: 5, logSd: 0.3 })
      .warnings,
  ).toEqual([]);
});
test("a worse count never promises more, and more cycles never promise less", () => {
  const of = (failed: number, run: number) =>
    promise({ units: [{ failed, run }, ...clean(2, run)], reels: 3, model: { median: 1e-4 } });
  let last = of(0, 3000);
  for (const k of [1, 2, 5]) {
    const next = of(k, 3000);
    for (const which of ["alike", "unlike", "withModel"] as const)
      expect(next[which]!.oneIn).toBeLessThanOrEqual(last[which]!.oneIn);
    last = next;
  }
  expect(of(1, 30_000).unlike.rate).toBeLessThan(of(1, 3000).unlike.rate);
});
test("nothing run and no reel are refused", () => {
  expect(() => promise({ units: [], reels: 1 })).toThrow("no unit");
  expect(() => promise({ units: clean(1, 10), reels: 0 })).toThrow("whole number above 0");
  expect(() => roundedDown(Number.NaN)).toThrow(RangeError);
});
