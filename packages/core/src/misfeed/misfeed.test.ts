import { describe, expect, test } from "vitest";
import type { Check } from "../quantity/check.ts";
import { phi } from "../quantity/law.ts";
import { driven } from "../scene.fixture.ts";
import { beliefDraws } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { check, closed, number, plainScene } from "../study/plain.fixture.ts";
import { type MisfeedOptions, misfeeds, misfeedsInSteps } from "./misfeed.ts";
import { type Mode, modes } from "./modes.ts";

const deviates = new Deviates(1);
const modesOf = (list: readonly Check[]): Mode[] =>
  list.map(({ id }) => ({ id, title: `${id} goes wrong`, blames: "unit", checks: [id] }));
const of = (list: readonly Check[], more: Partial<MisfeedOptions> = {}) =>
  misfeeds(plainScene(), { deviates, checks: list, modes: modesOf(list), ...more });
const bound = (v: string, name = "bound") => number(name, v);
/** x of sd 5 in all (reel 3, unit 0, index 4) over 0: fails with Phi(-middle/5). */
const spread = (middle: number, id = "spread", at = "x") =>
  check(id, { value: closed("x", { x: number(at, `${middle} per reel sd 3 per index sd 4`) }), atLeast: bound("0") });

describe("one way to go wrong", () => {
  const m = of([spread(15)]);
  const [mode] = m.modes;
  test("has the rate of the closed form over all levels together", () => {
    expect(Math.abs(m.rate / phi(-3) - 1)).toBeLessThan(0.15);
    expect(m.estimator[0]).toBeLessThan(phi(-3));
    expect(m.estimator[1]).toBeGreaterThan(phi(-3));
    expect(mode).toMatchObject({ said: "agree", blames: "unit", breaks: { check: "spread", side: "least" } });
    expect(mode!.breaks!.beta).toBeCloseTo(3, 4);
  });
  // alpha^2 = 9/25 and 16/25.
  test("is laid to reel and index by their shares of the variance", () => {
    expect(mode!.levels.reel).toBeCloseTo(0.36, 4);
    expect(mode!.levels.index).toBeCloseTo(0.64, 4);
    expect(mode!.importances.map(({ level, address }) => `${address} ${level}`)).toEqual(["x index", "x reel"]);
  });
  // A pair's rate is Phi(-(15 + 3 z)/4): the median's Phi(-3.75) = 8.8e-5, that at 99 % Phi(-(15 - 6.98)/4) = 0.0225.
  test("is far rarer on the median pair than in the mean, and far more frequent on a bad one", () => {
    expect(m.medianPair / phi(-3.75)).toBeGreaterThan(0.7);
    expect(m.medianPair / phi(-3.75)).toBeLessThan(1.4);
    expect(m.pair99 / 0.0225).toBeGreaterThan(0.6);
    expect(m.pair99 / 0.0225).toBeLessThan(1.6);
    expect(m.clean1e4).toBeGreaterThan((1 - m.rate) ** 1e4);
  });
  test("is as certain as its scatter where nothing is unknown: the belief band has no width but the draws'", () => {
    expect(m.belief.low / m.belief.high).toBeGreaterThan(0.4);
    expect(mode!.measure).toBeUndefined();
  });
});

describe("belief", () => {
  // u is normal with sd 5: at its 5, 50 and 95 % points the rate is Phi(-3 + 1.645), Phi(-3), Phi(-3 - 1.645).
  const u = number("u", "-9.79981992270027..9.79981992270027 guess");
  const unsure = check("unsure", {
    value: closed("x + u + 0.01*v", { x: number("x", "15 per index sd 5"), u, v: number("v", "-1..1 guess") }),
    atLeast: bound("0"),
  });
  const m = of([unsure], { allowance: 1e-3, draws: 1000 });
  test("gives the band, and the rate at the median stands in it", () => {
    expect(m.rate / phi(-3)).toBeCloseTo(1, 0);
    expect(m.belief.middle / phi(-3)).toBeGreaterThan(0.6);
    expect(m.belief.middle / phi(-3)).toBeLessThan(1.7);
    expect(m.belief.high / phi(-3 + 1.645)).toBeGreaterThan(0.6);
    expect(m.belief.high / phi(-3 + 1.645)).toBeLessThan(1.6);
    expect(m.belief.low / phi(-3 - 1.645)).toBeGreaterThan(0.15);
    expect(m.belief.low / phi(-3 - 1.645)).toBeLessThan(6);
  });
  // Over 1e-3 where u/5 < -3 + 3.0902: with Phi(0.0902) = 0.536; of 1000 draws 0.016 is one sd.
  test("is over the allowance in that share of it", () => expect(m.beliefOver).toBeCloseTo(0.536, 1));
  test("names the unknown to be measured, and how much goes with it", () => {
    expect(m.modes[0]!.measure).toMatchObject({ address: "u", letter: "g" });
    expect(m.modes[0]!.measure!.carries).toBeGreaterThan(0.9);
    expect(m.modes[0]!.letter).toBe("g");
  });
  test("is weighed by the record: where only draws that hold are left, the band falls", () => {
    const weights = Float64Array.from(deviates.normal("belief u", beliefDraws), (z) => (z > 1 ? 1 : 0));
    const weighed = of([unsure], { weights });
    expect(weighed.belief.high).toBeLessThan(phi(-3.9));
    expect(weighed.belief.high).toBeGreaterThan(phi(-4.3));
  });
});

