import { describe, expect, test } from "vitest";
import { type JournalRecord, journalHead, journalText, readJournal } from "./record.ts";
import { when } from "./text.fixture.ts";

const file = "units/wren.yaml";
const records: JournalRecord[] = [
  journalHead,
  { is: "base", file, text: "a\nb ±\n", there: true, ahead: [{ when, changes: [6], there: true, hash: "h" }] },
  { is: "step", of: "redo", file, gesture: "g", group: 3, changes: [[1, "x"], 5], back: [6], there: true },
  { is: "edit", when, file, gesture: "g", done: false, changes: [5, [0, "x", ""], 1], hash: "h", id: "1", makes: true },
  { is: "undo", when, gesture: "g", hashes: { [file]: "h" } },
  { is: "redo", when, gesture: "g", hashes: {} },
  { is: "skip", of: "undo", gesture: "g" },
  { is: "outside", when, file, changes: [[6]], there: false, hash: "h", aside: true },
  { is: "written", file, hash: "h", there: true },
  { is: "offer", id: "o", file, when, text: "x" },
  { is: "answer", id: "o", take: false },
];
const text = journalText(records);

test("every kind of record is read as it was written", () => {
  expect(readJournal(text)).toEqual({ records, whole: text });
});
test("an empty journal has no records and no fault", () => {
  expect(readJournal("")).toEqual({ records: [], whole: "" });
});
test("cut short anywhere, it gives the records that are whole and no fault", () => {
  for (let cut = 0; cut <= text.length; cut++) {
    const { records: read, whole, fault } = readJournal(text.slice(0, cut));
    expect(fault).toBeUndefined();
    expect(read).toEqual(records.slice(0, text.slice(0, cut).split("\n").length - 1));
    expect(whole).toBe(journalText(read));
  }
});
test("a last line of nothing but zeros, as a power cut leaves it, is no fault", () => {
  const { records: read, fault } = readJournal(`${text}${"\0".repeat(40)}\n`);
  expect([read.length, fault]).toEqual([records.length, undefined]);
});
test("a bad line before the last is a fault with its number, and nothing behind it is believed", () => {
  const lines = text.split("\n");
  lines[4] = lines[4]!.slice(0, 20);
  expect(readJournal(lines.join("\n"))).toEqual({
    records: records.slice(0, 4),
    whole: journalText(records.slice(0, 4)),
    fault: { line: 5, why: "it is not JSON" },
  });
});
describe("the first bad line is named", () => {
  const [head, ...rest] = records;
  test.each([
    ["without a head", journalText(rest), 1, "the journal's head is missing"],
    ["with two heads", journalText([head!, head!, ...rest]), 2, "the journal's head is missing"],
    ["of another format", text.replace('"format":1', '"format":2'), 1, 'it is no whole "journal" record'],
    ["of something else", "# notes\nmore\n", 1, "it is not JSON"],
    ["of an unknown record", text.replace('"is":"skip"', '"is":"toString"'), 7, "it is no record that is known here"],
    ["of a list", text.replace(/^.*"skip".*$/m, "[]"), 7, "it is no record that is known here"],
    ["of a file outside the project", text.replaceAll(file, "../evil.yaml"), 2, 'it is no whole "base" record'],
    [
      "of changes without sense",
      text.replace('[5,[0,"x",""],1]', '[-5,[0,"x",""],1]'),
      4,
      'it is no whole "edit" record',
    ],
    ["of a missing field", text.replace('"take":false', '"took":false') + text, 11, 'it is no whole "answer" record'],
  ])("%s", (_, journal, line, why) => expect(readJournal(journal).fault).toEqual({ line, why }));
});
