import { describe, expect, test } from "vitest";
import type { NumberView } from "../engine/engine.ts";
import { moversOf } from "./together.ts";

const file = "units/wren.yaml";
const text = `let:
  nipx: -20 mm
  r: 5 mm
nip:
  axis: [peel + nipx, r]
guide: peel + nipx
body: [peel + nipx - 8 mm, peel + nipx + 8 mm]
other: peel - 3 mm   # beside it
half: 0.5 * nipx
`;
const number = (address: string, written: string, names: readonly string[] = [], draggable = true): NumberView => {
  const at = text.indexOf(written);
  const before = text.slice(0, at).split("\n");
  return {
    address,
    path: address,
    symbol: address,
    means: "",
    text: written,
    place: { file, line: before.length, column: before.at(-1)!.length + 1, length: written.length },
    value: 0,
    unit: "m",
    shownIn: "mm",
    letter: "d",
    least: undefined,
    most: undefined,
    step: 5e-5,
    coarse: 1e-3,
    draggable,
    guess: undefined,
    onlyWidth: undefined,
    widths: [24],
    names: names.map((name) => ({ name, address: name === "peel" ? undefined : name })),
  };
};
const let_ = number("nipx", "-20 mm");
const axis = number("axis", "peel + nipx, ".slice(0, 11), ["peel", "nipx"]);
const low = number("low", "peel + nipx - 8 mm", ["peel", "nipx"]);
const high = number("high", "peel + nipx + 8 mm", ["peel", "nipx"]);
const other = number("other", "peel - 3 mm", ["peel"]);
const half = number("half", "0.5 * nipx", ["nipx"]);
const all = [let_, axis, low, high, other, half];
const movers = (...members: string[]) => moversOf(members, all).map(({ address }) => address);

describe("what moves where several numbers go together", () => {
  test("is the name that each of them adds", () => expect(movers("axis", "low", "high")).toEqual(["nipx"]));
  test("is each by itself where one has another name", () => expect(movers("low", "other")).toEqual(["low", "other"]));
  test("is each by itself where one takes but a share of the name", () =>
    expect(movers("low", "half")).toEqual(["low", "half"]));
  test("is a number alone where there is only one, whatever names it uses", () =>
    expect(movers("low")).toEqual(["low"]));
  test("is nothing where the file has none of them", () => expect(movers("nothing")).toEqual([]));
  test("is each by itself where the name is a guess, which has no centre", () => {
    const guessed = [{ ...let_, draggable: false }, axis, low];
    expect(moversOf(["axis", "low"], guessed).map(({ address }) => address)).toEqual(["axis", "low"]);
  });
});