describe("several ways to go wrong", () => {
  // Independent: 1 - (1 - Phi(-3))(1 - Phi(-2.4)).
  const two = of([spread(15, "a", "x"), spread(12, "b", "y")], { allowance: 0.02 });
  test("add up, each with a rate of its own", () => {
    const [a, b] = [phi(-3), phi(-2.4)];
    expect(Math.abs(two.rate / (1 - (1 - a) * (1 - b)) - 1)).toBeLessThan(0.15);
    expect(Math.abs(two.modes[0]!.rate / a - 1)).toBeLessThan(0.15);
    expect(Math.abs(two.modes[1]!.rate / b - 1)).toBeLessThan(0.15);
  });
  // Of x alone: 1 - Phi(...) of pairs whose rate is over 2 %; unit scatter there is none, so no unit is over it that not all are.
  test("are held against the allowance by units and by pairs", () => {
    expect(two.unitsOver).toBe(0);
    expect(two.pairsOver).toBeGreaterThan(0.05);
    expect(two.pairsOver).toBeLessThan(0.4);
  });
  test("that break together on the same draws count once", () => {
    const same = [spread(12, "a", "x"), spread(12, "b", "x")];
    expect(Math.abs(of(same).rate / phi(-2.4) - 1)).toBeLessThan(0.15);
  });
});

describe("nothing to be drawn", () => {
  const still = (v: string) => check("still", { value: closed("a", { a: number("a", v) }), atLeast: bound("5") });
  test("leaves a rate of 0 or 1, and says so", () => {
    expect(of([still("6")])).toMatchObject({
      rate: 0,
      estimator: [0, 0],
      clean1e5: 1,
      modes: [{ said: "cannot fail as drawn" }],
    });
    expect(of([still("4")])).toMatchObject({ rate: 1, clean1e4: 0, modes: [{ said: "always", rate: 1 }] });
  });
  test("but belief still says how likely it always fails", () => {
    const u = number("u", "4..7 guess");
    // ln(5/5.2915)/(ln(7/4)/3.92) = -0.397: below 5 with 0.346.
    const m = of([check("guess", { value: closed("u", { u }), atLeast: bound("5") })], { allowance: 1e-4 });
    expect(m.rate).toBe(0);
    expect(m.belief).toEqual({ low: 0, middle: 0, high: 1 });
    expect(m.beliefOver).toBeCloseTo(0.346, 1);
  });
  test("but limits of a drawing that leave all windows open can't fail as drawn", () => {
    const m = of([check("limits", { value: closed("a", { a: number("a", "6 ±0.5") }), atLeast: bound("5") })]);
    expect(m).toMatchObject({ rate: 0, estimator: [0, 0] });
    expect(m.modes[0]).toMatchObject({ said: "cannot fail as drawn", importances: [], breaks: undefined });
  });
  test("where no check applies no mode is judged", () => {
    const off = check("off", { value: closed("a", { a: bound("1") }), atLeast: bound("0"), absent: () => "not here" });
    expect(of([off])).toMatchObject({ rate: 0, modes: [], notJudged: ["off"], words: "no mode is judged here" });
  });
});

test("the work can be left between two steps and tells how far it is", () => {
  const list = [spread(15)];
  const told: number[] = [];
  const steps = misfeedsInSteps(plainScene(), {
    deviates,
    checks: list,
    modes: modesOf(list),
    progress: (done, all) => told.push(done / all),
  });
  let pieces = 0;
  while (!steps.next().done) pieces++;
  expect(pieces).toBeGreaterThan(20);
  expect(told.at(-1)).toBe(1);
  expect([...told].sort((a, b) => a - b)).toEqual(told);
});
test("a unit with a drive has a rate for every mode whose checks apply, the same for one seed", () => {
  const scene = driven.scenes[0]![1];
  const m = misfeeds(scene, { deviates, draws: 20 });
  expect(m.modes.map(({ id }) => id)).toContain("film-slips");
  expect(m.notJudged.length + m.modes.length).toBe(modes.length);
  for (const { rate, estimator, belief, id } of m.modes) {
    expect(rate >= 0 && rate <= 1, id).toBe(true);
    expect(estimator[0] <= rate && rate <= estimator[1], id).toBe(true);
    expect(belief.low <= belief.middle && belief.middle <= belief.high && belief.high <= 1, id).toBe(true);
  }
  const few = modes.filter(({ id }) => ["film-slips", "hole-tears"].includes(id));
  const again = () => JSON.stringify(misfeeds(scene, { deviates, draws: 20, modes: few }));
  expect(again()).toBe(again());
});
