import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { encodingOf, highBytes, Transcoder, textOf } from "./encoding.ts";
import { bytesOf, utf8 } from "./log.fixture.ts";

const seeded = { seed: 1, numRuns: 300 };
const utf16 = (text: string, big = false): Uint8Array =>
  Uint8Array.from(
    Array.from({ length: text.length }, (_, i) => text.charCodeAt(i)).flatMap((unit) =>
      big ? [unit >> 8, unit & 255] : [unit & 255, unit >> 8],
    ),
  );
/** All that a transcoder gives of a text that comes in pieces of so many bytes or characters. */
function inPieces(transcoder: Transcoder, of: Uint8Array | string, size: number): number[] {
  const out: number[] = [];
  for (let at = 0; at < of.length; at += size) out.push(...transcoder.bytes(of.slice(at, at + size)));
  return out;
}
/** Any code units, with characters of two units and halves of such among them; the full stop ends a half at the end. */
const units = fc
  .array(fc.oneof(fc.integer({ min: 0, max: 0xffff }), fc.integer({ min: 0xd7f0, max: 0xe00f })), { maxLength: 30 })
  .map((codes) => `${String.fromCharCode(...codes)}.`);

describe("the encoding of a beginning", () => {
  test.each([
    ["UTF-8", [0xef, 0xbb, 0xbf, 0x74], { encoding: "utf-8", mark: 3, certain: true }],
    ["UTF-16, low byte first", [0xff, 0xfe, 0x74, 0], { encoding: "utf-16le", mark: 2, certain: true }],
    ["UTF-16, high byte first", [0xfe, 0xff, 0, 0x74], { encoding: "utf-16be", mark: 2, certain: true }],
  ])("is certain by the mark of %s", (_, bytes, found) => {
    expect(encodingOf(Uint8Array.from(bytes))).toEqual(found);
  });
  test("shows without a mark by every other byte being 0, but is not certain then", () => {
    expect(encodingOf(utf16("t;F\n0;1\n"))).toEqual({ encoding: "utf-16le", mark: 0, certain: false });
    expect(encodingOf(utf16("t;F\n0;1\n", true))).toEqual({ encoding: "utf-16be", mark: 0, certain: false });
  });
  test("is not taken for UTF-16 by a 0 here and there, by zeros on both sides, or by less than eight bytes", () => {
    for (const bytes of [bytesOf("t;F\n0;\0\n1;2\n"), new Uint8Array(40), utf16("t;F"), new Uint8Array(0)])
      expect(encodingOf(bytes).encoding).toBe("utf-8");
  });
});

describe("a transcoder", () => {
  // What the platform's own encoder makes of the same text, halves of characters replaced.
  test("makes of UTF-16 in pieces of any size what UTF-8 makes of the text", () => {
    fc.assert(
      fc.property(units, fc.boolean(), fc.integer({ min: 1, max: 9 }), (text, big, size) => {
        const transcoder = new Transcoder(big ? "utf-16be" : "utf-16le");
        expect(inPieces(transcoder, utf16(text, big), size)).toEqual([...utf8(text)]);
        expect(transcoder.cut).toBe(false);
      }),
      seeded,
    );
  });
  test("makes of strings in pieces of any size what UTF-8 makes of the whole", () => {
    fc.assert(
      fc.property(units, fc.integer({ min: 1, max: 5 }), (text, size) => {
        expect(inPieces(new Transcoder("string"), text, size)).toEqual([...utf8(text)]);
      }),
      seeded,
    );
  });
  test("leaves UTF-8 and Latin-1 as they are", () => {
    const bytes = Uint8Array.of(0x4a, 0xf6, 0xc3, 0xb6, 0xff);
    for (const encoding of ["utf-8", "latin-1"] as const) expect(new Transcoder(encoding).bytes(bytes)).toBe(bytes);
  });
  // U+1F4CF is d83d dccf in UTF-16 and f0 9f 93 8f in UTF-8. [derived]
  test("tells that half a character is left over, until the other half comes", () => {
    const transcoder = new Transcoder("utf-16le");
    const seen = [0x3d, 0xd8, 0xcf, 0xdc].map((byte) => [[...transcoder.bytes(Uint8Array.of(byte))], transcoder.cut]);
    expect(seen).toEqual([
      [[], true],
      [[], true],
      [[], true],
      [[0xf0, 0x9f, 0x93, 0x8f], false],
    ]);
  });
});

/** Bytes, many of which are part of a character of UTF-8. */
const bytes = fc
  .array(
    fc.oneof(
      fc.uint8Array({ maxLength: 3 }),
      fc.string({ unit: "binary", maxLength: 3 }).map(utf8),
      fc.constantFrom(
        ...[
          [0xc0, 0xaf],
          [0xe0, 0x9f, 0xbf],
          [0xed, 0xa0, 0x80],
          [0xf0, 0x8f, 0x80, 0x80],
          [0xf4, 0x90, 0x80, 0x80],
        ],
      ),
    ),
    { maxLength: 8 },
  )
  .map((parts) => Uint8Array.from(parts.flatMap((part) => [...part])));
const isUtf8 = (b: Uint8Array): boolean => {
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(b);
    return true;
  } catch {
    return false;
  }
};

describe("bytes above 127", () => {
  // The platform's own decoder is the judge: overlong forms, halves of characters and codes above U+10FFFF are none.
  test("are other than UTF-8 exactly where a strict decoder stops", () => {
    fc.assert(
      fc.property(bytes, (b) => {
        const { other } = highBytes(b, 0, b.length);
        expect(other < 0).toBe(isUtf8(b));
        if (other >= 0) expect(isUtf8(b.slice(0, other))).toBe(true);
      }),
      seeded,
    );
  });
  test("are told by the place of the first of either kind, within the piece that is asked about", () => {
    // "a", "ö" in UTF-8, "b", "ö" in Latin-1, "c"
    const b = Uint8Array.of(0x61, 0xc3, 0xb6, 0x62, 0xf6, 0x63);
    expect(highBytes(b, 0, 6)).toEqual({ utf8: 1, other: 4 });
    expect(highBytes(b, 3, 6)).toEqual({ utf8: -1, other: 4 });
    expect(highBytes(b, 3, 4)).toEqual({ utf8: -1, other: -1 });
    // The piece ends within the first "ö".
    expect(highBytes(b, 0, 2)).toEqual({ utf8: -1, other: 1 });
  });
});

describe("the text of bytes", () => {
  test("comes back from UTF-8", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        const b = utf8(text);
        expect(textOf(b, 0, b.length, false)).toBe(text);
      }),
      seeded,
    );
  });
  test("of Latin-1 is one character a byte, whatever the bytes would be in UTF-8", () => {
    const all = Uint8Array.from({ length: 256 }, (_, i) => i);
    expect([...textOf(all, 0, 256, true)].map((c) => c.charCodeAt(0))).toEqual([...all]);
    expect(textOf(utf8("ö"), 0, 2, true)).toBe("Ã¶");
  });
  test("holds a replacement for each byte that is no UTF-8, and goes on behind it", () => {
    expect(textOf(Uint8Array.of(0x61, 0xf6, 0x62, 0xc3), 0, 4, false)).toBe("a\ufffdb\ufffd");
    expect(textOf(bytesOf("abcd"), 1, 3, false)).toBe("bc");
  });
});
