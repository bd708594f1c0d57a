import type { Comparison, Ladder } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { comparisonHeadline, comparisonHtml } from "./comparison.ts";
import { elementsOf } from "./example.fixture.ts";

const ladder = {} as Ladder;
const unit = (name: string, more: Partial<Comparison["units"][number]> = {}): Comparison["units"][number] => ({
  unit: name.toLowerCase(),
  name,
  revision: "B",
  feedsTo: 16.64,
  endedBy: [{ check: "film.mismatch", W: 16.64 }],
  says: "",
  ladder,
  ...more,
});
const comparison: Comparison = {
  from: 8,
  to: 32,
  rows: [8, 12, 16, 24, 32],
  units: [unit("Wren"), unit("Stint", { feedsTo: 32, endedBy: [] })],
  tapes: [
    {
      tape: "so20-24",
      W: 24,
      cells: [
        { unit: "wren", verdict: "stops", share: 0, first: "film.mismatch", because: "" },
        { unit: "stint", verdict: "feeds", share: 1, first: null, because: null },
      ],
    },
    {
      tape: "paper-8",
      W: 8,
      cells: [null, { unit: "stint", verdict: "depends", share: 0.4, first: "nip.pulls", because: "" }],
    },
  ],
  separates: [
    {
      check: "film.mismatch",
      title: "fibres of the film do not differ too much",
      tape: "so20-24",
      W: 24,
      values: [{ unit: "wren", verdict: "stops", value: 0.034, in: "1", ratio: 1.7 }, null],
    },
  ],
  mount: [],
};
const words = (html: string): string => html.replace(/<[^>]*>/g, " ").replace(/\s+/g, " ");

describe("the headline", () => {
  test("says of each unit up to where it feeds and what ends it", () => {
    expect(comparisonHeadline(comparison)).toBe(
      "Wren feeds to 16.6 mm, where mismatch ends it. Stint feeds all of its widths.",
    );
  });
  test("says of a unit that does not feed its least width what is open there, and of one without a ladder that it has none", () => {
    const units = [unit("Wren", { feedsTo: null }), unit("Stint", { ladder: null })];
    expect(comparisonHeadline({ ...comparison, units })).toBe(
      "Wren does not feed from its least width: mismatch is open there. Stint has no ladder.",
    );
  });
});
describe("the tables", () => {
  const html = comparisonHtml(comparison, { link: (u, tape, check) => `#${u}/${tape}/${check ?? ""}` });
  test("are well formed; a tape that a unit does not serve says so and leads nowhere", () => {
    elementsOf(html);
    expect(words(html)).toContain("24 so20-24 stops, mismatch feeds 8 paper-8 not served depends 40 %, pulls");
    expect(html).toContain('href="#wren/so20-24/film.mismatch"');
    expect(html).not.toContain("#wren/paper-8");
  });
  test("show what parts them, on which tape, with each value", () => {
    expect(words(html)).toMatch(/Mismatch fibres of the film do not differ too much; on so20-24 3\.4 % not applicable/);
  });
  test("say it where nothing parts them", () => {
    expect(words(comparisonHtml({ ...comparison, separates: [] }))).toContain("nothing: no check parts them");
  });
});
