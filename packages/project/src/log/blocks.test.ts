import { finished } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { NumberBlocks, WordBlocks } from "./blocks.ts";
import { utf8 } from "./log.fixture.ts";

/** Rows of one block: what is tested lies on both sides of its end. */
const block = 32_768;
const filled = (n: number): NumberBlocks => {
  const blocks = new NumberBlocks();
  for (let i = 0; i < n; i++) blocks.push(i / 4);
  return blocks;
};

describe("numbers that grow by blocks", () => {
  test.each([0, block - 1, block, 2 * block + 3])("%d of them come out as they went in", (n) => {
    const blocks = filled(n);
    const joined = finished(blocks.joined());
    expect([blocks.length, joined.length]).toEqual([n, n]);
    expect(joined.findIndex((v, i) => v !== i / 4)).toBe(-1);
  });
  test("are read and changed on either side of a block's end", () => {
    const blocks = filled(2 * block);
    for (const row of [0, block - 1, block, 2 * block - 1]) {
      expect(blocks.get(row)).toBe(row / 4);
      blocks.set(row, -row - 1);
    }
    const joined = finished(blocks.joined());
    for (const row of [0, block - 1, block, 2 * block - 1])
      expect([blocks.get(row), joined[row]]).toEqual([-row - 1, -row - 1]);
    expect([joined[1], joined[block - 2], joined[block + 1]]).toEqual([1 / 4, (block - 2) / 4, (block + 1) / 4]);
  });
  test("keep a gap a gap, and the sign of a zero", () => {
    const blocks = new NumberBlocks();
    for (const v of [Number.NaN, -0, 5e-324]) blocks.push(v);
    expect([...finished(blocks.joined())]).toEqual([Number.NaN, -0, 5e-324]);
  });
  test("are put together with a pause after every block", () => {
    const steps = filled(2 * block + 1).joined();
    let pauses = 0;
    while (!steps.next().done) pauses++;
    expect(pauses).toBe(3);
  });
  test("put together once are a copy: they grow on without it", () => {
    const blocks = filled(3);
    const before = finished(blocks.joined());
    blocks.set(0, 9);
    blocks.push(7);
    expect([...before]).toEqual([0, 0.25, 0.5]);
    expect([...finished(blocks.joined())]).toEqual([9, 0.25, 0.5, 7]);
  });
});

const codeOf = (words: WordBlocks, text: string, decode = () => text): number => {
  const b = utf8(`<${text}>`);
  return words.codeOfBytes(b, 1, b.length - 1, decode);
};
describe("texts by number", () => {
  test("are numbered in the order in which they come first; nothing is no text", () => {
    const words = new WordBlocks(10);
    expect(["on", "off", "", "on", "dwell", "off"].map((w) => words.push(w))).toEqual([0, 1, -1, 0, 2, 1]);
    expect(words.words).toEqual(["on", "off", "dwell"]);
    expect([...finished(words.codes.joined())]).toEqual([0, 1, -1, 0, 2, 1]);
  });
  test("asked for by number only are known, but make no row", () => {
    const words = new WordBlocks(10);
    expect([words.codeOf("a"), words.codeOf("b"), words.push("b")]).toEqual([0, 1, 1]);
    expect([...finished(words.codes.joined())]).toEqual([1]);
  });
  test("beyond the most that are kept are gaps and counted, while those that are kept are still known", () => {
    const words = new WordBlocks(2);
    expect(["a", "b", "c", "a", "d", "", "c", "b"].map((w) => words.push(w))).toEqual([0, 1, -1, 0, -1, -1, -1, 1]);
    expect([words.words, words.left]).toEqual([["a", "b"], 3]);
  });
  test("have the same number whether they come as bytes or as text", () => {
    const words = new WordBlocks(10);
    expect([words.push("Jörg"), codeOf(words, "Ada"), codeOf(words, "Jörg"), words.push("Ada")]).toEqual([0, 1, 0, 1]);
    expect(codeOf(words, "")).toBe(-1);
    expect(words.words).toEqual(["Jörg", "Ada"]);
  });
  test("as bytes become a text once each, whatever becomes of the bytes", () => {
    const words = new WordBlocks(10);
    let decoded = 0;
    const buffer = utf8("on");
    const decode = (): string => {
      decoded++;
      return String.fromCharCode(...buffer);
    };
    const ask = (): number => words.codeOfBytes(buffer, 0, 2, decode);
    expect([ask(), ask(), ask()]).toEqual([0, 0, 0]);
    expect(decoded).toBe(1);
    // The reader's buffer goes on to the next chunk.
    buffer.set(utf8("up"));
    expect([ask(), codeOf(words, "on")]).toEqual([1, 0]);
  });
  // Words of one length with one 32-bit FNV-1a sum, found by trying words; the sum is worked out here once more.
  test("that have one sum by chance keep their own numbers", () => {
    const sum = (text: string): number =>
      [...utf8(text)].reduce((h, b) => Math.imul(h ^ b, 16_777_619), 2_166_136_261) >>> 0;
    expect([sum("dohililo"), sum("fibaliro")]).toEqual([0x0fbc72d9, 0x0fbc72d9]);
    const words = new WordBlocks(10);
    expect(["dohililo", "fibaliro", "dohililo", "fibaliro"].map((w) => codeOf(words, w))).toEqual([0, 1, 0, 1]);
  });
});
