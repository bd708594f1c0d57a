import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { path } from "../film/path.ts";
import { onStrip, stripsOf } from "../route/corridor.ts";
import { between } from "../route/route.fixture.ts";
import { embossedTape, nominal, oneSeal, scene, tapeWith, written } from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { bentUnitWith, boxed, mm, nearestTo, round, says, unitWith, with12, with24 } from "./clearance.fixture.ts";
import { filmClear, flutter } from "./film.ts";

const given = (letter: string, text: string) => ({
  [letter]: written(`own/${letter}`, letter, text, "mm", {}, "reel"),
});

// One straight span, from the tape's upper face at the peel line to the nip 20 mm behind and 12 mm up. By hand. [derived]
describe("a film folded back overhead in one span", () => {
  const from = [-10, 0.35] as const;
  const to = [-30, 12] as const;
  const [dx, dz] = [to[0] - from[0], to[1] - from[1]];
  const off = ([x, z]: readonly [number, number]) =>
    Math.abs((x - from[0]) * dz - (z - from[1]) * dx) / Math.hypot(dx, dz);
  test("is as far from a pin beside its middle as line and point are, less radius and half the room it flutters in", () => {
    const one = with24(bentUnitWith([round("pin", [-14, 9, 2], [0, 24])]), tapeWith(24, given("T", "0.35 mm")));
    expect(nearestTo(filmClear, one, "pin").gap / mm).toBeCloseTo(off([-14, 9]) - 2 - 0.25, 3);
  });
  test("runs into a pin that stands in its way by as much", () => {
    const one = with24(bentUnitWith([round("pin", [-20, 6, 1], [0, 24])]), tapeWith(24, given("T", "0.35 mm")));
    expect(nearestTo(filmClear, one, "pin").gap / mm).toBeCloseTo(off([-20, 6]) - 1 - 0.25, 3);
  });
  test("passes a wall beside it at its own edge: the served film's, not the tape's", () => {
    const narrow = tapeWith(24, { film: { width: written("own/film", "b", "20 mm", "mm", {}, "reel") } });
    const one = with24(bentUnitWith([boxed("wall", [-40, -9, 0, 30], [24, 26])]), narrow);
    // E1 + F + b/2 = 13.25 + 10 mm.
    expect(nearestTo(filmClear, one, "wall").gap / mm).toBeCloseTo(24 - 23.25 - 0.25, 6);
  });
  test("says how far into which span it comes nearest", () => {
    const one = with24(bentUnitWith([round("pin", [-14, 9, 2], [0, 24])]));
    const { number, along } = nearestTo(filmClear, one, "pin").spot.span!;
    expect(number).toBe(0);
    expect(along / mm).toBeGreaterThan(0);
    expect(along / mm).toBeLessThan(Math.hypot(dx, dz));
  });
  test("is not held against the tape it just left", () => {
    expect(says(filmClear, with24(bentUnitWith([])))).toEqual([]);
    expect(filmClear.check.absent(with24(bentUnitWith([])))).toBe("nothing stands near it that it must not touch");
  });
});

describe("a film that crosses beside the channel", () => {
  const one = with12(unitWith([]));
  test("is held against tape and pockets past its first guide", () => {
    expect(says(filmClear, one)).toEqual(["film / tape", "film / pocket"]);
    expect(says(filmClear, with12(unitWith([], { "meant to touch": ["film / tape"] })))).toEqual(["film / pocket"]);
  });
  test("hangs as far over the tape's far edge as its fibres looked at one by one say", () => {
    const led = path.value(new Realiser(one, [path]).run(asWritten).inputsOf(path, one));
    const b = nominal(one, one.tape.film.width);
    const W = nominal(one, one.tape.letters.W);
    const top = nominal(one, one.tape.letters.T) + nominal(one, one.tape.letters.T1);
    // Every place of the two spans past the first guide that lies level with the tape, and how far within its edge.
    let worst = 0;
    for (const strip of stripsOf(led, led.start).slice(1))
      for (let i = 0; i <= 4000; i++)
        for (let k = 0; k <= 60; k++) {
          const [, y, z] = onStrip(strip, i / 4000, (k / 60 - 0.5) * b);
          if (z >= 0 && z <= top) worst = Math.max(worst, W - y);
        }
    expect(worst / mm).toBeGreaterThan(0.5);
    const { gap, spot } = nearestTo(filmClear, one, "tape");
    expect(Math.abs(-gap - 0.25 * mm - worst)).toBeLessThan(0.02 * mm);
    expect(spot.y).toBeLessThan(W);
  });
  test("clears it with a shoulder that stands out and low enough", () => {
    const unit = unitWith([]);
    const guides = unit.film.guides!.map((g) =>
      g.name === "shoulder"
        ? { ...g, through: [g.through[0], written("far/y", "y", "40 mm"), written("far/z", "z", "-7 mm")] as const }
        : g,
    );
    const far = with12({ ...unit, film: { ...unit.film, guides } });
    expect(nearestTo(filmClear, far, "tape").gap).toBeGreaterThan(0);
  });
});
test("moving a body by so much never changes its gap to the film by more", () => {
  const at = (x: number, z: number, y: number): number =>
    nearestTo(filmClear, with12(unitWith([boxed("post", [x, z, x + 6, z + 4], [y, y + 3])])), "post").gap;
  fc.assert(
    fc.property(
      between(-120, 0),
      between(-16, 8),
      between(-4, 18),
      between(0, 6.28),
      between(0.01, 3),
      between(-1, 1),
      (x, z, y, way, far, rise) => {
        const change = at(x + far * Math.cos(way), z + far * Math.sin(way), y + rise) - at(x, z, y);
        expect(Math.abs(change)).toBeLessThanOrEqual((Math.hypot(far, rise) + 2e-3) * mm);
      },
    ),
    { seed: 3241, numRuns: 60 },
  );
});
test("a film that is not peeled whole has no corridor, with the reason", () => {
  const one = scene({ ...oneSeal(8), bodies: [boxed("post", [0, 5, 1, 9], [0, 8])] }, embossedTape(8));
  expect(filmClear.check.absent(one)).toBe('the film is opened as "one seal", not peeled off whole');
  expect(filmClear.pairs(one)).toEqual([]);
});
test("the room it flutters in is our judgement, and says so", () => {
  expect(flutter.text).toBe("0.5 mm");
  expect(flutter.letter).toBe("g");
});
