import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Check } from "../quantity/check.ts";
import { believed } from "../quantity/law.ts";
import { decide, quantile } from "../study/allowance.ts";
import { beliefColumn, beliefDraws, Cell, scatterColumn } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, number } from "../study/plain.fixture.ts";
import { beliefPoints } from "../study/points.ts";
import { type Climbing, climb } from "./climb.ts";
import { atMost, piece, sceneAt, step } from "./family.fixture.ts";
import { shareHolding } from "./verdict.ts";

const deviates = new Deviates(1);
const even = alike(beliefDraws);
const climbing = (checks: readonly Check[], more: Partial<Climbing> = {}): Climbing => ({
  checks,
  deviates,
  weights: even,
  contradicted: new Set(),
  ...more,
});
const limit = number("limit", "13..18 guess");
const scatter = number("e", "0 sd 0.3");
const grows = atMost("grows", "W + e", limit, { e: scatter });
const rootOf = (found: ReturnType<typeof climb>, check: string | undefined, point: string) =>
  found.roots.filter((r) => r.check === check && r.point === point).map((r) => r.W);

/** Deciding gap L - W - e over belief, worked out apart: the limit's own draws less the 98 % point of the scatter's. */
const limits = beliefColumn(deviates, limit).map((z) => believed(limit.unknown!, z));
const allowance = -quantile(
  scatterColumn(deviates, scatter, 0).map((z) => -0.3 * z),
  0.02,
);

describe("a gap that falls evenly with the width", () => {
  const found = climb(piece(12, 20), climbing([grows]));
  test.each(["low", "middle", "high"] as const)("is nought at its %s point where it is by hand", (point) => {
    const expected = beliefPoints(limits, even)[point] - allowance;
    expect(rootOf(found, "grows", point)).toEqual([expect.closeTo(expected, 2)]);
  });
  test("is looked at at both ends and three widths between", () => {
    expect(found.rungs.map((r) => r.W)).toEqual([12, 14, 16, 18, 20]);
    const gap = (W: number) => found.rungs.find((r) => r.W === W)!.checks[0]!.gap.middle;
    for (const W of [12, 14, 16, 18, 20])
      expect(gap(W)).toBeCloseTo(beliefPoints(limits, even).middle - allowance - W, 2);
  });
  test("makes the whole unit turn with its only check", () => {
    expect(rootOf(found, undefined, "low")).toEqual(rootOf(found, "grows", "low"));
    expect(rootOf(found, undefined, "high")).toEqual(rootOf(found, "grows", "high"));
  });
  // Normal scatter: the margin is the gap as written in standard deviations. [derived]
  test("has the margin -Phi^-1 of the chance, at each point of belief", () => {
    const { margin } = found.rungs[2]!.checks[0]!;
    const { low, middle, high } = beliefPoints(limits, even);
    expect(margin.middle).toBeCloseTo((middle - 16) / 0.3, 1);
    expect(margin.low).toBeCloseTo(Math.max(-6, (low - 16) / 0.3), 1);
    expect(margin.high).toBeCloseTo(Math.min(6, (high - 16) / 0.3), 1);
  });
  test("moves with the weights of belief", () => {
    const weights = limits.map((L) => (L > 15 ? 3 : 1));
    const weighed = climb(piece(12, 20), climbing([grows], { weights }));
    for (const point of ["low", "middle", "high"] as const)
      expect(rootOf(weighed, "grows", point)).toEqual([
        expect.closeTo(beliefPoints(limits, weights)[point] - allowance, 2),
      ]);
    expect(rootOf(weighed, "grows", "middle")[0]).toBeGreaterThan(rootOf(found, "grows", "middle")[0]! + 0.2);
  });
});

test("a curved gap that turns twice is nought twice", () => {
  const dip = atMost("dip", "4 - (W - 16)^2 + e", number("nought", "0"), { e: scatter });
  const [a, b] = rootOf(climb(piece(12, 20), climbing([dip])), "dip", "middle");
  // (W - 16)^2 = 4 + allowance. By hand. [derived]
  expect([a, b]).toEqual([
    expect.closeTo(16 - Math.sqrt(4 + allowance), 2),
    expect.closeTo(16 + Math.sqrt(4 + allowance), 2),
  ]);
});
test("without scatter and without unknowns the three points are one", () => {
  const plain = atMost("plain", "W^2", number("bound", "200"));
  const found = climb(piece(12, 16), climbing([plain]));
  expect(found.roots.map((r) => [r.check, r.point, +r.W.toFixed(2)])).toEqual([
    ["plain", "low", 14.14],
    ["plain", "middle", 14.14],
    ["plain", "high", 14.14],
    [undefined, "low", 14.14],
    [undefined, "high", 14.14],
  ]);
});
test("two checks that each hold in most of belief turn the unit before either of them", () => {
  const other = number("other", "13..18 guess");
  const both = [grows, atMost("too", "W + e", other, { e: scatter })];
  const found = climb(piece(12, 20), climbing(both));
  const others = beliefColumn(deviates, other).map((z) => believed(other.unknown!, z));
  const least = limits.map((L, k) => Math.min(L, others[k]!));
  expect(rootOf(found, undefined, "low")).toEqual([expect.closeTo(beliefPoints(least, even).low - allowance, 2)]);
  expect(rootOf(found, undefined, "high")).toEqual([expect.closeTo(beliefPoints(least, even).high - allowance, 2)]);
  for (const check of ["grows", "too"])
    expect(rootOf(found, undefined, "low")[0]).toBeLessThan(rootOf(found, check, "low")[0]!);
});
test("a check that stops no tape, or that the record contradicts, does not turn the unit", () => {
  const soft = { ...grows, severity: "A" as const };
  expect(climb(piece(12, 20), climbing([soft])).rungs.map((r) => r.share)).toEqual([null, null, null, null, null]);
  const found = climb(
    piece(12, 20),
    climbing([grows, atMost("fine", "W", number("far", "99"))], { contradicted: new Set(["grows"]) }),
  );
  expect(found.rungs.map((r) => r.share)).toEqual([1, 1, 1, 1, 1]);
  expect(rootOf(found, undefined, "low")).toEqual([]);
  expect(rootOf(found, "grows", "low")).toHaveLength(1);
});

