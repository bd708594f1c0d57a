import { describe, expect, test } from "vitest";
import { evenWeights } from "../coverage/judge.ts";
import {
  driven,
  embossedTape,
  halfPitchTape,
  nominal,
  oneSeal,
  scene,
  sideCrossing,
  tapeWith,
  written,
} from "../scene.fixture.ts";
import type { Calibration, Scene } from "../scene.ts";
import { Deviates } from "../study/deviates.ts";
import { finished } from "../study/steps.ts";
import { type Accuracy, AccuracyStudy, accuracyInSteps } from "./accuracy.ts";
import { chainOf, leavesIn, restAngles } from "./chain.ts";
import { middleOf } from "./middle.ts";
import { AnyRadius } from "./narrow.ts";
import { calibrationOf, checkRadius, pickRadius } from "./radius.ts";
import { usualFamilies } from "./yield.ts";

const sheet = driven.sheetScene();
const names = { unit: "sheet", tape: "tape" };
const seeds = new Deviates(3);
const study = (one: Scene, options = {}): Accuracy =>
  finished(accuracyInSteps(one, names, seeds, evenWeights, { draws: 8 * 4096, quick: true, ...options }));
const taught = (calibration: Calibration): Scene => ({ ...sheet, requirement: { ...sheet.requirement, calibration } });
const whole = study(sheet, { quick: false });

test("radii in closed form and by draws agree: their ratio lies within 12 % of 1, and varies by under 6 % over belief", () => {
  expect(whole.agreement!.ratio).toBeGreaterThan(0.88);
  expect(whole.agreement!.ratio).toBeLessThan(1.06);
  expect(whole.agreement!.sd).toBeLessThan(0.06);
});
test("a known unit and reel lies within less than any cycle of any unit, and every band is in order", () => {
  const { known, any, unitMean } = whole.radii;
  expect(known.middle).toBeLessThan(any!.middle);
  for (const band of [known, any!, unitMean!]) {
    expect(band.low).toBeLessThanOrEqual(band.middle);
    expect(band.middle).toBeLessThanOrEqual(band.high);
  }
  expect(any!.middle).toBeGreaterThan(2 * Math.max(whole.sd.x, whole.sd.y));
});
test("a calibration of one point narrows the radius of any unit, two points narrow it further", () => {
  const [none, one, two] = (["none", "one point", "two points"] as const).map((c) =>
    new AnyRadius(taught(c)).radius(0.997),
  );
  expect(one!).toBeLessThan(none!);
  expect(two!).toBeLessThan(one!);
});
test("what a calibration takes out is what is fixed for a unit; what a reel adds and an index swings stays", () => {
  const parts = chainOf(sheet).flatMap((t) => t.parts);
  for (const p of parts) {
    expect(leavesIn(p, "none")).toBe(true);
    expect(leavesIn(p, "one point")).toBe(!(p.level === "unit" && p.trims));
  }
  expect(parts.filter((p) => !leavesIn(p, "one point")).map((p) => p.by.id)).toEqual([
    "pick.rest-ripple",
    "pick.yaw-kept-along",
    "pick.yaw-kept-across",
    "pick.side-kept",
    ...(sheet.tape.partLength ? ["pick.part-thrown"] : []),
  ]);
  expect(calibrationOf(sheet)).toBe("one point");
});

describe("pieces", () => {
  const make = () => {
    const s = new AccuracyStudy(sheet, names, new Deviates(3), evenWeights, { draws: 8 * 4096 });
    finished(s.prepare());
    return s;
  };
  test("done in any order and by several hands they are the same bits", () => {
    const [a, b] = [make(), make()];
    const one = a.put([0, 1, 2, 3, 4, 5, 6, 7].map((k) => a.block(k)));
    const late = [7, 5, 3, 1].map((k) => b.block(k));
    const other = b.put([...late, ...[6, 4, 2, 0].map((k) => a.block(k))]);
    expect(JSON.stringify(other)).toBe(JSON.stringify(one));
  });
  test("another seed gives other draws, and radii that are near", () => {
    const other = finished(
      accuracyInSteps(sheet, names, new Deviates(4), evenWeights, { draws: 8 * 4096, quick: true }),
    );
    expect(other.points.x[0]).not.toBe(whole.points.x[0]);
    expect(other.radii.known.middle / whole.radii.known.middle).toBeGreaterThan(0.9);
    expect(other.radii.known.middle / whole.radii.known.middle).toBeLessThan(1.1);
  });
  test("it is told in closed form first, then sharpened", () => {
    const told: [string, number][] = [];
    finished(
      accuracyInSteps(sheet, names, seeds, evenWeights, { draws: 16 * 4096, quick: true }, (so, done) =>
        told.push([so.how, done]),
      ),
    );
    expect(told).toEqual([
      ["closed", 0],
      ["drawn", 4],
      ["drawn", 8],
      ["drawn", 16],
    ]);
  });
  test("draws that are none are refused", () => {
    for (const draws of [0, -1, Number.NaN, 1e10])
      expect(() => new AccuracyStudy(sheet, names, seeds, evenWeights, { draws })).toThrow("draws");
  });
});

