import { describe, expect, test } from "vitest";
import { embossedTape, heldByLeaf, heldByRib, nominal, oneSeal, scene, written } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import { checkLeafFatigue } from "./fatigue.ts";
import {
  heldLeaf,
  leafBuilt,
  leafHighest,
  leafMean,
  leafRate,
  leafStress,
  leafStressRate,
  leafSwing,
  noLeaf,
} from "./held.ts";
import { checkLeafRelaxes } from "./relaxes.ts";
import { checkLeafStress } from "./stress.ts";

const mm = 1e-3;
const beam = { L: 24 * mm, b: 5 * mm, b_t: 5 * mm, t: 0.15 * mm, E: 182e9, nu: 0, alpha: 0 };
const EI = (beam.E * beam.b * beam.t ** 3) / 12;
const Z = (beam.b * beam.t ** 2) / 6;
const held = scene(heldByLeaf(12), embossedTape(12));
/** The same unit with other numbers of its hold-down; undefined takes one out. */
const withLeaf = (more: object): Scene => {
  const unit = heldByLeaf(12);
  const all = Object.entries({ ...unit["hold-down"], ...more }).filter(([, v]) => v !== undefined);
  return scene({ ...unit, "hold-down": Object.fromEntries(all) as never }, embossedTape(12));
};

describe("the leaf of a unit", () => {
  // Elastica at P L^2/EI = 1 by elliptic integrals, its rates by differences: validation/independent/spring.py. [derived]
  test("stands where the elastica stands, with its stress and both rates", () => {
    const F = EI / beam.L ** 2;
    const leaf = heldLeaf({ ...beam, F_0: F });
    expect(leaf.stroke / (0.3017207738 * beam.L)).toBeCloseTo(1, 3);
    expect(leaf.stress / ((F * beam.L * (1 - 0.0564332363)) / Z)).toBeCloseTo(1, 3);
    expect(leaf.rate / ((4.01805807 * EI) / beam.L ** 3)).toBeCloseTo(1, 2);
    expect(leaf.stressRate / ((3.40445606 * EI) / beam.L ** 2 / Z)).toBeCloseTo(1, 2);
  });
  // 3 EI/L^3 and 3 E t/(2 L^2): a cantilever, by hand. [derived]
  test("is a cantilever as long as it is bent little", () => {
    const leaf = heldLeaf({ ...beam, F_0: 0.001 });
    expect(leaf.rate / ((3 * EI) / beam.L ** 3)).toBeCloseTo(1, 3);
    expect(leaf.stressRate / ((3 * beam.E * beam.t) / (2 * beam.L ** 2))).toBeCloseTo(1, 2);
    expect(leaf.stroke * leaf.rate).toBeCloseTo(0.001, 6);
  });
  test("without preload is unbent, and still has a rate", () => {
    const leaf = heldLeaf({ ...beam, F_0: 0 });
    expect(leaf.stress).toBeLessThan(1);
    expect(leaf.rate / ((3 * EI) / beam.L ** 3)).toBeCloseTo(1, 3);
  });
  test("set towards the tape takes more stroke for its force, and bears the same stress within a tenth", () => {
    const straight = heldLeaf({ ...beam, F_0: 0.3 });
    const curved = heldLeaf({ ...beam, F_0: 0.3, R_s: 80 * mm });
    expect(curved.stroke).toBeGreaterThan(straight.stroke);
    expect(Math.abs(curved.stress / straight.stress - 1)).toBeLessThan(0.1);
  });
  test("that tapers to half its width is softer", () => {
    expect(heldLeaf({ ...beam, F_0: 0.3, b_t: 2.5 * mm }).rate).toBeLessThan(
      0.95 * heldLeaf({ ...beam, F_0: 0.3 }).rate,
    );
  });
  test("asked for more than any leaf bears says the straight cantilever's numbers, and no NaN", () => {
    const leaf = heldLeaf({ ...beam, F_0: 5000 });
    expect(leaf.stress).toBeCloseTo((5000 * beam.L) / Z, -6);
    for (const v of Object.values(leaf)) expect(v).toSatisfy(Number.isFinite);
  });
});

