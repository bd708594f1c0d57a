import { describe, expect, test } from "vitest";
import type { Check } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import type { Scene } from "../scene.ts";
import { beliefDraws } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, check, closed, number, plainScene } from "../study/plain.fixture.ts";
import { sweepInputs, sweepOf } from "./sweep.ts";

const deviates = new Deviates(1);
const even = alike(beliefDraws);
const sceneOf = (...givens: readonly Given[]): Scene => ({
  ...plainScene(),
  unit: { name: "test", givens: new Map(givens.map((g) => [g.address, g])), film: {} } as unknown as Scene["unit"],
});
const mu = number("mu", "0.2..0.6 guess");
const N = number("unit/preload", "4 N", { unit: "N", lever: [0.5, 30] });
const pulls: Check = check("pulls", {
  value: closed("N*mu", { N, mu }, { unit: "N" }),
  atLeast: number("least", "2 N", { unit: "N" }),
});
const scene = sceneOf(N);
const [lever, unknown] = sweepInputs(scene, pulls);

test("a check may be swept over the levers and the unknowns that it rests on, and over no others", () => {
  const other = number("unit/other", "1 N", { unit: "N", lever: [0, 9] });
  expect(sweepInputs(sceneOf(N, other), pulls).map(({ address, kind }) => [address, kind])).toEqual([
    ["unit/preload", "lever"],
    ["mu", "unknown"],
  ]);
});
test("what moves its room most comes first, and what moves nothing is left out", () => {
  const [a, b] = [1, 2].map((n) => number(`unit/n${n}`, "1 N", { unit: "N", lever: [0.5, 1.5] }));
  const idle = number("unit/idle", "1 N", { unit: "N", lever: [0.5, 1.5] });
  const sum: Check = check("sum", {
    value: closed("a + 3*b + 0*c", { a: a!, b: b!, c: idle }, { unit: "N" }),
    atLeast: number("least", "1 N", { unit: "N" }),
  });
  expect(sweepInputs(sceneOf(a!, b!, idle), sum).map(({ address }) => address)).toEqual(["unit/n2", "unit/n1"]);
});
describe("along a lever", () => {
  const sweep = sweepOf(scene, pulls, deviates, even, lever!)!;
  // Without scatter the room at x is x mu - 2; the median of mu is sqrt(0.2 * 0.6) = 0.3464. [derived]
  test("the middle is the gap at the median of belief", () => {
    for (const { at, room } of sweep.points) expect(room.middle).toBeCloseTo(at * Math.sqrt(0.12) - 2, 1);
  });
  test("the drawn place is among its points, in order, within the lever's bounds", () => {
    const places = sweep.points.map(({ at }) => at);
    expect(places).toContain(4);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThanOrEqual(0.5);
    expect(places.at(-1)).toBeLessThanOrEqual(30);
  });
  test("it reaches far enough to show where the check turns", () => {
    const signs = new Set(sweep.points.map(({ room }) => room.middle >= 0));
    expect(signs).toEqual(new Set([true, false]));
  });
  test("the band of belief lies about the middle, wider the farther out", () => {
    for (const { room } of sweep.points) expect(room.low <= room.middle && room.middle <= room.high).toBe(true);
    const width = ({ room }: (typeof sweep.points)[number]) => room.high - room.low;
    expect(width(sweep.points.at(-1)!)).toBeGreaterThan(2 * width(sweep.points[0]!));
  });
});
describe("along an unknown", () => {
  const sweep = sweepOf(scene, pulls, deviates, even, unknown!)!;
  test("nothing else is open: the band closes on 4 mu - 2", () => {
    for (const { at, room } of sweep.points) {
      expect(room.middle).toBeCloseTo(4 * at - 2, 9);
      expect(room.high - room.low).toBeCloseTo(0, 9);
    }
  });
  test("it goes beyond both ends of the guess", () => {
    expect(sweep.points[0]!.at).toBeLessThan(0.2);
    expect(sweep.points.at(-1)!.at).toBeGreaterThan(0.6);
  });
});
test("a second number makes a family of three curves, the middle one as drawn", () => {
  const { points, family } = sweepOf(scene, pulls, deviates, even, lever!, unknown)!;
  expect(family!.curves.map(({ at }) => at)).toEqual([unknown!.from, unknown!.drawn, unknown!.to]);
  for (const { at: value, points: curve } of family!.curves)
    for (const { at, room } of curve) expect(room.middle).toBeCloseTo(at * value - 2, 9);
  expect(family!.curves[0]!.points.map(({ at }) => at)).toEqual(points.map(({ at }) => at));
});
test("what scatter takes where the unit is drawn is taken all along", () => {
  const tight = number("unit/preload", "4 ±1 N", { unit: "N", lever: [0.5, 30] });
  const held = number("mu2", "0.5");
  const scattered: Check = check("pulls", {
    value: closed("N*mu", { N: tight, mu: held }, { unit: "N" }),
    atLeast: number("least", "2 N", { unit: "N" }),
  });
  const one = sceneOf(tight);
  const [input] = sweepInputs(one, scattered);
  const points = sweepOf(one, scattered, deviates, even, input!)!.points;
  // At 2 % the limits of ±1 N take 0.96 N of preload, half of that of the pull. [derived]
  for (const { at, room } of points) expect(room.middle).toBeCloseTo(at * 0.5 - 2 - 0.48, 2);
});
test("a check that does not apply has no sweep", () => {
  const absent: Check = { ...pulls, absent: () => "the unit has no nip" };
  expect(sweepInputs(scene, absent)).toEqual([]);
  expect(sweepOf(scene, absent, deviates, even, lever!)).toBeUndefined();
});
