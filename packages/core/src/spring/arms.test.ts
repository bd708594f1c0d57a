import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkDown } from "../hold-down/down.ts";
import { checkRides } from "../hold-down/rides.ts";
import type { Model } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import { embossedTape, heldByLeaf, nominal, outside, scene, written } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import {
  type Cut,
  cutOf,
  leafCut,
  leafWidth,
  outsideWidth,
  straightRate,
  windowFarEnd,
  windowInWords,
  windowLeftOut,
  windowNearEnd,
} from "./arms.ts";
import { checkLeafFatigue } from "./fatigue.ts";
import { heldLeaf, leafRate } from "./held.ts";
import { checkLeafStress } from "./stress.ts";

const mm = 1e-3;
const at = (text: string) => written(`a/${text}`, "s", text);
/** The unit with other numbers of its hold-down; undefined takes one out. */
const withLeaf = (more: object, width = 12, change = (unit: ReturnType<typeof heldByLeaf>) => unit): Scene => {
  const unit = change(heldByLeaf(width));
  const all = Object.entries({ ...unit["hold-down"], ...more }).filter(([, v]) => v !== undefined);
  return scene({ ...unit, "hold-down": Object.fromEntries(all) as never }, embossedTape(width));
};
const ends = (one: Scene) => [nominal(one, windowFarEnd) / mm, nominal(one, windowNearEnd) / mm];
const inputs = (one: Scene) => new Realiser(one, [leafRate]).run(asWritten).inputsOf(leafCut, one);

describe("the window lies along the leaf", () => {
  // Nose 14 mm past the pick position, window of 6.4 + 4 mm about it. [by hand]
  test("where the pick position stands before the nose", () => {
    const [far, near] = ends(withLeaf({}));
    expect(far).toBeCloseTo(19.2, 9);
    expect(near).toBeCloseTo(8.8, 9);
    expect(leafCut.value(inputs(withLeaf({})))).toMatchObject({ window: { arm: 2.5 * mm } });
  });
  test("as far from the nose whichever way the leaf points", () => {
    const unit = heldByLeaf(12);
    const pick = nominal(scene(unit, embossedTape(12)), unit.sprocket!.at) / mm - 14;
    const [far, near] = ends(withLeaf({ at: at(`${pick - 14} mm`) }));
    expect(far).toBeCloseTo(19.2, 9);
    expect(near).toBeCloseTo(8.8, 9);
  });
  test("and ends at the clamp and at the nose", () => {
    const [far, near] = ends(withLeaf({ opening: { x: at("30 mm"), y: at("7.2 mm") } }));
    expect(far).toBeCloseTo(24, 9);
    expect(near).toBe(0);
  });
  // Clamped 9 mm before the pick position: 24 - 9 = 15 mm from the nose, window 10.4 mm. [by hand]
  test("by the place of its clamp where nothing says where the nose is", () => {
    const unit = heldByLeaf(12);
    const pick = nominal(scene(unit, embossedTape(12)), unit.sprocket!.at) / mm - 14;
    const one = withLeaf({ from: at(`${pick - 9} mm`) }, 12, ({ sprocket: _, ...rest }) => rest as never);
    const [far, near] = ends(one);
    expect(far).toBeCloseTo(20.2, 9);
    expect(near).toBeCloseTo(9.8, 9);
  });
});

describe("its widths", () => {
  const widths = (one: Scene) => [leafWidth, outsideWidth].map((of) => nominal(one, of(one)!) / mm);
  // Window of 5.2 + 2 mm across. [by hand]
  test("are both arms, and these with the window between them", () => {
    const [arms, whole] = widths(withLeaf({}));
    expect(arms).toBeCloseTo(5, 9);
    expect(whole).toBeCloseTo(12.2, 9);
  });
  test("are the whole leaf's, and that less the window", () => {
    const [arms, whole] = widths(withLeaf({ width: undefined, "outside width": at("11 mm") }));
    expect(arms).toBeCloseTo(3.8, 9);
    expect(whole).toBeCloseTo(11, 9);
  });
  test("are one without a window, whichever of both is given", () => {
    for (const name of ["width", "outside width"]) {
      const one = withLeaf({ width: undefined, opening: undefined, [name]: at("6 mm") });
      for (const width of widths(one)) expect(width).toBeCloseTo(6, 9);
      expect(leafCut.reads(one)).toBeUndefined();
    }
  });
});

