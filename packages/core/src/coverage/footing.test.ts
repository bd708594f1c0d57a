import { describe, expect, test } from "vitest";
import { check, closed, number, plainScene, solved } from "../study/plain.fixture.ts";
import { footing, sameFooting } from "./footing.ts";

const [a, b] = [number("a", "1 ±0.1"), number("b", "2..3 guess")];
const least = number("least", "1");
const scene = plainScene();
const of = (value: ReturnType<typeof closed>, more: object = {}) =>
  footing(check("c", { value, atLeast: least, ...more }), scene);
const same = (x: readonly unknown[], y: readonly unknown[]) => sameFooting(x, y);

describe("a footing is the same", () => {
  test("for models made anew that read the same numbers", () => {
    expect(same(of(closed("a + b", { a, b })), of(closed("a + b", { a, b })))).toBe(true);
    const fresh = () => solved("s", { list: [a, { kind: "bar", at: b }] }, () => 1);
    expect(same(of(fresh()), of(fresh()))).toBe(true);
  });
  test("whatever stands in the scene besides", () => {
    const one = check("c", { value: closed("a", { a }), atLeast: least });
    const other = { ...plainScene(), unit: { film: {} } } as never;
    expect(same(footing(one, scene), footing(one, other))).toBe(true);
  });
});
describe("a footing is another", () => {
  const base = of(closed("a + b", { a, b }));
  test.each([
    ["for a number of the same text made anew", of(closed("a + b", { a: number("a", "1 ±0.1"), b }))],
    ["for another equation", of(closed("a - b", { a, b }))],
    ["for the same numbers under each other's names", of(closed("a + b", { a: b, b: a }))],
    ["for one number less", of(closed("a + b", { a }))],
    ["for a bound on the other side", of(closed("a + b", { a, b }), { atLeast: undefined, atMost: least })],
    ["for a bound more", of(closed("a + b", { a, b }), { atMost: number("most", "9") })],
  ])("%s", (_, other) => expect(same(base, other)).toBe(false));
  test("for another fact, and where one number stands twice or two stand once each", () => {
    const fact = (kind: string) => of(solved("s", { kind, a }, () => 1));
    expect(same(fact("bar"), fact("roller"))).toBe(false);
    const pair = (x: typeof a, y: typeof a) => of(solved("s", { list: [x, y] }, () => 1));
    expect(same(pair(a, a), pair(a, number("a", "1 ±0.1")))).toBe(false);
  });
  test("for a number that reads another one", () => {
    const reading = (inner: typeof a) => number("r", "x + 1", { names: { x: inner } });
    const [r] = [reading(a)];
    expect(same(of(closed("r", { r })), of(closed("r", { r })))).toBe(true);
    expect(same(of(closed("r", { r })), of(closed("r", { r: reading(b) })))).toBe(false);
  });
  test("for another share of pairs that may break a window", () => {
    const one = check("c", { value: closed("a", { a }), atLeast: least });
    expect(same(footing(one, plainScene(0.02)), footing(one, plainScene(0.03)))).toBe(false);
  });
});
