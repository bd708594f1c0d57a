import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, test } from "vitest";
import { Sha256 } from "./sha256.ts";

const of = (text: string): string => new Sha256().update(new TextEncoder().encode(text)).digest();

// FIPS 180-2, appendix B.1 and B.2, and the empty message. [memory]
test("the standard's examples have the standard's hashes", () => {
  expect(of("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  expect(of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")).toBe(
    "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
  );
  expect(of("")).toBe("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
});
// Against the system's own, which shares no code with it.
test("bytes in pieces have the hash that they have in one", () => {
  fc.assert(
    fc.property(fc.array(fc.uint8Array({ maxLength: 200 }), { maxLength: 8 }), (pieces) => {
      const mine = new Sha256();
      const theirs = createHash("sha256");
      for (const piece of pieces) {
        mine.update(piece);
        theirs.update(piece);
      }
      expect(mine.digest()).toBe(theirs.digest("hex"));
    }),
  );
});
