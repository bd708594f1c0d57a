import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Method } from "./method.ts";
import { pieceValue, readOff, settingsOf } from "./read-off.ts";
import { bushBalance, capstan, forceRatio, rollerGrip, tiltBoard, wormBalance } from "./rubbing.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const answered = (m: Method, rows: readonly (readonly number[])[]) => {
  const a = readOff(m, { pieces: [rows] });
  if (a.kind !== "answer") throw new Error(`${a.found}. ${a.wayOut}`);
  return a;
};
/** Standard uncertainties by name, in the order of the entries. */
const parts = (m: Method, rows: readonly (readonly number[])[], name: string): number[] =>
  answered(m, rows)
    .parts.filter((p) => p.name === name)
    .map((p) => p.u);
const root3 = Math.sqrt(3);

describe("a strip round a pin", () => {
  // The pull grows by mu of itself for each radian that rubs: dF = mu F d(phi), stepped here, not solved. [derived]
  test("shows its friction whatever weight hangs on it and however far it is wrapped", () => {
    const wound = (F: number, mu: number, theta: number): number => {
      const steps = 20_000;
      let pull = F;
      for (let i = 0; i < steps; i++) pull *= 1 + (mu * theta) / steps + ((mu * theta) / steps) ** 2 / 2;
      return pull;
    };
    for (const hang of [0.5, 4])
      for (const theta of [Math.PI / 2, Math.PI, 2 * Math.PI]) {
        const row = { F_up: wound(hang, 0.22, theta), F_down: wound(hang, -0.22, theta) };
        expect(pieceValue(capstan, [row], { theta })).toBeCloseTo(0.22, 6);
      }
  });
  // d(mu) = dF/F/(2 theta), 2 theta = 2 pi. Half steps of 2.5 gf in 420 and 95: 0.000947 and 0.004188, root sum 0.004294. Nought of 2 gf:
  // 0.000758 and 0.003351. Wrap 3 of 180 deg: mu/60 = 0.003943. [derived]
  test("of 420 against 95 gf owes its uncertainty to the small pull first, then to the wrap", () => {
    const rows = [
      [420, 95],
      [420, 95],
    ];
    expect(parts(capstan, rows, "resolution")[0]).toBeCloseTo(0.004294 / root3, 5);
    const [up, down] = parts(capstan, rows, "nought");
    expect(up).toBeCloseTo(0.000758 / root3, 6);
    expect(down).toBeCloseTo(0.003351 / root3, 5);
    expect(parts(capstan, rows, "set-up")[0]).toBeCloseTo(0.003943 / root3, 5);
    // Root sum over root 3 0.003907; fourth powers of shares 0.162 + 0.060 + 0.115 = 0.338: 1.96 (1 - 0.16 0.338^2) times it. [derived]
    expect(answered(capstan, rows).within).toBeCloseTo(0.00752, 5);
  });
  test("answers alike for half the wrap only where the pulls are the square roots", () => {
    const whole = answered(capstan, [[400, 100]]).value;
    const half = readOff(capstan, { pieces: [[[200, 100]]], settings: { theta: 90 } });
    expect(half).toMatchObject({ kind: "answer" });
    if (half.kind === "answer") expect(half.value).toBeCloseTo(whole, 12);
  });
});
test("a sledge that slides on at an angle shows its tangent, at any length of board", () => {
  for (const l of [200, 400])
    for (const deg of [5, 15, 40]) {
      const tan = Math.tan((deg * Math.PI) / 180);
      expect(pieceValue(tiltBoard, [{ h: l * tan, l }], {})).toBeCloseTo(tan, 12);
    }
});
// The scale's 1 % of the load goes straight into the friction: 0.7049 by 1 % over root 3. [derived]
test("a load that is known to 1 % leaves a roller's friction no better known", () =>
  expect(parts(rollerGrip, [[430, 610]], "scale")[0]).toBeCloseTo((0.01 * 430) / 610 / root3, 6));
