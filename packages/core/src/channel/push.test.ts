import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import {
  embossedTape,
  nominal,
  oneSeal,
  outside,
  overhead,
  punchedTape,
  scene,
  sideCrossing,
  written,
} from "../scene.fixture.ts";
import { buckling, checkPush, ends, exitFriction, push, pushShare } from "./push.ts";

// Euler; unpublished working notes; beam elements lose their stiffness at 0.84385 N: validation/independent/hold.py. [derived]
describe("34.2 N mm2 over 20 mm buckle at", () => {
  test.each([
    ["pinned", 0.84385],
    ["clamped", 3.3754],
    ["clamped and free", 0.21096],
  ] as const)("ends %s: %f N", (how, P) => {
    expect(buckling.value({ pi: Math.PI, EI: 34.2e-6, L: 0.02 }) * ends[how]).toBeCloseTo(P, 4);
  });
  // 20.19 EI/L^2, Euler. [memory]
  test("one end clamped: 1.726 N", () => {
    expect(buckling.value({ pi: Math.PI, EI: 34.2e-6, L: 0.02 }) * ends["one clamped"]).toBeCloseTo(1.7263, 3);
  });
});
test("twice the unguided length is a quarter of the load", () => {
  const at = (L: number) => buckling.value({ pi: Math.PI, EI: 40e-6, L });
  expect(at(0.02) / at(0.01)).toBeCloseTo(0.25, 12);
});
describe("in a scene", () => {
  const withExit = (exit: Partial<Record<"unguided" | "force", string>>) => {
    const unit = sideCrossing(8);
    const group = Object.fromEntries(
      Object.entries(exit).map(([name, text]) => [
        name,
        written(`u/${name}`, name, text, name === "force" ? "N" : "mm"),
      ]),
    );
    return scene({ ...unit, tape: { ...unit.tape, exit: group } }, embossedTape(8));
  };
  test("a cutter's push is added, and a long unguided piece buckles under it", () => {
    const one = withExit({ force: "0.4 N", unguided: "30 mm" });
    expect(nominal(one, push)).toBeCloseTo(0.4 + nominal(one, exitFriction), 12);
    expect(nominal(one, pushShare)).toBeGreaterThan(nominal(one, chosen(checkPush.atMost, one)!));
    expect(nominal(withExit({ unguided: "10 mm" }), pushShare)).toBeLessThan(0.3);
  });
  test("a bend behind the wheel costs more than a straight channel of the same length", () => {
    const bend = scene(overhead(24), embossedTape(24));
    const route = overhead(24).tape.route.filter((p) => !p.arc);
    const straight = scene({ ...overhead(24), tape: { ...overhead(24).tape, route } }, embossedTape(24));
    expect(nominal(bend, exitFriction)).toBeGreaterThan(nominal(straight, exitFriction));
  });
  test("board buckles later than plastic", () => {
    const board = scene(sideCrossing(8), punchedTape());
    const plastic = scene(sideCrossing(8), embossedTape(8));
    expect(nominal(board, buckling)).toBeGreaterThan(10 * nominal(plastic, buckling));
  });
  test("without a wheel nothing pushes, which is said", () => {
    const none = scene(oneSeal(8), embossedTape(8));
    expect(checkPush.absent(none)).toBe("the unit has no sprocket");
    for (const m of [push, pushShare, exitFriction]) expect(m.reads(none)).toBeUndefined();
  });
  test("half a metre without a guide is outside the range", () => {
    expect(outside(buckling, { pi: Math.PI, EI: 40e-6, L: 0.5 })).toEqual(["L"]);
  });
});
