import {
  either,
  type Field,
  type Given,
  group,
  list,
  map,
  oneMemberOf,
  oneOrList,
  optional,
  quantity,
  text,
  tuple,
  word,
} from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { showError } from "./error.ts";
import { GivenStore } from "./given-store.ts";
import { FieldReader, plainSetting, type Setting, short } from "./read.ts";
import { parseSource, SourceFile } from "./source.ts";

/** What a reader makes of a text, numbers as their texts, and what it says. */
function read(field: Field, yaml: string, more: Partial<Setting> = {}) {
  const source = new SourceFile("a.yaml", yaml);
  const { tree, errors } = parseSource(source);
  const reader = new FieldReader({
    ...plainSetting({ source, prefix: "a/", level: "unit", store: new GivenStore(), errors }),
    ...more,
  });
  const plain = (x: unknown): unknown => {
    if (Array.isArray(x)) return x.map(plain);
    if (typeof x !== "object" || x === null) return x;
    if ((x as Given).kind === "given") return (x as Given).text;
    return Object.fromEntries(Object.entries(x).map(([k, v]) => [k, plain(v)]));
  };
  const data = plain(reader.read(field, tree!, ""));
  return {
    data,
    reader,
    said: errors.map((e) =>
      showError(e)
        .split("\n")
        .filter((_, i) => i === 0 || i === 3)
        .join("\n"),
    ),
    addresses: [...reader.givens.keys()],
  };
}
const length = quantity("mm", "a length");
const holder = (field: Field) => group("a thing", { x: field as typeof length });

