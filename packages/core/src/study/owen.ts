/** A 32-bit word read from its other end. */
export function reversed(x: number): number {
  let r = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1);
  r = ((r >>> 2) & 0x33333333) | ((r & 0x33333333) << 2);
  r = ((r >>> 4) & 0x0f0f0f0f) | ((r & 0x0f0f0f0f) << 4);
  r = ((r >>> 8) & 0x00ff00ff) | ((r & 0x00ff00ff) << 8);
  return (r >>> 16) | (r << 16);
}

/**
 * Owen's scrambling by a hash, of a word that stands reversed (its leading binary digit last): digit k of the result is digit k of x, turned
 * over or not by what x's digits before it and the seed say.
 *
 * So two points that share an interval [a 2^-m, (a + 1) 2^-m) share one after it too, and nets stay nets; and every point lies anywhere with
 * the same chance, so averages over scrambled points are without bias. Each step adds or multiplies towards higher bits alone: Laine & Karras
 * 2011, with the constants of Burley 2020 (memory). It is a hash, not Owen's independent digits: its scrambles are 2^32.
 */
export function owen(x: number, seed: number): number {
  let h = (x + seed) | 0;
  h ^= Math.imul(h, 0x6c50b47c);
  h ^= Math.imul(h, 0xb82f1e52);
  h ^= Math.imul(h, 0xc7afe638);
  h ^= Math.imul(h, 0x8d22f6e6);
  return h;
}
