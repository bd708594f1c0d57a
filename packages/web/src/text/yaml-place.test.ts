import { describe, expect, test } from "vitest";
import { yamlPlace } from "./yaml-place.ts";

/** The place of the bar in a text. */
function at(text: string) {
  const cursor = text.indexOf("|");
  return yamlPlace(text.replace("|", ""), cursor);
}
const key = (path: unknown[], begun = "") => ({ path, writes: "key", begun });
const value = (path: unknown[], begun = "") => ({ path, writes: "value", begun });

describe("in blocks", () => {
  test.each([
    ["|", key([])],
    ["uni|", key([], "uni")],
    ["unit: Plo|", value(["unit"], "Plo")],
    ["tape:\n  rests on: |", value(["tape", "rests on"])],
    ["tape:\n  section:\n    wid|", key(["tape", "section"], "wid")],
    ["tape:\n  section:\n    width: W\n  ro|", key(["tape"], "ro")],
    ["tape:\n  section:\n    width: W\nfi|", key([], "fi")],
    ["tape:\n  # a comment\n\n  section:   # and one more\n    l|", key(["tape", "section"], "l")],
    ['"built for":\n  24: |', value(["built for", "24"])],
  ])("%j", (text, place) => expect(at(text)).toEqual(place));
});
describe("in lists", () => {
  test.each([
    ["guides:\n  - na|", key(["guides", 0], "na")],
    ["guides:\n  - name: a\n    radius: 2 mm\n  - name: b\n    ra|", key(["guides", 1], "ra")],
    ["route:\n  - line: 1 mm\n  - arc:\n      radius: |", value(["route", 1, "arc", "radius"])],
    ["route:\n  - line: 1 mm\n  - |", key(["route", 1])],
  ])("%j", (text, place) => expect(at(text)).toEqual(place));
});
describe("in brackets", () => {
  test.each([
    ["nip:\n  rollers: {ra|", key(["nip", "rollers"], "ra")],
    ["nip:\n  rollers: {radius: 5 mm, |", key(["nip", "rollers"])],
    ["nip:\n  rollers: {radius: [5 mm, |", value(["nip", "rollers", "radius", 1])],
    ["guides:\n  - {name: nip, through: [1 mm, 2 mm], al|", key(["guides", 0], "al")],
    ["guides:\n  - {name: nip, kind: |", value(["guides", 0, "kind"])],
    ["hold-down: {kind: le|", value(["hold-down", "kind"], "le")],
  ])("%j", (text, place) => expect(at(text)).toEqual(place));
  test("that are closed again the line goes on as before", () => {
    expect(at("nip:\n  axis: [1 mm, 2 mm]\n  pre|")).toEqual(key(["nip"], "pre"));
  });
});
test("in a comment there is nothing to write", () => {
  expect(at("nip:   # the rol|")).toBeUndefined();
  expect(at("# nip: |")).toBeUndefined();
});
