import { describe, expect, test } from "vitest";
import { driven, nominal, outside, scenes } from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { chainOf } from "./chain.ts";
import { bowAcross, sideKept, sideWander, yawKeptAlong, yawWanderAlong } from "./in-play.ts";
import { partAlong, partThrown, partTurn } from "./in-pocket.ts";
import { spreadOf } from "./radius.ts";
import { pitchAddedUp, pocketAlong, singleHole, widerHole } from "./reel-errors.ts";
import { warmMean, warmReach } from "./warm.ts";
import { eccentricity, seatFlips } from "./wheel-errors.ts";

const v = (m: { value(x: Readonly<Record<string, unknown>>): number }, x: Readonly<Record<string, unknown>>) =>
  m.value(x);

// The battery sees what the check reads; height and turn are read by the study alone.
test("every term of every scene is what its equation says, and a finite number", () => {
  for (const [name, one] of scenes)
    for (const { parts } of chainOf(one))
      for (const { by } of parts) {
        const run = new Realiser(one, [by]).run(asWritten);
        const code = by.value(run.inputsOf(by, one));
        expect(code, `${by.id} in ${name}`).toSatisfy(Number.isFinite);
        expect(run.number(by), `${by.id} in ${name}`).toBeCloseTo(code, 15);
        expect(outside(by, run.inputsOf(by, one))).toEqual([]);
      }
});
describe("a reel", () => {
  // 14 mm of 4 mm pitches, each 0.02 mm long: 3.5 times 20 um. [by hand]
  test("that is long by 0.02 mm a pitch moves the pick by 70 um, 14 mm from the wheel", () => {
    expect(v(pitchAddedUp, { q_t: 1, s_w: 0.014, s_p: 0, P: 4.02e-3, P_w: 4e-3 })).toBeCloseTo(70e-6, 12);
    expect(v(pitchAddedUp, { q_t: 1, s_w: 0, s_p: 0.014, P: 4.02e-3, P_w: 4e-3 })).toBeCloseTo(70e-6, 12);
  });
  test("uses its share of the catalogue's limits", () => {
    expect(v(pocketAlong, { q_t: 0.4, X: 2.05e-3, X_m: 2e-3 })).toBeCloseTo(20e-6, 12);
    expect(v(singleHole, { q_t: 0.4, e_1: 0.1e-3 })).toBeCloseTo(40e-6, 12);
  });
  test("with wider holes lies farther back, by half of what they are wider", () =>
    expect(v(widerHole, { q_t: 1, X: 1.6e-3, X_m: 1.55e-3 })).toBeCloseTo(-25e-6, 12));
});
describe("play", () => {
  // A review of the working notes, B1: 0.225 mm over 60 mm, 11.5 mm from the hole line: 43 um. [read]
  test("of 0.225 mm over 60 mm moves a 24 mm tape's pick by 43 um, where it keeps to one wall", () =>
    expect(v(yawKeptAlong, { q_s: 0, psi: 0.225 / 60, F: 11.5e-3 }) * 1e6).toBeCloseTo(43.125, 9));
  test("is split between what is kept and what wanders: together they reach the end of it, whatever the share", () => {
    for (const q_s of [0, 0.3, 1]) {
      const x = { q_s, psi: 4e-3, F: 10e-3 };
      expect(v(yawKeptAlong, x) + v(yawWanderAlong, x)).toBeCloseTo(40e-6, 12);
      const y = { q_s, t_s: 1, j_y: 0.2e-3 };
      expect(v(sideKept, y) + v(sideWander, y)).toBeCloseTo(0.1e-3, 12);
    }
  });
  test("a bow moves nothing at the wheel nor at the walls' far end, and most half way", () => {
    const at = (s_p: number) => v(bowAcross, { t_k: 1, k: 1e-3, s_w: 0, s_p, l: 0.06, L_0: 0.25 });
    expect(at(0)).toBe(0);
    expect(at(0.06)).toBe(0);
    // 1 mm over 250 mm is 0.0576 mm over 60 mm: by the square of the length. [by hand]
    expect(at(0.03)).toBeCloseTo(0.0576e-3, 9);
  });
});
test("a part fills what its pocket leaves: thrown to the wall and wandering it reaches it; one too large neither", () => {
  const x = { A_0: 6.4e-3, l_p: 6e-3, B_0: 5.2e-3, w_p: 5e-3 };
  for (const q_p of [0.1, 0.6])
    expect(v(partThrown, { q_p, ...x }) + v(partAlong, { q_p, ...x })).toBeCloseTo(0.2e-3, 12);
  expect(v(partAlong, { q_p: 0.5, A_0: 5e-3, l_p: 6e-3 })).toBe(0);
  // 0.4 over 5.0 mm and 0.2 over 6.0 mm: the lesser. [by hand]
  expect(v(partTurn, { q_p: 1, ...x })).toBeCloseTo(0.2 / 6, 12);
});
test("a shift of 58 um from cold to warm is 29 um either way about what was taught half way", () => {
  expect(v(warmReach, { e_x: 58e-6 })).toBeCloseTo(29e-6, 12);
  expect(v(warmMean, { t_w: 0, e_x: 58e-6 })).toBe(0);
  expect(v(warmMean, { t_w: -1, e_x: 58e-6 })).toBeCloseTo(-29e-6, 12);
});
test("a wheel that runs out by 30 um moves the tape by 15 um either way, a flip of 0.45 mm by 225 um", () => {
  expect(v(eccentricity, { e_w: 30e-6 })).toBeCloseTo(15e-6, 12);
  expect(v(seatFlips, { x_j: 0.45e-3 })).toBeCloseTo(225e-6, 12);
});
test("what one place swings goes together, what two swing adds by variance", () => {
  const together = spreadOf([{ swing: "even", by: [3, 4] }]);
  expect([together.a, together.s]).toEqual([7, 0]);
  const apart = spreadOf([
    { swing: "even", by: [3] },
    { swing: "even", by: [4] },
  ]);
  expect([apart.a, apart.s]).toEqual([4, Math.sqrt(3)]);
  // sd of a sine is its reach over root two. [by hand]
  expect(spreadOf([{ swing: "turn", by: [2] }]).s).toBeCloseTo(Math.SQRT2, 12);
  expect(
    spreadOf([
      { swing: "none", by: [2] },
      { swing: "none", by: [-5] },
    ]).v,
  ).toBe(-3);
});
test("a wheel's file may give its runout", () => {
  const sheet = driven.sheetScene();
  const runout = sheet.requirement.assume["wheel runout"];
  const own = { ...sheet, unit: { ...sheet.unit, sprocket: { ...sheet.unit.sprocket!, runout } } };
  expect(nominal(own, eccentricity)).toBe(nominal(sheet, eccentricity));
});
