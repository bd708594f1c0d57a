import { describe, expect, test } from "vitest";
import { asWritten, Realiser } from "../study/realise.ts";
import { bodiesOf, type PrismData } from "./body.ts";
import { boxed, mm, ring, round, unitWith, with12 } from "./clearance.fixture.ts";

const solid = (data: PrismData) => {
  const one = with12(unitWith([data]));
  const body = bodiesOf(one.unit)[0]!;
  // A model that hands the solid on, for a model without a number has no column.
  const x = new Realiser(one, [body.solid]).run(asWritten).inputsOf(body.solid, one);
  return body.solid.value(x);
};
const inMm = (parts: readonly (readonly number[])[]) => parts.map((p) => p.map((v) => +(v / mm).toFixed(9)));

describe("a body of a unit file", () => {
  test("is its box over its stretch of y, whichever corner comes first", () => {
    const { outline, y } = solid(boxed("post", [4, 3, 1, 2], [-2, 5]));
    expect(inMm(outline.parts)).toEqual([[1, 2, 4, 2, 4, 3, 1, 3]]);
    expect(outline.round).toBe(0);
    expect([y.from / mm, y.to / mm]).toEqual([-2, 5]);
  });
  test("is its circle as a point that is rounded", () => {
    const { outline } = solid(round("roller", [1, 2, 5], [0, 1]));
    expect(inMm(outline.parts)).toEqual([[1, 2]]);
    expect(outline.round / mm).toBeCloseTo(5, 12);
  });
  test("is its polygon in convex parts: an angle iron is two", () => {
    const { outline } = solid(
      ring(
        "angle",
        [
          [0, 0],
          [10, 0],
          [10, 2],
          [2, 2],
          [2, 10],
          [0, 10],
        ],
        [0, 1],
      ),
    );
    expect(outline.parts).toHaveLength(2);
  });
  test("that is none is refused by its name", () => {
    expect(() => solid(boxed("flat post", [1, 2, 1, 5], [0, 1]))).toThrow(
      "flat post: a box from x 1 mm to x 1 mm has no length",
    );
    expect(() => solid(boxed("turned post", [1, 2, 3, 5], [4, 1]))).toThrow(
      "turned post: a body fills y from 4.000 mm down to 1.000 mm",
    );
  });
});

describe("the bodies of a unit", () => {
  const unit = unitWith([boxed("a", [0, 0, 1, 1], [0, 1], { part: "frame", lifts: "true" })], {
    "keep out": [boxed("rail", [0, 0, 1, 1], [0, 1])],
  });
  test("are its own, then the keep-outs, each with what it is", () => {
    expect(bodiesOf(unit).map(({ name, part, keepOut, lifts }) => [name, part, keepOut, lifts])).toEqual([
      ["a", "frame", false, true],
      ["rail", undefined, true, false],
    ]);
  });
  test("are the same objects every time: their identity is what draws are kept by", () => {
    expect(bodiesOf(unit)).toBe(bodiesOf(unit));
    expect(bodiesOf(unit)[0]!.solid).toBe(bodiesOf(unit)[0]!.solid);
  });
  test("are none where the file lists none", () => {
    const { bodies: _, ...bare } = unitWith([]);
    expect(bodiesOf(bare)).toEqual([]);
  });
});
