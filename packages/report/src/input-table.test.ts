import { expect, test } from "vitest";
import { inputLines } from "./input-table.ts";
import { example, inputOf, judgedAsWritten } from "./report.fixture.ts";
import { unitParts } from "./unit-part.ts";

const input = inputOf(example, judgedAsWritten(example, new Map([["plover", ["sensor-8", "so20-24"]]])));
const lines = inputLines(unitParts(input)[0]!, input);

test("each number stands once, with its text as the file has it", () => {
  expect(new Set(lines.map((l) => l.address)).size).toBe(lines.length);
  expect(lines.find((l) => l.address === "plover/film.friction")).toMatchObject({
    text: "0.18..0.35 guess",
    letter: "g",
    place: expect.stringMatching(/^units\/plover\.yaml:\d+:\d+$/),
  });
});
test("guesses come first, then what was measured, then drawings", () => {
  const order = lines.map((l) => "gmd".indexOf(l.letter));
  expect([...order].sort((a, b) => a - b)).toEqual(order);
  expect(new Set(order).size).toBe(3);
});
test("a number names the checks that rest on it", () => {
  const preload = lines.find((l) => l.address === "plover/nip.preload")!;
  expect(preload.checks).toEqual(expect.arrayContaining(["nip.pulls", "nip.slips"]));
  expect(preload.checks).not.toContain("groove.depth");
});
test("an unknown names the tapes it decides", () => {
  const friction = lines.find((l) => l.address === "plover/film.friction")!;
  expect(friction.decides.length).toBeGreaterThan(0);
  expect(new Set(friction.decides.map((d) => d.tape))).toEqual(new Set(["sensor-8", "so20-24"]));
});
