import type { Misfeeds, ModeRate } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { misfeedInput } from "./misfeed-input.ts";

const mode = (id: string, rate: number, high: number, said: ModeRate["said"] = "agree"): ModeRate => ({
  id,
  title: id,
  blames: "unit",
  checks: [],
  rate,
  estimator: [0.9 * rate, Math.max(1.1 * rate, 3e-10)],
  belief: { low: 0, middle: rate, high },
  levels: { reel: 0, unit: 0, index: 1 },
  importances: [],
  breaks: undefined,
  said,
  words: "",
  atPoint: undefined,
  measure: undefined,
  letter: "d",
  calls: 1,
});
const misfeeds: Misfeeds = {
  rate: 3e-6,
  estimator: [2.7e-6, 3.3e-6],
  belief: { low: 1e-7, middle: 3e-6, high: 2e-5 },
  said: "agree",
  words: "",
  medianPair: 1e-7,
  pair90: 1e-6,
  pair99: 1e-5,
  allowance: 1e-5,
  unitsOver: 0.02,
  pairsOver: 0.03,
  beliefOver: 0.1,
  clean1e4: 0.97,
  clean1e5: 0.75,
  modes: [
    mode("never", 0, 0, "cannot fail as drawn"),
    mode("unseen", 0, 0, "none found"),
    mode("seldom", 1e-7, 1e-6, "methods disagree"),
    mode("often", 2.9e-6, 1e-5),
  ],
  notJudged: [],
  draws: 100,
  calls: 1,
};
const of = { unit: "plover", tape: "so8-12" };

test("the likeliest mode stands first; what is not told apart says how far it was looked for", () => {
  const { modes, total, allowed, levels } = misfeedInput(misfeeds, of);
  expect(modes.map(({ key, kind }) => `${key}: ${kind}`)).toEqual([
    "often: rate",
    "seldom: rate",
    "never: cannot fail",
    "unseen: none found",
  ]);
  expect(modes[1]).toMatchObject({ disagrees: true, rate: { at: 1e-7, low: 0, high: 1e-6 } });
  expect(modes[3]).toMatchObject({ under: 1e-9 });
  expect(total).toEqual({ at: 3e-6, low: 1e-7, high: 2e-5 });
  expect(allowed).toBe(1e-5);
  expect(levels?.clean).toEqual({ indexes: 1e5, chance: 0.75 });
});
test("without an allowance or a rate that can be told there is none to draw", () => {
  const nothing = {
    ...misfeeds,
    rate: 0,
    belief: { low: 0, middle: 0, high: 0 },
    allowance: undefined,
    unitsOver: undefined,
  };
  const input = misfeedInput(nothing, of);
  expect(input.total).toBeUndefined();
  expect(input.allowed).toBeUndefined();
  expect(input.levels?.unitsOver).toBeUndefined();
});