describe("a field for", () => {
  test("a quantity keeps its text, without blanks around it", () => {
    expect(read(holder(length), "x: 4.00 ±0.10 mm\n").data).toEqual({ x: "4.00 ±0.10 mm" });
    expect(read(holder(length), 'x: " 4.00 mm "\n').data).toEqual({ x: "4.00 mm" });
    expect(read(holder(quantity("", "a number")), "x: 4\n").data).toEqual({ x: "4" });
  });
  test("a word takes one of its words, or any short line where it has none", () => {
    const side = word("a side", "near", "far");
    expect(read(holder(side), "x: near\n").data).toEqual({ x: "near" });
    expect(read(holder(side), "x: neer\n").said).toEqual([
      'a.yaml:1:4: found "neer", expected one of near, far\nDid you mean "near"?',
    ]);
    expect(read(holder(word("a material")), "x: PETG, white\n").data).toEqual({ x: "PETG, white" });
    expect(read(holder(word("a material")), "x: |\n  two\n  lines\n").said).toEqual([
      "a.yaml:1:4: found a long text, expected a word: a material",
    ]);
    expect(read(holder(word("a version", "1")), "x: 2\n").said).toEqual([
      'a.yaml:1:4: found "2", expected "1": a version',
    ]);
  });
  test("text takes what is not a list or a group, on one line or several", () => {
    expect(read(holder(text("a note")), "x: 4 mm over 12 mm\n").data).toEqual({ x: "4 mm over 12 mm" });
    expect(read(holder(text("a note")), "x: |\n  two\n  lines\n").data).toEqual({ x: "two\nlines\n" });
    expect(read(holder(text("a note")), "x: [a]\n").said).toEqual(["a.yaml:1:4: found a list, expected text: a note"]);
  });
  test("a list has items, and one may stand for a list only where it may", () => {
    expect(read(holder(list(length, "lengths")), "x: [1 mm, 2 mm]\n").data).toEqual({ x: ["1 mm", "2 mm"] });
    expect(read(holder(list(length, "lengths")), "x: 1 mm\n").said).toHaveLength(1);
    expect(read(holder(oneOrList(length, "lengths")), "x: 1 mm\n")).toMatchObject({
      data: { x: ["1 mm"] },
      addresses: ["a/x.1"],
    });
    expect(read(holder(oneOrList(length, "lengths")), "x: [1 mm]\n")).toMatchObject({
      data: { x: ["1 mm"] },
      addresses: ["a/x.1"],
    });
  });
  test("so many values takes no more and no fewer", () => {
    const pair = tuple("a point", length, length);
    expect(read(holder(pair), "x: [1 mm, 2 mm]\n").addresses).toEqual(["a/x.1", "a/x.2"]);
    expect(read(holder(pair), "x: [1 mm, 2 mm, 3 mm]\n").said).toEqual([
      "a.yaml:1:4: found 3 values, expected a list of 2: a point",
    ]);
  });
  test("names of one's own takes any, also what every object has", () => {
    const gaps = map(length, "gaps");
    expect(read(holder(gaps), "x: {tape / board: 1 mm, constructor: 2 mm}\n").data).toEqual({
      x: { "tape / board": "1 mm", constructor: "2 mm" },
    });
    const { data } = read(holder(gaps), "x: {__proto__: 1 mm}\n");
    expect(Object.getPrototypeOf((data as { x: object }).x)).toBe(Object.prototype);
    expect(Object.keys((data as { x: object }).x)).toEqual(["__proto__"]);
  });
  test("either of several takes the one whose shape it has, and says of the last what is wrong", () => {
    const grip = either("how much is gripped", word("all", "whole film"), length);
    expect(read(holder(grip), "x: whole film\n").data).toEqual({ x: "whole film" });
    expect(read(holder(grip), "x: 3 mm\n").data).toEqual({ x: "3 mm" });
    expect(read(holder(grip), "x: hole film\n").said).toEqual([
      'a.yaml:1:4: found "hole film", expected whole film or a value: how much is gripped\nDid you mean "whole film"?',
    ]);
    expect(read(holder(grip), "x: 3 N\n").said).toEqual(["a.yaml:1:4: found a force, expected a length"]);
    const where = either("where", tuple("from, to", length, length), length);
    expect(read(holder(where), "x: [1 mm, 2 mm]\n").data).toEqual({ x: ["1 mm", "2 mm"] });
    expect(read(holder(where), "x: {y: 1 mm}\n").said).toHaveLength(1);
  });
  test("one of several members takes exactly one", () => {
    const piece = oneMemberOf("a piece", { line: length, mark: word("a mark") });
    expect(read(holder(piece), "x: {mark: peel}\n").data).toEqual({ x: { mark: "peel" } });
    expect(read(holder(piece), "x: {mark: peel, line: 2 mm}\n").said).toEqual([
      "a.yaml:1:4: found mark and line, expected one of line, mark: a piece",
    ]);
    expect(read(holder(piece), "x: {merk: peel, line: 2 mm}\n").said).toEqual([
      'a.yaml:1:5: found "merk", expected a member of a piece\nDid you mean "mark"?',
    ]);
  });
});

describe("a member", () => {
  const both = group("a thing", { must: length, may: optional(group("a part", { y: length })) });
  test("that may be missing is left out where it is, or is none; one that must be there is not", () => {
    expect(read(both, "must: 1 mm\n").data).toEqual({ must: "1 mm" });
    expect(read(both, "must: 1 mm\nmay: none\n").data).toEqual({ must: "1 mm" });
    expect(read(both, "must: none\nmay: {y: 1 mm}\n").said[0]).toMatch(/found "none"/);
  });
  test("that is missing is said with an example of what to write", () => {
    expect(read(both, "may: {y: 1 mm}\n").said).toEqual([
      'a.yaml:1:1: found no "must", expected "must" in a thing\nAdd "must: 4.00 ±0.10 mm".',
    ]);
  });
  test("that is misspelt is not said to be missing too, but others are", () => {
    const three = group("a thing", { radius: length, width: length, height: length });
    expect(read(three, "radiu: 1 mm\nwidth: 2 mm\n").said).toEqual([
      'a.yaml:1:1: found "radiu", expected a member of a thing\nDid you mean "radius"?',
      'a.yaml:1:1: found no "height", expected "height" in a thing\nAdd "height: 4.00 ±0.10 mm".',
    ]);
  });
});

