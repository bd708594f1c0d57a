import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Inputs } from "./inputs.ts";
import { closed, number, plainScene } from "./plain.fixture.ts";
import { type Shared, ShareStudy, sharesOf, sharesOfInputs } from "./shares.ts";

const scene = plainScene();
type F = (x: readonly number[]) => number;
const of = (laws: Shared["laws"], f: F): Shared => ({
  names: laws.map((_, i) => `x${i + 1}`),
  laws,
  at: (x, n) => Float64Array.from({ length: n }, (_, k) => f(x.map((c) => c[k]!))),
});
const even3 = ["even", "even", "even"] as const;
const ishigami = of(even3, (t) => {
  const [a, b, c] = t.map((v) => Math.PI * v) as [number, number, number];
  return Math.sin(a) + 7 * Math.sin(b) ** 2 + 0.1 * c ** 4 * Math.sin(a);
});
/** Product of (|4 u - 2| + a_i)/(1 + a_i): V_i = (1/3)/(1 + a_i)^2, V = prod(1 + V_i) - 1. [Sobol' 1993, Saltelli 1995; memory, derived again by hand] */
const a = [0, 1, 4.5, 9, 99, 99, 99, 99];
const g = of(
  a.map(() => "uniform"),
  (u) => u.reduce((p, v, i) => (p * (Math.abs(4 * v - 2) + a[i]!)) / (1 + a[i]!), 1),
);
const gParts = a.map((v) => 1 / 3 / (1 + v) ** 2);
const gVariance = gParts.reduce((p, v) => p * (1 + v), 1) - 1;

describe("against closed forms", () => {
  // a = 7, b = 0.1: D = a^2/8 + b pi^4/5 + b^2 pi^8/18 + 1/2. Ishigami & Homma 1990. [closed form, derived again]
  const first = [0.31390519, 0.44241114, 0];
  const total = [0.55758886, 0.44241114, 0.24368366];
  test("the shares of Ishigami's function lie within five standard errors and 0.002", () => {
    const found = sharesOf(ishigami, { points: 4096, scrambles: 8 });
    expect(found.how).toBe("drawn");
    expect(Math.abs(found.variance / 13.844587940719254 - 1)).toBeLessThan(1e-3);
    expect(found.calls).toBe(8 * 4096 * 5);
    found.shares.forEach((s, i) => {
      expect(Math.abs(s.first - first[i]!)).toBeLessThan(Math.min(0.002, 5 * s.firstError));
      expect(Math.abs(s.total - total[i]!)).toBeLessThan(Math.min(0.002, 5 * s.totalError));
    });
    expect(found.shares.map((s) => s.together)).toEqual([true, false, true]);
  });
  test("the shares of Sobol's product lie within five standard errors and 0.003", () => {
    const found = sharesOf(g, { points: 4096, scrambles: 8 });
    expect(Math.abs(found.variance / gVariance - 1)).toBeLessThan(2e-3);
    expect(found.mean).toBeCloseTo(1, 3);
    found.shares.forEach((s, i) => {
      const S = gParts[i]! / gVariance;
      const T = (gParts[i]! * (1 + gVariance)) / (1 + gParts[i]!) / gVariance;
      expect(Math.abs(s.first - S)).toBeLessThan(0.003);
      expect(Math.abs(s.total - T)).toBeLessThan(0.003);
      expect(Math.abs(s.first - S)).toBeLessThan(5 * s.firstError + 1e-9);
    });
  });
  // x y: nothing by itself, all together. V = 1.
  test("a product of two centred inputs acts together alone: S = 0, T = 1", () => {
    const found = sharesOf(of(["normal", "normal"], ([x, y]) => x! * y!));
    for (const s of found.shares) {
      expect(Math.abs(s.first)).toBeLessThan(0.02);
      expect(Math.abs(s.total - 1)).toBeLessThan(0.02);
      expect(s.together).toBe(true);
    }
  });
});

