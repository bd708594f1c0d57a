import { expect, test } from "vitest";
import type { Given } from "../quantity/given.ts";
import type { Scene } from "../scene.ts";
import { beliefDraws } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, check, closed, number, plainScene } from "../study/plain.fixture.ts";
import { finished } from "../study/steps.ts";
import { proposeFreeInSteps } from "./propose-free.ts";

const sceneOf = (...givens: readonly Given[]): Scene => ({
  ...plainScene(),
  unit: {
    name: "test",
    row: 12,
    givens: new Map(givens.map((g) => [g.address, g])),
    film: {},
  } as unknown as Scene["unit"],
});
const T = number("tape/T", "0.3 mm", { unit: "mm" });
const N = number("unit/preload", "4 N", { unit: "N", lever: [0.5, 30] });
const gap = number("unit/lips.gap", "T + 0.35 ±0.10 mm", { unit: "mm", names: { T }, lever: [1e-4, 5e-3] });
const length = number("unit/length", "9 mm", { unit: "mm", lever: [1e-3, 50e-3] });
const scene = sceneOf(N, gap, length);
const pulls = check("pulls", {
  value: closed("N", { N }, { unit: "N" }),
  atLeast: number("need", "6 N", { unit: "N" }),
});
const lips = check("lips", {
  value: closed("g", { g: gap }, { unit: "m" }),
  atLeast: number("room", "0.6 mm", { unit: "mm" }),
});
const proposed = finished(
  proposeFreeInSteps([{ tape: "a", scene, first: [pulls, lips] }], new Deviates(1), alike(beliefDraws)),
);

test("what moves the first stoppers is proposed, and what moves none of them is not", () => {
  expect(proposed.map(({ path, because }) => [path, because])).toEqual([
    ["preload", [{ tape: "a", check: "pulls" }]],
    ["lips.gap", [{ tape: "a", check: "lips" }]],
  ]);
});
// From 4 N the cure is 6 N: two more on either side, 2 to 8 N.
test("the bounds reach as far again beyond the cure, and as far back from what is drawn", () => {
  expect(proposed[0]!.bounds).toBe("2..8 N");
});
test("bounds of what follows a letter follow it too, without its tolerance", () => {
  expect(proposed[1]!.bounds).toMatch(/^\[T \+ 0\.\d+ mm, T \+ 0\.\d+ mm\]$/);
});
