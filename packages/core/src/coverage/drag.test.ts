import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Check } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import { smalls } from "../study/allowance.fixture.ts";
import { decide } from "../study/allowance.ts";
import { Cell } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, check, closed, number, plainScene, solved } from "../study/plain.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { finished } from "../study/steps.ts";
import { movedBy } from "./cure.ts";
import { dragInSteps } from "./drag.ts";
import type { Finding } from "./finding.ts";
import { judgeInSteps, studyInSteps } from "./judge.ts";
import { shareHolding, verdictOf } from "./verdict.ts";

const deviates = new Deviates(1);
const even = alike(1000);
function dragged(checks: readonly Check[], members: readonly string[], { weights = even, reach = 1e-9 } = {}) {
  const scene = plainScene();
  const judging = { unit: "u", tape: "t", scene, checks, deviates, weights, contradicted: new Set<string>() };
  const studied = checks.map((one) => finished(studyInSteps(scene, one, deviates)));
  const { result } = finished(judgeInSteps(judging, studied));
  const drag = finished(dragInSteps({ judging, studied, result, members, reach }));
  return {
    scene,
    result,
    drag,
    finding: (by: number, id: string) => drag.at(by).findings.find((f) => f.check === id)!,
  };
}
/** Share of belief in which all of the checks hold with a number moved, from full draws. */
function drawn(checks: readonly Check[], members: readonly string[], by: number, weights = even) {
  const deciding = decide(new Cell(plainScene(), checks), deviates, { moved: movedBy(members, by) });
  return shareHolding(
    deciding.map(({ gap }) => gap),
    weights,
  );
}
const asGiven = (g: Given): number => new Realiser(plainScene(), [g]).run(asWritten).number(g);
const parts = [-0.3, -0.15, -0.05, 0.05, 0.15, 0.3];

describe("quick shares against full draws of the moved number", () => {
  // Moves of 5, 15 and 30 % of every number that scatters, in models with products, quotients, exponentials, windows and kinks.
  const cases = smalls.flatMap((small) =>
    small.inputs
      .filter((g) => g.expression)
      .map((g) => {
        const size = asGiven(g) || 1;
        const { drag } = dragged([small.check], [g.address]);
        return {
          name: `${small.name}, ${g.symbol}`,
          kinked: /kink|one way|both sides|bends/.test(small.name),
          at: parts.map((part) => {
            const by = part * size;
            return { part, quick: drag.at(by).share!, full: drawn([small.check], [g.address], by) };
          }),
        };
      }),
  );
  const errors = (list: typeof cases, parts: (part: number) => boolean) =>
    list.flatMap(({ at }) => at.filter(({ part }) => parts(Math.abs(part))).map(({ quick, full }) => quick - full));
  const rms = (x: readonly number[]) => Math.sqrt(x.reduce((sum, e) => sum + e * e, 0) / x.length);
  const smooth = cases.filter(({ kinked }) => !kinked);
  test("are right to 1 point for moves of 5 % and to 7 for 30 % where the models are smooth", () => {
    expect(smooth.length).toBeGreaterThan(12);
    expect(Math.max(...errors(smooth, (p) => p === 0.05).map(Math.abs))).toBeLessThan(0.0101);
    expect(Math.max(...errors(smooth, () => true).map(Math.abs))).toBeLessThan(0.07);
    expect(rms(errors(smooth, () => true))).toBeLessThan(0.015);
  });
  test("are right to 5 points for moves of 5 % and to 13 for 30 % where the models have kinks", () => {
    const kinked = cases.filter(({ kinked }) => kinked);
    expect(kinked.length).toBeGreaterThan(4);
    expect(Math.max(...errors(kinked, (p) => p === 0.05).map(Math.abs))).toBeLessThan(0.05);
    expect(Math.max(...errors(kinked, () => true).map(Math.abs))).toBeLessThan(0.13);
  });
  test("say another verdict only within 2 points of where it changes", () => {
    for (const { at } of cases)
      for (const { quick, full } of at)
        if (verdictOf(quick) !== verdictOf(full))
          expect(Math.min(Math.abs(full - 0.05), Math.abs(full - 0.95))).toBeLessThan(0.02);
  });

  // Random powers of two scattering numbers and an unknown, held against a random bound: a model a draw of the test, 40 in all.
  test("are right to 1.5 points on random smooth models, to 0.7 in the rms", () => {
    const power = fc.constantFrom(-1, 0.5, 1, 2);
    const found: number[] = [];
    fc.assert(
      fc.property(
        fc.record({
          p: power,
          q: power,
          r: power,
          sd: fc.integer({ min: 3, max: 15 }),
          tolerance: fc.integer({ min: 2, max: 30 }),
          spread: fc.integer({ min: 15, max: 40 }).map((v) => v / 10),
          room: fc.integer({ min: 105, max: 190 }).map((v) => v / 100),
          side: fc.constantFrom("atLeast" as const, "atMost" as const),
          percent: fc.integer({ min: -20, max: 20 }),
        }),
        ({ p, q, r, sd, tolerance, spread, room, side, percent }) => {
          const a = number("a", `2 ±${tolerance / 100}`);
          const b = number("b", `3 sd ${sd} %`);
          const u = number("u", `${(1 / spread).toFixed(4)}..${spread.toFixed(4)} guess`);
          const middle = 2 ** p * 3 ** q;
          const one = check("random", {
            value: closed(`a^(${p})*b^(${q})*u^(${r})`, { a, b, u }),
            [side]: number("bound", `${(side === "atLeast" ? middle / room : middle * room).toPrecision(6)}`),
          });
          const move = 2 * (percent / 100);
          found.push(dragged([one], ["a"]).drag.at(move).share! - drawn([one], ["a"], move));
        },
      ),
      { seed: 7, numRuns: 40 },
    );
    expect(Math.max(...found.map(Math.abs))).toBeLessThan(0.015);
    expect(rms(found)).toBeLessThan(0.007);
    expect(found.filter((e) => e !== 0).length).toBeGreaterThan(10);
  });
});

