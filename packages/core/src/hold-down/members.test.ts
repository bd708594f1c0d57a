import { describe, expect, test } from "vitest";
import {
  embossedTape,
  heldByLeaf,
  heldByRib,
  nominal,
  oneSeal,
  scene,
  sideCrossing,
  withBends,
  written,
} from "../scene.fixture.ts";
import type { Unit } from "../unit/unit.ts";
import { bowSpanOf, naturalSpan, notHeldBy, overhangOf, spanOf } from "./members.ts";

const at = (text: string) => written(`u/${text}`, "s", text);
const held = (unit: Unit, more: Partial<NonNullable<Unit["hold-down"]>>) =>
  scene({ ...unit, "hold-down": { ...unit["hold-down"]!, ...more } }, embossedTape(unit.row));

describe("a check of the hold-down does not apply, and says why, where", () => {
  test.each([
    ["the unit has no hold-down over its sprocket", scene(sideCrossing(12), embossedTape(12))],
    ["the unit has no hold-down over its sprocket", scene(oneSeal(8), embossedTape(8))],
    ["the unit has no sprocket", scene({ ...withBends(16), "hold-down": { kind: "leaf" } }, embossedTape(16))],
    [
      "the tape is held by a rib, which presses with whatever it takes once the tape touches it",
      scene(heldByRib(24), embossedTape(24)),
    ],
  ])("%s", (why, one) => expect(notHeldBy(one, "leaf")).toBe(why));
});
describe("the span", () => {
  test("is the file's, else the tape is flattened as far as its bow has room, and bows over the leaf's window", () => {
    const leaf = heldByLeaf(12);
    expect(nominal(held(leaf, { span: at("20 mm") }), spanOf(held(leaf, { span: at("20 mm") }))) * 1e3).toBeCloseTo(
      20,
      9,
    );
    const windowed = scene(leaf, embossedTape(12));
    // A0 + 4 mm of a pocket of 6.4 mm. [by hand]
    expect(nominal(windowed, bowSpanOf(windowed)) * 1e3).toBeCloseTo(10.4, 9);
    expect(spanOf(windowed)).toBe(naturalSpan);
    const { opening: _, ...blind } = leaf["hold-down"]!;
    expect(bowSpanOf(scene({ ...leaf, "hold-down": blind }, embossedTape(12)))).toBe(naturalSpan);
  });
  // Rest bow kappa L^2/108 of 0.35 mm at 7.2 /m: L = 72.5 mm; no room counts as the running clearance. [derived]
  test("of a tape under lips is as long as its rest bow has room", () => {
    expect(naturalSpan.value({ s_l: 0.35e-3, c_r: 0.05e-3, kappa: 7.2 }) * 1e3).toBeCloseTo(72.457, 3);
    expect(naturalSpan.value({ s_l: -1e-3, c_r: 0.05e-3, kappa: 7.2 }) * 1e3).toBeCloseTo(27.386, 3);
  });
});
describe("the tail past the last press line", () => {
  const far = (one: ReturnType<typeof held>) => nominal(one, overhangOf(one)) * 1e3;
  test("is nothing where the leaf presses over the wheel, and the way to the wheel where it presses elsewhere", () => {
    expect(far(held(heldByLeaf(12), {}))).toBe(0);
    // The wheel stands 14 mm from the pick. [by hand]
    expect(far(held(heldByLeaf(12), { at: at("8 mm") }))).toBeCloseTo(6, 9);
    expect(far(held(heldByLeaf(12), { at: at("8 mm"), overhang: at("3 mm") }))).toBeCloseTo(3, 9);
  });
  test("of a rib counts from its end, and is nothing under it", () => {
    expect(far(held(heldByRib(24), { from: at("8 mm"), to: at("20 mm") }))).toBe(0);
    expect(far(held(heldByRib(24), { from: at("2 mm"), to: at("10 mm") }))).toBeCloseTo(4, 9);
    expect(far(held(heldByRib(24), { from: at("16 mm"), to: at("20 mm") }))).toBeCloseTo(2, 9);
  });
});
