import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { between } from "../route/route.fixture.ts";
import { punchedTape, tapeWith, written } from "../scene.fixture.ts";
import { bentUnitWith, boxed, mm, nearestTo, round, says, um, unitWith, with12, with24 } from "./clearance.fixture.ts";
import { pocketClear } from "./pocket.ts";

const given = (letter: string, text: string) => ({
  [letter]: written(`own/${letter}`, letter, text, "mm", {}, "reel"),
});
/** A pocket 6 by 5 by 2 mm inside, walls 0.3 mm: it hangs 2 mm below the underside, 6.6 mm long, 5.6 mm wide about y = 7.25. */
const tape = tapeWith(12, {
  ...given("A0", "6 mm"),
  ...given("B0", "5 mm"),
  ...given("K0", "2 mm"),
  ...given("T", "0.3 mm"),
  ...given("wall", "0.3 mm"),
  ...given("E1", "1.75 mm"),
  ...given("F", "5.5 mm"),
});
const wide = tapeWith(24, {
  ...given("A0", "10 mm"),
  ...given("K0", "4 mm"),
  ...given("T", "0.35 mm"),
  ...given("wall", "0.35 mm"),
});
type Box = readonly [number, number, number, number];
const gap = (box: Box, y: readonly [number, number]): number =>
  nearestTo(pocketClear, with12(unitWith([boxed("post", box, y)]), tape), "post").gap / mm;

// A level route; pockets sweep the strip from z = -2 to 0 mm, y = 4.45 to 10.05 mm. By hand. [derived]
describe("the swept pocket on a level route", () => {
  test("is as far above a post as its bottom is", () => expect(gap([-50, -9, -40, -3.2], [0, 12])).toBeCloseTo(1.2, 9));
  test("is as far beside a wall as its side is", () => expect(gap([-50, -9, 30, 9], [10.35, 14])).toBeCloseTo(0.3, 9));
  test("is as far off an edge as the way across and down together", () => {
    expect(gap([-50, -9, -40, -2.3], [10.45, 14])).toBeCloseTo(Math.hypot(0.3, 0.4), 9);
  });
  test("runs into a post by the shorter way out, across or up", () => {
    expect(gap([-50, -9, -40, -1.5], [0, 12])).toBeCloseTo(-0.5, 9);
    expect(gap([-50, -9, -40, -0.5], [9.95, 14])).toBeCloseTo(-0.1, 9);
  });
  test("begins and ends where the route is drawn to: what stands before it is met end on", () => {
    expect(gap([-120, -9, -99.7, 9], [0, 12])).toBeCloseTo(0.7, 9);
    expect(gap([-120, -9, -98.5, 9], [0, 12])).toBeCloseTo(-0.5, 9);
  });
  test("comes nearest under the post, and says so along the route", () => {
    const one = with12(unitWith([round("pin", [-30, -4, 1], [0, 12])]), tape);
    const { spot, gap: g } = nearestTo(pocketClear, one, "pin");
    expect(g / mm).toBeCloseTo(1, 9);
    expect(spot.x / mm).toBeCloseTo(-30, 6);
    expect(spot.z / mm).toBeCloseTo(-3, 6);
    expect(spot.y / mm).toBeCloseTo(7.25, 6);
    expect(Math.abs(spot.s! / mm + 30)).toBeLessThanOrEqual(3.3 + 1e-6);
  });
});

// Inside a bend the middle of the bottom comes nearest to the centre: sqrt(r^2 - L^2/4) - drop. By hand. [derived]
test("inside a bend of 60 mm the pocket comes nearer to its centre than on a straight, by the chord", () => {
  // The route bends down 20 mm behind the pick: R + 30 mm about x = 20, z = -60.
  const one = with24(bentUnitWith([round("drum", [20, -60, 50], [0, 24])]), wide);
  const chord = Math.sqrt(60 ** 2 - (10.7 / 2) ** 2);
  expect(nearestTo(pocketClear, one, "drum").gap / mm).toBeCloseTo(chord - 4 - 50, 6);
});

describe("the pairs", () => {
  const all = [boxed("post", [0, -9, 1, -3], [0, 12]), boxed("board", [0, -20, 1, -15], [0, 12], { part: "electric" })];
  test("are every body and every keep-out, the wheel too: what touches the tape may still meet its pockets", () => {
    const unit = unitWith(all, {
      "keep out": [boxed("rail", [0, -40, 1, -30], [0, 12])],
      "meant to touch": ["tape / post"],
    });
    expect(says(pocketClear, with12(unit))).toEqual(["pocket / post", "pocket / board", "pocket / rail"]);
  });
  test("are without what is meant to touch the pocket, by name or part", () => {
    const unit = unitWith(all, { "meant to touch": ["tape pocket / post", "electric / pocket"] });
    expect(says(pocketClear, with12(unit))).toEqual([]);
    expect(pocketClear.check.absent(with12(unit))).toBe("nothing stands near it that it must not touch");
  });
  test("do not exist on punched tape, with the reason", () => {
    const one = with12(unitWith(all), punchedTape());
    expect(pocketClear.pairs(one)).toEqual([]);
    expect(pocketClear.check.absent(one)).toBe("punched tape has no pockets below its underside");
  });
});

const place = fc.tuple(between(-110, 50), between(-12, 6), between(-4, 16));
const sized = (x: number, z: number, y: number) => boxed("post", [x, z, x + 5, z + 4], [y, y + 3]);
const pocketGap = (body: ReturnType<typeof boxed>): number =>
  nearestTo(pocketClear, with24(bentUnitWith([body]), wide), "post").gap;
test("moving a body by so much never changes the gap by more", () => {
  fc.assert(
    fc.property(place, between(0, 6.28), between(0.01, 3), between(-1, 1), ([x, z, y], way, far, rise) => {
      const dx = far * Math.cos(way);
      const dz = far * Math.sin(way);
      const before = pocketGap(sized(x, z, y));
      const after = pocketGap(sized(x + dx, z + dz, y + rise));
      expect(Math.abs(after - before)).toBeLessThanOrEqual((Math.hypot(far, rise) + 1e-3) * mm);
    }),
    { seed: 3211, numRuns: 100 },
  );
});
test("a body mirrored about the middle of the pockets is as far away", () => {
  // E1 + F = 1.75 + 11.5 mm.
  const middle = 13.25;
  fc.assert(
    fc.property(place, ([x, z, y]) => {
      const mirrored = sized(x, z, 2 * middle - y - 3);
      expect(Math.abs(pocketGap(mirrored) - pocketGap(sized(x, z, y)))).toBeLessThan(1e-3 * um);
    }),
    { seed: 3212, numRuns: 100 },
  );
});
test("a deeper pocket never has more room", () => {
  const at = (K0: number, [x, z, y]: readonly [number, number, number]) => {
    const deeper = tapeWith(24, {
      ...given("A0", "10 mm"),
      ...given("K0", `${K0} mm`),
      ...given("T", "0.35 mm"),
      ...given("wall", "0.35 mm"),
    });
    return nearestTo(pocketClear, with24(bentUnitWith([sized(x, z, y)]), deeper), "post").gap;
  };
  fc.assert(
    fc.property(place, between(1, 6), between(0, 4), (p, K0, more) => {
      expect(at(K0 + more, p)).toBeLessThanOrEqual(at(K0, p) + 1e-2 * um);
    }),
    { seed: 3213, numRuns: 60 },
  );
});