describe("a pair of checks that pull a number both ways", () => {
  // A grip of mu N n against a pull, and a slip before a strength: too little preload and too much both stop.
  const N = number("N", "6 ±0.5", { unit: "" });
  const mu = number("mu", "0.3..0.6 guess");
  const pulls = check("pulls", { value: closed("2*mu*N", { mu, N }), atLeast: number("P", "4.2 per reel sd 10 %") });
  const slips = check("slips", { value: closed("2*mu*N + 1", { mu, N }), atMost: number("F", "8 sd 8 %") });
  const other = check("other", { value: closed("u", { u: number("u", "1..3 guess") }), atLeast: number("l", "1.3") });
  const all = [pulls, slips, other];
  const weights = Float64Array.from({ length: 1000 }, (_, k) => (1 + Math.sin(k)) / 1000);

  test("has the share of belief in which both hold together, with what does not rest on the number as drawn", () => {
    const { drag, result } = dragged(all, ["N"], { weights });
    expect([...drag.checks]).toEqual(["pulls", "slips"]);
    for (const by of [-3, -1, -0.2, 0.4, 1.5, 4])
      expect(Math.abs(drag.at(by).share! - drawn(all, ["N"], by, weights))).toBeLessThan(0.03);
    expect(drag.at(-3).findings[2]).toBe(result.findings[2]);
  });
  test("is found as it was drawn where the number stands where it stood", () => {
    const { drag, result } = dragged(all, ["N"], { weights });
    drag.at(1.3);
    expect(drag.at(0)).toEqual(result);
  });
  test("gives the value, the bound and the ratio of the moved number, and the sentence of the check on screen", () => {
    const { drag, result, finding } = dragged(all, ["N"]);
    const f = drag.at(1, { told: "pulls" }).findings[0]!;
    const mid = Math.sqrt(0.3 * 0.6);
    expect(f.value).toBeCloseTo(2 * mid * 7, 12);
    expect(f.ratio).toBeCloseTo((2 * mid * 7) / 4.2, 12);
    expect(f.because).toBe("The value is 5.9.");
    expect(f.corners!.best - result.findings[0]!.corners!.best).toBeCloseTo(2 * mid, 12);
    expect(finding(1, "pulls").because).toBe(result.findings[0]!.because);
  });
  test("names what stops first as it stands then", () => {
    const { drag } = dragged(all, ["N"]);
    expect(drag.at(-3).first[0]).toBe("pulls");
    expect(drag.at(4).first[0]).toBe("slips");
  });
  test("has a margin that follows the drawn one, and ends at six", () => {
    const { drag, result } = dragged([pulls], ["N"]);
    const full = (by: number): Finding => {
      const moved = number("N", `${6 + by} ±0.5`);
      const value = closed("2*mu*N", { mu, N: moved });
      return dragged([check("pulls", { value, atLeast: pulls.atLeast! })], []).result.findings[0]!;
    };
    for (const by of [-1, -0.3, 0.3, 1]) expect(drag.at(by).findings[0]!.margin).toBeCloseTo(full(by).margin!, 0);
    expect(drag.at(60).findings[0]!.margin).toBe(6);
    expect(result.findings[0]!.margin).toBeLessThan(3);
  });
  test("is left alone by a number that nothing rests on", () => {
    const { drag, result } = dragged(all, ["nothing"]);
    expect(drag.checks.size).toBe(0);
    expect(drag.at(3)).toBe(result);
  });
  test("moves with all members by one distance", () => {
    const two = check("two", {
      value: closed("a + b", { a: number("a", "1 sd 0.1"), b: number("b", "2 sd 0.1") }),
      atLeast: number("least", "3.2"),
    });
    expect(dragged([two], ["a", "b"]).drag.at(0.5).findings[0]!.value).toBeCloseTo(4, 12);
  });
});

