import { describe, expect, test } from "vitest";
import {
  embossedTape,
  heldByLeaf,
  nominal,
  oneSeal,
  outside,
  overhead,
  punchedTape,
  scene,
  sideCrossing,
  withBends,
  written,
} from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { type After, arcContact, cutAt, entryPull, pullAfterEach, reelDrag, routePull } from "./pull.ts";

const channel = { EI: 63e-6, kappa: 7.2, w: 0, T: 0.3e-3, s_l: 0.35e-3, c_r: 0.05e-3, mu: 0.25, psi: 0 };
/** The bends' unit with a wheel behind its bends. */
const bent = () => {
  const unit = withBends(16);
  const { sprocket } = sideCrossing(16);
  return scene({ ...unit, sprocket: { ...sprocket!, at: written("bent/at", "at", "14 mm") } }, embossedTape(16));
};
const inputs = (one: ReturnType<typeof bent>) => new Realiser(one, [entryPull]).run(asWritten).inputsOf(entryPull, one);
const pieces = (one: ReturnType<typeof bent>) => inputs(one).pieces as readonly After[];

describe("a route is cut at the wheel", () => {
  const behind = [{ line: 30 }, { radius: 20, turn: -0.5 }];
  const ahead = [{ line: 20 }, { line: 30 }];
  test("ahead of the placed mark, inside a piece", () => {
    const { before, after } = cutAt(behind, ahead, 14);
    expect(before).toEqual([...behind, { line: 14 }]);
    expect(after.map((p) => "line" in p && +p.line.toFixed(9))).toEqual([6, 30]);
  });
  test("behind it, inside a bend", () => {
    const { before, after } = cutAt(behind, ahead, -5);
    expect(before.at(-1)).toEqual({ radius: 20, turn: -0.25 });
    expect(after[0]).toEqual({ radius: 20, turn: -0.25 });
  });
  test("past its end nothing lies downstream", () => expect(cutAt(behind, ahead, 90).after).toEqual([]));
});
// Two faces of an arch of 0.05312 N (validation/independent/hold.py) at 0.25, by hand. [derived]
test("each straight piece adds 27 mN to the reel's 0.3 N", () => {
  const [first, second] = pullAfterEach(0.3, [{ line: 0.1 }, { line: 0.1 }], channel);
  expect(first!.pull).toBeCloseTo(0.32656, 5);
  expect(second!.pull).toBeCloseTo(0.35312, 5);
});
test("a tape bent against its set lies on less of the bend than one bent with it", () => {
  const after = (turn: number) => pullAfterEach(0.5, [{ radius: 50e-3, turn }], channel)[0]!;
  expect(after(1.2).contact).toBeLessThan(after(-1.2).contact);
});

describe("in a scene", () => {
  test("the pull grows from the reel to the wheel, piece by piece", () => {
    const one = bent();
    const list = pieces(one);
    // Line, bend, bend, line, to the peel mark and on to the pick and the wheel: six pieces. [by hand]
    expect(list.map((p) => p.piece)).toEqual(["straight", "bend", "bend", "straight", "straight", "straight"]);
    let before = nominal(one, reelDrag(one));
    for (const { pull } of list) {
      expect(pull).toBeGreaterThanOrEqual(before);
      before = pull;
    }
    expect(nominal(one, entryPull)).toBe(before);
  });
  test("a tape that does not lie on its bends is outside the range, and says so", () => {
    const one = bent();
    const q_a = nominal(one, arcContact);
    expect(q_a).toBeLessThan(1);
    expect(outside(entryPull, { q_a })).toEqual(["q_a"]);
  });
  test("without a bend contact is no question", () => {
    const one = scene(sideCrossing(12), embossedTape(12));
    expect(nominal(one, arcContact)).toBe(1e6);
    expect(outside(entryPull, { q_a: 1e6 })).toEqual([]);
  });
  test("the unit's own drag comes before what is assumed of reels", () => {
    const own = scene(heldByLeaf(12), embossedTape(12));
    expect(nominal(own, reelDrag(own))).toBeCloseTo(0.3, 12);
    const assumed = scene(sideCrossing(12), embossedTape(12));
    expect(reelDrag(assumed)).toBe(assumed.requirement.assume["reel drag"]);
  });
  test("board is dragged harder through a channel than plastic", () => {
    const board = scene(sideCrossing(8), punchedTape());
    const plastic = scene(sideCrossing(8), embossedTape(8));
    expect(nominal(board, entryPull)).toBeGreaterThan(nominal(plastic, entryPull));
  });
  test("where most of it comes from is said", () => {
    expect(entryPull.where!(inputs(bent()))).toMatch(/^most of it is added by (bend|straight) \d$/);
  });
  test("without a wheel nothing pulls, and bends downstream of it are no business of its", () => {
    const none = scene(oneSeal(), embossedTape(8));
    for (const m of [entryPull, arcContact, routePull]) expect(m.reads(none)).toBeUndefined();
    // The overhead unit's only bend lies behind its wheel.
    expect(nominal(scene(overhead(24), embossedTape(24)), arcContact)).toBe(1e6);
  });
});
