import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Method } from "./method.ts";
import { pieceValue, readOff } from "./read-off.ts";
import {
  count,
  days,
  frequency,
  hop,
  hours,
  kickShare,
  lifeSlope,
  minutes,
  shareOfSpeed,
  threeFrames,
  turnsForTurn,
} from "./timing.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const answered = (m: Method, rows: readonly (readonly number[])[]) => {
  const a = readOff(m, { pieces: [rows] });
  if (a.kind !== "answer") throw new Error(`${a.found}. ${a.wayOut}`);
  return a;
};

test("minutes, hours and days are typed as such and come out in seconds", () => {
  expect(answered(minutes, [[2], [4]]).value).toBeCloseTo(180, 9);
  expect(answered(hours, [[2], [4]]).value).toBeCloseTo(10_800, 9);
  expect(answered(days, [[2], [4]]).value).toBeCloseTo(259_200, 9);
});
describe("a frequency", () => {
  test("is that of the swings, however long they are counted", () => {
    for (const n of [6, 24, 96]) expect(pieceValue(frequency, [{ n, t: n / 400 }], {})).toBeCloseTo(400, 9);
  });
  // Half a swing of 24 is 2.083 %, half a millisecond of 60 is 0.833 %; root sum 2.244 %; 95 % of an even law is 1.646/root 3 of that. [derived]
  test("of 24 swings in 60 ms is known to 8.5 Hz, and of four times as many in four times the time to a quarter", () => {
    const short = answered(frequency, [[24, 60]]).within;
    expect(short).toBeCloseTo(400 * 0.022438 * (1.6464 / Math.sqrt(3)), 2);
    expect(short / answered(frequency, [[96, 240]]).within).toBeCloseTo(4, 3);
  });
});
describe("a change of speed from three pictures", () => {
  // x = v s + a s^2/2 at three times t apart: the mean speeds of the two steps differ by a t. [derived]
  test("is acceleration by the time between pictures, whatever the speed and wherever it begins", () => {
    fc.assert(
      fc.property(between(-0.1, 0.1), between(-50, 50), between(-1, 1), (x, a, v) => {
        const t = 1e-3;
        const at = (s: number): number => x + v * s + (a * s * s) / 2;
        const row = { x_1: at(0), x_2: at(t), x_3: at(2 * t) };
        expect(pieceValue(threeFrames, [row], { t })).toBeCloseTo(a * t, 9);
        expect(pieceValue(shareOfSpeed, [row], { t, v: 0.1 })).toBeCloseTo((a * t) / 0.1, 8);
      }),
      { seed: 111, numRuns: 100 },
    );
  });
  test("is less than nothing while it brakes, and places may be nought or less", () =>
    expect(answered(threeFrames, [[-0.1, 0, 0.06]]).value).toBeCloseTo(-0.04, 12));
  // Half a step of 1 um goes in once, twice, once: root 6 by 1 um over 1 ms and root 3. [derived]
  test("is blurred by 1.41 mm/s where places are read to 2 um a millisecond apart", () => {
    const parts = answered(threeFrames, [[0, 0.04, 0.1]]).parts;
    expect(parts.find((p) => p.name === "resolution")!.u * 1e3).toBeCloseTo(Math.SQRT2, 6);
  });
});
test("a floor that goes up by a twelfth of the tape's change of step shows that share, fast or slow", () => {
  for (const x of [60e-6, 600e-6]) expect(pieceValue(kickShare, [{ z: x / 12, x }], {})).toBeCloseTo(1 / 12, 12);
});
describe("a part that hops", () => {
  // Thrown up with a quarter of the knock's speed, stepped until it stands still; standard gravity. [derived]
  test("shows which share of the knock turned it up", () => {
    const v = 0.4;
    const dt = 1e-6;
    let [up, h] = [0.25 * v, 0];
    while (up > 0) {
      h += (up - 0.5 * 9.80665 * dt) * dt;
      up -= 9.80665 * dt;
    }
    expect(pieceValue(hop, [{ h, v }], {})).toBeCloseTo(0.25, 5);
  });
  // Share by the root of the height: half a step of 0.01 mm of 0.5 mm is 1 %, 2.5 of 400 mm/s 0.625 %; root sum 1.179 %. [derived]
  test("half a millimetre high at 400 mm/s shows it to 1.12 % of the share", () => {
    const a = answered(hop, [[0.5, 400]]);
    expect(a.within / a.value).toBeCloseTo(0.01179 * (1.6464 / Math.sqrt(3)), 5);
  });
});
describe("the exponent of life", () => {
  test("is none where life grows with the voltage", () =>
    expect(
      readOff(lifeSlope, {
        pieces: [
          [
            [5, 10],
            [10, 640],
          ],
        ],
      }),
    ).toMatchObject({ kind: "refusal", wayOut: expect.stringMatching(/^Motors at the higher voltage lived longer/) }));
  test("comes back from lives that halve with each quarter more of voltage, in any unit of either", () => {
    const m = Math.log(2) / Math.log(1.25);
    const rows = [0, 1, 2, 3].map((k) => ({ V: 4 * 1.25 ** k, t: 9e5 / 2 ** k }));
    expect(pieceValue(lifeSlope, rows, {})).toBeCloseTo(m, 9);
    expect(
      pieceValue(
        lifeSlope,
        rows.map(({ V, t }) => ({ V: V * 1e3, t: t / 3600 })),
        {},
      ),
    ).toBeCloseTo(m, 9);
  });
  test("wants two voltages: one motor alone, or all at one voltage, is refused with what to look for", () => {
    expect(readOff(lifeSlope, { pieces: [[[5, 640]]] })).toMatchObject({
      found: "Reading 1 of motor 1 stands alone",
      wayOut: "A slope wants readings at two places at least, far from each other.",
    });
    expect(
      readOff(lifeSlope, {
        pieces: [
          [
            [5, 640],
            [5, 600],
          ],
        ],
      }),
    ).toMatchObject({
      found: "The readings of motor 1 give no exponent of life",
      wayOut: "Look for two numbers typed in each other's place, or for readings that should differ and are alike.",
    });
  });
});
test("two counts that agree are exact; two that differ are not", () => {
  expect(answered(count, [[24], [24]]).within).toBe(0);
  expect(answered(count, [[24], [25]]).within).toBeGreaterThan(1);
});
test("a part of a count is none", () =>
  expect(readOff(count, { pieces: [[[24.5]]] })).toMatchObject({
    found: "Reading 1 of part 1: number counted is 24.5, no whole number",
    wayOut: "A part of one is none: count again.",
  }));
// 297 turns to a quarter over ten: half of 0.25 over ten is 0.0125, of which 95 in 100 lie within 0.95. [derived]
test("turns are counted over ten, and a ratio is known ten times as well as a turn", () => {
  const { value, within } = answered(turnsForTurn, [[297], [297]]);
  expect(value).toBeCloseTo(29.7, 12);
  expect(within).toBeCloseTo(0.95 * 0.0125, 3);
});
