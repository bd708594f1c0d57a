import { describe, expect, test } from "vitest";
import { sameDimension } from "../quantity/dimension.ts";
import { dimensionOf, evaluate, namesIn, parseExpression } from "../quantity/expression.ts";
import type { Given } from "../quantity/given.ts";
import { isQuantity, type Model, type Quantity, quantitiesIn } from "../quantity/model.ts";
import { unitOf } from "../quantity/units.ts";
import { written } from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { drivenScene } from "./cycle.fixture.ts";
import { checkStops } from "./stops.ts";
import { checkTime } from "./time.ts";

/** Everything the two checks of this folder reach, with the wheel counted and not. */
const counts = written("driven/counts", "c", "1200 counts", "counts");
const scenes = [drivenScene(12), drivenScene(8, { stop: "count at the wheel", "wheel counts": counts })];
const reached = scenes.flatMap((scene) => {
  const seen = new Set<Given | Model<unknown>>();
  const visit = (q: Given | Model<unknown>): void => {
    if (seen.has(q)) return;
    seen.add(q);
    for (const inner of quantitiesIn(q.reads(scene) ?? {})) visit(inner);
  };
  for (const check of [checkTime, checkStops]) {
    const sides = [check.value, check.atMost].map((s) => (typeof s === "function" ? s(scene) : s));
    for (const q of [...sides, ...(check.beside?.(scene) ?? [])]) if (q?.reads(scene)) visit(q);
  }
  return [...seen].flatMap((q) => (q.kind === "model" && q.id.startsWith("cycle.") ? [{ scene, q }] : []));
});
const dimension = (q: Quantity) => (q.kind === "given" ? q.dimension : unitOf(q.unit).dimension);

describe.each(reached.filter(({ q }) => q.form === "closed").map(({ scene, q }) => [q.id, q as Model, scene] as const))(
  "%s",
  (_, model, scene) => {
    const reads = model.reads(scene)!;
    test("reads what its equation names, all of it and nothing else", () =>
      expect(Object.keys(reads).sort()).toEqual(namesIn(parseExpression(model.equation)).sort()));
    test("has units that agree on both sides", () => {
      const found = dimensionOf(parseExpression(model.equation), (name) => dimension(reads[name] as Quantity));
      expect(sameDimension(found, unitOf(model.unit).dimension)).toBe(true);
    });
    test("computes what it says", () => {
      const run = new Realiser(scene, [model]).run(asWritten);
      const x = run.inputsOf(model, scene) as Record<string, number>;
      for (const times of [1, 0.7, 1.4]) {
        const values = Object.fromEntries(Object.entries(x).map(([name, v]) => [name, v * times]));
        const text = evaluate(parseExpression(model.equation), (name) => values[name]);
        expect(Math.abs(model.value(values) - text)).toBeLessThanOrEqual(1e-12 * Math.abs(text));
      }
    });
  },
);
test("the numbers among them are finite, and each says where it comes from", () => {
  for (const { scene, q } of reached) {
    expect(q.origin.cite.length, q.id).toBeGreaterThan(5);
    if (q.unit !== "" && isQuantity(q))
      expect(new Realiser(scene, [q]).run(asWritten).number(q as Model), q.id).toSatisfy(Number.isFinite);
  }
  expect(new Set(reached.map(({ q }) => q.id)).size).toBeGreaterThan(8);
});
test("bounds and values are of one dimension", () => {
  for (const scene of scenes)
    for (const check of [checkTime, checkStops]) {
      const [value, bound] = [check.value, check.atMost].map((s) => (typeof s === "function" ? s(scene) : s)!);
      expect(sameDimension(dimension(value!), dimension(bound!)), check.id).toBe(true);
    }
});
