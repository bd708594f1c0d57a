import { checks, trialPiece } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { elementsOf, pairs, sceneOf, shapeOf } from "./example.fixture.ts";
import { marked } from "./marked.fixture.ts";
import { toSvg } from "./scene.ts";
import { trialPieceDrawing, trialPieceRows, trialPieceWords } from "./trial-piece.ts";

const size = { width: 360, height: 220 };
const pieceOf = (unit: string, tape: string, check: string) =>
  trialPiece(sceneOf(unit, tape), checks.find((c) => c.id === check)!)!;
const [unit, tape] = pairs[0]!;
const some = checks.filter((c) => c.severity === "S").flatMap((c) => trialPiece(sceneOf(unit, tape), c) ?? []);

test("every hard check of the example's first pair has a piece that can be drawn", () => {
  expect(some.length).toBeGreaterThan(8);
  for (const piece of some) {
    const svg = toSvg(trialPieceDrawing(shapeOf(unit, tape), piece, size), { prefix: "t" });
    expect(elementsOf(svg).length).toBeGreaterThan(40);
  }
});
describe.each(["dunlin", "plover"])("of %s", (name) => {
  const [, on] = pairs.find(([u]) => u === name)!;
  const piece = pieceOf(name, on, "tooth.enters");
  const d = trialPieceDrawing(shapeOf(name, on), piece, size);
  test("the cut has the piece's corners and lies on the paper", () => {
    const [cut] = marked(d.shapes, "cut");
    const corners = cut?.kind === "path" ? cut.d.filter((s) => s[0] !== "Z") : [];
    expect(corners).toHaveLength(piece.outline.length);
    for (const [, x, y] of corners as readonly (readonly ["M" | "L", number, number])[]) {
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(size.width);
      expect(y).toBeGreaterThan(0);
      expect(y).toBeLessThan(size.height);
    }
  });
  test("what is kept is drawn within the cut, and the rest of the unit pale", () => {
    const svg = toSvg(d, { prefix: "t" });
    expect(elementsOf(svg).filter((e) => e.name === "polygon")).toHaveLength(1);
    expect(elementsOf(svg).filter((e) => e.attributes.class === "pale")).toHaveLength(1);
    expect(elementsOf(svg).filter((e) => e.attributes.class === "kept")).toHaveLength(1);
  });
  test("the stations that are kept have their numbers, and no other has", () => {
    const numbers = marked(d.shapes, "station").map((s) => Number(s.data!.station));
    expect(numbers.length).toBeGreaterThan(0);
    for (const n of numbers) expect(piece.kept).toContain(n);
    expect(numbers).toContain(piece.station);
  });
});
test("a crank is added where a hand turns the piece, and nothing where its own motor or nothing turns it", () => {
  const piece = pieceOf(unit, tape, "tooth.enters");
  const added = (turned: (typeof piece)["turned"]) =>
    marked(trialPieceDrawing(shapeOf(unit, tape), { ...piece, turned }, size).shapes, "added").map(
      (s) => s.data!.added,
    );
  expect(added("a hand crank")).toEqual(["a hand crank"]);
  expect(added("its own motor")).toEqual([]);
  expect(added("nothing turns")).toEqual([]);
});
test("kept and left out are told as stations, parts with the share that is kept, print as mass and hours", () => {
  const rows = trialPieceRows(
    {
      ...pieceOf(unit, tape, "tooth.enters"),
      kept: [4, 7],
      left: [1],
      turned: "a hand crank",
      parts: [
        { name: "frame", share: 0.35 },
        { name: "wheel", share: 1 },
      ],
      mass: 0.0382,
      time: 7560,
    },
    { run: "5 reels", settles: "wander under 0.17 mm" },
  );
  expect(rows.map((r) => `${r.term}: ${r.words}`)).toEqual([
    "Keep: 4 peel and 7 nip",
    "Leave out: 1 entry",
    "Turned: by a hand crank",
    "Parts: frame (35 %) and wheel",
    "Print: 38 g, 2.1 h",
    "Run: 5 reels",
    "Settles: wander under 0.17 mm",
  ]);
});
test("a piece without an outline shows the whole unit pale and no cut", () => {
  const d = trialPieceDrawing(shapeOf(unit, tape), { ...pieceOf(unit, tape, "tooth.enters"), outline: [] }, size);
  expect(marked(d.shapes, "cut")).toEqual([]);
  expect(toSvg(d, { prefix: "t" })).toContain("pale");
});
test("the piece is told with its size", () => {
  expect(trialPieceWords(pieceOf(unit, tape, "tooth.enters"))).toMatch(/The cut is \d+ mm long and \d+ mm high\./);
});
