import type { CellMove, Verdict } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { cellMoveRows, cellMovesHtml } from "./cell-moves.ts";
import { elementsOf } from "./example.fixture.ts";

const side = (verdict: Verdict, share: number, first?: string) => ({ verdict, share, first });
/** Invented. */
const moves: readonly CellMove[] = [
  { unit: "plover", tape: "so20-24", before: side("depends", 0.4, "film.pull"), after: side("feeds", 0.99) },
  {
    unit: "dunlin",
    tape: "radio-44",
    before: side("depends", 0.6, "reel.jerks"),
    after: side("depends", 0.52, "reel.jerks"),
  },
  { unit: "dunlin", tape: "dpak-16", before: side("feeds", 0.99), after: side("feeds", 0.985) },
  { unit: "dunlin", tape: "pin-32", before: side("n/a", Number.NaN), after: side("n/a", Number.NaN) },
];

test("cells that move by less than a point are counted, not listed", () => {
  const { rows, still } = cellMoveRows(moves);
  expect(rows.map((r) => r.tape)).toEqual(["so20-24", "radio-44"]);
  expect(still).toBe(2);
});
test("a row says its verdict before and after, the check that decides, and whether it turned", () => {
  const [turned, moved] = cellMoveRows(moves).rows;
  expect(turned).toMatchObject({
    check: "film.pull",
    turned: true,
    before: { verdict: "depends", words: "depends 40 %" },
    after: { verdict: "feeds", words: "feeds" },
    spoken: "so20-24 of plover: depends 40 % by pull, then feeds",
  });
  expect(moved!.turned).toBe(false);
});
test("a cell that loses its verdict for nothing is still a move", () => {
  const gone: CellMove = {
    unit: "plover",
    tape: "x",
    before: side("feeds", 0.951),
    after: side("depends", 0.949, "a.b"),
  };
  expect(cellMoveRows([gone]).rows).toHaveLength(1);
});
test("the table is well formed, names its columns, and marks every verdict by form", () => {
  const html = cellMovesHtml(moves, { still: 3, link: (unit, tape, check) => `#${unit}&<${tape} ${check}` });
  const all = elementsOf(html);
  expect(all.filter((e) => e.name === "svg")).toHaveLength(4);
  expect(all.filter((e) => e.attributes.scope === "col")).toHaveLength(3);
  expect(html).toContain('href="#plover&amp;&lt;so20-24 film.pull"');
  expect(html).toContain("1 verdict turns");
  expect(html).toContain("5 other cells move by less than a point");
});
test("nothing that moves is said in words", () => {
  const html = cellMovesHtml([]);
  expect(html).toContain("No cell moves by a point or more.");
  expect(html).not.toContain("<table");
});
test("what does not fit is counted", () => {
  const many = Array.from({ length: 20 }, (_, i) => ({ ...moves[0]!, tape: `t-${i}` }));
  const html = cellMovesHtml(many, { most: 5 });
  expect(elementsOf(html).filter((e) => e.name === "tr")).toHaveLength(6);
  expect(html).toContain("and 15 more");
});
