import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { between } from "../route/route.fixture.ts";
import { punchedTape, tapeWith, written } from "../scene.fixture.ts";
import { bentUnitWith, boxed, mm, nearestTo, round, says, unitWith, with12, with24 } from "./clearance.fixture.ts";
import { tapeClear } from "./tape.ts";

const given = (letter: string, text: string) => ({
  [letter]: written(`own/${letter}`, letter, text, "mm", {}, "reel"),
});
/** 12.1 mm wide, 0.3 mm thick, one film of 0.06 mm on it. */
const tape = tapeWith(12, { ...given("W", "12.1 mm"), ...given("T", "0.3 mm"), ...given("T1", "0.06 mm") });
type Box = readonly [number, number, number, number];
const gap = (box: Box, y: readonly [number, number]): number =>
  nearestTo(tapeClear, with12(unitWith([boxed("post", box, y)]), tape), "post").gap / mm;

// A level route; the flange fills z = 0 to 0.36 mm, y = 0 to 12.1 mm. By hand. [derived]
describe("the tape on a level route", () => {
  test("is as far under a bar as its film is", () => expect(gap([-50, 1.5, -40, 9], [0, 12])).toBeCloseTo(1.14, 9));
  test("is as far over a post as its underside is", () =>
    expect(gap([-50, -9, -40, -0.8], [0, 12])).toBeCloseTo(0.8, 9));
  test("is as far beside a wall as its own edge, whatever width the unit is built for", () => {
    expect(gap([-50, -9, 30, 9], [12.5, 14])).toBeCloseTo(0.4, 9);
    expect(gap([-50, -9, 30, 9], [-3, -0.4])).toBeCloseTo(0.4, 9);
  });
  test("overlaps a post by the shorter way over its faces, or past its edge", () => {
    expect(gap([-50, -9, -40, 0.1], [2, 12])).toBeCloseTo(-0.1, 9);
    expect(gap([-50, -9, -40, 9], [12.05, 14])).toBeCloseTo(-0.05, 9);
  });
});
test("punched tape counts with both its films", () => {
  const one = with12(unitWith([boxed("bar", [-50, 2, -40, 9], [0, 8])]), punchedTape());
  const T1 = nearestTo(
    tapeClear,
    with12(unitWith([boxed("bar", [-50, 2, -40, 9], [0, 8])]), tapeWith(8, {}, "punched")),
    "bar",
  );
  expect(nearestTo(tapeClear, one, "bar").gap).toBe(T1.gap);
  expect(T1.gap / mm).toBeLessThan(2 - 0.6 - 2 * 0.03);
});
test("round a bend the tape is as far from a drum about its centre as the radius says", () => {
  const one = with24(bentUnitWith([round("drum", [20, -60, 58.5], [0, 24])]), tapeWith(24, given("T", "0.35 mm")));
  expect(nearestTo(tapeClear, one, "drum").gap / mm).toBeCloseTo(1.5, 9);
  expect(nearestTo(tapeClear, one, "drum").spot.s! / mm).toBeGreaterThanOrEqual(20 - 1e-9);
});
test("a contact that is meant is no pair; every other body and keep-out is one", () => {
  const unit = unitWith([boxed("wheel", [0, -9, 1, 1], [0, 2]), boxed("post", [0, -9, 1, -3], [0, 12])], {
    "keep out": [boxed("head", [0, 5, 1, 9], [0, 12])],
    "meant to touch": ["tape / wheel", "tape pocket / post"],
  });
  expect(says(tapeClear, with12(unit))).toEqual(["tape / post", "tape / head"]);
});
test("moving a body by so much never changes the gap by more", () => {
  const at = (x: number, z: number, y: number): number =>
    nearestTo(tapeClear, with24(bentUnitWith([boxed("post", [x, z, x + 5, z + 4], [y, y + 3])])), "post").gap;
  fc.assert(
    fc.property(
      between(-110, 50),
      between(-12, 6),
      between(-4, 26),
      between(0, 6.28),
      between(0.01, 3),
      between(-1, 1),
      (x, z, y, way, far, rise) => {
        const before = at(x, z, y);
        const after = at(x + far * Math.cos(way), z + far * Math.sin(way), y + rise);
        // An overlap is measured over the faces: at the tape's drawn ends it may begin at once.
        if (before > 0 && after > 0)
          expect(Math.abs(after - before)).toBeLessThanOrEqual((Math.hypot(far, rise) + 1e-3) * mm);
      },
    ),
    { seed: 3221, numRuns: 150 },
  );
});
