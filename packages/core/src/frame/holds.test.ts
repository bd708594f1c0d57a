import { describe, expect, test } from "vitest";
import { embossedTape, heldByLeaf, nominal, oneSeal, scene, sideCrossing, written } from "../scene.fixture.ts";
import type { Unit } from "../unit/unit.ts";
import { checkHolds, clampLeft, leastClamp } from "./holds.ts";

const joint = (more: Partial<NonNullable<Unit["joints"]>[number]> = {}) => ({
  name: "plate",
  screws: written("u/z", "z", "4", ""),
  size: "M3",
  spacing: written("u/s", "s", "12 mm"),
  arm: written("u/a", "a", "9 mm"),
  ...more,
});
const withJoints = (...joints: NonNullable<Unit["joints"]>) => scene({ ...heldByLeaf(12), joints }, embossedTape(12));

// 200 N by 1000^-0.05 is 141.6 N; 8 N on four screws is 2 N, 8 by 9/12 on two of them 3 N: by hand. [derived]
test("four M3 that began with 200 N clamp with 136.6 N more than a nip of 8 N asks after 1000 h", () => {
  const one = { name: "plate", size: "M3", z: 4, s: 12e-3, a: 9e-3 };
  const loads = { F_3: 200, n: 0.05, r: 1000, N: 8 };
  expect(leastClamp({ joints: [one], ...loads }).left).toBeCloseTo(200 * 1000 ** -0.05 - 5, 12);
  // A screw of 2 mm pulls with four ninths.
  const weak = leastClamp({ joints: [one, { name: "cover", size: "M2", z: 1 }], ...loads });
  expect(weak.name).toBe("cover");
  expect(weak.left).toBeCloseTo((200 * 1000 ** -0.05 * 4) / 9 - 8, 12);
});
test("a joint without screws has no clamp to give", () => {
  const loads = { F_3: 200, n: 0.05, r: 1000, N: 8 };
  expect(() => leastClamp({ joints: [{ name: "plate", size: "M3", z: 0 }], ...loads })).toThrow('"plate" has 0 screws');
});
describe("in a scene", () => {
  test("a joint's own arm comes first, else half the nip's shaft", () => {
    const { arm: _, ...bare } = joint();
    const short = withJoints(joint({ arm: written("u/a0", "a", "0 mm") }));
    expect(nominal(withJoints(bare), clampLeft)).toBeLessThan(nominal(short, clampLeft));
    expect(nominal(withJoints(joint()), clampLeft)).toBeLessThan(nominal(short, clampLeft));
  });
  test("the worst joint is named, and one that carries nothing is not asked", () => {
    const small = joint({ name: "small", size: "M2", screws: written("u/z1", "z", "1", "") });
    const both = withJoints(joint(), small);
    const only = withJoints(joint(), { ...small, carries: "nothing" });
    expect(nominal(both, clampLeft)).toBeLessThan(nominal(only, clampLeft));
  });
  test("what is missing is said: joints, screws' size, a nip", () => {
    expect(checkHolds.absent(scene(sideCrossing(12), embossedTape(12)))).toBe(
      "no joint of the frame has screws that bear the nip",
    );
    const { size: _, ...unsized } = joint();
    expect(checkHolds.absent(withJoints(unsized))).toBe('the size of the screws of "plate" is not given');
    expect(checkHolds.absent(withJoints(joint({ size: "M7" })))).toMatch(/^"M7" of "plate" is no screw we know: M1, /);
    expect(checkHolds.absent(scene(oneSeal(8), embossedTape(8)))).toContain("nip's preload is not given");
  });
  test("it counts as life and colours no cell", () => expect(checkHolds.severity).toBe("L"));
});
