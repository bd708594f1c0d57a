import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Check } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import type { Scene } from "../scene.ts";
import { decide } from "../study/allowance.ts";
import { beliefDraws, Cell } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, check, closed, number, plainScene } from "../study/plain.fixture.ts";
import { type CureEffect, curesOf, drawAtRank, effectsOf, holdsAt, worstFirst } from "./cure.ts";
import { shareHolding } from "./verdict.ts";

const deviates = new Deviates(1);
const even = alike(beliefDraws);
/** A scene whose unit's file holds these numbers. */
const sceneOf = (...givens: readonly Given[]): Scene => ({
  ...plainScene(),
  unit: { name: "test", givens: new Map(givens.map((g) => [g.address, g])), film: {} } as unknown as Scene["unit"],
});
const ends = 1.959963984540054;
/** The 1000 frictions believed in, 0.2 to 0.6, ascending. */
const frictions = Array.from(
  deviates.normal("belief mu", beliefDraws),
  (z) => Math.sqrt(0.12) * 3 ** (z / (2 * ends)),
).sort((a, b) => a - b);
const mu = number("mu", "0.2..0.6 guess");
const preload = (text = "4 N", lever: readonly [number, number] = [0.5, 30], address = "unit/preload") =>
  number(address, text, { unit: "N", lever });
const pulls = (N: Given, least = "2 N"): Check =>
  check("pulls", { value: closed("N*mu", { N, mu }, { unit: "N" }), atLeast: number("least", least, { unit: "N" }) });

