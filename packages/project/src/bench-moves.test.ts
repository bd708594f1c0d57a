import { cellShare, checks, finished, heldCell } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { benchOf, deviates, even, oneCell, thickness } from "./bench.fixture.ts";
import { benchBelief } from "./bench-belief.ts";
import { asIfWritten, benchMoves, weighedInSteps } from "./bench-moves.ts";
import { takingIn } from "./bench-taking.ts";
import { applied } from "./edit.ts";
import { sceneOf } from "./scene-of.ts";

const bench = oneCell({ "bench/T-01.yaml": thickness });
const belief = finished(benchBelief(bench, { deviates, record: even }));
const shareOf = (of: typeof bench): number => {
  const pair = { unit: "dunlin", tape: "dpak-16" };
  const cell = heldCell(pair.unit, pair.tape, sceneOf(of.project, pair.unit, pair.tape), checks, deviates);
  return cellShare(cell, even.weights, new Set()).share;
};

describe("the cells that a trial moves", () => {
  const { moves, ranAnew, untouched } = finished(benchMoves(bench, belief));
  test("are foretold as they then are once it is taken, where the draws were too few to carry it", () => {
    // The readings are far sharper than the guess, so the cell was run anew with them in.
    expect(ranAnew).toEqual(["T-01"]);
    expect(untouched).toBe(0);
    const taking = takingIn(bench, bench.project.trials.get("T-01")!, belief, undefined);
    if (taking.kind !== "design") throw new Error(taking.kind);
    const texts = new Map(bench.texts);
    texts.set(taking.edit.file, applied(taking.edit, texts.get(taking.edit.file)!));
    expect(moves).toHaveLength(1);
    expect(moves[0]!.before.share).toBe(shareOf(bench));
    expect(moves[0]!.after.share).toBe(shareOf(benchOf(texts)));
    expect(moves[0]!.after.share).toBeGreaterThan(moves[0]!.before.share + 0.1);
  });
  test("are none where nothing rests on what it reads, and then nothing is run", () => {
    const other = oneCell({
      "bench/T-01.yaml":
        "format: 1\ntrial: T-01\nunit: dunlin\ntape: radio-44\nquestion: tapes/radio-44/T\ndate: 2026-03-04\nreadings:\n  - {reel: A, value: 0.3 mm}\n  - {reel: B, value: 0.31 mm}\n  - {reel: C, value: 0.3 mm}\n",
    });
    const said: string[] = [];
    const none = finished(
      benchMoves(other, finished(benchBelief(other, { deviates, record: even })), { tell: (what) => said.push(what) }),
    );
    expect([none.moves, none.untouched, said]).toEqual([[], 1, []]);
  });
  test("are none of a trial that has not been run", () => {
    const empty = oneCell({ "bench/T-01.yaml": thickness.replace(/readings:[\s\S]*/, "") });
    const of = finished(benchBelief(empty, { deviates, record: even }));
    expect(finished(benchMoves(empty, of))).toMatchObject({ moves: [], untouched: 0, ranAnew: [] });
  });
});
test("the design as if written is read anew, and the files stay", () => {
  const before = [...bench.texts];
  const anew = asIfWritten(bench, belief)!;
  expect(anew.bench.project.givens.get("tapes/dpak-16/T")!.text).toContain("measured");
  expect([...bench.texts]).toEqual(before);
  // No unit is known to run: nothing of a record rests on it.
  expect([anew.trials, [...anew.addresses], anew.knownRest]).toEqual([["T-01"], ["tapes/dpak-16/T"], false]);
});
test("a project without known units weighs every draw alike", () => {
  expect(finished(weighedInSteps(bench.project, deviates)).weights.every((w) => w === even.weights[0])).toBe(true);
});
