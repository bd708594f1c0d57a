import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { noLength } from "../quantity/bound.ts";
import {
  embossedTape,
  nominal,
  oneSeal,
  outside,
  overhead,
  scene,
  sideCrossing,
  tapeWith,
  withBends,
  written,
} from "../scene.fixture.ts";
import { Realiser } from "../study/realise.ts";
import { rowFigure, rowLetter } from "../tape/catalogue.ts";
import { checkPlay, guidedLength, sidePlay } from "./play.ts";

const base = { c: 24.45e-3, W: 24e-3, k: 1e-3, L: 0.1, L_0: 0.25 };

// Bow of a circular edge, from the circle: 0.159991 mm over 100 mm, 0.057597 mm over 60 mm. validation/independent/pockets.py. [derived]
describe("a bow of 1 mm over 250 mm takes", () => {
  test.each([
    [100, 0.159991],
    [60, 0.057597],
  ])("over %i mm: %f mm of the play", (L, bow) => {
    const taken = sidePlay.value({ ...base, L: 0, k: 0 }) - sidePlay.value({ ...base, L: L * 1e-3 });
    expect(taken * 1e3).toBeCloseTo(bow, 4);
  });
});
test("a bow of 1 mm over 100 mm, as older sheets allow, takes all of its millimetre over 100 mm", () => {
  expect(sidePlay.value({ ...base, k: 6.25e-3 })).toBeCloseTo(0.45e-3 - 1e-3, 12);
});

describe("a channel cut to the catalogue, 0.45 ±0.10 mm wider than the tape's name", () => {
  const W = rowLetter("embossed", 24, "W")!;
  const width = written("unit/width", "c", "W + 0.45 ±0.10 mm", "mm", { W });
  const unit = { ...sideCrossing(24) };
  const cut = {
    ...unit,
    tape: {
      ...unit.tape,
      section: { ...unit.tape.section, width, "guided length": written("unit/guided", "L", "60 mm") },
    },
  };
  const straight = { camber: written("tape/camber", "k", "0 mm") };
  const one = scene(cut, tapeWith(24, { W: rowFigure("embossed", 24, "W")!, ...straight }));
  const corner = (unitSide: number, reelSide: number) =>
    new Realiser(one, [sidePlay])
      .run({
        n: 1,
        unknown: () => 0,
        scatter: (g, which) => (g.scatters[which]!.level === "unit" ? unitSide : reelSide),
      })
      .number(sidePlay);
  // EIA-481-D p. 13: W 24, 24.3 at most [read]; 24.45 - 0.10 - 24.3, by hand: tolerances add, because the letter is the catalogue's.
  test("leaves the widest tape 0.05 mm in the narrowest channel, not 0.35 mm", () => {
    expect(corner(-1, 1) * 1e3).toBeCloseTo(0.05, 9);
  });
  test("leaves the narrowest tape 0.85 mm in the widest channel", () =>
    expect(corner(1, -1) * 1e3).toBeCloseTo(0.85, 9));
  test("leaves 0.45 mm as drawn", () => expect(nominal(one, sidePlay) * 1e3).toBeCloseTo(0.45, 9));
  // EIA-481-D: 1 mm over 250 mm [memory]; (150/250)^2 is 0.36. [derived]
  test("loses 0.36 mm to a tape that bows by 1 mm over the standard's 250 mm, guided over 150 mm", () => {
    const longer = {
      ...cut,
      tape: {
        ...cut.tape,
        section: { ...cut.tape.section, "guided length": written("unit/guided", "L", "150 mm") },
      },
    };
    const bowed = scene(longer, tapeWith(24, { camber: written("tape/camber", "k", "1 mm") }));
    expect(nominal(bowed, sidePlay) * 1e3).toBeCloseTo(0.45 - 0.36, 9);
  });
  test("lets the reel's width move nothing but the tape", () => {
    const run = new Realiser(one, [width]).run({ n: 1, unknown: () => 0, scatter: () => 1 });
    expect(run.number(width) * 1e3).toBeCloseTo(24.55, 9);
  });
});

test("more length, more bow or a wider tape never leaves more play", () => {
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(share, share, share, share, (L, k, W, more) => {
      const x = { ...base, L: 0.3 * L, k: 2e-3 * k, W: 24e-3 + 0.3e-3 * W };
      const play = sidePlay.value(x);
      expect(sidePlay.value({ ...x, L: x.L + 0.1 * more })).toBeLessThanOrEqual(play);
      expect(sidePlay.value({ ...x, k: x.k + 1e-3 * more })).toBeLessThanOrEqual(play);
      expect(sidePlay.value({ ...x, W: x.W + 1e-3 * more })).toBeLessThanOrEqual(play);
    }),
    { seed: 121, numRuns: 200 },
  );
});

describe("the guided length", () => {
  test("is the unit file's own where it gives one", () => {
    const { L } = sidePlay.reads(scene(sideCrossing(12), embossedTape(12)))! as { L: { text: string } };
    expect(L.text).toBe("60 mm");
  });
  // Lines 30 + 30 + 10 + 20, bends of 55 and 35 mm through 30 degrees: 90 + 90 pi/6. [derived]
  test("is else that of the whole route, bends along their arcs", () => {
    const one = scene(withBends(16), embossedTape(16));
    expect(nominal(one, guidedLength) * 1e3).toBeCloseTo(90 + (90 * Math.PI) / 6, 9);
    expect(guidedLength.value({ lines: [0.03], arcs: [{ radius: 0.06, turn: -Math.PI / 2 }] })).toBeCloseTo(
      0.03 + 0.03 * Math.PI,
      12,
    );
  });
});

test("every scene has a side play, and its bound is nothing", () => {
  expect(checkPlay.absent(scene(oneSeal(), embossedTape(8)))).toBeUndefined();
  expect(checkPlay.atLeast).toBe(noLength);
  expect(nominal(scene(overhead(24), embossedTape(24)), noLength)).toBe(0);
});
test("a guided length of 0.6 m and a bow of 4 mm are outside the range", () => {
  expect(outside(sidePlay, { ...base, L: 0.6, k: 4e-3 })).toEqual(["L", "k"]);
});