describe("the number that cures a check", () => {
  // Without scatter N mu >= 2 must hold for all but 50 of the 1000 frictions: N = 2/mu of the 51st. Written to two figures, upward.
  test("is the root at the belief draw that 5 % of belief lies below, rounded the safe way", () => {
    const N = preload();
    const { cures, levers } = curesOf(sceneOf(N), pulls(N), deviates, even);
    const needed = 2 / frictions[50]!;
    const written = Math.ceil(needed * 10) / 10;
    expect(levers).toBe(1);
    expect(cures).toHaveLength(1);
    expect(cures[0]!.to).toBeCloseTo(written, 12);
    expect(cures[0]!.share).toBeCloseTo(frictions.filter((m) => m * written >= 2).length / 1000, 12);
    expect(cures[0]!.members).toEqual([{ address: "unit/preload", text: "4 N", written: `${+written.toFixed(1)} N` }]);
  });
  // 2 % of pairs may break it: 0.048 of the way up from the lower limit of +-0.1 mm, so 1.096 mm, written 1.10.
  test("leaves room for the scatter that the allowance asks for", () => {
    const L = number("unit/L", "1.0 ±0.1 mm", { unit: "mm", lever: [0.5e-3, 5e-3] });
    const wide = check("wide", {
      value: closed("L", { L }, { unit: "m" }),
      atLeast: number("least", "1 mm", { unit: "mm" }),
    });
    const [cure] = curesOf(sceneOf(L), wide, deviates, even).cures;
    expect(cure!.to * 1e3).toBeCloseTo(1.1, 9);
    expect(cure!.members[0]!.written).toBe("1.1 ±0.1 mm");
  });
  test("goes down where the upper bound is broken", () => {
    const N = preload("9 N");
    const slips = check("slips", {
      value: closed("N*mu", { N, mu }, { unit: "N" }),
      atMost: number("most", "3 N", { unit: "N" }),
    });
    const [cure] = curesOf(sceneOf(N), slips, deviates, even).cures;
    expect(cure!.to).toBeCloseTo(Math.floor((3 / frictions[949]!) * 10) / 10, 12);
  });
  // A tolerance that a text reads through a name stays in it: 0.3 mm would be cured to the bound, +-0.15 mm ask for 0.144 more.
  test("keeps the scatter of what its text reads", () => {
    const gap = number("unit/let.gap", "0.2 ±0.15 mm", { unit: "mm" });
    const depth = number("unit/depth", "gap + 0.1 mm", { unit: "mm", names: { gap }, lever: [0, 5e-3] });
    const deep = check("deep", {
      value: closed("d", { d: depth }, { unit: "m" }),
      atLeast: number("least", "1 mm", { unit: "mm" }),
    });
    const [cure] = curesOf(sceneOf(gap, depth), deep, deviates, even).cures;
    expect(cure!.to * 1e3).toBeCloseTo(1.15, 9);
    expect(cure!.members[0]!.written).toBe("gap + 0.95 mm");
  });
  test("is the name's own number where a text only repeats a name", () => {
    const rin = number("unit/let.rin", "20 mm", { unit: "mm" });
    const radius = number("unit/radius", "rin", { unit: "mm", names: { rin }, lever: [5e-3, 0.2] });
    const bend = check("bend", {
      value: closed("r", { r: radius }, { unit: "m" }),
      atLeast: number("least", "30 mm", { unit: "mm" }),
    });
    const [cure] = curesOf(sceneOf(rin, radius), bend, deviates, even).cures;
    expect(cure!.address).toBe("unit/let.rin");
    expect(cure!.members[0]!.written).toBe("30 mm");
  });
  test("comes first where it does most for its share of the bounds; three are named at most", () => {
    const list = [1, 2, 3, 4].map((slope) => ({
      slope,
      N: number(`unit/n${slope}`, "1", { lever: [0, 100] }),
    }));
    const sum = check("sum", {
      value: closed("a + 2*b + 3*c + 4*d", { a: list[0]!.N, b: list[1]!.N, c: list[2]!.N, d: list[3]!.N }),
      atLeast: number("least", "20"),
    });
    const { cures, levers } = curesOf(sceneOf(...list.map((l) => l.N)), sum, deviates, even);
    expect(levers).toBe(4);
    expect(cures.map((c) => c.address)).toEqual(["unit/n4", "unit/n3", "unit/n2"]);
    expect(cures.map((c) => c.to)).toEqual([3.5, expect.closeTo(4.4, 9), 6]);
  });
  test("is none where the bounds end before; the best at them is told", () => {
    const N = preload("4 N", [0.5, 5]);
    const found = curesOf(sceneOf(N), pulls(N), deviates, even);
    expect(found.cures).toEqual([]);
    expect(found.nearest!.to).toBeCloseTo(5, 9);
    expect(found.nearest!.share).toBeCloseTo(frictions.filter((m) => m * 5 >= 2).length / 1000, 12);
  });
  test("is no guess, and nothing the check does not rest on", () => {
    const guess = number("unit/guess", "1..3 guess", { lever: [0, 10] });
    const other = number("unit/other", "1", { lever: [0, 10] });
    const one = check("one", { value: closed("g", { g: guess }), atLeast: number("least", "2") });
    expect(curesOf(sceneOf(guess, other), one, deviates, even)).toEqual({ check: "one", cures: [], levers: 0 });
  });
  test("counts belief by its weight", () => {
    const N = preload();
    // Nobody believes in frictions below 0.3 any more.
    const weights = Float64Array.from(deviates.normal("belief mu", beliefDraws), (z) =>
      Math.sqrt(0.12) * 3 ** (z / (2 * ends)) < 0.3 ? 0 : 1,
    );
    const left = frictions.filter((m) => m >= 0.3);
    const [cure] = curesOf(sceneOf(N), pulls(N), deviates, weights).cures;
    expect(cure!.to).toBeCloseTo(Math.ceil((2 / left[Math.floor(0.05 * left.length)]!) * 10) / 10, 9);
  });
  test("taken as written, it turns the check: any window with one lever", () => {
    const text = fc
      .tuple(fc.integer({ min: 5, max: 80 }), fc.integer({ min: 1, max: 20 }))
      .map(([v, sd]) => `${v / 10} N sd ${sd} %`);
    fc.assert(
      fc.property(text, fc.double({ min: 0.2, max: 6, noNaN: true }), (now, least) => {
        const N = preload(now);
        const scene = sceneOf(N);
        const [cure] = curesOf(scene, pulls(N, `${least} N`), deviates, even).cures;
        if (!cure) return;
        const rewritten = preload(cure.members[0]!.written);
        const cell = new Cell(sceneOf(rewritten), [pulls(rewritten, `${least} N`)]);
        const share = shareHolding([decide(cell, deviates)[0]!.gap], even);
        expect(share).toBeGreaterThanOrEqual(0.95);
        expect(share).toBeCloseTo(cure.share, 2);
      }),
      { seed: 7, numRuns: 40 },
    );
  });
});