describe("what a taller tape does", () => {
  // 2 N, 100 N/m over 0.3 + 0.1 mm; 500 MPa, 80 GPa/m: by hand. [derived]
  test("is the rates times its height and the splice", () => {
    const tape = { T: 0.6e-3, T_b: 0.3e-3, t_s: 0.1e-3 };
    expect(leafHighest.value({ F_0: 2, k: 100, ...tape })).toBeCloseTo(2.04, 12);
    expect(leafStress.value({ S_0: 500e6, s: 80e9, ...tape })).toBeCloseTo(532e6, 0);
    expect(leafStress.value({ S_0: 500e6, s: 80e9, ...tape, T: 0.2e-3 })).toBeCloseTo(508e6, 0);
    expect(leafMean.value({ S_0: 500e6, s: 80e9, T: 0.2e-3, T_b: 0.3e-3 })).toBeCloseTo(492e6, 0);
    expect(leafSwing.value({ s: 80e9, x_r: 0.05e-3 })).toBeCloseTo(2e6, 3);
  });
  test("follows the tape that is on the reel", () => {
    const thick = scene(heldByLeaf(12), {
      ...embossedTape(12),
      letters: { ...embossedTape(12).letters, T: written("t/T", "T", "0.9 mm") },
    });
    expect(nominal(thick, leafMean)).toBeGreaterThan(nominal(held, leafMean));
    expect(nominal(thick, leafRate)).toBeCloseTo(nominal(held, leafRate), 9);
    expect(nominal(held, leafStress)).toBeGreaterThan(nominal(held, leafBuilt));
    expect(nominal(held, leafStressRate)).toBeGreaterThan(0);
  });
});

describe("the leaf's checks do not apply", () => {
  const missing = (scene: Scene, words: string): void => {
    for (const check of [checkLeafStress, checkLeafFatigue, checkLeafRelaxes]) expect(check.absent(scene)).toBe(words);
  };
  test("where the unit has no leaf", () => {
    missing(scene(oneSeal(8), embossedTape(8)), "the unit has no hold-down over its sprocket");
    missing(scene(heldByRib(24), embossedTape(24)), "the hold-down is no leaf");
  });
  test("where the file leaves out what they rest on", () => {
    missing(withLeaf({ width: undefined, preload: undefined }), "the leaf's width, preload are not given");
    missing(withLeaf({ thickness: undefined }), "the leaf's thickness is not given");
    missing(withLeaf({ material: undefined }), "what the leaf is made of is not given");
    missing(
      withLeaf({ material: "spring stel" }),
      'no figures are known of "spring stel" as a spring. Did you mean "spring steel"?',
    );
  });
  test("to a block, or to a leaf longer than the tape's way", () => {
    missing(
      withLeaf({ thickness: written("x/t", "t", "4 mm"), "free length": written("x/L", "L", "10 mm") }),
      "a leaf 4 mm thick and 10 mm long is a block, not a leaf",
    );
    missing(
      withLeaf({ "free length": written("x/L", "L", "200 mm") }),
      "the leaf's free length of 200 mm is longer than the tape's whole way through the unit",
    );
  });
  test("for fatigue to a plastic, whose endurance nobody tabled", () => {
    const petg = withLeaf({ material: "PETG" });
    expect(checkLeafFatigue.absent(petg)).toBe("no fatigue strength is known of petg");
    expect(checkLeafStress.absent(petg)).toBeUndefined();
    expect(noLeaf(petg)).toBeUndefined();
  });
});
test("each check says its numbers in a sentence", () => {
  const say = (q: { symbol: string }): string => `<${q.symbol}>`;
  expect(checkLeafStress.because(say, held)).toBe(
    "Pressed by <x_0> the leaf bears <S_max> while a splice passes; spring steel 1.4310 keeps its shape up to <S_lim>.",
  );
  expect(checkLeafFatigue.because(say, held)).toBe(
    "From pitch to pitch the leaf's stress swings by <S_a> about <S_m>: <u> of what it bears for ever, <u_max> allowed.",
  );
  expect(checkLeafRelaxes.because(say, held)).toBe(
    "After 1000 hours the leaf presses with <F_t>, <q> of what it did; the tape needs <F_n>.",
  );
});