describe("a straight leaf's rate", () => {
  const steel = { E: 185e9, t: 0.2 * mm };
  // Beams in series by quadrature: validation/independent/window.py. [derived]
  test.each([
    [24, 5, 7.2, 4.8, 15.2, 180.49039],
    [24, 5, 4.4, 7, 13, 192.40801],
    [24, 5, 12, 5, 15, 197.828],
    [30, 8, 16, 6, 24, 147.05817],
    [24, 5, 18, 2.6, 17.4, 158.60912],
  ])("of %f mm with arms of %f and a window of %f mm from %f to %f is %f N/m", (L, b, o, from, to, k) => {
    const ends = { v_1: (L - from) * mm, v_2: (L - to) * mm };
    const rate = straightRate({ ...steel, L: L * mm, b: b * mm, b_o: (b + o) * mm, ...ends });
    expect(rate / k).toBeCloseTo(1, 5);
    // The beam solver over the same leaf, pressed little; a rate over a hundredth of the force.
    const cut = cutOf({ L: L * mm, b: b * mm, b_o: (b + o) * mm, ...ends });
    const held = heldLeaf({ ...steel, F_0: 1e-4, L: L * mm, b: b * mm, b_t: b * mm, nu: 0, alpha: 0, o: cut });
    expect(Math.abs(held.rate / k - 1)).toBeLessThan(2e-3);
  });
  test("without a window is the cantilever's to the bit", () => {
    const size = fc.double({ min: 1e-3, max: 0.2, noNaN: true });
    fc.assert(
      fc.property(size, size, size, size, (L, b, v_1, v_2) => {
        const cantilever = (185e9 * b * power(0.2 * mm, 3)) / (4 * power(L, 3));
        expect(straightRate({ ...steel, L, b, b_o: b, v_1, v_2 })).toBe(cantilever);
      }),
      { seed: 71, numRuns: 100 },
    );
  });
  test("falls as the window grows, from the whole leaf's to the arms'", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const at = (v_1: number, v_2: number) =>
      straightRate({ ...steel, L: 24 * mm, b: 5 * mm, b_o: 12 * mm, v_1: v_1 * 24 * mm, v_2: v_2 * 24 * mm });
    fc.assert(
      fc.property(share, share, share, (a, b, c) => {
        const [low, middle, high] = [a, b, c].sort((p, q) => p - q);
        expect(at(high!, low!)).toBeLessThanOrEqual(at(middle!, low!) * (1 + 1e-12));
        expect(at(high!, low!)).toBeLessThanOrEqual(at(high!, middle!) * (1 + 1e-12));
      }),
      { seed: 72, numRuns: 100 },
    );
    expect(at(1, 0) / straightRate({ ...steel, L: 24 * mm, b: 5 * mm, b_o: 5 * mm, v_1: 0, v_2: 0 })).toBeCloseTo(
      1,
      12,
    );
  });
});

describe("the leaf at its preload", () => {
  const plain = { F_0: 0.9, L: 24 * mm, b: 5 * mm, b_t: 5 * mm, t: 0.2 * mm, E: 185e9, nu: 0.3, alpha: 0 };
  const windowed = (v_1: number, v_2: number): Cut =>
    cutOf({ L: plain.L, b: plain.b, b_o: 12.2 * mm, v_1: v_1 * mm, v_2: v_2 * mm });
  test("with a window of no length is the whole leaf to the bit", () => {
    const cut = windowed(14, 14);
    expect(cut.window).toBeUndefined();
    expect(heldLeaf({ ...plain, o: cut })).toEqual(heldLeaf({ ...plain, b: 12.2 * mm, b_t: 12.2 * mm }));
  });
  test("with a window over all of it bends as its two arms, each a strip of its own", () => {
    const cut = heldLeaf({ ...plain, nu: 0, o: windowed(24, 0) });
    const arms = heldLeaf({ ...plain, nu: 0 });
    expect(cut.stroke / arms.stroke).toBeCloseTo(1, 9);
    expect(cut.stress / arms.stress).toBeCloseTo(1, 9);
  });
  // 6 F x/(b t^2), x the tip's way aside from where the arms begin, 20.2 mm along the leaf less what the bend takes. [by hand]
  test("bears most where its arms begin, less than arms from the clamp would", () => {
    const small = { ...plain, F_0: 0.05 };
    const cut = heldLeaf({ ...small, o: windowed(19.2, 8.8) });
    expect(cut.stress / ((6 * 0.05 * 20.2 * mm) / (5 * mm * (0.2 * mm) ** 2))).toBeCloseTo(1, 2);
    expect(cut.stress / heldLeaf(small).stress).toBeCloseTo(20.2 / 24, 2);
  });
});

describe("a window that does not count is said, with the most it can do", () => {
  const say = (q: { symbol: string }): string => `<${q.symbol}>`;
  const tapering = withLeaf({ "tip width": at("3 mm") });
  const nowhere = withLeaf({ opening: { x: at("10 mm"), y: at("7 mm") } }, 12, (unit) => ({
    ...unit,
    tape: { ...unit.tape, route: unit.tape.route.filter((piece) => piece.mark !== "pick") },
  }));
  test("for a leaf that tapers, and for one whose window has no place", () => {
    expect(windowLeftOut(tapering)).toBe("the leaf tapers");
    expect(windowLeftOut(nowhere)).toBe("where it lies along the leaf is not given");
    expect(windowLeftOut(withLeaf({ opening: undefined }))).toBeUndefined();
    for (const one of [tapering, nowhere]) expect(leafCut.reads(one)).toBeUndefined();
  });
  test("in the sentence of each check that rests on how the leaf bends", () => {
    const words =
      " Its window is not counted, for the leaf tapers: it is taken as two arms from clamp to nose, and may be up to <q_w> times as stiff.";
    expect(windowInWords(say, tapering)).toBe(words);
    expect(windowInWords(say, withLeaf({}))).toBe("");
    for (const check of [checkLeafStress, checkLeafFatigue, checkDown, checkRides]) {
      expect(check.because(say, tapering)).toContain(words);
      expect(check.because(say, withLeaf({}))).not.toContain("window");
    }
  });
  test("is stiffer than its arms by less than the whole width over theirs", () => {
    const said: number[] = [];
    windowInWords((q) => {
      said.push(nominal(tapering, q));
      return "";
    }, tapering);
    // 12.2 over 5 mm. [by hand]
    expect(said).toHaveLength(1);
    expect(said[0]).toBeCloseTo(2.44, 9);
  });
});

test("a shape that no plate was held against is outside the range: arms too slender, a window too wide, no bar at the nose", () => {
  const where = (more: object) => outside(leafCut as Model<never>, inputs(withLeaf(more)));
  expect(where({})).toEqual([]);
  expect(where({ width: at("1 mm") })).toEqual(["q_a", "q_o"]);
  expect(where({ opening: { x: at("10 mm"), y: at("30 mm") } })).toEqual(["q_o"]);
  expect(where({ opening: { x: at("26 mm"), y: at("7 mm") } })).toEqual(["q_n"]);
});
