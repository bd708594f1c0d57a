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
import { leastPlay } from "./enters.ts";
import { feasibleInterval } from "./interval.ts";
import { toothOutline } from "./outline.ts";
import { checkWrap, fittingThickness, toothInWrap, wrapPlay } from "./wrap.ts";

const pi = Math.PI;
const De = 2 * Math.sqrt(0.75 ** 2 - 0.4 ** 2);
const rp = (24 * 4) / (2 * pi);
const rule = (T: number, l_t: number, alpha = pi / 2, P = 4) =>
  wrapPlay.value({ D_e: De, l_t, alpha, z: 24, P, r_n: rp - 0.15 + T / 2, pi });

// A wheel made for 0.3 mm, tape round it by 90 deg. [Independent re-derivation, C13: -0.067, -0.459, +0.23, -0.16 mm, derived]
describe("a wheel made for tape of 0.3 mm", () => {
  test.each([
    [0.6, 1.1, -0.067],
    [1.1, 1.1, -0.459],
    [0.6, 0.8, 0.23],
    [1.1, 0.8, -0.16],
  ])("leaves tape of %s mm on teeth of %s mm a play of %s mm", (T, l, play) => expect(rule(T, l)).toBeCloseTo(play, 2));
  test("jams thick tape and thin tape alike, and its own least", () => {
    expect(rule(0.3, 1.1)).toBeGreaterThan(rule(0.2, 1.1));
    expect(rule(0.3, 1.1)).toBeGreaterThan(rule(0.4, 1.1));
    expect(rule(0.3, 1.1)).toBeCloseTo(De - 1.1, 9);
  });
  test("loses play in proportion to the wrap", () =>
    expect(De - 1.1 - rule(0.6, 1.1, pi)).toBeCloseTo(2 * (De - 1.1 - rule(0.6, 1.1)), 12));
});
test("the rule and the exact sweep agree within a micrometre for thick tape and flanks cut as an involute", () => {
  const baseRadius = rp - 0.15;
  const outline = toothOutline({
    shape: "involute",
    halfWidth: 0.55,
    pitchRadius: baseRadius,
    tipRadius: baseRadius + 1.3,
  });
  const swept = (T: number) =>
    feasibleInterval({
      teeth: 24,
      baseRadius,
      outline,
      thickness: T,
      neutral: 0.5,
      pitch: 4,
      opening: De,
      wrap: pi / 2,
    }).least().width;
  for (const T of [0.6, 1.1]) expect(Math.abs(swept(T) - rule(T, 1.1))).toBeLessThan(1e-3);
  // On the tape it is made for the wheel loses up to 24 um where its flanks leave the tape. [Sprocket, drive and index cycle, 2.4, derived]
  expect(rule(0.3, 1.1) - swept(0.3)).toBeGreaterThan(0);
  expect(rule(0.3, 1.1) - swept(0.3)).toBeLessThan(0.024);
});
// A tooth at the tape's underside: its whole angle at the neutral line. [derived]
test("a tooth is longest where it enters the tape", () => {
  const outline = toothOutline({ shape: "straight", halfWidth: 0.55, pitchRadius: rp, tipRadius: rp + 0.9, flank: 0 });
  expect(toothInWrap.value({ outline, r_b: rp - 0.15, r_n: rp })).toBeCloseTo(
    2 * rp * Math.asin(0.55 / (rp - 0.15)),
    9,
  );
});
// 2 rb = z P/pi - T. [Journal SMPE 15 (1930) p. 311: base 1.1679 in, pitch 0.1844 in, film 0.006 in, read]
test("the wide film wheel of 1930 is made for film of 0.006 in", () =>
  expect(fittingThickness.value({ z: 20, P: 0.1844, r_b: 1.1679 / 2, u: 0.5, pi })).toBeCloseTo(0.006, 3));

describe("in a scene", () => {
  test("is not applicable where the tape runs flat past its wheel or there is none", () => {
    expect(checkWrap.absent(scene(sideCrossing(12), embossedTape(12)))).toBe(
      "the tape runs flat past its wheel, not round it",
    );
    expect(checkWrap.absent(scene(withBends(16), embossedTape(16)))).toBe("the unit has no sprocket");
    expect(wrapPlay.reads(scene(sideCrossing(12), embossedTape(12)))).toBeUndefined();
  });
  test("thicker tape has less play round the wheel, and the exact play falls with it", () => {
    const at = (T: string) =>
      scene(
        { ...withGears(8), tape: { ...withGears(8).tape, "rests on": "underside" } },
        tapeWith(8, { T: written("own/T", "T", T) }),
      );
    const [thin, thick] = [at("0.45 mm"), at("1.2 mm")];
    expect(nominal(thick, wrapPlay)).toBeLessThan(nominal(thin, wrapPlay));
    expect(nominal(thick, leastPlay)).toBeLessThan(nominal(thin, leastPlay));
  });
});