describe("what a cure costs", () => {
  const N = preload("4 N");
  const slips = check("slips", {
    value: closed("N*mu", { N, mu }, { unit: "N" }),
    atMost: number("most", "3 N", { unit: "N" }),
  });
  const annoys = check("annoys", {
    severity: "N",
    value: closed("N", { N }, { unit: "N" }),
    atMost: number("quiet", "5 N", { unit: "N" }),
  });
  const aside = check("aside", { value: closed("mu", { mu }), atLeast: number("rough", "0.25") });
  const checks = [pulls(N), slips, annoys, aside];
  const scene = sceneOf(N);
  const held = new Map(
    decide(new Cell(scene, checks), deviates).map(({ gap }, i) => [checks[i]!.id, holdsAt(gap)] as const),
  );
  const on = { tape: "t", scene, checks, deviates, weights: even, contradicted: new Set<string>(), held };
  const share = (holds: (m: number) => boolean) => frictions.filter(holds).length / 1000;
  test("is told verdict by verdict and check by check, the hard ones with their share together", () => {
    const [effect] = effectsOf(on, [{ members: ["unit/preload"], by: 6 }]);
    const all = (n: number) => share((m) => n * m >= 2 && n * m <= 3 && m >= 0.25);
    expect(effect!.before.share).toBeCloseTo(all(4), 12);
    expect(effect!.after.share).toBeCloseTo(all(10), 12);
    expect(effect!.checks).toEqual([
      { check: "pulls", severity: "S", before: "depends", after: "feeds" },
      { check: "slips", severity: "S", before: "feeds", after: "depends" },
      { check: "annoys", severity: "N", before: "feeds", after: "stops" },
    ]);
  });
  test("is nothing where the tape does not rest on what moves", () => {
    expect(effectsOf(on, [{ members: ["unit/elsewhere"], by: 4 }])).toEqual([undefined]);
  });
  test("leaves out what the record contradicts", () => {
    const [effect] = effectsOf({ ...on, contradicted: new Set(["pulls", "aside"]) }, [
      { members: ["unit/preload"], by: 6 },
    ]);
    expect(effect!.after.share).toBeCloseTo(
      share((m) => 10 * m <= 3),
      12,
    );
  });
  test("stands worst first: verdicts lost, then checks lost, then share", () => {
    const effect = (
      tape: string,
      before: "feeds" | "depends" | "stops",
      after: "feeds" | "depends" | "stops",
      lost = false,
      shares: readonly [number, number] = [1, 1],
    ): CureEffect => ({
      tape,
      W: 12,
      before: { verdict: before, share: shares[0] },
      after: { verdict: after, share: shares[1] },
      checks: lost ? [{ check: "c", severity: "S", before: "feeds", after: "stops" }] : [],
    });
    const order = worstFirst([
      effect("gains", "stops", "feeds"),
      effect("drops", "feeds", "feeds", false, [1, 0.96]),
      effect("breaks", "stops", "stops", true),
      effect("falls", "feeds", "stops"),
      effect("slides", "feeds", "depends"),
    ]).map((e) => e.tape);
    expect(order).toEqual(["falls", "slides", "breaks", "drops", "gains"]);
  });
});

test("the draw at a rank is the first that more than that share of belief does not lie below", () => {
  const gap = Float64Array.of(3, 1, 2, 5, 4);
  expect(drawAtRank(gap, Float64Array.of(1, 1, 1, 1, 1), 0.05)).toBe(1);
  expect(drawAtRank(gap, Float64Array.of(1, 1, 1, 1, 1), 0.2)).toBe(2);
  expect(drawAtRank(gap, Float64Array.of(1, 0, 0, 1, 1), 0.1)).toBe(0);
});