describe("a sum of functions of one input each", () => {
  // a_i^2 s_i^2 over their sum; between limits s = half width over sqrt 3. [closed form]
  test("has the exact shares of a linear chain, without an error and hardly a call", () => {
    const [p, q, r] = [number("p", "10 sd 2"), number("q", "4 ±1"), number("r", "3 per index sd 0.5")];
    const y = closed("3*p - 5*q + 2*r", { p, q, r });
    const found = sharesOfInputs(new Inputs(scene, [y]), y);
    const parts = [36, 25 / 3, 1];
    const V = 36 + 25 / 3 + 1;
    expect(found.how).toBe("additive");
    expect(found.variance).toBeCloseTo(V, 9);
    expect(found.mean).toBeCloseTo(16, 9);
    expect(found.calls).toBeLessThan(100);
    found.shares.forEach((s, i) => {
      expect(s.first).toBeCloseTo(parts[i]! / V, 11);
      expect(s.total).toBe(s.first);
      expect(s.totalError).toBe(0);
    });
    expect(found.shares.map((s) => s.name)).toEqual(["unit p#0", "unit q#0", "index r#0"]);
  });
  // Lognormal: variance m^2 exp(s^2)(exp(s^2) - 1) with median m. [closed form]
  test("need not be linear: a lognormal input carries its own variance", () => {
    const s2 = Math.log(1.04);
    const [p, q] = [number("p", "3 sd 20 %"), number("q", "4 sd 1")];
    const y = closed("p + q", { p, q });
    const found = sharesOfInputs(new Inputs(scene, [y]), y);
    const V = 9 * Math.exp(s2) * (Math.exp(s2) - 1);
    expect(found.how).toBe("additive");
    expect(found.shares[0]!.first).toBeCloseTo(V / (V + 1), 10);
  });
  test("with a kink in it is drawn, since no rule of nodes integrates that", () => {
    const found = sharesOf(of(["normal", "even"], ([x, y]) => Math.max(0, x! - 0.3) + y!));
    expect(found.how).toBe("drawn");
    expect(found.shares.every((s) => !s.together)).toBe(true);
  });
  test("with a large mean keeps its shares", () => {
    const kinked: F = ([x, y]) => Math.max(0, x! - 0.3) + 0.5 * y!;
    const laws = ["normal", "even"] as const;
    const plain = sharesOf(of(laws, kinked));
    const shifted = sharesOf(of(laws, (x) => 1e6 + kinked(x)));
    plain.shares.forEach((s, i) => {
      expect(shifted.shares[i]!.total).toBeCloseTo(s.total, 7);
    });
    expect(shifted.mean - 1e6).toBeCloseTo(plain.mean, 8);
  });
  test("without an answer in some draws has no variance, and says so", () => {
    const found = sharesOf(of(["normal", "even"], ([x, y]) => (x! > 2 ? Number.NaN : x! * y!)));
    expect(found.variance).toBeNaN();
    expect(found.shares.every((s) => Number.isNaN(s.total) && !s.together)).toBe(true);
  });
  test("whose parts do not vary has no shares", () => {
    const found = sharesOf(of(["normal", "even"], () => 5));
    expect(found.variance).toBe(0);
    expect(found.shares.map((s) => s.total)).toEqual([0, 0]);
  });
});

describe("the study in blocks", () => {
  const options = { seed: 3, points: 2500, scrambles: 3, importance: [1, 2, 3] };
  test("gives the same bits in whatever order and by however many workers its blocks are computed", () => {
    const one = new ShareStudy(ishigami, options);
    const all = Array.from({ length: one.blocks }, (_, b) => one.block(b));
    const plain = JSON.stringify(one.put(all));
    for (const workers of [1, 2, 5]) {
      const sums = new Array<Float64Array>(one.blocks);
      for (let w = 0; w < workers; w++) {
        const mine = new ShareStudy(ishigami, options);
        for (let b = one.blocks - 1; b >= 0; b--) if (b % workers === w) sums[b] = mine.block(b);
      }
      expect(JSON.stringify(one.put(sums))).toBe(plain);
    }
  });
  // 95 % of normal errors lie within 1.96 of their standard error; with 8 scrambles (Student, 7) 2.36.
  test("states standard errors that cover the truth as often as they say", () => {
    let covered = 0;
    const runs = 60;
    for (let seed = 0; seed < runs; seed++) {
      const { shares } = sharesOf(ishigami, { seed, points: 256, scrambles: 8, importance: [3, 2, 1] });
      if (Math.abs(shares[1]!.total - 0.44241114) < 2.36 * shares[1]!.totalError) covered++;
    }
    // Binomial(60, 0.95): 48 or fewer once in 10 000.
    expect(covered).toBeGreaterThan(48);
  });
});

test("first shares add up to 1 at most and total ones to 1 at least, within their errors", () => {
  const c = fc.double({ min: -2, max: 2, noNaN: true });
  fc.assert(
    fc.property(fc.tuple(c, c, c, c), ([p, q, r, s]) => {
      fc.pre(Math.abs(s) > 0.1);
      const f = of(
        ["normal", "even", "uniform"],
        ([x, y, z]) => p * x! + q * y! * y! + r * z! + s * x! * y! * (1 + z!),
      );
      const { shares, how } = sharesOf(f, { points: 512, scrambles: 4 });
      expect(how).toBe("drawn");
      expect(shares.reduce((sum, v) => sum + v.first, 0)).toBeLessThan(1.03);
      expect(shares.reduce((sum, v) => sum + v.total, 0)).toBeGreaterThan(0.97);
      for (const v of shares) expect(v.total - v.first).toBeGreaterThan(-0.03);
    }),
    { seed: 5, numRuns: 20 },
  );
});