test("shares of the terms and of the inputs add up to the whole, the inputs' at least to it", () => {
  expect(whole.terms.reduce((sum, t) => sum + (t.share ?? 0), 0)).toBeCloseTo(1, 6);
  const inputs = whole.contributions.reduce((sum, c) => sum + c.share, 0);
  expect(inputs).toBeGreaterThan(0.95);
  expect(inputs).toBeLessThan(1.4);
  for (const c of whole.contributions) expect(c.address.length).toBeGreaterThan(3);
});
test("a larger allowance holds at least the parts of a smaller one", () => {
  const held = whole.yields.filter((y) => y.turn === whole.yields[0]!.turn).map((y) => y.any.middle);
  expect(held).toEqual([...held].sort((a, b) => a - b));
  expect(whole.yields.map((y) => y.family)).toEqual(usualFamilies.map((f) => f.name));
});
test("a lever that is named narrows the radius, and says what falls", () => {
  expect(whole.narrowing.length).toBeLessThanOrEqual(3);
  for (const n of whole.narrowing) {
    expect(n.after).toBeLessThan(n.before);
    expect(n.to).not.toBe(n.from);
  }
});
test("at most 400 places are handed on, and ellipses hold the sds", () => {
  expect(whole.points.x.length).toBeLessThanOrEqual(400);
  expect(whole.points.y).toHaveLength(whole.points.x.length);
  const [one, two] = whole.ellipses;
  expect(two!.long).toBeCloseTo(2 * one!.long, 12);
  expect(one!.long ** 2 + one!.short ** 2).toBeCloseTo(whole.sd.x ** 2 + whole.sd.y ** 2, 15);
});

describe("in a scene", () => {
  test("a unit without a sprocket has no chain, a project without a pick tool no verdict", () => {
    const bare = scene(oneSeal(), embossedTape(8));
    expect(checkRadius.absent(bare)).toBe("the unit has no sprocket");
    expect(study(bare).absent).toBe("the unit has no sprocket");
    const { pickTool: _, ...requirement } = sheet.requirement;
    expect(checkRadius.absent({ ...sheet, requirement })).toBe(
      "project.yaml gives no radius that the pick tool forgives",
    );
  });
  test("half pitches are in the chain where the tape steps them alone", () => {
    const left = (one: Scene) => chainOf(one).find((t) => t.id === "half-step")!.left;
    expect(left(scene(sideCrossing(8), halfPitchTape()))).toBeUndefined();
    expect(left(sheet)).toBe("the tape steps whole hole pitches");
  });
  test("a part whose size no file gives is left out, and the chain says so", () => {
    const { partLength: _, partWidth: __, ...tape } = tapeWith(12, {});
    const one = scene(sideCrossing(12), tape);
    expect(chainOf(one).find((t) => t.id === "part")!.left).toBe(
      "the tape file does not give the part's length and width",
    );
    expect(nominal(one, pickRadius)).toBeGreaterThan(0);
  });
  // 24 teeth of 4 mm and steps of 8 mm: twelve places in a turn. [by hand]
  test("a wheel rests at as many angles as its turn holds steps, over their common measure", () => {
    const unit = sideCrossing(12);
    const teeth = (text: string) => ({
      ...unit,
      sprocket: { ...unit.sprocket!, teeth: written("made up/teeth", "z", text, "") },
    });
    const on = (text: string, P1: string) =>
      restAngles(
        scene(teeth(text), {
          ...embossedTape(12),
          letters: { ...embossedTape(12).letters, P1: written("made up/P1", "P_1", P1) },
        }),
      );
    expect(on("24", "8 mm")).toBe(12);
    expect(on("24", "4 mm")).toBe(24);
    expect(on("24", "96 mm")).toBe(1);
    expect(on("25", "8 mm")).toBe(25);
  });
});
test("the middle of 1.5 +0.1/-0 mm is 1.55 mm, of limits alike it is where it stands; without limits there is none", () => {
  expect(nominal(sheet, middleOf(written("made up/a", "a", "1.5 +0.1/-0 mm"))!)).toBeCloseTo(1.55e-3, 12);
  expect(nominal(sheet, middleOf(written("made up/b", "b", "2.0 ±0.05 mm"))!)).toBeCloseTo(2e-3, 12);
  expect(middleOf(written("made up/c", "c", "2 mm"))).toBeUndefined();
});
