import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Deviates } from "./deviates.ts";
import { differences, goodEnough, sampleDraws, standing, standingOver } from "./differences.ts";
import { closed, number, plainScene, solved } from "./plain.fixture.ts";
import { type Pick, Realiser } from "./realise.ts";

const deviates = new Deviates(5);
const sample = (sds: readonly number[], at: readonly number[]) =>
  sds.map((sd, i) => (sd === 0 ? at[i]! : deviates.normal(`x${i}`, sampleDraws).map((z) => at[i]! + sd * z)));

describe("first differences of a number", () => {
  test("are exact for the least of distances that all pass through the place as written", () => {
    const slope = fc.double({ min: -5, max: 5, noNaN: true });
    fc.assert(
      fc.property(slope, slope, slope, (a, b, c) => {
        const f = (x: Float64Array) => 3 + Math.min(a * (x[0]! - 1), b * (x[0]! - 1)) + c * x[1]!;
        const d = differences(f, Float64Array.of(1, -2), sample([0.1, 0.4], [1, -2]));
        expect(d.error).toBeLessThan(1e-9);
        expect(standing(d, Float64Array.of(1.13, -2.6))).toBeCloseTo(f(Float64Array.of(1.13, -2.6)), 9);
      }),
    );
  });
  // |x| about 1 with an sd of 3 turns round within the sample: no two slopes give that.
  test("say so where they are not good enough", () => {
    const d = differences((x) => Math.abs(x[0]!), Float64Array.of(1), sample([3], [1]));
    expect(d.error).toBeGreaterThan(goodEnough);
    expect(standingOver(d, [Float64Array.of(1, 2)], 2, new Float64Array(2))).toBeUndefined();
  });
  test("are not good enough where the number has no answer somewhere in the sample", () => {
    const d = differences((x) => (x[0]! > 1.1 ? Number.NaN : x[0]!), Float64Array.of(1), sample([0.2], [1]));
    expect(standingOver(d, [Float64Array.of(1)], 1, new Float64Array(1))).toBeUndefined();
  });
  test("hold as far as twice the sample reaches, and name the rows that go farther", () => {
    const d = differences((x) => 2 * x[0]!, Float64Array.of(0), sample([1], [0]));
    const far = d.reach[0]!;
    const out = new Float64Array(2);
    const at = (v: number) => standingOver(d, [Float64Array.of(0, v)], 2, out)!;
    expect(at(0.99 * far)).toHaveLength(0);
    expect(out[1]).toBeCloseTo(2 * 0.99 * far, 12);
    expect([...at(1.01 * far)]).toEqual([0, 1]);
    expect([...at(Number.NaN)]).toEqual([0, 1]);
    expect(standingOver(d, [1.01 * far], 1, new Float64Array(1))).toBeUndefined();
  });
  test("let an input that never moves in the sample stand only where it stood", () => {
    const d = differences((x) => x[0]! + x[1]!, Float64Array.of(0, 7), sample([1, 0], [0, 7]));
    const out = new Float64Array(1);
    expect(standingOver(d, [0.5, 7], 1, out)).toHaveLength(0);
    expect(out[0]).toBeCloseTo(7.5, 12);
    expect(standingOver(d, [0.5, 7.001], 1, new Float64Array(1))).toBeUndefined();
  });
  test("take a wrong answer of no consequence: an error of less than a ten thousandth of the number", () => {
    const d = differences((x) => 100 + 1e-3 * Math.abs(x[0]!), Float64Array.of(0.3), sample([1], [0.3]));
    expect(d.error).toBe(0);
  });
});