test("a ratio of two pulls is the same in every unit, and the other way round one over it", () => {
  fc.assert(
    fc.property(between(0.1, 10), between(0.1, 10), between(0.01, 100), (a, b, unit) => {
      const q = pieceValue(forceRatio, [{ F_1: a, F_2: b }], {});
      expect(pieceValue(forceRatio, [{ F_1: a * unit, F_2: b * unit }], {}) / q).toBeCloseTo(1, 12);
      expect(pieceValue(forceRatio, [{ F_1: b, F_2: a }], {}) * q).toBeCloseTo(1, 12);
    }),
    { seed: 121, numRuns: 100 },
  );
});
// Moments about the shaft: what hangs from the drum turns by F r_d, what rubs holds by mu N r_b. [derived]
test("a shaft that 25 gf on a drum five times its radius just turns under 500 gf rubs by a quarter", () => {
  const a = answered(bushBalance, [[25, 500]]);
  expect(a.value).toBeCloseTo(0.25, 12);
  // Radii within 1 % and 2.5 %: each its share of 0.25 over root 3. [derived]
  const [drum, shaft] = a.parts.filter((p) => p.name === "set-up").map((p) => p.u * root3);
  expect(drum).toBeCloseTo(0.0025, 5);
  expect(shaft).toBeCloseTo(0.00625, 5);
});
describe("a worm", () => {
  // 1500 gf on 12 mm out for 50 gf on 8 mm over 40 turns: 18 000 against 16 000 gf mm a turn. [derived]
  test("that gives more work than it gets is a slip of the weights", () =>
    expect(readOff(wormBalance, { pieces: [[[163, 1500]], [[50, 1500]]] })).toMatchObject({
      kind: "refusal",
      found: expect.stringMatching(/^The readings of unit 2 give a friction of worm on wheel of [-−]0\.00/),
      wayOut: expect.stringMatching(/^More work came out than went in/),
    }));
  const usual = settingsOf(wormBalance);
  /** Weight on the worm's drum for an efficiency: work lifted a turn over work let down. */
  const drives = (e: number, F_2: number, s: Readonly<Record<string, number>>): number =>
    (F_2 * 2 * Math.PI * s.r_2!) / (e * 2 * Math.PI * s.r_1! * s.i!);
  // Square threads are an incline: e = tan l/tan(l + r), friction tan r; a handbook's. [memory]
  test("of square threads shows the friction of an incline", () => {
    fc.assert(
      fc.property(between(0.03, 0.4), between(0.02, 0.3), (lambda, r) => {
        const set = { ...usual, alpha: 0, lambda };
        const F_1 = drives(Math.tan(lambda) / Math.tan(lambda + r), 12, set);
        expect(pieceValue(wormBalance, [{ F_1, F_2: 12 }], set)).toBeCloseTo(Math.tan(r), 9);
      }),
      { seed: 122, numRuns: 100 },
    );
  });
  test("that gives back all the work put in has no friction, and more friction asks more weight", () => {
    const at = (e: number): number => pieceValue(wormBalance, [{ F_1: drives(e, 12, usual), F_2: 12 }], usual);
    expect(at(1)).toBeCloseTo(0, 12);
    expect(at(0.6)).toBeGreaterThan(at(0.7));
    expect(at(0.3)).toBeGreaterThan(at(0.31));
  });
  // Where cos a tan l = mu it just locks; the efficiency is then (1 - tan^2 l)/2, less than a half. [derived]
  test("that just locks has the friction cos(a) tan(l)", () => {
    const tan = Math.tan(usual.lambda!);
    const F_1 = drives((1 - tan * tan) / 2, 12, usual);
    expect(pieceValue(wormBalance, [{ F_1, F_2: 12 }], usual)).toBeCloseTo(Math.cos(usual.alpha!) * tan, 12);
  });
});
test("each of a ratio's numbers is asked for by its own name where it is missing or nothing", () => {
  const said = (m: Method, row: readonly number[]) => readOff(m, { pieces: [[row]] });
  expect(said(tiltBoard, [84])).toMatchObject({
    found: "Reading 1 of reel 1 has 1 number",
    wayOut: "It wants 2: height of the raised end, then level distance from the pivot to that height.",
  });
  expect(said(bushBalance, [25, 0])).toMatchObject({
    found: "Reading 1 of unit 1: weight that presses the shaft into its bushes is 0 gf",
  });
});
