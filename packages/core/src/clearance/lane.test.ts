import { describe, expect, test } from "vitest";
import type { Model } from "../quantity/model.ts";
import type { Course } from "../route/course.ts";
import { poseOn } from "../route/course.ts";
import type { Sweep } from "../route/ride.ts";
import { embossedTape, punchedTape, tapeWith, written } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { bentUnitWith, mm, unitWith, with12, with24 } from "./clearance.fixture.ts";
import { course, flangeTop, pocketAcross, pocketSweep } from "./lane.ts";

const drawn = <T>(m: Model<T>, one: Scene): T =>
  m.value(new Realiser(one, [m as Model<unknown>]).run(asWritten).inputsOf(m, one));
const thick = (T: string) => tapeWith(24, { T: written("thick/T", "T", T, "mm", {}, "reel") });
/** Height of the course at the pick, which the file places at 0. */
const height = (one: Scene): number => poseOn(drawn<Course>(course, one), 0).z / mm;

describe("the course of the served tape", () => {
  test("runs through the placed mark, its lengths counted from there", () => {
    const { from, to } = drawn<Course>(course, with12(unitWith([])));
    // Lines of 90 and 9 mm before the pick, 40 mm behind it, by hand. [derived]
    expect([from / mm, to / mm].map((v) => +v.toFixed(9))).toEqual([-99, 40]);
    expect(height(with12(unitWith([])))).toBe(0);
  });
  test("sinks by what a thicker tape is thicker, where its cover side is held", () => {
    // Built for 0.35 mm. [derived]
    expect(height(with24(bentUnitWith([]), thick("0.35 mm")))).toBeCloseTo(0, 12);
    expect(height(with24(bentUnitWith([]), thick("0.55 mm")))).toBeCloseTo(-0.2, 9);
    expect(height(with24(bentUnitWith([]), thick("0.25 mm")))).toBeCloseTo(0.1, 9);
  });
  test("stays where it is drawn, however thick the tape, where its underside is held", () => {
    const unit = bentUnitWith([]);
    const below = { ...unit, tape: { ...unit.tape, "rests on": "underside" as const } };
    expect(height(with24(below, thick("0.55 mm")))).toBe(0);
  });
  test("lies so that the floors lie on the groove's, where they are what is held", () => {
    const unit = unitWith([]);
    const floors = { ...unit, tape: { ...unit.tape, "rests on": "floors" as const } };
    // Depth K0 + 0.9 of the pocket built for (2.1); the served pocket is as deep and its wall as thick as its carrier. [derived]
    expect(height(with12(floors))).toBeCloseTo(-0.9, 9);
    expect(height(with12(floors, punchedTape()))).toBe(0);
  });
});

describe("the pockets on it", () => {
  test("are as long and as deep as the served tape's, not those the unit is built for", () => {
    const tape = tapeWith(12, {
      A0: written("own/A0", "A_0", "5 mm", "mm", {}, "reel"),
      K0: written("own/K0", "K_0", "1.5 mm", "mm", {}, "reel"),
      wall: written("own/wall", "t_w", "0.2 mm", "mm", {}, "reel"),
      T: written("own/T", "T", "0.3 mm", "mm", {}, "reel"),
    });
    const { pocket } = drawn<Sweep>(pocketSweep, with12(unitWith([]), tape));
    // A0 + 2 t_w, and K0 + t_w - T. [derived]
    expect([pocket.length / mm, pocket.drop / mm].map((v) => +v.toFixed(9))).toEqual([5.4, 1.4]);
  });
  test("are none on punched tape", () =>
    expect(pocketSweep.reads(with12(unitWith([]), punchedTape()))).toBeUndefined());
  test("stand about E1 + F, B1 wide", () => {
    const y = pocketAcross({ E_1: 1.75 * mm, F: 5.5 * mm, B_1: 8.2 * mm });
    expect([y.from / mm, y.to / mm].map((v) => +v.toFixed(9))).toEqual([3.15, 11.35]);
  });
});
test("the flange is as thick as the carrier with every film that lies on it", () => {
  expect(flangeTop({ T: 0.75, T_1: 0.06, n_f: 2 })).toBeCloseTo(0.87, 12);
  expect(embossedTape(12).films.text).toBe("1");
});
