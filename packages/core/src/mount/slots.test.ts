import { describe, expect, test } from "vitest";
import { boxed, mm, unitWith, with12 } from "../clearance/clearance.fixture.ts";
import { embossedTape, nominal, scene, sideCrossing, withBodies, written } from "../scene.fixture.ts";
import { checkSlots, outside, slotsHold, slotsTaken, width } from "./slots.ts";

const mount = (pitch: number, allowance?: number, slots?: number) => ({
  mount: {
    "slot pitch": written("mount/pitch", "p", `${pitch} mm`),
    ...(allowance === undefined ? {} : { "side allowance": written("mount/allowance", "a", `${allowance} mm`) }),
    ...(slots === undefined ? {} : { slots: written("mount/slots", "n", `${slots}`, "") }),
  },
});
// The crossing: channel 12 + 0.45 mm about y = 6, shoulder of radius 2 at y = 14.2. By hand. [derived]
const bare = (more = mount(16, 0.3)) => with12(unitWith([], more));

describe("the width of a unit", () => {
  test("goes from the channel's near wall to the far side of the guide beside it", () => {
    expect(nominal(bare(), width) / mm).toBeCloseTo(16.2 + 0.225, 9);
  });
  test("grows with a body that stands out, and not with room that belongs to the machine", () => {
    const wall = boxed("wall", [0, -9, 30, 9], [-2.6, -0.4]);
    expect(nominal(with12(unitWith([wall], mount(16))), width) / mm).toBeCloseTo(16.2 + 2.6, 9);
    expect(
      nominal(with12(unitWith([], { ...mount(16), "keep out": [boxed("rail", [0, -9, 30, 9], [-50, 60])] })), width) /
        mm,
    ).toBeCloseTo(16.425, 9);
  });
});
describe("the slots it takes", () => {
  test("are as many whole pitches as hold it with its allowance on both sides", () => {
    expect(nominal(bare(), slotsTaken)).toBe(2);
    expect(nominal(bare(mount(17.02, 0.3)), slotsTaken)).toBe(2);
    expect(nominal(bare(mount(17.025, 0.3)), slotsTaken)).toBe(1);
    expect(nominal(bare(mount(17.03, 0.3)), slotsTaken)).toBe(1);
    expect(nominal(bare(mount(5)), slotsTaken)).toBe(4);
  });
});
describe("the check", () => {
  test("holds it against the slots the file asserts", () => {
    const one = scene(withBodies(), embossedTape(12));
    expect(checkSlots.absent(one)).toBeUndefined();
    // 16.2 mm to the shoulder's far side, the board at -4.6, 0.3 mm a side: 21.4 of 32 mm.
    expect(nominal(one, outside) / mm).toBeCloseTo(21.4, 9);
    expect(nominal(one, slotsHold) / mm).toBeCloseTo(32, 9);
  });
  test("holds exactly where the unit takes no more slots than asserted", () => {
    for (const n of [1, 2, 3])
      for (const pitch of [5, 8, 8.6, 16, 17, 17.1]) {
        const one = bare(mount(pitch, 0.3, n));
        expect(nominal(one, outside) <= nominal(one, slotsHold), `${n} of ${pitch}`).toBe(
          nominal(one, slotsTaken) <= n,
        );
      }
  });
  test("is not applicable where none are asserted, and says how many it takes", () => {
    expect(checkSlots.absent(bare())).toBe("no number of slots is asserted; it takes 2 (16.4 mm wide)");
    expect(checkSlots.absent(bare(mount(0)))).toContain("a number that can't be told");
  });
  test("is not applicable where nothing is said of the mount", () => {
    expect(checkSlots.absent(scene(sideCrossing(12), embossedTape(12)))).toBe(
      "the unit file does not say how it is mounted",
    );
  });
});
