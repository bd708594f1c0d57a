import { expect, test } from "vitest";
import { exampleFolder } from "./cli.fixture.ts";
import { readFolder } from "./folder.ts";
import { BadProject, load, varied } from "./load.ts";

const texts = readFolder(exampleFolder);
const project = load(texts);

test("varying a number changes one line of one file, in memory only", () => {
  const after = varied(texts, project, ["plover/nip.preload=5.0 ±0.2 N"]);
  const [a, b] = [texts.get("units/plover.yaml")!.split("\n"), after.get("units/plover.yaml")!.split("\n")];
  const changed = a.flatMap((line, i) => (line === b[i] ? [] : [[line, b[i]]]));
  expect(changed).toEqual([["  preload: 4.7 ±0.5 N", "  preload: 5.0 ±0.2 N"]]);
  for (const [path, text] of texts) if (path !== "units/plover.yaml") expect(after.get(path)).toBe(text);
});
test("varying an override of one width leaves the family's value", () => {
  const after = varied(texts, project, ["plover/per width.24.nip.preload=6 ±0.5 N"]);
  expect(after.get("units/plover.yaml")).toContain("24: {nip.preload: 6 ±0.5 N, mount.slots: 3}");
  expect(after.get("units/plover.yaml")).toContain("  preload: 4.7 ±0.5 N");
});
test("an assumption is varied through project.yaml, and read back as that", () => {
  const after = varied(texts, project, ["assume/mismatch limit=2.0 % measured"]);
  const limit = load(after).requirement.assume["mismatch limit"];
  expect([limit.text, limit.letter, limit.unknown]).toEqual(["2.0 % measured", "m", undefined]);
});
test("two wishes go through one after the other", () => {
  const after = varied(texts, project, [
    "assume/mismatch limit=2.0 %",
    "assume/splice thickness=0.1 mm",
    "plover/let.gap=0.8 ±0.1 mm",
  ]);
  const now = load(after);
  expect(now.requirement.assume["splice thickness"].text).toBe("0.1 mm");
  expect(now.givens.get("plover/let.gap")?.text).toBe("0.8 ±0.1 mm");
});
test.each([
  [
    "plover/nip.preload",
    '"plover/nip.preload" is no ADDRESS=VALUE. For example: --vary "plover/nip.preload=5 ±0.5 N".',
  ],
  ["plover/nip.preloud=5 N", 'There is no number at "plover/nip.preloud". Did you mean "plover/nip.preload"?'],
  [
    "catalogue/seal=0.4 N",
    '"catalogue/seal" is the catalogue\'s. Give the number in the tape\'s file; "tapeworthy why CHECK --tape TAPE" shows where it enters.',
  ],
  ["tapes/dpak-16/T=0.3 mm", '"tapes/dpak-16/T" stands in no file yet: add "T: 0.3 mm" to tapes/dpak-16.yaml.'],
])("the wish %s is refused with its way out", (wish, message) => {
  expect(() => varied(texts, project, [wish])).toThrow(message);
});
test("a varied value is refused as if it stood in the file, with line and column", () => {
  try {
    varied(texts, project, ["plover/nip.preload=5"]);
    expect.unreachable();
  } catch (e) {
    expect(e).toBeInstanceOf(BadProject);
    expect((e as BadProject).text()).toMatch(/^units\/plover\.yaml:\d+:12: found 5 without a unit, expected a force\n/);
  }
});
