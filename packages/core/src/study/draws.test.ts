import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { phi } from "../quantity/law.ts";
import { blockSize } from "./deviates.ts";
import { blocksOf, type DrawnLaw, DrawnStream, drawBlock, inBlock } from "./draws.ts";
import { Inputs } from "./inputs.ts";
import { normalScore } from "./normal-score.ts";
import { closed, number, plainScene } from "./plain.fixture.ts";

const laws = ["uniform", "even", "normal", "ziggurat"] as const;
const drawn = (seed: number, address: string, law: DrawnLaw, blocks = 25): Float64Array => {
  const out = new Float64Array(blocks * blockSize);
  for (let b = 0; b < blocks; b++)
    new DrawnStream(seed, address, b).fill(law, out.subarray(b * blockSize, (b + 1) * blockSize));
  return out;
};
const toUniform: Readonly<Record<DrawnLaw, (x: number) => number>> = {
  uniform: (u) => u,
  even: (t) => (t + 1) / 2,
  normal: phi,
  ziggurat: phi,
};
const correlation = (a: Float64Array, b: Float64Array, lag = 0): number => {
  const n = a.length - lag;
  let [sa, sb, aa, bb, ab] = [0, 0, 0, 0, 0];
  for (let k = 0; k < n; k++) {
    const [x, y] = [a[k]!, b[k + lag]!];
    sa += x;
    sb += y;
    aa += x * x;
    bb += y * y;
    ab += x * y;
  }
  return (ab - (sa * sb) / n) / Math.sqrt((aa - (sa * sa) / n) * (bb - (sb * sb) / n));
};

describe("each law", () => {
  // Chi-square with 100 degrees of freedom: 61.918 at 0.1 % and 149.449 at 99.9 %. [NIST/SEMATECH e-Handbook, 1.3.6.7.4; memory]
  test.each(laws)("%s fills 101 equal shares of its law evenly, from any seed", (law) => {
    for (const seed of [0, 1, 2, -7]) {
      const cells = new Float64Array(101);
      const x = drawn(seed, "scatter unit plover/x#0", law);
      for (const v of x) cells[Math.floor(toUniform[law](v) * 101)]!++;
      const even = x.length / 101;
      const found = cells.reduce((sum, c) => sum + (c - even) ** 2 / even, 0);
      expect(found).toBeGreaterThan(61.918);
      expect(found).toBeLessThan(149.449);
    }
  });
  // Shares beyond 2, 3 and 4 sd: 0.0227501, 0.00134990, 3.16712e-5 on either side. [Abramowitz and Stegun, table 26.1; memory]
  test.each(["normal", "ziggurat"] as const)(
    "%s has the normal law's tails on both sides within four standard errors",
    (law) => {
      const x = drawn(11, "tail", law, 250);
      for (const [z, share] of [
        [2, 0.0227501],
        [3, 0.0013499],
        [4, 3.16712e-5],
      ] as const)
        for (const sign of [-1, 1]) {
          let count = 0;
          for (const v of x) if (sign * v > z) count++;
          expect(Math.abs(count - share * x.length)).toBeLessThan(4 * Math.sqrt(share * x.length));
        }
    },
  );
  test("normal is the score of the uniform number of the same place, even its place between limits", () => {
    const u = drawn(3, "a", "uniform", 1);
    expect(drawn(3, "a", "normal", 1)).toEqual(u.map(normalScore));
    expect(drawn(3, "a", "even", 1)).toEqual(u.map((v) => 2 * v - 1));
  });
});

describe("streams", () => {
  const bound = 4 / Math.sqrt(25 * blockSize);
  test("of two addresses, two seeds, two blocks and two places are not correlated", () => {
    for (const law of ["uniform", "ziggurat"] as const) {
      const x = drawn(1, "scatter unit a.1#0", law);
      for (const y of [
        drawn(1, "scatter unit a.2#0", law),
        drawn(2, "scatter unit a.1#0", law),
        drawn(1, "scatter reel a.1#0", law),
      ])
        expect(Math.abs(correlation(x, y))).toBeLessThan(bound);
      for (const lag of [1, 2, 3, blockSize]) expect(Math.abs(correlation(x, x, lag))).toBeLessThan(bound * 1.05);
    }
  });
  // Only the first draw of many inputs: chi-square over 101 cells as above.
  test("the first draws of 20 000 addresses are even", () => {
    const cells = new Float64Array(101);
    const out = new Float64Array(1);
    for (let i = 0; i < 20_000; i++) {
      new DrawnStream(1, `scatter unit plover/film.guides.${i}.x#0`, 0).fill("uniform", out);
      cells[Math.floor(out[0]! * 101)]!++;
    }
    const even = 20_000 / 101;
    const found = cells.reduce((sum, c) => sum + (c - even) ** 2 / even, 0);
    expect(found).toBeGreaterThan(61.918);
    expect(found).toBeLessThan(149.449);
  });
  test("a block drawn in pieces is the block drawn at once", () => {
    for (const law of laws) {
      const stream = new DrawnStream(4, "a", 3);
      const out = new Float64Array(1500);
      for (const [from, to] of [
        [0, 1],
        [1, 700],
        [700, 1500],
      ] as const)
        stream.fill(law, out.subarray(from, to));
      expect(out).toEqual(drawn(4, "a", law, 4).slice(3 * blockSize, 3 * blockSize + 1500));
    }
  });
});

