import { expect, test } from "vitest";
import { elementsOf } from "./example.fixture.ts";
import { type KnownInput, type KnownRow, knownHtml } from "./known.ts";

const row = (more: Partial<KnownRow>): KnownRow => ({
  unit: "plover",
  tape: "so8-12",
  result: "runs",
  reelsRun: 310,
  reelsRefused: 1,
  share: 0.99,
  verdict: "feeds",
  standing: "reproduced",
  checks: [],
  ...more,
});
const input: KnownInput = {
  of: 3,
  reproduced: 1,
  open: 1,
  contradicted: ["tooth.skip"],
  lines: [
    row({}),
    row({ tape: "coil-12", share: 0.39, verdict: "depends", standing: "open" }),
    row({
      tape: "<b>",
      result: "runs",
      share: 0,
      verdict: "stops",
      standing: "contradicted",
      checks: ["tooth.skip"],
      reelsRun: null,
      reelsRefused: null,
    }),
  ],
  weighed: true,
  effective: 379.4,
};
const html = knownHtml(input);

test("the headline counts what comes out right and what stays open", () => {
  expect(html).toContain('<h1 class="headline">The checks reproduce 1 of the 3 things you know; 1 stays open</h1>');
  expect(html).toContain("belief is worth 379 of 1000 even draws");
});
test("each unit stands beside what the checks say, with a sign that is said aloud", () => {
  expect(elementsOf(html).filter((e) => e.attributes.scope === "row")).toHaveLength(3);
  for (const words of ["comes out right", "stays open", "contradicted", "1 of 310 reels refused", "depends 39 %"])
    expect(html).toContain(words);
  expect(html.indexOf("≠")).toBeGreaterThan(0);
});
test("a contradiction names its check and says that it stops no tape", () => {
  expect(html).toContain("The record contradicts tooth.skip");
  expect(html).toContain("stops no tape: it ranks only");
  expect(knownHtml({ ...input, contradicted: [] })).not.toContain("The record contradicts");
});
test("names with markup in them stay text", () => {
  expect(html).toContain("on &lt;b&gt;");
});
test("nothing known asks for a line in known.yaml", () => {
  expect(knownHtml({ ...input, of: 0, lines: [] })).toContain("Nothing is known yet");
});
test("trials that are taken are named, and one that contradicts is a finding, whether a unit is known or not", () => {
  const standing = { chance: 0.4, effective: 700, blames: "the model of nip.slips" };
  const taken = [
    { ...standing, trial: "T-01", state: "taken" as const, says: "taken in; its chance was 0.4" },
    {
      ...standing,
      trial: "T-02",
      state: "contradicts" as const,
      says: "the result contradicts the model of nip.slips",
    },
  ];
  for (const of of [3, 0]) {
    const text = knownHtml({ ...input, of, taken, retired: [{ trial: "T-03", says: "retired: a changed" }] });
    expect(text).toContain("Taken into belief besides: T-01.");
    expect(text).toContain("T-02 is taken, and the result contradicts the model of nip.slips.");
    expect(text).toContain("<p>T-03 was taken and is retired: a changed.</p>");
    expect(elementsOf(text).filter((e) => e.name === "h2").length).toBeGreaterThan(0);
  }
  expect(html).not.toContain("besides");
});
test("a record that is not weighed in says so", () => {
  expect(knownHtml({ ...input, weighed: false })).toContain("not weighed in");
});
test("a page sets the level of its headline", () => {
  expect(knownHtml(input, { level: 3 })).toMatch(/<h3 class="headline">.*<h4 class="part">/s);
});
