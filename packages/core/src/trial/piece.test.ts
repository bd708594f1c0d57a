import { expect, test } from "vitest";
import { checkNamed } from "../checks.ts";
import { crowded } from "../clearance/clearance.fixture.ts";
import { doubleArea } from "../route/convex.ts";
import { box } from "../route/outline.ts";
import { embossedTape, oneSeal, scene, sideCrossing } from "../scene.fixture.ts";
import { hull, shareIn, trialPiece } from "./piece.ts";

const on12 = scene(sideCrossing(12), embossedTape(12));
const piece = (id: string) => trialPiece(on12, checkNamed(id)!)!;
const spans = (id: string) => {
  const x = piece(id).outline.map((p) => p.x);
  return Math.max(...x) - Math.min(...x);
};

test("the nip's grip needs the nip and a hand to turn it, not the sprocket", () => {
  const p = piece("nip.pulls");
  expect(p.kept).toContain(7);
  expect(p.left).toContain(6);
  expect(p.turned).toBe("a hand crank");
});
test("the teeth's entry needs the sprocket alone: a cut shorter than the film's route", () => {
  expect(piece("tooth.enters").kept).not.toContain(7);
  expect(spans("tooth.enters")).toBeLessThan(spans("film.mismatch"));
});
test("the film's route is cut from the peel edge to the nip", () => {
  const { outline, kept } = piece("film.mismatch");
  expect(kept).toContain(4);
  // The peel line stands 9 mm before the pick, the nip 105 mm behind that.
  expect(Math.min(...outline.map((p) => p.x))).toBeLessThan(-0.114);
  expect(Math.max(...outline.map((p) => p.x))).toBeLessThan(0.03);
});
test("the cut runs anticlockwise round everything kept, with room to spare", () => {
  const { outline } = piece("film.mismatch");
  expect(doubleArea(outline.flatMap((p) => [p.x, p.z]))).toBeGreaterThan(0);
});
test("a check that does not apply has no piece", () => {
  expect(trialPiece(scene(oneSeal(8), embossedTape(8)), checkNamed("nip.pulls")!)).toBeUndefined();
});
test("bodies of a station left out are not in the piece", () => {
  const p = trialPiece(crowded(), checkNamed("film.mismatch")!)!;
  expect(p.bodies).not.toContain("board");
  expect(p.outline.length).toBeGreaterThan(5);
});
test("the hull of four circles at a square's corners holds them and nothing inside counts", () => {
  const h = hull([
    { x: 0, z: 0, r: 1 },
    { x: 10, z: 0, r: 1 },
    { x: 10, z: 10, r: 1 },
    { x: 0, z: 10, r: 1 },
    { x: 5, z: 5, r: 1 },
  ]);
  const area = doubleArea(h.flatMap((p) => [p.x, p.z])) / 2;
  // 10 x 10, four sides 10 x 1, four quarter circles. [derived]
  expect(area).toBeGreaterThan(140 + Math.PI);
  expect(area).toBeLessThan(142 + Math.PI);
});
test("half of a box lies within a cut through its middle", () => {
  const cut = hull([
    { x: 0, z: -9, r: 0 },
    { x: 9, z: -9, r: 0 },
    { x: 9, z: 9, r: 0 },
    { x: 0, z: 9, r: 0 },
  ]);
  expect(shareIn(cut, [box(-1, -1, 1, 1)])).toBeCloseTo(0.5, 12);
});