describe("draws of a scene's inputs", () => {
  const [p, q, r] = [number("p", "10 sd 2"), number("q", "4 ±1"), number("r", "3 per index sd 10 %")];
  const y = closed("p + 10*q + 100*r", { p, q, r });
  const inputs = new Inputs(plainScene(), [y]);
  const column = (n: number, normal: "normal" | "ziggurat") => {
    const out: number[] = [];
    for (const { from, to } of blocksOf(n, 1))
      for (let block = from; block < to; block++)
        drawBlock(
          inputs,
          { seed: 5, block, n },
          (of, count) => {
            out.push(...(of(y) as Float64Array).subarray(0, count));
          },
          { normal },
        );
    return out;
  };
  test("are each input's own draws in its own law", () => {
    const n = 5000;
    const of = (address: string, law: DrawnLaw) => drawn(5, address, law, 2);
    const [z, t, w] = [
      of("scatter unit p#0", "normal"),
      of("scatter unit q#0", "even"),
      of("scatter index r#0", "normal"),
    ];
    const sd = Math.sqrt(Math.log(1.01));
    const found = column(n, "normal");
    expect(found.length).toBe(n);
    for (let k = 0; k < n; k += 97)
      expect(found[k]).toBeCloseTo(10 + 2 * z[k]! + 10 * (4 + t[k]!) + 300 * Math.exp(sd * w[k]!), 9);
  });
  test("have the moments of their sum within four standard errors, by either kind of normal draw", () => {
    const n = 100_000;
    const s2 = Math.log(1.01);
    const mean = 10 + 40 + 300 * Math.exp(s2 / 2);
    const variance = 4 + 100 / 3 + 90_000 * Math.exp(s2) * (Math.exp(s2) - 1);
    for (const normal of ["normal", "ziggurat"] as const) {
      const x = column(n, normal);
      const found = x.reduce((sum, v) => sum + v, 0) / n;
      expect(Math.abs(found - mean)).toBeLessThan(4 * Math.sqrt(variance / n));
    }
  });
});

describe("blocks shared out", () => {
  test("go to one worker each, in order, none left over", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300_000 }), fc.integer({ min: 1, max: 40 }), (n, workers) => {
        const parts = blocksOf(n, workers);
        const all = parts.flatMap(({ from, to }) => Array.from({ length: to - from }, (_, i) => from + i));
        expect(all).toEqual(Array.from({ length: Math.ceil(n / blockSize) }, (_, i) => i));
        expect(parts.length).toBeLessThanOrEqual(workers);
        expect(all.reduce((sum, b) => sum + inBlock(n, b), 0)).toBe(n);
        const sizes = parts.map(({ from, to }) => to - from);
        expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
      }),
      { seed: 1, numRuns: 300 },
    );
  });
  test("give one hash, by 1, 2 or 5 workers", () => {
    const n = 50_000;
    const hash = (workers: number): string => {
      const all = createHash("sha256");
      const done = blocksOf(n, workers).map(({ from, to }) => {
        const out = new Float64Array((to - from) * blockSize);
        let count = 0;
        for (let b = from; b < to; b++) {
          new DrawnStream(9, "x", b).fill("normal", out.subarray(count), inBlock(n, b));
          count += inBlock(n, b);
        }
        return out.subarray(0, count);
      });
      for (const part of done) all.update(Buffer.from(part.buffer, part.byteOffset, part.byteLength));
      return all.digest("hex");
    };
    expect(hash(2)).toBe(hash(1));
    expect(hash(5)).toBe(hash(1));
  });
});
