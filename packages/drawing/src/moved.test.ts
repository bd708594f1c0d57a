import { describe, expect, test } from "vitest";
import { elementsOf } from "./example.fixture.ts";
import { type MovedInput, movedHtml } from "./moved.ts";

const flip = (check: string | undefined, W = 24, tape = "so20-24"): MovedInput["flips"][number] => ({
  unit: "plover",
  tape,
  W,
  check,
  before: { verdict: "stops", share: 0 },
  after: { verdict: "depends", share: 0.41 },
});
const input: MovedInput = {
  flips: [flip("film.mismatch"), flip(undefined)],
  worse: 0,
  better: 2,
  settled: true,
  changes: [{ address: "plover/nip.preload", file: "units/plover.yaml", line: 36, before: "5.2 N", after: "7 N" }],
};
const words = (html: string): string => html.replace(/<[^>]*>/g, " ").replace(/\s+/g, " ");

describe("the panel of a change", () => {
  test("is well formed and says what was changed, how many verdicts turned and which", () => {
    const html = movedHtml(input);
    elementsOf(html);
    expect(words(html)).toContain("2 better, worst first");
    expect(words(html)).toMatch(/nip preload from 5.2 N → to 7 N/);
    expect(words(html)).toMatch(/24 mismatch so20-24 stops → depends 41 %/);
    expect(words(html)).toContain("the whole tape so20-24");
  });
  test("says that nothing turned only once all is worked out", () => {
    const none = { ...input, flips: [], better: 0 };
    expect(words(movedHtml(none))).toContain("no verdict turns");
    expect(words(movedHtml({ ...none, settled: false }))).toContain("no verdict has turned yet");
  });
  test("counts what it leaves out", () => {
    const many = { ...input, flips: Array.from({ length: 15 }, (_, i) => flip(`a.b${i}`)) };
    expect(words(movedHtml(many, { most: 12 }))).toContain("and 3 more");
  });
  test("has a button for each act and a link for each cell, where a page has such", () => {
    const html = movedHtml(input, {
      link: (unit, tape, check) => `#${unit}/${tape}/${check ?? ""}`,
      act: [{ name: "only-width", words: "Write it for 24 mm only" }],
    });
    expect(html).toContain('<button type="button" data-act="only-width">Write it for 24 mm only</button>');
    expect(html).toContain('href="#plover/so20-24/film.mismatch"');
    expect(movedHtml(input)).not.toContain("<button");
  });
  test("escapes what a file says", () => {
    const html = movedHtml({ ...input, changes: [{ ...input.changes[0]!, after: "<b>" }] });
    expect(html).not.toContain("<b>");
    elementsOf(html);
  });
});
