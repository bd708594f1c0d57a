import { type GivenSpec, given, parseQuantity, tabled } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { GivenStore } from "./given-store.ts";

const cite = { cite: "invented for this test", how: "judgement" } as const;
const [W, T] = ["W", "T"].map((name) => tabled(`test/${name}`, name, "2 mm", [1, 0, 0, 0, 0], cite));
const spec = (text: string, line = 1, more: Partial<GivenSpec> = {}): Omit<GivenSpec, "reads"> => ({
  address: "a/x",
  symbol: "x",
  text,
  origin: { file: "a.yaml", line, column: 4, length: text.length },
  dimension: [1, 0, 0, 0, 0],
  written: parseQuantity(text),
  level: "unit",
  ...more,
});
const take = (store: GivenStore, s: Omit<GivenSpec, "reads">, reads = {}, reading = {}) =>
  store.given(s, reads, [], reading, given);

describe("a store of givens", () => {
  test("gives the same object for the same text and the same reads, its place moved along", () => {
    const store = new GivenStore();
    const first = take(store, spec("W + 1 mm", 3), { W: W! });
    const again = take(store, spec("W + 1 mm", 8), { W: W! });
    expect(again).toBe(first);
    expect(first.origin).toEqual({ file: "a.yaml", line: 8, column: 4, length: 8 });
  });
  test.each([
    ["another text", spec("W + 2 mm"), { W: W! }],
    ["another address", spec("W + 1 mm", 1, { address: "a/y" }), { W: W! }],
    ["another level", spec("W + 1 mm", 1, { level: "reel" }), { W: W! }],
    ["a name that stands for something else", spec("W + 1 mm"), { W: T! }],
    ["more names", spec("W + 1 mm"), { W: W!, T: T! }],
    ["fewer names", spec("W + 1 mm"), {}],
  ])("gives another object for %s, and leaves the first where it was", (_, other, reads) => {
    const store = new GivenStore();
    const first = take(store, spec("W + 1 mm", 3), { W: W! });
    const second = take(store, other, reads);
    expect(second).not.toBe(first);
    expect(first.origin).toMatchObject({ line: 3 });
    expect(take(store, spec("W + 1 mm", 3), { W: W! })).toBe(first);
  });
  test("takes two alike texts in one reading for two numbers, and finds both again in the next", () => {
    const store = new GivenStore();
    const [one, two] = [{}, {}];
    const pair = (reading: object, above: number) =>
      [3, 4].map((at) => take(store, spec("5 N", at + above), {}, reading));
    const [first, second] = pair(one, 0);
    expect(second).not.toBe(first);
    expect(take(store, spec("5 N", 3), {}, one)).toBe(first);
    const [third, fourth] = pair(two, 7);
    expect(third).toBe(first);
    expect(fourth).toBe(second);
    expect([third, fourth].map((g) => (g!.origin as { line: number }).line)).toEqual([10, 11]);
  });
  test("does not keep the place it was given: a caller may go on using it", () => {
    const store = new GivenStore();
    const s = spec("1 mm", 3);
    const first = take(store, s);
    take(store, spec("1 mm", 9));
    expect(s.origin).toMatchObject({ line: 3 });
    expect(first.origin).toMatchObject({ line: 9 });
  });
  test("remembers one entry a width of a wide family, and forgets the oldest of very many", () => {
    const store = new GivenStore();
    const all = Array.from({ length: 64 }, (_, i) => take(store, spec(`${i} mm`)));
    expect(take(store, spec("0 mm"))).toBe(all[0]);
    take(store, spec("64 mm"));
    expect(take(store, spec("0 mm"))).not.toBe(all[0]);
    expect(take(store, spec("63 mm"))).toBe(all[63]);
  });
  test("reads the tape on the reel beside its fixed names", () => {
    const store = new GivenStore();
    const g = store.given(spec("actual W - W"), { W: W! }, ["actual W"], {}, given);
    expect(g.reads({ tape: { letters: { W: T } } } as never)).toEqual({ W, "actual W": T });
  });
});

describe("anything else that is kept", () => {
  test("is made once while its parts are the same, and anew when one is not", () => {
    const store = new GivenStore();
    let made = 0;
    const make = () => ({ number: ++made });
    const first = store.kept("mark", [W, "-"], make);
    expect(store.kept("mark", [W, "-"], make)).toBe(first);
    expect(store.kept("mark", [T, "-"], make)).not.toBe(first);
    expect(store.kept("mark", [T, "-", 1], make)).toEqual({ number: 3 });
    expect(store.kept("other", [T, "-", 1], make)).toEqual({ number: 4 });
  });
});
