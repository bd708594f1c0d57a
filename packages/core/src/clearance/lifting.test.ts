import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { between } from "../route/route.fixture.ts";
import { boxed, mm, nearestTo, round, says, turning, unitWith, with12 } from "./clearance.fixture.ts";
import { liftingClear } from "./lifting.ts";

const roller = round("roller", [0, 6, 6], [0, 12], { part: "nip", lifts: "true" });
const lower = round("lower", [0, -5, 5], [0, 12], { part: "nip" });
const bridge = boxed("bridge", [-14, 12.5, 8, 16], [0, 12], { part: "nip" });
const post = boxed("post", [20, -5, 25, 20], [0, 12]);
const lifts = turning(3, -14, 2);
const gap = (name: string, by = 3) =>
  nearestTo(liftingClear, with12(unitWith([roller, lower, bridge, post], turning(by, -14, 2))), name).gap / mm;

// The roller's middle turns about (-14, 2), 14 aside and 4 up: it rises by 14 sin a - 4 (1 - cos a). By hand. [derived]
describe("a roller that lifts", () => {
  const a = (3 * Math.PI) / 180;
  const rise = 14 * Math.sin(a) - 4 * (1 - Math.cos(a));
  test("meets the bridge 0.5 mm over it after 3 degrees: 0.73 mm up", () => {
    expect(rise).toBeCloseTo(0.727, 3);
    expect(gap("bridge")).toBeCloseTo(0.5 - rise, 9);
  });
  test("has its least room at the end of the turn, and says by how much it is turned", () => {
    const one = with12(unitWith([roller, lower, bridge, post], lifts));
    expect(nearestTo(liftingClear, one, "bridge").spot.turned).toBeCloseTo(a, 9);
    expect(nearestTo(liftingClear, one, "post").spot.turned).toBeCloseTo(0, 9);
  });
  test("sinks where the angle is negative: then the bridge is nearest at rest", () =>
    expect(gap("bridge", -3)).toBeCloseTo(0.5, 9));
  test("never has more room than at rest, nor less for a smaller turn", () => {
    let before = Number.POSITIVE_INFINITY;
    for (const by of [0, 0.5, 1, 2, 3, 5, 9]) {
      const now = Math.min(gap("bridge", by), gap("post", by));
      expect(now).toBeLessThanOrEqual(before + 1e-9);
      before = now;
    }
  });
});

test("moving what stays by so much never changes the gap by more", () => {
  const at = (x: number, z: number, y: number): number =>
    nearestTo(liftingClear, with12(unitWith([roller, boxed("stay", [x, z, x + 6, z + 4], [y, y + 3])], lifts)), "stay")
      .gap;
  fc.assert(
    fc.property(
      between(-20, 20),
      between(-12, 24),
      between(-4, 14),
      between(0, 6.28),
      between(0.01, 3),
      between(-1, 1),
      (x, z, y, way, far, rise) => {
        const change = at(x + far * Math.cos(way), z + far * Math.sin(way), y + rise) - at(x, z, y);
        expect(Math.abs(change)).toBeLessThanOrEqual((Math.hypot(far, rise) + 1e-3) * mm);
      },
    ),
    { seed: 3251, numRuns: 100 },
  );
});

describe("the pairs", () => {
  test("are what lifts against what stays, also of its own part, but not what it lies on", () => {
    expect(says(liftingClear, with12(unitWith([roller, lower, bridge, post], lifts)))).toEqual([
      "roller / bridge",
      "roller / post",
    ]);
  });
  test("hold it against what it lies on where that is another part: such a contact must be said", () => {
    const other = { ...lower, part: "frame" };
    expect(says(liftingClear, with12(unitWith([roller, other], lifts)))).toEqual(["roller / lower"]);
    expect(
      says(liftingClear, with12(unitWith([roller, other], { ...lifts, "meant to touch": ["roller / frame"] }))),
    ).toEqual([]);
  });
  test("leave out what lifts together", () => {
    const both = { ...bridge, lifts: "true" as const };
    expect(says(liftingClear, with12(unitWith([roller, both, post], lifts)))).toEqual([
      "roller / post",
      "bridge / post",
    ]);
  });
  test("are none where nothing lifts, or nobody says how, with the reason", () => {
    expect(liftingClear.check.absent(with12(unitWith([lower, post], lifts)))).toBe("no body lifts with the nip");
    expect(liftingClear.check.absent(with12(unitWith([roller, post])))).toBe(
      "the unit file does not say how the nip lifts",
    );
  });
});
