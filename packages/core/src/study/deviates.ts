import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { phiInverse } from "../quantity/law.ts";

/** Draws in one block: block b holds draws 4096 b to 4096 b + 4095, from a stream of its own. */
export const blockSize = 4096;

/** 32-bit mix of a text into a state (the finaliser of MurmurHash3, public domain; memory). */
export function mixed(state: number, text: string): number {
  let h = state | 0;
  for (let i = 0; i < text.length; i++) {
    h = Math.imul(h ^ text.charCodeAt(i), 0x85ebca6b);
    h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
    h ^= h >>> 16;
  }
  return h >>> 0;
}

/**
 * Deviates without state: the n-th draw of an input depends on the seed, the input's address and n alone. So any number of workers
 * gives the same bits, a new input does not reshuffle the others, and the same address has the same draw in every check and unit.
 *
 * - `normal`: standard normal; - `between`: uniform in [-1, 1], from the lower to the upper limit
 */
export class Deviates {
  readonly seed: number;
  private readonly kept = new Map<string, Float64Array>();
  constructor(seed: number) {
    this.seed = seed;
  }
  normal(address: string, n: number): Float64Array {
    return this.draws(`z ${address}`, n, (u) => phiInverse(u));
  }
  between(address: string, n: number): Float64Array {
    return this.draws(`t ${address}`, n, (u) => 2 * u - 1);
  }
  private draws(key: string, n: number, law: (u: number) => number): Float64Array {
    const kept = `${n} ${key}`;
    const before = this.kept.get(kept);
    if (before) return before;
    const out = new Float64Array(n);
    for (let block = 0; block * blockSize < n; block++) {
      const generator = xoroshiro128plus(mixed(mixed(this.seed, `block ${block} `), key));
      // The first numbers of this generator depend little on a small change of seed.
      for (let i = 0; i < 8; i++) generator.next();
      const end = Math.min(n, (block + 1) * blockSize);
      for (let i = block * blockSize; i < end; i++) {
        // Half a step off nought, so that the inverse stays finite.
        out[i] = law(uniformFloat64(generator) + 2 ** -54);
      }
    }
    this.kept.set(kept, out);
    return out;
  }
}
