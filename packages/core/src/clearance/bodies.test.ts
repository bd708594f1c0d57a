import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { between } from "../route/route.fixture.ts";
import { bodiesClear, isOnePart } from "./bodies.ts";
import { bodiesOf } from "./body.ts";
import { boxed, mm, nearestTo, ring, round, says, unitWith, with12 } from "./clearance.fixture.ts";

const a = boxed("a", [0, 0, 10, 10], [0, 5], { part: "frame" });
const b = boxed("b", [12, 0, 20, 10], [0, 5], { part: "frame" });
const c = round("c", [5, 15, 3], [0, 5], { part: "nip" });
const d = boxed("d", [40, 0, 50, 10], [0, 5]);
const e = boxed("e", [60, 0, 70, 10], [0, 5]);

describe("the pairs", () => {
  test("are bodies of different parts; what has no part is a part of its own", () => {
    expect(says(bodiesClear, with12(unitWith([a, b, c, d, e])))).toEqual([
      "a / c",
      "a / d",
      "a / e",
      "b / c",
      "b / d",
      "b / e",
      "c / d",
      "c / e",
      "d / e",
    ]);
  });
  test("with keep-outs are each body against each, but no keep-out against a keep-out", () => {
    const unit = unitWith([a, b], {
      "keep out": [boxed("rail", [0, -9, 9, -5], [0, 5]), boxed("head", [0, 30, 9, 50], [0, 5])],
    });
    expect(says(bodiesClear, with12(unit))).toEqual(["a / rail", "a / head", "b / rail", "b / head"]);
  });
  test("are without contacts that are meant, by name or by part", () => {
    const unit = unitWith([a, b, c, d], { "meant to touch": ["frame / nip", "a / d"] });
    expect(says(bodiesClear, with12(unit))).toEqual(["b / d", "c / d"]);
  });
  test("are none for one body, with the reason", () => {
    expect(bodiesClear.check.absent(with12(unitWith([a])))).toBe("the unit has no two bodies");
    expect(bodiesClear.check.absent(with12(unitWith([a, b])))).toBe("nothing stands near it that it must not touch");
  });
  test("of one part are pieces of one thing", () => {
    const [one, two, other, alone, also] = bodiesOf(unitWith([a, b, c, d, e]));
    expect(isOnePart(one!, two!)).toBe(true);
    expect(isOnePart(one!, other!)).toBe(false);
    expect(isOnePart(alone!, also!)).toBe(false);
  });
});

// Boxes and circles by hand. [derived]
describe("the gap of two bodies", () => {
  const gap = (...two: Parameters<typeof unitWith>[0]) => {
    const one = with12(unitWith(two));
    return nearestTo(bodiesClear, one, two[1]!.name).gap / mm;
  };
  test("is the way between box and circle", () => expect(gap(a, c)).toBeCloseTo(2, 9));
  test("is across and beside together where both part them", () => {
    expect(gap(a, boxed("x", [13, 0, 20, 10], [9, 12]))).toBeCloseTo(5, 9);
  });
  test("is the depth of an overlap by its shorter way out, turned negative", () => {
    expect(gap(a, boxed("x", [9, 2, 30, 8], [-5, 20]))).toBeCloseTo(-1, 9);
    expect(gap(a, boxed("x", [2, 2, 30, 8], [4.8, 20]))).toBeCloseTo(-0.2, 9);
  });
  test("is the same whichever of the two comes first, and mirrored across", () => {
    const any = fc.tuple(between(-20, 20), between(-20, 20), between(-20, 20), between(1, 9));
    fc.assert(
      fc.property(any, any, ([x, z, y, s], [x1, z1, y1, s1]) => {
        const p = boxed("p", [x, z, x + s, z + s], [y, y + s]);
        const q = ring(
          "q",
          [
            [x1, z1],
            [x1 + s1, z1],
            [x1, z1 + s1],
          ],
          [y1, y1 + s1],
        );
        const mirrored = (from: number, size: number) => [-from - size, -from] as const;
        expect(gap(p, q)).toBeCloseTo(gap(q, p), 9);
        const pm = boxed("p", [x, z, x + s, z + s], mirrored(y, s));
        const qm = ring(
          "q",
          [
            [x1, z1],
            [x1 + s1, z1],
            [x1, z1 + s1],
          ],
          mirrored(y1, s1),
        );
        expect(gap(pm, qm)).toBeCloseTo(gap(p, q), 9);
      }),
      { seed: 3231, numRuns: 100 },
    );
  });
});