describe("at the wider end of a piece", () => {
  // Nonlinear in the scatter, so that the quick way is off: true draws decide there.
  const crooked = atMost("crooked", "W*(1 + e^3)", limit, { e: scatter });
  const found = climb(piece(12, 16), climbing([grows, crooked]));
  test("shares are those of check, to the last bit", () => {
    const cell = new Cell(sceneAt(16), [grows, crooked]);
    const decided = decide(cell, deviates);
    const last = found.rungs.at(-1)!;
    decided.forEach(({ gap }, c) => {
      expect(last.checks[c]!.share).toBe(shareHolding([gap], even));
      expect(last.checks[c]!.gap).toEqual(beliefPoints(gap, even));
    });
    expect(last.share).toBe(
      shareHolding(
        decided.map(({ gap }) => gap),
        even,
      ),
    );
  });
  test("what does not feed is named, the least share first", () => {
    const { first, checks } = found.rungs.at(-1)!;
    const share = (id: string) => checks.find((c) => c.check === id)!.share;
    expect([...first].sort()).toEqual(["crooked", "grows"]);
    expect(share(first[0]!)).toBeLessThanOrEqual(share(first[1]!));
  });
});

describe("a step", () => {
  const pitch = atMost("pitch", "P1 + e", number("most", "10"), { e: scatter });
  const found = climb(piece(16, 24, { P1: 12, steps: [step("P1 8 to 12 mm")] }), climbing([grows, pitch]));
  test("moves the checks that rest on what takes it, and no others", () => expect(found.moves).toEqual([["pitch"]]));
});
test("a check that does not apply has no point, and says why", () => {
  const absent = atMost("absent", "W", number("far", "99"), {}, { absent: () => "the unit has no nip" });
  const [rung] = climb(piece(12, 16), climbing([grows, absent])).rungs;
  expect(rung!.checks.map((c) => c.check)).toEqual(["grows"]);
  expect(rung!.absent).toEqual({ absent: "the unit has no nip" });
});
test("where the unit cannot be cut to a width nothing is said of any check, and what can be is", () => {
  const broken = piece(12, 20, {
    scene: (W) => (W > 15 ? "units/one.yaml:3:4: found -1 mm, expected more" : sceneAt(W)),
  });
  const { rungs } = climb(broken, climbing([atMost("plain", "W", number("far", "99"))]));
  expect(rungs.map((r) => [r.W, r.share, r.uncut !== undefined])).toEqual([
    [12, 1, false],
    [14, 1, false],
    [16, null, true],
    [18, null, true],
    [20, null, true],
  ]);
});
test("a gap that falls with the width has its points in order, and each root is where its sign turns", () => {
  const one = fc.record({
    low: fc.double({ min: 8.5, max: 14, noNaN: true }),
    wide: fc.double({ min: 0.2, max: 8, noNaN: true }),
    sd: fc.double({ min: 0.05, max: 1, noNaN: true }),
    power: fc.integer({ min: 1, max: 3 }),
  });
  fc.assert(
    fc.property(one, ({ low, wide, sd, power }) => {
      const bound = number("bound", `${low.toFixed(3)}..${(low + wide).toFixed(3)} guess`);
      const e = number("e", `0 sd ${sd.toFixed(3)}`);
      const falls = atMost("falls", `W^${power}/20^${power - 1} + e`, bound, { e });
      const found = climb(piece(8, 20), climbing([falls]));
      const roots = (["low", "middle", "high"] as const).flatMap((point) => rootOf(found, "falls", point));
      expect([...roots].sort((a, b) => a - b)).toEqual(roots);
      for (const { point, W } of found.roots.filter((r) => r.check === "falls")) {
        const [a, b] = [W - 0.05, W + 0.05].map(
          (at) => beliefPoints(decide(new Cell(sceneAt(at), [falls]), deviates)[0]!.gap, even)[point],
        );
        expect([point, a! >= 0, b! < 0]).toEqual([point, true, true]);
      }
    }),
    { seed: 813, numRuns: 25 },
  );
});
