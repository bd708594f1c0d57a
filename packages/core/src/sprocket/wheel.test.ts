import { describe, expect, test } from "vitest";
import { assumed } from "../assume.ts";
import {
  embossedTape,
  nominal,
  overhead,
  scene,
  sideCrossing,
  tapeWith,
  withBends,
  withGears,
  written,
} from "../scene.fixture.ts";
import { Realiser } from "../study/realise.ts";
import {
  baseRadius,
  flankOf,
  interval,
  meanPitch,
  noTeeth,
  pitchRadius,
  singlePitchError,
  tipRadius,
  wheel,
} from "./wheel.ts";

const crossing = scene(sideCrossing(12), embossedTape(12));

// 24 x 4/(2 pi); 15.1 + 1.1. [derived]
test("a wheel of 24 teeth has its pitch line at 15.28 mm and its tips where the file puts them", () => {
  expect(nominal(crossing, pitchRadius) * 1e3).toBeCloseTo(15.2789, 4);
  expect(nominal(crossing, tipRadius) * 1e3).toBeCloseTo(16.2, 9);
});
describe("the pitch of the holes", () => {
  const drawn = (q: Parameters<typeof nominal>[1], z: number) =>
    new Realiser(crossing, [q]).run({ n: 1, unknown: () => 0, scatter: () => Float64Array.of(z) }).number(q);
  // EIA-481-D p. 13: 0.2 mm over ten pitches [read], so 0.02 mm on each.
  test("of the catalogue has a mean of 4 mm within 0.02 mm", () => {
    const P = meanPitch(crossing.tape);
    expect(nominal(crossing, P) * 1e3).toBeCloseTo(4, 12);
    expect(P.kind === "given" && P.scatters.length).toBe(1);
    expect(drawn(P, 1) * 1e3).toBeCloseTo(4.02, 6);
    expect(drawn(P, -1) * 1e3).toBeCloseTo(3.98, 6);
  });
  test("and a single hole may be 0.1 mm off, alone", () => {
    expect(nominal(crossing, singlePitchError)).toBe(0);
    expect(drawn(singlePitchError, 1) * 1e3).toBeCloseTo(0.1, 6);
  });
  test("of a file is that of all its holes", () => {
    const own = scene(sideCrossing(12), tapeWith(12, { P0: written("own/P0", "P0", "3.99 ±0.005 mm") }));
    expect(meanPitch(own.tape)).toBe(own.tape.letters.P0);
    expect(nominal(own, singlePitchError)).toBe(0);
  });
  test("is one quantity for all tapes of the catalogue", () =>
    expect(meanPitch(embossedTape(8))).toBe(meanPitch(embossedTape(24))));
});
describe("the axis under the tape", () => {
  test("is the file's where the frame fixes the underside", () =>
    expect(baseRadius(crossing)).toBe(crossing.unit.sprocket!["axis below tape"]));
  test("comes nearer to thick tape where the frame fixes the cover side", () => {
    const thick = scene(overhead(24), tapeWith(24, { T: written("own/T", "T", "0.5 mm") }));
    // Built for 0.35 mm.
    expect(nominal(thick, baseRadius(thick)!) * 1e3).toBeCloseTo(15.1 - 0.15, 9);
  });
});
test("a flank is the file's, an unknown, or none of an involute", () => {
  expect(flankOf(crossing)).toBe(crossing.requirement.assume["tooth flank"]);
  expect(assumed()["tooth flank"].unknown).toMatchObject({
    low: expect.closeTo(0.2094, 3),
    high: expect.closeTo(0.4363, 3),
  });
  const involute = scene(withGears(8), embossedTape(8));
  expect(nominal(involute, flankOf(involute))).toBe(0);
  const { unit } = crossing;
  const given = written("flank", "phi", "22 deg", "deg");
  expect(
    flankOf(
      scene(
        { ...unit, sprocket: { ...unit.sprocket!, tooth: { ...unit.sprocket!.tooth, flank: given } } },
        crossing.tape,
      ),
    ),
  ).toBe(given);
});
test("a scene's wheel carries its own numbers into the interval", () => {
  const s = scene(withGears(8), embossedTape(8));
  const run = new Realiser(s, [wheel, interval]).run({ n: 1, unknown: () => 0, scatter: () => undefined });
  const w = wheel.value(run.inputsOf(wheel, s));
  expect(w).toMatchObject({ teeth: 24, wrap: expect.closeTo((38 * Math.PI) / 180, 9), pitch: expect.closeTo(4e-3, 9) });
  expect(interval.value(run.inputsOf(interval, s)).step).toBeCloseTo((2 * Math.PI) / 24, 12);
});
test("a unit without a sprocket has no teeth to speak of", () => {
  expect(noTeeth(scene(withBends(16), embossedTape(16)))).toBe("the unit has no sprocket");
  expect(noTeeth(crossing)).toBeUndefined();
});
