import type { Steps } from "@tapeworthy/core";

const size = 32_768;

/** Numbers that grow by blocks: nothing is copied until the whole is asked for, so no step of the growing is long. */
export class NumberBlocks {
  private readonly blocks: Float64Array[] = [];
  private block = new Float64Array(0);
  private at = size;
  length = 0;
  push(value: number): void {
    if (this.at === size) {
      this.block = new Float64Array(size);
      this.blocks.push(this.block);
      this.at = 0;
    }
    this.block[this.at++] = value;
    this.length++;
  }
  set(row: number, value: number): void {
    this.blocks[Math.floor(row / size)]![row % size] = value;
  }
  get(row: number): number {
    return this.blocks[Math.floor(row / size)]![row % size]!;
  }
  *joined(): Steps<Float64Array> {
    const out = new Float64Array(this.length);
    for (let i = 0; i < this.blocks.length; i++) {
      const from = i * size;
      out.set(this.blocks[i]!.subarray(0, Math.min(size, this.length - from)), from);
      yield undefined;
    }
    return out;
  }
}

/** Texts by number: each different text is kept once. */
export class WordBlocks {
  readonly words: string[] = [];
  private readonly known = new Map<string, number>();
  private readonly byBytes = new Map<number, { readonly bytes: Uint8Array; readonly code: number }[]>();
  readonly codes = new NumberBlocks();
  readonly most: number;
  /** Cells whose text came after the last that is kept. */
  left = 0;
  constructor(most: number) {
    this.most = most;
  }
  push(text: string): number {
    const code = this.codeOf(text);
    this.codes.push(code);
    return code;
  }
  codeOf(text: string): number {
    if (text === "") return -1;
    const before = this.known.get(text);
    if (before !== undefined) return before;
    if (this.words.length >= this.most) {
      this.left++;
      return -1;
    }
    this.words.push(text);
    this.known.set(text, this.words.length - 1);
    return this.words.length - 1;
  }
  /** The same for bytes, without making a text of those that have been met. */
  codeOfBytes(b: Uint8Array, from: number, to: number, decode: () => string): number {
    let hash = 2166136261;
    for (let i = from; i < to; i++) hash = Math.imul(hash ^ b[i]!, 16777619);
    const list = this.byBytes.get(hash);
    for (const one of list ?? []) {
      if (one.bytes.length !== to - from) continue;
      let i = 0;
      while (i < one.bytes.length && one.bytes[i] === b[from + i]) i++;
      if (i === one.bytes.length) return one.code;
    }
    const code = this.codeOf(decode());
    if (code >= 0) {
      const entry = { bytes: b.slice(from, to), code };
      if (list) list.push(entry);
      else this.byBytes.set(hash, [entry]);
    }
    return code;
  }
}