describe("a costly model", () => {
  const a = number("a", "10 ±0.2");
  const b = number("b", "3 sd 0.1");
  const u = number("u", "1..2 guess");
  const make = () => {
    let calls = 0;
    const value = (x: { a: number; b: number; u: number }): number => {
      calls++;
      return Math.hypot(x.a, x.b) - x.u;
    };
    const model = solved("costly", { a, b, u }, value, { costly: true });
    const plain = solved("plain", { a, b, u }, value);
    const held = (m: typeof model) => check("costly", { value: m, atLeast: number("least", "8.9") });
    return { costly: held(model), plain: held(plain), calls: () => calls };
  };
  test("is not computed at a step within the reach of its slopes, and once at a step for the pair on screen", () => {
    const { costly, calls } = make();
    const { drag } = dragged([costly], ["a"], { reach: 1 });
    const before = calls();
    for (const by of [0.1, -0.9, 0.99]) drag.at(by);
    expect(calls()).toBe(before);
    drag.at(0.5, { told: undefined });
    expect(calls()).toBe(before + 1);
  });
  test("is computed once beyond the reach, until its slopes are taken afresh there", () => {
    const { costly, calls } = make();
    const { drag } = dragged([costly], ["a"], { reach: 1 });
    let before = calls();
    drag.at(1.5);
    expect(calls()).toBe(before + 1);
    finished(drag.renew(1.5));
    before = calls();
    drag.at(1.7);
    drag.at(2.4);
    expect(calls()).toBe(before);
    finished(drag.renew(1.55));
    expect(calls()).toBe(before);
  });
  test("gives shares within 2 points of full draws, by its slopes and by itself", () => {
    const { costly, plain } = make();
    const { drag } = dragged([costly], ["a"], { reach: 1 });
    for (const by of [-0.8, -0.3, 0.2, 0.7]) {
      const full = drawn([plain], ["a"], by);
      expect(Math.abs(drag.at(by).share! - full)).toBeLessThan(0.02);
      expect(Math.abs(drag.at(by, { told: undefined }).share! - full)).toBeLessThan(0.02);
    }
  });
  test("with an answer only away from where it was drawn is found there", () => {
    const stuck = solved(
      "stuck",
      { a, u },
      (x: { a: number; u: number }) => {
        if (x.a < 10.5) throw new RangeError("stuck");
        return x.a - x.u;
      },
      { costly: true },
    );
    const one = check("stuck", { value: stuck, atLeast: number("least", "2") });
    const { drag, result } = dragged([one], ["a"], { reach: 4 });
    expect(result.verdict).toBe("stops");
    expect(drag.at(2).verdict).toBe("feeds");
    expect(drag.at(2).findings[0]!.value).toBeCloseTo(12 - Math.SQRT2, 12);
    expect(drag.at(0)).toEqual(result);
  });
});
