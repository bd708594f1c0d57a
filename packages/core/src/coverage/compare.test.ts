import { describe, expect, test } from "vitest";
import type { Check } from "../quantity/check.ts";
import { beliefDraws } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, number } from "../study/plain.fixture.ts";
import { climb } from "./climb.ts";
import { type Compared, compare } from "./compare.ts";
import { atMost, family, piece, sceneAt } from "./family.fixture.ts";
import { judge } from "./judge.ts";
import { ladderOf } from "./ladder.ts";

const deviates = new Deviates(1);
const weights = alike(beliefDraws);
/** A unit whose checks are its own, on tapes of 8, 12 and 16 mm, or of some of these. */
function unit(name: string, checks: readonly Check[], widths: readonly number[] = [8, 12, 16]): Compared {
  const pieces = [
    piece(widths[0]!, widths[0]!),
    ...widths.slice(1).map((W, i) => piece(widths[i]!, W, { joined: true })),
  ];
  const contradicted = new Set<string>();
  const climbed = pieces.map((p) => climb(p, { checks, deviates, weights, contradicted }));
  return {
    unit: name,
    name: name.toUpperCase(),
    revision: "A",
    ladder: ladderOf({ ...family(pieces), unit: name }, climbed, checks, contradicted, 0.02),
    why: null,
    tapes: widths.map((W) =>
      judge({ unit: name, tape: `tape-${W}`, scene: sceneAt(W), checks, deviates, weights, contradicted }),
    ),
  };
}
const grows = (bound: string) => atMost("film.grows", "W", number("bound", bound));
const other = (bound: string) => atMost("nip.other", "2*W", number("bound", bound));
const room = atMost("mount.room", "W", number("far", "99"));

const list = [grows("14"), other("99"), room];
const [narrow, wide] = [unit("narrow", list), unit("wide", [grows("99"), other("30"), room])];

describe("two units on one scale", () => {
  const c = compare([narrow, wide], list);
  test("share one scale of width", () => expect([c.from, c.to, c.rows]).toEqual([8, 16, [8, 12, 16]]));
  // W <= 14, and 2 W <= 30. By hand. [derived]
  test("each feeds to its own width, ended by its own check", () => {
    expect(c.units.map((u) => [u.unit, u.feedsTo, u.endedBy])).toEqual([
      ["narrow", expect.closeTo(14, 1), [{ check: "film.grows", W: expect.closeTo(14, 1) }]],
      ["wide", expect.closeTo(15, 1), [{ check: "nip.other", W: expect.closeTo(15, 1) }]],
    ]);
    expect(c.units.map((u) => u.says)).toEqual(["feeds to 14, stops above", "feeds to 15, stops above"]);
  });
  test("have a line a tape, in order of width, with what stops each first", () => {
    expect(c.tapes.map((t) => t.tape)).toEqual(["tape-8", "tape-12", "tape-16"]);
    expect(c.tapes.map((t) => t.cells.map((cell) => [cell!.verdict, cell!.first]))).toEqual([
      [
        ["feeds", null],
        ["feeds", null],
      ],
      [
        ["feeds", null],
        ["feeds", null],
      ],
      [
        ["stops", "film.grows"],
        ["stops", "nip.other"],
      ],
    ]);
  });
  test("are parted by the checks with a verdict of one and another of the other, on the narrowest such tape", () => {
    expect(c.separates.map((s) => [s.check, s.tape, s.values.map((v) => v!.verdict)])).toEqual([
      ["film.grows", "tape-16", ["stops", "feeds"]],
      ["nip.other", "tape-16", ["feeds", "stops"]],
    ]);
    expect(c.separates[0]!.values.map((v) => v!.value)).toEqual([16, 16]);
  });
  test("show what their mounts take, on the widest tape that both serve", () => {
    expect(c.mount).toEqual([
      {
        check: "mount.room",
        title: "the check mount.room",
        tape: "tape-16",
        values: [
          { unit: "narrow", value: 16, in: "1", says: "The value is 16." },
          { unit: "wide", value: 16, in: "1", says: "The value is 16." },
        ],
      },
    ]);
  });
});
test("a unit that does not serve a tape has no cell there, and parts no one on it", () => {
  const c = compare([unit("short", list, [8, 12]), wide], list);
  expect(c.tapes.find((t) => t.tape === "tape-16")!.cells).toEqual([null, expect.objectContaining({ unit: "wide" })]);
  expect(c.separates).toEqual([]);
  expect(c.units[0]!.feedsTo).toBe(12);
  expect(c.units[0]!.endedBy).toEqual([]);
});
test("a unit that does not feed its least width feeds to nowhere, and what stops it there is named", () => {
  const [u] = compare([unit("never", [grows("7"), other("99"), room]), wide], list).units;
  expect(u).toMatchObject({ feedsTo: null, endedBy: [{ check: "film.grows", W: 8 }], says: "stops throughout" });
});
test("a unit without a ladder is held beside the others by its tapes, and says why", () => {
  const c = compare([{ ...narrow, ladder: null, why: "one tape alone" }, wide], list);
  expect(c.units[0]).toMatchObject({ ladder: null, feedsTo: null, says: "one tape alone" });
  expect(c.tapes[2]!.cells[0]!.verdict).toBe("stops");
});
test("one unit is no comparison, and six are too many", () => {
  expect(() => compare([narrow], list)).toThrow("1 units; two to five can be compared");
  expect(() =>
    compare(
      Array.from({ length: 6 }, () => narrow),
      list,
    ),
  ).toThrow("6 units; two to five can be compared");
  expect(
    compare(
      Array.from({ length: 5 }, () => narrow),
      list,
    ).units,
  ).toHaveLength(5);
});
