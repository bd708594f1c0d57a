import { describe, expect, test } from "vitest";
import {
  embossedTape,
  heldByBend,
  heldByLeaf,
  nominal,
  outside,
  punchedTape,
  scene,
  written,
} from "../scene.fixture.ts";
import type { Unit } from "../unit/unit.ts";
import { bendAllowed, bendNeeded, bendPress, bendSlope, checkBend } from "./bend.ts";

const at = (text: string) => written(`u/${text}`, "s", text);
const withBend = (more: Partial<NonNullable<Unit["hold-down"]>>, tape = punchedTape()) => {
  const { "hold-down": _, ...unit } = heldByBend(8);
  return scene({ ...unit, "hold-down": { kind: "run-off bend", ...more } }, tape);
};
// 240 beam elements: validation/independent/hold.py. [derived]
test("40 N mm2 pushed 0.72 mm off at 12 mm press with 0.05 N", () => {
  expect(bendPress.value({ EI: 40e-6, g: 0.72 / 12, a: 12e-3 })).toBeCloseTo(0.05, 9);
});
test("a tail of 12 mm set to 10 /m pulls back with as much: 0.05 N", () => {
  expect(bendNeeded.value({ F_z: 0, EI: 40e-6, kappa: 10, a: 12e-3 })).toBeCloseTo(0.05, 9);
});
describe("in a scene", () => {
  test("one bend presses board over ten times as hard as plastic of a third of its thickness; nearer, it presses board too hard", () => {
    const made = { reach: at("12 mm"), push: at("1.2 mm") };
    const [board, plastic] = [withBend(made), withBend(made, embossedTape(8))];
    expect(nominal(board, bendPress)).toBeGreaterThan(nominal(board, bendNeeded));
    expect(nominal(board, bendPress)).toBeLessThan(nominal(board, bendAllowed));
    expect(nominal(board, bendPress)).toBeGreaterThan(10 * nominal(plastic, bendPress));
    const tight = withBend({ reach: at("6 mm"), push: at("1.2 mm") });
    expect(nominal(tight, bendPress)).toBeGreaterThan(nominal(tight, bendAllowed));
  });
  test("an arc that begins past the wheel gives reach and push by its radius", () => {
    const one = withBend({ from: at("18 mm"), to: at("28 mm"), radius: at("40 mm") });
    // The wheel stands at 14 mm: reach 14 mm, push 10^2/80 = 1.25 mm. [by hand]
    expect(nominal(one, bendSlope)).toBeCloseTo(1.25 / 14, 9);
  });
  test("a bend of which nothing is drawn, and another kind of hold-down, are not judged", () => {
    expect(checkBend.absent(withBend({}))).toBe("how far the bend pushes the tape, and where, is not given");
    expect(checkBend.absent(scene(heldByLeaf(12), embossedTape(12)))).toBe(
      "the tape is held by a leaf, which has a force of its own",
    );
  });
  test("a tape pushed to a slope of 0.4 is outside the range", () => {
    expect(outside(bendPress, { EI: 40e-6, g: 0.4, a: 0.012 })).toEqual(["g"]);
  });
});
