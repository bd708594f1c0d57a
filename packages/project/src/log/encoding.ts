/**
 * Bytes of a text in any of four encodings, as bytes in which every sign of a table (digits, separators, line ends) is one ASCII byte: UTF-8
 * and Latin-1 stay what they are, UTF-16 and strings become UTF-8. Which of the two a text is shows at its first byte above 127.
 */
export const encodings = ["utf-8", "utf-16le", "utf-16be", "latin-1"] as const;
export type Encoding = (typeof encodings)[number];

/** The encoding that a beginning shows, and how many bytes its mark takes. */
export function encodingOf(head: Uint8Array): { encoding: Encoding; mark: number; certain: boolean } {
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) return { encoding: "utf-8", mark: 3, certain: true };
  if (head[0] === 0xff && head[1] === 0xfe) return { encoding: "utf-16le", mark: 2, certain: true };
  if (head[0] === 0xfe && head[1] === 0xff) return { encoding: "utf-16be", mark: 2, certain: true };
  // Without a mark every other byte of plain text in UTF-16 is 0.
  const n = Math.min(head.length, 512) & ~1;
  let even = 0;
  let odd = 0;
  for (let i = 0; i < n; i += 2) {
    if (head[i] === 0) even++;
    if (head[i + 1] === 0) odd++;
  }
  if (n >= 8 && odd > 0.45 * n && even === 0) return { encoding: "utf-16le", mark: 0, certain: false };
  if (n >= 8 && even > 0.45 * n && odd === 0) return { encoding: "utf-16be", mark: 0, certain: false };
  return { encoding: "utf-8", mark: 0, certain: false };
}

/** Turns chunks into ASCII-compatible bytes; a character cut in two by a chunk's end is put together again. */
export class Transcoder {
  private readonly encoding: Encoding | "string";
  private held = -1;
  private high = 0;
  constructor(encoding: Encoding | "string") {
    this.encoding = encoding;
  }
  bytes(chunk: Uint8Array | string): Uint8Array {
    if (typeof chunk === "string") {
      const out = new Uint8Array(chunk.length * 3 + 3);
      let at = 0;
      for (let i = 0; i < chunk.length; i++) at = this.put(chunk.charCodeAt(i), out, at);
      return out.subarray(0, at);
    }
    if (this.encoding === "utf-8" || this.encoding === "latin-1" || this.encoding === "string") return chunk;
    const out = new Uint8Array(chunk.length * 2 + 6);
    let at = 0;
    for (const byte of chunk) {
      if (this.held < 0) {
        this.held = byte;
        continue;
      }
      const unit = this.encoding === "utf-16le" ? this.held | (byte << 8) : (this.held << 8) | byte;
      this.held = -1;
      at = this.put(unit, out, at);
    }
    return out.subarray(0, at);
  }
  /** Whether half a character is left over. */
  get cut(): boolean {
    return this.held >= 0 || this.high > 0;
  }
  private put(unit: number, out: Uint8Array, start: number): number {
    let at = start;
    if (this.high > 0) {
      const high = this.high;
      this.high = 0;
      if (unit >= 0xdc00 && unit < 0xe000) return putCode(0x10000 + ((high - 0xd800) << 10) + (unit - 0xdc00), out, at);
      at = putCode(0xfffd, out, at);
    }
    if (unit >= 0xd800 && unit < 0xdc00) {
      this.high = unit;
      return at;
    }
    return putCode(unit >= 0xdc00 && unit < 0xe000 ? 0xfffd : unit, out, at);
  }
}
function putCode(code: number, out: Uint8Array, start: number): number {
  let at = start;
  if (code < 0x80) out[at++] = code;
  else if (code < 0x800) {
    out[at++] = 0xc0 | (code >> 6);
    out[at++] = 0x80 | (code & 63);
  } else if (code < 0x10000) {
    out[at++] = 0xe0 | (code >> 12);
    out[at++] = 0x80 | ((code >> 6) & 63);
    out[at++] = 0x80 | (code & 63);
  } else {
    out[at++] = 0xf0 | (code >> 18);
    out[at++] = 0x80 | ((code >> 12) & 63);
    out[at++] = 0x80 | ((code >> 6) & 63);
    out[at++] = 0x80 | (code & 63);
  }
  return at;
}

/** What a run of bytes above 127 can be: characters of UTF-8, or not. */
export function highBytes(b: Uint8Array, from: number, to: number): { utf8: number; other: number } {
  let utf8 = -1;
  let other = -1;
  for (let i = from; i < to; ) {
    const length = b[i]! < 0x80 ? 1 : utf8Length(b, i, to);
    if (length === 0) {
      if (other < 0) other = i;
      i++;
    } else {
      if (length > 1 && utf8 < 0) utf8 = i;
      i += length;
    }
  }
  return { utf8, other };
}
/** Bytes of the character at `i`, or 0 where it is no UTF-8. */
function utf8Length(b: Uint8Array, i: number, to: number): number {
  const c = b[i]!;
  if (c < 0x80) return 1;
  const n = c >= 0xf0 && c < 0xf5 ? 4 : c >= 0xe0 && c < 0xf0 ? 3 : c >= 0xc2 && c < 0xe0 ? 2 : 0;
  if (n === 0 || i + n > to) return 0;
  for (let k = 1; k < n; k++) if ((b[i + k]! & 0xc0) !== 0x80) return 0;
  if (c === 0xe0 && b[i + 1]! < 0xa0) return 0;
  if (c === 0xed && b[i + 1]! > 0x9f) return 0;
  if (c === 0xf0 && b[i + 1]! < 0x90) return 0;
  if (c === 0xf4 && b[i + 1]! > 0x8f) return 0;
  return n;
}
/** Bytes as text. What is no UTF-8 where it should be becomes a replacement character. */
export function textOf(b: Uint8Array, from: number, to: number, latin: boolean): string {
  let out = "";
  for (let i = from; i < to; ) {
    const c = b[i]!;
    const n = latin || c < 0x80 ? 1 : utf8Length(b, i, to);
    if (n <= 1) {
      out += n === 0 ? "\ufffd" : String.fromCharCode(c);
      i++;
      continue;
    }
    let code = c & (0xff >> (n + 1));
    for (let k = 1; k < n; k++) code = (code << 6) | (b[i + k]! & 63);
    out += String.fromCodePoint(code);
    i += n;
  }
  return out;
}
