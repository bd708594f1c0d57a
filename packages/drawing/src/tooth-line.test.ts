import { toothOutline } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { fromHeight, toothLine } from "./tooth-line.ts";

const form = { halfWidth: 0.55e-3, pitchRadius: 15.28e-3, tipRadius: 16.23e-3 };

test("a straight flank goes through half its length at the pitch line and leans by its angle", () => {
  const line = fromHeight(toothLine(toothOutline({ ...form, shape: "straight", flank: 0.38 })), form.pitchRadius);
  expect(line[0]![1]).toBeCloseTo(form.halfWidth, 9);
  const tip = line.find(([rho]) => rho > form.tipRadius - 1e-9)!;
  // Straight line, by hand: w_p - (r_t - r_p) tan(phi). [derived]
  expect(tip[1]).toBeCloseTo(0.55e-3 - 0.95e-3 * Math.tan(0.38), 9);
});
test("it ends in the middle of the tip", () => {
  for (const shape of ["straight", "involute"] as const)
    for (const rounding of [0, 0.1e-3]) {
      const line = toothLine(toothOutline({ ...form, shape, flank: 0.3, rounding }));
      expect(line.at(-1)![0]).toBeCloseTo(form.tipRadius, 8);
      expect(line.at(-1)![1]).toBeCloseTo(0, 9);
    }
});
describe("chords lie within 0.1 um of the outline that core computes", () => {
  test.each(["straight", "involute"] as const)("%s", (shape) => {
    const outline = toothOutline({ ...form, shape, flank: 0.3 });
    for (const [rho, half] of fromHeight(toothLine(outline), form.pitchRadius).slice(0, -1))
      expect(Math.abs(half - outline.halfWidthAt(Math.min(rho, outline.tip)))).toBeLessThan(1e-7);
  });
});
test("a rounded corner takes nothing off the flank below it", () => {
  const sharp = toothLine(toothOutline({ ...form, shape: "straight", flank: 0.3 }));
  const round = toothLine(toothOutline({ ...form, shape: "straight", flank: 0.3, rounding: 0.1e-3 }));
  expect(round[0]).toEqual(sharp[0]);
  expect(Math.max(...round.map(([rho]) => rho))).toBeCloseTo(form.tipRadius, 9);
});
test("from above the tip on there is no flank", () => {
  expect(fromHeight(toothLine(toothOutline({ ...form, shape: "straight" })), 20e-3)).toEqual([]);
});
