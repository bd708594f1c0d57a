import { expect, test } from "vitest";
import { judge } from "../coverage/judge.ts";
import { beliefDraws } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, check, closed, number, plainScene } from "../study/plain.fixture.ts";
import { cellMoves, cellShare, heldCell } from "./before-after.ts";

const deviates = new Deviates(2);
const scene = plainScene();
const load = closed("x", { x: number("u/load", "1..3 guess") });
const checks = [
  check("a.holds", { value: closed("r", { r: number("u/strength", "2.2 sd 0.1") }), atLeast: load }),
  check("b.turns", { value: closed("r", { r: number("u/torque", "1.4..2.6 guess") }), atLeast: load }),
  check("c.annoys", { value: closed("r", { r: number("u/noise", "0.1") }), atLeast: load, severity: "N" }),
];
const cell = heldCell("plover", "x", scene, checks, deviates);
const even = alike(beliefDraws);
const none = new Set<string>();

test("a cell's share is the one that judging it gives, under any weights", () => {
  const weights = new Float64Array(beliefDraws).map((_, k) => (k % 3) + 0.2);
  for (const w of [even, weights]) {
    const judged = judge({ unit: "plover", tape: "x", scene, checks, deviates, weights: w, contradicted: none });
    expect(cellShare(cell, w, none).share).toBeCloseTo(judged.share!, 12);
    expect(cellShare(cell, w, none).verdict).toBe(judged.verdict);
    expect(cellShare(cell, w, none).first).toBe(judged.first[0]);
  }
});
test("a contradicted check stops no cell", () => {
  expect(cellShare(cell, even, new Set(["b.turns"])).share).toBeGreaterThan(cellShare(cell, even, none).share);
  expect(cellShare(cell, even, new Set(["a.holds", "b.turns"])).verdict).toBe("n/a");
});
test("cells whose verdict turns come first", () => {
  const still = { ...cell, tape: "still", checks: [] };
  const onlyHeld = even.map((_, k) => (cell.checks.every((c) => c.holds[k]) ? 1 : 0));
  const moves = cellMoves([still, cell], even, onlyHeld, none);
  expect(moves[0]).toMatchObject({ tape: "x", after: { share: 1, verdict: "feeds" } });
});