describe("a costly model in a scene", () => {
  const scene = plainScene();
  const a = number("a", "10 ±0.2");
  const b = number("b", "3 sd 0.1");
  const c = number("c", "1..2 guess");
  /** A result between: no number, so the differences reach through it to a and b. */
  const between = solved<{ sum: number }>("between", { a, b }, (x: { a: number; b: number }) => ({ sum: x.a + x.b }), {
    unit: "",
  });
  let calls = 0;
  const worth = ({ m, c: k }: { m: { sum: number }; c: number }): number => {
    calls++;
    return Math.hypot(m.sum, k);
  };
  const costly = solved("costly", { m: between, c }, worth, { costly: true });
  const plain = solved("plain", { m: between, c }, worth);
  const room = closed("x - 1", { x: costly });
  const n = 500;
  const pick: Pick = {
    n,
    unknown: (g) => deviates.normal(g.address, n),
    scatter: (g, w) =>
      g.scatters[w]!.law === "uniform" ? deviates.between(g.address, n) : deviates.normal(g.address, n),
  };
  test("stands as its differences over many draws, within a tenth of its spread and at an eighth of the cost", () => {
    const truth = new Realiser(plainScene(), [plain]).run(pick).column(plain) as Float64Array;
    calls = 0;
    const run = new Realiser(scene, [room]).run(pick).column(room) as Float64Array;
    expect(calls).toBeLessThan(n / 8);
    const mean = truth.reduce((s, v) => s + v, 0) / n;
    const sd = Math.sqrt(truth.reduce((s, v) => s + (v - mean) ** 2, 0) / n);
    const rms = Math.sqrt(run.reduce((s, v, k) => s + (v + 1 - truth[k]!) ** 2, 0) / n);
    expect(rms).toBeLessThan(goodEnough * sd);
    expect(rms).toBeGreaterThan(0);
  });
  test("is computed itself for few draws", () => {
    const few = { ...pick, n: 100, unknown: () => 0.3, scatter: () => 0.5 } satisfies Pick;
    expect(new Realiser(scene, [room]).run(few).number(room)).toBeCloseTo(
      Math.hypot(10 + 0.1 + 3 + 0.05, 2 ** (0.5 + 0.3 / (2 * 1.959963984540054))) - 1,
      12,
    );
  });
  test("gives the same bits whoever asked before", () => {
    const first = new Realiser(plainScene(), [room]).run(pick).column(room) as Float64Array;
    const other = plainScene();
    const before = new Realiser(other, [costly, plain]);
    before.run({ ...pick, n: 250, unknown: () => 1, scatter: () => 0.2 });
    expect(new Realiser(other, [room]).run(pick).column(room)).toEqual(first);
  });
  test("is computed about another place where a number is moved", () => {
    const at = (v: number) =>
      new Realiser(scene, [room])
        .run({ ...pick, moved: (g) => (g === a ? v - 10 : undefined) })
        .column(room) as Float64Array;
    const moved = at(100);
    const truth = new Realiser(scene, [plain]).run({ ...pick, moved: (g) => (g === a ? 90 : undefined) });
    for (let k = 0; k < n; k += 37) expect(moved[k]! + 1).toBeCloseTo(truth.number(plain, k), 2);
    expect(at(10)).not.toEqual(moved);
  });
  test("may rest on what is costly itself: that is computed where the upper one is tested, and stands where it stands", () => {
    const both = (x: { x: number; y: number }): number => Math.hypot(x.x, x.y) + 1;
    const twice = solved("twice", { x: costly, y: b }, both, { costly: true });
    const truth = solved("both", { x: plain, y: b }, both);
    const true_ = new Realiser(scene, [truth]).run(pick).column(truth) as Float64Array;
    calls = 0;
    const stands = new Realiser(scene, [twice, costly]).run(pick).column(twice) as Float64Array;
    expect(calls).toBeLessThan(n / 2);
    const spread = Math.max(...true_) - Math.min(...true_);
    for (let k = 0; k < n; k++) expect(Math.abs(stands[k]! - true_[k]!)).toBeLessThan(0.05 * spread);
  });
});

describe("second differences", () => {
  // A flank's angle times a thickness: slopes about one place miss the product.
  test("are added where slopes are not good enough, and are exact for products and squares", () => {
    const f = (x: Float64Array) => 2 + x[0]! * x[1]! + 0.5 * x[0]! ** 2 - x[2]!;
    const d = differences(f, Float64Array.of(0.1, 0.2, 1), sample([1, 1, 0.1], [0.1, 0.2, 1]));
    expect(d.bends).toBeDefined();
    expect(d.error).toBeLessThan(1e-9);
    const x = Float64Array.of(-1.3, 1.9, 1.1);
    expect(standing(d, x)).toBeCloseTo(f(x), 9);
    const columns = [Float64Array.of(-1.3, 0.4), Float64Array.of(1.9, -0.7), 1.1];
    const over = new Float64Array(2);
    expect(standingOver(d, columns, 2, over)).toHaveLength(0);
    expect(over[0]).toBeCloseTo(f(x), 9);
    expect(over[1]).toBeCloseTo(f(Float64Array.of(0.4, -0.7, 1.1)), 9);
  });
  test("over columns are what they are at each place, on every side, also where an input stands still", () => {
    const kinked = (x: Float64Array) =>
      Math.abs(x[0]!) * (x[1]! > 0 ? 1 : 3) + Math.max(0, x[1]!) ** 2 + x[0]! * x[2]! - Math.min(0, x[2]! * x[1]!);
    const d = differences(kinked, new Float64Array(3), sample([1, 1, 1], [0, 0, 0]));
    expect(d.bends!.length).toBeGreaterThan(2);
    const number = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(number, number, number), { minLength: 1, maxLength: 9 }),
        fc.nat(7),
        (rows, still) => {
          const [first] = rows;
          const places = rows.map((row) => Float64Array.from(row, (v, i) => (still & (1 << i) ? first![i]! : v)));
          const columns = [0, 1, 2].map((i) =>
            still & (1 << i) ? first![i]! : Float64Array.from(places, (place) => place[i]!),
          );
          const over = new Float64Array(rows.length);
          expect(standingOver({ ...d, error: 0 }, columns, rows.length, over)).toHaveLength(0);
          places.forEach((place, k) => {
            expect(over[k]).toBeCloseTo(standing(d, place), 12);
          });
        },
      ),
      { seed: 1, numRuns: 500 },
    );
  });
  test("are left out where slopes do", () => {
    const d = differences((x) => 3 * x[0]! + x[1]!, Float64Array.of(0, 0), sample([1, 1], [0, 0]));
    expect(d.bends).toBeUndefined();
  });
});
