/**
 * SHA-256 of bytes that come in pieces, in hexadecimal digits: a log is told by it without ever lying whole in memory, which the browser's own
 * digest asks for.
 *
 *     W_t = M_t, t < 16;  W_t = s1(W_t-2) + W_t-7 + s0(W_t-15) + W_t-16      64 rounds a block of 64 bytes, sums modulo 2^32
 *
 * FIPS 180-4, sections 4.1.2, 5.1.1, 6.2 (memory). The constants are the first 32 bits of the fractional parts of roots of the first primes: square
 * roots of 8 for the beginning, cube roots of 64 for the rounds. Holds up to 2^53 bytes.
 */
export class Sha256 {
  private readonly state = Int32Array.from(primes(8), (p) => fraction(BigInt(p), 2n));
  private readonly block = new Uint8Array(64);
  private readonly words = new Int32Array(64);
  private held = 0;
  private bytes = 0;

  update(piece: Uint8Array): this {
    this.bytes += piece.length;
    let at = 0;
    if (this.held > 0) {
      at = Math.min(64 - this.held, piece.length);
      this.block.set(piece.subarray(0, at), this.held);
      this.held += at;
      if (this.held < 64) return this;
      this.round(this.block, 0);
      this.held = 0;
    }
    for (; at + 64 <= piece.length; at += 64) this.round(piece, at);
    this.block.set(piece.subarray(at), 0);
    this.held = piece.length - at;
    return this;
  }
  /** The hash of all that came; nothing may come after it. */
  digest(): string {
    const { bytes, held } = this;
    const end = new Uint8Array(held < 56 ? 64 : 128);
    end.set(this.block.subarray(0, held));
    end[held] = 0x80;
    const view = new DataView(end.buffer);
    view.setUint32(end.length - 8, Math.floor(bytes / 2 ** 29));
    view.setUint32(end.length - 4, (bytes * 8) % 2 ** 32);
    for (let at = 0; at < end.length; at += 64) this.round(end, at);
    return [...this.state].map((word) => (word >>> 0).toString(16).padStart(8, "0")).join("");
  }

  private round(data: Uint8Array, at: number): void {
    const { state, words: w } = this;
    for (let t = 0; t < 16; t++, at += 4)
      w[t] = (data[at]! << 24) | (data[at + 1]! << 16) | (data[at + 2]! << 8) | data[at + 3]!;
    for (let t = 16; t < 64; t++) {
      const x = w[t - 15]!;
      const y = w[t - 2]!;
      const s0 = ((x >>> 7) | (x << 25)) ^ ((x >>> 18) | (x << 14)) ^ (x >>> 3);
      const s1 = ((y >>> 17) | (y << 15)) ^ ((y >>> 19) | (y << 13)) ^ (y >>> 10);
      w[t] = (s1 + w[t - 7]! + s0 + w[t - 16]!) | 0;
    }
    let a = state[0]!;
    let b = state[1]!;
    let c = state[2]!;
    let d = state[3]!;
    let e = state[4]!;
    let f = state[5]!;
    let g = state[6]!;
    let h = state[7]!;
    for (let t = 0; t < 64; t++) {
      const S1 = ((e >>> 6) | (e << 26)) ^ ((e >>> 11) | (e << 21)) ^ ((e >>> 25) | (e << 7));
      const first = (h + S1 + ((e & f) ^ (~e & g)) + rounds[t]! + w[t]!) | 0;
      const S0 = ((a >>> 2) | (a << 30)) ^ ((a >>> 13) | (a << 19)) ^ ((a >>> 22) | (a << 10));
      const second = (S0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      h = g;
      g = f;
      f = e;
      e = (d + first) | 0;
      d = c;
      c = b;
      b = a;
      a = (first + second) | 0;
    }
    state[0]! += a;
    state[1]! += b;
    state[2]! += c;
    state[3]! += d;
    state[4]! += e;
    state[5]! += f;
    state[6]! += g;
    state[7]! += h;
  }
}

function primes(many: number): number[] {
  const found: number[] = [];
  for (let n = 2; found.length < many; n++) if (found.every((p) => n % p !== 0)) found.push(n);
  return found;
}
/** First 32 bits behind the point of a number's root, by whole numbers: exact. */
function fraction(n: bigint, root: 2n | 3n): number {
  const wanted = n << (32n * root);
  let [low, high] = [0n, n << 32n];
  while (low < high) {
    const middle = (low + high + 1n) >> 1n;
    if (middle ** root <= wanted) low = middle;
    else high = middle - 1n;
  }
  return Number(BigInt.asIntN(32, low));
}
const rounds = Int32Array.from(primes(64), (p) => fraction(BigInt(p), 3n));
