import { expect, test } from "vitest";
import { commanded, type IndexDesign } from "./design.ts";
import { inventedDesign } from "./drives.ts";
import { measuresOf } from "./measures.ts";
import { runIndex, seatedStart } from "./run.ts";
import { at } from "./step.ts";
import { constantPlay, periodic, sampledPlay } from "./tooth-play.ts";

const slope = new Float64Array(1);
const pitch = (2 * Math.PI) / 24;
const wave = (phi: number): number => -50e-6 + 20e-6 * Math.sin((2 * Math.PI * phi) / pitch);

test("samples of a wave give the wave and its slope between them, over any number of turns", () => {
  const play = sampledPlay(pitch, wave, (phi) => wave(phi) + 100e-6);
  for (const phi of [0, 0.01, 0.2, 0.2617, 3.3, -0.07, 40 * pitch]) {
    expect(Math.abs(periodic(play.lo, pitch, phi, slope) - wave(phi))).toBeLessThan(1e-9);
    const exact = ((20e-6 * 2 * Math.PI) / pitch) * Math.cos((2 * Math.PI * phi) / pitch);
    expect(Math.abs(slope[0]! - exact)).toBeLessThan(2e-6);
  }
});
test("a constant play is half before and half behind, and has no slope", () => {
  const play = constantPlay(0.2e-3);
  expect(periodic(play.lo, play.pitch, 1.234, slope)).toBe(-0.1e-3);
  expect(slope[0]).toBe(0);
  expect(periodic(play.hi, play.pitch, 1.234, slope)).toBe(0.1e-3);
});
test("a tooth pitch of nothing is refused", () => {
  expect(() => sampledPlay(0, wave, wave)).toThrow("it must be more than 0");
});
test("a tape that is dragged follows the waviness of its teeth, within what the tooth gives", () => {
  const base = inventedDesign();
  const d: IndexDesign = commanded(
    {
      ...base,
      peel: undefined,
      film: undefined,
      wheel: { ...base.wheel, play: sampledPlay(pitch, wave, (phi) => wave(phi) + 100e-6) },
    },
    { end: 0.25 },
  );
  const run = runIndex(d, { from: seatedStart(d) });
  const phi = run.end[at.wheel]!;
  const off = run.end[at.tape]! - d.wheel.radius * phi;
  // Friction of 0.35 to 0.45 N on 1e5 N/m.
  expect(Math.abs(off - wave(phi))).toBeLessThan(6e-6);
  expect(measuresOf(d, run).seat).toBeLessThan(0.05);
});
test("the wheel and its tape come out alike whether a constant play is one sample or many", () => {
  const d = inventedDesign();
  const many: IndexDesign = {
    ...d,
    wheel: {
      ...d.wheel,
      play: sampledPlay(
        pitch,
        () => -0.05e-3,
        () => 0.05e-3,
      ),
    },
  };
  expect(Math.abs(runIndex(d).end[at.tape]! - runIndex(many).end[at.tape]!)).toBeLessThan(1e-12);
});
