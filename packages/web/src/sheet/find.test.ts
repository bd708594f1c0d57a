import { expect, test } from "vitest";
import { find } from "./find.ts";

const all = [
  { kind: "check", name: "nip.slips", note: "the nip slips before the film breaks", to: 1 },
  { kind: "number", name: "nip.preload", note: "5.2 ±0.5 N, units/plover.yaml:36:21", to: 2 },
  { kind: "part", name: "nip upper", note: "part nip", to: 3 },
  { kind: "check", name: "film.mismatch", note: "fibres of the film differ in length", to: 4 },
  { kind: "tape", name: "so20-24", note: "24 mm, SOIC-20 wide", to: 5 },
];
const found = (question: string) => find(all, question).map(({ to }) => to);

test("a name that begins with the question comes before a note that holds it", () => {
  expect(found("nip")).toEqual([1, 2, 3]);
  expect(found("film")).toEqual([4, 1]);
});
test("a name with the word inside comes before one with the letters inside", () => {
  expect(found("mismatch")).toEqual([4]);
  expect(find([{ kind: "", name: "unslips", note: "", to: 0 }, all[0]!], "slips").map(({ to }) => to)).toEqual([1, 0]);
});
test("every word has to be there, in any order and letter case", () => {
  expect(found("preload NIP")).toEqual([2]);
  expect(found("nip wheel")).toEqual([]);
});
test("signs of the question mean themselves", () => {
  expect(found("±0.5")).toEqual([2]);
  expect(found("(")).toEqual([]);
});
test("an empty question finds everything, up to as many as asked for", () => {
  expect(found("  ")).toEqual([1, 2, 3, 4, 5]);
  expect(find(all, "", 2)).toHaveLength(2);
});
