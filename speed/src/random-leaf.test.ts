import { Leaf } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { accepts, tally } from "./leaf.ts";
import { plainCantilever } from "./leaf-plain.ts";
import { kinds, randomLeaf } from "./random-leaf.ts";
import { secondOpinion } from "./second-opinion.ts";

describe("of twenty random leaves pressed in one go each is answered, and none wrongly, where the kind is", () => {
  test.each(kinds)("%s", (kind) => {
    const { notSolved, judged, solved, wrong } = tally(kind, 20, 1);
    expect(notSolved).toBe(0);
    expect(judged).toBe(solved);
    expect(solved).toBeGreaterThan(14);
    expect(wrong).toEqual([]);
  });
});
describe("the second opinion refuses a state that is not one", () => {
  const one = randomLeaf("pin", 2);
  const state = new Leaf(one.shape).press(one.faces, one.stroke, one.more);
  if (state.outcome !== "solved") throw new Error(state.because);
  test("but not the state itself", () => expect(accepts(secondOpinion(one, state))).toBe(true));
  test("with a twentieth too much moment at its clamp", () => {
    const off = { ...state, root: { ...state.root, moment: state.root.moment * 1.05 } };
    expect(accepts(secondOpinion(one, off))).toBe(false);
  });
  test("with a pin that stands elsewhere", () => {
    expect(accepts(secondOpinion({ ...one, stroke: one.stroke * 1.1 }, state))).toBe(false);
  });
  test("with a force that leans beyond its friction", () => {
    const face = {
      ...state.faces[0]!,
      touches: state.faces[0]!.touches.map((t) => ({ ...t, x: t.x + 0.1 * t.force })),
    };
    expect(accepts(secondOpinion(one, { ...state, faces: [face] }))).toBe(false);
  });
});
test("the same number draws the same leaf, another another", () => {
  const said = (seed: number): string => JSON.stringify(randomLeaf("wrap", seed));
  expect(said(3)).toBe(said(3));
  expect(said(3)).not.toBe(said(4));
});
test("the plain solution of a cantilever, which ours is timed against, gives the same tip", () => {
  const { tip } = plainCantilever(20, 1, 1, 1e5, { x: 0, y: -2 });
  const ours = new Leaf({
    length: 1,
    thickness: Math.sqrt(12e-5),
    width: 1,
    E: 1e5 / Math.sqrt(12e-5),
    nu: 0,
    bends: "beam",
    elements: 20,
  });
  const pressed = ours.load({ y: -2 });
  expect(pressed.outcome === "solved" && Math.abs(pressed.tip.y - tip.y)).toBeLessThan(1e-4);
});
