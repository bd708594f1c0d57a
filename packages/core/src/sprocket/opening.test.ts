import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embossedTape, nominal, scene, sideCrossing, tapeWith, withGears, written } from "../scene.fixture.ts";
import { cornerOf, effectiveOpening, offsetAtTip, offsetDeep, opening, sidePlayOnTooth } from "./opening.ts";

// 2 sqrt(0.75^2 - 0.4^2) and 2 sqrt(0.75^2 - 0.6^2), by hand; the others from points of the outline, validation/independent/sprocket.py. [derived]
test.each([
  [1.5, 0.8, 0, 0, 1.26886],
  [1.5, 0.8, 0.2, 0, 0.9],
  [1.5, 0.8, -0.2, 0, 0.9],
  [1.5, 0.8, 0.2, 0.4, 1.37446],
  [1.5, 0.6, 0.15, 0.1, 1.29545],
  [1.6, 0.8, 0.1, 0, 1.249],
])("a hole of %s mm with a tooth %s mm across, %s mm off, corners %s mm, leaves %s mm", (D, b, y, rc, expected) =>
  expect(effectiveOpening(D, b, y, rc)).toBeCloseTo(expected, 4),
);
test("a round-ended tooth keeps more of the hole than a square one, however far off", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.2, max: 1.2, noNaN: true }),
      fc.double({ min: 0, max: 0.3, noNaN: true }),
      (b, y) => {
        expect(effectiveOpening(1.5, b, y, b / 2)).toBeGreaterThanOrEqual(effectiveOpening(1.5, b, y, 0));
      },
    ),
    { seed: 605 },
  );
});
test("a corner radius beyond half the thickness is taken as round-ended", () =>
  expect(effectiveOpening(1.5, 0.8, 0.1, 5)).toBe(effectiveOpening(1.5, 0.8, 0.1, 0.4)));
test("a tooth beside its hole meets less than nothing, by as much as it stands over", () =>
  expect(effectiveOpening(1.5, 0.8, 0.5, 0)).toBeCloseTo(-0.3, 12));
describe("a tooth or a hole that is none is refused in words", () => {
  test.each([
    [1.5e-3, 1.6e-3, "the tooth is wider than the hole: 1.6 mm across the tape in a hole of 1.5 mm"],
    [0, 0.8e-3, "a hole of 0 mm is none"],
    [1.5e-3, 0, "a tooth 0 mm thick across the tape is none"],
    [1.5e-3, Number.NaN, "a tooth NaN mm thick across the tape is none"],
  ])("hole %s, tooth %s", (D, b, words) => expect(() => effectiveOpening(D, b, 0, 0)).toThrow(words));
});

describe("off the hole line", () => {
  const at = (E1: string) =>
    scene(
      sideCrossing(12),
      tapeWith(12, { E1: written("own/E1", "E1", E1), camber: written("own/camber", "k", "0 mm") }),
    );
  // Channel W + 0.45 mm: 0.225 mm to either side.
  const tip = { E_1: 1.85, y_t: 1.75, j: 0.45 };
  test("a tip comes in with its own offset and the channel's play, as far as the tooth in its hole lets the tape", () => {
    expect(offsetAtTip.value({ ...tip, y_s: 2 })).toBeCloseTo(0.1 + 0.225, 12);
    expect(offsetAtTip.value({ ...tip, y_s: 0.4 })).toBeCloseTo(0.2, 12);
    // Tooth and wall against each other: the wall has it.
    expect(offsetAtTip.value({ ...tip, E_1: 2.2, y_s: 0.1 })).toBeCloseTo(0.45 - 0.225, 12);
    expect(offsetAtTip.value({ ...tip, E_1: 1.75, y_s: -0.1 })).toBe(0);
    expect(nominal(at("1.85 mm"), offsetAtTip)).toBeLessThanOrEqual(0.325e-3);
  });
  test("deeper in the channel's play has taken the offset up", () => {
    expect(nominal(at("1.85 mm"), offsetDeep)).toBe(0);
    expect(nominal(at("2.05 mm"), offsetDeep) * 1e3).toBeCloseTo(0.3 - 0.225, 9);
    expect(nominal(at("1.45 mm"), offsetDeep) * 1e3).toBeCloseTo(0.3 - 0.225, 9);
  });
  test("the file's own place of the teeth comes before the hole line of the row", () => {
    const unit = sideCrossing(12);
    const moved = { ...unit, sprocket: { ...unit.sprocket!, y: written("y", "y_t", "2.05 mm") } };
    expect(nominal(scene(moved, embossedTape(12)), offsetDeep)).toBeGreaterThan(0);
  });
});
test("a front called round has half the thickness as its corner", () => {
  const round = scene(withGears(8), embossedTape(8));
  expect(nominal(round, cornerOf(round)!)).toBeGreaterThanOrEqual(
    nominal(round, round.unit.sprocket!.tooth.across) / 2,
  );
  const { D0 } = round.tape.letters;
  expect(nominal(round, opening)).toBeCloseTo(nominal(round, D0), 9);
});
// 2 sqrt(0.75^2 - 0.55^2) - 0.8. [An independent re-derivation, A6: 0.22 mm, derived]
test("a tape moves 0.22 mm sideways on a tooth of 1.10 by 0.8 mm", () =>
  expect(sidePlayOnTooth.value({ D_0: 1.5, t_a: 1.1, t_c: 0.8, r_c: 0 })).toBeCloseTo(0.22, 3));
test("a tape moves farther sideways on a tooth with corners", () =>
  expect(sidePlayOnTooth.value({ D_0: 1.5, t_a: 1.1, t_c: 0.7, r_c: 0.3 })).toBeGreaterThan(
    sidePlayOnTooth.value({ D_0: 1.5, t_a: 1.1, t_c: 0.7, r_c: 0 }),
  ));
