import { expect, test } from "vitest";
import { changedSince, keyText, sayChange, stillGuessed } from "./keyed.ts";

const then = new Map([
  ["plover/nip.preload", "4.7 ±0.5 N"],
  ["plover/film.material", "PETG"],
  ["tapes/so8-12/film.seal", stillGuessed],
]);
const differs = (changes: readonly (readonly [string, string | undefined])[]): string[] => {
  const now = new Map<string, string>(then);
  for (const [address, text] of changes) text === undefined ? now.delete(address) : now.set(address, text);
  return changedSince(then, now).map(sayChange);
};

test("nothing changed retires nothing", () => {
  expect(differs([])).toEqual([]);
});
test("a dimension that changed is named with both its texts", () => {
  expect(differs([["plover/nip.preload", "5.2 ±0.5 N"]])).toEqual(["plover/nip.preload was 4.7 ±0.5 N, is 5.2 ±0.5 N"]);
});
test("another material is another trial", () => {
  expect(differs([["plover/film.material", "POM"]])).toHaveLength(1);
});
test("a guess that was narrowed retires nothing", () => {
  expect(differs([["tapes/so8-12/film.seal", "0.41 N measured"]])).toEqual([]);
});
test("the same number written for one width alone retires nothing, another one does", () => {
  const at = "plover/per width.24.nip.preload";
  expect(
    differs([
      ["plover/nip.preload", undefined],
      [at, "4.7 ±0.5 N"],
    ]),
  ).toEqual([]);
  expect(
    differs([
      ["plover/nip.preload", undefined],
      [at, "5.2 N"],
    ]),
  ).toEqual(["plover/nip.preload was 4.7 ±0.5 N, is 5.2 N"]);
});
test("a dimension that is gone or new is said", () => {
  expect(
    differs([
      ["plover/film.material", undefined],
      ["plover/nip.spring.rate", "2 N/mm"],
    ]),
  ).toEqual(["plover/film.material is gone; it was PETG", "plover/nip.spring.rate is new: 2 N/mm"]);
});
test("a tape's number never stands for a unit's of the same name", () => {
  expect(changedSince(new Map([["tapes/a/W", "12 mm"]]), new Map([["tapes/b/W", "12 mm"]]))).toHaveLength(2);
});
test("the text to be hashed is the same in any order, and tells two keys apart that run together", () => {
  expect(keyText(new Map([...then].reverse()))).toBe(keyText(then));
  expect(keyText(new Map([["a", "b=c"]]))).not.toBe(keyText(new Map([["a=b", "c"]])));
});
