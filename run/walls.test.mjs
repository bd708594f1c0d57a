// A curve under a wall is the model's own, and says where its check turns. Needs a build.
import { describe, expect, test } from "vitest";
import { checkNamed, Deviates } from "../packages/core/dist/index.js";
import { embossedTape, requirement, sideCrossing } from "../packages/core/dist/scene.fixture.js";
import { curveOf } from "../packages/report/dist/walls/curve.js";
import { givenOf } from "../packages/report/dist/walls/wall.js";
import { wallDrawing } from "../packages/report/dist/walls/wall-drawing.js";

const scene = { unit: sideCrossing(24), tape: embossedTape(24, "heat activated"), requirement };
const check = (/** @type {string} */ id) => {
  const found = checkNamed(id);
  if (!found) throw new RangeError(`there is no check ${id}`);
  return found;
};
const width = givenOf(scene.tape.film.width, "the film's width");
const mismatch = () =>
  curveOf({ scene, checks: [check("film.mismatch")], along: width, from: 0.004, to: 0.024 }, new Deviates(1));

describe("chord mismatch over the film's width", () => {
  const curve = mismatch();
  test("grows with the square of the width, as b^2/(4 L^2) does", () => {
    const [a, b] = [curve.at(0.006).value.middle, curve.at(0.012).value.middle];
    expect(b / a).toBeGreaterThan(3.9);
    expect(b / a).toBeLessThan(4.05);
  });
  test("turns where value and limit are equal, and the sign of the gap changes there", () => {
    expect(curve.turns).toHaveLength(1);
    const turn = curve.turns[0] ?? 0;
    const at = curve.at(turn);
    expect(at.value.middle).toBeCloseTo(at.most?.middle ?? 0, 5);
    expect(curve.at(turn - 1e-4).gap).toBeGreaterThan(0);
    expect(curve.at(turn + 1e-4).gap).toBeLessThan(0);
  });
  test("is known in the width that is set and unknown in its limit", () => {
    const { value, most, share } = curve.at(0.014);
    expect(value.high - value.low).toBeLessThan(1e-9);
    expect(most?.high).toBeGreaterThan((most?.low ?? 0) * 1.2);
    expect(share).toBeGreaterThan(0.05);
    expect(share).toBeLessThan(0.95);
  });
  test("is the same however often it is drawn", () => {
    expect(mismatch().points).toEqual(curve.points);
  });
  test("its drawing says ends and turn aloud", () => {
    const { desc, title } = wallDrawing(curve, { along: "width of the film" });
    expect(title).toBe("chord mismatch of the worst span over width of the film");
    expect(desc).toMatch(
      /0\.16 % at 4\.0 mm and 5\.\d % at 24 mm; wanted at the left end at most 1\.9 %\. It crosses a bound at 14 mm\./,
    );
  });
});
test("a number that a check does not rest on is refused by name", () => {
  const along = givenOf(scene.unit.nip?.preload, "the preload");
  expect(() => curveOf({ scene, checks: [check("film.mismatch")], along, from: 0, to: 1 }, new Deviates(1))).toThrow(
    "film.mismatch does not rest on crossing 24/nip.preload",
  );
});
test("a check that does not apply is refused with its reason", () => {
  expect(() =>
    curveOf({ scene, checks: [check("leaf.stress")], along: width, from: 0, to: 1 }, new Deviates(1)),
  ).toThrow(/^leaf\.stress does not apply: /);
});
