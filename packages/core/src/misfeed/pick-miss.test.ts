import { describe, expect, test } from "vitest";
import { pickRadius } from "../accuracy/radius.ts";
import { tabled } from "../quantity/given.ts";
import { driven } from "../scene.fixture.ts";
import { Inputs } from "../study/inputs.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { Stream } from "../study/stream.ts";
import { checkMiss, lengthOf, missDistance } from "./pick-miss.ts";

describe("the length of one axis", () => {
  // 3 fixed; 2 even at half its way: 1; 4 once a turn, at a quarter turn: 4; 5 of one of two places, the lower one: -5. [by hand]
  test("is the sum of what is fixed and of what swings, each at its place", () =>
    expect(
      lengthOf([
        { by: 3, swing: "none", at: 0.7 },
        { by: 2, swing: "even", at: 0.5 },
        { by: 4, swing: "turn", at: 0.5 },
        { by: 5, swing: "either", at: -0.2 },
      ]),
    ).toBeCloseTo(3, 12));
});

const [name, scene] = driven.scenes.find(([, s]) => missDistance.reads(s) !== undefined)!;
const drawn = (n: number) => {
  const inputs = new Inputs(scene, [missDistance]);
  const stream = new Stream(4, "miss");
  const z = inputs.axes.map(({ level }) =>
    level === "index" ? Float64Array.from({ length: n }, () => stream.normal()) : undefined,
  );
  const d = inputs.run(n, z)(missDistance);
  return typeof d === "number" ? new Float64Array(n).fill(d) : d;
};
// Two ways to one figure: draws of single indexes, and the radius by quadrature, which takes along and across for independent.
test(`of single indexes (${name}) 99.7 of 100 fall within the pick radius of the accuracy chain`, () => {
  const R = new Realiser(scene, [pickRadius]).run(asWritten).number(pickRadius);
  const n = 20_000;
  const within = drawn(n).filter((d) => d <= R).length / n;
  expect(Math.abs(within - 0.997)).toBeLessThan(0.003);
});
test("one index is held against the pick tool where project.yaml names one", () => {
  const pickTool = tabled(
    "project/requirement.pick tool",
    "r_t",
    "0.12 mm",
    [1, 0, 0, 0, 0],
    { cite: "invented", how: "judgement" },
    "unit",
  );
  const asked = { ...scene, requirement: { ...scene.requirement, pickTool } };
  expect(checkMiss.absent(asked)).toBeUndefined();
  const { pickTool: _, ...without } = asked.requirement;
  expect(checkMiss.absent({ ...scene, requirement: without })).toBe(
    "project.yaml gives no radius that the pick tool forgives",
  );
});
