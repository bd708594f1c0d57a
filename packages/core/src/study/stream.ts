import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/**
 * Random numbers one after the other, from a seed and a name: for methods that do not know beforehand how many they need. Two names give
 * two streams that have nothing to do with each other, so one stage that takes more draws does not reshuffle the next.
 */
export class Stream {
  private readonly generator: ReturnType<typeof xoroshiro128plus>;
  private spare = Number.NaN;
  constructor(seed: number, name: string) {
    let h = seed | 0;
    for (let i = 0; i < name.length; i++) {
      h = Math.imul(h ^ name.charCodeAt(i), 0x85ebca6b);
      h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
      h ^= h >>> 16;
    }
    this.generator = xoroshiro128plus(h >>> 0);
    // The first numbers of this generator depend little on a small change of seed.
    for (let i = 0; i < 8; i++) this.generator.next();
  }
  /** Uniform in (0, 1). */
  uniform(): number {
    return uniformFloat64(this.generator) + 2 ** -54;
  }
  /** Standard normal, in pairs from a point in the unit disc (Marsaglia and Bray 1964; memory). */
  normal(): number {
    if (!Number.isNaN(this.spare)) {
      const kept = this.spare;
      this.spare = Number.NaN;
      return kept;
    }
    for (;;) {
      const a = 2 * this.uniform() - 1;
      const b = 2 * this.uniform() - 1;
      const s = a * a + b * b;
      if (s >= 1 || s === 0) continue;
      const r = Math.sqrt((-2 * Math.log(s)) / s);
      this.spare = b * r;
      return a * r;
    }
  }
}
