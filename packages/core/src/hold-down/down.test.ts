import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import { embossedTape, heldByLeaf, nominal, oneSeal, outside, scene, tapeWith, written } from "../scene.fixture.ts";
import { checkDown, flattenForce, neededForce, peelLift, spanWeight, toothLift } from "./down.ts";

const degrees = Math.PI / 180;
// 240 beam elements with natural curvature, their middle pressed to nothing: validation/independent/hold.py. [derived]
test("20 N mm2 set to 30 mm over 40 mm take 0.1 N to flatten", () => {
  expect(flattenForce.value({ EI: 2e-5, kappa: 1 / 0.03, L: 0.04 })).toBeCloseTo(0.1, 9);
});
describe("a leaning flank lifts the tape", () => {
  // Tangent of the angle less the friction angle, by hand. [derived]
  test("by the wedge's law: 0.5 N on 22 degrees at 0.1871 lift 0.101 N", () => {
    expect(toothLift.value({ F_h: 0.5, phi: 22 * degrees, mu: 0.1871 })).toBeCloseTo(
      0.5 * Math.tan(22 * degrees - Math.atan(0.1871)),
      12,
    );
  });
  test("not at all where friction holds it or the flank stands upright", () => {
    expect(toothLift.value({ F_h: 0.5, phi: 10 * degrees, mu: 0.2 })).toBe(0);
    expect(toothLift.value({ F_h: 0.5, phi: 0, mu: 0.2 })).toBe(0);
  });
});
test("what lifts adds up, what weighs is taken off, and a heavy tape wants no force", () => {
  expect(neededForce.value({ F_k: 0.3, F_z: 0.1, F_p: 0.05, G: 0.01 })).toBeCloseTo(0.44, 12);
  expect(neededForce.value({ F_k: 0.01, F_z: 0, F_p: 0, G: 0.02 })).toBe(0);
});
test("a stiffer, a more curled tape, a shorter span: never less force", () => {
  const part = fc.double({ min: 1, max: 3, noNaN: true });
  fc.assert(
    fc.property(part, part, part, (a, b, c) => {
      const F = flattenForce.value({ EI: 4e-5, kappa: 8, L: 0.02 });
      expect(flattenForce.value({ EI: 4e-5 * a, kappa: 8 * b, L: 0.02 / c })).toBeCloseTo(F * a * b * c, 9);
    }),
    { seed: 441, numRuns: 50 },
  );
});

describe("in a scene", () => {
  const one = scene(heldByLeaf(12), embossedTape(12));
  test("0.9 N hold 12 mm tape flat, a stiff curled one too over the span it takes, but not over 20 mm", () => {
    const gap = (s: typeof one) => nominal(s, chosen(checkDown.value, s)!) - nominal(s, neededForce);
    expect(gap(one)).toBeGreaterThan(0.2);
    const stiff = tapeWith(12, {
      stiffness: written("t/EI", "EI", "200 N*mm^2 measured", "N*mm^2"),
      "set radius": written("t/R_s", "R_s", "40 mm measured"),
    });
    expect(gap(scene(heldByLeaf(12), stiff))).toBeGreaterThan(0);
    const unit = heldByLeaf(12);
    const short = { ...unit, "hold-down": { ...unit["hold-down"]!, span: written("u/L", "L", "20 mm") } };
    expect(gap(scene(short, stiff))).toBeLessThan(0);
  });
  test("the sentence names the force, what it takes and what the reel's set takes of it", () => {
    expect(checkDown.because((q) => (q.kind === "model" ? q.id : q.address), one)).toBe(
      "The leaf presses with hold.force; it takes hold.needed to hold the tape flat, hold.flatten of it against the set that the reel gave it.",
    );
  });
  test("only a share of the film's lift reaches the leaf", () => {
    expect(nominal(one, peelLift)).toBeLessThan(0.2);
    expect(nominal(one, peelLift)).toBeGreaterThan(0);
    const unled = scene({ ...heldByLeaf(12), film: { opens: "middle cut" } }, embossedTape(12));
    expect(neededForce.reads(unled)!.F_p).toMatchObject({ address: "bound/no force" });
    expect(nominal(unled, neededForce)).toBeGreaterThan(0);
  });
  test("a span of tape weighs a fiftieth of what it takes", () => {
    expect(nominal(one, spanWeight)).toBeLessThan(0.03 * nominal(one, neededForce));
    expect(nominal(one, spanWeight)).toBeGreaterThan(0.005 * nominal(one, neededForce));
  });
  test("without a hold-down, or without its force, the check does not apply", () => {
    expect(checkDown.absent(scene(oneSeal(8), embossedTape(8)))).toBe("the unit has no hold-down over its sprocket");
    const unit = heldByLeaf(12);
    const { preload: _, ...weak } = unit["hold-down"]!;
    expect(checkDown.absent(scene({ ...unit, "hold-down": weak }, embossedTape(12)))).toBe(
      "the hold-down's force on the tape is not given",
    );
  });
  test("a flank of 45 degrees is outside the range", () => {
    expect(outside(toothLift, { F_h: 0.5, phi: 45 * degrees, mu: 0.2 })).toEqual(["phi"]);
  });
});
