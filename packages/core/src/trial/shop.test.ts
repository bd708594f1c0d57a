import { describe, expect, test } from "vitest";
import { Deviates } from "../study/deviates.ts";
import { Stream } from "../study/stream.ts";
import { usualCosts } from "./costs.ts";
import { runShop, type Shop, weighedBy } from "./shop.ts";

const draws = 1000;
const even = new Float64Array(draws).fill(1 / draws);
const u = new Deviates(3).normal("u", draws).map((z) => Math.exp(0.2 * z));
/** One pair that fails where u is above 1.1. */
const shop = (truth: number, error = 0.02): Shop => ({
  unknowns: [{ address: "u", values: u, truth, days: 0.1, error }],
  pairs: [
    {
      unit: "a",
      tape: "t",
      checks: [
        {
          id: "c",
          station: 4,
          holds: Uint8Array.from(u, (v) => (v > 1.1 ? 0 : 1)),
          truth: truth <= 1.1,
          rests: [[0, 1.1]],
        },
      ],
    },
  ],
  weights: even,
  costs: usualCosts,
});
const stream = () => new Stream(1, "shop");

describe("a shop with one unknown", () => {
  test("measures it once and promises what holds", () => {
    expect(runShop(shop(0.9), "our order", stream())).toEqual({
      tried: 0.1,
      days: 0.1,
      trials: 1,
      drawnAnew: false,
      forNothing: false,
      promised: 1,
      wrong: 0,
    });
  });
  test("measures it once and draws anew what fails, which is no loss", () => {
    expect(runShop(shop(1.4), "our order", stream())).toEqual({
      tried: 0.1,
      days: 0.1,
      trials: 1,
      drawnAnew: true,
      forNothing: false,
      promised: 0,
      wrong: 0,
    });
  });
  test("that builds the whole unit first pays 12 days for the same answer", () => {
    expect(runShop(shop(0.9), "whole prototype first", stream()).tried).toBe(12);
  });
  test("pays for a promise that does not hold", () => {
    const wrong = {
      ...shop(0.9),
      pairs: [{ ...shop(0.9).pairs[0]!, checks: [{ ...shop(0.9).pairs[0]!.checks[0]!, truth: false }] }],
    };
    expect(runShop(wrong, "every card, random order", stream())).toMatchObject({
      wrong: 1,
      days: 0.1 + usualCosts.late.printed,
    });
  });
});
test("the series ends with the first stop: what else is open is not tried any more", () => {
  const two = shop(1.4);
  const v = new Deviates(3).normal("v", draws).map((z) => Math.exp(0.2 * z));
  const other = { address: "v", values: v, truth: 0.9, days: 5, error: 0.02 };
  const check = {
    id: "d",
    station: 5 as const,
    holds: Uint8Array.from(v, (x) => (x > 1.1 ? 0 : 1)),
    truth: true,
    rests: [[1, 1.1]] as const,
  };
  const both = {
    ...two,
    unknowns: [...two.unknowns, other],
    pairs: [{ ...two.pairs[0]!, checks: [...two.pairs[0]!.checks, check] }],
  };
  expect(runShop(both, "our order", stream())).toMatchObject({
    trials: 1,
    tried: 0.1,
    drawnAnew: true,
    forNothing: false,
  });
});
test("what surely stops at the start is neither tried nor promised", () => {
  const lost = {
    ...shop(0.9).pairs[0]!,
    tape: "wide",
    checks: [{ ...shop(0.9).pairs[0]!.checks[0]!, holds: new Uint8Array(draws), truth: false }],
  };
  const both = { ...shop(0.9), pairs: [...shop(0.9).pairs, lost] };
  expect(runShop(both, "our order", stream())).toMatchObject({ promised: 1, wrong: 0, drawnAnew: false });
});
test("the same stream gives the same end", () => {
  expect(runShop(shop(1.12, 0.1), "our order", stream())).toEqual(runShop(shop(1.12, 0.1), "our order", stream()));
});
test("a reading far beyond all draws leaves at least twenty of them", () => {
  const after = weighedBy(even, u, 3, 0.02);
  expect(1 / after.reduce((s, w) => s + w * w, 0)).toBeGreaterThanOrEqual(20);
  expect(after.reduce((s, w, k) => s + w * u[k]!, 0)).toBeGreaterThan(1.4);
});
// Normal belief of the logarithm, sd 0.2, and a reading at ln 1.2 with sd 0.1: mean 0.8 ln 1.2, sd 0.2/sqrt(5), to first order in the error's share. [derived]
test("a reading weighs the draws as the normal law says", () => {
  const after = weighedBy(even, u, 1.2, 0.1);
  expect(after.reduce((s, w, k) => s + w * Math.log(u[k]!), 0)).toBeCloseTo(0.8 * Math.log(1.2), 1);
});
