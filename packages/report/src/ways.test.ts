import type { CureEffect, TapeResult, Verdict } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { example, judgedAsWritten } from "./report.fixture.ts";
import { sayMove, waysOf } from "./ways.ts";

const row = judgedAsWritten(example, new Map([["plover", ["so20-24"]]])).units[0]!.tapes[0]!;
const effect = (tape: string, before: Verdict, after: Verdict): CureEffect => ({
  tape,
  W: 24,
  before: { verdict: before, share: 0.5 },
  after: { verdict: after, share: 0.5 },
  checks: [],
});
const cured = (effects: readonly CureEffect[]): TapeResult => ({
  ...row,
  cures: [
    {
      check: "film.mismatch",
      levers: 2,
      cures: [
        {
          check: "film.mismatch",
          address: "plover/nip.preload",
          symbol: "N",
          members: [],
          unit: "kg*m/s^2",
          shownIn: "N",
          from: 4.5,
          to: 5.2,
          by: 0.7,
          share: 0.97,
          effects,
        },
      ],
    },
  ],
});

test("a cure says what moves, from and to, and how sure it is", () => {
  expect(waysOf(cured([]), "film.mismatch")).toEqual([
    {
      what: "nip preload",
      kind: "move",
      note: "holds in 97 % of belief; no other tape's verdict turns",
      change: "4.5 \u2192 5.2 N",
      address: "plover/nip.preload",
    },
  ]);
});
test("tapes that get worse are named before those that get better, and the cured tape is not among them", () => {
  const effects = [
    effect("so20-24", "stops", "feeds"),
    effect("a", "feeds", "stops"),
    effect("b", "depends", "stops"),
    effect("c", "stops", "depends"),
    effect("d", "stops", "stops"),
  ];
  expect(waysOf(cured(effects), "film.mismatch")[0]!.note).toMatch(/; a and b get worse, c gets better$/);
});
test("another check has no ways out of these", () => {
  expect(waysOf(cured([]), "nip.pulls")).toEqual([]);
  expect(waysOf(row, "film.mismatch")).toEqual([]);
});
test("several numbers that move together are said by how far, not from where to where", () => {
  const [cure] = cured([]).cures![0]!.cures;
  const members = ["1", "2"].map((n) => ({ address: `plover/bodies.board.box.${n}`, text: "1 mm", written: "2 mm" }));
  expect(sayMove({ ...cure!, members, shownIn: "mm", by: -0.15e-3 })).toBe("by \u22120.15 mm");
  expect(sayMove({ ...cure!, members, shownIn: "mm", by: 0.15e-3 })).toBe("by +0.15 mm");
});
