import { describe, expect, test } from "vitest";
import type { Scene } from "../scene.ts";
import { none } from "./dimension.ts";
import { type Cite, tabled } from "./given.ts";
import { isFact, isQuantity, model, quantitiesIn, readsOf, rootsOf } from "./model.ts";

const scene = {} as Scene;
const cite: Cite = { cite: "invented for this test", how: "judgement" };
const number = (name: string) => tabled(`test/${name}`, name, "2", none, cite);
const [a, b, c] = [number("a"), number("b"), number("c")];
const about = { unit: "1", title: "a test", form: "closed", origin: cite } as const;
const product = model({
  ...about,
  id: "test.product",
  symbol: "p",
  equation: "x*y",
  reads: () => ({ x: a, y: b }),
  value: ({ x, y }) => x * y,
});
const twice = model({
  ...about,
  id: "test.twice",
  symbol: "t",
  equation: "2*p",
  reads: () => ({ p: product }),
  value: ({ p }) => 2 * p,
});
const nested = model({
  ...about,
  id: "test.nested",
  symbol: "n",
  form: "solved",
  equation: "sum",
  reads: () => ({ pair: [a, c], group: { inner: twice, turns: true }, name: "left" }),
  value: ({ pair, group }) => (pair as readonly number[]).reduce((s, v) => s + v, group.inner),
  where: ({ name }) => `at the ${name}`,
});
const absent = model({
  ...about,
  id: "test.absent",
  symbol: "q",
  equation: "x",
  reads: () => undefined as { x: typeof a } | undefined,
  value: ({ x }) => x,
});

describe("a model", () => {
  test("computes with the values of what it reads, under its own symbols", () => {
    expect(product.value({ x: 3, y: 4 })).toBe(12);
    expect(nested.value({ pair: [1, 2], group: { inner: 5, turns: true }, name: "left" })).toBe(8);
  });
  test("says where its worst instance is only if it can", () => {
    expect(nested.where?.({ pair: [], group: {}, name: "left" })).toBe("at the left");
    expect(product.where).toBeUndefined();
    expect("where" in product).toBe(false);
  });
  test("reads nothing in a scene without its member", () => {
    expect(readsOf(absent, scene)).toBeUndefined();
    expect(rootsOf(absent, scene)).toEqual(new Set());
  });
});

test("a number, a word and a truth are facts; givens and models are quantities; lists and groups are neither", () => {
  for (const fact of [1, "left", true]) expect(isFact(fact)).toBe(true);
  for (const q of [a, product]) {
    expect(isFact(q)).toBe(false);
    expect(isQuantity(q)).toBe(true);
  }
  for (const read of [[a, b], { a, b }, 1, "left"]) expect(isQuantity(read)).toBe(false);
});

test("the quantities in a read come in its order, lists and groups opened, facts left out", () => {
  expect([...quantitiesIn({ first: [b, { inner: a }], n: 3, last: product })]).toEqual([b, a, product]);
  expect([...quantitiesIn(product)]).toEqual([product]);
  expect([...quantitiesIn("left")]).toEqual([]);
});

test("the roots are the givens below, each once, models between them left out", () => {
  expect([...rootsOf(nested, scene)]).toEqual([a, c, b]);
  expect([...rootsOf(twice, scene)]).toEqual([a, b]);
  expect([...rootsOf(a, scene)]).toEqual([a]);
});
