import { describe, expect, test } from "vitest";
import {
  embossedTape,
  nominal,
  scene,
  sideCrossing,
  tapeWith,
  withBends,
  withGears,
  written,
} from "../scene.fixture.ts";
import type { Unit } from "../unit/unit.ts";
import { checkEnters, entryRoom, leastPlay, tipHalfWidth, tipRoom, transmissionError } from "./enters.ts";
import { feasibleInterval } from "./interval.ts";
import { toothOutline } from "./outline.ts";

const withTooth = (change: Partial<NonNullable<Unit["sprocket"]>["tooth"]>, unit = sideCrossing(12)) =>
  scene({ ...unit, sprocket: { ...unit.sprocket!, tooth: { ...unit.sprocket!.tooth, ...change } } }, embossedTape(12));
const mm = (name: string, text: string) => written(`tooth/${name}`, name, text);

// A tip of 0.30 by 0.4 mm: sqrt(0.75^2 - 0.15^2) - 0.2 = 0.535 mm to either side. [derived]
test("a tip of 0.30 by 0.4 mm comes in up to 0.535 mm off the hole line", () => {
  const tip = { D_0: 1.5, w_t: 0.15, t_t: 0.4, r_c: 0 };
  expect(tipRoom.value({ ...tip, y_w: 0.534 })).toBeGreaterThan(0);
  expect(tipRoom.value({ ...tip, y_w: 0.536 })).toBeLessThan(0);
});
test("a tip with corners comes in farther off than a square one", () => {
  const tip = { D_0: 1.5, w_t: 0.3, t_t: 0.6, y_w: 0.1 };
  expect(tipRoom.value({ ...tip, r_c: 0.3 })).toBeGreaterThan(tipRoom.value({ ...tip, r_c: 0 }));
});
describe("in a scene", () => {
  test("a slim tooth enters and a tooth as long as its hole does not", () => {
    expect(nominal(withTooth({}), entryRoom)).toBeGreaterThan(0);
    // 1.40 mm along with 0.70 mm across in a hole of 1.5 mm: 1.33 mm are open. [An independent re-derivation, A6, derived]
    const long = withTooth({ along: mm("along", "1.40 mm") });
    expect(nominal(long, leastPlay)).toBeLessThan(0);
    expect(nominal(long, entryRoom)).toBeLessThan(0);
  });
  test("the worse of tip and flanks decides, and is named", () => {
    const say = (s: ReturnType<typeof withTooth>) => {
      const x = { p: nominal(s, leastPlay), e_1: 0, q_t: nominal(s, tipRoom) };
      return entryRoom.where!(x);
    };
    expect(say(withTooth({}))).toBe("along the tape, between two teeth in their holes");
    expect(say(withTooth({ "across at tip": mm("tip", "1.3 mm") }))).toBe("across the tape, as a tip comes in");
  });
  test("an involute wheel runs truer than one with straight flanks", () => {
    const involute = withTooth({ shape: "involute" });
    expect(nominal(involute, transmissionError)).toBeLessThan(0.5 * nominal(withTooth({}), transmissionError));
  });
  test("says the play and the opening it knows, and is finite", () => {
    const s = scene(withGears(8), embossedTape(8));
    for (const q of [leastPlay, tipRoom, tipHalfWidth, entryRoom, transmissionError])
      expect(nominal(s, q)).toSatisfy(Number.isFinite);
    expect(checkEnters.because((q) => `<${q.symbol}>`, s)).toBe(
      "The teeth meet <D_e> of each hole along the tape; where it is tightest <p> of play are left. A tip comes in with <q_t> to spare across the tape.",
    );
  });
  test("is not applicable without a sprocket", () =>
    expect(checkEnters.absent(scene(withBends(16), embossedTape(16)))).toBe("the unit has no sprocket"));
  test("a pitch off by half a per cent costs a flat run no more than 0.06 mm", () => {
    const at = (P0: string) => scene(sideCrossing(12), tapeWith(12, { P0: written("own/P0", "P0", P0) }));
    const [right, long, short] = ["4 mm", "4.02 mm", "3.98 mm"].map((P) => nominal(at(P), leastPlay));
    for (const p of [long!, short!]) {
      expect(right! - p).toBeLessThan(0.06e-3);
      expect(right! - p).toBeGreaterThan(-0.06e-3);
    }
  });
});
test("where the play is least is said as a share of a pitch, and no play is no number", () => {
  const w = {
    teeth: 24,
    baseRadius: 15.13e-3,
    thickness: 0.3e-3,
    neutral: 0.5,
    wrap: 0,
    pitch: 4e-3,
    opening: 1.27e-3,
  };
  const outline = (tipRadius: number) =>
    toothOutline({ shape: "straight", halfWidth: 0.4e-3, pitchRadius: 15.28e-3, tipRadius, flank: 0.35 });
  expect(leastPlay.where!({ X: feasibleInterval({ ...w, outline: outline(16.2e-3) }) })).toMatch(
    /^with a tooth \d+ % of a pitch past upright$/,
  );
  expect(() => leastPlay.value({ X: feasibleInterval({ ...w, outline: outline(15e-3) }) })).toThrow(
    "no tooth of the wheel reaches into the tape",
  );
  expect(() => transmissionError.value({ X: feasibleInterval({ ...w, outline: outline(15e-3) }) })).toThrow(
    "at some angle of the wheel no tooth stands in the tape",
  );
});