describe("a name in a number", () => {
  const names = () => read(holder(length), "x: 2 mm\n").reader.givens;
  const W = [...names().values()][0]!;
  const with_ = (yaml: string, more: Partial<Setting> = {}) =>
    read(holder(length), yaml, { names: () => ({ W, gap: W }), expects: undefined, ...more });
  test("is read under its name, as the very object it stands for", () => {
    const { reader } = with_("x: W + gap + 1 mm\n");
    expect(reader.givens.get("a/x")!.reads({} as never)).toEqual({ W, gap: W });
    expect(reader.givens.get("a/x")!.reads({} as never).W).toBe(W);
  });
  test("that failed is left out in silence, remembered, and fails in turn", () => {
    const failed = new Set(["gap"]);
    const { said, reader, data } = with_("x: W + gap\n", { failed });
    expect(said).toEqual([]);
    expect(data).toEqual({});
    expect([...reader.leftOut]).toEqual(["gap"]);
    expect(failed.has("x")).toBe(true);
  });
  test("may be silent at some paths only", () => {
    const silent = (name: string, path: string) => name === "lost" && path === "x";
    expect(with_("x: lost\n", { silent }).said).toEqual([]);
    expect(with_("x: lots\n", { silent }).said).toHaveLength(1);
  });
  test("that is said once counts as failed from then on", () => {
    const two = group("a thing", { x: length, y: length });
    const more = { names: () => ({ W }), expects: undefined, once: (name: string) => name === "K0" };
    expect(read(two, "x: K0\ny: K0 + 1 mm\n", more).said).toHaveLength(1);
    expect(read(two, "x: K1\ny: K1 + 1 mm\n", more).said).toHaveLength(2);
  });
  test("follows the tape on the reel where it may, and is a length", () => {
    const { reader } = with_("x: actual W + W\n", { actual: true });
    const tape = { letters: { W } };
    expect(reader.givens.get("a/x")!.reads({ tape } as never)).toEqual({ W, "actual W": W });
    expect(with_("x: actual W*W\n", { actual: true }).said).toEqual(["a.yaml:1:4: found an area, expected a length"]);
    expect(with_("x: actual W\n").said[0]).toContain('found "actual W"');
  });
});

test("an angle needs its unit, a formula of numbers does not", () => {
  const turn = holder(quantity("deg", "an angle"));
  expect(read(turn, "x: 20\n").said).toEqual([
    'a.yaml:1:4: found 20 without a unit, expected an angle\nWrite "20 deg".',
  ]);
  expect(read(turn, "x: 10..20 guess\n").said).toEqual([
    'a.yaml:1:4: found 10..20 guess without a unit, expected an angle\nWrite "10..20 deg guess".',
  ]);
  expect(read(turn, "x: 0.3 rad\n").said).toEqual([]);
  expect(read(turn, "x: atan(1/8)\n").said).toEqual([]);
});
test("a set keeps the scatter that is written behind it", () => {
  const { reader } = read(holder(quantity("mm", "play", { set: true })), "x: 0.02..0.06 mm sd 5 %\n");
  const g = reader.givens.get("a/x")!;
  expect(g.scatters.map((s) => s.law)).toEqual(["uniform", "lognormal"]);
  expect(g.letter).toBe("d");
});
test("an override of a path stands in the place of the value, and is met", () => {
  const at = parseSource(new SourceFile("a.yaml", "v: 9 mm\n")).tree!;
  const instead = new Map([["x", at.kind === "map" ? at.entries.get("v")!.value : at]]);
  const { data, reader } = read(holder(length), "x: 1 mm\n", { instead });
  expect(data).toEqual({ x: "9 mm" });
  expect([...reader.met]).toEqual(["x"]);
});
test("what is shown of a text is short and on one line", () => {
  expect(short("a\n  b")).toBe("a b");
  expect(short("x".repeat(80))).toBe(`${"x".repeat(39)}…`);
});
